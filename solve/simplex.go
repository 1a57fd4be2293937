package solve

import (
	"context"
	"errors"
	"math"
	"slices"
)

// errPivots and errNumbers are why a search stops by itself.
var (
	errPivots  = errors.New("solve: the limit of pivots is reached")
	errNumbers = errors.New("solve: the numbers are too ill-conditioned to finish: look for coefficients of very different size in one row or column")
)

// place says where a variable that is not in the basis stands.
type place int8

const (
	basic place = iota
	atLow
	atHigh
	atZero // no bounds
)

// simplex is a model with a basis and the point that belongs to it.
type simplex struct {
	*model
	ctx       context.Context
	low, high []float64 // the bounds in force
	lowTol    []float64 // by how much each may be missed
	highTol   []float64
	price     []float64 // the costs in force: the model's, or shifted ones
	shifted   bool
	head      []int // variable by position
	place     []place
	x         []float64
	d         []float64 // reduced costs
	dTol      []float64 // by how much each may have the wrong sign
	weight    []float64 // of dual steepest edge, by variable
	devex     []float64 // of the primal, by variable
	f         *factor
	pivots    int
	limit     int
	cutoff    float64 // the dual stops where its objective passes it

	alpha, rho, tau, work []float64    // by position or row
	row                   []float64    // pivot row, by variable
	touched               []int        // where row is not zero
	breaks                []breakpoint // kept from step to step, as are the flips, to spare memory
	flips                 []int
	unit                  [1]int
	one                   [1]float64
	ray                   []float64 // by row: scaled evidence of infeasibility
	way                   []float64 // by variable: scaled evidence of unboundedness
	skip                  []bool    // positions that the dual cannot use now
	skipped               int       // how many
}

func newSimplex(ctx context.Context, f *model, limit int) *simplex {
	size := f.n + f.m
	s := &simplex{
		model: f, ctx: ctx, limit: limit, cutoff: math.Inf(1), f: newFactor(f.m),
		low: make([]float64, size), high: make([]float64, size), lowTol: make([]float64, size), highTol: make([]float64, size),
		price: make([]float64, size), head: make([]int, f.m), place: make([]place, size), x: make([]float64, size), d: make([]float64, size), dTol: make([]float64, size),
		weight: make([]float64, size), devex: make([]float64, size), row: make([]float64, size),
		alpha: make([]float64, f.m), rho: make([]float64, f.m), tau: make([]float64, f.m), work: make([]float64, f.m),
		one: [1]float64{1}, skip: make([]bool, f.m),
	}
	copy(s.price, f.cost)
	for j := range size {
		s.weight[j] = 1
		if j < f.n {
			s.place[j] = atLow
		} else {
			s.head[j-f.n] = j
		}
		s.bound(j, f.low[j], f.high[j])
	}
	s.refactor()
	return s
}

// bound sets the bounds of a variable; the point is made anew by the caller.
func (s *simplex) bound(j int, low, high float64) {
	s.low[j], s.high[j] = low, high
	s.lowTol[j], s.highTol[j] = low-feasible*max(1, math.Abs(low)), high+feasible*max(1, math.Abs(high))
	if s.place[j] != basic {
		s.stand(j)
	}
}

// stand puts a variable outside the basis on one of its bounds: the one it stood on if there is one.
func (s *simplex) stand(j int) {
	low, high := !math.IsInf(s.low[j], -1), !math.IsInf(s.high[j], 1)
	switch {
	case low && (s.place[j] != atHigh || !high):
		s.place[j], s.x[j] = atLow, s.low[j]
	case high:
		s.place[j], s.x[j] = atHigh, s.high[j]
	default:
		s.place[j], s.x[j] = atZero, 0
	}
}

// column returns the entries of a variable's column.
func (s *simplex) column(j int) ([]int, []float64) {
	if j < s.n {
		return s.byColumn.line(j)
	}
	s.unit[0] = j - s.n
	return s.unit[:], s.one[:]
}

// refactor makes the factors, the point and the reduced costs anew.
func (s *simplex) refactor() {
	before := slices.Clone(s.head)
	s.head = s.f.made(before, s.column)
	for _, j := range before {
		s.place[j] = atLow
	}
	whole := true
	for i, j := range s.head {
		if j < 0 { // no column took the position: the row's logical variable stands in
			s.head[i], whole = s.n+i, false
		}
		s.place[s.head[i]] = basic
	}
	if !whole {
		for j := range s.weight {
			s.weight[j] = 1
		}
		for _, j := range before {
			if s.place[j] != basic {
				s.stand(j)
			}
		}
	}
	s.point()
	s.reduced()
}

// point solves for the variables of the basis.
func (s *simplex) point() {
	clear(s.work)
	for j := range s.n + s.m {
		if s.place[j] == basic || s.x[j] == 0 {
			continue
		}
		index, value := s.column(j)
		for p, i := range index {
			s.work[i] -= value[p] * s.x[j]
		}
	}
	s.f.forward(s.work)
	for i, j := range s.head {
		s.x[j] = s.work[i]
	}
}

// reduced works out the reduced costs of the costs in force.
func (s *simplex) reduced() {
	for i, j := range s.head {
		s.work[i] = s.price[j]
	}
	s.f.backward(s.work)
	for j := range s.n {
		if s.place[j] == basic {
			s.d[j] = 0
			continue
		}
		t := s.price[j]
		index, value := s.byColumn.line(j)
		for p, i := range index {
			t -= value[p] * s.work[i]
		}
		s.d[j] = t
	}
	for i := range s.m {
		if j := s.n + i; s.place[j] == basic {
			s.d[j] = 0
		} else {
			s.d[j] = s.price[j] - s.work[i]
		}
	}
	s.trust()
}

// trust sets by how much each reduced cost may have the wrong sign: a billionth of the largest number
// that it is made of, so that a small cost counts beside large ones. A row's price may be wrong by what
// changes no reduced cost by more.
func (s *simplex) trust() {
	for i := range s.m {
		s.dTol[s.n+i] = optimal
	}
	for j := range s.n {
		index, value := s.byColumn.line(j)
		size := math.Abs(s.price[j])
		for p, i := range index {
			size = max(size, math.Abs(value[p]*s.work[i]))
		}
		s.dTol[j] = optimal * min(1, max(size, least))
		for p, i := range index {
			s.dTol[s.n+i] = min(s.dTol[s.n+i], s.dTol[j]/math.Abs(value[p]))
		}
	}
}

// pivotRow works out row r of the tableau into s.row: rho' times every column outside the basis. rho
// is row r of the basis' inverse.
func (s *simplex) pivotRow() {
	for _, j := range s.touched {
		s.row[j] = 0
	}
	s.touched = s.touched[:0]
	for i, v := range s.rho {
		if v == 0 {
			continue
		}
		index, value := s.byRow.line(i)
		for p, j := range index {
			if s.place[j] == basic {
				continue
			}
			if s.row[j] == 0 {
				s.touched = append(s.touched, j)
				s.row[j] = value[p] * v
			} else if s.row[j] += value[p] * v; s.row[j] == 0 {
				s.row[j] = math.SmallestNonzeroFloat64 // keeps it listed once
			}
		}
		if j := s.n + i; s.place[j] != basic {
			s.touched = append(s.touched, j)
			s.row[j] = v
		}
	}
}

// inverseRow sets rho to row r of the basis' inverse.
func (s *simplex) inverseRow(r int) {
	clear(s.rho)
	s.rho[r] = 1
	s.f.backward(s.rho)
}

// forwardColumn sets alpha to a variable's column in terms of the basis.
func (s *simplex) forwardColumn(j int) {
	clear(s.alpha)
	index, value := s.column(j)
	for p, i := range index {
		s.alpha[i] = value[p]
	}
	s.f.forward(s.alpha)
}

// exchange brings variable q into the basis at position r, whose variable goes to the given place.
func (s *simplex) exchange(q, r int, to place) {
	p := s.head[r]
	s.f.update(r, s.alpha)
	s.head[r] = q
	s.place[q] = basic
	s.place[p] = to
	switch to {
	case atLow:
		s.x[p] = s.low[p]
	case atHigh:
		s.x[p] = s.high[p]
	default:
		s.x[p] = 0
	}
	s.pivots++
	if s.skipped > 0 {
		clear(s.skip)
		s.skipped = 0
	}
}

// miss returns by how much a variable misses its bounds: negative below, positive above, 0 where it
// is close enough.
func (s *simplex) miss(j int) float64 {
	switch x := s.x[j]; {
	case x < s.lowTol[j]:
		return x - s.low[j]
	case x > s.highTol[j]:
		return x - s.high[j]
	}
	return 0
}

// wrong returns by how much the reduced cost of a variable outside the basis has the wrong sign.
func (s *simplex) wrong(j int) float64 {
	if s.place[j] == basic || s.low[j] == s.high[j] {
		return 0
	}
	d := s.d[j]
	if d < -s.dTol[j] && s.place[j] != atHigh || d > s.dTol[j] && s.place[j] != atLow {
		return math.Abs(d)
	}
	return 0
}

// halted says why the search must stop now; it asks the context now and then.
func (s *simplex) halted() error {
	if s.pivots >= s.limit {
		return errPivots
	}
	if s.pivots%32 == 0 {
		return s.ctx.Err()
	}
	return nil
}

// objective is that of the point with the model's costs, scaled.
func (s *simplex) objective() (sum float64) {
	for j := range s.n {
		sum += s.cost[j] * s.x[j]
	}
	return sum
}
