package count

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func near(a, b, tolerance float64) bool { return math.Abs(a-b) <= tolerance }

func mustMean(t interface{ Fatal(...any) }, x []float64) Interval {
	iv, err := Means(x)
	if err != nil {
		t.Fatal(err)
	}
	return iv
}

// Computed in R 4.2.2. [source.StudentT]
func TestStudentIntervalIsThatOfR(t *testing.T) {
	for _, c := range []struct {
		x                             []float64
		mean, sd, low, high, p40, p55 float64
	}{
		{[]float64{48, 36, 55, 41, 30, 44, 52, 38}, 43, 8.434623, 35.948479, 50.051521, 0.173956983, 0.997483089},
		{[]float64{62, 58, 71, 66, 49}, 61.2, 8.348653, 50.833779, 71.566221, 0.002373796, 0.086067182},
	} {
		iv := mustMean(t, c.x)
		if !near(iv.Mean, c.mean, 1e-12) || !near(iv.SD, c.sd, 5.1e-7) || !near(iv.Low, c.low, 5.1e-7) || !near(iv.High, c.high, 5.1e-7) {
			t.Errorf("%v: %+v", c.x, iv)
		}
		if p := iv.ChanceBelow(40); !near(p, c.p40, 5.1e-10) {
			t.Errorf("%v: chance below 40 is %.10f, want %.9f", c.x, p, c.p40)
		}
		if p := iv.ChanceBelow(55); !near(p, c.p55, 5.1e-10) {
			t.Errorf("%v: chance below 55 is %.10f, want %.9f", c.x, p, c.p55)
		}
		if !near(iv.SE, iv.SD/math.Sqrt(float64(len(c.x))), 1e-12) || !near(iv.CV, iv.SD/iv.Mean, 1e-12) || !near(iv.HalfWidth(), (iv.High-iv.Mean)/iv.Mean, 1e-12) {
			t.Errorf("%v: SE, CV and width do not follow: %+v", c.x, iv)
		}
	}
	// Plants are counted few: the t chance of the same sample, beside the Poisson one below.
	if p := mustMean(t, plants).ChanceBelow(4); !near(p, 0.828281802, 5.1e-10) {
		t.Errorf("chance below 4 plants: %.10f", p)
	}
}

var plants = []float64{3, 5, 2, 4, 6, 1, 4, 3, 2, 5}

// t(0.975) as printed from R, six decimals.
func TestStudentQuantile(t *testing.T) {
	for df, want := range map[int]float64{3: 3.182446, 4: 2.776445, 5: 2.570582, 7: 2.364624, 9: 2.262157, 10: 2.228139, 45: 2.014103} {
		if got := studentQuantile(df); !near(got, want, 5.1e-7) {
			t.Errorf("%d degrees: %.7f, want %.6f", df, got, want)
		}
	}
	for df, want := range map[int]float64{1: 12.7062047361747, 2: 4.30265272974946, 99: 1.98421695158642} {
		if got := studentQuantile(df); !near(got, want, 1e-8*want) {
			t.Errorf("%d degrees: %.12f, want %.12f", df, got, want)
		}
	}
}

// Sample sizes worked with the t quantiles of R.
func TestSampleSize(t *testing.T) {
	for _, c := range []struct {
		cv            float64
		n10, n15, n20 int
	}{{0.20, 18, 10, 7}, {0.30, 38, 18, 12}, {0.40, 64, 30, 18}} {
		if a, b, d := SampleSize(c.cv, 0.10), SampleSize(c.cv, 0.15), SampleSize(c.cv, 0.20); a != c.n10 || b != c.n15 || d != c.n20 {
			t.Errorf("CV %g: %d, %d, %d spots; want %d, %d, %d", c.cv, a, b, d, c.n10, c.n15, c.n20)
		}
	}
	for name, c := range map[string]struct {
		cv, half float64
		want     int
	}{
		"no spread":        {0, 0.15, 2},
		"spread not known": {math.NaN(), 0.15, 0},
		"endless spread":   {math.Inf(1), 0.15, 0},
		"no width":         {0.3, 0, 0},
		"width not known":  {0.3, math.NaN(), 0},
		"hopeless":         {50, 0.001, 1_000_000},
	} {
		if got := SampleSize(c.cv, c.half); got != c.want {
			t.Errorf("%s: %d, want %d", name, got, c.want)
		}
	}
}

// Plants of ten frames: R's exact Poisson limits, and Jeffreys' chance.
func TestExactPoissonIntervalIsThatOfR(t *testing.T) {
	r, err := Totals(plants)
	if err != nil {
		t.Fatal(err)
	}
	if r.Total != 35 || r.Mean != 3.5 || !near(r.Low, 2.437878, 5.1e-7) || !near(r.High, 4.867653, 5.1e-7) {
		t.Errorf("%+v", r)
	}
	if p := r.ChanceBelow(4); !near(p, 0.782580010, 5.1e-10) {
		t.Errorf("chance below 4: %.10f, want 0.782580010", p)
	}
	r, err = Totals([]float64{5, 6, 4, 8})
	if err != nil {
		t.Fatal(err)
	}
	if !near(r.Low, 3.645006759, 5.1e-10) || !near(r.High, 8.627823224, 5.1e-10) {
		t.Errorf("23 in 4: %.10f to %.10f, want 3.645006759 to 8.627823224", r.Low, r.High)
	}
	// Nothing in ten spots: the upper limit is -ln(0.025)/10, known in closed form.
	r, err = Totals(make([]float64, 10))
	if err != nil {
		t.Fatal(err)
	}
	if r.Low != 0 || !near(r.High, -math.Log(0.025)/10, 1e-9) {
		t.Errorf("nothing counted: %+v", r)
	}
}

func TestOneSpotIsAMeanWithoutAnInterval(t *testing.T) {
	iv := mustMean(t, []float64{47})
	if iv.Mean != 47 || iv.Known() {
		t.Errorf("%+v", iv)
	}
	for name, v := range map[string]float64{"SD": iv.SD, "SE": iv.SE, "low": iv.Low, "high": iv.High, "CV": iv.CV, "chance": iv.ChanceBelow(55), "width": iv.HalfWidth()} {
		if !math.IsNaN(v) {
			t.Errorf("%s is %g, want NaN", name, v)
		}
	}
}

func TestEqualSpotsLeaveNoDoubt(t *testing.T) {
	iv := mustMean(t, []float64{55, 55, 55})
	if iv.Low != 55 || iv.High != 55 || iv.ChanceBelow(55) != 0 || iv.ChanceBelow(55.1) != 1 {
		t.Errorf("%+v", iv)
	}
	none := mustMean(t, []float64{0, 0})
	if !math.IsNaN(none.CV) || !math.IsNaN(none.HalfWidth()) {
		t.Errorf("nothing counted: %+v", none)
	}
}

func TestWhatIsNoCountIsRefused(t *testing.T) {
	for name, c := range map[string]struct {
		x    []float64
		want string
	}{
		"nothing":   {nil, "no count is given: at least one spot is wanted, two for an interval"},
		"a gap":     {[]float64{4, math.NaN()}, "count 2 is NaN: want a finite number"},
		"no number": {[]float64{math.Inf(1)}, "count 1 is +Inf: want a finite number"},
	} {
		if _, err := Means(c.x); err == nil || err.Error() != c.want {
			t.Errorf("%s: %v, want %s", name, err, c.want)
		}
	}
	for name, c := range map[string]struct {
		x    []float64
		want string
	}{
		"nothing":    {nil, "no count is given: at least one spot is wanted"},
		"half a one": {[]float64{1, 2.5}, "count 2 is 2.5: want a whole number, 0 or more"},
		"less":       {[]float64{-1}, "count 1 is -1: want a whole number, 0 or more"},
		"a gap":      {[]float64{math.NaN()}, "count 1 is NaN: want a whole number, 0 or more"},
		"no end":     {[]float64{math.Inf(1)}, "count 1 is +Inf: want a whole number, 0 or more"},
	} {
		if _, err := Totals(c.x); err == nil || err.Error() != c.want {
			t.Errorf("totals of %s: %v, want %s", name, err, c.want)
		}
	}
}

func drawCounts(t *rapid.T, least int) []float64 {
	return rapid.SliceOfN(rapid.Map(rapid.IntRange(0, 120), func(n int) float64 { return float64(n) }), least, 30).Draw(t, "counts")
}

func TestChancesAreSharesAndGrowWithTheLimit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := drawCounts(t, 2)
		low := rapid.Float64Range(-5, 130).Draw(t, "limit")
		high := low + rapid.Float64Range(0, 50).Draw(t, "higher by")
		iv := mustMean(t, x)
		if a, b := iv.ChanceBelow(low), iv.ChanceBelow(high); !(a >= 0 && a <= b+1e-12 && b <= 1) {
			t.Fatalf("t: %g, %g", a, b)
		}
		r, err := Totals(x)
		if err != nil {
			t.Fatal(err)
		}
		// The gamma function's far tail wavers in the last digits.
		if a, b := r.ChanceBelow(low), r.ChanceBelow(high); !(a >= 0 && a <= b+1e-12 && b <= 1) {
			t.Fatalf("Poisson: %g, %g", a, b)
		}
		if !(iv.Low <= iv.Mean && iv.Mean <= iv.High && r.Low <= r.Mean && r.Mean <= r.High) {
			t.Fatalf("a mean outside its interval: %+v, %+v", iv, r)
		}
	})
}

// The interval's ends are where the chance is 2.5 and 97.5 %.
func TestIntervalAndChanceAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		iv := mustMean(t, drawCounts(t, 2))
		if iv.SD == 0 {
			return
		}
		if a, b := iv.ChanceBelow(iv.Low), iv.ChanceBelow(iv.High); !near(a, 0.025, 1e-8) || !near(b, 0.975, 1e-8) {
			t.Fatalf("%g and %g at the ends of %+v", a, b, iv)
		}
	})
}

// The same field counted twice over: equal spread, more spots, a narrower interval.
func TestMoreSpotsOfEqualSpreadNarrowTheInterval(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := drawCounts(t, 2)
		a, b := mustMean(t, x), mustMean(t, append(slices.Clone(x), x...))
		if a.SD > 0 && !(b.High-b.Low < a.High-a.Low) {
			t.Fatalf("%d spots: %g wide, %d: %g", a.N, a.High-a.Low, b.N, b.High-b.Low)
		}
	})
}

func TestSampleSizeIsTheLeastThatWillDo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cv := rapid.Float64Range(0.02, 2).Draw(t, "cv")
		half := rapid.Float64Range(0.05, 0.5).Draw(t, "half width")
		n := SampleSize(cv, half)
		width := func(n int) float64 { return studentQuantile(n-1) * cv / math.Sqrt(float64(n)) }
		if width(n) > half*(1+1e-12) {
			t.Fatalf("%d spots leave %g, want %g", n, width(n), half)
		}
		if n > 2 && width(n-1) <= half*(1-1e-12) {
			t.Fatalf("%d spots would do as well as %d", n-1, n)
		}
		if more := SampleSize(cv, half/1.5); more < n {
			t.Fatalf("a narrower interval took %d spots, a wider %d", more, n)
		}
	})
}
