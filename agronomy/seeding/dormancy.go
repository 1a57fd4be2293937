package seeding

import (
	"fmt"
	"math"
)

// Dormancy is the line on which fall dormancy is read: class = Intercept + Slope x height (in), the height
// of growth about 25 days after a cut in early September. Source: [source.DormancyChecks].
type Dormancy struct{ Intercept, Slope float64 }

// DormancyLine draws the line through check varieties of known class, of which two heights must differ.
func DormancyLine(heights, classes []float64) (Dormancy, error) {
	n := float64(len(heights))
	if len(heights) != len(classes) || len(heights) < 2 {
		return Dormancy{}, fmt.Errorf("heights: %d for %d classes; want as many, 2 at least", len(heights), len(classes))
	}
	var mx, my, xx, xy float64
	for i, h := range heights {
		mx, my = mx+h/n, my+classes[i]/n
	}
	for i, h := range heights {
		xx, xy = xx+(h-mx)*(h-mx), xy+(h-mx)*(classes[i]-my)
	}
	if !(xx > 1e-12) {
		return Dormancy{}, fmt.Errorf("heights: all checks are %g in tall; no line can be drawn", mx)
	}
	slope := xy / xx
	return Dormancy{my - slope*mx, slope}, nil
}

// Rating is the dormancy of a variety of a height, 1 (most dormant) to 11; it may fall outside them.
func (d Dormancy) Rating(height float64) float64 { return d.Intercept + d.Slope*height }

// Class is the rating as a class, 1 to 11.
func (d Dormancy) Class(height float64) int {
	return int(min(11, max(1, math.Round(d.Rating(height)))))
}
