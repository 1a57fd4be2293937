package nws

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

// piece is a value that holds, or is the sum, from one time to another.
type piece struct {
	start, end time.Time
	value      float64
}

// duration is the part of ISO 8601 that the grids use: P#D, PT#H, P#DT#H.
var duration = regexp.MustCompile(`^P(?:([0-9]{1,3})D)?(?:T([0-9]{1,4})H)?$`)

// longest is the longest interval, and how far from its issue a grid may reach (choice).
const longest = 31 * 24 * time.Hour

// parseInterval reads a validTime: a start, a slash and a duration.
func parseInterval(s string) (start, end time.Time, err error) {
	from, length, ok := strings.Cut(s, "/")
	if !ok {
		return start, end, fmt.Errorf("validTime %.60q: want a start and a duration, such as 2026-06-12T00:00:00+00:00/PT6H", s)
	}
	if start, err = time.Parse(time.RFC3339, from); err != nil {
		return start, end, fmt.Errorf("validTime %.60q: its start is no time such as 2026-06-12T00:00:00+00:00", s)
	}
	m := duration.FindStringSubmatch(length)
	if m == nil {
		return start, end, fmt.Errorf("validTime %.60q: accepted durations are PT#H, P#D and P#DT#H", s)
	}
	days, _ := strconv.Atoi("0" + m[1]) // digits only, few of them
	hours, _ := strconv.Atoi("0" + m[2])
	d := time.Duration(24*days+hours) * time.Hour
	if d <= 0 || d > longest {
		return start, end, fmt.Errorf("validTime %.60q: accepted durations are 1 hour to %d days", s, longest/(24*time.Hour))
	}
	return start.UTC(), start.UTC().Add(d), nil
}

// overlap is how much of a piece lies between two times.
func (p piece) overlap(from, to time.Time) time.Duration {
	if p.start.After(from) {
		from = p.start
	}
	if p.end.Before(to) {
		to = p.end
	}
	return max(0, to.Sub(from))
}

// middle is the time halfway through a piece.
func (p piece) middle() time.Time { return p.start.Add(p.end.Sub(p.start) / 2) }

// covered reports whether the pieces, in order of their start, leave no gap between two times.
func covered(pieces []piece, from, to time.Time) bool {
	for _, p := range pieces {
		if !p.start.After(from) && p.end.After(from) {
			from = p.end
		}
	}
	return !from.Before(to)
}

// touching lists the pieces of which a part lies between two times.
func touching(pieces []piece, from, to time.Time) []piece {
	return slices.DeleteFunc(slices.Clone(pieces), func(p piece) bool { return p.overlap(from, to) == 0 })
}

// amount is the sum of totals between two times, each by the share of its hours that lies there.
func amount(totals []piece, from, to time.Time) (sum float64) {
	for _, p := range totals {
		sum += p.value * float64(p.overlap(from, to)) / float64(p.end.Sub(p.start))
	}
	return sum
}

// byDays cuts what is longer than a day into days and a rest: equal values of neighbouring days come
// as one piece.
func byDays(pieces []piece) (out []piece) {
	const day = 24 * time.Hour
	for _, p := range pieces {
		for p.end.Sub(p.start) > day {
			out = append(out, piece{p.start, p.start.Add(day), p.value})
			p.start = p.start.Add(day)
		}
		out = append(out, p)
	}
	return out
}
