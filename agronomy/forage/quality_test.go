package forage_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"haywarden/agronomy/forage"
)

var forageQuality = forage.PublishedForageQuality()

// hay is a legume hay of early bloom.
func hay() forage.Sample {
	return forage.Sample{CP: 20, NDF: 40, ADF: 30, EE: 2.5, Ash: 9, NDICP: 2.8, ADICP: 1.3, Lignin: 7, NDFD48: 45}
}

// TestTwentyPointsOfDigestibilityAreSevenAndAHalfOfTDN holds the slope to a printed statement: lots
// that differ by 20 points of NDFD alone differ by 7.5 of TDN (Reuss, Enhanced Forage Evaluation, Univ.
// of Wisconsin).
func TestTwentyPointsOfDigestibilityAreSevenAndAHalfOfTDN(t *testing.T) {
	a := hay()
	a.NDF, a.NDICP = 40, 2.5
	b := a
	b.NDFD48 += 20
	if d := forageQuality.OfLegume(b).TDN - forageQuality.OfLegume(a).TDN; !closeTo(d, 7.5, 1e-9) {
		t.Errorf("TDN differs by %g, want 7.5", d)
	}
}

// TestIntakeByDigestibilityLiesNearTrials: 0.37 lb (Miner Institute) and 0.40 lb (Hoard's Dairyman) of
// intake for a point of NDFD, on a 1350 lb cow.
func TestIntakeByDigestibilityLiesNearTrials(t *testing.T) {
	lb := forageQuality.Legume.PerPoint() / 100 * 1350
	if lb < 0.36 || lb > 0.41 {
		t.Errorf("%g lb a point, want 0.37 to 0.40", lb)
	}
}

func TestTheWholeFormIsTheOneInPrint(t *testing.T) {
	s := hay()
	if got := forageQuality.OfLegumeWhole(s); !closeTo(got.NFC, 28.5, 1e-9) || !closeTo(got.TDN, 60.804, 0.0006) || !closeTo(got.RFQ, 148.30, 0.006) {
		t.Errorf("whole NDF: %+v, want NFC 28.5, TDN 60.804, RFQ 148.30", got)
	}
	g := s
	g.NDICP = 0
	if a, b := forageQuality.OfGrass(g), forageQuality.OfGrassWhole(g); a != b {
		t.Errorf("without bound protein the two forms differ: %+v, %+v", a, b)
	}
}

func TestAMixLiesBetweenLegumeAndGrass(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := forage.Sample{
			CP: rapid.Float64Range(10, 24).Draw(t, "cp"), NDF: rapid.Float64Range(35, 60).Draw(t, "ndf"), EE: 2.5, Ash: 9,
			NDFD48: rapid.Float64Range(30, 70).Draw(t, "ndfd"),
		}
		s.NDICP, s.ADF = forage.BoundShare*s.NDF, 0.7*s.NDF
		a, b, m := forageQuality.OfLegume(s).RFQ, forageQuality.OfGrass(s).RFQ, forageQuality.OfMix(s, rapid.Float64Range(0, 1).Draw(t, "g")).RFQ
		if m < min(a, b)-1e-9 || m > max(a, b)+1e-9 {
			t.Fatalf("mix %g lies outside %g and %g", m, a, b)
		}
	})
}

// TestEnergyStepsAreThoseWorkedByHand checks the steps that the reckoning does not show.
func TestEnergyStepsAreThoseWorkedByHand(t *testing.T) {
	k := forage.PublishedSummative()
	s := forage.Sample{CP: 22, NDF: 36, NDICP: 2.5, ADICP: 1.2, EE: 2.5, Ash: 9.5, Lignin: 5.8, NDFD48: 50}
	for form, want := range map[forage.FibreForm][6]float64{
		forage.ByLignin: {31.85, 20.6061, 1.5, 14.3253, 63.1564, 2.8350},
		forage.ByNDFD:   {31.85, 20.6061, 1.5, 16.7500, 65.5811, 2.8968},
	} {
		e := k.Of(s, form, 3)
		for i, got := range []float64{e.TdNFC, e.TdCP, e.FA, e.TdNDF, e.TDN1x, e.DE} {
			if !closeTo(got, want[i], 0.00006) {
				t.Errorf("%s, step %d: %.5f, want %g", form, i, got, want[i])
			}
		}
	}
	// Lignin 7 down to 6.44 at 37.2 of fibre moves digestible fibre by 0.69 only.
	plain, low := hay(), hay()
	low.Lignin = 6.44
	if a, b := k.Of(plain, forage.ByLignin, 3).TdNDF, k.Of(low, forage.ByLignin, 3).TdNDF; !closeTo(a, 15.2164, 0.00006) || !closeTo(b, 15.9082, 0.00006) {
		t.Errorf("digestible fibre %.5f and %.5f, want 15.2164 and 15.9082", a, b)
	}
}

// TestOldLinesLieNearTheEnergy compares with two older lines: NEL = 0.0245 TDN - 0.12 (1989 standard),
// and NE = 0.68 DE - 0.36 from 543 balance trials (Moe, Flatt & Tyrrell 1972, J. Dairy Sci. 55:945).
func TestOldLinesLieNearTheEnergy(t *testing.T) {
	e := forage.PublishedSummative().Of(hay(), forage.ByNDFD, 3)
	if old := 0.0245*e.TDN1x - 0.12; !closeTo(e.NEL, old, 0.1) {
		t.Errorf("NEL %.3f; the line of 1989 gives %.3f", e.NEL, old)
	}
	if old := 0.68*e.DE - 0.36; !closeTo(e.NEL, old, 0.1) {
		t.Errorf("NEL %.3f; the balance trials give %.3f", e.NEL, old)
	}
}

func TestEnergyLaws(t *testing.T) {
	k := forage.PublishedSummative()
	rapid.Check(t, func(t *rapid.T) {
		s := forage.Sample{
			CP: rapid.Float64Range(8, 26).Draw(t, "cp"), NDF: rapid.Float64Range(30, 60).Draw(t, "ndf"), NDICP: 2, ADICP: 1,
			EE: rapid.Float64Range(1, 4).Draw(t, "ee"), Ash: rapid.Float64Range(5, 12).Draw(t, "ash"),
			Lignin: rapid.Float64Range(2, 10).Draw(t, "lignin"), NDFD48: rapid.Float64Range(25, 75).Draw(t, "ndfd"),
		}
		if s.NFC() < 0 {
			t.Skip("no such forage")
		}
		p := rapid.Float64Range(1, 4).Draw(t, "p")
		form := rapid.SampledFrom([]forage.FibreForm{forage.ByLignin, forage.ByNDFD}).Draw(t, "form")
		e := k.Of(s, form, p)
		dirty, tough := s, s
		dirty.Ash++
		tough.Lignin++
		tough.NDFD48--
		if worse := k.Of(dirty, form, p); worse.TDN1x >= e.TDN1x {
			t.Fatalf("a point of ash moves TDN from %g to %g", e.TDN1x, worse.TDN1x)
		} else if !closeTo(e.TDN1x-worse.TDN1x, 0.98, 1e-9) { // printed: Undersander, Ash in Forage
			t.Fatalf("a point of ash costs %g of TDN, want 0.98", e.TDN1x-worse.TDN1x)
		}
		if worse := k.Of(tough, form, p); worse.TDN1x >= e.TDN1x {
			t.Fatalf("tougher fibre moves TDN from %g to %g", e.TDN1x, worse.TDN1x)
		}
		if more := k.Of(s, form, p+0.5); more.DE > e.DE+1e-12 {
			t.Fatalf("eating more brings more of each kilogram: %g, %g", e.DE, more.DE)
		}
	})
}

func TestDigestibilityGoesBothWays(t *testing.T) {
	for _, tt := range []struct{ ndf, ndfd, ivtd float64 }{{40, 45, 78}, {36, 50, 82}, {45, 42.22, 74}} {
		if got := forage.IVTD(tt.ndf, tt.ndfd); !closeTo(got, tt.ivtd, 0.006) {
			t.Errorf("NDF %g, NDFD %g: IVTD %g, want %g", tt.ndf, tt.ndfd, got, tt.ivtd)
		}
		if got := forage.DigestedFibre(tt.ndf, tt.ivtd); !closeTo(got, tt.ndfd, 0.006) {
			t.Errorf("NDF %g, IVTD %g: NDFD %g, want %g", tt.ndf, tt.ivtd, got, tt.ndfd)
		}
	}
	if got := forage.CleanAsh(40, 13, 8); !closeTo(got, 42.30, 0.006) {
		t.Errorf("NDF 40 at 13 %% ash is %g at 8, want 42.30", got)
	}
}

func TestMeanStageWantsStems(t *testing.T) {
	for name, found := range map[string][]float64{
		"none": nil, "no stem": {0, 0, 0}, "fewer than none": {5, -1}, "eleven stages": make([]float64, 11), "no number": {math.NaN()},
	} {
		if got, err := forage.MeanStage(found); err == nil {
			t.Errorf("%s: mean stage %g", name, got)
		}
	}
	if n := len(forage.StageNames()); n != 10 {
		t.Errorf("%d stages have names, want 10", n)
	}
}

// TestDaysOfReducedLigninLieInTheTrials: 10.6 points of RFQ are 2.1 to 2.9 days at 5 to 3.6 points a day.
func TestDaysOfReducedLigninLieInTheTrials(t *testing.T) {
	plain := hay()
	better := forage.PublishedLowLignin().Of(plain)
	gain := forageQuality.OfLegume(better).RFQ - forageQuality.OfLegume(plain).RFQ
	days := forage.DaysAtEqualQuality(forageQuality, plain, better, forage.DailyRates(forage.Spring))
	if !closeTo(gain, 10.6, 0.06) || days < 2.1 || days > 2.9 {
		t.Errorf("gain %.2f RFQ, %.2f days; want 10.6 and 2.1 to 2.9", gain, days)
	}
}
