package forage_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"haywarden/agronomy/forage"
)

var seasons = []forage.Season{forage.Spring, forage.Summer, forage.Fall}

func TestHeatKnowsItsRange(t *testing.T) {
	for _, tt := range []struct {
		gdd, ndf float64
		inTested bool
	}{{599, 35.69, false}, {600, 35.71, true}, {680, 38, true}, {750, 40, true}, {970, 45, true}, {1000, 45.68, true}, {1001, 45.70, false}} {
		ndf, sd, inTested := forage.HeatNDF(tt.gdd)
		if !closeTo(ndf, tt.ndf, 0.006) || sd != 3 || inTested != tt.inTested {
			t.Errorf("%g F-days: NDF %.3f, SD %g, in tested range %t; want %g, 3, %t", tt.gdd, ndf, sd, inTested, tt.ndf, tt.inTested)
		}
	}
}

func TestMoreHeatIsMoreFibre(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := rapid.Float64Range(300, 1500).Draw(t, "gdd")
		step := rapid.Float64Range(0.01, 100).Draw(t, "step")
		a, _, _ := forage.HeatNDF(g)
		b, _, _ := forage.HeatNDF(g + step)
		if b <= a || b-a > 0.03*step { // the steeper piece rises 2 in 70
			t.Fatalf("NDF goes from %g to %g in %g F-days", a, b, step)
		}
	})
}

// TestADFByNDFLiesNearPrintedHays compares with hays that no coefficient was taken from.
func TestADFByNDFLiesNearPrintedHays(t *testing.T) {
	for name, tt := range map[string]struct{ ndf, adf float64 }{
		"late vegetative, Penn State": {38, 28},
		"bud, Penn State":             {40, 29},
		"full bloom, Wisconsin":       {53, 41},
	} {
		if got := forage.AdfForNDF(tt.ndf); !closeTo(got, tt.adf, 1) {
			t.Errorf("%s: ADF %.2f at NDF %g, printed %g", name, got, tt.ndf, tt.adf)
		}
	}
}

func TestDaysAheadAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := forage.Quality{NDF: 38, ADF: 28, CP: 22, NDFD: 48}
		s := rapid.SampledFrom(seasons).Draw(t, "season")
		a, b := rapid.Float64Range(0, 10).Draw(t, "first days"), rapid.Float64Range(0, 10).Draw(t, "more days")
		var tmean *float64
		if rapid.Bool().Draw(t, "temperature known") {
			v := rapid.Float64Range(-10, 40).Draw(t, "tmean")
			tmean = &v
		}
		once, twice := forage.Ahead(q, a+b, s, tmean), forage.Ahead(forage.Ahead(q, a, s, tmean), b, s, tmean)
		if diff := cmp.Diff(once, twice, near(1e-9)); diff != "" {
			t.Fatalf("%g days at once and in two steps differ:\n%s", a+b, diff)
		}
		if diff := cmp.Diff(q, forage.Ahead(q, 0, s, tmean)); diff != "" {
			t.Fatalf("no days change something:\n%s", diff)
		}
		if a > 1e-3 && feedValue.Of(once.ADF, once.NDF) >= feedValue.Of(q.ADF, q.NDF) {
			t.Fatal("waiting does not lower RFV")
		}
	})
}

func TestWhatIsNotKnownStaysUnknown(t *testing.T) {
	q := forage.Quality{NDF: 38, ADF: 28}
	if got := forage.Ahead(q, 7, forage.Spring, nil); got.CP != 0 || got.NDFD != 0 {
		t.Errorf("protein %g and digestibility %g out of nothing", got.CP, got.NDFD)
	}
	if got := forage.RedClover(q); got.CP != 0 {
		t.Errorf("protein %g out of nothing", got.CP)
	}
}

func TestWarmthSpeedsTheChangeWithinLimits(t *testing.T) {
	for _, tt := range []struct{ tmean, want float64 }{{-20, 0.4}, {10, 0.4}, {10.2, 0.4}, {11.5, 0.5}, {18, 1}, {24.5, 1.5}, {40, 1.5}} {
		if got := forage.RateScale(tt.tmean); !closeTo(got, tt.want, 1e-9) {
			t.Errorf("%g C: factor %g, want %g", tt.tmean, got, tt.want)
		}
	}
}

func TestDailyRatesAreThoseInUse(t *testing.T) {
	want := map[forage.Season]forage.Rates{
		forage.Spring: {NDF: 0.65, ADF: 0.50, CP: -0.30, NDFD: -0.5},
		forage.Summer: {NDF: 0.45, ADF: 0.35, CP: -0.20, NDFD: -0.5},
		forage.Fall:   {NDF: 0.15, ADF: 0.10, CP: -0.10, NDFD: -0.1},
	}
	for _, s := range seasons {
		if diff := cmp.Diff(want[s], forage.DailyRates(s)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", s, diff)
		}
		if got, err := forage.ParseSeason(" " + string(s) + " "); err != nil || got != s {
			t.Errorf("%q is read as %q, %v", s, got, err)
		}
	}
	if _, err := forage.ParseSeason("autumn"); err == nil {
		t.Error("autumn is accepted, and its rates are not known")
	}
}

func TestRedCloverStandsTwoPointsLower(t *testing.T) {
	got := forage.RedClover(forage.Quality{NDF: 40, ADF: 30, CP: 20, NDFD: 45})
	if diff := cmp.Diff(forage.Quality{NDF: 38, ADF: 28, CP: 18, NDFD: 45}, got); diff != "" {
		t.Errorf("red clover (-want +got):\n%s", diff)
	}
	// Published: red clover should test about 10 RFV points over alfalfa for the same use.
	if d := feedValue.Of(28, 38) - feedValue.Of(30, 40); !closeTo(d, 10, 2.5) {
		t.Errorf("red clover stands %.1f RFV over alfalfa, want about 10", d)
	}
}

func TestHarvestTakesItsPoints(t *testing.T) {
	for _, tt := range []struct {
		product           string
		points, low, high float64
	}{{"haylage", 15, 10, 20}, {"baleage", 20, 12.5, 25}, {"hay", 25, 15, 30}} {
		points, low, high, err := forage.HarvestLoss(tt.product)
		if err != nil || points != tt.points || low != tt.low || high != tt.high {
			t.Errorf("%s: %g (%g-%g), %v; want %g (%g-%g)", tt.product, points, low, high, err, tt.points, tt.low, tt.high)
		}
	}
	if _, _, _, err := forage.HarvestLoss("greenchop"); err == nil {
		t.Error("greenchop is accepted, and its loss is not known")
	}
}

func TestStartIsHalfAHarvestAhead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cut, perDay := rapid.Float64Range(80, 220).Draw(t, "cut"), rapid.Float64Range(0, 6).Draw(t, "per day")
		days := rapid.Float64Range(0, 30).Draw(t, "days")
		start := forage.StartRFV(cut, perDay, days)
		if end := start - perDay*days; !closeTo((start+end)/2, cut, 1e-9) {
			t.Fatalf("a harvest from RFV %g to %g is not centred on %g", start, end, cut)
		}
	})
}

func TestMoreGrassIsCutShorterAndAtMoreFibre(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(0, 1).Draw(t, "grass")
		b := min(1, a+rapid.Float64Range(0, 0.5).Draw(t, "more grass"))
		h1, n1, r1 := forage.MixTrigger(a)
		h2, n2, r2 := forage.MixTrigger(b)
		if h2 > h1+1e-9 || n2 < n1-1e-9 || r2 < r1-1e-9 {
			t.Fatalf("grass %g to %g: height %g to %g, NDF %g to %g, rise %g to %g", a, b, h1, h2, n1, n2, r1, r2)
		}
		if h1 < 14 || h1 > 28 {
			t.Fatalf("height %g lies outside the printed rows", h1)
		}
	})
	below, _, _ := forage.MixTrigger(-0.5)
	above, _, _ := forage.MixTrigger(1.5)
	if below != 28 || above != 14 {
		t.Errorf("shares beyond 0 and 1 give %g and %g in, want the end rows", below, above)
	}
}
