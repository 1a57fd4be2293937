package climate

import "math"

// Gamma is the distribution of a wet day's rain. Source: [source.Generator].
type Gamma struct{ Alpha, Beta float64 }

// FitGamma fits it to amounts above zero by Thom's estimate:
//
//	A = ln(mean) - mean(ln x),   alpha = (1 + sqrt(1 + 4A/3))/(4A),   beta = mean/alpha
//
// Fewer than three amounts, or all alike, give NaN.
func FitGamma(x []float64) Gamma {
	var n, sum, logs float64
	for _, v := range x {
		if v > 0 {
			n++
			sum += v
			logs += math.Log(v)
		}
	}
	mean := sum / n
	a := math.Log(mean) - logs/n
	if n < 3 || !(a > 0) {
		return Gamma{math.NaN(), math.NaN()}
	}
	alpha := (1 + math.Sqrt(1+4*a/3)) / (4 * a)
	return Gamma{alpha, mean / alpha}
}

// Residuals carries yesterday's standardised residuals of highest and lowest temperature and sunshine
// to today's: chi' = A chi + B e, with e standard normal. Source: [source.Generator].
type Residuals struct{ A, B [3][3]float64 }

// PublishedResiduals returns the printed matrices.
func PublishedResiduals() Residuals {
	return Residuals{
		A: [3][3]float64{{0.567, 0.086, -0.002}, {0.253, 0.504, -0.050}, {-0.006, -0.039, 0.244}},
		B: [3][3]float64{{0.781, 0, 0}, {0.328, 0.637, 0}, {0.238, -0.341, 0.873}},
	}
}

// Step is one day.
func (r Residuals) Step(chi, e [3]float64) [3]float64 {
	var out [3]float64
	for i := range out {
		for j := range chi {
			out[i] += r.A[i][j]*chi[j] + r.B[i][j]*e[j]
		}
	}
	return out
}
