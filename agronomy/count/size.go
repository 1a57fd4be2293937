package count

import (
	"fmt"
	"math"
)

// Model says how the variance between spots follows their mean. Pests sit in clumps, so that spots
// differ by more than chance alone would make them.
type Model interface {
	// Variance is the variance between spots of a mean above 0.
	Variance(mean float64) float64
}

// Poisson is chance alone: the variance is the mean. Real counts seldom scatter so little: what it
// asks for is the least.
type Poisson struct{}

// NegativeBinomial is clumping of one degree, K above 0: the smaller, the more clumped. The variance
// is mean + mean^2/K.
type NegativeBinomial struct{ K float64 }

// PowerLaw is clumping that changes with the mean, A above 0: the variance is A mean^B. Source:
// [source.PowerLaw].
type PowerLaw struct{ A, B float64 }

// Variance is the mean itself.
func (Poisson) Variance(mean float64) float64 { return mean }

// Variance is mean + mean^2/K.
func (m NegativeBinomial) Variance(mean float64) float64 { return mean + mean*mean/m.K }

// Variance is A mean^B.
func (m PowerLaw) Variance(mean float64) float64 { return m.A * math.Pow(mean, m.B) }

// Placeholder coefficients: no published one for leafhopper sweeps or weevil larvae was found, only that
// counts of leafhopper nymphs and eggs fit the negative binomial ([source.HopperClumps]). Whoever shows
// what they lead to says that they are placeholders. Source: [source.ClumpPlaceholder].
const (
	PlaceholderK = 2.0
	PlaceholderA = 1.5
	PlaceholderB = 1.4
)

const (
	// FieldPrecision is the standard error over the mean that field decisions are commonly planned for.
	// Source: [source.PrecisionPair].
	FieldPrecision = 0.25
	// LeastSpots is the fewest spots that a mean is leaned on with (choice).
	LeastSpots = 5
)

// Spots is how many spots bring the standard error down to a share of the mean: variance/(mean
// precision)^2, not rounded. Walk the next whole number, [LeastSpots] at least. Source:
// [source.SpotsForPrecision].
func Spots(mean float64, m Model, precision float64) (float64, error) {
	if !(mean > 0) || !(precision > 0) || math.IsInf(mean, 1) {
		return 0, fmt.Errorf("mean %g and precision %g: both must be over 0", mean, precision)
	}
	if err := sound(m); err != nil {
		return 0, err
	}
	n := m.Variance(mean) / mean / mean / precision / precision
	if math.IsInf(n, 0) || math.IsNaN(n) {
		return 0, fmt.Errorf("a mean of %g with this variance asks for more spots than can be counted", mean)
	}
	return n, nil
}

// sound refuses coefficients that no counts can have.
func sound(m Model) error {
	switch m := m.(type) {
	case NegativeBinomial:
		if !(m.K > 0) {
			return fmt.Errorf("k %g: it must be over 0", m.K)
		}
	case PowerLaw:
		if !(m.A > 0) || math.IsNaN(m.B) {
			return fmt.Errorf("a %g, b %g: a must be over 0", m.A, m.B)
		}
	}
	return nil
}
