package solve

import (
	"errors"
	"fmt"
	"math"
)

// Check verifies an answer's evidence against the problem as it was stated. tolerance is relative to
// the size of the numbers compared. That a whole-number optimum is within its gap, and that no whole
// numbers fit, rests on the search and has no short evidence: of those, Check verifies the point alone.
func Check(p *Problem, a *Answer, tolerance float64) error {
	if a.Found {
		if err := p.checkPoint(a, tolerance); err != nil {
			return err
		}
		if p.sense*(a.Bound-a.Objective) > tolerance*max(1, math.Abs(a.Objective)) {
			return fmt.Errorf("the objective %g is better than its bound %g", a.Objective, a.Bound)
		}
	}
	switch {
	case a.Status == Stopped, p.wholes() && a.Status != Unbounded && a.Ray == nil:
		return nil
	case a.Status == Infeasible:
		return p.checkContradiction(a.Ray, tolerance)
	case !a.Found:
		return fmt.Errorf("%s without a point", a.Status)
	case a.Status == Unbounded:
		return p.checkDirection(a.Ray, tolerance)
	}
	return p.checkPrices(a, tolerance)
}

// outside returns by how much v misses its bounds, for their size.
func outside(v, low, high float64) float64 {
	switch {
	case math.IsNaN(v):
		return math.Inf(1)
	case v < low:
		return (low - v) / max(1, math.Abs(low))
	case v > high:
		return (v - high) / max(1, math.Abs(high))
	}
	return 0
}

func (p *Problem) checkPoint(a *Answer, tolerance float64) error {
	if len(a.X) != len(p.columns) {
		return fmt.Errorf("%d numbers for %d columns", len(a.X), len(p.columns))
	}
	sum, size := 0., 1.
	for j, c := range p.columns {
		if outside(a.X[j], c.low, c.high) > tolerance {
			return fmt.Errorf("column %s is %g and must lie in %g to %g", c.name, a.X[j], c.low, c.high)
		}
		if c.whole && math.Abs(a.X[j]-math.Round(a.X[j])) > wholeness {
			return fmt.Errorf("column %s is %g and must be whole", c.name, a.X[j])
		}
		sum += c.cost * a.X[j]
		size = max(size, math.Abs(c.cost*a.X[j]))
	}
	for i, r := range p.rows {
		sum, size := 0., 1.
		for _, t := range r.terms {
			sum += t.Times * a.X[t.Column]
			size = max(size, math.Abs(t.Times*a.X[t.Column]))
		}
		if outside(sum, r.low, r.high) > tolerance && outside(sum, r.low, r.high)*max(1, min(math.Abs(r.low), math.Abs(r.high))) > tolerance*size {
			return fmt.Errorf("row %s comes to %g and must lie in %g to %g", p.rows[i].name, sum, r.low, r.high)
		}
	}
	if math.Abs(sum-a.Objective) > tolerance*size {
		return fmt.Errorf("the objective is %g, not %g", sum, a.Objective)
	}
	return nil
}

// combined returns the rows weighted by y and added up: a coefficient for each column, and the size
// of the largest part of each.
func (p *Problem) combined(y []float64) (z, size []float64, err error) {
	if len(y) != len(p.rows) {
		return nil, nil, fmt.Errorf("%d multipliers for %d rows", len(y), len(p.rows))
	}
	z, size = make([]float64, len(p.columns)), make([]float64, len(p.columns))
	for i, r := range p.rows {
		for _, t := range r.terms {
			z[t.Column] += y[i] * t.Times
			size[t.Column] = max(size[t.Column], math.Abs(y[i]*t.Times))
		}
	}
	return z, size, nil
}

// checkPrices verifies that prices and reduced costs give a bound on the objective (weak duality) and
// that the point reaches it.
func (p *Problem) checkPrices(a *Answer, tolerance float64) error {
	z, sizes, err := p.combined(a.Prices)
	if err != nil {
		return err
	}
	bound, size := 0., math.Abs(a.Objective)
	add := func(kind, name string, price, trust, low, high float64) error {
		at := low
		if p.sense*price < 0 {
			at = high
		}
		if math.IsInf(at, 0) {
			if math.Abs(price) > tolerance*max(trust, 1e-6) {
				return fmt.Errorf("%s %s has the price %g and no bound on that side", kind, name, price)
			}
			return nil
		}
		bound += price * at
		size = max(size, math.Abs(price*at))
		return nil
	}
	largest := 0.
	for _, c := range p.columns {
		largest = max(largest, math.Abs(c.cost))
	}
	for i, r := range p.rows {
		if err := add("row", r.name, a.Prices[i], largest, r.low, r.high); err != nil {
			return err
		}
	}
	for j, c := range p.columns {
		reduced := c.cost - z[j]
		if math.Abs(reduced-a.Reduced[j]) > tolerance*max(1, sizes[j], math.Abs(c.cost)) {
			return fmt.Errorf("column %s: the reduced cost is %g, not %g", c.name, reduced, a.Reduced[j])
		}
		if err := add("column", c.name, reduced, max(sizes[j], largest), c.low, c.high); err != nil {
			return err
		}
	}
	if gap := math.Abs(bound - a.Objective); gap > tolerance*max(1, size) {
		return fmt.Errorf("the prices bound the objective at %g, and it is %g", bound, a.Objective)
	}
	return nil
}

// checkContradiction verifies that the rows weighted by y demand more than the columns can give.
func (p *Problem) checkContradiction(y []float64, tolerance float64) error {
	z, sizes, err := p.combined(y)
	if err != nil {
		return err
	}
	demand, supply, size := 0., 0., 0.
	for i, r := range p.rows {
		at := r.low
		if y[i] < 0 {
			at = r.high
		}
		if y[i] == 0 {
			continue
		}
		if math.IsInf(at, 0) {
			if math.Abs(y[i]) > tolerance {
				return fmt.Errorf("row %s has the multiplier %g and no bound on that side", r.name, y[i])
			}
			continue
		}
		demand += y[i] * at
		size = max(size, math.Abs(y[i]*at))
	}
	for j, c := range p.columns {
		at := c.high
		if z[j] < 0 {
			at = c.low
		}
		if z[j] == 0 {
			continue
		}
		if math.IsInf(at, 0) {
			if math.Abs(z[j]) > tolerance*max(1e-3, sizes[j]) {
				return fmt.Errorf("column %s is weighted %g and has no bound on that side", c.name, z[j])
			}
			continue
		}
		supply += z[j] * at
		size = max(size, math.Abs(z[j]*at))
	}
	if !(demand-supply > feasible*size/8) {
		return fmt.Errorf("the rows demand %g and the columns can give %g: no contradiction", demand, supply)
	}
	return nil
}

// checkDirection verifies that one may go along ray for ever and that the objective improves.
func (p *Problem) checkDirection(ray []float64, tolerance float64) error {
	if len(ray) != len(p.columns) {
		return fmt.Errorf("a direction of %d numbers for %d columns", len(ray), len(p.columns))
	}
	leaves := func(v, size, low, high float64) bool {
		return !math.IsInf(low, -1) && v < -tolerance*size || !math.IsInf(high, 1) && v > tolerance*size
	}
	gain, length := 0., 0.
	for j, c := range p.columns {
		gain -= p.sense * c.cost * ray[j]
		length = max(length, math.Abs(ray[j]))
	}
	for j, c := range p.columns {
		if leaves(ray[j], length, c.low, c.high) {
			return fmt.Errorf("the direction leaves the bounds of column %s", c.name)
		}
	}
	for _, r := range p.rows {
		sum, size := 0., length
		for _, t := range r.terms {
			sum += t.Times * ray[t.Column]
			size = max(size, math.Abs(t.Times*ray[t.Column]))
		}
		if leaves(sum, size, r.low, r.high) {
			return fmt.Errorf("the direction leaves row %s", r.name)
		}
	}
	if !(gain > 0) {
		return errors.New("the direction improves nothing")
	}
	return nil
}
