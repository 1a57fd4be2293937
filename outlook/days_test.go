package outlook

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"haywarden/agronomy/frost"
	"haywarden/agronomy/unit"
)

func TestQuantileIsTheDayByWhichTheShareHasCome(t *testing.T) {
	inf := math.Inf(1)
	for name, c := range map[string]struct {
		days Days
		p    float64
		want unit.Day
		ok   bool
	}{
		"none":                         {Days{}, 0.5, 0, false},
		"one":                          {DaysOf(100), 0.9, 100, true},
		"middle of five":               {DaysOf(1, 2, 3, 4, 5), 0.5, 3, true},
		"last of ten":                  {DaysOf(1, 2, 3, 4, 5, 6, 7, 8, 9, 10), 0.9, 10, true},
		"all by the end":               {DaysOf(1, 2, 3), 1, 3, true},
		"half of it within a day":      {DaysOf(10.9, 11.2), 0.1, 10, true},
		"not in time":                  {DaysOf(1, 2, inf, inf), 0.9, 0, false},
		"in time for half":             {DaysOf(1, 2, inf, inf), 0.25, 2, true},
		"never":                        {DaysOf(inf, inf), 0.1, 0, false},
		"a quarter, where one of four": {DaysOf(7, inf, inf, inf), 0.2, 7, true},
	} {
		got, ok := c.days.Quantile(c.p)
		if got != c.want || ok != c.ok {
			t.Errorf("%s: %v, %v, want %v, %v", name, got, ok, c.want, c.ok)
		}
	}
}

func TestQuantilesRiseWithTheShareAndTheShareIsReached(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		raw := rapid.SliceOfN(rapid.IntRange(-40, 60), 1, 60).Draw(t, "days")
		var days Days
		weights := rapid.SliceOfN(rapid.Float64Range(0.01, 1), len(raw), len(raw)).Draw(t, "weights")
		var total float64
		for _, w := range weights {
			total += w
		}
		for i, v := range raw {
			day := float64(20000 + v)
			if v > 45 {
				day = math.Inf(1)
			}
			days.Add(day, weights[i]/total)
		}
		days.Sort()
		p := rapid.Float64Range(0, 1).Draw(t, "p")
		q := rapid.Float64Range(0, p).Draw(t, "q")
		late, ok := days.Quantile(p)
		if !ok {
			return
		}
		early, ok := days.Quantile(q)
		if !ok || early > late {
			t.Fatalf("share %g by %v (%v), share %g by %v", q, early, ok, p, late)
		}
		if by := days.By(late); by < p-1e-9 {
			t.Fatalf("%v is said to be the day of share %g, and %g have come by it", late, p, by)
		}
	})
}

func TestQuantile7IsThatOfTheScience(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.SliceOfN(rapid.Float64Range(-50, 50), 1, 40).Draw(t, "x")
		p := float64(rapid.IntRange(0, 100).Draw(t, "p")) / 100
		slices.Sort(x)
		want, ok := frost.Quantile(x, p, frost.Type7)
		if got := quantile7(x, p); !ok || math.Abs(got-want) > 1e-9 {
			t.Fatalf("%g, want %g (%v)", got, want, ok)
		}
	})
}

func TestAWeightIsAsGoodAsThatManyEqualValues(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		counts := rapid.SliceOfN(rapid.IntRange(1, 5), 1, 12).Draw(t, "how often")
		p := rapid.Float64Range(0, 1).Draw(t, "p")
		var once, often Days
		var n float64
		for _, c := range counts {
			n += float64(c)
		}
		for v, c := range counts {
			once.Add(float64(v), float64(c)/n)
			for range c {
				often.Add(float64(v), 1/n)
			}
		}
		once.Sort()
		often.Sort()
		a, _ := once.Quantile(p)
		b, _ := often.Quantile(p)
		if a != b {
			t.Fatalf("share %g: day %d by weight, %d by number", p, a, b)
		}
	})
}

func TestQuantilesOfASampleStayWithinItAndAreHazensWhereWeightsAreEqual(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.SliceOfN(rapid.Float64Range(-50, 50), 1, 40).Draw(t, "x")
		p := float64(rapid.IntRange(0, 100).Draw(t, "p")) / 100
		var w Sample
		for _, v := range x {
			w.Add(v, 2)
		}
		slices.Sort(x)
		want, ok := frost.Quantile(x, p, frost.Hazen)
		if got := w.Quantiles(p)[0]; !ok || math.Abs(got-want) > 1e-9 {
			t.Fatalf("%g, want %g (%v)", got, want, ok)
		}
	})
}
