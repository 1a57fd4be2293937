package forage_test

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"haywarden/agronomy/forage"
)

func drawPairs(t *rapid.T) (predicted, lab []float64) {
	n := rapid.IntRange(3, 20).Draw(t, "n")
	for i := range n {
		predicted = append(predicted, 30+float64(i)*0.5+rapid.Float64Range(0, 3).Draw(t, "predicted"))
		lab = append(lab, 31+float64(i)*0.4+rapid.Float64Range(0, 6).Draw(t, "lab"))
	}
	return predicted, lab
}

// TestErrorSplitsIntoBiasSlopeAndNoise proves the three parts of the mean square error add up:
// MSE = bias^2 + (sp - r*sl)^2 + (1 - r^2)*sl^2.
func TestErrorSplitsIntoBiasSlopeAndNoise(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		predicted, lab := drawPairs(t)
		a, err := forage.Agree(predicted, lab)
		if err != nil {
			t.Fatal(err)
		}
		sp, sl := sd(predicted), sd(lab)
		r := a.Slope * sp / sl
		if split := a.Bias*a.Bias + (sp-r*sl)*(sp-r*sl) + (1-r*r)*sl*sl; !closeTo(split, a.RMSE*a.RMSE, 1e-9) {
			t.Fatalf("parts add to %g, mean square is %g", split, a.RMSE*a.RMSE)
		}
		if math.Abs(a.CCC) > math.Sqrt(a.R2)+1e-9 {
			t.Fatalf("concordance %g is over the correlation %g", a.CCC, math.Sqrt(a.R2))
		}
	})
}

// sd is the standard deviation of a whole population.
func sd(values []float64) float64 {
	var sum, ss float64
	for _, v := range values {
		sum += v
	}
	mean := sum / float64(len(values))
	for _, v := range values {
		ss += (v - mean) * (v - mean)
	}
	return math.Sqrt(ss / float64(len(values)))
}

func TestAConstantErrorIsAllBias(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		predicted, lab := drawPairs(t)
		shift := rapid.Float64Range(-5, 5).Draw(t, "shift")
		moved := make([]float64, len(lab))
		for i := range lab {
			moved[i] = lab[i] + shift
		}
		a, err := forage.Agree(predicted, lab)
		if err != nil {
			t.Fatal(err)
		}
		b, err := forage.Agree(predicted, moved)
		if err != nil {
			t.Fatal(err)
		}
		if !closeTo(b.Bias-a.Bias, shift, 1e-9) || !closeTo(b.SEP, a.SEP, 1e-9) || !closeTo(b.Slope, a.Slope, 1e-9) || !closeTo(b.R2, a.R2, 1e-9) {
			t.Fatalf("a shift of %g moves more than the bias: %+v, %+v", shift, a, b)
		}
	})
}

func TestPairsThatSayNothingAreRefused(t *testing.T) {
	for _, tt := range []struct {
		predicted, lab []float64
		says           string
	}{
		{[]float64{1, 2, 3}, []float64{1, 2}, "3 predicted and 2 laboratory"},
		{[]float64{1, 2}, []float64{1, 2}, "at least 3"},
		{[]float64{1, 1, 1}, []float64{1, 2, 3}, "the same"},
		{[]float64{1, 2, 3}, []float64{4, 4, 4}, "the same"},
	} {
		if _, err := forage.Agree(tt.predicted, tt.lab); err == nil || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%v, %v: got %v, want an error that says %q", tt.predicted, tt.lab, err, tt.says)
		}
	}
}

func TestFewSamplesMoveTheCorrectionLittle(t *testing.T) {
	for _, tt := range []struct {
		mean     float64
		n        int
		bias, sd float64
	}{{3, 1, 0.952, 1.239}, {3, 4, 1.951, 0.887}, {1.8875, 8, 1.4875, 0.690}} {
		bias, sd := forage.Shrink(tt.mean, tt.n, 2.2, 1.5)
		if !closeTo(bias, tt.bias, 0.0006) || !closeTo(sd, tt.sd, 0.0006) {
			t.Errorf("%d samples, mean %g: %.4f (%.4f), want %g (%g)", tt.n, tt.mean, bias, sd, tt.bias, tt.sd)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		mean, n := rapid.Float64Range(-10, 10).Draw(t, "mean"), rapid.IntRange(1, 50).Draw(t, "n")
		sw, sb := rapid.Float64Range(0.1, 10).Draw(t, "sw"), rapid.Float64Range(0.1, 10).Draw(t, "sb")
		bias, sd := forage.Shrink(mean, n, sw, sb)
		more, _ := forage.Shrink(mean, n+1, sw, sb)
		if math.Abs(bias) > math.Abs(more)+1e-12 || math.Abs(more) > math.Abs(mean)+1e-12 {
			t.Fatalf("correction %g of %d samples, %g of one more, mean %g", bias, n, more, mean)
		}
		if sd > sb || sd > sw/math.Sqrt(float64(n)) {
			t.Fatalf("SD %g is over %g or %g", sd, sb, sw/math.Sqrt(float64(n)))
		}
	})
}

func TestTheFirstDayOfWaitingIsAlmostFree(t *testing.T) {
	crop := forage.Standing{Tons: 1.6, TonsPerDay: 0.05, RFV: 175, FallPerDay: 5}
	line, h := forage.PriceLine{PerPoint: 1}, forage.Harvest{Loss: 0.1, Points: 15, HayDM: forage.PublishedHayDM}
	const step = 1e-4
	if slope := (crop.Worth(step, line, h) - crop.Worth(0, line, h)) / step; !closeTo(slope, 0, 0.001) {
		t.Errorf("value moves %g $/ac a day at first, want 0", slope)
	}
	if later := crop.Worth(7, line, h) - crop.Worth(6, line, h); later > -3 {
		t.Errorf("the seventh day costs %.2f $/ac, want over 3", -later)
	}
}

func TestHayIsNeverWorthLessThanNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		crop := forage.Standing{
			Tons: rapid.Float64Range(0.1, 4).Draw(t, "tons"), TonsPerDay: rapid.Float64Range(-0.2, 0.2).Draw(t, "tons a day"),
			RFV: rapid.Float64Range(40, 250).Draw(t, "rfv"), FallPerDay: rapid.Float64Range(0, 10).Draw(t, "fall"),
		}
		line := forage.PriceLine{Base: 150, BaseRFV: 140, PerPoint: rapid.Float64Range(0, 5).Draw(t, "per point")}
		h := forage.Harvest{Loss: rapid.Float64Range(0, 0.9).Draw(t, "loss"), Points: 15, HayDM: forage.PublishedHayDM}
		days := rapid.Float64Range(0, 30).Draw(t, "days")
		if v := crop.Worth(days, line, h); v < 0 {
			t.Fatalf("worth %g $/ac", v)
		}
		half := crop
		half.Tons, half.TonsPerDay = crop.Tons/2, crop.TonsPerDay/2
		if diff := cmp.Diff(crop.Worth(days, line, h), 2*half.Worth(days, line, h), near(1e-6)); diff != "" {
			t.Fatalf("half the tons are not worth half:\n%s", diff)
		}
	})
}
