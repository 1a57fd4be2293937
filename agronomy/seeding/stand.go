package seeding

import (
	"fmt"
	"math"

	"haywarden/agronomy/unit"
)

// Survival holds the shares that live from seed to plant. Sources: [source.SeedlingSurvival],
// [source.SeedlingCap].
type Survival struct {
	Emerge      unit.Share  // of live seeds, in 3-4 weeks
	FirstWinter unit.Share  // of seedlings, to the next spring
	SecondYear  unit.Share  // of those, a year on
	Most        unit.PerFt2 // plants in the first spring: crowded seedlings thin themselves
}

// PublishedSurvival returns the printed shares.
func PublishedSurvival() Survival {
	return Survival{Emerge: 0.6, FirstWinter: 0.55, SecondYear: 0.34, Most: 25}
}

// Plants is a stand's way from seed, plants a square foot.
type Plants struct{ Emerged, Spring1, Spring2 unit.PerFt2 }

// From follows live seeds through two winters.
func (s Survival) From(live unit.PerFt2) Plants {
	up := live * unit.PerFt2(s.Emerge)
	first := min(up*unit.PerFt2(s.FirstWinter), s.Most)
	return Plants{Emerged: up, Spring1: first, Spring2: first * unit.PerFt2(s.SecondYear)}
}

// LastDay is the last day to sow before a killing frost: weeks of growth after emergence, and the
// days to emerge, before it. Source: [source.LastSeeding].
func LastDay(frost unit.Day, weeks, emergence float64) unit.Day {
	return frost - unit.Day(math.Ceil(7*weeks+emergence))
}

// Rating is a variety's resistance to one disease.
type Rating string

// DiseasePoints holds the points of each rating. Source: [source.DiseaseIndex].
type DiseasePoints map[Rating]float64

// PublishedDiseasePoints returns the printed points.
func PublishedDiseasePoints() DiseasePoints {
	return DiseasePoints{"HR": 5, "R": 4, "MR": 3, "LR": 2, "S": 1}
}

// Diseases are the six that the index adds up, in the order in which ratings are given.
func Diseases() []string {
	return []string{"bacterial wilt", "Fusarium wilt", "Verticillium wilt", "anthracnose", "Phytophthora root rot", "Aphanomyces root rot, race 1"}
}

// Index adds the points of six ratings; most is what six highly resistant ratings add up to.
func (p DiseasePoints) Index(ratings []Rating) (points, most float64, err error) {
	if len(ratings) != len(Diseases()) {
		return 0, 0, fmt.Errorf("ratings: %d given; want %d, in the order %v (S for one not tested)", len(ratings), len(Diseases()), Diseases())
	}
	for i, r := range ratings {
		v, ok := p[r]
		if !ok {
			return 0, 0, fmt.Errorf("ratings: %q for %s; accepted: HR, R, MR, LR, S", r, Diseases()[i])
		}
		points += v
		most += p["HR"]
	}
	return points, most, nil
}
