package solve

import (
	"context"
	"math"
)

// run goes on to the best point by turns of the dual and the primal simplex. With verify the end is
// looked at with new factors.
func (s *simplex) run(verify bool) (outcome, error) {
	for turn := range rounds {
		out, err := s.dual()
		if out != done {
			return out, err
		}
		s.restore()
		if s.wrongest() > 0 {
			if out, err = s.primal(); out != done {
				return out, err
			}
		}
		if !verify {
			return done, nil
		}
		if len(s.f.etas.at) > 0 {
			s.refactor()
		}
		worst, wrongest := s.worst(), s.wrongest()
		if worst == 0 && wrongest == 0 || turn > rounds/2 && worst <= nearly && wrongest <= nearly {
			return done, nil
		}
	}
	return halted, errNumbers
}

// worst returns how far the worst variable of the basis is out of its bounds, for the bound's size.
func (s *simplex) worst() (worst float64) {
	for _, j := range s.head {
		switch v := s.miss(j); {
		case v < 0:
			worst = max(worst, -v/max(1, math.Abs(s.low[j])))
		case v > 0:
			worst = max(worst, v/max(1, math.Abs(s.high[j])))
		}
	}
	return worst
}

// wrongest returns how wrong the worst reduced cost is.
func (s *simplex) wrongest() (worst float64) {
	for j := range s.n + s.m {
		worst = max(worst, s.wrong(j))
	}
	return worst
}

// contradicts tells whether row rho of the basis' inverse proves that the bounds contradict each
// other: rho times the rows is a sum of all variables that must be zero, and cannot be. If so it is
// kept as the ray.
func (s *simplex) contradicts() bool {
	least, most, size := 0., 0., 0.
	sum := func(z, low, high float64) {
		if z < 0 {
			z, low, high = -z, -high, -low
		}
		if z <= zero || z <= feasible && (math.IsInf(low, 0) || math.IsInf(high, 0)) {
			return
		}
		least += z * low
		most += z * high
		for _, b := range []float64{low, high} {
			if !math.IsInf(b, 0) {
				size = max(size, z*math.Abs(b))
			}
		}
	}
	for j := range s.n {
		z := 0.
		index, value := s.byColumn.line(j)
		for p, i := range index {
			z += value[p] * s.rho[i]
		}
		sum(z, s.low[j], s.high[j])
	}
	for i := range s.m {
		sum(s.rho[i], s.low[s.n+i], s.high[s.n+i])
	}
	enough := feasible * max(1, size) / 2
	if !(least > enough || most < -enough) {
		return false
	}
	sign := 1.
	if least > enough { // so that the rows demand more than the columns can give
		sign = -1
	}
	s.ray = make([]float64, s.m)
	for i, v := range s.rho {
		if v != 0 {
			s.ray[i] = sign * v
		}
	}
	return true
}

// relax solves a problem as if every column took any number.
func relax(ctx context.Context, p *Problem, limit int) *Answer {
	s := newSimplex(ctx, newModel(p), limit)
	out, err := s.run(true)
	a := &Answer{Pivots: s.pivots}
	switch out {
	case done:
		a.Status = Optimal
		s.report(p, a)
		a.Bound = a.Objective
	case nothing:
		a.Status = Infeasible
		a.Ray = s.multipliers()
		a.Bound = p.sense * math.Inf(1)
	case endless:
		a.Status = Unbounded
		s.report(p, a)
		a.Prices, a.Reduced = nil, nil
		a.Ray = make([]float64, s.n)
		for j := range s.n {
			a.Ray[j] = s.way[j] * s.colScale[j]
		}
		if p.checkDirection(a.Ray, holds) != nil { // never say unbounded on numbers that do not bear it out
			a.Status, a.Ray, a.Why = Stopped, nil, errNumbers
		}
		a.Bound = -p.sense * math.Inf(1)
	default:
		a.Status, a.Why = Stopped, err
		a.Bound = -p.sense * math.Inf(1)
	}
	return a
}

// report fills in the point and the prices in the terms of the problem.
func (s *simplex) report(p *Problem, a *Answer) {
	a.Found = true
	a.X = make([]float64, s.n)
	a.Objective = 0
	for j, c := range p.columns {
		a.X[j] = min(max(s.x[j]*s.colScale[j], c.low), c.high)
		a.Objective += c.cost * a.X[j]
	}
	a.Activity = p.activity(a.X)
	a.Prices, a.Reduced = make([]float64, s.m), make([]float64, s.n)
	for i := range s.m {
		a.Prices[i] = -p.sense * s.d[s.n+i] * s.rowScale[i] / s.costScale
		if s.place[s.n+i] == basic {
			a.Prices[i] = 0
		}
	}
	for j := range s.n {
		if s.place[j] != basic {
			a.Reduced[j] = p.sense * s.d[j] / s.colScale[j] / s.costScale
		}
	}
}

// multipliers are the evidence of infeasibility in the terms of the problem.
func (s *simplex) multipliers() []float64 {
	y, largest := make([]float64, s.m), 0.
	for i := range y {
		y[i] = s.ray[i] * s.rowScale[i]
		largest = max(largest, math.Abs(y[i]))
	}
	for i := range y {
		y[i] /= largest
	}
	return y
}

func (p *Problem) activity(x []float64) []float64 {
	sums := make([]float64, len(p.rows))
	for i, r := range p.rows {
		for _, t := range r.terms {
			sums[i] += t.Times * x[t.Column]
		}
	}
	return sums
}
