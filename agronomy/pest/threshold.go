package pest

import (
	"fmt"
	"math"
)

// Money is what a threshold hangs on: the worth of a ton of hay, $ a short ton, and the cost of one
// treatment with its trip, $/ac. Both are over 0.
type Money struct{ Hay, Cost float64 }

// Larvae is the money threshold of alfalfa weevil in first growth: larvae a stem = Slope cost/hay - a
// start that falls with height. It was recovered from a printed table of 108 cells and errs by at most
// its rounding there. Source: [source.WeevilTable].
type Larvae struct {
	Slope     float64 // larvae a stem, ac/ton
	Mid, Late float64 // taken off at 10 to 15 in and at 16 to 20 in; nothing over 20 in
	Floor     float64 // below this it goes beyond the table (choice)
}

// PublishedLarvae returns the coefficients.
func PublishedLarvae() Larvae { return Larvae{Slope: 28.8, Mid: 0.48, Late: 0.24, Floor: 0.7} }

const (
	// ShortIn is the height, in, under which the money table does not speak and a guide's own count
	// stands: ShortLarvae a stem. Source: [source.WeevilOhio].
	ShortIn     = 10.0
	ShortLarvae = 1.0 // larvae a stem
	// TableLow and TableHigh bound cost/hay in the printed table, tons/ac.
	TableLow, TableHigh = 0.04, 0.24
	midBelow            = 16.0 // bounds of the table's heights, in
	earlyBudOver        = 20.0
)

// Threshold is larvae a stem at which treating pays back, at a height in inches. Outside says that the
// printed table does not go so far.
func (k Larvae) Threshold(heightIn float64, m Money) (larvae float64, outside string) {
	if heightIn < ShortIn {
		return ShortLarvae, "under 10 in the money table does not speak: the count of one larva a stem stands, whatever the price; look again within the week"
	}
	ratio := m.Cost / m.Hay
	larvae = k.Slope*ratio - k.start(heightIn)
	switch {
	case larvae < k.Floor:
		return k.Floor, fmt.Sprintf("held at %g larvae a stem: hay so dear and treatment so cheap lie beyond the printed table", k.Floor)
	case ratio < TableLow || ratio > TableHigh:
		outside = "cost over price lies outside the printed table (0.04 to 0.24 ton an acre)"
	}
	return larvae, outside
}

func (k Larvae) start(heightIn float64) float64 {
	switch {
	case heightIn < midBelow:
		return k.Mid
	case heightIn <= earlyBudOver:
		return k.Late
	}
	return 0
}

// TonsPerLarva is the loss that one larva a stem brings in first growth, tons/ac: the table's slope
// turned over. A second, Penn State's, calibration gives 0.040. Source: [source.WeevilTable].
func (k Larvae) TonsPerLarva() float64 { return 1 / k.Slope }

// Hopper is the money threshold of potato leafhopper: adults and nymphs a sweep = slope cost/hay, by
// height. Recovered from a printed table; over 8 in only one row of it could be read. Over 12 in no
// table was found: the last slope stands as a least, and cutting is the better answer. Source:
// [source.HopperTable].
type Hopper struct {
	Short, Middle, Tall float64 // slope to 4 in, to 8 in, over it; hoppers a sweep, ac/ton
	Resistant           float64 // times as many in an established resistant variety
}

// PublishedHopper returns the coefficients.
func PublishedHopper() Hopper { return Hopper{Short: 3, Middle: 5, Tall: 14.7, Resistant: 3} }

const (
	hopperShort, hopperMiddle = 4.0, 8.0
	// HopperTallIn is where the tables of leafhopper end, in.
	HopperTallIn = 12.0
)

// slope is the table's slope at a height, in.
func (k Hopper) slope(heightIn float64) float64 {
	switch {
	case heightIn <= hopperShort:
		return k.Short
	case heightIn <= hopperMiddle:
		return k.Middle
	}
	return k.Tall
}

// TonsPerHopper is the loss that one hopper a sweep brings at a height, tons/ac.
func (k Hopper) TonsPerHopper(heightIn float64) float64 { return 1 / k.slope(heightIn) }

// Stand is what of a stand moves the threshold of leafhopper.
type Stand struct {
	Resistant   bool // bred with glandular hairs, over half of its plants resistant
	SeedingYear bool
}

// times is what the variety multiplies a threshold by: in the year of seeding the hairs are not fully
// there, and the lower figure of those printed is taken. Source: [source.HopperResistant].
func (k Hopper) times(s Stand) float64 {
	if s.Resistant && !s.SeedingYear {
		return k.Resistant
	}
	return 1
}

// Threshold is hoppers a sweep at which treating pays back.
func (k Hopper) Threshold(heightIn float64, m Money, s Stand) (perSweep float64, outside string) {
	perSweep = k.slope(heightIn) * m.Cost / m.Hay * k.times(s)
	if heightIn > HopperTallIn {
		outside = "over 12 in no table speaks: the last one stands as the least, and cutting is the better answer"
	}
	return perSweep, outside
}

// Plain is the threshold without a price: the printed counts by height, hoppers a sweep. Source:
// [source.HopperCounts].
func (k Hopper) Plain(heightIn float64, s Stand) float64 {
	perSweep := 2.0
	switch {
	case heightIn <= 3:
		perSweep = 0.2
	case heightIn < 8: // the printed steps leave 6 to 8 in to either; the lower stands
		perSweep = 0.5
	case heightIn < 12:
		perSweep = 1
	}
	return perSweep * k.times(s)
}

// shown is a figure to the two decimals in which counts and thresholds are compared.
func shown(v float64) float64 { return math.Round(v*100) / 100 }
