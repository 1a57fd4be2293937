package climate

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// In R 4.2.2, without the slopes between years: all slopes b from -6 to 6 by 0.0001 were tried, and those
// kept whose residuals y - bx score a Kendall S within qnorm(0.975) of its standard deviation.
func TestTheIntervalOfATrendIsWhereKendallsTestIsSilent(t *testing.T) {
	run := func(first float64, n int) (x []float64) {
		for i := range n {
			x = append(x, first+float64(i))
		}
		return x
	}
	for _, c := range []struct {
		x, y             []float64
		slope, low, high float64
	}{
		{run(1, 20), []float64{281, 268, 290, 275, 284, 271, 296, 279, 287, 265, 283, 277, 301, 273, 289, 280, 269, 294, 286, 278}, 0.225, -0.75, 1.0588},
		{run(2001, 12), []float64{3.1, 3.0, 3.4, 3.3, 3.6, 3.2, 3.9, 3.7, 4.1, 3.8, 4.4, 4.0}, 0.1083333, 0.0601, 0.1499},
		{[]float64{1991, 1993, 1994, 1995, 1998, 1999, 2001, 2004, 2005, 2006}, []float64{120, 118, 121, 115, 116, 119, 112, 110, 114, 109}, -0.6666667, -1, -0.3334},
	} {
		got := FitTrend(c.x, c.y)
		// The grid's own step stands between the ends.
		if math.Abs(got.Slope-c.slope) > 1e-6 || math.Abs(got.Low-c.low) > 2e-4 || math.Abs(got.High-c.high) > 2e-4 {
			t.Errorf("%v: slope %.6f, %.5f to %.5f; want %.6f, %.5f to %.5f", c.y, got.Slope, got.Low, got.High, c.slope, c.low, c.high)
		}
	}
	if got := FitTrend(run(1, 3), []float64{1, 2, 3}); !math.IsNaN(got.Low) || !math.IsNaN(got.High) {
		t.Errorf("three years bound a slope: %+v", got)
	}
}

func TestTheIntervalHoldsTheSlopeAndMovesWithIt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		y := rapid.SliceOfN(rapid.Float64Range(-50, 50), 4, 40).Draw(t, "values")
		tilt := rapid.Float64Range(-3, 3).Draw(t, "tilt")
		x, tilted := make([]float64, len(y)), make([]float64, len(y))
		for i := range y {
			x[i] = float64(i)
			y[i] = math.Round(y[i]) + float64(i)*1e-6 // no ties, which a tilt would part
			tilted[i] = y[i] + tilt*x[i]
		}
		a, b := FitTrend(x, y), FitTrend(x, tilted)
		if !(a.Low <= a.Slope && a.Slope <= a.High) {
			t.Fatalf("%+v does not hold its slope", a)
		}
		if math.Abs(b.Low-a.Low-tilt) > 1e-9 || math.Abs(b.High-a.High-tilt) > 1e-9 {
			t.Fatalf("tilted by %g: %+v from %+v", tilt, b, a)
		}
	})
}
