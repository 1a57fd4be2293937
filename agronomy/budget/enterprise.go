package budget

import (
	"errors"
	"fmt"
	"math"
)

// Line is a named cost, $ an acre a year.
type Line struct {
	Name  string
	Value float64
}

// Field is a production year of a stand.
type Field struct {
	Lines         []Line // what the year costs apart from stand and harvest
	CutCost       float64
	Cuts          float64
	Establishment float64 // $ an acre, spread over Years with interest
	Years, Rate   float64
	Yield         float64 // tons DM/ac
}

// Cost is what the year comes to.
type Cost struct {
	Stand   float64 // the year's part of the establishment, $/ac
	Harvest float64 // $/ac
	PerAcre float64
	PerTon  float64 // $/ton DM, which is also the price that breaks even
}

// Year adds up a production year. Source: [source.EnterpriseBudget].
func (f Field) Year() (Cost, error) {
	switch {
	case len(f.Lines) == 0:
		return Cost{}, errors.New("no cost line is given: want one at least, such as land:200")
	case !(f.Yield > 0) || math.IsInf(f.Yield, 1):
		return Cost{}, fmt.Errorf("yield %g tons/ac: accepted over 0", f.Yield)
	case f.Establishment != 0 && !(f.Years > 0):
		return Cost{}, fmt.Errorf("years %g to spread the establishment over: accepted over 0", f.Years)
	}
	var c Cost
	for _, l := range f.Lines {
		if !(l.Value >= 0) || math.IsInf(l.Value, 1) {
			return Cost{}, fmt.Errorf("line %s: %g $/ac; accepted 0 and over", l.Name, l.Value)
		}
		c.PerAcre += l.Value
	}
	if f.Establishment != 0 {
		c.Stand = f.Establishment * Recovery(f.Rate, f.Years)
	}
	c.Harvest = f.CutCost * f.Cuts
	c.PerAcre += c.Stand + c.Harvest
	c.PerTon = c.PerAcre / f.Yield
	return c, nil
}

// BreakEvenYields are the yields that pay for a stand kept 1, 2 ... years, without interest:
// (establishment/n + yearly)/price. Source: [source.BreakEvenYield].
func BreakEvenYields(establishment, yearly, price float64, years int) []float64 {
	list := make([]float64, years)
	for i := range list {
		list[i] = (establishment/float64(i+1) + yearly) / price
	}
	return list
}

// Removal is what a ton of dry matter takes from the soil, lb of fertiliser nutrient.
type Removal struct{ P2O5, K2O float64 }

// PublishedRemoval returns what three sources give; they differ by a seventh. Sources:
// [source.RemovalGuide], [source.RemovalCosts], [source.RemovalUsual].
func PublishedRemoval() (guide, costs, usual Removal) {
	return Removal{14, 58}, Removal{11, 53}, Removal{12, 50}
}

// Ton is what replacing it costs, $ a ton of dry matter, at $ a lb.
func (r Removal) Ton(p2o5, k2o float64) float64 { return r.P2O5*p2o5 + r.K2O*k2o }

// Partial is what one change brings: added returns and reduced costs less added costs and reduced
// returns. Source: [source.PartialBudget].
func Partial(addedReturns, reducedCosts, addedCosts, reducedReturns float64) float64 {
	return addedReturns + reducedCosts - addedCosts - reducedReturns
}

// LastCut is one more cut at the end of the year.
type LastCut struct {
	Yield, Price           float64 // tons DM/ac, $/ton DM
	Harvest                float64 // $/ac
	Nutrients              float64 // $/ton DM
	SpringLoss, SpringTons float64 // $/ton DM, and tons/ac that next spring is short
}

// Net is what the cut brings, $ an acre, and the yield at which it brings nothing; +Inf where no yield
// does. Source: [source.PartialBudget].
func (l LastCut) Net() (net, breakEven float64) {
	spring := l.SpringLoss * l.SpringTons
	net = Partial(l.Yield*l.Price, 0, l.Harvest+l.Yield*l.Nutrients, spring)
	breakEven = math.Inf(1)
	if l.Price > l.Nutrients {
		breakEven = (l.Harvest + spring) / (l.Price - l.Nutrients)
	}
	return net, breakEven
}

// MilkLate is what milk not made costs: kg a cow a day times price, and over cows and days. Six days
// late cost 0.45 kg. Source: [source.MilkLate].
func MilkLate(kg, price, cows, days float64) (perCowDay, all float64) {
	return kg * price, kg * price * cows * days
}
