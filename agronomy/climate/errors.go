package climate

import (
	"errors"
	"fmt"
	"slices"
)

var (
	errNoLine  = errors.New("x, y: no line can be fitted: want at least three pairs whose values differ")
	errNoGamma = errors.New("amounts: no distribution can be fitted: want at least three amounts that differ")
	errNoTrend = errors.New("values: want at least four years")
	errNoShare = errors.New("k, n: want n of 1 or more and k of no more than n")
)

// eachYearOnce refuses a year given twice: between its values the slope has no end.
func eachYearOnce(years []float64) error {
	sorted := slices.Sorted(slices.Values(years))
	for i, y := range sorted {
		if i > 0 && y == sorted[i-1] {
			return fmt.Errorf("years: %g is given twice; want each year once", y)
		}
	}
	return nil
}

func sameLength(a, b string, x, y []float64) error {
	if len(x) == len(y) {
		return nil
	}
	return fmt.Errorf("%s has %d values and %s %d: want one for each", a, len(x), b, len(y))
}
