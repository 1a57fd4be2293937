package regrowth

import "math"

// Bloom is the heat that a growth needs to one-tenth bloom: base, C, and C-days above it, daily mean
// less base. Source: [source.BloomHeat].
type Bloom struct{ BaseC, CDays float64 }

// ToBloom returns the heat to one-tenth bloom by growth, 1 being the year's first.
func ToBloom(growth int) Bloom {
	switch growth {
	case 1:
		return Bloom{3.5, 585}
	case 2:
		return Bloom{7.5, 425}
	}
	return Bloom{10, 425}
}

// BudShare is the share of the heat to one-tenth bloom at which a growth stands in bud.
// Source: [source.BudShare].
const BudShare = 0.7625

// Days is how many days a growth takes to one-tenth bloom at a mean temperature, C; +Inf where it is not
// over the base.
func (b Bloom) Days(tmeanC float64) float64 {
	if tmeanC <= b.BaseC {
		return math.Inf(1)
	}
	return b.CDays / (tmeanC - b.BaseC)
}
