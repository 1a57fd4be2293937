package solve

import (
	"math"
	"slices"
)

// factor keeps a basis as L U, made column by column (after Gilbert and Peierls 1988), with the
// updates since. Step k pivots on row pivot[k]; the basis variable of that step stands at that
// position from then on, so that rows and positions of the basis have the same numbers.
type factor struct {
	m      int
	pivot  []int     // row of step k
	step   []int     // step of row i
	diag   []float64 // U's diagonal by step
	lower  lines     // L by step: rows not pivoted by then
	upper  lines     // U by step: rows pivoted before
	lowers []int     // the steps whose column of L is not empty
	etas   etas
}

// lines are sparse vectors one after another.
type lines struct {
	start []int
	index []int
	value []float64
}

func (l *lines) reset()               { l.start, l.index, l.value = append(l.start[:0], 0), l.index[:0], l.value[:0] }
func (l *lines) add(i int, v float64) { l.index, l.value = append(l.index, i), append(l.value, v) }
func (l *lines) end()                 { l.start = append(l.start, len(l.index)) }
func (l *lines) at(k int) ([]int, []float64) {
	return l.index[l.start[k]:l.start[k+1]], l.value[l.start[k]:l.start[k+1]]
}

// etas are the product-form updates: each replaces the variable at a position, whose column in terms
// of the basis before was alpha.
type etas struct {
	at    []int // position
	pivot []float64
	rest  lines
}

func (e *etas) reset() { e.at, e.pivot = e.at[:0], e.pivot[:0]; e.rest.reset() }

func newFactor(m int) *factor {
	return &factor{m: m, pivot: make([]int, m), step: make([]int, m), diag: make([]float64, m)}
}

// update notes that the variable at position r was replaced by one whose column is alpha.
func (f *factor) update(r int, alpha []float64) {
	f.etas.at = append(f.etas.at, r)
	f.etas.pivot = append(f.etas.pivot, alpha[r])
	for i, v := range alpha {
		if v != 0 && i != r {
			f.etas.rest.add(i, v)
		}
	}
	f.etas.rest.end()
}

// worn reports whether the factors should be made anew.
func (f *factor) worn() bool {
	return len(f.etas.at) >= refactorAfter || len(f.etas.rest.index) > 3*(len(f.lower.index)+len(f.upper.index)+f.m)
}

// forward solves B x = v in place.
func (f *factor) forward(v []float64) {
	for _, k := range f.lowers {
		if t := v[f.pivot[k]]; t != 0 {
			index, value := f.lower.at(k)
			for p, i := range index {
				v[i] -= value[p] * t
			}
		}
	}
	for k := f.m - 1; k >= 0; k-- {
		r := f.pivot[k]
		if v[r] == 0 {
			continue
		}
		t := v[r] / f.diag[k]
		v[r] = t
		index, value := f.upper.at(k)
		for p, i := range index {
			v[i] -= value[p] * t
		}
	}
	for k, r := range f.etas.at {
		if v[r] == 0 {
			continue
		}
		t := v[r] / f.etas.pivot[k]
		v[r] = t
		index, value := f.etas.rest.at(k)
		for p, i := range index {
			v[i] -= value[p] * t
		}
	}
	for i, x := range v {
		if x != 0 && math.Abs(x) < zero {
			v[i] = 0
		}
	}
}

// backward solves B' y = v in place.
func (f *factor) backward(v []float64) {
	for k, r := range slices.Backward(f.etas.at) {
		t := v[r]
		index, value := f.etas.rest.at(k)
		for p, i := range index {
			t -= value[p] * v[i]
		}
		v[r] = t / f.etas.pivot[k]
	}
	first := f.m
	for i, x := range v {
		if x != 0 {
			first = min(first, f.step[i])
		}
	}
	for k := first; k < f.m; k++ {
		r := f.pivot[k]
		t := v[r]
		index, value := f.upper.at(k)
		for p, i := range index {
			t -= value[p] * v[i]
		}
		v[r] = t / f.diag[k]
	}
	for _, k := range slices.Backward(f.lowers) {
		r := f.pivot[k]
		t := v[r]
		index, value := f.lower.at(k)
		for p, i := range index {
			t -= value[p] * v[i]
		}
		v[r] = t
	}
	for i, x := range v {
		if x != 0 && math.Abs(x) < zero {
			v[i] = 0
		}
	}
}

// made factors the basis of the given variables; col returns a variable's column. It returns them by
// position. Variables whose columns depend on the others are left out, and -1 stands at the
// positions that no column took.
func (f *factor) made(vars []int, col func(int) ([]int, []float64)) []int {
	f.lower.reset()
	f.upper.reset()
	f.etas.reset()
	f.lowers = f.lowers[:0]
	o := newOrdering(f.m, vars, col)
	head := make([]int, f.m)
	for i := range head {
		head[i] = -1
		f.step[i] = -1
	}
	work, seen := make([]float64, f.m), make([]bool, f.m)
	var rows []int
	k, nucleus := 0, 0 // nucleus: the first step of it whose L takes part in later columns
	for n, c := range o.order {
		index, value := col(vars[c])
		rows = rows[:0]
		for p, i := range index {
			work[i] = value[p]
			seen[i] = true
			rows = append(rows, i)
		}
		if n == o.peeled {
			nucleus = len(f.lowers)
		}
		if n >= o.peeled {
			for _, s := range f.lowers[nucleus:] {
				t := work[f.pivot[s]]
				if t == 0 {
					continue
				}
				index, value := f.lower.at(s)
				for p, i := range index {
					if !seen[i] {
						seen[i] = true
						rows = append(rows, i)
					}
					work[i] -= value[p] * t
				}
			}
		}
		r := f.choose(rows, work, o, n)
		if r >= 0 {
			f.take(k, r, rows, work)
			head[r] = vars[c]
			k++
		}
		for _, i := range rows {
			work[i], seen[i] = 0, false
		}
	}
	for i, v := range head { // positions without a column are those of logical variables put there
		if v < 0 {
			f.take(k, i, []int{i}, unitAt(work, i))
			work[i] = 0
			k++
		}
	}
	return head
}

func unitAt(work []float64, i int) []float64 {
	work[i] = 1
	return work
}

// choose picks the row to pivot on: where the order names one that one, else the emptiest among those
// whose entry is no smaller than a tenth of the largest. -1 where there is nothing to pivot on.
func (f *factor) choose(rows []int, work []float64, o *ordering, n int) int {
	if n < o.peeled {
		if r := o.rowOf[n]; math.Abs(work[r]) > tinyPivot {
			return r
		}
		return -1
	}
	largest := 0.
	for _, i := range rows {
		if f.step[i] < 0 {
			largest = max(largest, math.Abs(work[i]))
		}
	}
	if largest <= tinyPivot {
		return -1
	}
	best := -1
	for _, i := range rows {
		if f.step[i] < 0 && math.Abs(work[i]) >= 0.1*largest &&
			(best < 0 || o.rowCount[i] < o.rowCount[best] || o.rowCount[i] == o.rowCount[best] && i < best) {
			best = i
		}
	}
	return best
}

// take makes step k: row r is its pivot.
func (f *factor) take(k, r int, rows []int, work []float64) {
	d := work[r]
	for _, i := range rows {
		switch v := work[i]; {
		case i == r || math.Abs(v) < zero:
		case f.step[i] >= 0:
			f.upper.add(i, v)
		default:
			f.lower.add(i, v/d)
		}
	}
	f.upper.end()
	f.lower.end()
	f.pivot[k], f.step[r], f.diag[k] = r, k, d
	if f.lower.start[k] < f.lower.start[k+1] {
		f.lowers = append(f.lowers, k)
	}
}
