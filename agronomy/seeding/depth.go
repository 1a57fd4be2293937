package seeding

import (
	"fmt"
	"slices"
)

// Depth is how deep to set small seed, inches.
type Depth struct{ Low, High float64 }

// Depths are the printed depths. Source: [source.SeedDepth].
type Depths struct {
	Sand Depth // sand and loamy sand
	Rest Depth // medium and heavy soil
}

// PublishedDepths returns the printed depths.
func PublishedDepths() Depths {
	return Depths{Sand: Depth{0.5, 1}, Rest: Depth{0.25, 0.5}}
}

// Seasons are the words for the time of seeding.
func Seasons() [2]string { return [2]string{"spring", "late-summer"} }

// For is the depth for a soil and a season: the shallow half of the soil's range in spring, the deep
// half in late summer. The halves are [source.SeedDepthSeason].
func (d Depths) For(soil, season string) (Depth, error) {
	words, seasons := Soils(), Seasons()
	if !slices.Contains(words[:], soil) {
		return Depth{}, fmt.Errorf("soil %q: accepted: %v", soil, words)
	}
	if !slices.Contains(seasons[:], season) {
		return Depth{}, fmt.Errorf("season %q: accepted: %v", season, seasons)
	}
	all := d.Rest
	if soil == words[0] {
		all = d.Sand
	}
	middle := (all.Low + all.High) / 2
	if season == seasons[0] {
		return Depth{all.Low, middle}, nil
	}
	return Depth{middle, all.High}, nil
}
