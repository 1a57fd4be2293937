// Package regrowth says how a growth comes on: by the daily model ([Model]) from weather, soil and
// reserves, and by the plain curves that drawings and mixtures use.
package regrowth

import "math"

// curve holds the knots of [HeightByHeat]: heat above 41 F since 1 March, F-days, and height, in.
var curve = [...]struct{ heat, inches float64 }{
	{100, 0}, {250, 4}, {350, 6}, {480, 16}, {600, 25}, {680, 28.3}, {750, 31}, {970, 37}, {1300, 40},
}

// HeightByHeat is a plain curve of the tallest alfalfa stem in first growth, inches, by heat above
// 41 F since 1 March. The upper knots turn the heat-based fibre of first growth (680, 750, 970 F-days)
// into the height at which the stick gives the same fibre; the lower ones are a choice. Sources:
// [source.HeightCurve].
func HeightByHeat(gdd41 float64) float64 {
	last := curve[len(curve)-1]
	if gdd41 >= last.heat {
		return last.inches
	}
	below := curve[0]
	for _, k := range curve[1:] {
		if gdd41 <= k.heat {
			return below.inches + (k.inches-below.inches)*max(0, gdd41-below.heat)/(k.heat-below.heat)
		}
		below = k
	}
	return math.NaN() // no number of F-days
}

// HeatForHeight is the heat at which [HeightByHeat] reaches a height: how far on a growth is that was
// read. Heights beyond the curve's ends are held there.
func HeatForHeight(inches float64) float64 {
	below := curve[0]
	for _, k := range curve[1:] {
		if inches <= k.inches {
			return below.heat + (k.heat-below.heat)*max(0, inches-below.inches)/(k.inches-below.inches)
		}
		below = k
	}
	return below.heat
}
