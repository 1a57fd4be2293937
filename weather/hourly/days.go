package hourly

import (
	"fmt"
	"math"
	"strings"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/weather"
	"haywarden/weather/declared"
)

// Day is what the hours of one local day come to. What there are too few hours for is NaN.
type Day struct {
	Day     unit.Day
	Wanted  int     // hours that the day has: 24, or 23 or 25 where the clock is set
	Hours   int     // of them with a temperature
	Gap     int     // the longest run of hours without one
	HighC   float64 // of all readings
	LowC    float64
	MeanC   float64 // of the hours' means
	RainMM  float64
	RainFor int // hours with rain reported
}

// Enough reports whether a day has the hours it takes for its temperatures.
func (d Day) Enough() bool { return d.Hours >= LeastHours+d.Wanted-24 && d.Gap <= LongestGap }

// hour is what the readings within one hour come to.
type hour struct {
	temp, rain float64 // sum of temperatures; rain, NaN where there is none
	n          int
}

// days makes days of readings that stand in the order of time. Readings within an hour count as one
// hour, by their mean. Rain is counted for the hour that ends at its stamp, unless begins.
func days(readings []reading, zone *time.Location, begins bool) (out []Day, twice []reading) {
	hours := map[unit.Day]map[int]*hour{} // by day and place of the hour within it
	at := func(t time.Time) *hour {
		local := t.In(zone)
		d := unit.DayOf(local)
		if hours[d] == nil {
			hours[d] = map[int]*hour{}
		}
		k := int(t.Sub(midnightOf(d, zone)) / time.Hour)
		if hours[d][k] == nil {
			hours[d][k] = &hour{rain: math.NaN()}
		}
		return hours[d][k]
	}
	high, low := map[unit.Day]float64{}, map[unit.Day]float64{}
	for _, r := range readings {
		d := unit.DayOf(r.at.In(zone))
		if !math.IsNaN(r.temp) {
			h := at(r.at)
			if _, ok := high[d]; !ok {
				high[d], low[d] = r.temp, r.temp
			}
			high[d], low[d] = max(high[d], r.temp), min(low[d], r.temp)
			h.temp += r.temp
			h.n++
		}
		if !math.IsNaN(r.rain) {
			when := r.at
			if !begins {
				when = when.Add(-time.Second)
			}
			if h := at(when); math.IsNaN(h.rain) {
				h.rain = r.rain
			} else {
				twice = append(twice, r)
			}
		}
	}
	first, last, some := unit.Day(math.MaxInt32), unit.Day(math.MinInt32), false
	for d := range hours {
		first, last, some = min(first, d), max(last, d), true
	}
	for d := first; some && d <= last; d++ {
		out = append(out, sumUp(d, hours[d], high[d], low[d], zone))
	}
	return out, twice
}

func midnightOf(d unit.Day, zone *time.Location) time.Time {
	y, m, dd := d.Date()
	return time.Date(y, m, dd, 0, 0, 0, 0, zone)
}

func sumUp(d unit.Day, hours map[int]*hour, high, low float64, zone *time.Location) Day {
	out := Day{Day: d, HighC: math.NaN(), LowC: math.NaN(), MeanC: math.NaN(), RainMM: math.NaN()}
	out.Wanted = int(math.Round(midnightOf(d+1, zone).Sub(midnightOf(d, zone)).Hours()))
	gap, mean, rain := 0, 0., 0.
	for k := range out.Wanted {
		h := hours[k]
		if h != nil && !math.IsNaN(h.rain) {
			rain += h.rain
			out.RainFor++
		}
		if h == nil || h.n == 0 {
			gap++
			out.Gap = max(out.Gap, gap)
			continue
		}
		gap = 0
		mean += h.temp / float64(h.n)
		out.Hours++
	}
	if out.Enough() {
		out.HighC, out.LowC, out.MeanC = high, low, mean/float64(out.Hours)
	}
	if out.RainFor == out.Wanted {
		out.RainMM = rain
	}
	return out
}

// keep puts the days of a station into its record and notes what was missing.
func keep(t *declared.Table, station int, readings []reading, o Options) {
	list, twice := days(readings, o.Day, o.Begins)
	// The hour that ends at the first midnight, or begins at the last, makes no day.
	edge := func(d Day) bool { return t.Has(weather.TemperatureQ) && d.Hours == 0 && d.RainFor <= 1 }
	for len(list) > 0 && edge(list[0]) {
		list = list[1:]
	}
	for len(list) > 0 && edge(list[len(list)-1]) {
		list = list[:len(list)-1]
	}
	for _, r := range twice {
		t.Bad(r.line, "rain stands twice within the hour of %s: a total for each hour wanted", r.at.In(o.Day).Format("2006-01-02 15:04"))
	}
	if !t.Sound() {
		return
	}
	rec := t.Stations[station].Record
	wanted, had, rainy := 0, 0, 0
	var short []string
	apart, whole := 0., 0
	for _, d := range list {
		wanted += d.Wanted
		had += d.Hours
		y, at := rec.Year(d.Day.Year()), d.Day.YearDay()-1
		switch {
		case !t.Has(weather.TemperatureQ):
		case d.Enough():
			y.Put(at, weather.TMax, weather.TMax.Stored(d.HighC), weather.Reported, 0)
			y.Put(at, weather.TMin, weather.TMin.Stored(d.LowC), weather.Reported, 0)
			apart += d.MeanC - (d.HighC+d.LowC)/2
			whole++
		default:
			short = append(short, d.Day.String())
		}
		if !math.IsNaN(d.RainMM) {
			y.Put(at, weather.Rain, weather.Rain.Stored(d.RainMM), weather.Reported, 0)
		} else if t.Has(weather.RainQ) {
			rainy++
		}
	}
	t.Note.Notes = append(t.Note.Notes, notes(rec.Station.ID, t, o, len(list), wanted-had, wanted, short, rainy)...)
	if whole > 0 {
		t.Note.Notes = append(t.Note.Notes, fmt.Sprintf("%s: the mean of the hours is %+.1f C from the middle of highest and lowest, over %d days", rec.Station.ID, apart/float64(whole), whole))
	}
}

func notes(id string, t *declared.Table, o Options, days, missing, wanted int, short []string, rainy int) (out []string) {
	if t.Has(weather.TemperatureQ) {
		n := fmt.Sprintf("%s: days of %s; %d of %d hours had no temperature", id, o.Day, missing, wanted)
		if len(short) > 0 {
			const shown = 5
			more := ""
			if len(short) > shown {
				more = fmt.Sprintf(" and %d more", len(short)-shown)
			}
			n += fmt.Sprintf("; %d of %d days give no temperature, having fewer than %d hours or a gap over %d: %s%s",
				len(short), days, LeastHours, LongestGap, strings.Join(short[:min(shown, len(short))], ", "), more)
		}
		out = append(out, n)
	}
	if t.Has(weather.RainQ) {
		when := "ends"
		if o.Begins {
			when = "begins"
		}
		out = append(out, fmt.Sprintf("%s: an hour's rain is that of the hour that %s at its stamp; %d of %d days give no rain, an hour of it missing", id, when, rainy, days))
	}
	return out
}
