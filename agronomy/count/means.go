// Package count says how far a count made at a few spots can be leaned on: the interval of its mean,
// the chance that the field is below a limit, and how many spots a wanted width takes. Stems and pests
// are counted by it alike. The spots must have been chosen without looking at what stands there.
package count

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Confidence is the share of such intervals that hold the field's own mean.
const Confidence = 0.95

// upperTail is where the interval's upper end stands.
const upperTail = 0.5 + Confidence/2

// Interval is a mean of counts with its spread. With one spot there is a mean and no spread: SD, SE,
// Low, High and CV are NaN, and Known is false. Source of the interval: [source.StudentT].
type Interval struct {
	Mean float64
	SD   float64 // sample standard deviation between spots
	SE   float64 // of the mean, SD/sqrt(N)
	Low  float64 // Mean - t(0.975, N-1) SE
	High float64 // Mean + t(0.975, N-1) SE
	CV   float64 // SD/Mean, NaN where the mean is 0
	N    int
}

// Means works out the mean of counts and its 95 % Student t interval. The interval assumes that means
// of so many spots scatter normally, which counts near 0 do not: there Low can fall below 0, and
// [Totals] is the better answer.
func Means(x []float64) (Interval, error) {
	if len(x) == 0 {
		return Interval{}, fmt.Errorf("no count is given: at least one spot is wanted, two for an interval")
	}
	iv := Interval{N: len(x)}
	for i, v := range x {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return Interval{}, fmt.Errorf("count %d is %g: want a finite number", i+1, v)
		}
		iv.Mean += v
	}
	n := float64(iv.N)
	iv.Mean /= n
	if iv.N == 1 {
		nan := math.NaN()
		iv.SD, iv.SE, iv.Low, iv.High, iv.CV = nan, nan, nan, nan, nan
		return iv, nil
	}
	var squares float64
	for _, v := range x {
		squares += (v - iv.Mean) * (v - iv.Mean)
	}
	iv.SD = math.Sqrt(squares / (n - 1))
	iv.SE = iv.SD / math.Sqrt(n)
	half := studentQuantile(iv.N-1) * iv.SE
	iv.Low, iv.High = iv.Mean-half, iv.Mean+half
	iv.CV = iv.SD / iv.Mean
	if iv.Mean == 0 {
		iv.CV = math.NaN()
	}
	return iv, nil
}

// Known reports whether there is an interval: two spots at least.
func (iv Interval) Known() bool { return iv.N > 1 }

// HalfWidth is half the interval as a share of the mean; NaN where there is no interval or the mean
// is 0.
func (iv Interval) HalfWidth() float64 {
	if iv.Mean == 0 {
		return math.NaN()
	}
	return (iv.High - iv.Low) / 2 / math.Abs(iv.Mean)
}

// ChanceBelow is the chance that the field's own mean is below c, taking the t distribution about the
// counted mean as what is known of it (a flat prior): T((c - mean)/SE) with N-1 degrees of freedom.
// Where all spots are equal it is 0 or 1; where there is no interval it is NaN.
func (iv Interval) ChanceBelow(c float64) float64 {
	switch {
	case !iv.Known():
		return math.NaN()
	case iv.SE == 0 && iv.Mean < c:
		return 1
	case iv.SE == 0:
		return 0
	}
	return student(iv.N - 1).CDF((c - iv.Mean) / iv.SE)
}

// SampleSize is how many spots bring half the interval's width down to a share of the mean, where the
// spots have the coefficient of variation cv: the smallest n with n >= (t(0.975, n-1) cv/halfWidth)^2.
// It is 2 at least, a million at most, and 0 where cv or halfWidth is no positive number (cv may be 0).
func SampleSize(cv, halfWidth float64) int {
	const most = 1_000_000
	if !(cv >= 0) || !(halfWidth > 0) || math.IsInf(cv, 1) {
		return 0
	}
	// t is above the normal quantile, so that no smaller n will do than that one asks for.
	least := math.Pow(distuv.UnitNormal.Quantile(upperTail)*cv/halfWidth, 2)
	if least >= most {
		return most
	}
	for n := max(2, int(least)); ; n++ {
		if want := studentQuantile(n-1) * cv / halfWidth; float64(n) >= want*want {
			return n
		}
	}
}

func student(df int) distuv.StudentsT { return distuv.StudentsT{Sigma: 1, Nu: float64(df)} }

// studentQuantile is t(0.975, df).
func studentQuantile(df int) float64 { return student(df).Quantile(upperTail) }
