package paper_test

import (
	"bytes"
	"strings"
	"testing"

	"haywarden/agronomy/unit"
	"haywarden/paper"
)

func TestALongTableGoesOverPagesAndIsTheSameEachTime(t *testing.T) {
	p := paper.Tabled{Title: "Shortlist", Says: "Fifty entries.", Notes: []string{"to mind"}, Tables: []paper.Table{{Title: "Entries", Head: []string{"Entry", "Yield", "Says"}, Right: []bool{false, true, false}}}}
	for range 90 {
		p.Tables[0].Rows = append(p.Tables[0].Rows, []string{"Aster", "5.10", strings.Repeat("a long word or two ", 12)})
	}
	a, err := paper.Tables(p, unit.DateOf(2026, 5, 19), true)
	if err != nil {
		t.Fatal(err)
	}
	b, err := paper.Tables(p, unit.DateOf(2026, 5, 19), true)
	if err != nil || !bytes.Equal(a, b) {
		t.Errorf("the same paper differs (%v)", err)
	}
	if n := pages(a); n < 3 || n > 12 {
		t.Errorf("%d pages", n)
	}
}
