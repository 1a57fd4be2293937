package solve

import "math"

// primal starts from a point that keeps every bound and goes on to the best.
func (s *simplex) primal() (outcome, error) {
	for j := range s.devex {
		s.devex[j] = 1
	}
	stalled, patience := 0, 2*(s.m+s.n)+50
	first := s.pivots
	defer func() {
		if s.pivots > first { // the dual's weights belong to its own path
			for j := range s.weight {
				s.weight[j] = 1
			}
		}
	}()
	for {
		if err := s.halted(); err != nil {
			return halted, err
		}
		if s.f.worn() {
			s.refactor()
		}
		q := s.improving(stalled > patience)
		if q < 0 {
			return done, nil
		}
		up := 1.
		if s.d[q] > 0 {
			up = -1
		}
		s.forwardColumn(q)
		r, step, to := s.blocking(up, stalled > patience)
		own := s.high[q] - s.low[q]
		switch {
		case r < 0 && math.IsInf(own, 1):
			if len(s.f.etas.at) > 0 {
				s.refactor()
				continue
			}
			if math.Abs(s.d[q]) <= optimal { // too little to prove that it goes on for ever
				s.dTol[q] = optimal
				continue
			}
			s.direction(q, up)
			return endless, nil
		case r < 0 || own <= step:
			s.across(q, up, own)
			s.pivots++
			stalled = 0
			continue
		}
		if math.Abs(s.alpha[r]) < smallPivot && len(s.f.etas.at) > 0 {
			s.refactor()
			continue
		}
		if step > 0 {
			stalled = 0
		} else {
			stalled++
		}
		s.primalStep(q, r, up*step, to)
	}
}

// improving picks the variable that improves the objective most for its weight; by Bland's rule, the
// first that improves it.
func (s *simplex) improving(bland bool) int {
	best, q := 0., -1
	for j := range s.n + s.m {
		v := s.wrong(j)
		if v == 0 {
			continue
		}
		if bland {
			return j
		}
		if v = v * v / s.devex[j]; v > best {
			best, q = v, j
		}
	}
	return q
}

// blocking finds which variable of the basis reaches a bound first. In a first pass each bound gives
// way by its tolerance; of those that lie within, the largest pivot is taken. By Bland's rule the
// nearest bound counts, and of equals the first variable.
func (s *simplex) blocking(up float64, bland bool) (r int, step float64, to place) {
	limit := math.Inf(1)
	if !bland {
		for i, v := range s.alpha {
			if math.Abs(v) <= tinyPivot {
				continue
			}
			j := s.head[i]
			if v*up > 0 {
				limit = min(limit, (s.x[j]-s.lowTol[j])/(v*up))
			} else {
				limit = min(limit, (s.x[j]-s.highTol[j])/(v*up))
			}
		}
	}
	r, best := -1, 0.
	for i, v := range s.alpha {
		if math.Abs(v) <= tinyPivot {
			continue
		}
		j := s.head[i]
		bound, at := s.low[j], atLow
		if v*up < 0 {
			bound, at = s.high[j], atHigh
		}
		if math.IsInf(bound, 0) {
			continue
		}
		t := max(0, (s.x[j]-bound)/(v*up))
		switch {
		case bland && (r < 0 || t < step || t == step && j < s.head[r]):
			r, step, to = i, t, at
		case !bland && t <= limit && math.Abs(v) > best:
			best, r, step, to = math.Abs(v), i, t, at
		}
	}
	return r, step, to
}

// across moves q to its other bound.
func (s *simplex) across(q int, up, own float64) {
	for i, v := range s.alpha {
		if v != 0 {
			s.x[s.head[i]] -= up * own * v
		}
	}
	if up > 0 {
		s.place[q], s.x[q] = atHigh, s.high[q]
	} else {
		s.place[q], s.x[q] = atLow, s.low[q]
	}
}

// primalStep brings q in for the variable at position r.
func (s *simplex) primalStep(q, r int, step float64, to place) {
	p := s.head[r]
	for i, v := range s.alpha {
		if v != 0 {
			s.x[s.head[i]] -= step * v
		}
	}
	s.x[q] += step
	s.inverseRow(r)
	s.pivotRow()
	pivot := s.alpha[r]
	theta := s.d[q] / pivot
	ref := s.devex[q]
	for _, j := range s.touched {
		if j == q {
			continue
		}
		s.d[j] -= theta * s.row[j]
		t := s.row[j] / pivot
		s.devex[j] = max(s.devex[j], t*t*ref)
	}
	s.devex[p] = max(1, ref/(pivot*pivot))
	s.d[q], s.d[p] = 0, -theta
	s.exchange(q, r, to)
}

// direction keeps the way in which the objective improves for ever.
func (s *simplex) direction(q int, up float64) {
	s.way = make([]float64, s.n+s.m)
	s.way[q] = up
	for i, v := range s.alpha {
		s.way[s.head[i]] = -up * v
	}
}
