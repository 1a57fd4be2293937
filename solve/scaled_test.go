package solve

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// mixed is a problem of 20 to 140 rows and 40 to 200 columns whose coefficients differ in size by twice as many powers
// of ten as decades says. No cost rewards going on for ever; a whole point satisfies every row but one in forty.
func mixed(r *rand.Rand, decades int) *Problem {
	n, m := 40+r.IntN(160), 20+r.IntN(120)
	p := Least()
	inside := make([]float64, n)
	for j := range n {
		low, high, cost := 0., math.Inf(1), float64(r.IntN(5))
		switch r.IntN(5) {
		case 0:
			high = float64(1 + r.IntN(9))
		case 1:
			low, cost = math.Inf(-1), 0
		case 2:
			low, high, cost = math.Inf(-1), float64(r.IntN(5)), -cost
		}
		inside[j] = max(low, min(high, float64(r.IntN(7)-2)))
		p.Column(fmt.Sprintf("c%d", j), low, high, cost)
	}
	for i := range m {
		var terms []Term
		sum := 0.
		for range 1 + r.IntN(8) {
			t := Term{Column(r.IntN(n)), float64(r.IntN(7)-3) * math.Pow(10, float64(r.IntN(2*decades+1)-decades))}
			sum += t.Times * inside[t.Column]
			terms = append(terms, t)
		}
		low, high := math.Inf(-1), sum
		switch r.IntN(4) {
		case 0:
			low = sum
		case 1:
			low, high = sum, math.Inf(1)
		case 2:
			low = sum - 5
		}
		if r.IntN(40) == 0 {
			low, high = low+0.5, high+0.5
		}
		p.Between(fmt.Sprintf("r%d", i), low, high, terms...)
	}
	return p
}

// TestCoefficientsOfVeryDifferentSizeKeepTheirEvidence verifies answers in the problem's own terms, where a price
// that scaling made small counts in full.
func TestCoefficientsOfVeryDifferentSizeKeepTheirEvidence(t *testing.T) {
	seen := map[Status]int{}
	for k := range 300 {
		p := mixed(rand.New(rand.NewPCG(uint64(k), 5)), 2)
		a, err := Solve(t.Context(), p, Limits{})
		if err != nil {
			t.Fatal(err)
		}
		if err := Check(p, a, 1e-7); err != nil || a.Status == Stopped || a.Status == Unbounded {
			t.Errorf("problem %d: %s (%v), evidence: %v", k, a.Status, a.Why, err)
		}
		seen[a.Status]++
	}
	if seen[Optimal] < 100 || seen[Infeasible] < 20 {
		t.Errorf("too few of a kind: %v", seen)
	}
}

// TestNumbersBeyondHelpAreNeverToldAsUnbounded: nothing in these has no end, and some come out so in floating point.
func TestNumbersBeyondHelpAreNeverToldAsUnbounded(t *testing.T) {
	for k := range 300 {
		p := mixed(rand.New(rand.NewPCG(uint64(k), 5)), 4)
		if a, err := Solve(t.Context(), p, Limits{}); err != nil || a.Status == Unbounded {
			t.Errorf("problem %d: %v, %v", k, a.Status, err)
		}
	}
}
