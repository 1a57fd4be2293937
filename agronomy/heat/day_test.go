package heat

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// drawDay draws a day's temperatures, F, whole or not, and now and then a day without range.
func drawDay(t *rapid.T) (tmin, tmax float64) {
	tmin = rapid.Float64Range(-40, 90).Draw(t, "tmin")
	if rapid.Bool().Draw(t, "whole") {
		tmin = math.Round(tmin)
	}
	return tmin, tmin + rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(0, 60)).Draw(t, "range")
}

func drawSpec(t *rapid.T) Spec {
	s := Spec{
		Method: rapid.SampledFrom([]Method{Average, Modified, Sine, Triangle, DoubleSine, DoubleTriangle}).Draw(t, "method"),
		Base:   rapid.Float64Range(20, 60).Draw(t, "base"),
		Upper:  NoUpper(),
	}
	if rapid.Bool().Draw(t, "has upper") {
		s.Upper = s.Base + rapid.Float64Range(0.5, 50).Draw(t, "upper above base")
	}
	if s.Method > Modified {
		s.Cutoff = rapid.SampledFrom([]Cutoff{Horizontal, Intermediate, Vertical}).Draw(t, "cutoff")
	}
	return s
}

const slack = 1e-9 // degree-days lost to rounding

func TestHeatIsNeverNegative(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSpec(t)
		tmin, tmax := drawDay(t)
		next := rapid.Float64Range(-40, 90).Draw(t, "next lowest")
		if dd := s.Day(tmin, tmax); !(dd >= 0) {
			t.Fatalf("%+v: %g", s, dd)
		}
		if dd := s.DoubleDay(tmin, tmax, next); !(dd >= 0) {
			t.Fatalf("%+v, half days: %g", s, dd)
		}
	})
}

// Only the horizontal cutoff is monotone: under the others a hotter day counts for less.
func TestAWarmerDayNeverCountsForLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSpec(t)
		s.Cutoff = Horizontal
		tmin, tmax := drawDay(t)
		warmer := rapid.Float64Range(0, 20).Draw(t, "warmer by")
		if a, b := s.Day(tmin, tmax), s.Day(tmin, tmax+warmer); b < a-slack {
			t.Fatalf("%+v: highest +%g takes %g to %g", s, warmer, a, b)
		}
		low := min(tmin+warmer, tmax)
		if a, b := s.Day(tmin, tmax), s.Day(low, tmax); b < a-slack {
			t.Fatalf("%+v: lowest +%g takes %g to %g", s, low-tmin, a, b)
		}
	})
}

// By convexity the mean's excess is the least, and brought-up temperatures the most.
func TestMethodsLieInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tmin, tmax := drawDay(t)
		base := rapid.Float64Range(20, 60).Draw(t, "base")
		dd := func(m Method) float64 { return Spec{Method: m, Base: base, Upper: NoUpper()}.Day(tmin, tmax) }
		a, r, s, m := dd(Average), dd(Triangle), dd(Sine), dd(Modified)
		if a > r+slack || r > s+slack || s > m+slack {
			t.Fatalf("average %g, triangle %g, sine %g, modified %g", a, r, s, m)
		}
		if tmin >= base && (a != r || a != s || !near(a, m, slack)) {
			t.Fatalf("a day above base throughout differs: average %g, triangle %g, sine %g, modified %g", a, r, s, m)
		}
	})
}

func TestCutoffsLieInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSpec(t)
		if s.Method <= Modified {
			s.Method = Sine
		}
		s.Upper = s.Base + rapid.Float64Range(0.5, 50).Draw(t, "upper above base")
		tmin, tmax := drawDay(t)
		with := func(c Cutoff) float64 { s := s; s.Cutoff = c; return s.Day(tmin, tmax) }
		free := s
		free.Upper = NoUpper()
		none, h, i, v := free.Day(tmin, tmax), with(Horizontal), with(Intermediate), with(Vertical)
		if h > none+slack || i > h+slack || v > h+slack {
			t.Fatalf("none %g, horizontal %g, intermediate %g, vertical %g", none, h, i, v)
		}
		if h > s.Upper-s.Base+slack {
			t.Fatalf("horizontal %g is more than the span %g", h, s.Upper-s.Base)
		}
		// Slowing takes more than stopping only where the day runs hotter above upper than upper is
		// above base.
		if tmax-s.Upper <= s.Upper-s.Base && v > i+slack {
			t.Fatalf("intermediate %g, vertical %g", i, v)
		}
		if tmax <= s.Upper && (h != none || i != none || v != none) {
			t.Fatalf("an upper threshold that was not reached changed the day: %g %g %g %g", none, h, i, v)
		}
	})
}

// The closed forms against a plain sum over the day's curve.
func TestClosedFormsEqualTheIntegral(t *testing.T) {
	const points = 20000
	curve := map[Method]func(x float64) float64{ // x from 0 to 1 over half a day, value from -1 to 1
		Sine:     func(x float64) float64 { return -math.Cos(math.Pi * x) },
		Triangle: func(x float64) float64 { return 2*x - 1 },
	}
	rate := map[Cutoff]func(temp, base, upper float64) float64{
		Horizontal:   func(t, l, u float64) float64 { return max(0, min(t, u)-l) },
		Intermediate: func(t, l, u float64) float64 { return max(0, t-l) - 2*max(0, t-u) },
		Vertical: func(t, l, u float64) float64 {
			if t > u {
				return 0
			}
			return max(0, t-l)
		},
	}
	rapid.Check(t, func(t *rapid.T) {
		s := drawSpec(t)
		if s.Method != Sine {
			s.Method = Triangle
		}
		tmin, tmax := drawDay(t)
		var sum float64
		for i := range points {
			temp := (tmin+tmax)/2 + (tmax-tmin)/2*curve[s.Method]((float64(i)+0.5)/points)
			sum += rate[s.Cutoff](temp, s.Base, s.Upper)
		}
		want := sum / points
		if s.Cutoff == Intermediate {
			want = max(0, want) // the cutoff is taken on the day, not on the hour
		}
		// A jump at upper leaves an error of one point in 20,000.
		if got := s.Day(tmin, tmax); !near(got, want, 1e-2) || s.Cutoff != Vertical && !near(got, want, 1e-4) {
			t.Fatalf("%+v on %g/%g: %.6f, integral %.6f", s, tmin, tmax, got, want)
		}
	})
}

func TestHalvesOfEqualDaysMakeTheWholeDay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSpec(t)
		tmin, tmax := drawDay(t)
		if whole, halves := s.Day(tmin, tmax), s.DoubleDay(tmin, tmax, tmin); !near(whole, halves, slack) {
			t.Fatalf("%+v: whole %g, halves %g", s, whole, halves)
		}
	})
}

// A sum converts by 1.8 alone: 32 is never subtracted from it.
func TestFahrenheitSumsAre1Point8TimesCelsius(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSpec(t)
		tmin, tmax := drawDay(t)
		c := func(f float64) float64 { return (f - 32) / 1.8 }
		inC := s
		inC.Base, inC.Upper = c(s.Base), c(s.Upper)
		if f, cd := s.Day(tmin, tmax), inC.Day(c(tmin), c(tmax)); !near(f, 1.8*cd, 1e-6) {
			t.Fatalf("%+v: %g F-days, %g C-days", s, f, cd)
		}
	})
}

func TestWhatIsMissingStaysMissing(t *testing.T) {
	nan := math.NaN()
	for m := range Method(len(methodNames)) {
		for _, upper := range []float64{NoUpper(), nan, 86} {
			s := Spec{Method: m, Base: 48, Upper: upper}
			for _, day := range [][2]float64{{nan, 60}, {40, nan}, {nan, nan}} {
				if dd := s.Day(day[0], day[1]); !math.IsNaN(dd) {
					t.Errorf("%+v on %v: %g, want NaN", s, day, dd)
				}
			}
			if dd := s.DoubleDay(40, 60, nan); !math.IsNaN(dd) {
				t.Errorf("%+v without tomorrow's lowest: %g, want NaN", s, dd)
			}
		}
	}
	if dd := Hourly([]float64{50, nan}, 48); !math.IsNaN(dd) {
		t.Errorf("hours with one missing: %g, want NaN", dd)
	}
	if dd := Hourly(nil, 48); !math.IsNaN(dd) {
		t.Errorf("no hours: %g, want NaN", dd)
	}
}

func TestNoNumberWhereThereIsNoDay(t *testing.T) {
	for name, dd := range map[string]float64{
		"highest below lowest":        Weevil().Day(60, 40),
		"upper left at zero":          Spec{Method: Sine, Base: 48}.Day(40, 60),
		"modified, upper below base":  Spec{Method: Modified, Base: 50, Upper: 40}.Day(40, 60),
		"triangle, upper equals base": Spec{Method: Triangle, Base: 50, Upper: 50}.Day(40, 60),
		"unknown method":              Spec{Method: 99, Base: 50, Upper: NoUpper()}.Day(40, 60),
	} {
		if !math.IsNaN(dd) {
			t.Errorf("%s: %g, want NaN", name, dd)
		}
	}
}

// The worked hours of the definition.
func TestHourlyHeat(t *testing.T) {
	hours := func(n int, f float64) []float64 {
		out := make([]float64, n)
		for i := range out {
			out[i] = f
		}
		return out
	}
	for name, c := range map[string]struct {
		readings []float64
		want     float64
	}{
		"24 h at 50":             {hours(24, 50), 2},
		"12 h at 60, 12 h at 40": {append(hours(12, 60), hours(12, 40)...), 6},
		"24 h at 45":             {hours(24, 45), 0},
	} {
		if got := Hourly(c.readings, 48); !near(got, c.want, slack) {
			t.Errorf("%s: %g, want %g", name, got, c.want)
		}
	}
}

func TestAWarmFrontRunsTheSecondHalfUp(t *testing.T) {
	s := Spec{Method: DoubleSine, Base: 48, Upper: NoUpper()}
	// From 40 to 50, then up to 55 by morning.
	want := 0.5*Weevil().Day(40, 50) + 0.5*Weevil().Day(50, 55)
	if got := s.DoubleDay(40, 50, 55); !near(got, want, slack) {
		t.Errorf("%g, want %g", got, want)
	}
}

func TestBadRunsOfDaysAreRefused(t *testing.T) {
	for name, c := range map[string]struct {
		spec       Spec
		tmin, tmax []float64
		want       string
	}{
		"a day upside down":  {Weevil(), []float64{40, 60}, []float64{60, 40}, "day 2: highest temperature 40 is below lowest 60: check which is which"},
		"uneven lists":       {Weevil(), []float64{40, 41}, []float64{60}, "2 lowest and 1 highest temperatures: give one of each for every day"},
		"upper under base":   {Spec{Method: Sine, Base: 48, Upper: 40}, nil, nil, "upper 40 is not above base 48: give a higher one, or none"},
		"no base":            {Spec{Method: Sine, Base: math.NaN(), Upper: NoUpper()}, nil, nil, "base NaN: want a temperature"},
		"average, vertical":  {Spec{Method: Average, Base: 41, Upper: NoUpper(), Cutoff: Vertical}, nil, nil, "method average has no vertical cutoff: use horizontal, or a sine or triangle method"},
		"a method not known": {Spec{Method: 9, Base: 41}, nil, nil, "degree-day method 9 is not known; accepted: average, modified, sine, triangle, double-sine, double-triangle"},
		"a cutoff not known": {Spec{Method: Sine, Base: 41, Upper: NoUpper(), Cutoff: 7}, nil, nil, "degree-day cutoff 7 is not known; accepted: horizontal, intermediate, vertical"},
	} {
		if _, err := c.spec.Days(c.tmin, c.tmax); err == nil || err.Error() != c.want {
			t.Errorf("%s: error %v, want %s", name, err, c.want)
		}
	}
}

func TestAMissingDayLeavesTheOthers(t *testing.T) {
	daily, err := Weevil().Days([]float64{50, math.NaN(), 50}, []float64{70, 60, 70})
	if err != nil {
		t.Fatal(err)
	}
	if daily[0] != 12 || !math.IsNaN(daily[1]) || daily[2] != 12 {
		t.Errorf("%v, want 12, NaN, 12", daily)
	}
}

func TestWrittenNamesReadBack(t *testing.T) {
	for i, name := range MethodNames() {
		if m, err := ParseMethod(name); err != nil || m != Method(i) || m.String() != name {
			t.Errorf("%s: %v, %v", name, m, err)
		}
	}
	for i, name := range CutoffNames() {
		if c, err := ParseCutoff(name); err != nil || c != Cutoff(i) || c.String() != name {
			t.Errorf("%s: %v, %v", name, c, err)
		}
	}
	if _, err := ParseMethod("cosine"); err == nil || !strings.Contains(err.Error(), "accepted: average") {
		t.Errorf("cosine: %v", err)
	}
	if _, err := ParseCutoff("diagonal"); err == nil || !strings.Contains(err.Error(), "accepted: horizontal") {
		t.Errorf("diagonal: %v", err)
	}
}

func TestADayAllocatesNothing(t *testing.T) {
	s := Spec{Method: Sine, Base: 48, Upper: 86, Cutoff: Vertical}
	var sum float64
	if n := testing.AllocsPerRun(100, func() { sum += s.Day(40, 95) }); n != 0 {
		t.Errorf("%g allocations a day", n)
	}
}
