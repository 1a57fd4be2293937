// Package forage turns the fibre of a forage into the numbers it is judged and sold by, and carries
// them through time: how fast a standing crop ages, what harvest takes on the way to the cow, when a
// harvest of several days must begin, and what a day of waiting is worth. It also joins estimates of
// one quantity from several methods and holds predictions against the laboratory.
//
// Fibre and protein are % of dry matter. NDF, neutral detergent fibre, is the whole cell wall and
// limits how much an animal eats; ADF, acid detergent fibre, is its less digestible part.
package forage

import (
	"fmt"
	"math"

	"haywarden/agronomy/unit"
)

// FeedValue holds the coefficients of relative feed value:
//
//	DDM = DDM0 - DDMSlope*ADF     digestible dry matter, % of DM
//	DMI = DMI0 / NDF              intake, % of body weight a day
//	RFV = DDM * DMI / Divisor     an index; 100 is full-bloom alfalfa
//
// Source: [source.RFVFormula].
type FeedValue struct {
	DDM0, DDMSlope, DMI0, Divisor float64
}

// PublishedFeedValue returns the published coefficients.
func PublishedFeedValue() FeedValue {
	return FeedValue{DDM0: 88.9, DDMSlope: 0.779, DMI0: 120, Divisor: 1.29}
}

// DDM is digestible dry matter, % of DM, from ADF, % of DM.
func (k FeedValue) DDM(adf float64) float64 { return k.DDM0 - k.DDMSlope*adf }

// DMI is potential intake, % of body weight a day, from NDF, % of DM.
func (k FeedValue) DMI(ndf float64) float64 { return k.DMI0 / ndf }

// Of is the relative feed value of a forage, unrounded. It is a ranking index for cool-season
// legumes, grasses and their mixtures, never an intake; sensible for ADF 18-50, NDF 25-70, ADF < NDF.
func (k FeedValue) Of(adf, ndf float64) float64 { return k.DDM(adf) * k.DMI(ndf) / k.Divisor }

// Slopes are the partial derivatives of RFV by ADF and by NDF, points for each % of DM.
func (k FeedValue) Slopes(adf, ndf float64) (byADF, byNDF float64) {
	return -k.DDMSlope * k.DMI0 / (k.Divisor * ndf), -k.Of(adf, ndf) / ndf
}

// Spread is the first-order standard deviation of RFV when ADF and NDF carry standard deviations
// sdADF and sdNDF with correlation corr. Source: [source.RFVError].
func (k FeedValue) Spread(adf, ndf, sdADF, sdNDF, corr float64) float64 {
	a, n := k.Slopes(adf, ndf)
	v := a*a*sdADF*sdADF + n*n*sdNDF*sdNDF + 2*corr*a*n*sdADF*sdNDF
	return math.Sqrt(max(0, v))
}

// CheckFibre refuses fibre values that no forage has.
func CheckFibre(adf, ndf unit.PercentDM) error {
	switch {
	case !(ndf >= 18 && ndf <= 80):
		return fmt.Errorf("NDF %g %% of dry matter; accepted 18 to 80", ndf)
	case !(adf >= 10 && adf <= 60):
		return fmt.Errorf("ADF %g %% of dry matter; accepted 10 to 60", adf)
	case adf >= ndf:
		return fmt.Errorf("ADF %g is not under NDF %g: ADF is a part of NDF, check which is which", adf, ndf)
	}
	return nil
}

// Whole rounds an index half up, as the trade prints it.
func Whole(rfv float64) int { return int(math.Floor(rfv + 0.5)) }
