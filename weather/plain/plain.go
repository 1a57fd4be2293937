// Package plain reads daily weather as people keep it: a CSV with a line a day, whose columns are named
// with their units (date, tmax_f, tmin_f, rain_in; or "Tmax (°C)") or described by whoever brings it.
//
// The station is told by a column, by a line "# station: ID" above the table, or by whoever brings the
// file; so are its name and place, and units by "# units: tmax=F, rain=in". Dates may have the year
// first, the month in words, or day and month in an order that the file shows or that is declared.
//
// A column without a unit refuses the file, and so does a unit that summers or years of rain speak
// against. One malformed line refuses the whole file, with the first twenty reasons
// ([weather.Refusal]). A file of several stations gives a reading for each.
package plain

import (
	"io"

	"haywarden/agronomy/unit"
	"haywarden/weather"
	"haywarden/weather/declared"
)

// Read reads a plain daily CSV, named name in messages and in the report. A date after today refuses it.
func Read(r io.Reader, name string, today unit.Day, o declared.Options) ([]weather.Reading, error) {
	text, err := declared.Load(r, name, weather.FormatPlainCSV)
	if err != nil {
		return nil, err
	}
	t, err := declared.Read(text.Comments(), name, today, o)
	if err != nil {
		return nil, err
	}
	return Finish(t)
}

// Finish makes the readings of a table of days.
func Finish(t *declared.Table) ([]weather.Reading, error) {
	if !t.HasDaily() {
		return nil, t.Refuse("none of the columns tmax, tmin, rain, snow, depth; what a column holds can be declared")
	}
	if err := t.Days(); err != nil {
		return nil, err
	}
	if t.Sound() {
		if err := t.Plausible(); err != nil {
			return nil, err
		}
		t.Keep()
	}
	return t.Close()
}
