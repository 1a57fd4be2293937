package forage

import (
	"fmt"
	"math"
)

// Combine joins estimates of one quantity into one, each weighed by how sure it is. Values stand
// with their standard deviations; corr is the correlation of the errors of any two of them, 0 where
// they are independent, which gives the inverse-variance mean. With a correlation it is the
// generalised least-squares mean: an estimate much less sure than the others may then be weighed
// negatively, and the answer lie outside the values. Source: [source.InverseVar].
func Combine(values, sds []float64, corr float64) (value, sd float64, err error) {
	n := len(values)
	switch {
	case n == 0:
		return 0, 0, fmt.Errorf("no estimates to combine: want at least one value")
	case len(sds) != n:
		return 0, 0, fmt.Errorf("%d values and %d standard deviations: want one for each value", n, len(sds))
	case !(corr >= 0 && corr <= highestCorr):
		return 0, 0, fmt.Errorf("correlation %g; accepted 0 to %g", corr, highestCorr)
	}
	sumInverse := 0.0
	for i, s := range sds {
		if !(s > 0) || math.IsInf(s, 1) {
			return 0, 0, fmt.Errorf("standard deviation %d is %g; it must be over 0", i+1, s)
		}
		if math.IsNaN(values[i]) || math.IsInf(values[i], 0) {
			return 0, 0, fmt.Errorf("value %d is %g; want a number", i+1, values[i])
		}
		sumInverse += 1 / s
	}
	// The inverse of the matrix of equal correlations is (I - shared*J) / (1 - corr), J being all ones.
	shared := corr / (1 + float64(n-1)*corr)
	var total, sum float64
	for i, s := range sds {
		w := (1/s - shared*sumInverse) / (1 - corr) / s
		total += w
		sum += w * values[i]
	}
	return sum / total, math.Sqrt(1 / total), nil
}

// highestCorr keeps the estimates apart: at a correlation of 1 they differ by a constant factor only
// and no mean is defined.
const highestCorr = 0.99
