package forage_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"haywarden/agronomy/forage"
	"haywarden/agronomy/unit"
)

var feedValue = forage.PublishedFeedValue()

func near(abs float64) cmp.Option { return cmpopts.EquateApprox(0, abs) }

func closeTo(a, b, within float64) bool { return math.Abs(a-b) <= within }

// fibre draws an ADF and a larger NDF.
func fibre(t *rapid.T) (adf, ndf float64) {
	adf = rapid.Float64Range(12, 55).Draw(t, "adf")
	return adf, rapid.Float64Range(max(20, adf+1), 78).Draw(t, "ndf")
}

func TestFeedValueFallsWithFibre(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		adf, ndf := fibre(t)
		moreADF, moreNDF := rapid.Float64Range(0, 20).Draw(t, "more adf"), rapid.Float64Range(0, 20).Draw(t, "more ndf")
		if moreADF+moreNDF < 1e-6 {
			t.Skip("no more of either")
		}
		if a, b := feedValue.Of(adf, ndf), feedValue.Of(adf+moreADF, ndf+moreNDF); b >= a {
			t.Fatalf("RFV goes from %g to %g with more fibre", a, b)
		}
	})
}

// TestSlopesAreThoseOfTheFormula compares the derivatives with differences of the formula itself.
func TestSlopesAreThoseOfTheFormula(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		adf, ndf := fibre(t)
		const h = 1e-4
		byADF, byNDF := feedValue.Slopes(adf, ndf)
		wantADF := (feedValue.Of(adf+h, ndf) - feedValue.Of(adf-h, ndf)) / (2 * h)
		wantNDF := (feedValue.Of(adf, ndf+h) - feedValue.Of(adf, ndf-h)) / (2 * h)
		if !closeTo(byADF, wantADF, 1e-5) || !closeTo(byNDF, wantNDF, 1e-5) {
			t.Fatalf("slopes %g, %g; by differences %g, %g", byADF, byNDF, wantADF, wantNDF)
		}
	})
}

// TestADayOfSpringCostsThreeToFivePoints holds the formula to the published daily changes: NDF +0.7
// and ADF +0.54 a day give the published fall of 3-5 RFV, less as the crop ages.
func TestADayOfSpringCostsThreeToFivePoints(t *testing.T) {
	for _, tt := range []struct{ adf, ndf, want float64 }{{30, 40, -3.65}, {28, 36, -4.46}, {35, 46, -2.75}} {
		byADF, byNDF := feedValue.Slopes(tt.adf, tt.ndf)
		if got := 0.7*byNDF + 0.54*byADF; !closeTo(got, tt.want, 0.006) {
			t.Errorf("ADF %g, NDF %g: %.3f RFV a day, want %.2f", tt.adf, tt.ndf, got, tt.want)
		}
	}
}

func TestSpreadLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		adf, ndf := fibre(t)
		sdADF, sdNDF := rapid.Float64Range(0, 5).Draw(t, "sd adf"), rapid.Float64Range(0, 5).Draw(t, "sd ndf")
		corr := rapid.Float64Range(-1, 1).Draw(t, "corr")
		spread := feedValue.Spread(adf, ndf, sdADF, sdNDF, corr)
		byADF, byNDF := feedValue.Slopes(adf, ndf)
		a, n := -byADF*sdADF, -byNDF*sdNDF
		if spread > a+n+1e-9 || spread < math.Abs(a-n)-1e-6 {
			t.Fatalf("spread %g lies outside %g to %g, which correlations of -1 and 1 give", spread, math.Abs(a-n), a+n)
		}
		if more := feedValue.Spread(adf, ndf, sdADF, sdNDF, 1); more < spread-1e-9 {
			t.Fatalf("spread %g at correlation %g, less at 1: %g", spread, corr, more)
		}
	})
}

func TestFibreNoForageHasIsRefused(t *testing.T) {
	tests := []struct {
		adf, ndf unit.PercentDM
		ok       bool
	}{
		{30, 40, true},
		{10, 18, true},
		{60, 80, true},
		{40, 30, false},
		{30, 30, false},
		{9.9, 30, false},
		{60.1, 70, false},
		{12, 17.9, false},
		{30, 80.1, false},
		{unit.PercentDM(math.NaN()), 40, false},
		{30, unit.PercentDM(math.NaN()), false},
	}
	for _, tt := range tests {
		if err := forage.CheckFibre(tt.adf, tt.ndf); (err == nil) != tt.ok {
			t.Errorf("ADF %g, NDF %g: %v", tt.adf, tt.ndf, err)
		}
	}
}

func TestGradesTurnAtTheirEdges(t *testing.T) {
	tests := []struct {
		scheme forage.Scheme
		rfv    float64
		grade  string
		noted  bool
	}{
		{forage.USDA, 260, "Supreme", false},
		{forage.USDA, 185, "Supreme", false},
		{forage.USDA, 184.5, "Supreme", false}, // shown as 185
		{forage.USDA, 184.49, "Premium", false},
		{forage.USDA, 170, "Premium", false},
		{forage.USDA, 169, "Good", false},
		{forage.USDA, 150, "Good", false},
		{forage.USDA, 149, "Fair", false},
		{forage.USDA, 130, "Fair", false},
		{forage.USDA, 129, "Utility", false},
		{forage.USDA, 40, "Utility", false},
		{forage.TaskForce, 152, "Prime", false},
		{forage.TaskForce, 151, "1", false},
		{forage.TaskForce, 125, "1", false},
		{forage.TaskForce, 124, "2", false},
		{forage.TaskForce, 103, "2", false},
		{forage.TaskForce, 102, "3", false},
		{forage.TaskForce, 87, "3", false},
		{forage.TaskForce, 86, "4", true},
		{forage.TaskForce, 75, "4", true},
		{forage.TaskForce, 74, "5", true},
	}
	for _, tt := range tests {
		grade, note := forage.Grade(tt.scheme, tt.rfv)
		if grade != tt.grade || (note != "") != tt.noted {
			t.Errorf("%s, RFV %g: grade %q, note %q; want %q, noted %t", tt.scheme, tt.rfv, grade, note, tt.grade, tt.noted)
		}
	}
}
