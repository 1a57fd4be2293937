package budget

import (
	"errors"
	"fmt"
	"math"
)

// Life is a stand's worth by the age at which it is ended. Index 0 is age 1, the seeding year.
type Life struct {
	NPV      []float64 // of ending at the age
	EAE      []float64 // the same as an equal sum a year
	Marginal []float64 // what reaching the age adds at its end, to lay beside the best EAE; NaN at age 1
	Best     int       // index of the age with the highest EAE
}

// BestAge is the age, counted from 1.
func (l Life) BestAge() int { return l.Best + 1 }

// leastRate is interest so small that a chain for ever has no worth one could tell.
const leastRate = 1e-6

// Chain is the worth today of such stands one after another for ever: EAE/rate. Without interest it
// is NaN: it has no end.
func (l Life) Chain(rate float64) float64 {
	if rate < leastRate {
		return math.NaN()
	}
	return l.EAE[l.Best] / rate
}

const (
	mostYears = 60
	mostRate  = 1
)

// EqualAnnual works out when to end a stand that brings margins[a] at the end of each year and leaves
// salvage[a] when ended then, after an outlay at the start:
//
//	NPV(n) = sum margins/(1+r)^a + salvage(n)/(1+r)^n - outlay
//	EAE(n) = NPV(n) r / (1 - (1+r)^-n)
//
// The best age has the highest EAE, not the highest NPV: the chain is of like stands, one after the
// other. Marginal(n) = margin(n) + salvage(n) - (1+r) salvage(n-1), and EAE rises to n exactly when
// Marginal(n) is over EAE(n-1). Source: [source.EqualAnnual].
func EqualAnnual(margins, salvage []float64, outlay, rate float64) (Life, error) {
	if err := checkYears(margins, rate); err != nil {
		return Life{}, err
	}
	if len(salvage) != len(margins) {
		return Life{}, fmt.Errorf("%d salvage values for %d years: want one for each age", len(salvage), len(margins))
	}
	var l Life
	sum, left := -outlay, math.NaN() // left by ending it a year earlier
	for i, m := range margins {
		n := float64(i + 1)
		down := math.Pow(1+rate, -n)
		sum += m * down
		npv := sum + salvage[i]*down
		l.NPV = append(l.NPV, npv)
		l.EAE = append(l.EAE, npv*Recovery(rate, n))
		l.Marginal = append(l.Marginal, m+salvage[i]-(1+rate)*left)
		left = salvage[i]
		if l.EAE[i] > l.EAE[l.Best] {
			l.Best = i
		}
	}
	return l, nil
}

func checkYears(list []float64, rate float64) error {
	switch {
	case len(list) == 0:
		return errors.New("no year is given: want a margin for each age from the seeding year on")
	case len(list) > mostYears:
		return fmt.Errorf("%d years: accepted up to %d", len(list), mostYears)
	case !(rate >= 0 && rate <= mostRate):
		return fmt.Errorf("interest %g: accepted 0 to %d, such as 0.05", rate, mostRate)
	}
	for i, v := range list {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return fmt.Errorf("year %d is %g: want a number", i+1, v)
		}
	}
	return nil
}
