// Package trial judges variety trials: analysis of variance of randomised blocks and split plots with
// the least difference that counts, mixed models by REML with shrunken entry means, stability over
// environments, selection indices, and what a plan must hold to show a difference worth seeing.
package trial

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Factor is one way of grouping the plots: variety, block, site, or a crossing of two.
type Factor struct {
	Name   string
	Levels []string // that occur, in the order in which answers list them
	At     []int    // level of each plot
}

// NewFactor groups the plots by the words of one column. Levels are ordered as numbers where all of
// them are, else as text.
func NewFactor(name string, words []string) Factor {
	levels := slices.Clone(words)
	slices.Sort(levels)
	levels = slices.Compact(levels)
	numbers := make(map[string]float64, len(levels))
	for _, l := range levels {
		if v, err := strconv.ParseFloat(l, 64); err == nil && !math.IsNaN(v) {
			numbers[l] = v
		}
	}
	if len(numbers) == len(levels) {
		slices.SortStableFunc(levels, func(a, b string) int { return cmp.Compare(numbers[a], numbers[b]) })
	}
	index := make(map[string]int, len(levels))
	for i, l := range levels {
		index[l] = i
	}
	f := Factor{Name: name, Levels: levels, At: make([]int, len(words))}
	for i, w := range words {
		f.At[i] = index[w]
	}
	return f
}

// Cross groups the plots by two factors at once. Only crossings that occur are levels, named a:b.
func Cross(a, b Factor) Factor {
	width := len(b.Levels)
	codes := make([]int, len(a.At))
	for i := range codes {
		codes[i] = a.At[i]*width + b.At[i]
	}
	seen := slices.Clone(codes)
	slices.Sort(seen)
	seen = slices.Compact(seen)
	f := Factor{Name: a.Name + ":" + b.Name, Levels: make([]string, len(seen)), At: make([]int, len(codes))}
	for i, c := range seen {
		f.Levels[i] = a.Levels[c/width] + ":" + b.Levels[c%width]
	}
	for i, c := range codes {
		f.At[i], _ = slices.BinarySearch(seen, c)
	}
	return f
}

// counts is how many plots each level has.
func (f Factor) counts() []float64 {
	n := make([]float64, len(f.Levels))
	for _, l := range f.At {
		n[l]++
	}
	return n
}

// sums adds up the values by level.
func (f Factor) sums(values []float64) []float64 {
	s := make([]float64, len(f.Levels))
	for i, l := range f.At {
		s[l] += values[i]
	}
	return s
}

// nestedIn reports whether each level of f lies inside one level of g.
func (f Factor) nestedIn(g Factor) bool {
	inside := make([]int, len(f.Levels))
	for i, l := range f.At {
		switch inside[l] {
		case 0:
			inside[l] = g.At[i] + 1
		case g.At[i] + 1:
		default:
			return false
		}
	}
	return true
}

// sameAs reports whether two factors part the plots alike.
func (f Factor) sameAs(g Factor) bool {
	return len(f.Levels) == len(g.Levels) && f.nestedIn(g) && g.nestedIn(f)
}

// checkPlots refuses what no analysis here can use.
func checkPlots(values []float64, factors ...Factor) error {
	if len(values) == 0 {
		return fmt.Errorf("no plot has a value: give at least one row for each plot that was harvested")
	}
	for i, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) || math.Abs(v) > 1e100 {
			return fmt.Errorf("plot %d has the value %g: give a finite number within 1e100, or leave the plot out", i+1, v)
		}
	}
	for _, f := range factors {
		if len(f.At) != len(values) {
			return fmt.Errorf("%s is given for %d plots and the values for %d: give one for each", f.Name, len(f.At), len(values))
		}
	}
	return nil
}

// spread tells mean and sum of squares about it, and whether the values differ at all beyond the
// last digits of a float.
func spread(values []float64) (mean, squares float64, differ bool) {
	for _, v := range values {
		mean += v / float64(len(values))
	}
	largest := 0.0
	for _, v := range values {
		squares += (v - mean) * (v - mean)
		largest = max(largest, math.Abs(v))
	}
	return mean, squares, math.Sqrt(squares/float64(len(values))) > 1e-12*largest
}

// oneLevel refuses a factor that compares nothing.
func oneLevel(f Factor) error {
	if len(f.Levels) < 2 {
		return fmt.Errorf("%s has one level only, %s: it compares nothing; leave it out or give plots of another", f.Name, strings.Join(f.Levels, ""))
	}
	return nil
}
