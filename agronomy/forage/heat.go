package forage

// HeatLine is NDF of standing first-growth alfalfa by heat: a broken line through three points.
// Heat is the sum since 1 March of the daily mean temperature over 41 F, in F-days.
//
// Good for the first cut only, not in drought, not for mixtures; after hard spring frosts it has run
// 2.8 points high. Source: [source.HeatFibre].
type HeatLine struct {
	EarlyHeat, MiddleHeat, LateHeat float64 // F-days base 41
	EarlyNDF, MiddleNDF, LateNDF    float64 // % of DM
	SD                              float64 // % of DM
}

// PublishedHeatLine returns the Michigan points: 680, 750 and 970 F-days, within 3 points most years.
func PublishedHeatLine() HeatLine {
	return HeatLine{EarlyHeat: 680, MiddleHeat: 750, LateHeat: 970, EarlyNDF: 38, MiddleNDF: 40, LateNDF: 45, SD: 3}
}

// NDF is the NDF, % of DM, at a heat sum. The end pieces run on beyond the outer points.
func (k HeatLine) NDF(gdd41 float64) float64 {
	if gdd41 < k.MiddleHeat {
		return k.MiddleNDF + (gdd41-k.MiddleHeat)*(k.MiddleNDF-k.EarlyNDF)/(k.MiddleHeat-k.EarlyHeat)
	}
	return k.MiddleNDF + (gdd41-k.MiddleHeat)*(k.LateNDF-k.MiddleNDF)/(k.LateHeat-k.MiddleHeat)
}

// Heat sums, F-days base 41, for which the line is used without reserve.
const heatTestedLow, heatTestedHigh = 600, 1000

// HeatNDF is NDF with its standard deviation by the published line, and whether the heat sum lies in
// 600-1000 F-days, where the line is used without reserve.
func HeatNDF(gdd41 float64) (ndf, sd float64, inTested bool) {
	k := PublishedHeatLine()
	return k.NDF(gdd41), k.SD, gdd41 >= heatTestedLow && gdd41 <= heatTestedHigh
}

// FibreLine gives the ADF that goes with an NDF of alfalfa: a line through a pair of both.
type FibreLine struct{ NDF, ADF, Slope float64 }

// PublishedFibreLine is the bud line of the height and stage method ([source.StickFit]): ADF 29.86 at
// NDF 40, rising 0.2125 for each 0.270 of NDF. Penn State's late vegetative and bud hays, ADF 28 at
// NDF 38 and 29 at 40 ([source.FibrePairs]), lie within a point of it.
func PublishedFibreLine() FibreLine { return FibreLine{NDF: 40, ADF: 29.86, Slope: 0.787} }

// At is the ADF at an NDF, both % of DM.
func (k FibreLine) At(ndf float64) float64 { return k.ADF + k.Slope*(ndf-k.NDF) }

// AdfForNDF is the ADF of alfalfa, % of DM, where only its NDF is known, as by heat.
func AdfForNDF(ndf float64) float64 { return PublishedFibreLine().At(ndf) }
