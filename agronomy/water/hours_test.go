package water

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"haywarden/agronomy/unit"
)

// 20 June at 43 N, 23.233 MJ, 27 C by day and 15 C at night; our own arithmetic, worked in Python.
func TestHoursOfADayByHand(t *testing.T) {
	const rs, n = 23.233, 15.187
	x := Extremes{PrevMaxC: 27, MinC: 15, MaxC: 27, NextMinC: 15}
	h, err := HoursOf(DenverShape(), x, rs, 1.705, n)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		hour         int
		watts, tempC float64
	}{{6, 280.12, 19.09}, {9, 580.21, 23.99}, {12, 663.93, 26.69}, {15, 500.06, 26.56}, {18, 149.71, 23.61}, {22, 0, 18.37}} {
		want(t, "W", h.SolarW[c.hour], c.watts, 0.0051)
		want(t, "C", h.TempC[c.hour], c.tempC, 0.0051)
	}
	var sum float64
	for _, w := range h.SolarW {
		sum += w
	}
	want(t, "Wh by 24 middles", sum, 6442.3, 0.05)
	want(t, "deficit at 12.5 h", h.DeficitKP[12], float64(Vapour(unit.Celsius(h.TempC[12])))-1.705, 1e-12)
	want(t, "deficit before dawn", h.DeficitKP[4], max(0, float64(Vapour(unit.Celsius(h.TempC[4])))-1.705), 1e-12)
}

func TestTheSunOfTheHoursAddsUpToTheDay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rs, n := rapid.Float64Range(0, 35).Draw(t, "rs"), rapid.Float64Range(4, 20).Draw(t, "day length")
		const steps = 24000
		var wh float64
		for i := range steps {
			wh += SolarW((float64(i)+0.5)*24/steps, rs, n) * 24 / steps
		}
		if !near(wh*3600/1e6, rs, 1e-4*(1+rs)) {
			t.Fatalf("%g MJ from %g", wh*3600/1e6, rs)
		}
	})
}

func TestHoursStayBetweenTheExtremes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		low := rapid.Float64Range(-30, 25).Draw(t, "low")
		x := Extremes{MinC: low, MaxC: low + rapid.Float64Range(0, 25).Draw(t, "range")}
		x.PrevMaxC = low + rapid.Float64Range(0, 25).Draw(t, "yesterday")
		x.NextMinC = low + rapid.Float64Range(-10, 10).Draw(t, "tomorrow")
		s := Shape{Lag: rapid.Float64Range(0, 3).Draw(t, "a"), Decay: rapid.Float64Range(0.5, 4).Draw(t, "b"), Delay: rapid.Float64Range(0, 2).Draw(t, "c")}
		n := unit.Hour(rapid.OneOf(rapid.Float64Range(8, 17), rapid.SampledFrom([]float64{0, 24})).Draw(t, "day length"))
		h, err := HoursOf(s, x, 20, 1, n)
		if err != nil {
			t.Fatal(err)
		}
		bottom, top := min(x.MinC, x.NextMinC), max(x.MaxC, x.PrevMaxC, x.NextMinC)
		for i, c := range h.TempC {
			if !(c >= bottom-1e-9 && c <= top+1e-9) || !(h.SolarW[i] >= 0) || !(h.DeficitKP[i] >= 0) {
				t.Fatalf("hour %d of %+v: %g C, %g W, %g kPa", i, x, c, h.SolarW[i], h.DeficitKP[i])
			}
		}
	})
}

func TestTheDayPeaksALagAfterNoonAndIsColdestADelayAfterSunrise(t *testing.T) {
	x := Extremes{PrevMaxC: 27, MinC: 15, MaxC: 27, NextMinC: 15}
	const n = 14.
	for name, s := range map[string]Shape{"Denver": DenverShape(), "North Carolina": CarolinaShape()} {
		want(t, name+" at its lowest", s.TempC(5+s.Delay, n, &x), 15, 1e-12)
		var hottest, at float64
		for h := 8.; h < 19; h += 0.01 {
			if c := s.TempC(h, n, &x); c > hottest {
				hottest, at = c, h
			}
		}
		want(t, name+" at its highest", hottest, 27, 1e-4)
		want(t, name+" hour of the highest", at, 12+s.Lag+s.Delay, 0.02)
		// The night is one line from sunset to the morning after, midnight or not.
		want(t, name+" midnight", s.TempC(24, n, &x), s.TempC(0, n, &x), 1e-9)
	}
}

func TestHoursThatCannotBeAreRefused(t *testing.T) {
	good := Extremes{27, 15, 27, 15}
	for name, c := range map[string]struct {
		s      Shape
		x      Extremes
		rs, ea float64
		n      float64
		want   string
	}{
		"upside down":     {DenverShape(), Extremes{27, 28, 27, 15}, 20, 1, 15, "lowest temperature 28 C, highest 27 C: the lowest is accepted up to the highest"},
		"no yesterday":    {DenverShape(), Extremes{math.NaN(), 15, 27, 15}, 20, 1, 15, "yesterday's highest NaN C, tomorrow's lowest 15 C: both are wanted; today's may stand in"},
		"dark sun":        {DenverShape(), good, -1, 1, 15, "solar radiation -1 MJ/m2: accepted 0 or more"},
		"no air":          {DenverShape(), good, 20, 0, 15, "vapour pressure 0 kPa: accepted more than 0"},
		"a long day":      {DenverShape(), good, 20, 1, 25, "day length 25 h: accepted 0 to 24"},
		"a night forever": {Shape{1, 0, 0}, good, 20, 1, 15, "shape {Lag:1 Decay:0 Delay:0}: accepted a lag of 0 or more, a decay above 0 and a delay of 0 to 6 h"},
	} {
		if _, err := HoursOf(c.s, c.x, unit.MJm2Day(c.rs), unit.Kilopascal(c.ea), unit.Hour(c.n)); err == nil || err.Error() != c.want {
			t.Errorf("%s: %v, want %s", name, err, c.want)
		}
	}
}
