package forage

import (
	"fmt"
	"math"
)

// Agreement is how predictions stood against the laboratory, with d = lab - predicted.
type Agreement struct {
	N         int
	Bias      float64 // mean of d
	RMSE      float64 // root of the mean of d squared
	SEP       float64 // standard deviation of d around the bias
	Slope     float64 // of lab on predicted
	Intercept float64
	R2        float64
	CCC       float64 // concordance: 1 where every pair lies on the line lab = predicted
	Parts     ErrorParts
}

// ErrorParts is what the mean square error is made of: a constant, a slope that is not 1, and the
// scatter that no line takes away. They add up to RMSE squared. Source: [source.Agreement].
type ErrorParts struct{ Bias, Slope, Scatter float64 }

// mostly is the share of the square error from which a part is said to be nearly all of it (choice).
const mostly = 0.75

// String says which part is the most of it.
func (p ErrorParts) String() string {
	total := p.Bias + p.Slope + p.Scatter
	switch {
	case total == 0:
		return "there is no error"
	case p.Bias >= mostly*total:
		return "nearly all of the error is a constant: adding it to the prediction is right"
	case p.Slope >= mostly*total:
		return "nearly all of the error is a wrong slope: a constant cannot mend it"
	case p.Scatter >= mostly*total:
		return "nearly all of the error is scatter, which no correction takes away"
	}
	return "the error is part constant, part scatter: a correction takes some of it away"
}

// Agree compares predictions with laboratory values of the same samples, in the same order.
// Source: [source.Agreement].
func Agree(predicted, lab []float64) (Agreement, error) {
	if len(predicted) != len(lab) {
		return Agreement{}, fmt.Errorf("%d predicted and %d laboratory values: want them in pairs", len(predicted), len(lab))
	}
	if len(predicted) < 3 {
		return Agreement{}, fmt.Errorf("%d pairs: want at least 3 to tell a bias from chance", len(predicted))
	}
	n := float64(len(predicted))
	var meanP, meanL, sumD2 float64
	for i := range predicted {
		meanP += predicted[i] / n
		meanL += lab[i] / n
		d := lab[i] - predicted[i]
		sumD2 += d * d
	}
	bias := meanL - meanP
	var varP, varL, cov, sumAround float64
	for i := range predicted {
		p, l := predicted[i]-meanP, lab[i]-meanL
		varP += p * p / n
		varL += l * l / n
		cov += p * l / n
		sumAround += (l - p) * (l - p)
	}
	if varP == 0 || varL == 0 {
		return Agreement{}, fmt.Errorf("all predicted or all laboratory values are the same: no line can be drawn through them")
	}
	slope := cov / varP
	r := cov / math.Sqrt(varP*varL)
	off := math.Sqrt(varP) - r*math.Sqrt(varL)
	return Agreement{
		Parts: ErrorParts{Bias: bias * bias, Slope: off * off, Scatter: (1 - r*r) * varL},
		N:     len(predicted), Bias: bias, RMSE: math.Sqrt(sumD2 / n), SEP: math.Sqrt(sumAround / (n - 1)),
		Slope: slope, Intercept: meanL - slope*meanP, R2: cov * cov / (varP * varL),
		CCC: 2 * cov / (varP + varL + bias*bias),
	}, nil
}

// Shrink draws the mean difference of n samples towards zero, the more the fewer they are: sw is the
// standard deviation of a difference within a farm, cutting and product, sb that of the true bias
// between them. The result is the correction to use and its standard deviation.
// Source: [source.ShrunkBias].
func Shrink(meanDifference float64, n int, sw, sb float64) (bias, sd float64) {
	k := (sw / sb) * (sw / sb)
	return float64(n) * meanDifference / (float64(n) + k), 1 / math.Sqrt(float64(n)/(sw*sw)+1/(sb*sb))
}
