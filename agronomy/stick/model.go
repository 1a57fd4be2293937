// Package stick tells the feed value of standing alfalfa from what a measuring stick and an eye find
// in the field: the height of the tallest stem, and the stage of the most mature stem, which may be
// another one.
//
// Fibre rises in a straight line with height, and each stage lies a fixed step above the one before:
//
//	NDF = a + 0.270*H     a: vegetative 17.57, bud 18.81, flower 20.43    % of DM
//	ADF = c + 0.2125*H    c: vegetative 12.15, bud 13.18, flower 14.70    % of DM
//
// with H in cm. RFV follows from NDF and ADF as for any forage (package forage). The printed table of
// RFV by height and stage is the reference; the lines above were fitted to its 75 cells and to
// printed NDF points, and return 69 cells exactly and the other 6 within one point.
//
// It holds for healthy, weed-free, pure alfalfa between 16 and 40 in: not for mixtures, red clover,
// or frosted, lodged or drought-stunted growth, and not for balancing rations or for sale.
package stick

import (
	"haywarden/agronomy/forage"
	"haywarden/agronomy/unit"
)

// Composition is the fibre of a standing crop, % of dry matter.
type Composition struct{ NDF, ADF float64 }

// Model holds the coefficients. Sources: [source.StickFit] for the lines, [source.StickSpread] and
// [source.SpotSpread] for the errors.
type Model struct {
	NDFPerCM, ADFPerCM float64 // rise with each cm of height, % of DM

	NDFVegetative, NDFBud, NDFFlower float64 // NDF of the line at height 0, % of DM
	ADFVegetative, ADFBud, ADFFlower float64 // ADF of the line at height 0, % of DM

	StageVegetative, StageBud, StageFlower float64 // where the classes lie on the 0-9 scale
	NDFPerStage, ADFPerStage               float64 // rise with each stage beyond the classes, % of DM

	SDNDF, SDADF, Corr float64 // error of the method, % of DM, and its correlation
	LateFactor         float64 // the same error is so many times as wide in the third and later cuts
	SpotSD             float64 // RFV between spots of a field, where one spot tells nothing about it

	FeedValue forage.FeedValue
}

// Published returns the coefficients in use.
func Published() Model {
	return Model{
		NDFPerCM: 0.270, ADFPerCM: 0.2125,
		NDFVegetative: 17.57, NDFBud: 18.81, NDFFlower: 20.43,
		ADFVegetative: 12.15, ADFBud: 13.18, ADFFlower: 14.70,
		StageVegetative: 2.0, StageBud: 3.5, StageFlower: 5.5,
		NDFPerStage: 0.81, ADFPerStage: 0.729,
		SDNDF: 2.2, SDADF: 2.0, Corr: 0.8, LateFactor: 1.4, SpotSD: 8,
		FeedValue: forage.PublishedFeedValue(),
	}
}

// At is the fibre of alfalfa of a height in cm at a stage on the 0-9 scale of Kalu & Fick 1981
// (0-2 vegetative, 3-4 bud, 5-6 flower, 7-9 seed pod). The three classes lie at 2.0, 3.5 and 5.5;
// between them the lines are shifted in proportion, beyond them by the mean step of a stage. It is
// the one function of height and stage in the program: the growth model calls it too.
func (m Model) At(heightCM, stage float64) Composition {
	return Composition{
		NDF: m.start(stage, m.NDFVegetative, m.NDFBud, m.NDFFlower, m.NDFPerStage) + m.NDFPerCM*heightCM,
		ADF: m.start(stage, m.ADFVegetative, m.ADFBud, m.ADFFlower, m.ADFPerStage) + m.ADFPerCM*heightCM,
	}
}

// start is the value at height 0 for a stage: a broken line through the three classes.
func (m Model) start(stage, vegetative, bud, flower, perStage float64) float64 {
	switch {
	case stage <= m.StageVegetative:
		return vegetative - perStage*(m.StageVegetative-stage)
	case stage <= m.StageBud:
		return vegetative + (bud-vegetative)*(stage-m.StageVegetative)/(m.StageBud-m.StageVegetative)
	case stage <= m.StageFlower:
		return bud + (flower-bud)*(stage-m.StageBud)/(m.StageFlower-m.StageBud)
	}
	return flower + perStage*(stage-m.StageFlower)
}

// RFV is the relative feed value of a composition.
func (m Model) RFV(c Composition) float64 { return m.FeedValue.Of(c.ADF, c.NDF) }

// MethodSD is the error of the method itself as a standard deviation of RFV, to first order around
// a composition. It is the same for all spots of a field, so reading more spots does not shrink it.
func (m Model) MethodSD(c Composition, cut int) float64 {
	k := m.lateness(cut)
	return m.FeedValue.Spread(c.ADF, c.NDF, k*m.SDADF, k*m.SDNDF, m.Corr)
}

// MethodSDNDF is the error of the method itself as a standard deviation of NDF, % of DM.
func (m Model) MethodSDNDF(cut int) float64 { return m.lateness(cut) * m.SDNDF }

// firstLateCut is the first cut of a year for which the method was found wanting: Michigan farms
// found it adequate in the first and second cut only.
const firstLateCut = 3

func (m Model) lateness(cut int) float64 {
	if cut >= firstLateCut {
		return m.LateFactor
	}
	return 1
}

// Heights, in, for which the table is printed, and those that are still answered, with a note.
const (
	testedLow, testedHigh     unit.Inch = 16, 40
	acceptedLow, acceptedHigh unit.Inch = 4, 60
)

// Tested reports whether a height lies in the printed table, 16 to 40 in.
func Tested(height unit.Inch) bool { return height >= testedLow && height <= testedHigh }
