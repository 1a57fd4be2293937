package forage

import (
	"fmt"
	"math"
	"strconv"
)

// LabSpread is the least error that stands on a laboratory value as a standard deviation, % of DM, and
// the correlation of those of ADF and NDF (a choice). Source: [source.LabErrors].
type LabSpread struct{ CP, ADF, NDF, Corr float64 }

// PublishedLabSpread returns them.
func PublishedLabSpread() LabSpread { return LabSpread{CP: 0.5, ADF: 1.0, NDF: 1.5, Corr: 0.8} }

// RFV is the error of relative feed value that they bring, in points.
func (k LabSpread) RFV(adf, ndf float64) float64 {
	return PublishedFeedValue().Spread(adf, ndf, k.ADF, k.NDF, k.Corr)
}

// The scatter of a lot's own cores as standard deviations, % of DM: protein and NDF by Collins 2000, as
// Undersander's slides of 2007 give it; that of ADF is taken in the ratio that laboratories show (choice).
const (
	coreCP  = 0.8
	coreNDF = 2.0
	coreADF = 1.3
)

// OfLot is the spread of one test as an answer about the whole lot: the laboratory's and that of so many
// cores or handfuls mixed into the sample, at least 1.
func (k LabSpread) OfLot(cores int) LabSpread {
	n := math.Sqrt(float64(max(1, cores)))
	return LabSpread{CP: math.Hypot(k.CP, coreCP/n), ADF: math.Hypot(k.ADF, coreADF/n), NDF: math.Hypot(k.NDF, coreNDF/n), Corr: k.Corr}
}

// ToldAgainst says what one test with an error of the given standard deviation tells of a target: the
// chance that it is truly reached, and what a test must read so that it is so 9 times in 10.
func ToldAgainst(what Measured, v, target, sd float64) string {
	const sure = 1.2816 // standard deviations that leave 1 in 10 on one side of a normal distribution
	over := int(math.Round(10 * 0.5 * math.Erfc((target-v)/sd/math.Sqrt2)))
	needs := strconv.FormatFloat(math.Ceil(target+sure*sd), 'f', what.Decimals, 64)
	at := strconv.FormatFloat(target, 'f', what.Decimals, 64)
	switch {
	case over <= 0:
		return fmt.Sprintf("Under 1 in 10 that it truly reaches %s %s; a test of %s would make it 9 in 10.", what.Name, at, needs)
	case over >= 10:
		return fmt.Sprintf("Over 9 in 10 that it truly reaches %s %s.", what.Name, at)
	case over == 9:
		return fmt.Sprintf("9 in 10 that it truly reaches %s %s.", what.Name, at)
	}
	return fmt.Sprintf("%d in 10 that it truly reaches %s %s; a test of %s would make it 9 in 10.", over, what.Name, at, needs)
}

// Measured is what two numbers are that are held against each other: how a difference is said, and to
// how many decimals.
type Measured struct {
	Name      string // `RFV`
	One, Many string // `point of RFV`, `points of RFV`
	Decimals  int
}

// What is compared most.
var (
	RFVPoints  = Measured{"RFV", "point of RFV", "points of RFV", 0}
	RFQPoints  = Measured{"RFQ", "point of RFQ", "points of RFQ", 0}
	NDFPercent = Measured{"NDF", "point of NDF", "points of NDF", 1}
	ADFPercent = Measured{"ADF", "point of ADF", "points of ADF", 1}
	CPPercent  = Measured{"protein", "point of protein", "points of protein", 1}
)

func (m Measured) say(v float64) string {
	s := strconv.FormatFloat(v, 'f', m.Decimals, 64)
	if s == strconv.FormatFloat(1, 'f', m.Decimals, 64) {
		return s + " " + m.One
	}
	return s + " " + m.Many
}

// Differs is the least difference of two values with independent errors that chance explains only once
// in 20 times.
func Differs(sdA, sdB float64) float64 { return z95 * math.Hypot(sdA, sdB) }

// z95 leaves 2.5 in 100 on each side of a normal distribution.
const z95 = 1.96

// ToldValue says the value of a lot with the range in which it lies 95 times in 100, the error being that of
// [LabSpread.OfLot]: `RFV 152, from 136 to 168 with the error of 20 cores or handfuls and one laboratory.`
func ToldValue(what Measured, v, sd float64, cores int) string {
	text := func(v float64) string { return strconv.FormatFloat(v, 'f', what.Decimals, 64) }
	return fmt.Sprintf("%s %s, from %s to %s with the error of %d cores or handfuls and one laboratory.", what.Name, text(v), text(v-z95*sd), text(v+z95*sd), cores)
}

// LeastApart is the difference of two lots, each tested once, from which on they are told apart 95 times in
// 100, as it is shown.
func LeastApart(what Measured, sdA, sdB float64) string {
	unit := math.Pow10(-what.Decimals)
	return what.say(math.Ceil(Differs(sdA, sdB)/unit-1e-9) * unit)
}

// ToldApart says in a sentence whether two values with errors of the given standard deviations differ:
// `5 points of RFV cannot be told apart: from 21 points on they could.`
func ToldApart(what Measured, a, b, sdA, sdB float64) string {
	apart, least := math.Abs(a-b), LeastApart(what, sdA, sdB)
	switch {
	case apart == 0:
		return fmt.Sprintf("They are the same; %s would be a difference.", least)
	case apart < math.Pow10(-what.Decimals)/2:
		return fmt.Sprintf("They cannot be told apart: from %s on they could.", least)
	case apart < Differs(sdA, sdB):
		return fmt.Sprintf("%s cannot be told apart: from %s on they could.", what.say(apart), least)
	}
	return fmt.Sprintf("%s are a difference: from %s on it is more than chance.", what.say(apart), least)
}
