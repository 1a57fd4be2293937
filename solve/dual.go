package solve

import "math"

// outcome is how a run of the simplex ended.
type outcome int

const (
	done    outcome = iota // the dual: feasible; the primal: optimal
	nothing                // the dual: infeasible, the evidence in ray
	endless                // the primal: unbounded, the evidence in way
	beyond                 // the dual: the objective passed the cutoff
	halted                 // see the error
)

// stalls are the steps without gain after which the dual moves the costs a little, at most
// perturbations times. Both are choices.
const (
	stalls        = 40
	perturbations = 6
)

// allow makes every reduced cost of the right sign: a variable with two bounds goes to the other, the
// cost of one with a single bound is shifted.
func (s *simplex) allow() {
	for j := range s.n + s.m {
		if s.wrong(j) == 0 {
			continue
		}
		if s.d[j] < 0 && !math.IsInf(s.high[j], 1) {
			s.place[j], s.x[j] = atHigh, s.high[j]
			continue
		}
		if s.d[j] > 0 && !math.IsInf(s.low[j], -1) {
			s.place[j], s.x[j] = atLow, s.low[j]
			continue
		}
		s.shift(j, -s.d[j])
	}
	s.point()
}

// shift moves the cost of a variable outside the basis.
func (s *simplex) shift(j int, by float64) {
	if by != 0 {
		s.price[j] += by
		s.d[j] += by
		s.shifted = true
	}
}

// restore goes back to the model's costs.
func (s *simplex) restore() {
	if s.shifted {
		copy(s.price, s.cost)
		s.shifted = false
		s.reduced()
	}
}

// dual goes on until every variable keeps its bounds.
func (s *simplex) dual() (outcome, error) {
	s.allow()
	clear(s.skip)
	s.skipped = 0
	stalled, moved := 0, 0
	first, patience, plain := s.pivots, s.patience(), false
	for {
		if err := s.halted(); err != nil {
			return halted, err
		}
		if !plain && s.pivots-first > patience {
			plain = true
			s.forget()
		}
		if s.f.worn() {
			s.refactor()
			s.allow()
		}
		if s.pivots%8 == 0 && !s.shifted && !math.IsInf(s.cutoff, 1) && s.objective() > s.cutoff {
			return beyond, nil
		}
		r := s.leaving(plain)
		if r < 0 {
			if s.skipped > 0 && s.worst() > nearly {
				return halted, errNumbers
			}
			return done, nil
		}
		s.inverseRow(r)
		s.pivotRow()
		p := s.head[r]
		missed := s.miss(p)
		q, flips, ok := s.entering(missed, s.x[p]-missed)
		if !ok {
			if s.contradicts() {
				return nothing, nil
			}
			s.again(r)
			continue
		}
		s.forwardColumn(q)
		if a, b := math.Abs(s.alpha[r]), math.Abs(s.row[q]); a < tinyPivot || len(s.f.etas.at) > 0 && (a < smallPivot || math.Abs(a-b) > 1e-7*(1+a)) {
			s.again(r)
			continue
		}
		s.flips = flips
		s.flip(flips)
		if gain := s.dualStep(q, r, missed); math.Abs(gain) > optimal {
			stalled = 0
		} else if stalled++; !plain && stalled > stalls && moved < perturbations {
			moved++
			stalled = 0
			s.perturb(moved)
		}
	}
}

// again makes the factors anew after a doubtful step; where they are new, position r is left alone
// until another step was made.
func (s *simplex) again(r int) {
	if len(s.f.etas.at) == 0 {
		s.skip[r] = true
		s.skipped++
		return
	}
	s.refactor()
	s.allow()
	clear(s.skip) // positions changed with the factors
	s.skipped = 0
}

// patience is after how many steps the dual is taken to go round in circles. A choice.
func (s *simplex) patience() int { return 500 + 20*(s.n+s.m) }

// forget makes every cost zero, so that only the bounds are left to be met. With the first variable leaving that
// misses one (Bland's rule), circles that shifted costs keep alive come to an end.
func (s *simplex) forget() {
	clear(s.price)
	clear(s.d)
	s.shifted = true
}

// leaving picks the position whose variable misses its bound most, measured along the edge; plainly, the first
// variable that misses one.
func (s *simplex) leaving(plain bool) int {
	best, r := 0., -1
	for i, j := range s.head {
		if v := s.miss(j); v != 0 && !s.skip[i] {
			if plain {
				if r < 0 || j < s.head[r] {
					r = i
				}
				continue
			}
			if v = v * v / s.weight[j]; v > best {
				best, r = v, i
			}
		}
	}
	return r
}

// breakpoint is a variable whose reduced cost reaches zero along the dual step.
type breakpoint struct {
	j       int
	size    float64 // of its entry in the pivot row
	ratio   float64
	relaxed float64 // ratio with the tolerance
}

// entering picks what comes into the basis by the long-step rule: variables with two bounds are passed
// and change to the other while the dual objective still rises, and among the last ones that tie
// within the tolerance the largest entry is taken. ok is false where nothing stops the step:
// infeasible.
func (s *simplex) entering(missed, bound float64) (q int, flips []int, ok bool) {
	list := s.breaks[:0]
	flips = s.flips[:0]
	for _, j := range s.touched {
		a := s.row[j]
		if math.Abs(a) <= tinyPivot || s.low[j] == s.high[j] {
			continue
		}
		if missed > 0 {
			a = -a
		}
		// The basic variable must rise (a as if it did): one at its low bound helps if a < 0.
		if s.place[j] == atLow && a > 0 || s.place[j] == atHigh && a < 0 {
			continue
		}
		d, size := math.Abs(s.d[j]), math.Abs(a)
		list = append(list, breakpoint{j, size, d / size, (d + optimal) / size})
	}
	s.breaks = list
	slope, enough := math.Abs(missed), feasible*max(1, math.Abs(bound))
	for len(list) > 0 {
		limit := math.Inf(1)
		for _, b := range list {
			limit = min(limit, b.relaxed)
		}
		fall, pick := 0., breakpoint{j: -1}
		for _, b := range list {
			if b.ratio > limit {
				continue
			}
			fall += b.size * (s.high[b.j] - s.low[b.j])
			if b.size > pick.size || b.size == pick.size && b.j < pick.j {
				pick = b
			}
		}
		if slope-fall <= enough {
			return pick.j, flips, true
		}
		slope -= fall
		rest := list[:0]
		for _, b := range list {
			if b.ratio > limit {
				rest = append(rest, b)
				continue
			}
			flips = append(flips, b.j)
		}
		list = rest
	}
	return -1, nil, false
}

// flip moves variables to their other bounds and the basis with them.
func (s *simplex) flip(list []int) {
	if len(list) == 0 {
		return
	}
	clear(s.work)
	for _, j := range list {
		from := s.x[j]
		if s.place[j] == atLow {
			s.place[j], s.x[j] = atHigh, s.high[j]
		} else {
			s.place[j], s.x[j] = atLow, s.low[j]
		}
		index, value := s.column(j)
		for p, i := range index {
			s.work[i] -= value[p] * (s.x[j] - from)
		}
	}
	s.f.forward(s.work)
	for i, v := range s.work {
		if v != 0 {
			s.x[s.head[i]] += v
		}
	}
}

// dualStep brings q in for the variable at position r, which misses a bound, and returns the length of
// the step.
func (s *simplex) dualStep(q, r int, missed float64) float64 {
	p := s.head[r]
	to, bound := atLow, s.low[p]
	if missed > 0 {
		to, bound = atHigh, s.high[p]
	}
	pivot := s.alpha[r]
	// Reduced costs; one that comes out with the wrong sign gets its cost shifted.
	theta := s.d[q] / pivot
	for _, j := range s.touched {
		if j == q {
			continue
		}
		s.d[j] -= theta * s.row[j]
		if s.low[j] != s.high[j] && (s.d[j] < 0 && s.place[j] != atHigh || s.d[j] > 0 && s.place[j] != atLow) {
			s.shift(j, -s.d[j])
		}
	}
	s.d[q], s.d[p] = 0, -theta
	if to == atLow && s.d[p] < 0 || to == atHigh && s.d[p] > 0 {
		s.price[p] -= s.d[p]
		s.d[p] = 0
		s.shifted = true
	}
	// The point.
	step := (s.x[p] - bound) / pivot
	for i, v := range s.alpha {
		if v != 0 {
			s.x[s.head[i]] -= step * v
		}
	}
	s.x[q] += step
	s.steepest(q, r)
	s.exchange(q, r, to)
	return theta
}

// steepest brings the weights of the dual's steepest edge up to date.
func (s *simplex) steepest(q, r int) {
	own := 0.
	for i, v := range s.rho {
		own += v * v
		s.tau[i] = v
	}
	s.f.forward(s.tau)
	pivot := s.alpha[r]
	for i, v := range s.alpha {
		if v == 0 || i == r {
			continue
		}
		t := v / pivot
		j := s.head[i]
		s.weight[j] = max(s.weight[j]-2*t*s.tau[i]+t*t*own, 1e-4, t*t*own/2)
	}
	s.weight[q] = max(own/(pivot*pivot), 1e-4)
}

// perturb moves the costs outside the basis away from where they tie, each by its own small amount
// that depends only on its number, and more the next time.
func (s *simplex) perturb(time int) {
	for j := range s.n + s.m {
		if s.place[j] == basic || s.low[j] == s.high[j] {
			continue
		}
		by := (1 + math.Abs(s.price[j])) * 1e-6 * float64(time) * (0.5 + scatter(j))
		switch s.place[j] {
		case atLow:
			s.shift(j, by)
		case atHigh:
			s.shift(j, -by)
		default:
		}
	}
}

// scatter spreads whole numbers over 0 to 1 (multiples of the golden section).
func scatter(j int) float64 {
	_, f := math.Modf(float64(j+1) * 0.6180339887498949)
	return f
}
