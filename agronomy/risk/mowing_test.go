package risk

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func spell(t *rapid.T) Spell {
	if rapid.Bool().Draw(t, "bell") {
		mean := rapid.Float64Range(50, 200).Draw(t, "mean")
		b, err := NewBell(mean, mean*rapid.Float64Range(0.05, 0.4).Draw(t, "cv"))
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	n := rapid.IntRange(1, 6).Draw(t, "n")
	l, err := NewListed(rapid.SliceOfN(rapid.Float64Range(0, 300), n, n).Draw(t, "acres"), split(t, n))
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func wrongs(t *rapid.T) Mowing {
	return Mowing{rapid.Float64Range(1, 100).Draw(t, "short"), rapid.Float64Range(1, 100).Draw(t, "over")}
}

func TestCostIsConvexAndLeastAtTheAnswer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, m := spell(t), wrongs(t)
		best, err := m.Best(s, math.Inf(1))
		if err != nil {
			t.Fatal(err)
		}
		a, b := rapid.Float64Range(0, 400).Draw(t, "a"), rapid.Float64Range(0, 400).Draw(t, "b")
		w := rapid.Float64Range(0, 1).Draw(t, "w")
		ca, cb := m.Cost(s, a), m.Cost(s, b)
		if between := m.Cost(s, w*a+(1-w)*b); between > w*ca+(1-w)*cb+1e-6 {
			t.Fatalf("between %g and %g acres it costs %g, over the chord %g", a, b, between, w*ca+(1-w)*cb)
		}
		if ca < best.Cost-1e-3 {
			t.Fatalf("%g acres cost %g and the answer, %g, costs %g", a, ca, best.Acres, best.Cost)
		}
	})
}

func TestMoreCapacityNeverCosts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, m := spell(t), wrongs(t)
		small := rapid.Float64Range(0, 300).Draw(t, "capacity")
		a, err := m.Best(s, small)
		if err != nil {
			t.Fatal(err)
		}
		b, err := m.Best(s, small+rapid.Float64Range(0, 200).Draw(t, "more"))
		if err != nil {
			t.Fatal(err)
		}
		if b.Cost > a.Cost+1e-3 || a.Acres > small || a.CapCost < 0 || b.CapCost > a.CapCost+1e-3 {
			t.Fatalf("with %g acres of capacity %+v, with more %+v", small, a, b)
		}
	})
}

// TestAHarvestOrderedAnyWayIsTheSame proves that a list need not be sorted, and that cost 0 on one side
// goes to an end of the list.
func TestAHarvestOrderedAnyWayIsTheSame(t *testing.T) {
	l, err := NewListed([]float64{200, 40, 120, 160, 80}, []float64{0.15, 0.15, 0.3, 0.2, 0.2})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		m    Mowing
		want float64
	}{{Mowing{18, 20}, 120}, {Mowing{18, 74.6}, 80}, {Mowing{0, 20}, 40}, {Mowing{20, 0}, 200}} {
		if got, err := c.m.Best(l, math.Inf(1)); err != nil || got.Acres != c.want {
			t.Errorf("%+v: %+v, %v; want %g acres", c.m, got, err, c.want)
		}
	}
}

// TestAnEdgeThatDecimalsMissIsMet proves that chances of 0.15 and 0.2 reach a ratio of 0.35.
func TestAnEdgeThatDecimalsMissIsMet(t *testing.T) {
	l, err := NewListed([]float64{40, 80, 120}, []float64{0.15, 0.2, 0.65})
	if err != nil {
		t.Fatal(err)
	}
	if got, err := (Mowing{35, 65}).Best(l, math.Inf(1)); err != nil || got.Acres != 80 {
		t.Errorf("%+v, %v", got, err)
	}
}

func TestAWideBellIsHeldAtNoAcres(t *testing.T) {
	got, err := Mowing{1, 1000}.Best(Bell{50, 40}, math.Inf(1))
	if err != nil || got.Acres != 0 {
		t.Errorf("%+v, %v", got, err)
	}
}
