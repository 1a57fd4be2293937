package forage

import (
	"fmt"
	"math"
)

// Witnessed is one lot that two methods predicted and a laboratory tested.
type Witnessed struct{ First, Second, Lab float64 }

// SharedErrors is how far the errors of two methods go together. Source: [source.SharedErrors].
type SharedErrors struct {
	Corr    float64
	N       int  // lots there were
	Learned bool // from the lots; else it is the one taken before there are enough
}

// Bounds of a correlation that is learned: at 1 two estimates have no mean, and methods that err
// against each other are taken for independent.
const leastShared, mostShared = 0, 0.95

// ErrorsShared estimates the correlation of two methods' errors, for [Combine], from lots that a
// laboratory tested. Both differences hold the laboratory's own error, a standard deviation of labSD,
// which is taken out. Before there are 15 lots, and where the laboratory's error would explain all of a
// difference, it is usual.
func ErrorsShared(lots []Witnessed, labSD, usual float64) SharedErrors {
	n := float64(len(lots))
	s := SharedErrors{Corr: usual, N: len(lots)}
	if len(lots) < slopePairs {
		return s
	}
	var meanA, meanB float64
	for _, l := range lots {
		meanA += (l.First - l.Lab) / n
		meanB += (l.Second - l.Lab) / n
	}
	var varA, varB, both float64
	for _, l := range lots {
		a, b := l.First-l.Lab-meanA, l.Second-l.Lab-meanB
		varA += a * a / (n - 1)
		varB += b * b / (n - 1)
		both += a * b / (n - 1)
	}
	own := labSD * labSD
	if !(varA > own) || !(varB > own) {
		return s
	}
	s.Corr = min(max((both-own)/math.Sqrt((varA-own)*(varB-own)), leastShared), mostShared)
	s.Learned = true
	return s
}

// String says where the correlation comes from.
func (s SharedErrors) String() string {
	if s.Learned {
		return fmt.Sprintf("correlation %.2f, from %d tested lots", s.Corr, s.N)
	}
	return fmt.Sprintf("correlation %.2f, taken as usual until %d lots are tested (%d so far)", s.Corr, slopePairs, s.N)
}
