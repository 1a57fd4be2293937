package frost

import "math"

// RestLimits bound the heat after a fall cut, C-days above 5 C to the killing freeze: with enough,
// alfalfa refills its roots; with little, it has hardly drawn on them. Between the two the cut is paid
// for in spring. Source: [source.FallRestHeat].
//
// The limits are C-days. 500 and 200 F-days in older leaflets are a slip of units; in F-days above
// 41 F they are 900 and 360.
type RestLimits struct{ Enough, Little float64 }

// PublishedRest returns the published limits.
func PublishedRest() RestLimits { return RestLimits{Enough: 500, Little: 200} }

// Rest is how past years would have treated a fall cut, as shares of them.
type Rest struct {
	Over    float64 // enough heat was left
	Under   float64 // so little that nothing was drawn
	Between float64 // the risk of the cut
}

// RestRisk sorts the heat that was left after a day in each past year. NaN throughout where no year is
// given or one is missing. Source: [source.FallRestRisk].
func RestRisk(heatAfter []float64, enough, little float64) Rest {
	var over, under, between float64
	for _, h := range heatAfter {
		switch {
		case math.IsNaN(h):
			return Rest{math.NaN(), math.NaN(), math.NaN()}
		case h >= enough:
			over++
		case h <= little:
			under++
		default:
			between++
		}
	}
	n := float64(len(heatAfter)) // none: 0/0 is NaN, as said
	return Rest{over / n, under / n, between / n}
}
