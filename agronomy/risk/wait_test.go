package risk

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func near(a, b, tolerance float64) bool { return math.Abs(a-b) <= tolerance }

func TestAtTheBreakBothTimesAreWorthTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cut := func(name string) Cut {
			dry := rapid.Float64Range(50, 500).Draw(t, name+" dry")
			return Cut{dry, dry - rapid.Float64Range(0, 200).Draw(t, name+" loss"), rapid.Float64Range(0, 1).Draw(t, name+" rain")}
		}
		now, later := cut("now"), cut("later")
		w, err := CutOrWait(now, later)
		if err != nil {
			t.Fatal(err)
		}
		switch {
		case w.Break < 0 || w.Break > 1:
			t.Fatalf("break %g", w.Break)
		case w.Break > 0 && w.Break < 1:
			if even := (Cut{now.Dry, now.Wet, w.Break}).Mean(); !near(even, w.Later, 1e-9) {
				t.Fatalf("at the break %g against %g", even, w.Later)
			}
		}
		if cutNow := w.Now >= w.Later; cutNow != (now.Rain <= w.Break) && math.Abs(w.Now-w.Later) > 1e-9 && w.Break > 0 && w.Break < 1 {
			t.Fatalf("rain %g, break %g, now %g, later %g", now.Rain, w.Break, w.Now, w.Later)
		}
	})
}

func TestRainThatTakesNothingLeavesTheAverage(t *testing.T) {
	for name, c := range map[string]struct{ now, later, want float64 }{"now is better": {300, 280, 1}, "the same": {280, 280, 1}, "later is better": {280, 300, 0}} {
		w, err := CutOrWait(Cut{c.now, c.now, 0.5}, Cut{c.later, c.later, 0.5})
		if err != nil || w.Break != c.want {
			t.Errorf("%s: %+v, %v", name, w, err)
		}
	}
}

// TestWhatCannotBeIsRefused proves that each refusal says what is accepted.
func TestWhatCannotBeIsRefused(t *testing.T) {
	ok := Cut{300, 200, 0.5}
	listed, err := NewListed([]float64{40, 80}, []float64{0.5, 0.5})
	if err != nil {
		t.Fatal(err)
	}
	bell, err := NewBell(100, 10)
	if err != nil {
		t.Fatal(err)
	}
	inf := math.Inf(1)
	two := []Forecast{{0.5, 0.1}, {0.5, 0.9}}
	for name, c := range map[string]struct {
		run  func() error
		want string
	}{
		"rain that adds":         {func() error { _, err := CutOrWait(Cut{200, 250, 0.5}, ok); return err }, "worth now is 250 wet and 200 dry: rain on cut hay adds nothing; accepted wet: up to 200"},
		"a chance over 1":        {func() error { _, err := CutOrWait(ok, Cut{300, 200, 1.5}); return err }, "chance of rain later 1.5: accepted 0 to 1"},
		"worth unknown":          {func() error { _, err := CutOrWait(Cut{math.NaN(), 1, 0}, ok); return err }, "want two numbers"},
		"protecting for nothing": {func() error { _, err := Protect(-1, 10); return err }, "accepted 0 and over"},
		"nothing to protect":     {func() error { _, err := Protect(1, 0); return err }, "accepted over 0"},
		"no day":                 {func() error { _, _, err := BestDay(nil); return err }, "want today at least"},
		"a day with a gain":      {func() error { _, _, err := BestDay([]Day{{300, -1, 0.5}}); return err }, "day 0: worth 300 and loss to rain -1"},
		"no morning":             {func() error { _, err := WithUpdates(nil); return err }, "want today at least"},
		"a morning unforecast":   {func() error { _, err := WithUpdates([]Morning{{Dry: 300}}); return err }, "day 0 has no forecast"},
		"forecasts short of 1":   {func() error { _, err := WithUpdates([]Morning{{Forecasts: two[:1]}}); return err }, "day 0: the chances add to 0.5: want a list that adds to 1"},
		"too few rows to follow": {func() error {
			_, err := WithUpdates([]Morning{{Forecasts: two}, {Forecasts: two, Follow: [][]float64{{1, 0}}}})
			return err
		}, "day 1: 1 rows of what follows what; want 2"},
		"a row short": {func() error {
			_, err := WithUpdates([]Morning{{Forecasts: two}, {Forecasts: two, Follow: [][]float64{{1, 0}, {1}}}})
			return err
		}, "day 1: row 2 of what follows what has 1 chances; want 2"},
		"a row off 1": {func() error {
			_, err := WithUpdates([]Morning{{Forecasts: two}, {Forecasts: two, Follow: [][]float64{{1, 0}, {1, 1}}}})
			return err
		}, "day 1, after forecast 2: the chances add to 2"},
		"acres without chances":    {func() error { _, err := NewListed([]float64{1}, nil); return err }, "1 acres and 0 chances"},
		"acres under 0":            {func() error { _, err := NewListed([]float64{-1}, []float64{1}); return err }, "acres 1 is -1: accepted 0 and over"},
		"no spread":                {func() error { _, err := NewBell(100, 0); return err }, "standard deviation over 0"},
		"costs of nothing":         {func() error { _, err := Mowing{}.Best(listed, inf); return err }, "one of them over 0"},
		"a crew under 0":           {func() error { _, err := Mowing{18, 20}.Best(listed, -1); return err }, "acres the crew can handle -1: accepted 0 and over"},
		"a bell without a best":    {func() error { _, err := Mowing{0, 20}.Best(bell, inf); return err }, "accepted both over 0"},
		"outcomes without chances": {func() error { _, err := NewOutcomes([]float64{1, 2}, []float64{1}); return err }, "2 outcomes and 1 chances"},
		"an outcome without end":   {func() error { _, err := NewOutcomes([]float64{inf}, []float64{1}); return err }, "want finite numbers"},
		"chances over 1":           {func() error { _, err := NewOutcomes([]float64{1, 2}, []float64{0.6, 0.6}); return err }, "the chances add to 1.2"},
		"a word of no caution":     {func() error { _, err := ChosenTaste().Weight("bold"); return err }, `how cautious "bold": accepted by the average, a little careful, careful, very careful, safest only`},
		"an error under 0":         {func() error { _, err := Tell(Estimate{1, 1}, Estimate{1, -1}, 0); return err }, "estimate 2 is 1 with error -1"},
		"a correlation over 1":     {func() error { _, err := Tell(Estimate{1, 1}, Estimate{1, 1}, 1.1); return err }, "correlation 1.1: accepted -1 to 1"},
	} {
		if err := c.run(); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want an error saying %q", name, err, c.want)
		}
	}
}
