package risk

import (
	"fmt"
	"math"
)

// Estimate is a value with its error, in one measure for all that are compared: a standard deviation,
// or half the width of an interval.
type Estimate struct{ Value, Error float64 }

// Told is what may be said of two estimates.
type Told string

// What may be said.
const (
	NoDifference Told = "no difference"
	More         Told = "more"
	Less         Told = "less"
)

// Difference is a - b with its error.
type Difference struct {
	By, Error float64
	Told      Told // of a against b
}

// Tell compares two estimates whose errors have the correlation corr. A difference no larger than its
// own error, sqrt(ea^2 + eb^2 - 2*corr*ea*eb), is called none. Two fields judged by one instrument err
// together, and small differences between them can be told; independent guesses cannot. Source:
// [source.NoDifference].
func Tell(a, b Estimate, corr float64) (Difference, error) {
	for i, e := range []Estimate{a, b} {
		if !finite(e.Value, e.Error) || e.Error < 0 {
			return Difference{}, fmt.Errorf("estimate %d is %g with error %g: want a number, and an error of 0 or over", i+1, e.Value, e.Error)
		}
	}
	if !(corr >= -1 && corr <= 1) {
		return Difference{}, fmt.Errorf("correlation %g: accepted -1 to 1", corr)
	}
	// A square that should be 0 may come out a hair below.
	square := max(0, a.Error*a.Error+b.Error*b.Error-2*corr*a.Error*b.Error)
	d := Difference{By: a.Value - b.Value, Error: math.Sqrt(square), Told: NoDifference}
	switch {
	case d.By > d.Error:
		d.Told = More
	case d.By < -d.Error:
		d.Told = Less
	}
	return d, nil
}

// Level returns the places of the best value and of all that cannot be told from it, in order. Errors
// are taken as independent. Nothing given is nothing returned.
func Level(list []Estimate) ([]int, error) {
	best := -1
	for i, e := range list {
		if best < 0 || e.Value > list[best].Value {
			best = i
		}
	}
	var level []int
	for i, e := range list {
		d, err := Tell(list[best], e, 0)
		if err != nil {
			return nil, err
		}
		if i == best || d.Told == NoDifference {
			level = append(level, i)
		}
	}
	return level, nil
}
