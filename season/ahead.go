package season

import (
	"fmt"
	"slices"

	"haywarden/agronomy/regrowth"
	"haywarden/agronomy/unit"
	"haywarden/weather"
)

// Grown carries a stand from 1 January through the observed days before a date, cut on the days it was
// cut. The record must hold every one of those days.
func Grown(m *regrowth.Model, soil regrowth.Soil, record *weather.Series, date unit.Day, cuts []unit.Day, reserve float64) (Start, []regrowth.Day, error) {
	january := unit.DateOf(date.Year(), 1, 1)
	days, ok := daysOf(m.NewPlace(record.Station.Latitude, false), record, january, date-1)
	if !ok {
		return Start{}, nil, fmt.Errorf("the record lacks days of %d before %s: a stand is grown through all of them", date.Year(), date)
	}
	s := NewYear(m, reserve)
	spring := m.Spring(days)
	for i := range days {
		if i < spring {
			m.Rest(&s.Crop, &soil, &days[i])
			continue
		}
		s.Growing = true
		m.Grow(&s.Crop, &soil, &days[i])
		if slices.Contains(cuts, january+unit.Day(i)) {
			m.Cut(&s.Crop)
			s.LastCut = i
		}
	}
	for _, c := range cuts {
		if i := int(c - january); i < spring || i >= len(days) {
			return Start{}, nil, fmt.Errorf("a cut on %s: accepted days of this year's growth before %s", c, date)
		}
	}
	s.Day = len(days)
	return s, days, nil
}

// Joined are members that all have lived through the same days so far, and go on as they would.
func Joined(members []Member, lived []regrowth.Day) []Member {
	out := slices.Clone(members)
	for i := range out {
		days := slices.Clone(out[i].Days)
		copy(days, lived)
		out[i].Days = days
	}
	return out
}

// Once cuts next on an evening, and goes on by another way after it.
type Once struct {
	Day  int
	Then Cutter
	Was  int // this year's last cut as it begins, negative for none
}

// Cuts implements [Cutter].
func (o Once) Cuts(day, since int, c *regrowth.Crop, told Sky) bool {
	if fresh := since < 0 || day-since == o.Was; fresh {
		return day >= o.Day
	}
	return o.Then.Cuts(day, since, c, told)
}
