// Package regrowth says how tall and how far a growth stands. Until the daily model is there it holds
// the plain curves that drawings and mixtures use.
package regrowth

// HeightByHeat is a plain curve of the tallest alfalfa stem in first growth, inches, by heat above
// 41 F since 1 March. The upper knots turn the heat-based fibre of first growth (680, 750, 970 F-days)
// into the height at which the stick gives the same fibre; the lower ones are a choice. Sources:
// [source.HeightCurve].
func HeightByHeat(gdd41 float64) float64 {
	knots := [][2]float64{{100, 0}, {250, 4}, {350, 6}, {480, 16}, {600, 25}, {680, 28.3}, {750, 31}, {970, 37}, {1300, 40}}
	if gdd41 <= knots[0][0] {
		return 0
	}
	for i := 1; i < len(knots); i++ {
		a, b := knots[i-1], knots[i]
		if gdd41 <= b[0] {
			return a[1] + (b[1]-a[1])*(gdd41-a[0])/(b[0]-a[0])
		}
	}
	return knots[len(knots)-1][1]
}

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
