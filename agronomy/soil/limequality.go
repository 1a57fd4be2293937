package soil

import (
	"errors"
	"fmt"
	"maps"
	"slices"
)

// LimeState is whose law rates a liming material.
type LimeState string

// The states.
const (
	RatedIowa      LimeState = "iowa"
	RatedIllinois  LimeState = "illinois"
	RatedWisconsin LimeState = "wisconsin"
	RatedMinnesota LimeState = "minnesota"
	RatedOhio      LimeState = "ohio"
	RatedNewYork   LimeState = "new-york"
	RatedKentucky  LimeState = "kentucky"
	RatedIndiana   LimeState = "indiana"
	RatedKansas    LimeState = "kansas"
	RatedMissouri  LimeState = "missouri"
)

// LimeStates lists them.
func LimeStates() []LimeState {
	return []LimeState{RatedIowa, RatedIllinois, RatedWisconsin, RatedMinnesota, RatedOhio, RatedNewYork, RatedKentucky, RatedIndiana, RatedKansas, RatedMissouri}
}

// Rating is how a state rates lime: by the share that passes each sieve, weighed, and by its purity.
type Rating struct {
	Weights map[int]float64 // by mesh: what each percent passing it adds
	Base    float64         // what all of the stone counts, % of it
	Index   string          // what the state calls the index
	Scale   float64         // from % to the state's own: 20 to lb a ton
	Unit    string
}

// size turns efficiencies of size classes between sieves into weights of what passes each: a percent
// that passes a finer sieve counts by that class, and no more by the coarser.
func size(mesh []int, efficiency []float64) map[int]float64 {
	out := map[int]float64{}
	coarser := 0.0
	for i, m := range mesh {
		out[m] = efficiency[i] - coarser
		coarser = efficiency[i]
	}
	return out
}

// PublishedRatings returns each state's. Sources: [source.LimeStateSieves], [source.LimeIllinoisENV],
// [source.LimeFineness], [source.LimeNewYork], [source.LimeRelative], [source.LimeRecalled].
func PublishedRatings() map[LimeState]Rating {
	eight2060 := size([]int{8, 20, 60}, []float64{0.2, 0.6, 1})
	const percent, perTon = "%", "lb/ton"
	return map[LimeState]Rating{
		RatedIowa:      {Weights: map[int]float64{4: 0.1, 8: 0.3, 60: 0.6}, Index: "effective calcium carbonate equivalent", Scale: 20, Unit: perTon},
		RatedIllinois:  {Weights: map[int]float64{8: 0.15, 30: 0.30, 60: 0.50}, Base: 5, Index: "effective neutralizing value of a year", Scale: 1, Unit: percent},
		RatedWisconsin: {Weights: eight2060, Index: "neutralizing index", Scale: 1, Unit: percent},
		RatedMinnesota: {Weights: eight2060, Index: "effective neutralizing power", Scale: 20, Unit: perTon},
		RatedOhio:      {Weights: eight2060, Index: "effective neutralizing power", Scale: 20, Unit: perTon},
		RatedNewYork:   {Weights: size([]int{20, 60, 100}, []float64{0.4, 0.8, 1}), Index: "effective neutralizing value", Scale: 1, Unit: percent},
		RatedKentucky:  {Weights: map[int]float64{10: 0.5, 50: 0.5}, Index: "relative neutralizing value", Scale: 1, Unit: percent},
		RatedIndiana:   {Weights: map[int]float64{8: 0.5, 60: 0.5}, Index: "relative neutralizing value", Scale: 1, Unit: percent},
		RatedKansas:    {Weights: map[int]float64{8: 0.5, 60: 0.5}, Index: "effective calcium carbonate", Scale: 1, Unit: percent},
		RatedMissouri:  {Weights: size([]int{8, 40, 60}, []float64{0.25, 0.6, 1}), Index: "effective neutralizing material", Scale: 8, Unit: perTon},
	}
}

// IllinoisFour is Illinois' value of four years. Source: [source.LimeIllinoisENV].
func IllinoisFour() Rating {
	return Rating{Weights: map[int]float64{8: 0.30, 30: 0.55, 60: 0}, Base: 15, Index: "effective neutralizing value of four years", Scale: 1, Unit: "%"}
}

// Sieves lists the meshes by which a state rates, coarse first.
func (r Rating) Sieves() []int { return slices.Sorted(maps.Keys(r.Weights)) }

// Of rates a material: passing is the percent that passes each of the state's sieves, cce its calcium
// carbonate equivalent in %, moisture its water in %. The value is in % for most states, in lb a ton for
// Iowa, Minnesota, Ohio and Missouri.
func (r Rating) Of(passing map[int]float64, cce, moisture float64) (float64, error) {
	if !(cce >= 20 && cce <= 180) || !(moisture >= 0 && moisture <= 60) {
		return 0, fmt.Errorf("purity %g %% and moisture %g %%: accepted 20 to 180 and 0 to 60", cce, moisture)
	}
	fineness, last := 0.0, 100.0
	for _, m := range r.Sieves() {
		p, ok := passing[m]
		if !ok {
			return 0, fmt.Errorf("this state rates by what passes %v mesh, and %d is not given", r.Sieves(), m)
		}
		if p < 0 || p > 100 {
			return 0, fmt.Errorf("%g %% passing %d mesh: accepted 0 to 100", p, m)
		}
		if p > last {
			return 0, fmt.Errorf("%g %% passing %d mesh is more than passes a coarser sieve, %g", p, m, last)
		}
		last = p
		fineness += r.Weights[m] * p
	}
	for m := range passing {
		if _, ok := r.Weights[m]; !ok {
			return 0, fmt.Errorf("%d mesh: this state rates by %v", m, r.Sieves())
		}
	}
	v := r.Scale * (r.Base + fineness) * cce / 100
	if r.Scale == 20 {
		v *= (100 - moisture) / 100 // a ton as it is sold
	}
	return v, nil
}

// IllinoisTypical are the values of the stone that Illinois' chart takes, of one year and of four.
// Source: [source.LimeIllinoisENV].
const (
	IllinoisTypical     = 46.35
	IllinoisTypicalFour = 67.5
)

var errNoRating = errors.New("no state rates lime so")

// Rate is [Rating.Of] by the state's name.
func Rate(state LimeState, passing map[int]float64, cce, moisture float64) (value float64, r Rating, err error) {
	r, ok := PublishedRatings()[state]
	if !ok {
		return 0, r, fmt.Errorf("%q: %w; accepted %v", state, errNoRating, LimeStates())
	}
	value, err = r.Of(passing, cce, moisture)
	return value, r, err
}
