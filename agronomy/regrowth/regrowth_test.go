package regrowth

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"haywarden/agronomy/forage"
	"haywarden/agronomy/stick"
)

func TestHeightRisesWithHeatBetweenBareGroundAndItsTop(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(-100, 2500).Draw(t, "heat")
		b := rapid.Float64Range(a, 2600).Draw(t, "more heat")
		low, high := HeightByHeat(a), HeightByHeat(b)
		if !(low >= 0 && low <= high && high <= 40) {
			t.Fatalf("%g in at %g F-days, %g in at %g", low, a, high, b)
		}
	})
}

func TestHeatForHeightTurnsTheCurveRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		heat := rapid.Float64Range(100, 1300).Draw(t, "heat")
		if back := HeatForHeight(HeightByHeat(heat)); math.Abs(back-heat) > 1e-6 {
			t.Fatalf("%g F-days and back: %g", heat, back)
		}
	})
	for inches, want := range map[float64]float64{-3: 100, 0: 100, 4: 250, 6: 350, 40: 1300, 90: 1300} {
		if got := HeatForHeight(inches); math.Abs(got-want) > 1e-9 {
			t.Errorf("%g in: %g F-days, want %g", inches, got, want)
		}
	}
}

func TestTheCurvesKnotsAreTheHeightsDecisionsNameBesideThem(t *testing.T) {
	for heat, want := range map[float64]float64{0: 0, 100: 0, 250: 4, 350: 6, 300: 5, 480: 16, 1300: 40, 4000: 40} {
		if got := HeightByHeat(heat); math.Abs(got-want) > 1e-9 {
			t.Errorf("%g F-days: %g in, want %g", heat, got, want)
		}
	}
	if !math.IsNaN(HeightByHeat(math.NaN())) {
		t.Error("no heat is a height")
	}
}

// The upper knots are heights at which the stick, in bud at first and between bud and flower later,
// finds the fibre that heat does: 38, 40 and 45 % at 680, 750 and 970 F-days. [source.HeatFibre]
func TestStickAndHeatFindTheSameFibreOnTheCurve(t *testing.T) {
	m := stick.Published()
	for _, c := range []struct{ heat, stage float64 }{{680, 3.5}, {750, 3.5}, {970, 4.5}} {
		byHeat, _, _ := forage.HeatNDF(c.heat)
		byStick := m.At(HeightByHeat(c.heat)*2.54, c.stage).NDF
		if math.Abs(byHeat-byStick) > 0.25 {
			t.Errorf("%g F-days: NDF %.2f by heat, %.2f by the stick at %.1f in", c.heat, byHeat, byStick, HeightByHeat(c.heat))
		}
	}
}

// Heat to one-tenth bloom as printed by growth. [source.BloomHeat]
func TestHeatToBloomIsThatOfItsGrowth(t *testing.T) {
	for growth, want := range map[int]Bloom{1: {3.5, 585}, 2: {7.5, 425}, 3: {10, 425}, 5: {10, 425}} {
		if got := ToBloom(growth); got != want {
			t.Errorf("growth %d: %+v, want %+v", growth, got, want)
		}
	}
	if d := ToBloom(2).Days(20); math.Abs(d-34) > 1e-9 {
		t.Errorf("second growth at 20 C: %g days, want 425/12.5 = 34", d)
	}
	if d := ToBloom(3).Days(10); !math.IsInf(d, 1) {
		t.Errorf("at its base a growth blooms in %g days", d)
	}
}

// At mid-bud, 3.5 on the 0-9 scale, a growth has had the share of heat that the published slope of
// stage by heat gives: 5 + 12.734 log10(share) = 3.5. [source.BudShare]
func TestBudShareIsWhereTheStageScaleSaysBud(t *testing.T) {
	if stage := 5 + 12.734*math.Log10(BudShare); math.Abs(stage-3.5) > 0.001 {
		t.Errorf("stage %.4f at a share of %g, want 3.5", stage, BudShare)
	}
}
