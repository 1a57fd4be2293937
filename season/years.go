// Package season carries one stand through a year under any cut plan and any way the weather may go,
// and finds the plan that is worth most. It holds plain values in and out: what a stand is, what its
// weather was, what prices are; no book and no clock.
package season

import (
	"math"

	"haywarden/agronomy/regrowth"
	"haywarden/agronomy/unit"
	"haywarden/weather"
)

// Year is the weather of one year as growth takes it, from 1 January.
type Year struct {
	Year int
	Days []regrowth.Day
}

// YearsOf makes the years of a record that lack no day's temperatures; rain nobody reported is none.
func YearsOf(m *regrowth.Model, s *weather.Series) []Year {
	var years []Year
	first, last := s.Years()
	place := m.NewPlace(s.Station.Latitude, false)
	for y := first; y <= last && s.Len() > 0; y++ {
		if days, ok := daysOf(place, s, unit.DateOf(y, 1, 1), unit.DateOf(y, 12, 31)); ok {
			years = append(years, Year{y, days})
		}
	}
	return years
}

func daysOf(place *regrowth.Place, s *weather.Series, from, to unit.Day) ([]regrowth.Day, bool) {
	days := make([]regrowth.Day, 0, to-from+1)
	for d := from; d <= to; d++ {
		i, ok := s.Index(d)
		if !ok || !s.HasTemperature(d) {
			return nil, false
		}
		rain := s.RainMM[i]
		if math.IsNaN(rain) {
			rain = 0
		}
		days = append(days, place.Day(d.YearDay(), s.TMaxC[i], s.TMinC[i], rain))
	}
	return days, true
}

// LeastYears is how many years a mean over years is taken of, at the least (choice).
const LeastYears = 10
