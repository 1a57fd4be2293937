package main

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
)

// timing is how long somebody took over something, and what came out.
type timing struct {
	what, who string
	seconds   float64
	sums      []float64
}

const (
	cName = "C"
	// mostOverC is how many times as long as C our kernels may take.
	mostOverC = 1.7
	// mostSeason is the same of the season kernel, most of which is an exponential a day.
	mostSeason = 2.0
	// within is how far sums of eleven million numbers may differ, relative, by the order of adding.
	within = 1e-11
)

// subject is one thing that everybody does.
type subject struct {
	what, title string
	sums        []float64 // by everybody
}

// most is how many times as long as C ours may take.
func (s subject) most() float64 {
	if s.what == "S" {
		return mostSeason
	}
	return mostOverC
}

// subjects are the kernels, with their sums as computed in C, NumPy, numba, R and Octave
// [source.BucketCheck], and the files, with what pandas and data.table find in them: number and sum of
// highest and lowest temperatures and of rain.
func subjects() []subject {
	return []subject{
		{"A", "degree-days, 1000 fields, 30 years", []float64{97192050.198991, 3774.98339856461}},
		{"B", "water and cutting, 1000 fields, 30 years", []float64{19478616.109522, 6871440.328295, 122446, 867468.673552}},
		{"S", "seasons of growth, 1000 stands, 30 years", []float64{324019249.566101, 444995372.802129, 6656476.111329, 22282.28328273575, 2386851.631589}},
		{"dly", "read 50 years, fixed width", []float64{18263, 2420507, 18263, 811398, 18263, 441889}},
		{"csv", "read 5 years, by-station CSV", []float64{1827, 259519, 1827, 103447, 1827, 49735}},
	}
}

// differing says whose sums are not everybody's.
func differing(times []timing) (wrong []string) {
	for _, s := range subjects() {
		for _, t := range times {
			if t.what == s.what && !slices.EqualFunc(t.sums, s.sums, func(a, b float64) bool {
				return math.Abs(a-b) <= within*math.Abs(b)
			}) {
				wrong = append(wrong, fmt.Sprintf("%s: %s finds %.11g, want %.11g", s.title, t.who, t.sums, s.sums))
			}
		}
	}
	return wrong
}

// slow says which of our kernels take too long beside C; none where C was not run.
func slow(times []timing) (wrong []string) {
	for _, s := range subjects() {
		mine, c := of(times, s.what, us), of(times, s.what, cName)
		if mine == nil || c == nil || mine.seconds <= s.most()*c.seconds {
			continue
		}
		wrong = append(wrong, fmt.Sprintf("%s: ours takes %.2f times as long as C, at most %g wanted", s.title, mine.seconds/c.seconds, s.most()))
	}
	return wrong
}

// of is somebody's first time over something.
func of(times []timing, what, who string) *timing {
	for i := range times {
		if name, _, _ := strings.Cut(times[i].who, ","); times[i].what == what && name == who {
			return &times[i]
		}
	}
	return nil
}

// faster takes over times that were bettered.
func faster(times, again []timing) []timing {
	for _, a := range again {
		for i := range times {
			if t := &times[i]; t.what == a.what && t.who == a.who && a.seconds < t.seconds {
				*t = a
			}
		}
	}
	return times
}

// table prints everybody's times beside ours.
func table(w io.Writer, times []timing) {
	for _, s := range subjects() {
		mine := of(times, s.what, us)
		if mine == nil {
			continue
		}
		fmt.Fprintf(w, "%-44s %12s %14s\n", s.title, "best, ms", "times as long")
		for _, t := range times {
			if t.what == s.what {
				fmt.Fprintf(w, "  %-42s %12.2f %14.2f\n", t.who, 1000*t.seconds, t.seconds/mine.seconds)
			}
		}
		fmt.Fprintln(w)
	}
}
