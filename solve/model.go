package solve

import "math"

// matrix holds the non-zero entries of a matrix line by line: by column, or by row.
type matrix struct {
	start []int // where each line begins; one more than there are lines
	index []int
	value []float64
}

func (a *matrix) line(i int) ([]int, []float64) {
	return a.index[a.start[i]:a.start[i+1]], a.value[a.start[i]:a.start[i+1]]
}

// model is a problem in the form that the simplex works on: for the least, scaled, columns 0..n-1 from
// the problem and n..n+m-1 the rows' logical variables (minus the row's activity), A x + s = 0.
type model struct {
	m, n      int
	byColumn  matrix
	byRow     matrix
	low, high []float64 // n+m
	cost      []float64 // n+m
	colScale  []float64 // x = colScale * scaled x
	rowScale  []float64 // scaled activity = rowScale * activity
	costScale float64   // scaled cost = sense * costScale * colScale * cost
}

func newModel(p *Problem) *model {
	m, n := len(p.rows), len(p.columns)
	f := &model{
		m: m, n: n, low: make([]float64, n+m), high: make([]float64, n+m), cost: make([]float64, n+m),
		colScale: make([]float64, n), rowScale: make([]float64, m), costScale: 1,
	}
	f.scale(p)
	largest := 0.
	for j, c := range p.columns {
		f.low[j], f.high[j] = c.low/f.colScale[j], c.high/f.colScale[j]
		f.cost[j] = p.sense * c.cost * f.colScale[j]
		largest = max(largest, math.Abs(f.cost[j]))
	}
	if largest > 0 {
		f.costScale = 1 / powerOfTwo(largest)
	}
	for j := range f.cost {
		f.cost[j] *= f.costScale
	}
	for i, r := range p.rows {
		f.low[n+i], f.high[n+i] = -r.high*f.rowScale[i], -r.low*f.rowScale[i]
	}
	f.fill(p)
	return f
}

// scale brings the entries near 1 by turns over rows and columns: each is divided by the geometric
// mean of its smallest and largest entry, to a power of two.
func (f *model) scale(p *Problem) {
	for i := range f.rowScale {
		f.rowScale[i] = 1
	}
	for j := range f.colScale {
		f.colScale[j] = 1
	}
	const passes = 4
	for range passes {
		small, large := make([]float64, f.n), make([]float64, f.n)
		for j := range small {
			small[j] = math.Inf(1)
		}
		for i, r := range p.rows {
			lo, hi := math.Inf(1), 0.
			for _, t := range r.terms {
				v := math.Abs(t.Times) * f.colScale[t.Column]
				lo, hi = min(lo, v), max(hi, v)
			}
			if hi > 0 {
				f.rowScale[i] = 1 / math.Sqrt(lo*hi)
			}
			for _, t := range r.terms {
				v := math.Abs(t.Times) * f.rowScale[i]
				small[t.Column], large[t.Column] = min(small[t.Column], v), max(large[t.Column], v)
			}
		}
		for j := range small {
			if large[j] > 0 {
				f.colScale[j] = 1 / math.Sqrt(small[j]*large[j])
			}
		}
	}
	for i, v := range f.rowScale {
		f.rowScale[i] = powerOfTwo(v)
	}
	for j, v := range f.colScale {
		f.colScale[j] = powerOfTwo(v)
	}
}

func (f *model) fill(p *Problem) {
	entries := 0
	f.byRow.start = make([]int, f.m+1)
	f.byColumn.start = make([]int, f.n+1)
	for i, r := range p.rows {
		entries += len(r.terms)
		f.byRow.start[i+1] = entries
		for _, t := range r.terms {
			f.byColumn.start[t.Column+1]++
		}
	}
	for j := range f.n {
		f.byColumn.start[j+1] += f.byColumn.start[j]
	}
	f.byRow.index, f.byRow.value = make([]int, entries), make([]float64, entries)
	f.byColumn.index, f.byColumn.value = make([]int, entries), make([]float64, entries)
	next := make([]int, f.n)
	copy(next, f.byColumn.start)
	k := 0
	for i, r := range p.rows {
		for _, t := range r.terms {
			j, v := int(t.Column), t.Times*f.rowScale[i]*f.colScale[t.Column]
			f.byRow.index[k], f.byRow.value[k] = j, v
			f.byColumn.index[next[j]], f.byColumn.value[next[j]] = i, v
			next[j]++
			k++
		}
	}
}

// powerOfTwo returns the power of two nearest to v on a logarithmic scale.
func powerOfTwo(v float64) float64 {
	if v <= 0 || math.IsInf(v, 0) || math.IsNaN(v) {
		return 1
	}
	return math.Ldexp(1, int(math.Round(math.Log2(v))))
}
