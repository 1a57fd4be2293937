package outlook

import (
	"math"
	"slices"
	"time"

	"haywarden/agronomy/regrowth"
	"haywarden/agronomy/unit"
)

// Growing is how tall a growth stands on a day, as a share of the tallest first growth.
type Growing struct {
	Day   unit.Day
	Share float64
}

const (
	tallestIn   = 36.0 // the height drawn as 1
	usualDays   = 30   // between later cuts where none is planned yet, [source.RuleInterval]
	drawnStep   = 3    // days between points of a curve
	clearSeeded = 65   // days from seeding to a first cut in the seeding year (choice within 60-70)
)

// regrowthIn is the height at cutting by growth, in. [source.GrowthPerDay] targets by cut.
func regrowthIn(growth int) float64 {
	switch {
	case growth <= 2:
		return 23
	case growth == 3:
		return 19
	}
	return 16
}

// Curve is a plain curve of the year's growths, one run of points each: by heat in first growth, an S
// in later ones. cutOn is when the growth that stands now is expected to be cut, zero where nothing is
// said; later cuts are drawn every 30 days until lastBy.
func (s *Stand) Curve(cutOn, lastBy unit.Day) [][]Growing {
	year := s.Date.Year()
	end := unit.DateOf(year, time.November, 15)
	if f, ok := s.fallEnd(); ok {
		end = f
	}
	cuts := s.cutsOf(year)
	from := max(marchFirst(year), s.Seeded)
	if cutOn == 0 || cutOn < s.Date {
		cutOn = max(s.Date, s.usualCut(from, cuts))
	}
	for d := cutOn; d <= lastBy && len(cuts) < 6; d += usualDays {
		if len(cuts) == 0 || d > cuts[len(cuts)-1]+14 {
			cuts = append(cuts, d)
		}
	}
	var out [][]Growing
	for i := 0; i <= len(cuts) && from < end; i++ {
		to := end
		if i < len(cuts) {
			to = min(cuts[i], end)
		}
		out = append(out, s.cycle(i+1, from, to))
		from = to
	}
	return out
}

func (s *Stand) fallEnd() (unit.Day, bool) {
	if s.Sky == nil {
		return 0, false
	}
	return s.Sky.Fall24.On(0.5, s.Date.Year())
}

func (s *Stand) cutsOf(year int) []unit.Day {
	var cuts []unit.Day
	for _, c := range s.Cuts {
		if c.Day.Year() == year {
			cuts = append(cuts, c.Day)
		}
	}
	slices.Sort(cuts)
	return cuts
}

// usualCut is when the standing growth would be cut by the trade's usual intervals.
func (s *Stand) usualCut(from unit.Day, cuts []unit.Day) unit.Day {
	switch {
	case len(cuts) > 0:
		return cuts[len(cuts)-1] + usualDays
	case s.SeedingYear():
		return s.Seeded + clearSeeded
	}
	return max(from, unit.DateOf(s.Date.Year(), time.May, 28))
}

func (s *Stand) cycle(number int, from, to unit.Day) []Growing {
	var out []Growing
	for d := from; ; d = min(d+drawnStep, to) {
		out = append(out, Growing{d, s.heightShare(number, from, d)})
		if d >= to {
			return out
		}
	}
}

func (s *Stand) heightShare(number int, from, d unit.Day) float64 {
	if number == 1 && !s.SeedingYear() && s.Sky != nil {
		return min(1, regrowth.HeightByHeat(s.heatBy(d))/tallestIn)
	}
	// An S from 1 in to the growth's usual height in about five weeks.
	days := float64(d - from)
	return min(1, regrowthIn(number)/tallestIn/(1+math.Exp(-(days-18)/5)))
}

// heatBy is first growth's heat through a day: observed so far, then by the median of past years.
func (s *Stand) heatBy(d unit.Day) float64 {
	c := s.Sky.Heat41
	if d < s.Date {
		return c.On(d)
	}
	_, then, _, ok := c.Usual(int(d - c.From))
	_, now, _, ok2 := c.Usual(int(s.Date - 1 - c.From))
	if !ok || !ok2 {
		return c.Now() + 15*float64(d-s.Date)
	}
	return c.Now() + max(0, then-now)
}
