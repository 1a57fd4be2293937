package outlook

import (
	"math"
	"testing"
	"time"

	"haywarden/agronomy/heat"
	"haywarden/agronomy/unit"
	"haywarden/weather"
)

func bud(given unit.Day) HeatEvent {
	return HeatEvent{Name: "bud", Spec: heat.FirstCut(), From: time.March, Target: 700, Given: given}
}

// At a real station the windows must hold as often as they promise, and knowing the season to date must
// help. GHCN-Daily USW00014839, 1971-2020.
func TestWindowsOfHeatHoldAsOftenAsTheyPromiseAtMilwaukee(t *testing.T) {
	record := milwaukee(t)
	for given, narrower := range map[unit.Day]float64{unit.DateOf(2001, time.April, 1): 1, unit.DateOf(2001, time.May, 1): 0.75, unit.DateOf(2001, time.May, 15): 0.5} {
		h := HeatWindows(record, bud(given))
		t.Logf("given %s: %d of %d inside (%.0f-%.0f %%), %d before, %d after, width %.1f days, CRPS %.2f days against %.2f", given.Time().Format("2 January"), h.Inside, h.Given, 100*h.Low, 100*h.High, h.Early, h.Late, h.Width, h.CRPS, h.PlainCRPS)
		if h.Given < 25 || h.Inside+h.Early+h.Late != h.Given {
			t.Fatalf("%+v", h)
		}
		if !h.Agrees() {
			t.Errorf("given %s: %.0f %% of windows held, 80 %% promised, interval %.0f-%.0f %%", given, 100*h.Share(), 100*h.Low, 100*h.High)
		}
		if h.CRPS > narrower*h.PlainCRPS {
			t.Errorf("given %s: off by %.2f days, by past years alone %.2f", given, h.CRPS, h.PlainCRPS)
		}
	}
}

func TestATriedYearNeverSeesItself(t *testing.T) {
	record := milwaukee(t)
	before := HeatWindows(record.Until(unit.DateOf(2005, 12, 31)), bud(unit.DateOf(2001, time.May, 1)))
	// The years after 2005 made absurd: none of them is behind a year up to 2005.
	after := HeatWindows(poisoned(record, unit.DateOf(2006, 1, 1)).Until(unit.DateOf(2005, 12, 31)), bud(unit.DateOf(2001, time.May, 1)))
	if before != after {
		t.Errorf("%+v\n%+v", before, after)
	}
	// The tried year's own days after the date change what came, never the window.
	changed := poisoned(record, unit.DateOf(2020, time.May, 20))
	a, b := HeatWindows(record, bud(unit.DateOf(2001, time.May, 15))), HeatWindows(changed, bud(unit.DateOf(2001, time.May, 15)))
	if a.Given != b.Given || a.Width != b.Width {
		t.Errorf("windows changed with the days after them: %+v, %+v", a, b)
	}
	if a == b {
		t.Error("nothing changed though the last year's heat came at once: the trial looks at nothing")
	}
}

func TestForecastsAreHeldAgainstWhatCame(t *testing.T) {
	s := record(4, 0)
	issued := unit.DateOf(2026, 5, 10)
	day := func(lead int, high, low, pop float64) weather.ForecastDay {
		d := issued + unit.Day(lead)
		i, _ := s.Index(d)
		h, l := s.TMaxC[i]+high/1.8, s.TMinC[i]+low/1.8
		return weather.ForecastDay{Day: d, TMaxC: &h, TMinC: &l, PoP: &pop}
	}
	i1, _ := s.Index(issued + 1)
	i2, _ := s.Index(issued + 2)
	s.RainMM[i1], s.RainMM[i2] = 5, 0
	got := BorneOut([]weather.Forecast{{Issued: issued.Time().Add(6 * time.Hour), Days: []weather.ForecastDay{day(0, 9, 9, 1), day(1, 4, -2, 0.7), day(2, -6, 2, 0.2)}}}, s, issued+2)
	if len(got) != 2 {
		t.Fatalf("%+v", got)
	}
	near := func(a, b float64) bool { return math.Abs(a-b) < 1e-9 }
	if l := got[0]; l.Days != 1 || !near(l.HighErr, 4) || !near(l.HighBias, 4) || !near(l.LowBias, -2) || !near(l.Brier, 0.09) {
		t.Errorf("a day ahead: %+v", l)
	}
	if l := got[1]; !near(l.HighErr, 6) || !near(l.HighBias, -6) || !near(l.Brier, 0.04) || l.UsualBrier != 0 {
		t.Errorf("two days ahead: %+v", l)
	}
	if none := BorneOut([]weather.Forecast{{Issued: issued.Time(), Days: []weather.ForecastDay{day(5, 0, 0, 0)}}}, s, issued+2); len(none) != 0 {
		t.Errorf("a day that had not come was scored: %+v", none)
	}
}
