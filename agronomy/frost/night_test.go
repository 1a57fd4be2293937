package frost

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Four hours at a threshold is the same as a lowest of 0.134 half-ranges below it.
func TestFourHoursIsAFixedShareOfTheRange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		half := rapid.Float64Range(1, 30).Draw(t, "half range")
		threshold := rapid.Float64Range(-10, 40).Draw(t, "threshold")
		tmin := threshold - (1-math.Cos(math.Pi/6))*half
		if h := HoursBelow(tmin, tmin+2*half, threshold); !near(h, 4, 1e-6) {
			t.Fatalf("%g h, want 4", h)
		}
	})
}

func TestHoursLieInTheDayAndGrowWithCold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tmin := rapid.Float64Range(-20, 60).Draw(t, "tmin")
		tmax := tmin + rapid.Float64Range(0, 50).Draw(t, "range")
		threshold := rapid.Float64Range(-20, 60).Draw(t, "threshold")
		colder := rapid.Float64Range(0, 10).Draw(t, "colder by")
		a, b := HoursBelow(tmin, tmax, threshold), HoursBelow(tmin-colder, tmax-colder, threshold)
		if !(a >= 0 && a <= b+1e-9 && b <= 24) {
			t.Fatalf("%g h, colder %g h", a, b)
		}
	})
}

func TestHoursAtTheEnds(t *testing.T) {
	nan := math.NaN()
	for name, c := range map[string]struct{ tmin, tmax, threshold, want float64 }{
		"never so cold":           {25, 50, 24, 0},
		"just touched":            {24, 50, 24, 0},
		"never warmer":            {10, 24, 24, 24},
		"the same all day, at it": {24, 24, 24, 24},
		"the same, above":         {25, 25, 24, 0},
		"lowest missing":          {nan, 50, 24, nan},
		"highest missing":         {20, nan, 24, nan},
		"no threshold":            {20, 50, nan, nan},
		"upside down":             {50, 20, 24, nan},
	} {
		if got := HoursBelow(c.tmin, c.tmax, c.threshold); got != c.want && !(math.IsNaN(got) && math.IsNaN(c.want)) {
			t.Errorf("%s: %g, want %g", name, got, c.want)
		}
	}
}

func TestSpringHarm(t *testing.T) {
	for name, c := range map[string]struct {
		tmin, tmax float64
		want       Harm
	}{
		"long and hard":               {20, 45, TopsHarmed},
		"hard but short":              {23, 55, LeavesHarmed},
		"24 F all day":                {20, 24, TopsHarmed},
		"a white frost":               {29, 55, LeavesHarmed},
		"where the sources overlap":   {30, 55, LeavesHarmed},
		"frost that does nothing":     {31, 55, NoHarm},
		"the lowest was not reported": {math.NaN(), 55, ""},
	} {
		if got := SpringHarm(c.tmin, c.tmax); got != c.want {
			t.Errorf("%s, %g/%g: %q, want %q", name, c.tmin, c.tmax, got, c.want)
		}
	}
}

func TestKillingFreezesAreOrderedAndHoldTheDefault(t *testing.T) {
	holds := false
	last := math.Inf(1)
	for _, k := range KillingFreezes() {
		if k.F > last {
			t.Errorf("%s, %g F, stands after %g F", k.Who, k.F, last)
		}
		last = k.F
		holds = holds || k == TopsKilled()
	}
	if !holds {
		t.Error("the killing freeze in use is not in the list")
	}
}

func TestRestRiskSharesAddUp(t *testing.T) {
	k := PublishedRest()
	rapid.Check(t, func(t *rapid.T) {
		heat := rapid.SliceOfN(rapid.Float64Range(0, 900), 1, 40).Draw(t, "heat after")
		r := RestRisk(heat, k.Enough, k.Little)
		if !near(r.Over+r.Under+r.Between, 1, 1e-12) || min(r.Over, r.Under, r.Between) < 0 {
			t.Fatalf("%+v", r)
		}
		// A killing freeze that comes later leaves more heat: no fewer years have enough.
		for i := range heat {
			heat[i] += 50
		}
		if more := RestRisk(heat, k.Enough, k.Little); more.Over < r.Over || more.Under > r.Under {
			t.Fatalf("%+v, with more heat %+v", r, more)
		}
	})
}

func TestRestRiskOfUnknownYears(t *testing.T) {
	for name, heat := range map[string][]float64{"no year": nil, "a year missing": {600, math.NaN()}} {
		if r := RestRisk(heat, 500, 200); !math.IsNaN(r.Over) || !math.IsNaN(r.Under) || !math.IsNaN(r.Between) {
			t.Errorf("%s: %+v, want NaN", name, r)
		}
	}
}
