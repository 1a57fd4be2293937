package frost

import (
	"math"
	"slices"
)

// The rule by which a year with missing days still counts. Source: [source.FreezeGap].
const (
	nearF       = 5.4 // F above the threshold (3 C): a missing day between two this cold could have been it
	mostMissing = 0.1 // share of the season's days
)

// FirstAtOrBelow finds the first day of a fall whose lowest temperature, F, is at or below a
// threshold. tmin is 1 August to 31 December of one year, NaN where missing; i counts from its start.
//
// certain says whether the answer, found or not, can be leaned on: under a tenth of the days are
// missing, and none before the day found could have been it, having a warm neighbour on one side at
// least. Years that are not certain stay out of chances. Source: [source.FreezeGap].
func FirstAtOrBelow(tmin []float64, threshold float64) (i int, found, certain bool) {
	i = slices.IndexFunc(tmin, func(t float64) bool { return t <= threshold })
	found = i >= 0
	before := len(tmin)
	if found {
		before = i
	}
	return i, found, fewMissing(tmin) && !couldBeIt(tmin, 0, before, threshold)
}

// LastAtOrBelow finds the last day of a spring whose lowest temperature, F, is at or below a
// threshold. tmin is 1 January to 31 July of one year; the rest is as in [FirstAtOrBelow].
func LastAtOrBelow(tmin []float64, threshold float64) (i int, found, certain bool) {
	i = len(tmin) - 1
	for i >= 0 && !(tmin[i] <= threshold) {
		i--
	}
	return i, i >= 0, fewMissing(tmin) && !couldBeIt(tmin, i+1, len(tmin), threshold)
}

func fewMissing(tmin []float64) bool {
	missing := 0
	for _, t := range tmin {
		if math.IsNaN(t) {
			missing++
		}
	}
	return len(tmin) > 0 && float64(missing) < mostMissing*float64(len(tmin))
}

// couldBeIt reports whether a missing day of tmin[from:to] has no warm neighbour. The neighbours are
// the nearest known days; one that does not exist proves nothing.
func couldBeIt(tmin []float64, from, to int, threshold float64) bool {
	for i := from; i < to; i++ {
		if !math.IsNaN(tmin[i]) {
			continue
		}
		if !warmAt(tmin, i, -1, threshold) && !warmAt(tmin, i, 1, threshold) {
			return true
		}
	}
	return false
}

// warmAt reports whether the nearest known day from i on, going by step, is clearly above threshold.
func warmAt(tmin []float64, i, step int, threshold float64) bool {
	for i >= 0 && i < len(tmin) && math.IsNaN(tmin[i]) {
		i += step
	}
	return i >= 0 && i < len(tmin) && tmin[i] > threshold+nearF
}
