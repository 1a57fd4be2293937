package forage_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"

	"haywarden/agronomy/forage"
)

func drawEstimates(t *rapid.T) (values, sds []float64) {
	n := rapid.IntRange(1, 6).Draw(t, "n")
	values = rapid.SliceOfN(rapid.Float64Range(20, 60), n, n).Draw(t, "values")
	return values, rapid.SliceOfN(rapid.Float64Range(0.2, 8), n, n).Draw(t, "sds")
}

// joint is the generalised least-squares mean the long way: by inverting the covariance matrix.
func joint(t *rapid.T, values, sds []float64, corr float64) (value, sd float64) {
	n := len(values)
	cov := mat.NewDense(n, n, nil)
	for i := range n {
		for j := range n {
			r := corr
			if i == j {
				r = 1
			}
			cov.Set(i, j, r*sds[i]*sds[j])
		}
	}
	var inverse mat.Dense
	if err := inverse.Inverse(cov); err != nil {
		t.Fatal(err)
	}
	var total, sum float64
	for i := range n {
		for j := range n {
			total += inverse.At(i, j)
			sum += inverse.At(i, j) * values[j]
		}
	}
	return sum / total, math.Sqrt(1 / total)
}

func TestCombineIsTheLeastSquaresMean(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values, sds := drawEstimates(t)
		corr := rapid.Float64Range(0, 0.9).Draw(t, "corr")
		value, sd, err := forage.Combine(values, sds, corr)
		if err != nil {
			t.Fatal(err)
		}
		if wantValue, wantSD := joint(t, values, sds, corr); !closeTo(value, wantValue, 1e-7) || !closeTo(sd, wantSD, 1e-7) {
			t.Fatalf("combined %g (%g); by the whole matrix %g (%g)", value, sd, wantValue, wantSD)
		}
	})
}

func TestIndependentEstimatesOnlyHelp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values, sds := drawEstimates(t)
		value, sd, err := forage.Combine(values, sds, 0)
		if err != nil {
			t.Fatal(err)
		}
		if sd > slices.Min(sds)+1e-12 {
			t.Fatalf("combined SD %g is over the smallest of %v", sd, sds)
		}
		if value < slices.Min(values)-1e-9 || value > slices.Max(values)+1e-9 {
			t.Fatalf("combined %g lies outside %v", value, values)
		}
	})
}

func TestBadEstimatesAreRefused(t *testing.T) {
	tests := []struct {
		name        string
		values, sds []float64
		corr        float64
		says        string
	}{
		{"none", nil, nil, 0, "no estimates"},
		{"lengths differ", []float64{1, 2}, []float64{1}, 0, "2 values and 1 standard"},
		{"zero sd", []float64{1, 2}, []float64{1, 0}, 0, "standard deviation 2 is 0"},
		{"no sd", []float64{1, 2}, []float64{1, math.NaN()}, 0, "standard deviation 2"},
		{"no value", []float64{math.NaN(), 2}, []float64{1, 1}, 0, "value 1"},
		{"correlation of 1", []float64{1, 2}, []float64{1, 2}, 1, "accepted 0 to 0.99"},
		{"negative correlation", []float64{1, 2}, []float64{1, 2}, -0.1, "accepted 0 to 0.99"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if _, _, err := forage.Combine(tt.values, tt.sds, tt.corr); err == nil || !strings.Contains(err.Error(), tt.says) {
				t.Errorf("got %v, want an error that says %q", err, tt.says)
			}
		})
	}
}
