package count

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Part is a share of things that were looked at one by one: stems with feeding, say.
type Part struct {
	Found, Looked float64
	Share         float64
	Low, High     float64 // 95 % score interval, [source.WilsonInterval]
}

// Shares works out the share of stems found so, of those looked at.
func Shares(found, looked float64) (Part, error) {
	if !(looked >= 1) || looked != math.Floor(looked) || math.IsInf(looked, 1) {
		return Part{}, fmt.Errorf("%g looked at: want a whole number, 1 or more", looked)
	}
	if !(found >= 0 && found <= looked) || found != math.Floor(found) {
		return Part{}, fmt.Errorf("%g found of %g looked at: want a whole number from 0 to %g", found, looked, looked)
	}
	p := Part{Found: found, Looked: looked, Share: found / looked}
	p.Low, p.High = Wilson(p.Share, looked)
	return p, nil
}

// ChanceBelow is the chance that the field's own share is below c, with Jeffreys' prior.
func (p Part) ChanceBelow(c float64) float64 {
	switch {
	case c <= 0:
		return 0
	case c >= 1:
		return 1
	}
	return distuv.Beta{Alpha: p.Found + 0.5, Beta: p.Looked - p.Found + 0.5}.CDF(c)
}

// Wilson is the 95 % score interval of a share seen in n cases, which need not be whole: weighed cases
// count as many as their effective size. n of 0 knows nothing: 0 to 1. Source: [source.WilsonInterval].
func Wilson(share, n float64) (low, high float64) {
	if n == 0 {
		return 0, 1
	}
	const z = 1.959963984540054
	mid := (share + z*z/(2*n)) / (1 + z*z/n)
	half := z / (1 + z*z/n) * math.Sqrt(share*(1-share)/n+z*z/(4*n*n))
	return max(0, mid-half), min(1, mid+half)
}
