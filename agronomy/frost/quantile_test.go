package frost

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

var (
	never  = math.Inf(1)
	falls  = []float64{281, 268, 290, 275, 284, 271, 296, 279, 287, 265, 283, 277, 301, 273, 289, 280, 269, 294, 286, 278}
	spring = []float64{128, 135, 119, 141, 126, 131, 138, 122, 133, 129, 145, 125, 136, 130, 127, 139, 124, 132, 121, 134}
	someNo = []float64{300, 288, never, 312, 295, 305, 318, 291, never, 309, 298, 315, 302, 322, never, 307}
)

func near(a, b, tolerance float64) bool { return math.Abs(a-b) <= tolerance }

// [source.Quantiles]: R 4.2.2 quantile(), types 5, 6 and 7.
func TestRanksAreThoseOfR(t *testing.T) {
	x := []float64{2.1, 3.4, 1.9, 5.6, 4.4, 3.8, 2.2, 7.9, 3.1, 4.0}
	for m, want := range map[QuantileMethod]map[float64]float64{
		Hazen:   {0: 1.9, 0.1: 2, 0.25: 2.2, 0.5: 3.6, 0.75: 4.4, 0.9: 6.75, 1: 7.9},
		Weibull: {0: 1.9, 0.1: 1.92, 0.25: 2.175, 0.5: 3.6, 0.75: 4.7, 0.9: 7.67, 1: 7.9},
		Type7:   {0: 1.9, 0.1: 2.08, 0.25: 2.425, 0.5: 3.6, 0.75: 4.3, 0.9: 5.83, 1: 7.9},
	} {
		for p, w := range want {
			if got, ok := Quantile(x, p, m); !ok || !near(got, w, 1e-12) {
				t.Errorf("%s at %g: %g, want %g", m, p, got, w)
			}
		}
	}
}

// Chances of the mixed curve worked by hand with a normal table. [source.FreezeMixed]
func TestChanceWithYearsThatDoNotFreeze(t *testing.T) {
	for day, want := range map[float64]float64{295: 0.14091985, 305: 0.41345191, 315: 0.68064135} {
		if got, ok := Chance(someNo, day, Normal); !ok || !near(got, want, 1e-8) {
			t.Errorf("by day %g: %.8f, want %.8f", day, got, want)
		}
	}
	for _, m := range []QuantileMethod{Weibull, Hazen, Type7, Normal} {
		got, ok := Chance(someNo, 365, m)
		if want := map[QuantileMethod]float64{Weibull: 13. / 17}[m]; m == Weibull && !near(got, want, 1e-12) {
			t.Errorf("%s by the year's end: %g, want %g", m, got, want)
		}
		if m != Weibull && !near(got, 0.8125, 1e-4) || !ok {
			t.Errorf("%s by the year's end: %g, want the share of years that freeze, 0.8125", m, got)
		}
	}
}

func TestNoAnswerIsNoNumber(t *testing.T) {
	for name, c := range map[string]struct {
		x    []float64
		p    float64
		m    QuantileMethod
		want float64 // +Inf: does not come; NaN: no answer
	}{
		"no years":               {nil, 0.5, Weibull, math.NaN()},
		"a year missing":         {[]float64{280, math.NaN()}, 0.5, Weibull, math.NaN()},
		"a year before time":     {[]float64{280, math.Inf(-1)}, 0.5, Weibull, math.NaN()},
		"chance over one":        {falls, 1.1, Weibull, math.NaN()},
		"chance missing":         {falls, math.NaN(), Hazen, math.NaN()},
		"a method not known":     {falls, 0.5, "gumbel", math.NaN()},
		"one year, normal":       {[]float64{280}, 0.5, Normal, math.NaN()},
		"surely, by a curve":     {falls, 1, Normal, math.NaN()},
		"rarer than asked":       {someNo, 0.9, Weibull, never},
		"rarer, mixed":           {someNo, 0.8125, Hazen, never},
		"never, weibull":         {[]float64{never, never}, 0.5, Weibull, never},
		"never, normal":          {[]float64{never, never}, 0.5, Normal, never},
		"between last and never": {someNo, 13.5 / 17, Weibull, never},
	} {
		got, ok := Quantile(c.x, c.p, c.m)
		if ok || math.IsNaN(got) != math.IsNaN(c.want) || !math.IsNaN(got) && got != c.want {
			t.Errorf("%s: %g, %v; want %g, false", name, got, ok, c.want)
		}
	}
	for name, c := range map[string]struct {
		x   []float64
		day float64
		m   QuantileMethod
	}{
		"no years":           {nil, 280, Weibull},
		"no day":             {falls, math.NaN(), Weibull},
		"a method not known": {falls, 280, "gumbel"},
		"one year, normal":   {[]float64{280, never}, 280, Normal},
	} {
		if got, ok := Chance(c.x, c.day, c.m); ok || !math.IsNaN(got) {
			t.Errorf("chance, %s: %g, %v; want NaN, false", name, got, ok)
		}
	}
}

func TestTheLastDateIsReachedThoughOthersNeverFreeze(t *testing.T) {
	if got, ok := Quantile(someNo, 13./17, Weibull); !ok || got != 322 {
		t.Errorf("rank 13 of 16: %g, %v; want 322", got, ok)
	}
}

func TestOneYearIsItsOwnMedian(t *testing.T) {
	for _, m := range []QuantileMethod{Weibull, Hazen, Type7} {
		if got, ok := Quantile([]float64{280}, 0.5, m); !ok || got != 280 {
			t.Errorf("%s: %g, %v", m, got, ok)
		}
	}
	if got, ok := Chance([]float64{280}, 280, Type7); !ok || got != 1 {
		t.Errorf("type7 chance by the only date: %g, %v", got, ok)
	}
	if got, ok := Chance([]float64{280, 280}, 280, Normal); !ok || got != 1 {
		t.Errorf("normal chance without spread: %g, %v", got, ok)
	}
	if got, ok := Chance([]float64{280, 280}, 279, Normal); !ok || got != 0 {
		t.Errorf("normal chance without spread, a day before: %g, %v", got, ok)
	}
}

func TestSpringIsReadFromTheOtherEnd(t *testing.T) {
	for _, m := range []QuantileMethod{Weibull, Hazen, Type7, Normal} {
		for _, p := range []float64{0.1, 0.5, 0.9} {
			later, _ := QuantileLater(spring, p, m)
			earlier, _ := Quantile(spring, 1-p, m)
			if !near(later, earlier, 1e-9) {
				t.Errorf("%s: later with chance %g on %g, by chance %g on %g", m, p, later, 1-p, earlier)
			}
		}
	}
	// A spring without a freeze makes a late one rarer, never surer.
	with := append(slices.Clone(spring), never, never, never, never)
	for _, m := range []QuantileMethod{Weibull, Hazen, Type7, Normal} {
		a, _ := QuantileLater(spring, 0.1, m)
		b, _ := QuantileLater(with, 0.1, m)
		if !(b < a) {
			t.Errorf("%s: 10 %% date %g without, %g with years that do not freeze", m, a, b)
		}
	}
	if day, ok := QuantileLater(with, 0.95, Weibull); ok || !math.IsInf(day, -1) {
		t.Errorf("rarer than asked: %g, %v; want -Inf, false", day, ok)
	}
	if _, ok := QuantileLater([]float64{math.Inf(-1), 100}, 0.5, Weibull); ok {
		t.Error("-Inf was taken for a date")
	}
	if c, ok := ChanceLater(spring, 140.8, Weibull); !ok || !near(c, 0.1, 1e-9) {
		t.Errorf("chance of a freeze after day 140.8: %g, want 0.1", c)
	}
}

func drawYears(t *rapid.T) []float64 {
	day := rapid.OneOf(rapid.Map(rapid.IntRange(213, 366), func(d int) float64 { return float64(d) }), rapid.Just(never))
	return rapid.SliceOfN(day, 1, 40).Draw(t, "days")
}

func drawMethod(t *rapid.T) QuantileMethod {
	return QuantileMethod(rapid.SampledFrom(QuantileMethods()).Draw(t, "method"))
}

func TestALaterDateForAGreaterChance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, m := drawYears(t), drawMethod(t)
		p := rapid.Float64Range(0, 1).Draw(t, "p")
		q := rapid.Float64Range(p, 1).Draw(t, "q")
		a, okA := Quantile(x, p, m)
		b, okB := Quantile(x, q, m)
		if okA && okB && b < a-1e-9 {
			t.Fatalf("%g at %g, %g at %g", a, p, b, q)
		}
		if !okA && math.IsInf(a, 1) && okB {
			t.Fatalf("does not come at %g, yet on %g at %g", p, b, q)
		}
	})
}

func TestChanceIsAShareAndGrows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, m := drawYears(t), drawMethod(t)
		day := rapid.Float64Range(200, 380).Draw(t, "day")
		a, ok := Chance(x, day, m)
		if !ok {
			return
		}
		b, _ := Chance(x, day+rapid.Float64Range(0, 50).Draw(t, "later by"), m)
		if !(a >= 0 && a <= b && b <= 1) {
			t.Fatalf("chance %g, later %g", a, b)
		}
	})
}

func TestChanceAndQuantileUndoEachOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, m := drawYears(t), drawMethod(t)
		p := rapid.Float64Range(0.01, 0.99).Draw(t, "p")
		day, ok := Quantile(x, p, m)
		if !ok {
			return
		}
		if c, ok := Chance(x, day, m); !ok || c < p-1e-6 && m != Normal && !lowestRank(x, p, m) {
			t.Fatalf("day %g for chance %g has chance %g", day, p, c)
		}
		if c, _ := Chance(x, day, m); m == Normal && !near(c, p, 1e-9) && spread(x) {
			t.Fatalf("day %g for chance %g has chance %g", day, p, c)
		}
	})
}

// lowestRank reports whether p asks for a rank before the first or after the last date, where the date
// is held.
func lowestRank(x []float64, p float64, m QuantileMethod) bool {
	c, _ := Chance(x, slices.Min(x), m)
	return p <= c
}

func spread(x []float64) bool {
	y, events, _ := ordered(x)
	return y[0] != y[events-1]
}

func TestTheOrderOfYearsDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, m := drawYears(t), drawMethod(t)
		p := rapid.Float64Range(0, 1).Draw(t, "p")
		kept := slices.Clone(x)
		a, okA := Quantile(x, p, m)
		if !slices.Equal(x, kept) {
			t.Fatal("the years handed over were sorted in place")
		}
		slices.Sort(x)
		b, okB := Quantile(x, p, m)
		if okA != okB || okA && a != b {
			t.Fatalf("%g %v, sorted %g %v", a, okA, b, okB)
		}
	})
}
