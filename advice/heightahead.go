package advice

import (
	"math"

	"haywarden/agronomy/forage"
	"haywarden/agronomy/regrowth"
	"haywarden/outlook"
)

// Growth of 4 to 6 in, when stems are counted, by heat above 41 F since 1 March.
const (
	countHeat = 250 // about 4 in (choice)
	countLate = 500 // over 10 in: stems hide, but a count still tells (choice)
)

// HeightAhead is the height of the tallest alfalfa in a mixture on the coming days, in: 10, 25, 50, 75
// and 90 % of chances, over how past years went on and the error of today's height; and the height at
// which it is cut. Not ok where height does not judge the growth.
func HeightAhead(s *outlook.Stand, days int) (bands [][5]float64, cutAt float64, ok bool) {
	if !heatKnown(s) || s.Judged() != outlook.Mixture || s.Growth.Number != 1 || s.SeedingYear() || !s.Frosted.Lifted() {
		return nil, 0, false
	}
	height, spread, how := standingHeight(s)
	if how == "" && s.Frosted != nil {
		return nil, 0, false
	}
	cutAt, _, _ = forage.MixTrigger(s.Grass())
	now := s.Sky.Heat41.Now()
	base := regrowth.HeightByHeat(now)
	sums := make([]float64, len(s.Sky.Members))
	for i := range sums {
		sums[i] = now
	}
	for i := range days {
		all := make(outlook.Sample, 0, len(sums)*len(heightErrors))
		for j, m := range s.Sky.Members {
			if i > 0 && i <= len(m.TMinF) {
				sums[j] += s.Sky.Heat41.Spec.Day(m.TMinF[i-1], m.TMaxF[i-1])
			}
			for _, z := range heightErrors {
				all.Add(math.Max(0, height+z*spread+regrowth.HeightByHeat(sums[j])-base), m.Weight)
			}
		}
		bands = append(bands, [5]float64(all.Quantiles(0.1, 0.25, 0.5, 0.75, 0.9)))
	}
	return bands, cutAt, true
}
