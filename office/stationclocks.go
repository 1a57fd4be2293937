package office

import (
	"math"
	"slices"
	"time"

	"haywarden/agronomy/climate"
	"haywarden/agronomy/frost"
	"haywarden/agronomy/heat"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
	"haywarden/weather"
)

// SeasonClock is a sum of this season, heat or rain, against the smoothed normal of the past years and
// the band in which 8 of 10 of them lie. The sums stand at the end of each day from From on; a missing
// day counts as normal.
type SeasonClock struct {
	Name    string      `json:"name"`
	How     string      `json:"how"`
	Unit    string      `json:"unit"`
	Source  source.ID   `json:"source,omitempty"`
	From    unit.Day    `json:"from"`
	Begun   bool        `json:"begun"`           // a day of it has been observed
	Now     float64     `json:"now"`             // through the last day of Season
	Ahead   *int        `json:"ahead,omitempty"` // days by which heat is ahead of the normal, behind below 0
	Below   int         `json:"years_below"`     // past years that had less by that day
	Years   int         `json:"years"`           // past years whole enough to be held against
	Missing int         `json:"missing"`         // days of this season taken as normal
	Season  []float64   `json:"season"`
	Normal  []float64   `json:"normal"` // from From to the year's end, as the band
	P10     []float64   `json:"p10"`
	P90     []float64   `json:"p90"`
	Marks   []ClockMark `json:"marks,omitempty"`
}

// ClockMark is something that comes at a sum, and its day: reached, or expected if the heat to come is
// normal; the zero day where it is not expected this year.
type ClockMark struct {
	Name    string   `json:"name"`
	At      float64  `json:"at"`
	Day     unit.Day `json:"day,omitzero"`
	Reached bool     `json:"reached"`
}

// leastClockYears is how many past years a band wants (as for freezes, [source.FreezeYears]).
const leastClockYears = 10

// seasonClocks are the clocks of heat that the trade goes by.
func seasonClocks(s *weather.Series, date unit.Day) []SeasonClock {
	day41, day48, day5 := heat.FirstCut(), heat.Weevil(), heat.Spec{Method: heat.Average, Base: 5, Upper: heat.NoUpper()}
	growthMonth, growthDay := heat.FirstGrowth()
	weevilMonth, weevilDay := heat.WeevilStart()
	year := date.Year()
	c41 := clockOf(s, date, unit.DateOf(year, growthMonth, growthDay), func(i int) float64 { return day41.Day(s.TMinF[i], s.TMaxF[i]) })
	c41.Name, c41.How, c41.Unit, c41.Source = "First growth", "simple average above 41 °F, from 1 March", "F-days", source.MSUHeat
	c41.mark("bud", budHeat)
	c48 := clockOf(s, date, unit.DateOf(year, weevilMonth, weevilDay), func(i int) float64 { return day48.Day(s.TMinF[i], s.TMaxF[i]) })
	c48.Name, c48.How, c48.Unit, c48.Source = "Alfalfa weevil", "sine above 48 °F, from 1 January", "F-days", source.WeevilHeat
	c48.mark("start scouting", weevilHeat)
	c5 := clockOf(s, date, unit.DateOf(year, time.August, 1), func(i int) float64 { return day5.Day(s.TMinC[i], s.TMaxC[i]) })
	c5.Name, c5.How, c5.Unit, c5.Source = "Fall rest", "simple average above 5 °C, from 1 August", "C-days", source.FallRestHeat
	return []SeasonClock{c41, c48, c5}
}

// rainClock is the rain since 1 April, inches.
func rainClock(s *weather.Series, date unit.Day) SeasonClock {
	c := clockOf(s, date, unit.DateOf(date.Year(), time.April, 1), func(i int) float64 { return s.RainMM[i] / 25.4 })
	c.Name, c.How, c.Unit = "Rain", "rain and melted snow, from 1 April", "inches"
	c.Ahead = nil
	return c
}

// clockOf sums a daily amount from a day on, this year and in the past ones.
func clockOf(s *weather.Series, date, from unit.Day, daily func(i int) float64) SeasonClock {
	end := unit.DateOf(from.Year(), time.December, 31)
	c := SeasonClock{From: from, Season: []float64{}}
	normal := normalDay(s, from.Year(), daily)
	n := int(end-from) + 1
	c.Normal = make([]float64, n)
	sum := 0.
	for i := range n {
		sum += normal[weather.CalendarSlot(from+unit.Day(i))]
		c.Normal[i] = sum
	}
	// This season, through the last day observed.
	last := min(date-1, s.Last())
	for last >= from {
		if i, ok := s.Index(last); ok && !math.IsNaN(daily(i)) {
			break
		}
		last--
	}
	sum = 0
	for d := from; d <= last; d++ {
		v, missing := amount(s, d, normal, daily)
		if missing {
			c.Missing++
		}
		sum += v
		c.Season = append(c.Season, sum)
	}
	c.Begun, c.Now = last >= from, sum
	c.band(s, normal, daily)
	if math.IsNaN(c.Normal[n-1]) {
		c.Normal = nil // too short a record has no normal
	} else if c.Begun && c.Years >= leastClockYears {
		c.Ahead = c.daysAhead()
	}
	return c
}

// amount is what a day adds: what was observed, else the normal.
func amount(s *weather.Series, d unit.Day, normal [367]float64, daily func(i int) float64) (v float64, missing bool) {
	if i, ok := s.Index(d); ok {
		if v := daily(i); !math.IsNaN(v) {
			return v, false
		}
	}
	return normal[weather.CalendarSlot(d)], true
}

// normalDay is the mean daily amount of the years before one, smoothed by waves of the year; no day
// takes away. [source.SmoothNormals]
func normalDay(s *weather.Series, year int, daily func(i int) float64) (normal [367]float64) {
	var sum, n [367]float64
	for i := range s.Len() {
		d := s.First + unit.Day(i)
		if v := daily(i); !math.IsNaN(v) && d.Year() < year {
			sum[weather.CalendarSlot(d)] += v
			n[weather.CalendarSlot(d)]++
		}
	}
	var day, mean []float64
	for k := 1; k < len(sum); k++ {
		day, mean = append(day, float64(k)), append(mean, sum[k]/n[k]) // none: NaN, which the fit leaves out
	}
	const waves = 3
	fit := climate.FitHarmonics(day, mean, waves)
	for k := range normal {
		normal[k] = max(0, fit.At(float64(k)))
	}
	return normal
}

// band sets the band of past years and how many of them lie below this one. A year that lacks a tenth of
// its days or more is left out, as for freezes.
func (c *SeasonClock) band(s *weather.Series, normal [367]float64, daily func(i int) float64) {
	n := int(unit.DateOf(c.From.Year(), time.December, 31)-c.From) + 1
	var years [][]float64
	first, _ := s.Years()
	for y := first; y < c.From.Year() && s.Len() > 0; y++ {
		sums, missing, sum := make([]float64, 0, n), 0, 0.
		for d := c.From.InYear(y); d.Year() == y; d++ {
			v, lacks := amount(s, d, normal, daily)
			if lacks {
				missing++
			}
			sum += v
			slot := weather.CalendarSlot(d)
			switch {
			case slot == leapSlot && !unit.Leap(c.From.Year()):
				continue // this year has no such day: the next takes it along
			case slot == leapSlot+1 && d > c.From.InYear(y) && unit.Leap(c.From.Year()) && !unit.Leap(y):
				sums = append(sums, sum-v) // that year had none
			}
			sums = append(sums, sum)
		}
		if float64(missing) < mostLacking*float64(n) {
			years = append(years, sums)
		}
	}
	c.Years = len(years)
	if c.Begun {
		for _, y := range years {
			if y[len(c.Season)-1] < c.Now {
				c.Below++
			}
		}
	}
	if c.Years < leastClockYears {
		return
	}
	x := make([]float64, c.Years)
	for i := range n {
		for k, y := range years {
			x[k] = y[i]
		}
		slices.Sort(x)
		low, _ := frost.Quantile(x, 0.1, frost.Weibull)
		high, _ := frost.Quantile(x, 0.9, frost.Weibull)
		c.P10, c.P90 = append(c.P10, low), append(c.P90, high)
	}
}

const (
	leapSlot    = 60  // 29 February in [weather.CalendarSlot]
	mostLacking = 0.1 // share of a year's days
)

// daysAhead counts the days between now and the day on which the normal stands where this season does;
// nothing where the normal never comes to it.
func (c *SeasonClock) daysAhead() *int {
	at, found := slices.BinarySearch(c.Normal, c.Now)
	if !found && at == len(c.Normal) || c.Now <= 0 {
		return nil
	}
	days := at - (len(c.Season) - 1)
	return &days
}

// mark adds what comes at a sum.
func (c *SeasonClock) mark(name string, at float64) {
	m := ClockMark{Name: name, At: at}
	if i := slices.IndexFunc(c.Season, func(v float64) bool { return v >= at }); i >= 0 {
		m.Day, m.Reached = c.From+unit.Day(i), true
	} else if c.Normal != nil {
		now := len(c.Season) - 1
		for i := max(0, now+1); i < len(c.Normal); i++ {
			ahead := c.Normal[i]
			if now >= 0 {
				ahead += c.Now - c.Normal[now]
			}
			if ahead >= at {
				m.Day = c.From + unit.Day(i)
				break
			}
		}
	}
	c.Marks = append(c.Marks, m)
}
