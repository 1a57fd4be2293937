package frost

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Normals are a station's printed 10, 50 and 90 % dates as day numbers, 10 % the earliest for a fall
// event. For the last freeze of spring, where 10 % is the chance of a later one, hand over the days of
// 90, 50 and 10 % in this order and ask for 1 - p.
type Normals struct{ P10, P50, P90 float64 }

// Quantile is the day at chance p, 0 < p < 1, of the curve through the three dates: half a normal
// curve on either side of the median. Printed tables are normal curves, but newer normals are not
// quite symmetric and a curve through 10 and 90 % alone misses their median by up to 3 days.
// Source: [source.NormalsCurve].
func (n Normals) Quantile(p float64) (float64, bool) {
	if !(p > 0 && p < 1) || !(n.P10 <= n.P50 && n.P50 <= n.P90) {
		return math.NaN(), false
	}
	side := n.P90 - n.P50
	if p < 0.5 {
		side = n.P50 - n.P10
	}
	return n.P50 + side*distuv.UnitNormal.Quantile(p)/distuv.UnitNormal.Quantile(0.9), true
}
