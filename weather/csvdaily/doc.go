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
	"encoding/csv"
	"errors"
	"fmt"
	"io"

	"haywarden/agronomy/unit"
	"haywarden/weather"
)

// mostBytes is the largest file taken (choice); a century of one station is some 4 MB.
const mostBytes = 256 << 20

// Read reads a daily-summaries CSV, named name in messages and in the report. With Unstated units
// they are found from the values. A date after today refuses the file.
func Read(r io.Reader, name string, today unit.Day, units Units) ([]weather.Reading, error) {
	seal := weather.NewSeal(r)
	raw, err := io.ReadAll(io.LimitReader(seal, mostBytes+1))
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", name, err)
	}
	if len(raw) > mostBytes {
		return nil, weather.Refuse(name, "the file is larger than %d MB; take out the stations you need", mostBytes>>20)
	}
	text, encoding, err := decode(raw)
	if err != nil {
		return nil, weather.Refuse(name, "%v", err)
	}
	t := &table{g: weather.NewGatherer(name, today), name: name, stations: map[string]int{}}
	if err := t.read(text); err != nil {
		return nil, err
	}
	found, how, err := settle(units, t)
	if err != nil && t.sound() {
		return nil, weather.Refuse(name, "%v", err)
	}
	if t.sound() {
		t.keep(found)
	}
	note := weather.FileNote{Format: string(weather.FormatDailyCSV), Encoding: encoding, Unit: found.String(), UnitHow: how}
	seal.Mark(&note)
	return t.g.Close(note)
}

// table is the file's rows as numbers in the file's own units.
type table struct {
	g        *weather.Gatherer
	name     string
	head     header
	comma    bool // decimals are written with a comma
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

// read splits the text into rows.
func (t *table) read(text string) error {
	sep := separator(text)
	t.comma = sep != ','
	in := csv.NewReader(lines(text))
	in.Comma, in.ReuseRecord, in.FieldsPerRecord = sep, true, -1
	names, err := in.Read()
	if err != nil {
		return weather.Refuse(t.name, "the file has no header line with STATION, DATE and elements")
	}
	if t.head, err = readHeader(names); err != nil {
		return weather.Refuse(t.name, "line 1: %v", err)
	}
	t.g.Lines = 1
	for {
		fields, err := in.Read()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if wrong, ok := errors.AsType[*csv.ParseError](err); ok {
			t.g.Lines++
			t.fault(wrong.Line, "%v; check the quotes", wrong.Err)
			continue
		}
		if err != nil {
			return fmt.Errorf("read %s: %w", t.name, err)
		}
		t.g.Lines++
		line, _ := in.FieldPos(0)
		if len(fields) == 1 && fields[0] == "" {
			continue
		}
		if len(fields) != len(names) {
			t.fault(line, "%d fields, %d wanted as in the header", len(fields), t.head.width)
			continue
		}
		t.row(line, fields)
	}
}
