package forage_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"haywarden/agronomy/forage"
)

// TestFivePointsOfRFVCannotBeToldApart: with the least laboratory error two lots of dairy hay differ
// from 21 points on (SD 7.25; 15 apart give z 1.46, 21 apart 2.05).
func TestFivePointsOfRFVCannotBeToldApart(t *testing.T) {
	sd := forage.PublishedLabSpread().RFV(30, 40)
	if !closeTo(sd, 7.25, 0.006) {
		t.Fatalf("RFV carries %.3f, want 7.25", sd)
	}
	for _, tt := range []struct {
		what           forage.Measured
		a, b, sda, sdb float64
		want           string
	}{
		{forage.RFVPoints, 152, 157, sd, sd, "5 points of RFV cannot be told apart: from 21 points of RFV on they could."},
		{forage.RFVPoints, 152, 151, sd, sd, "1 point of RFV cannot be told apart: from 21 points of RFV on they could."},
		{forage.RFVPoints, 173, 152, sd, sd, "21 points of RFV are a difference: from 21 points of RFV on it is more than chance."},
		{forage.RFVPoints, 152, 152, sd, sd, "They are the same; 21 points of RFV would be a difference."},
		{forage.NDFPercent, 40, 43, 1.5, 1.5, "3.0 points of NDF cannot be told apart: from 4.2 points of NDF on they could."},
		{forage.CPPercent, 20, 18.5, 0.5, 0.5, "1.5 points of protein are a difference: from 1.4 points of protein on it is more than chance."},
	} {
		if got := forage.ToldApart(tt.what, tt.a, tt.b, tt.sda, tt.sdb); got != tt.want {
			t.Errorf("%g and %g:\n got %s\nwant %s", tt.a, tt.b, got, tt.want)
		}
	}
}

// A test speaks of a whole lot with the scatter of its cores added: 2.0 NDF between cores, 20 of them and a
// laboratory of 1.5 make 1.565 [general statistics], and a value just over a target is a coin that is
// hardly loaded.
func TestATestOfALotIsToldWithWhatSamplingAdds(t *testing.T) {
	k := forage.PublishedLabSpread().OfLot(20)
	if !closeTo(k.NDF, 1.565248, 1e-6) || k.OfLot(1).NDF <= k.NDF {
		t.Errorf("NDF of a lot carries %.6f", k.NDF)
	}
	if one := forage.PublishedLabSpread().OfLot(0); !closeTo(one.NDF, math.Hypot(1.5, 2), 1e-9) {
		t.Errorf("of no core said, NDF carries %g", one.NDF)
	}
	for _, tt := range []struct {
		v, target, sd float64
		want          string
	}{
		{41, 40, 1.565248, "7 in 10 that it truly reaches NDF 40.0; a test of 43.0 would make it 9 in 10."},
		{150, 150, 7.5, "5 in 10 that it truly reaches RFV 150; a test of 160 would make it 9 in 10."},
		{160, 150, 7.5, "9 in 10 that it truly reaches RFV 150."},
		{190, 150, 7.5, "Over 9 in 10 that it truly reaches RFV 150."},
		{120, 150, 7.5, "Under 1 in 10 that it truly reaches RFV 150; a test of 160 would make it 9 in 10."},
	} {
		what := forage.RFVPoints
		if tt.v < 100 {
			what = forage.NDFPercent
		}
		if got := forage.ToldAgainst(what, tt.v, tt.target, tt.sd); got != tt.want {
			t.Errorf("%g against %g:\n got %s\nwant %s", tt.v, tt.target, got, tt.want)
		}
	}
}

// A lot's value carries what sampling adds: RFV 152 of 20 cores lies within 15 points, and two such lots are
// told apart from 21 points on, 1.96 times the root of two of the standard deviation [general statistics].
func TestALotsValueIsToldWithItsCores(t *testing.T) {
	sd := forage.PublishedLabSpread().OfLot(20).RFV(30, 40)
	if got, want := forage.ToldValue(forage.RFVPoints, 152.4, sd, 20), "RFV 152, from 138 to 167 with the error of 20 cores or handfuls and one laboratory."; got != want {
		t.Errorf("got %s\nwant %s", got, want)
	}
	if got, want := forage.LeastApart(forage.RFVPoints, sd, sd), "21 points of RFV"; got != want || math.Ceil(1.96*math.Sqrt2*sd) != 21 {
		t.Errorf("got %s, want %s; sd %g", got, want, sd)
	}
}

func pairsOf(l forage.Lots, predicted, lab []float64) (pairs []forage.Pair) {
	for i := range predicted {
		pairs = append(pairs, forage.Pair{Lots: l, ID: fmt.Sprint(l, i), Predicted: predicted[i], Lab: lab[i]})
	}
	return pairs
}

var (
	first = forage.Lots{Farm: "a", Cutting: 1, Product: "haylage"}
	third = forage.Lots{Farm: "a", Cutting: 3, Product: "hay"}

	eightPredicted = []float64{33.4, 35.1, 36.8, 38.2, 39.5, 37.4, 34.7, 40.9}
	eightLab       = []float64{35.0, 36.2, 39.6, 39.1, 42.0, 39.8, 35.9, 43.5}
)

func TestReconcileGivesEachKindOfLotItsOwnCorrection(t *testing.T) {
	k := forage.PublishedDifferences()
	r := forage.Reconcile(append(pairsOf(first, eightPredicted, eightLab), pairsOf(third, []float64{38}, []float64{41})...), k)
	a, b := r.For(first, k), r.For(third, k)
	if !closeTo(a.Bias, 1.4875, 0.00006) || !closeTo(a.SD, 0.690, 0.0006) || a.N != 8 || !closeTo(a.Mean, 1.8875, 1e-9) {
		t.Errorf("eight lots: %+v", a)
	}
	if a.Agreement == nil || !closeTo(a.Agreement.RMSE, 2.0196, 0.00006) || !closeTo(a.Agreement.CCC, 0.7619, 0.00006) || a.Slope != nil {
		t.Errorf("eight lots: agreement %+v, slope %v", a.Agreement, a.Slope)
	}
	if !closeTo(b.Bias, 0.952, 0.0006) || !closeTo(b.SD, 1.239, 0.0006) || b.Agreement != nil {
		t.Errorf("one lot: %+v", b)
	}
	if r.Used != 9 || len(r.SetAside) != 0 || r.Agreement == nil || r.Agreement.N != 9 {
		t.Errorf("in all: %+v", r)
	}
	if none := r.For(forage.Lots{Farm: "b"}, k); none.Bias != 0 || none.SD != 1.5 || none.N != 0 {
		t.Errorf("a farm without a test: %+v", none)
	}
}

func TestAPairFarOutIsSetAsideBeforeItIsAveragedIn(t *testing.T) {
	k := forage.PublishedDifferences()
	clean := pairsOf(first, eightPredicted, eightLab)
	want := forage.Reconcile(clean, k).For(first, k)
	far := forage.Pair{Lots: first, ID: "far", Predicted: 36, Lab: 49}
	farther := forage.Pair{Lots: first, ID: "farther", Predicted: 36, Lab: 55}
	lost := forage.Pair{Lots: first, ID: "lost", Predicted: math.NaN(), Lab: 40}
	got := forage.Reconcile(append([]forage.Pair{far, lost, farther}, clean...), k).For(first, k)
	if got.Bias != want.Bias || got.N != 8 || len(got.SetAside) != 3 {
		t.Errorf("with three bad pairs: %+v, want bias %g of 8 pairs", got, want.Bias)
	}
	// 6.66 NDF units from the correction are the limit; a first pair has none to lie off from.
	for d, aside := range map[float64]int{6.6: 0, 6.7: 1, -6.7: 1} {
		one := forage.Reconcile([]forage.Pair{{Lots: first, Predicted: 38, Lab: 38 + d}}, k)
		if len(one.SetAside) != aside {
			t.Errorf("one pair %g off: %d set aside, want %d", d, len(one.SetAside), aside)
		}
	}
}

func TestTheOrderOfPairsSaysNothing(t *testing.T) {
	k := forage.PublishedDifferences()
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 25).Draw(t, "n")
		var pairs []forage.Pair
		for i := range n {
			l := rapid.SampledFrom([]forage.Lots{first, third}).Draw(t, "kind")
			pairs = append(pairs, forage.Pair{Lots: l, ID: fmt.Sprint(i), Predicted: 30 + rapid.Float64Range(0, 12).Draw(t, "p"), Lab: 30 + rapid.Float64Range(0, 16).Draw(t, "l")})
		}
		a := forage.Reconcile(pairs, k)
		b := forage.Reconcile(rapid.Permutation(pairs).Draw(t, "order"), k)
		for i := range a.Corrections {
			x, y := a.Corrections[i], b.Corrections[i]
			if x.Lots != y.Lots || x.N != y.N || !closeTo(x.Bias, y.Bias, 1e-9) {
				t.Fatalf("%+v, in another order %+v", x, y)
			}
			if math.Abs(x.Bias) > math.Abs(x.Mean)+1e-12 {
				t.Fatalf("correction %g is over the mean %g", x.Bias, x.Mean)
			}
		}
		if a.Used+len(a.SetAside) != n {
			t.Fatalf("%d used and %d set aside of %d", a.Used, len(a.SetAside), n)
		}
	})
}

func TestASlopeIsChangedOnlyWhenItIsSure(t *testing.T) {
	k := forage.Differences{Within: 20, Between: 20, Outlier: 2.5}
	var p, steep, even []float64
	for i := range 16 {
		x := 30 + float64(i)
		wobble := 0.3 * float64(i%3-1)
		p, steep, even = append(p, x), append(steep, 1.5*x-15+wobble), append(even, x+1+wobble)
	}
	a := forage.Reconcile(pairsOf(first, p, steep), k).For(first, k).Slope
	b := forage.Reconcile(pairsOf(first, p, even), k).For(first, k).Slope
	if a == nil || !a.Change || a.Low > 1.5 || a.High < 1.5 {
		t.Errorf("a slope of 1.5: %+v", a)
	}
	if b == nil || b.Change {
		t.Errorf("a slope of 1: %+v", b)
	}
	if c := forage.Reconcile(pairsOf(first, p[:14], steep[:14]), k).For(first, k).Slope; c != nil {
		t.Errorf("of 14 pairs: %+v", c)
	}
}

// TestSharedErrorsAreFoundAgain draws lots whose errors are known.
func TestSharedErrorsAreFoundAgain(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for _, corr := range []float64{0, 0.3, 0.7} {
		var lots []forage.Witnessed
		for range 20000 {
			truth := 36 + 4*r.NormFloat64()
			shared, a, b := r.NormFloat64(), r.NormFloat64(), r.NormFloat64()
			e := func(own, sd float64) float64 { return sd * (math.Sqrt(corr)*shared + math.Sqrt(1-corr)*own) }
			lots = append(lots, forage.Witnessed{First: truth + e(a, 2.2), Second: truth + 1 + e(b, 3), Lab: truth + 1.5*r.NormFloat64()})
		}
		got := forage.ErrorsShared(lots, 1.5, 0.5)
		if !got.Learned || !closeTo(got.Corr, corr, 0.03) {
			t.Errorf("%+v, want %g", got, corr)
		}
		few := forage.ErrorsShared(lots[:14], 1.5, 0.5)
		if diff := cmp.Diff(forage.SharedErrors{Corr: 0.5, N: 14}, few); diff != "" {
			t.Errorf("of 14 lots (-want +got):\n%s", diff)
		}
		if few.String() != "correlation 0.50, taken as usual until 15 lots are tested (14 so far)" {
			t.Errorf("%q", few)
		}
	}
}
