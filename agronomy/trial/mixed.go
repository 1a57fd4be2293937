package trial

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// Model is y = X b + sum of Z u + e: a mean, fixed factors, and random ones whose effects are drawn
// from a normal spread of their own. Any of them may be a [Cross]; plots may be missing.
type Model struct {
	Response []float64
	Fixed    []Factor // each against its first level; the mean is always there
	Random   []Factor
}

// Component is a random term with its variance.
type Component struct {
	Term     string
	Levels   int
	Variance float64 // 0 where the data speak against any
}

// Effect is one estimate: a fixed effect, or the shrunken effect (BLUP) of a random level.
type Effect struct {
	Term, Level string
	Value       float64
	SE          float64 // of a random level: of what is still not known of it
}

// Fit is a fitted model.
type Fit struct {
	Components []Component
	Residual   float64 // variance
	Fixed      []Effect
	Random     []Effect // term by term in the order of the model, level by level
	Mean       float64  // of the fixed part, levels weighted alike
	Criterion  float64  // -2 log of the restricted likelihood, all constants in
	Plots      int
	Aliased    []string // fixed levels that the plots cannot tell from those before them

	e     *equations
	terms []Factor
	sigma float64 // residual standard deviation
}

// mostDense bounds what must be solved at once; the work grows as its cube.
const mostDense = 1500

// column is one fixed column: what it stands for and its weight in the overall mean.
type column struct {
	term, level string
	weight      float64
}

// FitREML fits the model by restricted maximum likelihood. Variances that the data put at zero are
// exactly zero. It refuses what cannot be told apart, naming the term.
func FitREML(m Model) (*Fit, error) {
	mean, squares, err := m.check()
	if err != nil {
		return nil, err
	}
	scale := math.Sqrt(squares / float64(len(m.Response)))
	y := make([]float64, len(m.Response))
	for i, v := range m.Response {
		y[i] = (v - mean) / scale
	}
	columns, fixed := m.fixedColumns()
	if len(columns) > mostDense {
		return nil, fmt.Errorf("%d fixed effects, at most %d can be solved: make a column with many levels random", len(columns), mostDense)
	}
	columns, fixed, aliased := independent(columns, fixed)
	p := len(columns)
	if len(y)-p < 1 {
		return nil, fmt.Errorf("%d plots for %d fixed effects: nothing is left to judge them by; leave out a fixed column or give more plots", len(y), p)
	}
	e := newEquations(m.Random, fixed, p)
	if wide := e.columns - e.absorbed; wide > mostDense {
		return nil, fmt.Errorf("%d effects must be solved at once, at most %d can: leave out a term with many levels, or fit fewer environments", wide, mostDense)
	}
	if err := m.told(e); err != nil {
		return nil, err
	}
	s := &search{e: e, y: y, rest: float64(len(y) - p)}
	if err := s.run(); err != nil {
		return nil, err
	}
	if s.rss/s.rest < 1e-20 {
		return nil, fmt.Errorf("the model fits every plot without error: the values cannot be those of a trial, or a term stands for single plots")
	}
	f := m.answer(s, columns, mean, scale)
	f.Aliased = aliased
	return f, nil
}

func (m Model) check() (mean, squares float64, err error) {
	all := slices.Concat(m.Fixed, m.Random)
	if err := checkPlots(m.Response, all...); err != nil {
		return 0, 0, err
	}
	if len(m.Random) == 0 {
		return 0, 0, fmt.Errorf("no random term is given: name at least one, the entries or the environments")
	}
	var differ bool
	if mean, squares, differ = spread(m.Response); !differ {
		return 0, 0, fmt.Errorf("all %d values are %g: nothing differs, so nothing can be told", len(m.Response), mean)
	}
	for i, f := range all {
		if err := oneLevel(f); err != nil {
			return 0, 0, err
		}
		for _, g := range all[:i] {
			if f.sameAs(g) {
				return 0, 0, fmt.Errorf("%s and %s group the plots alike and cannot be told apart: leave one out", g.Name, f.Name)
			}
		}
	}
	for _, f := range m.Random {
		if len(f.Levels) == len(m.Response) {
			return 0, 0, fmt.Errorf("each plot is a level of %s by itself: it cannot be told from the residual; leave it out", f.Name)
		}
	}
	return mean, squares, nil
}

// told refuses a random term that the fixed part already holds whole: its levels leave nothing when
// the fixed columns are taken out.
func (m Model) told(e *equations) error {
	ratios := make([]float64, len(m.Random))
	for k := range m.Random {
		clear(ratios)
		ratios[k] = 1
		if !e.factor(ratios) || !e.invert() {
			return fmt.Errorf("the fixed columns cannot be told apart: leave one out")
		}
		trace := float64(len(m.Random[k].Levels))
		for _, v := range e.own[e.first[k] : e.first[k]+len(m.Random[k].Levels)] {
			trace -= v
		}
		if trace < 1e-9 {
			return fmt.Errorf("random term %s lies wholly inside the fixed columns: take it out of one of the two", m.Random[k].Name)
		}
	}
	return nil
}

// fixedColumns codes each fixed factor against its first level. A crossing whose two parts are fixed
// too takes only cells that are first in neither, as the parts hold the rest.
func (m Model) fixedColumns() (columns []column, fixed [][]int) {
	columns = []column{{term: "mean", weight: 1}}
	fixed = make([][]int, len(m.Response))
	for plot := range fixed {
		fixed[plot] = []int{0}
	}
	byName := map[string]Factor{}
	for _, f := range m.Fixed {
		byName[f.Name] = f
	}
	for _, f := range m.Fixed {
		skip := map[string]bool{f.Levels[0]: true}
		cells := float64(len(f.Levels))
		left, right, _ := strings.Cut(f.Name, ":")
		a, okA := byName[left]
		b, okB := byName[right]
		if okA && okB {
			cells = float64(len(a.Levels) * len(b.Levels))
			for plot, l := range f.At {
				if a.At[plot] == 0 || b.At[plot] == 0 {
					skip[f.Levels[l]] = true
				}
			}
		}
		at := make([]int, len(f.Levels))
		for l, name := range f.Levels {
			if skip[name] {
				at[l] = -1
				continue
			}
			at[l] = len(columns)
			columns = append(columns, column{f.Name, name, 1 / cells})
		}
		for plot, l := range f.At {
			if at[l] >= 0 {
				fixed[plot] = append(fixed[plot], at[l])
			}
		}
	}
	return columns, fixed
}

// independent drops the columns that those before them already make up, by elimination of X'X, and
// names them.
func independent(columns []column, fixed [][]int) (kept []column, keptFixed [][]int, aliased []string) {
	n := len(columns)
	x := make([][]float64, n)
	for i := range x {
		x[i] = make([]float64, n)
	}
	for _, at := range fixed {
		for _, a := range at {
			for _, b := range at {
				x[a][b]++
			}
		}
	}
	whole := make([]float64, n)
	for i := range n {
		whole[i] = x[i][i]
	}
	place := make([]int, n)
	for i := range n {
		if x[i][i] <= 1e-9*whole[i] {
			place[i] = -1
			aliased = append(aliased, columns[i].term+" "+columns[i].level)
			continue
		}
		place[i] = len(kept)
		kept = append(kept, columns[i])
		for j := i + 1; j < n; j++ {
			f := x[j][i] / x[i][i]
			if f == 0 {
				continue
			}
			for l := i; l < n; l++ {
				x[j][l] -= f * x[i][l]
			}
		}
	}
	keptFixed = make([][]int, len(fixed))
	for plot, at := range fixed {
		for _, a := range at {
			if place[a] >= 0 {
				keptFixed[plot] = append(keptFixed[plot], place[a])
			}
		}
	}
	return kept, keptFixed, aliased
}

// answer turns the search's scaled solution back into the trial's own unit.
func (m Model) answer(s *search, columns []column, mean, scale float64) *Fit {
	residual := s.rss / s.rest
	sigma := scale * math.Sqrt(residual)
	e := s.e
	f := &Fit{
		Residual: sigma * sigma, Plots: len(s.y), e: e, sigma: sigma, terms: m.Random,
		Criterion: e.logDet + s.rest*(1+math.Log(2*math.Pi*residual*scale*scale)),
	}
	for k, t := range m.Random {
		f.Components = append(f.Components, Component{t.Name, len(t.Levels), s.ratios[k] * sigma * sigma})
		for l, name := range t.Levels {
			c := e.first[k] + l
			f.Random = append(f.Random, Effect{t.Name, name, e.scale[c] * s.x[c] * scale, sigma * e.scale[c] * math.Sqrt(e.own[c])})
		}
	}
	for j, col := range columns {
		c := e.random + j
		value := s.x[c] * scale
		if j == 0 {
			value += mean
		}
		f.Fixed = append(f.Fixed, Effect{col.term, col.level, value, sigma * math.Sqrt(e.own[c])})
		f.Mean += col.weight * value
	}
	return f
}

// Effects returns the shrunken effects of a random term, level by level.
func (f *Fit) Effects(term string) []Effect {
	var list []Effect
	for _, r := range f.Random {
		if r.Term == term {
			list = append(list, r)
		}
	}
	return list
}

// Unknown is the covariance of what is still not known of the levels of a random term, Var(u - BLUP),
// in the order of their levels. Without such a term it is nil.
func (f *Fit) Unknown(term string) [][]float64 {
	k := slices.IndexFunc(f.terms, func(t Factor) bool { return t.Name == term })
	if k < 0 {
		return nil
	}
	n, first := len(f.terms[k].Levels), f.e.first[k]
	cov := make([][]float64, n)
	c := make([]float64, f.e.columns)
	for l := range n {
		clear(c)
		c[first+l] = 1
		f.e.solve(c)
		cov[l] = make([]float64, n)
		for j := range n {
			cov[l][j] = f.sigma * f.sigma * f.e.scale[first+l] * f.e.scale[first+j] * c[first+j]
		}
	}
	return cov
}
