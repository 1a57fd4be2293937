package budget

import (
	"fmt"
	"math"
)

// Risked is a chain of stands each of which may be killed in any winter.
type Risked struct {
	Worth   []float64 // of a stand at the start of its year at each age, and all that follow
	Start   float64   // of beginning the chain: the first less the cost of a stand
	Annuity float64   // Start as an equal sum a year
	Best    int       // index of the age after which to replace
}

// WithKill works out when to replace a stand that costs cost to seed, brings net[a] at the end of each
// year and is lost after harvest with a chance kill a year, then replaced at once:
//
//	V(a) = [net(a) + (1-k) max(V(a+1), W) + k W]/(1+r),  W = V(1) - cost
//
// The last age must be replaced. Replacing after n years makes V(1) a straight line in W, so each n is
// solved exactly and the best taken. kill 0 gives the chain of [EqualAnnual]. Source: [source.KillRisk].
func WithKill(net []float64, cost, rate, kill float64) (Risked, error) {
	if err := checkYears(net, rate); err != nil {
		return Risked{}, err
	}
	switch {
	case rate == 0:
		return Risked{}, fmt.Errorf("interest 0: a chain for ever has no worth then; accepted over 0 to %d", mostRate)
	case !(kill >= 0 && kill <= 1):
		return Risked{}, fmt.Errorf("chance of a kill %g a year: accepted 0 to 1", kill)
	case !(cost >= 0) || math.IsInf(cost, 1):
		return Risked{}, fmt.Errorf("cost of a stand %g: accepted 0 and over", cost)
	}
	down := 1 / (1 + rate)
	r := Risked{Start: math.Inf(-1)}
	for n := range net {
		constant, slope := 0., 1. // of V(a+1) in W; after the last year it is W itself
		for a := n; a >= 0; a-- {
			constant, slope = down*(net[a]+(1-kill)*constant), down*((1-kill)*slope+kill)
		}
		if w := (constant - cost) / (1 - slope); w > r.Start {
			r.Start, r.Best = w, n
		}
	}
	r.Annuity = rate * r.Start
	r.Worth = make([]float64, len(net))
	next := math.Inf(-1)
	for a := len(net) - 1; a >= 0; a-- {
		next = down * (net[a] + (1-kill)*max(next, r.Start) + kill*r.Start)
		r.Worth[a] = next
	}
	return r, nil
}

// KeepMargin is what a thin stand brings next year, $ an acre: potential local (price - harvest) - fixed,
// with the potential in tons DM/ac and local the share of it that the place gets. Source:
// [source.KeepMargin].
func KeepMargin(potential, local, price, harvest, fixed float64) float64 {
	return potential*local*(price-harvest) - fixed
}

// Flows is the worth of sums at the ends of years, the first now, and the rate at which they are worth
// nothing: NaN where the flows do not turn once from cost to return. Source: [source.Annuity].
func Flows(cash []float64, rate float64) (npv, irr float64, err error) {
	if err := checkYears(cash, rate); err != nil {
		return 0, 0, err
	}
	return worthAt(cash, rate), returnOn(cash), nil
}

func worthAt(cash []float64, rate float64) float64 {
	sum := 0.0
	for i, c := range cash {
		sum += c * math.Pow(1+rate, -float64(i))
	}
	return sum
}

func returnOn(cash []float64) float64 {
	turns, last := 0, 0.0
	for _, c := range cash {
		if c != 0 {
			if last != 0 && (c > 0) != (last > 0) {
				turns++
			}
			last = c
		}
	}
	low, high := -0.99, 10.
	if turns != 1 || last < 0 || worthAt(cash, low) < 0 || worthAt(cash, high) > 0 {
		return math.NaN()
	}
	for range 200 { // worth falls with the rate: halve until the digits end
		if middle := (low + high) / 2; worthAt(cash, middle) > 0 {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2
}
