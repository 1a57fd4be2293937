package paper_test

import (
	"bytes"
	"strings"
	"testing"

	"haywarden/advice"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/paper"
)

func TestEveryLotInStoreGetsALabelThatTellsItFromTheOthers(t *testing.T) {
	date := unit.DateOf(2026, 9, 8)
	o, err := morning(date)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range o.View.Farms {
		pdf, err := paper.SampleLabels(f, date, true)
		if err != nil {
			t.Fatal(err)
		}
		again, err := paper.SampleLabels(f, date, true)
		if err != nil || !bytes.Equal(pdf, again) {
			t.Errorf("%s: the same labels differ (%v)", f.Name, err)
		}
		lots := 0
		for _, fd := range f.Fields {
			for _, s := range fd.Stands {
				for _, c := range s.Cuts {
					if date-c.Day <= 400 {
						lots++
					}
				}
			}
		}
		if got, want := pages(pdf), max(1, (lots+7)/8); got != want {
			t.Errorf("%s: %d lots on %d pages, want %d", f.Name, lots, got, want)
		}
		if says := strings.Join(strings.Fields(textOf(t, pdf)), " "); lots > 0 && !strings.Contains(says, advice.WhatATestTells()) {
			t.Errorf("%s: the labels do not say what a test can tell", f.Name)
		}
	}
	empty, err := paper.SampleLabels(&book.FarmView{Farm: book.Farm{Name: "Nobody"}}, date, false)
	if err != nil || pages(empty) != 1 {
		t.Errorf("a farm without a cut: %v", err)
	}
}
