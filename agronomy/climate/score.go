package climate

import (
	"math"
	"slices"

	"haywarden/agronomy/count"
)

// CRPS is how far a forecast given as weighted values lay from what came, in the values' own unit: the
// mean distance to what came, less half the mean distance of the values to each other. 0 is perfect;
// for a single value it is the plain error. Source: [source.EnsembleScore].
func CRPS(values, weights []float64, came float64) float64 {
	type point struct{ v, w float64 }
	points := make([]point, len(values))
	var total float64
	for i, v := range values {
		w := 1.0
		if weights != nil {
			w = weights[i]
		}
		points[i] = point{v, w}
		total += w
	}
	slices.SortFunc(points, func(a, b point) int {
		if a.v < b.v {
			return -1
		}
		return 1
	})
	var to, between, below, belowSum float64
	for _, p := range points {
		w := p.w / total
		to += w * math.Abs(p.v-came)
		// Pairs with all lower values, each counted once.
		between += w * (p.v*below - belowSum)
		below += w
		belowSum += w * p.v
	}
	return to - between
}

// Wilson is the 95 % interval of a share of k in n. n of 0 knows nothing: 0 to 1. Source:
// [source.WilsonInterval].
func Wilson(k, n int) (low, high float64) {
	return WilsonShare(float64(k)/float64(n), float64(n))
}

// WilsonShare is [Wilson] of a share seen in n cases, which need not be whole: weighed cases count as
// many as their effective size. Source: [source.WilsonInterval].
func WilsonShare(p, n float64) (low, high float64) {
	return count.Wilson(p, n)
}
