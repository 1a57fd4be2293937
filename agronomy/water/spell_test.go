package water

import (
	"math"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"haywarden/agronomy/unit"
)

// letters turns D and W into rain, ? into a day not known.
func letters(days string) []float64 {
	mm := make([]float64, len(days))
	for i, d := range days {
		switch d {
		case 'W':
			mm[i] = 5
		case '?':
			mm[i] = math.NaN()
		}
	}
	return mm
}

// Our own arithmetic, worked in Python.
func TestAChainIsCountedFromDays(t *testing.T) {
	got := CountTransitions(letters("DDDWWDDDDDWDDWWWDDDDDDDWDWDDDDWDD"), DryBelowMM)
	if diff := cmp.Diff(Transitions{DD: 17, DW: 6, WD: 6, WW: 3}, got); diff != "" {
		t.Fatalf("(-want +got):\n%s", diff)
	}
	c := got.Chain(0)
	want(t, "p01", c.P01, 0.26087, 5.1e-6)
	want(t, "p11", c.P11, 0.33333, 5.1e-6)
	want(t, "wet", c.Wet(), 0.28125, 5.1e-6)
	smoothed := got.Chain(1)
	want(t, "p01 smoothed", smoothed.P01, 7./25, 1e-12)
	want(t, "p11 smoothed", smoothed.P11, 4./11, 1e-12)
	if c := (Transitions{DD: 30}).Chain(1); c.P01 != 1./32 || c.P11 != 0.5 {
		t.Errorf("30 dry days give %+v", c)
	}
	if c := (Transitions{DD: 30}).Chain(0); c.P01 != 0 || !math.IsNaN(c.P11) {
		t.Errorf("30 dry days give %+v without smoothing", c)
	}
	if diff := cmp.Diff(Transitions{DD: 1, DW: 1}, CountTransitions(letters("DD?WD?DW"), DryBelowMM)); diff == "" {
		t.Error("a day not known joins a pair")
	}
	if diff := cmp.Diff(Transitions{DD: 1, WD: 1, DW: 1}, CountTransitions(letters("DD?WD?DW"), DryBelowMM)); diff != "" {
		t.Errorf("days beside one not known (-want +got):\n%s", diff)
	}
	// A day of just the limit is wet.
	if diff := cmp.Diff(Transitions{DW: 1}, CountTransitions([]float64{0.2, 0.25}, DryBelowMM)); diff != "" {
		t.Errorf("0.25 mm (-want +got):\n%s", diff)
	}
}

func TestChancesOfTheChainByHand(t *testing.T) {
	c := Chain{0.26, 0.42}
	want(t, "wet", c.Wet(), 0.309524, 5.1e-7)
	want(t, "mean dry spell", float64(c.MeanDry()), 1/0.26, 1e-12)
	want(t, "mean wet spell", float64(c.MeanWet()), 1/0.58, 1e-12)
	for i, v := range []struct{ dry, wet, any, independent float64 }{
		{0.54760, 0.42920, 0.51095, 0.47676},
		{0.40522, 0.31761, 0.37810, 0.32919},
		{0.29987, 0.23503, 0.27980, 0.22730},
		{0.22190, 0.17392, 0.20705, 0.15694},
	} {
		n := i + 2
		want(t, "after a dry day", c.NextDry(n, false), v.dry, 5.1e-6)
		want(t, "after a wet day", c.NextDry(n, true), v.wet, 5.1e-6)
		want(t, "after any day", c.AnyDry(n), v.any, 5.1e-6)
		days := make([]unit.Share, n)
		for i := range days {
			days[i] = unit.Share(c.Wet())
		}
		independent, _, _ := AllDry(days)
		want(t, "were days independent", float64(independent), v.independent, 5.1e-6)
	}
	if !math.IsNaN(c.Within(0, 5, false)) {
		t.Error("a run of no days has a chance")
	}
}

// within asks every possible course of wet and dry days.
func within(c Chain, n, horizon int, wet bool) (chance float64) {
	for course := range 1 << horizon {
		p, run, longest, before := 1., 0, 0, wet
		for day := range horizon {
			isWet, pWet := course>>day&1 == 1, c.P01
			if before {
				pWet = c.P11
			}
			if isWet {
				p, run = p*pWet, 0
			} else {
				p, run = p*(1-pWet), run+1
			}
			longest, before = max(longest, run), isWet
		}
		if longest >= n {
			chance += p
		}
	}
	return chance
}

func TestWithinIsTheSumOverEveryCourse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		chance := rapid.OneOf(rapid.Float64Range(0, 1), rapid.SampledFrom([]float64{0, 1}))
		c := Chain{chance.Draw(t, "p01"), chance.Draw(t, "p11")}
		n, horizon, wet := rapid.IntRange(1, 6).Draw(t, "n"), rapid.IntRange(1, 10).Draw(t, "horizon"), rapid.Bool().Draw(t, "wet today")
		if got, all := c.Within(n, horizon, wet), within(c, n, horizon, wet); !near(got, all, 1e-12) {
			t.Fatalf("%g by the chain, %g by all courses", got, all)
		}
		if got := c.Within(n, n, wet); !near(got, c.NextDry(n, wet), 1e-12) {
			t.Fatalf("%g within %d days, %g for the next %d", got, n, c.NextDry(n, wet), n)
		}
		if a, b := c.Within(n, horizon, wet), c.Within(n, horizon+1, wet); b < a-1e-12 {
			t.Fatalf("%g within %d days, %g within one more", a, horizon, b)
		}
		if a, b := c.Within(n, horizon, wet), c.Within(n+1, horizon, wet); b > a+1e-12 {
			t.Fatalf("%g for %d days, %g for one more", a, n, b)
		}
	})
}

func TestNotKnowingTodayWeighsBothByHowOftenTheyCome(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := Chain{rapid.Float64Range(0.05, 0.9).Draw(t, "p01"), rapid.Float64Range(0.05, 0.9).Draw(t, "p11")}
		n := rapid.IntRange(1, 10).Draw(t, "n")
		// What comes after any day is what comes after a day of the long run.
		if got := c.from(n, n, AnyToday); !near(got, c.AnyDry(n), 1e-12) {
			t.Fatalf("%g for the next %d days, %g for any", got, n, c.AnyDry(n))
		}
		if c.from(n, 14, DryToday) != c.Within(n, 14, false) || c.from(n, 14, WetToday) != c.Within(n, 14, true) {
			t.Fatal("what is known of today is not used")
		}
	})
}

func TestDaysAllDryByHandAndBounds(t *testing.T) {
	p, low, high := AllDry([]unit.Share{0.1, 0.2, 0.2, 0.3})
	want(t, "independent", float64(p), 0.4032, 1e-12)
	want(t, "lowest", float64(low), 0.2, 1e-12)
	want(t, "highest", float64(high), 0.7, 1e-12)
	if p, low, high := AllDry(nil); p != 1 || low != 1 || high != 1 {
		t.Errorf("no day at all: %g, %g to %g", p, low, high)
	}
	rapid.Check(t, func(t *rapid.T) {
		var days []unit.Share
		for _, v := range rapid.SliceOf(rapid.Float64Range(0, 1)).Draw(t, "chances") {
			days = append(days, unit.Share(v))
		}
		p, low, high := AllDry(days)
		if !(0 <= low && low <= p+1e-12 && p <= high+1e-12 && high <= 1) {
			t.Fatalf("%g lies outside %g to %g", p, low, high)
		}
	})
}

func TestYearsWithADrySpellAreCounted(t *testing.T) {
	mm := make([]float64, 0, 5*366)
	first := unit.DateOf(2020, 1, 1)
	for d := first; d.Year() < 2025; d++ {
		mm = append(mm, 5)
	}
	lay := func(date, days string) {
		at, err := unit.ParseDay(date)
		if err != nil {
			t.Fatal(err)
		}
		copy(mm[at-first:], letters(days))
	}
	lay("2020-06-01", "DDDDWW")
	lay("2021-06-01", "WDDWDDD")
	lay("2022-06-01", "DDDWWWD")
	lay("2023-06-01", "DDD?DWW") // three days may be four
	lay("2024-06-01", "?DDDWWW") // today is not known
	r := Rain{first, mm, DryBelowMM}
	for name, c := range map[string]struct {
		n, horizon int
		today      Today
		want       Spells
	}{
		"the next three":                 {3, 3, AnyToday, Spells{2, 4}},
		"three within six":               {3, 6, AnyToday, Spells{3, 4}},
		"three within six from dry":      {3, 6, DryToday, Spells{1, 2}},
		"three within six from wet":      {3, 6, WetToday, Spells{1, 1}},
		"two within six":                 {2, 6, AnyToday, Spells{5, 5}},
		"a horizon shorter than the run": {3, 2, AnyToday, Spells{}},
	} {
		if diff := cmp.Diff(c.want, r.Spells(time.June, 1, c.n, c.horizon, c.today)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
	if got := r.Spells(time.February, 29, 1, 3, AnyToday); got.Years != 2 {
		t.Errorf("29 February comes in %d years, want 2", got.Years)
	}
	if got := r.Spells(time.December, 30, 1, 5, AnyToday); got.Years != 4 {
		t.Errorf("the end of the record is counted: %d years, want 4", got.Years)
	}
	if got := (Rain{}).Spells(time.June, 1, 1, 1, AnyToday); got != (Spells{}) {
		t.Errorf("no record counts %+v", got)
	}
	if p := r.Chance(time.June, 1, 2, 6, AnyToday); p.Counted || p.Chance != p.Chain || p.Count.Years != 5 {
		t.Errorf("five years are trusted: %+v", p)
	}
	low, high := (Spells{3, 4}).Interval()
	if s := (Spells{3, 4}).Share(); s != 0.75 || !(low < s && s < high) {
		t.Errorf("3 of 4: %g, %g to %g", s, low, high)
	}
}

func TestHalfMonthsOfTheYear(t *testing.T) {
	for date, half := range map[string]int{"2024-01-01": 0, "2024-01-15": 0, "2024-01-16": 1, "2024-02-29": 3, "2023-06-30": 11, "2023-12-31": 23} {
		d, err := unit.ParseDay(date)
		if err != nil {
			t.Fatal(err)
		}
		if got := HalfMonth(d); got != half {
			t.Errorf("%s: half-month %d, want %d", date, got, half)
		}
	}
}

func TestASmoothYearGoesThroughWhatItIsMadeOf(t *testing.T) {
	var halves [24]Transitions
	for i := range halves {
		halves[i] = Transitions{DD: 700, DW: 300, WD: 60, WW: 40}
	}
	y := SmoothYear(halves, 0, 2)
	for _, d := range []int{1, 100, 200, 366} {
		c := y.At(d)
		want(t, "p01", c.P01, 0.3, 1e-9)
		want(t, "p11", c.P11, 0.4, 1e-9)
	}
	for i := range 12 { // a station read from May to October only
		halves[(i+20)%24] = Transitions{}
	}
	want(t, "p01 of a summer station", SmoothYear(halves, 0, 2).At(200).P01, 0.3, 1e-9)
	if c := SmoothYear([24]Transitions{}, 1, 2).At(200); !math.IsNaN(c.P01) {
		t.Errorf("no days at all give %+v", c)
	}
}
