// Package budget puts dollars to forage: what hay and standing crops are worth, what machines, fields
// and tons cost, how long to keep a stand, and what one change on the farm brings. Every price is the
// user's own: none is built in. Published relations (repair factors, factor tables, shares of cuts)
// carry their source, and many of them were recalled and not read.
package budget

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"haywarden/agronomy/forage"
)

const poundsATon = 2000

// HayPrice is the price of hay of a feed value, $ a ton as fed, on a line that never falls under
// floor, the price of grass hay. Source: [source.HayPoint].
func HayPrice(line forage.PriceLine, floor, rfv float64) float64 { return max(floor, line.At(rfv)) }

// Moved is a price carried over to feed of another dry matter and feed value, in proportion to both:
// haylage by the price of hay. Source: [source.PriceByMoisture].
func Moved(price, dm, toDM, rfv, toRFV float64) float64 { return price * toDM / dm * toRFV / rfv }

// Feed is a bought feed that sets what nutrients are worth.
type Feed struct {
	DM  float64 // dry matter, 0-1
	NEL float64 // Mcal/lb of dry matter
	CP  float64 // crude protein of dry matter, 0-1
}

// Nutrients are the two feeds that price energy and protein, and the weight of a bushel of the first.
type Nutrients struct {
	Corn, Meal Feed
	BushelLb   float64
}

// PublishedNutrients returns shelled corn and soybean meal of 48 % protein. Source:
// [source.NutrientFeeds].
func PublishedNutrients() Nutrients {
	return Nutrients{Feed{0.88, 0.91, 0.094}, Feed{0.895, 1.00, 0.538}, 56}
}

// NutrientPrices is what energy and protein cost.
type NutrientPrices struct{ Mcal, Protein float64 } // $/Mcal, $/lb of crude protein

// Prices solves for the two prices at which both feeds cost what they are worth:
//
//	2000 (NEL e + CP q) = $ a ton of dry matter, for corn and for meal
//
// corn is $ a bushel and meal $ a ton as fed. Where one feed is very cheap beside the other, a price
// comes out below 0, and the two feeds do not price forage. Source: [source.TwoNutrients].
func (k Nutrients) Prices(corn, meal float64) (NutrientPrices, error) {
	if !(corn > 0) || !(meal > 0) || math.IsInf(corn+meal, 1) {
		return NutrientPrices{}, fmt.Errorf("corn %g $/bu and meal %g $/ton: accepted over 0", corn, meal)
	}
	a, b := corn*poundsATon/k.BushelLb/k.Corn.DM/poundsATon, meal/k.Meal.DM/poundsATon // $/lb DM
	det := k.Corn.NEL*k.Meal.CP - k.Meal.NEL*k.Corn.CP
	if det == 0 {
		return NutrientPrices{}, errors.New("corn and meal carry energy and protein in one proportion: they cannot price the two apart")
	}
	return NutrientPrices{Mcal: (a*k.Meal.CP - b*k.Corn.CP) / det, Protein: (b*k.Corn.NEL - a*k.Meal.NEL) / det}, nil
}

// Ton is a ton of dry matter of forage at these prices, nel in Mcal/lb, cp 0-1. Fibre has no price in
// it, nor has the milk that poor fibre costs.
func (u NutrientPrices) Ton(nel, cp float64) float64 { return poundsATon * (nel*u.Mcal + cp*u.Protein) }

// Split prices forage by three nutrients, from how the price of a reference alfalfa falls on them.
// Source: [source.ThreeNutrients].
type Split struct {
	Protein, Energy, Fibre float64 // shares of the reference price
	CP, NEL, NDF           float64 // of the reference: 0-1, Mcal/lb, 0-1
}

// PublishedSplit returns the Midwest split of alfalfa at 200 $/ton.
func PublishedSplit() Split { return Split{0.39, 0.36, 0.25, 0.20, 0.58, 0.42} }

// Ton is a ton of dry matter where the reference costs hay.
func (k Split) Ton(hay, nel, cp, ndf float64) float64 {
	return hay * (k.Protein*cp/k.CP + k.Energy*nel/k.NEL + k.Fibre*ndf/k.NDF)
}

// Factors price a forage as fed by meal, corn and grade 2 alfalfa, $ a ton each.
type Factors struct {
	Forage          string
	Meal, Corn, Hay float64
}

// PublishedFactors returns the table, best forage first. Source: [source.FeedFactors].
func PublishedFactors() []Factors {
	return []Factors{
		{"prime", 0.191, 0.057, 0.742}, {"grade-1", 0.045, 0.067, 0.879}, {"grade-2", 0, 0, 1},
		{"grade-3", -0.071, -0.080, 1.146}, {"grade-4", -0.090, -0.122, 1.106},
		{"red-clover", -0.019, 0.053, 0.963}, {"corn-silage", -0.054, 0.156, 0.269},
	}
}

// Ton is a ton as fed at three prices, $ a ton.
func (f Factors) Ton(meal, corn, hay float64) float64 { return f.Meal*meal + f.Corn*corn + f.Hay*hay }

// CutShares is how a year's yield falls on its cuts.
type CutShares struct {
	By     string // whose
	Shares []float64
}

// PublishedCutShares returns the shares of three and of four cuts. Sources: [source.CutSharesUW],
// [source.CutSharesHoard].
func PublishedCutShares() []CutShares {
	return []CutShares{
		{"wisconsin", []float64{0.43, 0.31, 0.26}}, {"wisconsin", []float64{0.36, 0.25, 0.21, 0.18}},
		{"hoards", []float64{0.40, 0.30, 0.30}}, {"hoards", []float64{0.35, 0.25, 0.20, 0.20}},
	}
}

// ShareOf is the share of the year that one of cuts takes, counted from 1.
func ShareOf(table []CutShares, by string, cuts, cut int) (float64, error) {
	i := slices.IndexFunc(table, func(s CutShares) bool { return s.By == by && len(s.Shares) == cuts })
	if i < 0 || cut < 1 || cut > cuts {
		return 0, fmt.Errorf("cut %d of %d: accepted cut 1 to 3 of 3, or 1 to 4 of 4", cut, cuts)
	}
	return table[i].Shares[cut-1], nil
}

// Standing is what an uncut crop is worth, $ an acre.
//
// By cost: what it sells for less the harvest, Y (1 - loss) P - harvest. Source: [source.StandingCost].
func Standing(yield, price, loss, harvest float64) float64 { return yield*(1-loss)*price - harvest }

// StandingShare is what an uncut crop is worth by the rule of halves: the owner's share of Y P, the
// rest being the buyer's for harvest, loss and risk. Source: [source.StandingHalf].
func StandingShare(yield, price, share float64) float64 { return yield * price * share }
