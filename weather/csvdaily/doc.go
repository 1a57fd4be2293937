// Package csvdaily reads daily-summaries CSV: one line a day, with a header that names STATION, DATE,
// perhaps NAME, LATITUDE, LONGITUDE and ELEVATION, and any of PRCP, SNOW, SNWD, TMAX, TMIN, each
// perhaps with its _ATTRIBUTES column ("M,Q,S"). [source.GHCNDaily]
//
// Such a file does not say whether it is in degrees C and mm, degrees F and inches, or the archive's
// tenths, since that was chosen when it was ordered. The reader takes the units from the caller, or
// finds them from the summer's highest temperatures and the year's rain, and never assumes them:
// where they cannot be found, or what was said does not fit what is seen, the file is refused.
//
// The elevation is read as metres in either order (from memory).
//
// One malformed line refuses the whole file, with the first twenty reasons ([weather.Refusal]). A file
// of several stations gives a reading for each; its units are those of the whole file.
package csvdaily

import (
	"errors"
	"fmt"
	"io"

	"haywarden/agronomy/unit"
	"haywarden/tabular"
	"haywarden/weather"
)

// mostBytes is the largest file taken (choice); a century of one station is some 4 MB.
const mostBytes = 256 << 20

// Read reads a daily-summaries CSV, named name in messages and in the report. With Unstated units
// they are found from the values. A date after today refuses the file.
func Read(r io.Reader, name string, today unit.Day, units Units) ([]weather.Reading, error) {
	seal := weather.NewSeal(r)
	in, err := tabular.Open(seal, mostBytes)
	if fault, ok := errors.AsType[*tabular.Fault](err); ok {
		return nil, weather.Refuse(name, "%v", fault)
	}
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", name, err)
	}
	t := &table{g: weather.NewGatherer(name, today), name: name, stations: map[string]int{}}
	if err := t.read(in); err != nil {
		return nil, err
	}
	found, how, err := settle(units, t)
	if err != nil && t.sound() {
		return nil, weather.Refuse(name, "%v", err)
	}
	if t.sound() {
		t.keep(found)
	}
	note := weather.FileNote{Format: string(weather.FormatDailyCSV), Encoding: in.Encoding, Unit: found.String(), UnitHow: how}
	seal.Mark(&note)
	return t.g.Close(note)
}

// table is the file's rows as numbers in the file's own units.
type table struct {
	g        *weather.Gatherer
	name     string
	head     header
	rows     []row
	stations map[string]int // by ID: place in places
	places   []*weather.Record
	bad      int
}

// row is one day of one station.
type row struct {
	day     unit.Day
	line    int
	station int
	cell    [5]cell // by weather.Element
}

// cell is one value as written, with what its attributes make of it.
type cell struct {
	value float64
	mark  weather.Mark
	flag  byte
}

// sound reports whether every line so far could be read.
func (t *table) sound() bool { return t.bad == 0 }

func (t *table) fault(line int, format string, args ...any) {
	t.bad++
	t.g.Bad(line, format, args...)
}

// read takes in the rows.
func (t *table) read(in *tabular.Reader) error {
	var err error
	if t.head, err = readHeader(in.Header); err != nil {
		return weather.Refuse(t.name, "header: %v", err)
	}
	t.g.Lines = 1
	for {
		row, err := in.Next()
		if errors.Is(err, io.EOF) {
			return nil
		}
		t.g.Lines++
		if fault, ok := errors.AsType[*tabular.Fault](err); ok {
			t.fault(fault.Line, "%s", fault.Text)
			continue
		}
		if err != nil {
			return fmt.Errorf("read %s: %w", t.name, err)
		}
		t.row(row)
	}
}
