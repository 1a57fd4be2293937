package stand

import (
	"math"

	"haywarden/agronomy/source"
)

// yieldByYear is the yield of production years 1 to 6 as shares of the first. A production year is
// counted from 1 in the year after seeding; Penn State counts the seeding year as 1.
var yieldByYear = [...]float64{1.00, 1.02, 0.83, 0.66, 0.52, 0.41}

// lastPublished is the last production year that Midwest trials print.
const lastPublished = 4

// YieldByAge is a stand's yield in a production year as a share of its first, by Midwest trials to
// year 4 ([source.YieldByAge]) and by going on falling as from the third to the fourth year after
// that ([source.YieldOldAge]). NaN before the first: the seeding year is not on this scale. It falls
// faster east of the Mississippi than west of it or under irrigation.
func YieldByAge(productionYear int) float64 {
	if productionYear < 1 {
		return math.NaN()
	}
	if n := len(yieldByYear); productionYear > n {
		fall := 0.79 // a year
		return yieldByYear[n-1] * math.Pow(fall, float64(productionYear-n))
	}
	return yieldByYear[productionYear-1]
}

// YieldByAgeSource is what [YieldByAge] leans on in a production year.
func YieldByAgeSource(productionYear int) source.ID {
	if productionYear > lastPublished {
		return source.YieldOldAge
	}
	return source.YieldByAge
}

// FirstCutShare is the part of a year's yield that the first of four cuts takes; 0.35 to 0.40 is
// printed. Source: [source.CutShares].
func FirstCutShare() float64 { return 0.36 }
