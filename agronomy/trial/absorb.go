package trial

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// equations are the mixed-model equations M x = c with M = W'W + J, where W holds the random columns,
// each times the root of its variance ratio, and the fixed ones, and J is 1 on the diagonal of random
// columns (the scaled form of Henderson's equations that stands at a variance of zero too; Bates et al.
// 2015, section 5). [source.MixedModel]
//
// A trial's equations are large and nearly empty. Levels of one term never meet in a plot, so the term
// with most levels is eliminated level by level, each touching only the few others that it meets; then
// the next term that it is nested in, whose levels still do not meet; what is left is dense and small.
type equations struct {
	terms    []Factor
	order    []int   // terms in the order of their columns
	first    []int   // by term: its first column
	absorbed int     // columns eliminated one by one
	random   int     // columns of random terms
	columns  int     // all
	fixed    [][]int // by plot: fixed columns that are 1, counted from 0
	nFixed   int

	counts []float64   // diagonal of absorbed columns
	meets  [][]int     // by absorbed column: later columns that it meets or comes to meet
	raw    [][]float64 // W'W there, unscaled
	into   [][][]int   // by absorbed column and absorbed neighbour: where the rest of meets lies in the neighbour's
	dense  *mat.SymDense

	// Of the last factoring.
	scale    []float64 // by column
	diag     []float64
	rows     [][]float64
	chol     mat.Cholesky
	logDet   float64
	inverse  mat.SymDense
	inverses [][]float64 // inverse at [column][meets]
	own      []float64   // diagonal of the inverse
}

// chain picks the terms to absorb: the one with most levels, then each that the last is nested in.
func chain(terms []Factor) (order []int, absorbed int) {
	left := make([]int, len(terms))
	for i := range left {
		left[i] = i
	}
	for len(left) > 0 {
		best := -1
		for _, k := range left {
			fits := len(order) == 0 || terms[order[len(order)-1]].nestedIn(terms[k])
			if fits && (best < 0 || len(terms[k].Levels) > len(terms[best].Levels)) {
				best = k
			}
		}
		if best < 0 {
			break
		}
		order = append(order, best)
		left = slices.DeleteFunc(left, func(k int) bool { return k == best })
	}
	return append(order, left...), len(order)
}

func newEquations(terms []Factor, fixed [][]int, nFixed int) *equations {
	e := &equations{terms: terms, fixed: fixed, nFixed: nFixed, first: make([]int, len(terms))}
	var absorbedTerms int
	e.order, absorbedTerms = chain(terms)
	for i, k := range e.order {
		e.first[k] = e.random
		e.random += len(terms[k].Levels)
		if i < absorbedTerms {
			e.absorbed = e.random
		}
	}
	e.columns = e.random + nFixed
	if m := e.columns - e.absorbed; m > 0 {
		e.dense = mat.NewSymDense(m, nil)
	}
	met := make([]map[int]float64, e.absorbed)
	for i := range met {
		met[i] = map[int]float64{}
	}
	e.counts = make([]float64, e.absorbed)
	for plot := range fixed {
		at := e.columnsOf(plot)
		for i, a := range at {
			if a < e.absorbed {
				e.counts[a]++
			}
			for _, b := range at[i:] {
				switch {
				case a >= e.absorbed:
					r, c := a-e.absorbed, b-e.absorbed
					e.dense.SetSym(r, c, e.dense.At(r, c)+1)
				case b > a:
					met[a][b]++
				}
			}
		}
	}
	e.link(met)
	e.scale = make([]float64, e.columns)
	e.diag = make([]float64, e.absorbed)
	e.own = make([]float64, e.columns)
	return e
}

// columnsOf lists the columns that are not zero in a plot, ascending.
func (e *equations) columnsOf(plot int) []int {
	at := make([]int, 0, len(e.terms)+len(e.fixed[plot]))
	for _, k := range e.order {
		at = append(at, e.first[k]+e.terms[k].At[plot])
	}
	for _, c := range e.fixed[plot] {
		at = append(at, e.random+c)
	}
	return at
}

// link works out once which columns each absorbed one comes to meet as those before it go.
func (e *equations) link(met []map[int]float64) {
	e.meets = make([][]int, e.absorbed)
	e.raw = make([][]float64, e.absorbed)
	e.rows = make([][]float64, e.absorbed)
	e.inverses = make([][]float64, e.absorbed)
	e.into = make([][][]int, e.absorbed)
	for i := range met {
		for b := range met[i] {
			e.meets[i] = append(e.meets[i], b)
		}
		slices.Sort(e.meets[i])
		n := len(e.meets[i])
		e.raw[i], e.rows[i], e.inverses[i] = make([]float64, n), make([]float64, n), make([]float64, n)
		for j, b := range e.meets[i] {
			e.raw[i][j] = met[i][b]
		}
		for j, a := range e.meets[i] {
			if a >= e.absorbed {
				break
			}
			for _, b := range e.meets[i][j+1:] {
				met[a][b] += 0 // fill: a place that elimination will write to
			}
		}
	}
	for i := range e.meets {
		for j, a := range e.meets[i] {
			if a >= e.absorbed {
				break
			}
			places := make([]int, 0, len(e.meets[i])-j-1)
			for _, b := range e.meets[i][j+1:] {
				p, _ := slices.BinarySearch(e.meets[a], b)
				places = append(places, p)
			}
			e.into[i] = append(e.into[i], places)
		}
	}
}

// factor eliminates the columns under the given variance ratios, by term. It reports false where the
// equations are singular.
func (e *equations) factor(ratios []float64) bool {
	for i := range e.scale {
		e.scale[i] = 1
	}
	for k, t := range e.terms {
		for l := range t.Levels {
			e.scale[e.first[k]+l] = math.Sqrt(ratios[k])
		}
	}
	m := e.columns - e.absorbed
	data := make([]float64, m*m)
	for r := range m {
		for c := r; c < m; c++ {
			data[r*m+c] = e.dense.At(r, c) * e.scale[e.absorbed+r] * e.scale[e.absorbed+c]
		}
		if e.absorbed+r < e.random {
			data[r*m+r]++
		}
	}
	for i := range e.absorbed {
		e.diag[i] = e.counts[i]*e.scale[i]*e.scale[i] + 1
		for j, b := range e.meets[i] {
			e.rows[i][j] = e.raw[i][j] * e.scale[i] * e.scale[b]
		}
	}
	e.logDet = 0
	for i, row := range e.rows {
		e.logDet += math.Log(e.diag[i])
		for j, a := range e.meets[i] {
			f := row[j] / e.diag[i]
			if f == 0 {
				continue
			}
			if a < e.absorbed {
				e.diag[a] -= f * row[j]
				for x, place := range e.into[i][j] {
					e.rows[a][place] -= f * row[j+1+x]
				}
				continue
			}
			line := data[(a-e.absorbed)*m:]
			for x := j; x < len(row); x++ {
				line[e.meets[i][x]-e.absorbed] -= f * row[x]
			}
		}
	}
	if !e.chol.Factorize(mat.NewSymDense(m, data)) {
		return false
	}
	e.logDet += e.chol.LogDet()
	return true
}

// solve answers M x = c in place.
func (e *equations) solve(c []float64) {
	for i, row := range e.rows {
		f := c[i] / e.diag[i]
		for j, b := range e.meets[i] {
			c[b] -= f * row[j]
		}
	}
	tail := mat.NewVecDense(e.columns-e.absorbed, c[e.absorbed:])
	// A condition error cannot come here that factor did not see: the factor is at hand and square.
	_ = e.chol.SolveVecTo(tail, tail)
	for i := e.absorbed - 1; i >= 0; i-- {
		for j, b := range e.meets[i] {
			c[i] -= e.rows[i][j] * c[b]
		}
		c[i] /= e.diag[i]
	}
}

// invert works out the inverse of M on its diagonal, by the recursion of Takahashi on the pattern of
// the factor.
func (e *equations) invert() bool {
	if err := e.chol.InverseTo(&e.inverse); err != nil {
		return false
	}
	for r := range e.columns - e.absorbed {
		e.own[e.absorbed+r] = e.inverse.At(r, r)
	}
	for i := e.absorbed - 1; i >= 0; i-- {
		inv, row := e.inverses[i], e.rows[i]
		clear(inv)
		for j, a := range e.meets[i] {
			l := row[j] / e.diag[i]
			inv[j] -= l * e.own[a]
			for x := j + 1; x < len(row); x++ {
				var between float64
				if a < e.absorbed {
					between = e.inverses[a][e.into[i][j][x-j-1]]
				} else {
					between = e.inverse.At(a-e.absorbed, e.meets[i][x]-e.absorbed)
				}
				inv[x] -= l * between
				inv[j] -= row[x] / e.diag[i] * between
			}
		}
		e.own[i] = 1 / e.diag[i]
		for j := range row {
			e.own[i] -= row[j] / e.diag[i] * inv[j]
		}
	}
	return true
}

// gather is W'v, and spreadOut is v - W x: the two ways between plots and columns.
func (e *equations) gather(v []float64) []float64 {
	c := make([]float64, e.columns)
	for k, t := range e.terms {
		for plot, l := range t.At {
			c[e.first[k]+l] += v[plot]
		}
	}
	for plot, at := range e.fixed {
		for _, j := range at {
			c[e.random+j] += v[plot]
		}
	}
	for i := range c {
		c[i] *= e.scale[i]
	}
	return c
}

func (e *equations) residual(v, x []float64) []float64 {
	r := slices.Clone(v)
	for k, t := range e.terms {
		for plot, l := range t.At {
			c := e.first[k] + l
			r[plot] -= e.scale[c] * x[c]
		}
	}
	for plot, at := range e.fixed {
		for _, j := range at {
			r[plot] -= x[e.random+j]
		}
	}
	return r
}

// project is P0 v = v - W M^-1 W'v, with the solution it went through.
func (e *equations) project(v []float64) (left, x []float64) {
	x = e.gather(v)
	e.solve(x)
	return e.residual(v, x), x
}
