package water

import (
	"time"

	"haywarden/agronomy/climate"
	"haywarden/agronomy/unit"
)

// Rain is a station's rain by day, one value a day from First on, NaN where not known. A day with less
// than LimitMM is dry; see [DryBelowMM].
type Rain struct {
	First   unit.Day
	MM      []float64
	LimitMM float64
}

// HalfMonth numbers the half-month of a day: 0 is 1 to 15 January, 23 the end of December.
func HalfMonth(d unit.Day) int {
	_, month, day := d.Date()
	half := 2 * (int(month) - 1)
	if day > 15 {
		half++
	}
	return half
}

// HalfMonths counts the transitions of the record by the half-month of the later day, pooled over
// years. Source: [source.DrySpellChain].
func (r Rain) HalfMonths() (halves [24]Transitions) {
	for i := 1; i < len(r.MM); i++ {
		halves[HalfMonth(r.First+unit.Day(i))].add(r.MM[i-1], r.MM[i], r.LimitMM)
	}
	return halves
}

// Today is what is known of the day a dry spell is asked from.
type Today string

// What may be known of today.
const (
	AnyToday Today = "any"
	DryToday Today = "dry"
	WetToday Today = "wet"
)

// Spells is in how many years a dry spell came.
type Spells struct{ With, Years int }

// Share is the share of years with the spell, NaN without years.
func (s Spells) Share() unit.Share { return unit.Share(float64(s.With) / float64(s.Years)) }

// Interval is the 95 % interval of the share. Source: [source.WilsonInterval].
func (s Spells) Interval() (low, high unit.Share) {
	l, h := climate.Wilson(s.With, s.Years)
	return unit.Share(l), unit.Share(h)
}

// Spells counts the years of the record in which a run of n dry days came within the horizon days that
// follow a date, among those in which the date itself was dry or wet as asked. A year whose missing
// days could hold or break the run is left out. Source: [source.DrySpellCount].
func (r Rain) Spells(month time.Month, day, n, horizon int, today Today) (s Spells) {
	if len(r.MM) == 0 || n < 1 || horizon < n {
		return s
	}
	last := r.First + unit.Day(len(r.MM)-1)
	for year := r.First.Year(); year <= last.Year(); year++ {
		if month == time.February && day == 29 && !unit.Leap(year) {
			continue
		}
		from := int(unit.DateOf(year, month, day) - r.First)
		if from < 0 || from+horizon >= len(r.MM) || !r.fits(from, today) {
			continue
		}
		next := r.MM[from+1 : from+1+horizon]
		sure, maybe := r.longest(next)
		switch {
		case sure >= n:
			s.With++
			s.Years++
		case maybe < n:
			s.Years++
		}
	}
	return s
}

func (r Rain) fits(i int, today Today) bool {
	switch today {
	case DryToday:
		return r.MM[i] < r.LimitMM
	case WetToday:
		return r.MM[i] >= r.LimitMM
	default:
		return true
	}
}

// longest is the longest run of days that were dry, and of those that may have been.
func (r Rain) longest(mm []float64) (sure, maybe int) {
	var a, b int
	for _, v := range mm {
		a, b = a+1, b+1
		if !(v < r.LimitMM) {
			a = 0
		}
		if v >= r.LimitMM {
			b = 0
		}
		sure, maybe = max(sure, a), max(maybe, b)
	}
	return sure, maybe
}

// SpellChance is the chance of a dry spell from a station's years, with the chain's answer beside it.
type SpellChance struct {
	Chance  unit.Share // the one to use
	Counted bool       // Chance is the count; else it is the chain's
	Count   Spells
	Chain   unit.Share
}

// yearsToCount is how many years make the count the better answer. Source: [source.DrySpellCount].
const yearsToCount = 20

// Chance is the chance of a run of n dry days within the horizon days that follow a date: counted
// where 20 years or more can be, else by the chain, which is smoothed over the half-months. Source:
// [source.DrySpellCount], [source.DrySpellChain].
func (r Rain) Chance(month time.Month, day, n, horizon int, today Today) SpellChance {
	const oneEach, waves = 1, 2
	// The chain of the middle of the horizon stands for all of it.
	middle := unit.DateOf(2023, month, day).YearDay() + (horizon+1)/2
	c := SmoothYear(r.HalfMonths(), oneEach, waves).At(middle)
	p := SpellChance{Count: r.Spells(month, day, n, horizon, today), Chain: unit.Share(c.from(n, horizon, today))}
	p.Chance, p.Counted = p.Chain, false
	if p.Count.Years >= yearsToCount {
		p.Chance, p.Counted = p.Count.Share(), true
	}
	return p
}

// from is [Chain.Within] with today known or not.
func (c Chain) from(n, horizon int, today Today) float64 {
	switch today {
	case DryToday:
		return c.Within(n, horizon, false)
	case WetToday:
		return c.Within(n, horizon, true)
	default:
		wet := c.Wet()
		return wet*c.Within(n, horizon, true) + (1-wet)*c.Within(n, horizon, false)
	}
}
