package trial

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// floor is the variance ratio, times plots a level, below which a variance counts as zero.
const floor = 1e-8

// mostIterations ends a search that does not settle.
const mostIterations = 400

// search finds the variance ratios (each term's variance by the residual's) that make the
// restricted likelihood greatest, none below zero. [source.MixedModel]
//
// With P0 the projection of [equations.project], d = log|M| + (n-p) log(y'P0 y) and its slope in the
// ratio of term k is tr(Z'P0 Z) - (n-p) |Z'P0 y|^2 / y'P0 y. Steps are Newton's with the average
// information in place of the second derivative [source.AverageInfo]; where one does not
// lower d, the multiplicative step is taken [source.MultipliedSteps], which always does.
type search struct {
	e       *equations
	y       []float64
	rest    float64   // n - p
	least   []float64 // by term
	ratios  []float64
	d, rss  float64
	left    []float64 // P0 y
	x       []float64
	slope   []float64
	traces  []float64
	squares []float64 // |Z'P0 y|^2
}

// value is d at the ratios, +Inf where the equations fail there.
func (s *search) value(ratios []float64) (d, rss float64, left, x []float64) {
	if !s.e.factor(ratios) {
		return math.Inf(1), 0, nil, nil
	}
	left, x = s.e.project(s.y)
	// y'P0 y as a sum of squares, which no subtraction spoils.
	for _, r := range left {
		rss += r * r
	}
	for _, u := range x[:s.e.random] {
		rss += u * u
	}
	return s.e.logDet + s.rest*math.Log(rss), rss, left, x
}

// at moves the search to the ratios and works out the slopes there.
func (s *search) at(ratios []float64) error {
	s.ratios = ratios
	s.d, s.rss, s.left, s.x = s.value(ratios)
	if math.IsInf(s.d, 0) || math.IsNaN(s.d) || !s.e.invert() {
		return fmt.Errorf("the model leaves nothing to the residual, or its equations cannot be solved: leave out a term")
	}
	for k, t := range s.e.terms {
		var own, square float64
		for _, v := range s.e.own[s.e.first[k] : s.e.first[k]+len(t.Levels)] {
			own += v
		}
		for _, v := range t.sums(s.left) {
			square += v * v
		}
		s.traces[k] = (float64(len(t.Levels)) - own) / ratios[k]
		s.squares[k] = square
		s.slope[k] = s.traces[k] - s.rest*square/s.rss
	}
	return nil
}

// unit is a ratio of term k that would just be seen: levels by plots. Slopes are judged over it, so
// that a term near zero is not taken for settled because its ratio is small.
func (s *search) unit(k int) float64 { return s.least[k] / floor }

// span is the ratio over which term k's slope is judged.
func (s *search) span(k int) float64 { return max(s.ratios[k], s.unit(k)) }

// held reports whether term k stands at zero and wants to stay there. What the slope may be below zero
// is what rounding does to it at the floor.
func (s *search) held(k int) bool {
	return s.ratios[k] <= s.least[k] && s.slope[k]*s.unit(k) >= -1e-7*float64(len(s.e.terms[k].Levels))
}

// settled reports whether no free ratio has a slope worth following: one that rounding does not make
// by itself, near the floor or where a ratio is vast.
func (s *search) settled() bool {
	const worth, rounding = 1e-8, 1e-15
	vast := 0.0
	for k := range s.ratios {
		vast = max(vast, s.ratios[k]/s.unit(k))
	}
	for k := range s.ratios {
		noise := rounding * (20*vast + float64(len(s.e.terms[k].Levels))*s.unit(k)/s.ratios[k])
		if !s.held(k) && math.Abs(s.slope[k])*s.span(k) > worth+noise {
			return false
		}
	}
	return true
}

// newton is the average-information step, nil where it cannot be had.
func (s *search) newton() []float64 {
	const longest, ridge = 100, 0.05
	var free []int
	for k := range s.ratios {
		if !s.held(k) {
			free = append(free, k)
		}
	}
	if len(free) == 0 {
		return nil
	}
	working := make([][]float64, len(free))
	projected := make([][]float64, len(free))
	for i, k := range free {
		t := s.e.terms[k]
		sums := t.sums(s.left)
		working[i] = make([]float64, len(s.y))
		for plot, l := range t.At {
			working[i][plot] = sums[l]
		}
		projected[i], _ = s.e.project(working[i])
	}
	information := mat.NewSymDense(len(free), nil)
	against := mat.NewVecDense(len(free), nil)
	size := make([]float64, len(free))
	for i, k := range free {
		for j := i; j < len(free); j++ {
			var a float64
			for plot, w := range working[i] {
				a += w * projected[j][plot]
			}
			v := s.rest * (a/s.rss - s.squares[k]*s.squares[free[j]]/(s.rss*s.rss))
			information.SetSym(i, j, v)
		}
		// While a ratio is far below the low point d falls in its logarithm almost without bend, and
		// rounding leaves nothing of the information: no more than a long step is made of it.
		bend := math.Abs(s.slope[k]) / (longest * s.span(k))
		information.SetSym(i, i, max(information.At(i, i), bend))
		size[i] = math.Sqrt(information.At(i, i))
	}
	for i, k := range free {
		for j := i; j < len(free); j++ {
			information.SetSym(i, j, information.At(i, j)/(size[i]*size[j]))
		}
		against.SetVec(i, -s.slope[k]/size[i])
	}
	var chol mat.Cholesky
	if !chol.Factorize(information) || chol.Cond() > 1e8 {
		for i := range free {
			information.SetSym(i, i, 1+ridge)
		}
		if !chol.Factorize(information) {
			return nil
		}
	}
	if err := chol.SolveVecTo(against, against); err != nil {
		return nil
	}
	step := make([]float64, len(s.ratios))
	for i, k := range free {
		step[k] = against.AtVec(i) / size[i]
	}
	return step
}

// along goes a part of the step from where the search stands, no ratio below its floor, and none more
// than some times up at once: far from the low point the information says little of how far to go.
func (s *search) along(step []float64, part float64) []float64 {
	const growth = 50
	next := slices.Clone(s.ratios)
	for k := range next {
		next[k] = min(max(s.least[k], next[k]+part*step[k]), growth*s.span(k))
	}
	return next
}

// multiplied is the step that always lowers d.
func (s *search) multiplied() []float64 {
	next := slices.Clone(s.ratios)
	for k := range next {
		if s.traces[k] > 0 {
			next[k] = max(s.least[k], next[k]*math.Sqrt(s.rest*s.squares[k]/(s.rss*s.traces[k])))
		}
	}
	return next
}

func (s *search) next(iteration int) []float64 {
	const early, halvings = 2, 6
	if iteration < early {
		return s.multiplied()
	}
	if step := s.newton(); step != nil {
		for part := 1.0; part > math.Pow(0.5, halvings); part /= 2 {
			next := s.along(step, part)
			if d, _, _, _ := s.value(next); d <= s.d+1e-10*(1+math.Abs(s.d)) {
				return next
			}
		}
	}
	return s.multiplied()
}

// run searches from equal shares and leaves zeros exactly zero.
func (s *search) run() error {
	terms := len(s.e.terms)
	s.slope, s.traces, s.squares = make([]float64, terms), make([]float64, terms), make([]float64, terms)
	s.least = make([]float64, terms)
	start := make([]float64, terms)
	for k, t := range s.e.terms {
		s.least[k] = floor * float64(len(t.Levels)) / float64(len(s.y))
		start[k] = 1
	}
	if err := s.at(start); err != nil {
		return err
	}
	// Where rounding shakes the slopes more than settled allows, the low point is reached all the same
	// once d no longer falls.
	const patience, still = 20, 1e-9
	mark := s.d
	for i := 0; !s.settled(); i++ {
		if i == mostIterations {
			return fmt.Errorf("the variances do not settle in %d steps: the data cannot tell the random terms apart; leave one out", mostIterations)
		}
		if err := s.at(s.next(i)); err != nil {
			return err
		}
		if i%patience == patience-1 {
			if mark-s.d < still*(1+math.Abs(s.d)) {
				break
			}
			mark = s.d
		}
	}
	for k := range s.ratios {
		if s.ratios[k] <= s.least[k] {
			s.ratios[k] = 0
		}
	}
	s.d, s.rss, s.left, s.x = s.value(s.ratios)
	if math.IsInf(s.d, 0) || math.IsNaN(s.d) || !s.e.invert() {
		return fmt.Errorf("the equations cannot be solved at the variances found: leave out a term")
	}
	return nil
}
