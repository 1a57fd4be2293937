package seeding

import (
	"fmt"
	"slices"
	"time"

	"haywarden/agronomy/unit"
)

// Heat holds the C-days above 0 C from seeding to half emergence. Sources: [source.EmergenceHeat], and
// [source.AlfalfaEmergence] for alfalfa.
type Heat map[string]float64

// PublishedHeat returns the printed sums.
func PublishedHeat() Heat {
	return Heat{"alfalfa": 100, "red-clover": 104.6, "ladino-clover": 110, "timothy": 200, "orchardgrass": 219}
}

// Days is how long a species takes to come up at a mean temperature in C.
func (h Heat) Days(species string, meanC float64) (float64, error) {
	sum, ok := h[species]
	switch {
	case !ok:
		return 0, fmt.Errorf("species %q: no heat to emergence is published for it", species)
	case !(meanC > 0 && meanC <= 40):
		return 0, fmt.Errorf("tmean %g C: accepted more than 0 to 40", meanC)
	}
	return sum / meanC, nil
}

// Window is when to sow: Best lies in it.
type Window struct{ Early, Best, Late unit.Day }

// Growing are the weeks of growth that seedlings want before the killing freeze. Source:
// [source.LastSeeding].
type Growing struct{ Most, Usual, Least float64 }

// PublishedGrowing returns the printed weeks.
func PublishedGrowing() Growing { return Growing{Most: 10, Usual: 8, Least: 6} }

// LateSummer is the window before the killing freeze (24 F): from ten weeks of growth before its middle
// date to six weeks before the date by which it has come in one year of ten; best is eight weeks before
// its middle date, or the last day where that is sooner. Emergence is in days. Not ok where freezes
// spread so far that no day is left.
func (g Growing) LateSummer(middle, tenth unit.Day, emergence float64) (Window, bool) {
	w := Window{Early: LastDay(middle, g.Most, emergence), Late: LastDay(tenth, g.Least, emergence)}
	w.Best = min(LastDay(middle, g.Usual, emergence), w.Late)
	return w, w.Early <= w.Late
}

// tenderDays from emergence to the second trifoliolate leaf, when frost begins to kill (choice: about three
// weeks of spring).
const tenderDays = 21

// Spring is the first day on which to sow so that seedlings have their second trifoliolate leaf, and with
// it lose their hardiness, only after the last freeze of 26 F in nine years of ten. The end of the
// window has no published rule from climate and is the calendar's. Source: [source.SeedlingFrost].
func Spring(lastFreeze unit.Day, emergence float64) unit.Day {
	return lastFreeze - unit.Day(tenderDays+emergence)
}

// Calendar is a state's rule by the calendar, days of the year without the year.
type Calendar struct {
	Place                string
	SpringFrom, SpringTo MonthDay
	LateFrom, LateTo     MonthDay
	NoneAfter            MonthDay // zero where none is printed
}

// MonthDay is a day of the calendar.
type MonthDay struct {
	Month time.Month
	Day   int
}

// In is the day in a year.
func (m MonthDay) In(year int) unit.Day { return unit.DateOf(year, m.Month, m.Day) }

// Calendars returns the printed rules by state; a state with several parts has several. Sources:
// [source.SeedingCalendar] for late summer, [source.SpringCalendar] for the spring days.
func Calendars() map[string][]Calendar {
	md := func(m time.Month, d int) MonthDay { return MonthDay{m, d} }
	const mar, apr, may, jul, aug, sep = time.March, time.April, time.May, time.July, time.August, time.September
	return map[string][]Calendar{
		"Illinois": {
			{"northern Illinois", md(mar, 25), md(may, 15), md(aug, 10), md(aug, 15), MonthDay{}},
			{"central Illinois", md(apr, 1), md(may, 15), md(aug, 30), md(sep, 4), MonthDay{}},
			{"southern Illinois", md(mar, 15), md(may, 15), md(sep, 5), md(sep, 10), MonthDay{}},
		},
		"Wisconsin":    {{"east-central Wisconsin", md(apr, 15), md(may, 31), md(aug, 1), md(aug, 10), md(sep, 1)}},
		"Minnesota":    {{"southern and central Minnesota", md(apr, 15), md(may, 31), md(aug, 15), md(sep, 1), md(sep, 15)}},
		"North Dakota": {{"North Dakota", md(may, 1), md(may, 31), md(aug, 1), md(aug, 14), md(aug, 15)}},
		"Ohio": {
			{"northern Ohio", md(mar, 25), md(apr, 30), md(aug, 1), md(aug, 15), MonthDay{}},
			{"southern Ohio", md(mar, 25), md(apr, 30), md(aug, 1), md(aug, 30), MonthDay{}},
		},
		"Pennsylvania": {
			{"northern Pennsylvania", md(apr, 1), md(may, 15), md(aug, 10), md(aug, 15), MonthDay{}},
			{"central Pennsylvania", md(apr, 1), md(may, 15), md(aug, 15), md(aug, 20), MonthDay{}},
			{"southern Pennsylvania", md(apr, 1), md(may, 15), md(aug, 20), md(sep, 10), MonthDay{}},
		},
	}
}

// CalendarOf returns the first rule of a state, or the common one of middle latitudes where the state
// prints none.
func CalendarOf(state string) Calendar {
	if list := Calendars()[state]; len(list) > 0 {
		return list[0]
	}
	return Calendar{"middle latitudes", MonthDay{time.April, 1}, MonthDay{time.May, 15}, MonthDay{time.August, 1}, MonthDay{time.August, 20}, MonthDay{}}
}

// Companion is a crop sown with spring seedings on land that washes.
type Companion struct {
	Name      string
	Low, High float64 // lb/ac
	Say       string
}

// Companions returns the printed crops; where sources differ the lower rate is the safer. Winter cereals
// are poor companions, and late-summer seedings take none. Source: [source.CompanionCrop].
func Companions() []Companion {
	return []Companion{
		{"oats", 30, 50, "some advise 2-3 bushels: disputed, less is safer"},
		{"spring wheat", 60, 60, "a bushel, with no more than 40 lb of nitrogen"},
		{"Italian ryegrass", 1, 4, "4 lb at most"},
	}
}

// TakesCompanion says whether a seeding is better with a companion crop, and why.
func TakesCompanion(season string, washes bool) (bool, string) {
	seasons := Seasons()
	switch {
	case season == seasons[1]:
		return false, "no companion crop in late summer: it takes the water and light that seedlings need before winter"
	case washes:
		return true, "the ground washes: a thin companion crop holds it, cut as forage at boot"
	}
	return false, "sown alone the stand yields more in its first year; a companion crop is for ground that washes"
}

// StrainOf is the group of inoculant that a legume takes, empty for a grass. Source: [source.Inoculant].
func StrainOf(species string) string {
	switch {
	case species == "alfalfa":
		return "alfalfa and sweetclover"
	case slices.Contains([]string{"red-clover", "ladino-clover", "alsike-clover"}, species):
		return "true clovers"
	case species == "birdsfoot-trefoil":
		return "trefoil"
	}
	return ""
}
