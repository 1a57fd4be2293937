package heat

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"haywarden/agronomy/method"
)

// call is degree-days with its words and numbers set as a user would set them.
func call(words map[string]string, numbers map[string]float64, tmin, tmax []float64) (*method.Call, error) {
	m := Methods()[0]
	c := method.NewCall(m, nil)
	c.SetWord("cutoff", "horizontal")
	for k, v := range words {
		c.SetWord(k, v)
	}
	for k, v := range numbers {
		c.SetNum(k, v)
	}
	c.SetList("tmin", tmin)
	c.SetList("tmax", tmax)
	return c, m.Run(c)
}

func TestDegreeDaysSaysWhatItDidNotUse(t *testing.T) {
	for name, c := range map[string]struct {
		words   map[string]string
		numbers map[string]float64
		tmin    []float64
		want    []string
	}{
		"an average with an upper threshold": {
			map[string]string{"method": "average", "unit": "F"}, map[string]float64{"base": 41, "upper": 86}, []float64{40, 50},
			[]string{"the simple average has no upper threshold: upper was not used"},
		},
		"half days without the next morning": {
			map[string]string{"method": "double-sine", "unit": "F"}, map[string]float64{"base": 48}, []float64{40, 50},
			[]string{"the last day's own lowest temperature stands in for the next morning's; give one more tmin to use that"},
		},
		"half days with it": {map[string]string{"method": "double-sine", "unit": "F"}, map[string]float64{"base": 48}, []float64{40, 50, 45}, nil},
		"a plain sine":      {map[string]string{"method": "sine", "unit": "C"}, map[string]float64{"base": 5}, []float64{4, 8}, nil},
	} {
		got, err := call(c.words, c.numbers, c.tmin, []float64{60, 70})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if diff := cmp.Diff(c.want, got.Notes()); diff != "" {
			t.Errorf("%s, notes (-want +got):\n%s", name, diff)
		}
		total := Methods()[0].Outputs[1]
		if unit, want := got.UnitOf(total).Symbol, c.words["unit"]+"-days"; unit != want {
			t.Errorf("%s: total in %s, want %s", name, unit, want)
		}
	}
}

func TestDegreeDaysRefusesWhatItCannotCount(t *testing.T) {
	for name, c := range map[string]struct {
		words   map[string]string
		numbers map[string]float64
		tmin    []float64
		want    string
	}{
		"upper below base": {map[string]string{"method": "sine", "unit": "F"}, map[string]float64{"base": 48, "upper": 40}, []float64{40}, "upper 40 is not above base 48: give a higher one, or none"},
		"upside down":      {map[string]string{"method": "sine", "unit": "F"}, map[string]float64{"base": 48}, []float64{70}, "day 1: highest temperature 60 is below lowest 70: check which is which"},
		"no method":        {map[string]string{"unit": "F"}, nil, []float64{40}, `degree-day method ""; accepted: average, modified, sine, triangle, double-sine, double-triangle`},
		"no cutoff":        {map[string]string{"method": "sine", "unit": "F", "cutoff": "sharp"}, nil, []float64{40}, `cutoff "sharp"; accepted: horizontal, intermediate, vertical`},
		"a strange unit":   {map[string]string{"method": "sine", "unit": "K"}, nil, []float64{40}, `unit "K"; accepted: F, C`},
	} {
		if _, err := call(c.words, c.numbers, c.tmin, []float64{60}); err == nil || err.Error() != c.want {
			t.Errorf("%s: %v, want %s", name, err, c.want)
		}
	}
}
