package outlook

import (
	"math"
	"slices"
	"time"

	"haywarden/agronomy/heat"
	"haywarden/agronomy/unit"
	"haywarden/weather"
)

// Clock is a heat sum of this year beside the station's past years.
type Clock struct {
	Spec   heat.Spec
	From   unit.Day
	Sum    []float64   // running total through each day from From to yesterday
	Filled int         // days of Sum taken from the usual value because none was measured
	Lent   int         // days of Sum measured at a neighbouring station, or between two days' own
	Past   [][]float64 // running totals of past years over the whole season, a row a year
}

// seasonDays is how far a clock runs: through the end of November for either start.
const seasonDays = 335

// clock is a heat sum with its past years beside it.
func (s *Sky) clock(spec heat.Spec, from unit.Day) Clock {
	c := s.HeatSince(from, spec)
	first, _ := s.series.Years()
	for y := first; y < s.Date.Year(); y++ {
		if row, ok := s.pastYear(spec, from.InYear(y)); ok {
			c.Past = append(c.Past, row)
		}
	}
	return c
}

// HeatSince is the heat sum of the given method from a day of this year through yesterday, without
// past years.
func (s *Sky) HeatSince(from unit.Day, spec heat.Spec) Clock {
	c := Clock{Spec: spec, From: from}
	var total float64
	for d := from; d < s.Date; d++ {
		maxF, minF, filled := s.temperatures(d)
		if h := spec.Day(minF, maxF); !math.IsNaN(h) {
			total += h
		}
		switch {
		case filled:
			c.Filled++
		case s.lent(d):
			c.Lent++
		}
		c.Sum = append(c.Sum, total)
	}
	return c
}

// lent reports whether a day's temperatures are not the station's own.
func (s *Sky) lent(d unit.Day) bool {
	i, ok := s.series.Index(d)
	return ok && (s.series.Marks[i][weather.TMax] == weather.Filled || s.series.Marks[i][weather.TMin] == weather.Filled)
}

// pastYear is one past year's running total; not ok where too much of it is missing.
func (s *Sky) pastYear(spec heat.Spec, from unit.Day) ([]float64, bool) {
	if from < s.series.First {
		return nil, false
	}
	row := make([]float64, 0, seasonDays)
	last := unit.DateOf(from.Year(), time.December, 31)
	missing := 0
	var total float64
	for d := from; len(row) < seasonDays && d <= last; d++ {
		maxF, minF, filled := s.temperatures(d)
		if filled {
			missing++
		}
		if h := spec.Day(minF, maxF); !math.IsNaN(h) {
			total += h
		}
		row = append(row, total)
	}
	return row, float64(missing) <= mostMissing*float64(len(row))
}

// Now is the total through yesterday, 0 before the clock's start.
func (c Clock) Now() float64 {
	if len(c.Sum) == 0 {
		return 0
	}
	return c.Sum[len(c.Sum)-1]
}

// On is the total through a day of this year that has passed; 0 before the start.
func (c Clock) On(d unit.Day) float64 {
	i := min(int(d-c.From), len(c.Sum)-1)
	if i < 0 {
		return 0
	}
	return c.Sum[i]
}

// Reached is the morning on which the total had come to a target; not ok where it has not yet.
func (c Clock) Reached(target float64) (unit.Day, bool) {
	i, _ := slices.BinarySearch(c.Sum, target)
	return c.From + unit.Day(i) + 1, i < len(c.Sum)
}

// Trusted reports whether enough of the season was observed for the total to be used: at most one day
// in ten filled.
func (c Clock) Trusted() bool {
	return len(c.Sum) > 0 && float64(c.Filled) <= mostMissing*float64(len(c.Sum))
}

// Usual returns the 10, 50 and 90 % totals of past years through the nth day of the season.
func (c Clock) Usual(n int) (low, middle, high float64, ok bool) {
	var at []float64
	for _, row := range c.Past {
		if n >= 0 && n < len(row) {
			at = append(at, row[n])
		}
	}
	if len(at) < leastYears {
		return 0, 0, 0, false
	}
	slices.Sort(at)
	return quantile7(at, 0.1), quantile7(at, 0.5), quantile7(at, 0.9), true
}

// quantile7 is the sample quantile of type 7 of sorted values.
func quantile7(x []float64, p float64) float64 {
	h := p * float64(len(x)-1)
	i := int(h)
	if i+1 >= len(x) {
		return x[len(x)-1]
	}
	return x[i] + (h-float64(i))*(x[i+1]-x[i])
}

// meanC is the mean of a day's highest and lowest temperature, F, in C.
func meanC(maxF, minF float64) float64 {
	return float64(unit.Fahrenheit((maxF + minF) / 2).Celsius())
}
