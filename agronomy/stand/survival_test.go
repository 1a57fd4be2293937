package stand

import (
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

func TestPlantsThatCannotBeAreRefused(t *testing.T) {
	for name, c := range map[string]struct {
		counts []float64
		frame  float64
		year   int
		want   string
	}{
		"half a plant": {[]float64{1.5}, 2, 1, "count 1 is 1.5"},
		"no frame":     {[]float64{3}, 0, 1, "frame 0: accepted more than 0 to 20 ft2"},
		"too old":      {[]float64{3}, 2, 40, "accepted production years 0 to 20"},
		"too many":     {[]float64{900}, 2, 1, "frame 1: 900 plants; accepted 0 to 400"},
		"nothing":      {nil, 2, 1, "no count is given"},
	} {
		if _, err := PublishedPlants().AssessPlants(c.counts, c.frame, c.year); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %s", name, err, c.want)
		}
	}
}

func TestRatingsThatCannotBeAreRefused(t *testing.T) {
	for name, by := range map[string][6]int{"none dug": {}, "less than nothing": {3, -1}, "a whole field": {0, 0, 9000}} {
		if _, err := PublishedCrowns().Assess(by); err == nil {
			t.Errorf("%s was taken", name)
		}
	}
}

// The lowest and highest reachable sums, and a class that never falls as an answer gets worse.
func TestWhatIsNotKnownSpansItsAnswers(t *testing.T) {
	p := RecalledWinterPoints()
	none, err := p.Assess(Winter{Age: math.NaN(), SoilK: math.NaN(), Interval: math.NaN()})
	if err != nil {
		t.Fatal(err)
	}
	if none.Low != 4 || none.High != 29 || none.Known() || none.LowClass != WinterLow || none.HighClass != WinterVeryHigh {
		t.Errorf("%+v", none)
	}
	rapid.Check(t, func(t *rapid.T) {
		maybe := func(name string, words []string) string {
			return rapid.SampledFrom(append([]string{""}, words...)).Draw(t, name)
		}
		number := func(name string, high float64) float64 {
			if rapid.Bool().Draw(t, name+" known") {
				return rapid.Float64Range(0, high).Draw(t, name)
			}
			return math.NaN()
		}
		w := Winter{
			Age: number("age", 12), Hardiness: maybe("hardiness", Hardinesses()), Resistance: maybe("resistance", Resistances()), SoilK: number("k", 300),
			Drainage: maybe("drainage", Drainages()), Moisture: maybe("moisture", Moistures()), Interval: number("interval", 60),
		}
		if rapid.Bool().Draw(t, "cut known") {
			w.LastCut = unit.DateOf(2025, time.January, 1) + unit.Day(rapid.IntRange(180, 330).Draw(t, "cut"))
		}
		a, err := p.Assess(w)
		if err != nil {
			t.Fatal(err)
		}
		if a.Low < 4 || a.High > 29 || a.Low > a.High || a.Known() && a.Low != a.High {
			t.Fatalf("%+v", a)
		}
		known := w
		if known.Moisture == "" {
			known.Moisture = "wet"
		}
		if known.Drainage == "" {
			known.Drainage = "poor"
		}
		b, err := p.Assess(known)
		if err != nil {
			t.Fatal(err)
		}
		if b.Low < a.Low || b.High > a.High {
			t.Fatalf("an answer widened the range: %+v, then %+v", a, b)
		}
	})
}

func TestWinterAnswersThatCannotBeAreRefused(t *testing.T) {
	for name, w := range map[string]Winter{
		"a word of no list": {Drainage: "swampy"}, "potassium": {SoilK: -1}, "age": {Age: 99}, "interval": {Interval: 999},
	} {
		if _, err := RecalledWinterPoints().Assess(w); err == nil {
			t.Errorf("%s was taken", name)
		}
	}
	if _, err := (WinterPoints{}).Assess(Winter{Age: 2, SoilK: 100, Interval: 40}); err == nil {
		t.Error("points that are not set were taken")
	}
}

func TestCreditsAreOneStatesOwn(t *testing.T) {
	for _, s := range CreditStates() {
		c, err := NitrogenCredit(s, Ended{Plants: 5, Share: math.NaN(), Regrown: math.NaN()})
		if err != nil || c.Low <= 0 || c.High < c.Low {
			t.Errorf("%s: %+v, %v", s, c, err)
		}
		if _, ok := source.Find(c.Source); !ok {
			t.Errorf("%s leans on %q", s, c.Source)
		}
	}
	for name, c := range map[string]struct {
		state string
		e     Ended
	}{
		"a state nobody read":   {"Ohio", Ended{Plants: 5}},
		"plants not known":      {"Wisconsin", Ended{Plants: math.NaN()}},
		"clover in Minnesota":   {"Minnesota", Ended{Plants: 5, Clover: true}},
		"clover in Kansas":      {"Kansas", Ended{Plants: 5, Clover: true}},
		"a third alfalfa":       {"Pennsylvania", Ended{Share: 0.33}},
		"Nebraska's second":     {"Nebraska", Ended{Plants: 5, Second: true}},
		"clover in the Penn'ia": {"Pennsylvania", Ended{Share: 0.9, Clover: true}},
	} {
		if _, err := NitrogenCredit(c.state, c.e); err == nil {
			t.Errorf("%s was answered", name)
		}
	}
	// Red clover leaves four fifths of alfalfa's in Wisconsin, recalled.
	c, err := NitrogenCredit("Wisconsin", Ended{Plants: 5, Regrown: 9, Clover: true})
	if err != nil || !near(c.Low, 152, 1e-9) || c.Source != source.CreditWisMemory {
		t.Errorf("%+v, %v", c, err)
	}
}

func TestWhatCanBeSownClosesInOrder(t *testing.T) {
	for day := unit.DateOf(2026, time.March, 1); day < unit.DateOf(2026, time.October, 1); day++ {
		last := unit.Day(0)
		for _, e := range EmergencyFrom(day, "") {
			until := e.Until(2026)
			if until < day || until < last || e.Opens(2026) > until {
				t.Fatalf("%s: %s until %s after %s", day, e.Name, until, last)
			}
			last = until
			if _, ok := source.Find(e.Source); !ok {
				t.Fatalf("%s leans on %q", e.Name, e.Source)
			}
		}
	}
}

// winterOfDays lays a plain winter from 1 November: 40 over 25, no snow, no rain.
func winterOfDays(change func(unit.Day, *WinterDay)) []WinterDay {
	var days []WinterDay
	for d := unit.DateOf(2025, time.November, 1); d < unit.DateOf(2026, time.April, 1); d++ {
		w := WinterDay{Day: d, MaxF: 38, MinF: 25}
		change(d, &w)
		days = append(days, w)
	}
	return days
}

func on(d unit.Day, month time.Month, from, to int) bool {
	_, m, day := d.Date()
	return m == month && day >= from && day <= to
}

func TestWhatAWinterDidIsSeen(t *testing.T) {
	k := PublishedWinter()
	cold := func(snow float64) func(unit.Day, *WinterDay) {
		return func(d unit.Day, w *WinterDay) {
			if on(d, time.January, 10, 14) {
				w.MaxF, w.MinF, w.SnowIn = 0, -20, snow
			}
		}
	}
	for name, c := range map[string]struct {
		days []WinterDay
		want Stress
		why  string
	}{
		"mild":                       {winterOfDays(func(unit.Day, *WinterDay) {}), StressMild, ""},
		"bitter without snow":        {winterOfDays(cold(0)), StressSevere, "under 0 °F at the crown"},
		"bitter under a little snow": {winterOfDays(cold(6)), StressModerate, "under 15 °F"},
		"open nights at 10": {winterOfDays(func(d unit.Day, w *WinterDay) {
			if on(d, time.January, 10, 13) {
				w.MaxF, w.MinF = 15, 5
			}
		}), StressModerate, "under 15 °F"},
		"ice for a month": {winterOfDays(func(d unit.Day, w *WinterDay) {
			if on(d, time.January, 3, 3) {
				w.MaxF, w.RainIn = 38, 0.6
			}
			if on(d, time.January, 4, 31) {
				w.MaxF, w.MinF = 30, 18
			}
		}), StressHard, "ice may have lain for three weeks"},
		"thaw, then cold": {winterOfDays(func(d unit.Day, w *WinterDay) {
			if on(d, time.February, 1, 4) {
				w.MaxF, w.MinF = 55, 35
			}
			if on(d, time.February, 9, 10) {
				w.MaxF, w.MinF = 14, 2
			}
		}), StressHard, "a thaw of 50 °F"},
	} {
		s := k.Stress(c.days)
		if s.Class != c.want || c.why != "" && !strings.Contains(strings.Join(s.Because, "; "), c.why) {
			t.Errorf("%s: %s because %v, want %s because %s", name, s.Class, s.Because, c.want, c.why)
		}
	}
}

func TestMoreSnowIsNeverColder(t *testing.T) {
	k := PublishedWinter()
	rapid.Check(t, func(t *rapid.T) {
		low := rapid.Float64Range(-40, 31).Draw(t, "low")
		day := WinterDay{MaxF: low + rapid.Float64Range(0, 30).Draw(t, "swing"), MinF: low, SnowIn: rapid.Float64Range(0, 20).Draw(t, "snow")}
		before := WinterDay{MaxF: low + 20, MinF: low + 5}
		deeper := day
		deeper.SnowIn += rapid.Float64Range(0, 10).Draw(t, "more")
		lowA, a := k.CrownF(before, day)
		lowB, b := k.CrownF(before, deeper)
		if day.SnowIn > 0 && (b < a-1e-9 || lowB < lowA-1e-9) {
			t.Fatalf("%g and %g with %g in, %g and %g with %g in", lowA, a, day.SnowIn, lowB, b, deeper.SnowIn)
		}
		if a < lowA-1e-9 {
			t.Fatalf("the middle estimate %g is under the low one %g", a, lowA)
		}
	})
}

func TestAMissingWinterIsSaidToBe(t *testing.T) {
	nan := math.NaN()
	s := PublishedWinter().Stress([]WinterDay{{Day: 20000, MaxF: nan, MinF: nan, SnowIn: nan, RainIn: nan}})
	if s.Known != 0 || s.SnowKnown != 0 || !math.IsInf(s.Coldest, 1) || s.Class != StressMild {
		t.Errorf("%+v", s)
	}
}

// A harder winter and a tenderer stand never lose less.
func TestWinterLossRises(t *testing.T) {
	for i, s := range Stresses() {
		for j, c := range WinterClasses() {
			v := WinterLoss(s, c)
			if i > 0 && v < WinterLoss(Stresses()[i-1], c) || j > 0 && v < WinterLoss(s, WinterClasses()[j-1]) || v < 0 || v > 1 {
				t.Errorf("%s, %s: %g", s, c, v)
			}
		}
	}
	if !math.IsNaN(WinterLoss(StressMild, "")) {
		t.Error("a class that is none has a loss")
	}
}
