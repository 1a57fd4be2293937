package solve

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// drawn takes a problem's numbers from rapid, which shrinks what fails.
type drawn struct{ *rapid.T }

func (d drawn) upTo(n int) int { return rapid.IntRange(0, n-1).Draw(d.T, "n") }
func (d drawn) part() float64  { return rapid.Float64Range(0, 1).Draw(d.T, "part") }

// asked solves without a *testing.T.
func asked(t *rapid.T, p *Problem) *Answer {
	a, err := Solve(t.Context(), p, Limits{})
	if err != nil {
		t.Fatal(err)
	}
	if errors.Is(a.Why, errNumbers) { // some ten thousand draws hold one that is all but singular
		t.Skip("stopped, which claims nothing")
	}
	if a.Status == Stopped {
		t.Fatalf("stopped: %v\n%s", a.Why, written(p))
	}
	return a
}

func TestEveryAnswerCarriesEvidenceThatHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyProblem(drawn{t}, false)
		a := asked(t, p)
		if err := Check(p, a, 1e-6); err != nil {
			t.Fatalf("%s: %v\n%s", a.Status, err, written(p))
		}
	})
}

// worse returns by how much b is worse than a for the problem, for their size.
func worse(p *Problem, a, b float64) float64 {
	return p.sense * (b - a) / max(1, math.Abs(a), math.Abs(b))
}

// TestNoPointBeatsWhatThePricesAllow is weak duality: the bound of rows and columns weighted by their prices
// holds for every point that satisfies them, here for the best ones under other costs.
func TestNoPointBeatsWhatThePricesAllow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawn{t}
		p := anyProblem(d, false)
		a := asked(t, p)
		if a.Status != Optimal {
			t.Skip("no prices")
		}
		bound, other := 0., p.Relaxed()
		weigh := func(price, low, high float64) {
			at := low
			if p.sense*price < 0 {
				at = high
			}
			if !math.IsInf(at, 0) { // Check refuses a price that counts on a side without a bound
				bound += price * at
			}
		}
		for i, r := range p.rows {
			weigh(a.Prices[i], r.low, r.high)
		}
		for j, c := range p.columns {
			weigh(a.Reduced[j], c.low, c.high)
			other.columns[j].cost = float64(d.upTo(7) - 3)
		}
		b := asked(t, other)
		if !b.Found {
			t.Fatalf("a point was found, and under other costs it is %s", b.Status)
		}
		value := 0.
		for j, c := range p.columns {
			value += c.cost * b.X[j]
		}
		if worse(p, bound, value) < -1e-6 {
			t.Fatalf("a point comes to %g, and the prices allow %g at best", value, bound)
		}
	})
}

func TestAFurtherRowNeverImproves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawn{t}
		p := anyProblem(d, false)
		a := asked(t, p)
		if a.Status == Unbounded {
			t.Skip("nothing to compare with")
		}
		var terms []Term
		for j := range p.Columns() {
			terms = append(terms, Term{Column(j), float64(d.upTo(7) - 3)})
		}
		p.AtMost("further", float64(d.upTo(9)-4), terms...)
		switch b := asked(t, p); {
		case a.Status == Infeasible && b.Status != Infeasible:
			t.Fatalf("a further row made it %s", b.Status)
		case a.Status == Optimal && b.Status == Unbounded, a.Status == Optimal && b.Status == Optimal && worse(p, a.Objective, b.Objective) < -1e-7:
			t.Fatalf("%.12g became %s %.12g\n%s", a.Objective, b.Status, b.Objective, written(p))
		}
	})
}

func TestScalingARowOrAColumnChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawn{t}
		p := anyProblem(d, false)
		a := asked(t, p)
		q := Least()
		q.sense = p.sense
		width := make([]float64, p.Columns())
		for j, c := range p.columns {
			width[j] = math.Pow(10, float64(d.upTo(5)-2))
			q.Column(c.name, c.low*width[j], c.high*width[j], c.cost/width[j])
		}
		for _, r := range p.rows {
			by := math.Pow(10, float64(d.upTo(5)-2))
			var terms []Term
			for _, x := range r.terms {
				terms = append(terms, Term{x.Column, x.Times * by / width[x.Column]})
			}
			q.Between(r.name, r.low*by, r.high*by, terms...)
		}
		if b := asked(t, q); a.Status != b.Status || a.Status == Optimal && math.Abs(worse(p, a.Objective, b.Objective)) > 1e-6 {
			t.Fatalf("%s %.12g became %s %.12g\n%s", a.Status, a.Objective, b.Status, b.Objective, written(p))
		}
	})
}

// TestAPriceIsWhatOneMoreUnitIsWorth moves each binding row a little: the objective moves by the
// price, or by less where the basis changes at once (the objective is convex in the bound).
func TestAPriceIsWhatOneMoreUnitIsWorth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyProblem(drawn{t}, false)
		a := asked(t, p)
		if a.Status != Optimal || p.Rows() == 0 {
			t.Skip("no prices")
		}
		i := drawn{t}.upTo(p.Rows())
		const by = 1e-3
		q := p.Relaxed()
		q.rows = append([]row(nil), p.rows...)
		q.rows[i].low += by
		q.rows[i].high += by
		b := asked(t, q)
		if b.Status == Infeasible {
			t.Skip("no room")
		}
		if promised := a.Objective + by*a.Prices[i]; worse(p, promised, b.Objective) < -1e-7 {
			t.Fatalf("row %d: %.12g, price %.9g, and %.12g when moved by %g: better than the price promises\n%s", i, a.Objective, a.Prices[i], b.Objective, by, written(p))
		}
	})
}

// TestWholeAnswersAreTheBestOfAll tries every whole number of small problems.
func TestWholeAnswersAreTheBestOfAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawn{t}
		p := Most()
		n := 1 + d.upTo(5)
		for j := range n {
			p.Whole(p.Column(fmt.Sprintf("x%d", j), 0, 3, float64(d.upTo(19)-6)))
		}
		for i := range d.upTo(5) {
			var terms []Term
			for j := range n {
				terms = append(terms, Term{Column(j), float64(d.upTo(13) - 4)})
			}
			p.AtMost(fmt.Sprintf("r%d", i), float64(d.upTo(25)-3), terms...)
		}
		best, found := math.Inf(-1), false
		x := make([]float64, n)
		for code := range 1 << (2 * n) {
			sum := 0.
			for j := range x {
				x[j] = float64(code >> (2 * j) & 3)
				sum += p.columns[j].cost * x[j]
			}
			fits := true
			for i, v := range p.activity(x) {
				fits = fits && v <= p.rows[i].high
			}
			if fits {
				best, found = max(best, sum), true
			}
		}
		a := asked(t, p)
		if err := Check(p, a, 1e-7); err != nil {
			t.Fatal(err)
		}
		if a.Found != found || found && (math.Abs(a.Objective-best) > 1e-6 || math.Abs(a.Bound-best) > 1e-6) {
			t.Fatalf("%s %g with the bound %g, by trying all %g\n%s", a.Status, a.Objective, a.Bound, best, written(p))
		}
	})
}
