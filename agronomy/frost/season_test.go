package frost

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// fall is 20 days, cooling from 60 F by 2 F a day: 32 F is first reached on day 14.
func fall(change func(t []float64)) []float64 {
	t := make([]float64, 20)
	for i := range t {
		t[i] = 60 - 2*float64(i)
	}
	change(t)
	return t
}

func TestMissingDaysThatCouldHaveBeenIt(t *testing.T) {
	nan := math.NaN()
	for name, c := range map[string]struct {
		tmin           []float64
		index          int
		found, certain bool
	}{
		"nothing missing":                      {fall(func([]float64) {}), 14, true, true},
		"a warm day missing":                   {fall(func(t []float64) { t[3] = nan }), 14, true, true},
		"the day itself missing":               {fall(func(t []float64) { t[14] = nan }), 15, true, false},
		"cold before, warm after":              {fall(func(t []float64) { t[12], t[13], t[14] = 36, nan, 40 }), 15, true, true},
		"just warm enough beside":              {fall(func(t []float64) { t[13], t[12] = nan, 37.5 }), 14, true, true},
		"just too cold beside":                 {fall(func(t []float64) { t[13], t[12] = nan, 37.4 }), 14, true, false},
		"a day after it missing":               {fall(func(t []float64) { t[17] = nan }), 14, true, true},
		"a tenth missing":                      {fall(func(t []float64) { t[1], t[3] = nan, nan }), 14, true, false},
		"the first day missing, warm":          {fall(func(t []float64) { t[0] = nan }), 14, true, true},
		"no freeze, nothing missing":           {fall(func(t []float64) { clear(t[14:]); setAll(t[14:], 33) }), -1, false, true},
		"no freeze, a cold day missing":        {fall(func(t []float64) { setAll(t[14:], 33); t[17] = nan }), -1, false, false},
		"no freeze, the last cold day missing": {fall(func(t []float64) { setAll(t[14:], 33); t[19] = nan }), -1, false, false},
		"nothing known":                        {[]float64{nan, nan, nan}, -1, false, false},
		"no days":                              {nil, -1, false, false},
	} {
		i, found, certain := FirstAtOrBelow(c.tmin, 32)
		if i != c.index || found != c.found || certain != c.certain {
			t.Errorf("fall, %s: day %d, found %v, certain %v; want %d, %v, %v", name, i, found, certain, c.index, c.found, c.certain)
		}
		// Spring is the same read backwards.
		back := slices.Clone(c.tmin)
		slices.Reverse(back)
		want := -1
		if c.found {
			want = len(back) - 1 - c.index
		}
		i, found, certain = LastAtOrBelow(back, 32)
		if i != want || found != c.found || certain != c.certain {
			t.Errorf("spring, %s: day %d, found %v, certain %v; want %d, %v, %v", name, i, found, certain, want, c.found, c.certain)
		}
	}
}

func setAll(t []float64, v float64) {
	for i := range t {
		t[i] = v
	}
}

// Whatever a missing day may have been, a certain answer would have stood, but for a lone cold night
// between warm days.
func TestALowerThresholdIsNeverReachedEarlier(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tmin := rapid.SliceOfN(rapid.Float64Range(10, 60), 1, 60).Draw(t, "tmin")
		high := rapid.Float64Range(10, 60).Draw(t, "threshold")
		low := high - rapid.Float64Range(0, 20).Draw(t, "lower by")
		i, foundHigh, certainHigh := FirstAtOrBelow(tmin, high)
		j, foundLow, certainLow := FirstAtOrBelow(tmin, low)
		if foundLow && (!foundHigh || j < i) || !certainHigh || !certainLow {
			t.Fatalf("at %g day %d, at %g day %d", high, i, low, j)
		}
	})
}
