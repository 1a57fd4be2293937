package stand

import (
	"fmt"
	"math"

	"haywarden/agronomy/count"
)

// PlantClass says what a plant count means at a stand's age.
type PlantClass string

// The classes.
const (
	PlantsEnough PlantClass = "enough"
	PlantsThin   PlantClass = "thin"    // under what is wanted, over what is reseeded
	PlantsTooFew PlantClass = "too few" // consider reseeding
)

// PlantLimits are plants a square foot in one production year. Sources: [source.PlantsIllinois] for what is
// wanted, [source.PlantsIowa] for what is reseeded, [source.PlantsSeeding] for the seeding year and old stands.
type PlantLimits struct {
	Wanted float64 // this many are enough; Over: more than this many
	Over   bool
	Reseed float64 // under this many, consider reseeding
}

// PlantScale holds the limits by production year, 0 the fall of the seeding year; the last row is for all
// older stands.
type PlantScale []PlantLimits

// PublishedPlants returns the printed limits.
func PublishedPlants() PlantScale {
	return PlantScale{{25, false, 12}, {12, true, 8}, {8, true, 5}, {5, true, 4}, {4, false, 3}}
}

// Limits are those of a production year.
func (k PlantScale) Limits(year int) PlantLimits { return k[max(0, min(year, len(k)-1))] }

// Class is the class of a density, taken as it is shown, to a tenth of a plant.
func (l PlantLimits) Class(plants float64) PlantClass {
	switch shown := math.Round(plants*10) / 10; {
	case shown > l.Wanted || shown == l.Wanted && !l.Over:
		return PlantsEnough
	case shown >= l.Reseed:
		return PlantsThin
	}
	return PlantsTooFew
}

// PlantCount is a plant count worked out, plants a square foot. Low and High are NaN with one frame whose
// counts are patchy; whole counts of one frame have an exact interval.
type PlantCount struct {
	Mean, Low, High float64
	ChanceBelow     float64 // that the field's own density is under the limit for reseeding
	Exact           bool    // interval and chance of counts as chance scatters them; else Student's t
	Class           PlantClass
	Limits          PlantLimits
	N               int
	More            int // frames still to throw for an interval of 15 % either way, 20 in all at most
}

const (
	mostPlants = 200 // a square foot
	mostYear   = 20
)

// AssessPlants judges whole counts of plants, one for each frame of so many square feet, of a stand in a
// production year, 0 in its year of seeding. Counts that scatter no more than chance have the exact
// interval of a Poisson rate; patchy ones, whose variance is over their mean, Student's t. Sources:
// [source.PoissonRate], [source.StudentT].
func (k PlantScale) AssessPlants(counts []float64, frame float64, year int) (PlantCount, error) {
	switch {
	case !(frame > 0 && frame <= 20):
		return PlantCount{}, fmt.Errorf("frame %g: accepted more than 0 to 20 ft2", frame)
	case year < 0 || year > mostYear:
		return PlantCount{}, fmt.Errorf("age %d: accepted production years 0 to %d", year, mostYear)
	}
	for i, v := range counts {
		if !(v >= 0 && v <= mostPlants*frame) {
			return PlantCount{}, fmt.Errorf("frame %d: %g plants; accepted 0 to %g in a frame of %g ft2", i+1, v, mostPlants*frame, frame)
		}
	}
	rate, err := count.Totals(counts)
	if err != nil {
		return PlantCount{}, err
	}
	spread, err := count.Means(counts)
	if err != nil {
		return PlantCount{}, err
	}
	p := PlantCount{Mean: rate.Mean / frame, N: rate.N, Limits: k.Limits(year), Exact: !spread.Known() || spread.SD*spread.SD <= spread.Mean}
	p.Class = p.Limits.Class(p.Mean)
	limit := p.Limits.Reseed * frame
	if p.Exact {
		p.Low, p.High, p.ChanceBelow = rate.Low/frame, rate.High/frame, rate.ChanceBelow(limit)
	} else {
		p.Low, p.High, p.ChanceBelow = max(0, spread.Low)/frame, spread.High/frame, spread.ChanceBelow(limit)
	}
	frames := PublishedStems()
	cv := spread.CV
	if p.Exact && rate.Mean > 0 {
		cv = 1 / math.Sqrt(rate.Mean) // of a count that chance alone scatters
	}
	p.More = max(0, min(count.SampleSize(cv, frames.HalfWidth), frames.Most)-p.N)
	return p, nil
}
