package climate

import (
	"errors"
	"fmt"
)

var (
	errNoLine  = errors.New("x, y: no line can be fitted: want at least three pairs whose values differ")
	errNoGamma = errors.New("amounts: no distribution can be fitted: want at least three amounts that differ")
	errNoTrend = errors.New("values: want at least four years")
	errNoShare = errors.New("k, n: want n of 1 or more and k of no more than n")
)

func sameLength(a, b string, x, y []float64) error {
	if len(x) == len(y) {
		return nil
	}
	return fmt.Errorf("%s has %d values and %s %d: want one for each", a, len(x), b, len(y))
}
