// Package outlook builds, in one pass and without I/O, what is known of each stand on a date: what was
// seen, what its station's weather says, where its quality stands and where it goes. Advice is made
// from these values and from nothing else.
package outlook

import (
	"math"
	"slices"
	"time"

	"haywarden/agronomy/frost"
	"haywarden/agronomy/heat"
	"haywarden/agronomy/unit"
	"haywarden/weather"
)

// Sky is what one station's record says on a date. Nothing observed on or after the date is in it:
// a round is made in the morning, with weather through yesterday.
type Sky struct {
	Station weather.Station
	Date    unit.Day
	Through unit.Day // last day observed; meaningless where Observed is false
	// Observed says that the station has a usable day this year before the date, or in the first days of
	// January one just before them.
	Observed bool
	Heat41   Clock // F-days above 41 F since 1 March: first growth
	Heat48   Clock // F-days above 48 F since 1 January: weevil
	Members  []*Member
	// Made says that the members were made from a record too short to be followed.
	Made bool
	// Forecast is the one the members were drawn to, nil where none was kept.
	Forecast *weather.Forecast
	Fall24   Freeze // first fall day at or below 24 F
	Fall28   Freeze // the same at 28 F, shown beside
	Spring26 Freeze // last spring day at or below 26 F, which kills seedlings of a few leaves
	Frosts   []Frost
	Winter   *Winter         // nil where the record of it is too thin, and in fall
	own      *weather.Series // what the station itself reported
	series   *weather.Series // the same with what neighbours measured where it is silent
	usual    [367]usualDay
	falls    []fall
	swaths   *swaths // how mown swaths cure, reckoned when asked for
}

// usualDay is the station's mean of one calendar day over its years, used where a day is missing.
type usualDay struct{ maxF, minF float64 }

// Frost is a spring day cold enough for long enough to kill alfalfa tops.
type Frost struct {
	Day    unit.Day
	MinF   float64
	Hours  float64 // at or below 24 F, from the sine day
	Heat41 float64 // heat of first growth on that day
}

// Freeze holds a station's freeze dates of past years as days of the year.
type Freeze struct {
	ThresholdF float64
	DOY        []float64 // one a year; +Inf, in spring -Inf, where it did not come
	Years      int
}

// On returns the day by which the event has come in share p of years, in the year of the date.
func (f Freeze) On(p float64, year int) (unit.Day, bool) {
	doy, ok := frost.Quantile(f.DOY, p, frost.Weibull)
	if !ok || math.IsInf(doy, 0) || math.IsNaN(doy) {
		return 0, false
	}
	return unit.DateOf(year, time.January, 1) + unit.Day(math.Round(doy)) - 1, true
}

const (
	frostF      = 24 // F, [source.KillingFreeze]
	seedlingF   = 26 // F, [source.SeedlingFrost]
	frostHours  = 4
	leastYears  = 10  // fewer past years than this give no freeze chances
	mostMissing = 0.1 // of the days a year is used for
)

// SkyOptions are what stands beside a station's own record.
type SkyOptions struct {
	Neighbours []weather.Neighbour // for days on which the station is silent
	Forecast   *weather.Forecast   // nil where none is kept
}

// NewSky reads a station's record as of the morning of date.
func NewSky(series *weather.Series, date unit.Day, opt SkyOptions) *Sky {
	past := series.Until(date - 1)
	s := &Sky{Station: series.Station, Date: date, own: past}
	near := make([]weather.Neighbour, len(opt.Neighbours))
	for i, n := range opt.Neighbours {
		near[i] = weather.Neighbour{Series: n.Series.Until(date - 1), Miles: n.Miles}
	}
	s.series, _ = weather.FillMeasured(past, near)
	s.Through, s.Observed = s.series.LastObserved(date - 1)
	s.Observed = s.Observed && (s.Through.Year() == date.Year() || date-1-s.Through <= staleDays)
	s.learnUsual()
	s.Heat41 = s.clock(heat.FirstCut(), unit.DateOf(date.Year(), time.March, 1))
	s.Heat48 = s.clock(heat.Weevil(), unit.DateOf(date.Year(), time.January, 1))
	s.gatherMembers(opt.Forecast)
	later := math.Inf(1) // of a freeze that did not come
	s.Fall24, s.Fall28 = s.freezes(frostF, s.own.FirstFall(frostF), later), s.freezes(28, s.own.FirstFall(28), later)
	s.Spring26 = s.freezes(seedlingF, s.own.LastSpring(seedlingF), -later)
	s.gatherFalls()
	s.findFrosts()
	s.findWinter()
	return s
}

func (s *Sky) learnUsual() {
	var sumMax, sumMin [367]float64
	var n [367]int
	for i := range s.series.Len() {
		hi, lo := s.series.TMaxF[i], s.series.TMinF[i]
		if math.IsNaN(hi) || math.IsNaN(lo) {
			continue
		}
		d := slot(s.series.First + unit.Day(i))
		sumMax[d] += hi
		sumMin[d] += lo
		n[d]++
	}
	for d := range s.usual {
		if n[d] == 0 {
			s.usual[d] = usualDay{math.NaN(), math.NaN()}
			continue
		}
		s.usual[d] = usualDay{sumMax[d] / float64(n[d]), sumMin[d] / float64(n[d])}
	}
}

// slot numbers calendar days so that 1 March is 61 in every year and 29 February has its own place.
func slot(d unit.Day) int {
	doy := d.YearDay()
	if !unit.Leap(d.Year()) && doy >= 60 {
		return doy + 1
	}
	return doy
}

// temperatures returns a day's highest and lowest, F, with the usual value of the calendar day where
// one is missing, and says whether it was.
func (s *Sky) temperatures(d unit.Day) (maxF, minF float64, filled bool) {
	if i, ok := s.series.Index(d); ok && !math.IsNaN(s.series.TMaxF[i]) && !math.IsNaN(s.series.TMinF[i]) {
		return s.series.TMaxF[i], s.series.TMinF[i], false
	}
	u := s.usual[slot(d)]
	return u.maxF, u.minF, true
}

// findFrosts lists this spring's killing frosts, 1 March to 30 June.
func (s *Sky) findFrosts() {
	from, to := unit.DateOf(s.Date.Year(), time.March, 1), unit.DateOf(s.Date.Year(), time.June, 30)
	for d := from; d <= min(to, s.Date-1); d++ {
		i, ok := s.own.Index(d)
		if !ok || !s.own.HasTemperature(d) || s.own.TMinF[i] > frostF {
			continue // a frost is told of only where it was measured here
		}
		maxF, minF := s.own.TMaxF[i], s.own.TMinF[i]
		// Compared as shown, in tenths of an hour.
		if h := math.Round(10*frost.HoursBelow(minF, maxF, frostF)) / 10; h >= frostHours {
			s.Frosts = append(s.Frosts, Frost{Day: d, MinF: minF, Hours: h, Heat41: s.Heat41.On(d)})
		}
	}
}

// freezes gathers the past years of a freeze; absent is the day of a year in which it did not come.
func (s *Sky) freezes(threshold float64, events []weather.YearEvent, absent float64) Freeze {
	f := Freeze{ThresholdF: threshold}
	for _, e := range events {
		switch {
		case e.Year >= s.Date.Year() || !e.Valid:
			continue
		case e.Found:
			f.DOY = append(f.DOY, float64(e.DOY))
		default:
			f.DOY = append(f.DOY, absent)
		}
		f.Years++
	}
	slices.Sort(f.DOY)
	if f.Years < leastYears {
		f.DOY = nil
	}
	return f
}

// ColdestSince is the lowest temperature observed from a day of this year through yesterday, F; +Inf
// where none was.
func (s *Sky) ColdestSince(from unit.Day) float64 {
	low := math.Inf(1)
	for d := from; d < s.Date; d++ {
		if _, minF, filled := s.temperatures(d); !filled {
			low = min(low, minF)
		}
	}
	return low
}
