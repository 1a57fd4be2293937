package count

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Rate is a mean of whole counts that scatter as chance alone scatters them (Poisson): few plants or
// insects, far apart. Where spots differ by more than that, the variance being well above the mean,
// it is too narrow and [Means] is the answer. Source: [source.PoissonRate].
type Rate struct {
	Total float64 // counted in all
	N     int     // spots
	Mean  float64 // a spot
	Low   float64 // exact 95 % limits: chi-square(0.025, 2 Total)/2/N
	High  float64 // chi-square(0.975, 2 Total + 2)/2/N
}

// Totals works out the rate of whole counts with its exact interval. Counting nothing has an interval
// too: its upper limit is what may still be there.
func Totals(x []float64) (Rate, error) {
	if len(x) == 0 {
		return Rate{}, fmt.Errorf("no count is given: at least one spot is wanted")
	}
	r := Rate{N: len(x)}
	for i, v := range x {
		if !(v >= 0) || v != math.Floor(v) || math.IsInf(v, 1) {
			return Rate{}, fmt.Errorf("count %d is %g: want a whole number, 0 or more", i+1, v)
		}
		r.Total += v
	}
	n := float64(r.N)
	r.Mean = r.Total / n
	if r.Total > 0 {
		r.Low = distuv.ChiSquared{K: 2 * r.Total}.Quantile(1-upperTail) / 2 / n
	}
	r.High = distuv.ChiSquared{K: 2*r.Total + 2}.Quantile(upperTail) / 2 / n
	return r, nil
}

// ChanceBelow is the chance that the field's own rate is below c, with Jeffreys' prior: the gamma
// distribution of shape Total + 0.5 and rate N, up to c.
func (r Rate) ChanceBelow(c float64) float64 {
	if c <= 0 {
		return 0
	}
	return distuv.Gamma{Alpha: r.Total + 0.5, Beta: float64(r.N)}.CDF(c)
}
