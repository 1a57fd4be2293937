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
		"none":                         {nil, 0.5, 0, false},
		"one":                          {Days{100}, 0.9, 100, true},
		"middle of five":               {Days{1, 2, 3, 4, 5}, 0.5, 3, true},
		"last of ten":                  {Days{1, 2, 3, 4, 5, 6, 7, 8, 9, 10}, 0.9, 10, true},
		"all by the end":               {Days{1, 2, 3}, 1, 3, true},
		"half of it within a day":      {Days{10.9, 11.2}, 0.1, 10, true},
		"not in time":                  {Days{1, 2, inf, inf}, 0.9, 0, false},
		"in time for half":             {Days{1, 2, inf, inf}, 0.25, 2, true},
		"never":                        {Days{inf, inf}, 0.1, 0, false},
		"a quarter, where one of four": {Days{7, inf, inf, inf}, 0.2, 7, true},
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
		days := make(Days, len(raw))
		for i, v := range raw {
			if days[i] = float64(20000 + v); v > 45 {
				days[i] = math.Inf(1)
			}
		}
		slices.Sort(days)
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
		if by := days.By(late); by < p {
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
