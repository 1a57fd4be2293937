package advice

import (
	"math/rand/v2"
	"slices"
	"testing"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/outlook"
)

// A round is ordered by what can hurt someone, then by urgency, within it what acts before what sends
// someone to look, then by the share of the year's value lost a day, then by the closing date.
func TestARoundBeginsWithWhatCanHurtSomeone(t *testing.T) {
	s := &outlook.Stand{StandView: &book.StandView{Farm: &book.FarmView{}, InField: &book.FieldView{}}}
	piece := func(decision string, u Urgency, loss float64, errand bool, closing unit.Day) *Piece {
		p := &Piece{Decision: decision, Stand: s, Urgency: u, LossShare: loss, Errand: errand}
		if closing != 0 {
			p.Window = &Window{Late: closing}
		}
		return p
	}
	want := []*Piece{
		piece("heating hay", Safety, 0, false, 900),
		piece("dear and late", Today, 0.010, false, 800),
		piece("cheap and closing", Today, 0.002, false, 500),
		piece("cheap and open", Today, 0.002, false, 600),
		piece("cheap without an end", Today, 0.002, false, 0),
		piece("nothing lost", Today, 0, false, 300),
		piece("look today", Today, 0, true, 100),
		piece("this week", Week, 0.020, false, 100),
		piece("watch", Watch, 0.020, false, 100),
		piece("cannot say", Unjudged, 0, false, 0),
		piece("rest", Rest, 0, false, 0),
	}
	r := rand.New(rand.NewPCG(5, 6))
	for range 50 {
		got := slices.Clone(want)
		r.Shuffle(len(got), func(i, j int) { got[i], got[j] = got[j], got[i] })
		slices.SortStableFunc(got, rank)
		for i := range want {
			if got[i] != want[i] {
				t.Fatalf("place %d: %q, want %q", i+1, got[i].Decision, want[i].Decision)
			}
		}
	}
}

func TestLossesThatShowTheSameOrderNothing(t *testing.T) {
	s := &outlook.Stand{StandView: &book.StandView{Farm: &book.FarmView{}, InField: &book.FieldView{}}}
	a := &Piece{Stand: s, LossShare: 0.0041200000000000001, Window: &Window{Late: 20}}
	b := &Piece{Stand: s, LossShare: 0.0041200000000000009, Window: &Window{Late: 10}}
	if rank(a, b) <= 0 {
		t.Error("a last digit of a float goes before the closing date")
	}
}

func TestOfAnExclusivePairTheSecondGoes(t *testing.T) {
	for _, pair := range exclusive {
		left := reconcile([]*Piece{{Decision: pair[1]}, {Decision: pair[0]}, {Decision: "bale-now"}})
		if len(left) != 2 || left[0].Decision != pair[0] {
			t.Errorf("%v: %d pieces left, first %q", pair, len(left), left[0].Decision)
		}
	}
}
