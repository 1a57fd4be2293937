package forage_test

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat"

	"haywarden/agronomy/forage"
)

// TestTheErrorOfEightLotsIsAConstant proves the parts of the mean square error, worked by hand:
// 4.07875 = 3.56266 + 0.14654 + 0.36955, and what is said of them.
func TestTheErrorOfEightLotsIsAConstant(t *testing.T) {
	a, err := forage.Agree(eightPredicted, eightLab)
	if err != nil {
		t.Fatal(err)
	}
	if p := a.Parts; !closeTo(p.Bias, 3.56266, 5e-6) || !closeTo(p.Slope, 0.14654, 5e-6) || !closeTo(p.Scatter, 0.36955, 5e-6) || !closeTo(p.Bias+p.Slope+p.Scatter, 4.07875, 1e-9) {
		t.Errorf("%+v", p)
	}
	if !strings.Contains(a.Parts.String(), "nearly all of the error is a constant") {
		t.Errorf("said: %s", a.Parts)
	}
	// Against the library: SD(lab)/SEP 3.925, and the bias 6.95 standard errors from 0.
	if rpd := stat.StdDev(eightLab, nil) / a.SEP; !closeTo(rpd, 3.925, 5e-4) {
		t.Errorf("RPD %g, want 3.925", rpd)
	}
	if tt := a.Bias / (a.SEP / math.Sqrt(8)); !closeTo(tt, 6.95, 5e-3) {
		t.Errorf("t %g, want 6.95", tt)
	}
}

// TestACorrectionIsToldWithItsLots proves the words and the corrected prediction of the eight worked lots:
// bias 1.4875 with a standard deviation of 0.690.
func TestACorrectionIsToldWithItsLots(t *testing.T) {
	k := forage.PublishedDifferences()
	far := forage.Pair{Lots: first, ID: "wrong basis", Predicted: 38, Lab: 15}
	c := forage.Reconcile(append(pairsOf(first, eightPredicted, eightLab), far), k).For(first, k)
	if v, sd := c.Apply(38, 2.2); !closeTo(v, 39.4875, 5e-4) || !closeTo(sd, math.Hypot(2.2, 0.690), 5e-4) {
		t.Errorf("corrected to %g (%g)", v, sd)
	}
	want := "8 tested lots lay 1.9 points of NDF over the prediction; +1.5 is added to the next one, give or take 1.4 points of NDF. 1 set aside as far out: look at species, height, ash and the basis first."
	if said := c.Said(forage.NDFPercent); said != want {
		t.Errorf("said: %s", said)
	}
	low := forage.Reconcile(pairsOf(first, []float64{40}, []float64{37}), k).For(first, k)
	if said, want := low.Said(forage.NDFPercent), "1 tested lot lay 3.0 points of NDF under the prediction; -1.0 is added to the next one, give or take 2.4 points of NDF."; said != want {
		t.Errorf("said: %s", said)
	}
	if said := low.Said(forage.NDFPercent); strings.Contains(said, "set aside") {
		t.Errorf("said: %s", said)
	}
	if said := (forage.Correction{}).Said(forage.NDFPercent); said != "No tested lot of this kind: the prediction stands as it is." {
		t.Errorf("said: %s", said)
	}
}

func TestWhatTheErrorMostlyIsIsSaid(t *testing.T) {
	for want, p := range map[string]forage.ErrorParts{
		"a constant": {Bias: 3, Slope: 0.5, Scatter: 0.5}, "a wrong slope": {Bias: 0.5, Slope: 3, Scatter: 0.5},
		"is scatter": {Bias: 0.5, Slope: 0.5, Scatter: 3}, "part constant, part scatter": {Bias: 1, Slope: 1, Scatter: 1}, "no error": {},
	} {
		if !strings.Contains(p.String(), want) {
			t.Errorf("%+v: %s, want %q", p, p, want)
		}
	}
}

// TestTheSlopeIsTouchedOnlyWhereItIsSure proves that it takes 15 pairs and an interval without 1. The
// slope and its interval are held against a regression written out by the library's moments.
func TestTheSlopeIsTouchedOnlyWhereItIsSure(t *testing.T) {
	k := forage.PublishedDifferences()
	line := func(n int, slope, noise float64) []forage.Pair {
		var pairs []forage.Pair
		for i := range n {
			p := 32 + float64(i)*0.6
			wiggle := noise * math.Sin(7*float64(i))
			pairs = append(pairs, forage.Pair{Lots: first, Predicted: p, Lab: 36 + slope*(p-36) + wiggle})
		}
		return pairs
	}
	for _, c := range []struct {
		n            int
		slope, noise float64
		given, sure  bool
	}{{14, 1.5, 0.3, false, false}, {15, 1.5, 0.3, true, true}, {15, 0.6, 0.3, true, true}, {15, 1.02, 1.5, true, false}} {
		pairs := line(c.n, c.slope, c.noise)
		s := forage.Reconcile(pairs, k).For(first, k).Slope
		if (s != nil) != c.given || s != nil && s.Change != c.sure {
			t.Errorf("%+v: slope %+v", c, s)
		}
		if s == nil {
			continue
		}
		var x, y []float64
		for _, p := range pairs {
			x, y = append(x, p.Predicted), append(y, p.Lab)
		}
		a, b := stat.LinearRegression(x, y, nil, false)
		var rest float64
		for i := range x {
			rest += math.Pow(y[i]-a-b*x[i], 2)
		}
		n := float64(len(x))
		// 2.1604 is the 97.5 % point of Student's t with 13 degrees of freedom in printed tables.
		half := 2.1604 * math.Sqrt(rest/(n-2)/(stat.Variance(x, nil)*(n-1)))
		if !closeTo(s.Slope, b, 1e-9) || !closeTo(s.High-s.Slope, half, 1e-4) || !closeTo(s.Slope-s.Low, half, 1e-4) {
			t.Errorf("%+v: %+v, want %g give or take %g", c, s, b, half)
		}
	}
}
