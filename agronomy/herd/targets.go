package herd

import (
	"fmt"
	"math"
	"slices"

	"haywarden/agronomy/source"
)

// Band is a range; an end that the source leaves open is NaN.
type Band struct{ Low, High float64 }

// Target is the forage quality wanted for a group of animals, % of dry matter, NDFD in % of NDF.
type Target struct {
	Group  string
	CP     Band
	NDF    Band
	NDFD   Band
	RFQ    Band
	Fat    float64 // RFQ from which the group gets fat on it and value is wasted; NaN where none is named
	Source source.ID
}

// Targets is a table of them. It disagrees between states, so a book keeps its own.
type Targets []Target

// The groups of the tables.
const (
	EarlyCows       = "early-cows"
	LateCows        = "late-cows"
	YoungCalves     = "young-calves"
	Heifers         = "heifers"
	BreedingHeifers = "breeding-heifers"
	OlderAnimals    = "older-animals"
)

// Groups are the groups from the most demanding on: high and early cows; cows in their last 200 days;
// calves and heifers under 6 months; heifers of 3-12 months; of 12-18; bred heifers of 18-24 months
// and dry cows.
func Groups() []string {
	return []string{EarlyCows, LateCows, YoungCalves, Heifers, BreedingHeifers, OlderAnimals}
}

const tooGood = 150 // RFQ for animals that do not milk ([source.TooGood])

func open() float64 { return math.NaN() }

// MinnesotaTargets returns the table of 2009, which names the least RFQ. Source:
// [source.QualityMinnesota].
func MinnesotaTargets() Targets {
	over := func(v float64) Band { return Band{v, open()} }
	unsaid := over(open())
	const from = source.QualityMinnesota
	return Targets{
		{EarlyCows, over(22), Band{38, 42}, Band{55, 65}, over(165), open(), from},
		{LateCows, unsaid, unsaid, unsaid, over(165), open(), from},
		{YoungCalves, Band{20, 22}, Band{40, 42}, Band{50, 55}, over(150), open(), from},
		{BreedingHeifers, Band{16, 18}, Band{40, 45}, Band{45, 55}, over(136), tooGood, from},
		{OlderAnimals, Band{13, 15}, Band{45, 55}, Band{40, 50}, over(125), tooGood, from},
	}
}

// WisconsinTargets returns bands of RFQ, 10-25 points below those of Minnesota. Source:
// [source.QualityBands].
func WisconsinTargets() Targets {
	unsaid := Band{open(), open()}
	const from = source.QualityBands
	row := func(group string, low, high, fat float64) Target {
		return Target{group, unsaid, unsaid, unsaid, Band{low, high}, fat, from}
	}
	return Targets{
		row(EarlyCows, 140, open(), open()), row(LateCows, 125, 150, open()), row(YoungCalves, 140, 160, open()),
		row(Heifers, 125, 150, tooGood), row(BreedingHeifers, 115, 130, tooGood), row(OlderAnimals, 100, 120, tooGood),
	}
}

// For is the target of a group.
func (t Targets) For(group string) (Target, error) {
	i := slices.IndexFunc(t, func(x Target) bool { return x.Group == group })
	if i < 0 {
		var names []string
		for _, x := range t {
			names = append(names, x.Group)
		}
		return Target{}, fmt.Errorf("group %q has no line in this table; it has %v", group, names)
	}
	return t[i], nil
}

// Fit is how a forage suits a group.
type Fit string

// The fits.
const (
	Short   Fit = "too poor"
	Suits   Fit = "suits"
	Better  Fit = "better than wanted"
	Fatting Fit = "too good: they get fat on it"
)

// Judge says how a forage of an RFQ suits, in whole points.
func (t Target) Judge(rfq float64) Fit {
	switch points := math.Floor(rfq + 0.5); {
	case points < t.RFQ.Low:
		return Short
	case points > t.Fat:
		return Fatting
	case points > t.RFQ.High:
		return Better
	}
	return Suits
}
