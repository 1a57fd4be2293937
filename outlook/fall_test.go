package outlook

import (
	"math"
	"testing"
	"time"

	"haywarden/agronomy/unit"
)

// heatLeftByHand counts from the day after a cut to the day before the next 24 F, or through
// 30 November, day by day.
func heatLeftByHand(s *Sky, year int, month time.Month, day int) float64 {
	var sum float64
	for d := unit.DateOf(year, month, day) + 1; d <= unit.DateOf(year, time.November, 30); d++ {
		i, _ := s.series.Index(d)
		if s.series.TMinF[i] <= 24 {
			break
		}
		sum += max(0, ((s.series.TMaxF[i]+s.series.TMinF[i])/2-32)/1.8-5)
	}
	return sum
}

func TestHeatLeftAfterACutIsThatOfEachPastFall(t *testing.T) {
	sky := NewSky(record(8, 0), unit.DateOf(2026, 9, 8), SkyOptions{})
	for _, d := range []unit.Day{unit.DateOf(2026, 7, 31), unit.DateOf(2026, 8, 1), unit.DateOf(2026, 9, 8), unit.DateOf(2026, 10, 25), unit.DateOf(2026, 11, 29), unit.DateOf(2026, 11, 30), unit.DateOf(2026, 12, 24)} {
		got := sky.HeatUntilFreeze(d)
		if len(got) != 31 {
			t.Fatalf("%s: %d years, want 31", d, len(got))
		}
		for i, g := range got {
			if want := heatLeftByHand(sky, 1995+i, d.Month(), d.Time().Day()); math.Abs(g-want) > 1e-9 {
				t.Errorf("%s in %d: %.6f C-days left, by hand %.6f", d, 1995+i, g, want)
			}
		}
	}
}

func TestAFallWithHolesIsNotCounted(t *testing.T) {
	series := record(8, 0)
	for d := unit.DateOf(2010, 9, 1); d < unit.DateOf(2010, 9, 21); d++ {
		i, _ := series.Index(d)
		series.TMinF[i] = math.NaN()
	}
	sky := NewSky(series, unit.DateOf(2026, 9, 8), SkyOptions{})
	if n := len(sky.HeatUntilFreeze(unit.DateOf(2026, 8, 20))); n != 30 {
		t.Errorf("%d years, want 30: one misses 20 of 102 days", n)
	}
	if n := len(sky.HeatUntilFreeze(unit.DateOf(2026, 9, 25))); n != 31 {
		t.Errorf("%d years after the holes, want 31", n)
	}
}

func TestJust24FKills(t *testing.T) {
	series := record(8, 0)
	night := unit.DateOf(2010, 8, 20)
	i, _ := series.Index(night)
	for min, kills := range map[float64]bool{24: true, 24.1: false} {
		series.TMinF[i] = min
		sky := NewSky(series, unit.DateOf(2026, 9, 8), SkyOptions{})
		left := sky.HeatUntilFreeze(unit.DateOf(2026, 8, 18))[2010-1995]
		if short := left < 40; short != kills {
			t.Errorf("%g F on 20 August: %.0f C-days left after the 18th", min, left)
		}
	}
}
