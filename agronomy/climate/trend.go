package climate

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// Trend is a record's steady change: the middle of all slopes between two years (Theil and Sen), and
// the Mann-Kendall count of rises less falls with its standard score. Source: [source.TrendTest].
type Trend struct {
	Slope float64 // a year
	S     float64
	Z     float64
	P     float64 // two-sided
	// The slopes against which the test would not speak at 5 %: the 95 % interval of the slope.
	// [source.TrendInterval]
	Low, High float64
}

// FitTrend works a trend out over values at the given years, leaving out those not known. Ties are
// allowed for in the variance of S. Fewer than four values give NaN.
func FitTrend(year, value []float64) Trend {
	var x, y []float64
	for i, v := range value {
		if !math.IsNaN(v) {
			x = append(x, year[i])
			y = append(y, v)
		}
	}
	n := float64(len(y))
	if n < 4 {
		nan := math.NaN()
		return Trend{nan, nan, nan, nan, nan, nan}
	}
	var slopes []float64
	var t Trend
	for i := range y {
		for j := i + 1; j < len(y); j++ {
			slopes = append(slopes, (y[j]-y[i])/(x[j]-x[i]))
			switch {
			case y[j] > y[i]:
				t.S++
			case y[j] < y[i]:
				t.S--
			}
		}
	}
	t.Slope = median(slopes) // and in order
	variance := (n*(n-1)*(2*n+5) - ties(y)) / 18
	switch {
	case t.S > 0:
		t.Z = (t.S - 1) / math.Sqrt(variance)
	case t.S < 0:
		t.Z = (t.S + 1) / math.Sqrt(variance)
	}
	// With k slopes below a slope b the residuals from b score S = pairs - 2k. Of four values or more at
	// least one slope lies beyond either end.
	pairs := len(slopes)
	k := int(math.Ceil((float64(pairs) - distuv.UnitNormal.Quantile(0.975)*math.Sqrt(variance)) / 2))
	t.Low, t.High = slopes[k-1], slopes[pairs-k]
	t.P = 2 * distuv.UnitNormal.Survival(math.Abs(t.Z))
	return t
}

func ties(y []float64) float64 {
	sorted := slices.Sorted(slices.Values(y))
	var sum float64
	for i := 0; i < len(sorted); {
		j := i
		for j < len(sorted) && sorted[j] == sorted[i] {
			j++
		}
		t := float64(j - i)
		sum += t * (t - 1) * (2*t + 5)
		i = j
	}
	return sum
}

func median(x []float64) float64 {
	slices.Sort(x)
	n := len(x)
	if n%2 == 1 {
		return x[n/2]
	}
	return (x[n/2-1] + x[n/2]) / 2
}
