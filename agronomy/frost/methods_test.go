package frost

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haywarden/agronomy/method"
)

func declared(t *testing.T, name string) *method.Method {
	t.Helper()
	i := slices.IndexFunc(Methods(), func(m *method.Method) bool { return m.Name == name })
	if i < 0 {
		t.Fatalf("no method %s", name)
	}
	return Methods()[i]
}

func freezes(t *testing.T, side string, m QuantileMethod, days, chances []float64) (*method.Call, error) {
	t.Helper()
	d := declared(t, "freeze-dates")
	c := method.NewCall(d, nil)
	c.SetWord("side", side)
	c.SetWord("method", string(m))
	c.SetList("days", days)
	c.SetList("chances", chances)
	return c, d.Run(c)
}

func TestFreezeDatesSayHowShortTheRecordIs(t *testing.T) {
	thirty := slices.Concat(falls, falls[:10])
	for name, c := range map[string]struct {
		days, chances []float64
		want          []string
	}{
		"thirty years":                {thirty, []float64{0.1, 0.5, 0.9}, nil},
		"twelve years":                {falls[:12], []float64{0.1}, []string{"12 years: 20 or more are better, 30 is the normal"}},
		"six years, the outer dates":  {falls[:6], []float64{0.5, 0.9}, []string{"6 years are too few for a 10 or 90 % date: 10 at least, 30 is the normal"}},
		"six years, the middle only":  {falls[:6], []float64{0.5}, []string{"6 years: 20 or more are better, 30 is the normal"}},
		"a freeze that need not come": {someNo, []float64{0.95}, []string{"a freeze does not come in 95 % of the years given", "16 years: 20 or more are better, 30 is the normal"}},
	} {
		got, err := freezes(t, "fall", Weibull, c.days, c.chances)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if diff := cmp.Diff(c.want, got.Notes()); diff != "" {
			t.Errorf("%s, notes (-want +got):\n%s", name, diff)
		}
	}
}

// In spring as in fall a date that does not come is `none` and +Inf, whatever end it is read from.
func TestASpringWithoutFreezeIsNone(t *testing.T) {
	got, err := freezes(t, "spring", Normal, []float64{120, 130, never, never}, []float64{0.9})
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(map[string]any{"days": []float64{never}, "dates": []string{"none"}, "q": 0.5}, got.Outputs()); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestFreezeDatesRefuseTheWrongHalfOfTheYear(t *testing.T) {
	for name, c := range map[string]struct {
		side string
		m    QuantileMethod
		days []float64
		want string
	}{
		"spring dates as fall":     {"fall", Weibull, []float64{280, 128}, "days: 128 is before 1 August; side=fall takes days 213 to 366"},
		"fall dates as spring":     {"spring", Weibull, []float64{280}, "days: 280 is after 31 July; side=spring takes days 1 to 213"},
		"a curve through one date": {"fall", Normal, []float64{280, never}, "method normal wants 2 years with a freeze at least, and 1 given; use weibull"},
	} {
		if _, err := freezes(t, c.side, c.m, c.days, []float64{0.5}); err == nil || err.Error() != c.want {
			t.Errorf("%s: %v, want %s", name, err, c.want)
		}
	}
}

func TestFrostHoursRefusesADayUpsideDown(t *testing.T) {
	d := declared(t, "frost-hours")
	c := method.NewCall(d, nil)
	c.SetNum("tmin", 50)
	c.SetNum("tmax", 20)
	c.SetNum("threshold", 24)
	if err := d.Run(c); err == nil || err.Error() != "tmax 20 F is below tmin 50 F: check which is which" {
		t.Errorf("%v", err)
	}
}

func TestFallRestSaysHowFewYearsThereAre(t *testing.T) {
	d := declared(t, "fall-rest")
	c := method.NewCall(d, nil)
	c.SetList("heat_after", []float64{612, 300})
	if err := d.Run(c); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff([]string{"2 years are few: 10 at least, 30 is the normal"}, c.Notes()); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}
