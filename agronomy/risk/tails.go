package risk

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// Outcomes is what a choice may bring, $ an acre, with chances that add to 1.
type Outcomes struct{ values, chances []float64 } // worst first

// NewOutcomes checks outcomes and their chances and puts the worst first.
func NewOutcomes(values, chances []float64) (Outcomes, error) {
	if len(values) == 0 || len(values) != len(chances) {
		return Outcomes{}, fmt.Errorf("%d outcomes and %d chances: want one chance for each, and one at least", len(values), len(chances))
	}
	if !finite(values...) {
		return Outcomes{}, fmt.Errorf("outcomes %v: want finite numbers", values)
	}
	if err := whole(chances); err != nil {
		return Outcomes{}, err
	}
	order := make([]int, len(values))
	for i := range order {
		order[i] = i
	}
	sum := 0.0
	for _, c := range chances {
		sum += c
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(values[i], values[j]) })
	o := Outcomes{}
	for _, i := range order {
		o.values = append(o.values, values[i])
		o.chances = append(o.chances, chances[i]/sum) // a decimal's rounding is shared out
	}
	return o, nil
}

// Mean is the worth to expect.
func (o Outcomes) Mean() float64 { return weighed(o.values, o.chances) }

// SD is the standard deviation of the outcomes.
func (o Outcomes) SD() float64 {
	mean, sum := o.Mean(), 0.0
	for i, v := range o.values {
		sum += o.chances[i] * (v - mean) * (v - mean)
	}
	return math.Sqrt(sum)
}

// Worst is the mean of the worst outcomes that together have the chance tail, the one at its edge
// taken in part. At a tail of 1 it is the mean. Source: [source.TailMean].
func (o Outcomes) Worst(tail float64) (float64, error) {
	if !(tail > 0 && tail <= 1) {
		return 0, fmt.Errorf("tail %g: accepted over 0 to 1, such as 0.2 for the worst 2 years in 10", tail)
	}
	left, sum := tail, 0.0
	for i, v := range o.values {
		part := min(o.chances[i], left)
		sum += part * v
		if left -= part; left <= 0 {
			break
		}
	}
	return sum / (tail - max(left, 0)), nil // left over only by rounding
}

// Over is how two choices stand whatever the taste for risk.
type Over string

// The ways in which two choices can stand.
const (
	First   Over = "the first is never worse"
	Second  Over = "the second is never worse"
	Alike   Over = "alike"
	Neither Over = "neither"
)

// Dominates compares by chances of falling short (first order: whoever likes more prefers it) and by
// how far short they fall (second order: whoever likes more and shuns risk prefers it). First order
// implies second. Source: [source.StochasticDominance].
func Dominates(a, b Outcomes) (firstOrder, secondOrder Over) {
	points := slices.Concat(a.values, b.values)
	firstOrder = compared(a, b, points, Outcomes.below)
	if firstOrder != Neither {
		return firstOrder, firstOrder
	}
	return firstOrder, compared(a, b, points, Outcomes.shortfall)
}

// hair is what two sums of the same numbers in another order may differ by.
const hair = 1e-9

// compared compares a measure of which less is better at every point where either can change.
func compared(a, b Outcomes, points []float64, measure func(Outcomes, float64) float64) Over {
	aWorse, bWorse := false, false
	for _, t := range points {
		switch d := measure(a, t) - measure(b, t); {
		case d > hair*max(1, math.Abs(t)):
			aWorse = true
		case d < -hair*max(1, math.Abs(t)):
			bWorse = true
		}
	}
	switch {
	case aWorse && bWorse:
		return Neither
	case aWorse:
		return Second
	case bWorse:
		return First
	}
	return Alike
}

// below is the chance of t or less.
func (o Outcomes) below(t float64) float64 {
	sum := 0.0
	for i, v := range o.values {
		if v <= t {
			sum += o.chances[i]
		}
	}
	return sum
}

// shortfall is the mean amount by which t is missed.
func (o Outcomes) shortfall(t float64) float64 {
	sum := 0.0
	for i, v := range o.values {
		sum += o.chances[i] * max(0, t-v)
	}
	return sum
}
