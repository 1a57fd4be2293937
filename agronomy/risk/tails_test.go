package risk

import (
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func outcomes(t *rapid.T) Outcomes {
	n := rapid.IntRange(1, 6).Draw(t, "n")
	o, err := NewOutcomes(rapid.SliceOfN(rapid.Float64Range(-100, 400), n, n).Draw(t, "values"), split(t, n))
	if err != nil {
		t.Fatal(err)
	}
	return o
}

func worst(t *rapid.T, o Outcomes, tail float64) float64 {
	v, err := o.Worst(tail)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func TestTheWorstShareLiesBetweenTheWorstAndTheMean(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := outcomes(t)
		tail := rapid.Float64Range(0.01, 1).Draw(t, "tail")
		w := worst(t, o, tail)
		if w > o.Mean()+1e-9 || w < o.values[0]-1e-9 {
			t.Fatalf("worst %g of outcomes, mean of the worst %g: %g; mean of all %g", o.values[0], tail, w, o.Mean())
		}
		if wider := min(1, tail+rapid.Float64Range(0, 0.5).Draw(t, "wider")); worst(t, o, wider) < w-1e-9 {
			t.Fatalf("the worst %g is better than the worst %g", tail, wider)
		}
		if !near(worst(t, o, 1), o.Mean(), 1e-9) {
			t.Fatal("the worst of all is not the mean")
		}
	})
}

// TestTheWorstShareIsTheBestOfItsBound proves the split of the edge case against another form:
// the largest of z - mean(max(0, z-x))/tail over z.
func TestTheWorstShareIsTheBestOfItsBound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := outcomes(t)
		tail := rapid.Float64Range(0.01, 1).Draw(t, "tail")
		best := math.Inf(-1)
		for _, z := range o.values {
			best = max(best, z-o.shortfall(z)/tail)
		}
		if w := worst(t, o, tail); !near(w, best, 1e-6) {
			t.Fatalf("%g, by the other form %g", w, best)
		}
	})
}

func TestDominanceHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := outcomes(t), outcomes(t)
		first, second := Dominates(a, b)
		back, backSecond := Dominates(b, a)
		turned := map[Over]Over{First: Second, Second: First, Alike: Alike, Neither: Neither}
		if back != turned[first] || backSecond != turned[second] {
			t.Fatalf("%s and %s, the other way %s and %s", first, second, back, backSecond)
		}
		if first == First && second != First {
			t.Fatalf("first order %s and second order %s", first, second)
		}
		if second == First && (a.Mean() < b.Mean()-1e-4 || worst(t, a, 0.2) < worst(t, b, 0.2)-1e-4) {
			t.Fatal("a choice dominates one of a better mean or tail")
		}
		better := a
		better.values = slices.Clone(a.values)
		for i := range better.values {
			better.values[i] += 1
		}
		if f, s := Dominates(better, a); f != First || s != First {
			t.Fatalf("a dollar more in every case: %s, %s", f, s)
		}
		if f, s := Dominates(a, a); f != Alike || s != Alike {
			t.Fatalf("a choice against itself: %s, %s", f, s)
		}
	})
}

func TestMoreCautionNeverScoresHigher(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := outcomes(t)
		last := math.Inf(1)
		for _, c := range Cautions() {
			w, err := ChosenTaste().Weight(c)
			if err != nil {
				t.Fatal(err)
			}
			s, err := o.Score(w, 0.2)
			if err != nil || s > last+1e-9 {
				t.Fatalf("%s: %g after %g, %v", c, s, last, err)
			}
			last = s
		}
		if !near(last, worst(t, o, 0.2), 1e-9) {
			t.Fatal("safest only is not the worst share")
		}
	})
}

func TestChancesOfThirdsAreShared(t *testing.T) {
	o, err := NewOutcomes([]float64{1, 2, 3}, []float64{0.3333333, 0.3333333, 0.3333333})
	if err != nil || !near(o.Mean(), 2, 1e-12) {
		t.Errorf("%v, %v", o, err)
	}
}

func TestOnlyWhatExceedsItsErrorIsADifference(t *testing.T) {
	for name, c := range map[string]struct {
		a, b Estimate
		corr float64
		want Told
	}{
		"well apart":                 {Estimate{160, 5}, Estimate{145, 5}, 0, More},
		"the other way":              {Estimate{145, 5}, Estimate{160, 5}, 0, Less},
		"within":                     {Estimate{150, 5}, Estimate{145, 5}, 0, NoDifference},
		"just its error":             {Estimate{150, 3}, Estimate{145, 4}, 0, NoDifference},
		"erring together":            {Estimate{150, 5}, Estimate{145, 5}, 0.9, More},
		"erring wholly together":     {Estimate{145.001, 5}, Estimate{145, 5}, 1, More},
		"without error":              {Estimate{145.001, 0}, Estimate{145, 0}, 0, More},
		"equal, without error":       {Estimate{145, 0}, Estimate{145, 0}, 0, NoDifference},
		"erring against one another": {Estimate{154, 5}, Estimate{145, 5}, -1, NoDifference},
	} {
		if d, err := Tell(c.a, c.b, c.corr); err != nil || d.Told != c.want {
			t.Errorf("%s: %+v, %v; want %s", name, d, err, c.want)
		}
	}
}

func TestLevelNamesTheBestAndItsEquals(t *testing.T) {
	for name, c := range map[string]struct {
		list []Estimate
		want []int
	}{
		"one stands out":    {[]Estimate{{100, 1}, {110, 1}, {90, 1}}, []int{1}},
		"two are level":     {[]Estimate{{100, 8}, {110, 8}, {90, 8}}, []int{0, 1}},
		"nobody knows":      {[]Estimate{{100, 50}, {110, 50}, {90, 50}}, []int{0, 1, 2}},
		"a tie, no error":   {[]Estimate{{100, 0}, {100, 0}}, []int{0, 1}},
		"nothing to choose": {nil, nil},
	} {
		if got, err := Level(c.list); err != nil || !cmp.Equal(got, c.want) {
			t.Errorf("%s: %v, %v; want %v", name, got, err, c.want)
		}
	}
}
