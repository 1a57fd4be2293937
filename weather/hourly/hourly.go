// Package hourly reads tables of hourly readings and makes days of them: the highest and the lowest of
// the readings of a local day, and its rain.
//
// A stamp is an instant: it carries its offset from UTC, or the zone of the stamps is declared. A day is
// the local one of a declared zone, from midnight to midnight, and has 23 or 25 hours where the clock is
// set; a zone of fixed offset has none of that. A stamp of an hour that the clock leaves out refuses
// the file, since it was not read by that clock; where an hour comes twice, the first line is taken for
// the first of them.
//
// A day with fewer than [LeastHours] of its hours, or with a gap longer than [LongestGap], gives no
// temperature; a day of which any hour is missing gives no rain. How many hours were missing is told.
// The extremes of hourly readings lie within those of a thermometer that marks them.
package hourly

import (
	"io"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/weather"
	"haywarden/weather/declared"
)

// What a day must have (choice).
const (
	LeastHours = 20 // of 24; a day of 23 or 25 may lack as many
	LongestGap = 3  // hours in a row without a reading
)

// Options say what the stamps mean.
type Options struct {
	declared.Options
	Day    *time.Location // whose days are made
	Stamps *time.Location // of stamps without an offset; nil: as Day
	Begins bool           // an hour's rain is that of the hour that begins at its stamp, not that ends there
}

// Read reads an hourly CSV, named name in messages and in the report. A stamp of a day after today
// refuses it.
func Read(r io.Reader, name string, today unit.Day, o Options) ([]weather.Reading, error) {
	text, err := declared.Load(r, name, weather.FormatHourly)
	if err != nil {
		return nil, err
	}
	t, err := declared.Read(text.Comments(), name, today, o.Options)
	if err != nil {
		return nil, err
	}
	switch {
	case !t.Has(weather.DateQ):
		return nil, t.Refuse("no column of stamps: a column date, datetime or time wanted, with or without a column hour; what a column holds can be declared")
	case !t.Has(weather.TemperatureQ) && !t.Has(weather.RainQ):
		return nil, t.Refuse("neither a column temperature nor a column rain; what a column holds can be declared")
	case o.Day == nil:
		return nil, t.Refuse("the zone of the place is not declared: without it nobody knows when its days begin; declare one, as in America/Chicago, or an offset, as in -06:00")
	}
	if o.Stamps == nil {
		o.Stamps = o.Day
	}
	records := readHours(t, o)
	if t.Sound() {
		for i, hours := range records {
			keep(t, i, hours, o)
		}
	}
	return t.Close()
}
