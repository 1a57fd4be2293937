package paper_test

import (
	"bytes"
	"testing"

	"haywarden/advice"
	"haywarden/agronomy/unit"
	"haywarden/outlook"
	"haywarden/paper"
)

func TestASeedOrderIsOnePageAndTheSameEachTime(t *testing.T) {
	date := unit.DateOf(2026, 6, 10)
	o, err := morning(date)
	if err != nil {
		t.Fatal(err)
	}
	var long, short int
	for _, f := range o.View.Farms {
		var stands []advice.StandAdvice
		plans := 0
		for _, list := range [][]*outlook.Stand{o.Stands, o.Stored} {
			for _, s := range list {
				if s.Farm.ID == f.ID {
					stands = append(stands, advice.StandAdvice{Stand: s, Pieces: advice.For(s, o)})
					plans += len(s.Plans)
				}
			}
		}
		pdf, err := paper.SeedOrder(f, o, stands, true)
		if err != nil {
			t.Fatal(err)
		}
		again, err := paper.SeedOrder(f, o, stands, true)
		if err != nil || !bytes.Equal(pdf, again) || pages(pdf) != 1 {
			t.Errorf("%s: %d pages, %v", f.Name, pages(pdf), err)
		}
		if plans > 0 {
			long = max(long, len(pdf))
		} else {
			short = max(short, len(pdf))
		}
	}
	if long <= short {
		t.Errorf("a list of seed has %d bytes, one of none %d", long, short)
	}
}
