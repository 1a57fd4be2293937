// Package declared reads tables of weather whose columns are declared: named with their units, as in
// tmax_f or "Tmax (°C)", or described by whoever brings the file. It is the front of the readers of plain,
// gridded and hourly CSV, which ask it for rows in degrees C and mm and see to what a day is.
//
// A unit is never guessed: a column whose unit is not declared refuses the file. What was declared is
// held against what summers and years of rain can be, so that a wrong declaration is found.
package declared

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"haywarden/agronomy/unit"
	"haywarden/tabular"
	"haywarden/weather"
)

// mostBytes is the largest file taken (choice); a century of hours of one station is some 40 MB.
const mostBytes = 256 << 20

// Options are what whoever brings a file says of it.
type Options struct {
	Columns weather.Declared
	Dates   Order           // of days and months, where the year stands last
	Station weather.Station // ID, name and place, as far as the file does not tell them
}

// Table is a file read: its rows in degrees C and mm.
type Table struct {
	Gatherer *weather.Gatherer
	Note     weather.FileNote
	Rows     []Row
	Stations []*Station
	Heads    []weather.Heading

	name    string
	names   []string
	options Options
	at      map[weather.Quantity]int
	byID    map[string]int
	other   []int
	bad     int
	unitsF  bool // both temperatures are in F
}

// Station is a station of the file.
type Station struct {
	Record *weather.Record
	temps  int  // temperatures met
	parted bool // one of them is no whole degree F
}

// Row is a line of the file.
type Row struct {
	Line    int
	Station int          // place in Stations
	Date    string       // as written
	Hour    string       // as written
	Day     unit.Day     // of daily tables
	Value   [slots]Value // by slot
	parts   [4]string    // year, month, day, day of the year, where those are columns
}

// Value is one value in degrees C or mm.
type Value struct {
	Base float64
	Mark weather.Mark
}

const slots = 6

// HourTemperature is the place of the temperature of an hour in a row; elements stand at their number.
const HourTemperature = 5

func slotOf(q weather.Quantity) (int, bool) {
	if q == weather.TemperatureQ {
		return HourTemperature, true
	}
	e, ok := q.Element()
	return int(e), ok
}

// Read takes in a text whose first line that is not empty is the header.
func Read(text Text, name string, today unit.Day, o Options) (*Table, error) {
	o, err := text.fill(o)
	if err != nil {
		return nil, weather.Refuse(name, "%v", err)
	}
	in, err := tabular.Open(strings.NewReader(text.Rest), mostBytes)
	if fault, ok := errors.AsType[*tabular.Fault](err); ok {
		return nil, weather.Refuse(name, "%v", fault)
	}
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", name, err)
	}
	t := &Table{
		Gatherer: weather.NewGatherer(name, today), Note: text.note, name: name, names: in.Header.Names(),
		options: o, at: map[weather.Quantity]int{}, byID: map[string]int{},
	}
	if t.Heads, err = o.Columns.Headings(t.names); err != nil {
		return nil, weather.Refuse(name, "header: %v", oneLine(err))
	}
	for i, h := range t.Heads {
		if h.Quantity == weather.NoQuantity {
			t.other = append(t.other, i)
			continue
		}
		t.at[h.Quantity] = i
	}
	t.unitsF = t.measure(weather.HighQ) == weather.Fahrenheit || t.measure(weather.LowQ) == weather.Fahrenheit || t.measure(weather.TemperatureQ) == weather.Fahrenheit
	t.Note.Unit, t.Note.UnitHow = t.unitsInWords(), "declared by the columns' names or by whoever brought the file"
	return t, t.rows(in)
}

// Has reports whether the file holds a quantity.
func (t *Table) Has(q weather.Quantity) bool { _, ok := t.at[q]; return ok }

func (t *Table) measure(q weather.Quantity) weather.Measure {
	if i, ok := t.at[q]; ok {
		return t.Heads[i].Measure
	}
	return weather.NoMeasure
}

func (t *Table) unitsInWords() string {
	var words []string
	for i, h := range t.Heads {
		if h.Measure != weather.NoMeasure {
			words = append(words, fmt.Sprintf("%s in %s", t.names[i], h.Measure))
		}
	}
	return strings.Join(words, ", ")
}

// Sound reports whether every line so far could be read.
func (t *Table) Sound() bool { return t.bad == 0 }

// Bad notes that a line is wrong.
func (t *Table) Bad(line int, format string, args ...any) {
	t.bad++
	t.Gatherer.Bad(line, format, args...)
}

// Refuse refuses the whole file.
func (t *Table) Refuse(format string, args ...any) error {
	return weather.Refuse(t.name, format, args...)
}

func (t *Table) rows(in *tabular.Reader) error {
	t.Gatherer.Lines = 1
	for {
		row, err := in.Next()
		if errors.Is(err, io.EOF) {
			return nil
		}
		t.Gatherer.Lines++
		if fault, ok := errors.AsType[*tabular.Fault](err); ok {
			t.Bad(fault.Line, "%s", fault.Text)
			continue
		}
		if err != nil {
			return fmt.Errorf("read %s: %w", t.name, err)
		}
		t.row(row)
	}
}

func (t *Table) row(in tabular.Row) {
	cell := func(q weather.Quantity) string {
		if i, ok := t.at[q]; ok {
			return in.Cell(i)
		}
		return ""
	}
	station, ok := t.station(in, cell)
	if !ok {
		return
	}
	r := Row{
		Line: in.Line, Station: station, Date: cell(weather.DateQ), Hour: cell(weather.HourQ),
		parts: [4]string{cell(weather.YearQ), cell(weather.MonthQ), cell(weather.DayQ), cell(weather.YearDayQ)},
	}
	st := t.Stations[station]
	for i := range r.Value {
		r.Value[i].Mark = weather.Absent
	}
	for i, h := range t.Heads {
		slot, ok := slotOf(h.Quantity)
		if !ok {
			continue
		}
		v, why := value(in, in.Cell(i), h)
		if why != "" {
			t.Bad(in.Line, "%s: %s", t.names[i], why)
			return
		}
		r.Value[slot] = v
		if v.Mark == weather.Reported && (slot <= int(weather.TMin) || slot == HourTemperature) {
			st.temperature(v.Base)
		}
	}
	for _, i := range t.other {
		if in.Cell(i) != "" {
			st.Record.Skip([]byte(t.names[i]))
		}
	}
	st.Record.Lines++
	t.Rows = append(t.Rows, r)
}

// missing are the words that stand for a value that is not there (choice, from files met).
var missing = []string{"", "m", "na", "n/a", "nan", "null", "none", "missing", "-", "."}

// mostBase keeps a value within what can be stored: degrees C, or mm.
const mostBase = 100_000

// value reads a cell. Numbers known to stand for missing are absent. [source.GHCNQuality]
func value(in tabular.Row, written string, h weather.Heading) (Value, string) {
	if slices.Contains(missing, strings.ToLower(written)) {
		return Value{Mark: weather.Absent}, ""
	}
	amount := h.Quantity != weather.HighQ && h.Quantity != weather.LowQ && h.Quantity != weather.TemperatureQ
	if amount && strings.EqualFold(written, "t") {
		return Value{Mark: weather.Trace}, ""
	}
	v, err := in.Number(written)
	switch {
	case err != nil:
		return Value{}, err.Error()
	case v == -9999 || v == 9999.9 || v == 999.9 || v == 99.99 || v == -999.9 || v == -999 || v == -99.9:
		return Value{Mark: weather.Absent}, ""
	}
	base := h.Measure.Base(v)
	if base > mostBase || base < -mostBase {
		return Value{}, fmt.Sprintf("%q is too large a number", written)
	}
	return Value{Base: base, Mark: weather.Reported}, ""
}

// temperature looks at whether observers read whole degrees F.
func (s *Station) temperature(c float64) {
	s.temps++
	f := c*1.8 + 32
	tenths := int16(weather.TMax.Stored(max(-3000, min(3000, c))))
	whole := int16(weather.TMax.Stored((float64(weather.WholeFahrenheit(tenths)) - 32) / 1.8))
	if d := f - float64(int(f+1000.5)-1000); tenths != whole || d > 0.1 || d < -0.1 {
		s.parted = true
	}
}

// leastWhole is how many temperatures it takes to believe that they are whole degrees F: of readings in
// tenths C, 9 in 50 are so by chance (choice).
const leastWhole = 30

// Close makes the readings of what was put into the records.
func (t *Table) Close() ([]weather.Reading, error) {
	for _, s := range t.Stations {
		s.Record.Station.WholeF = !s.parted && (t.unitsF && s.temps > 0 || s.temps >= leastWhole)
	}
	return t.Gatherer.Close(t.Note)
}

// Days gives each row its day; a row that has none is a fault.
func (t *Table) Days() error {
	day, err := t.dates()
	if err != nil {
		return err
	}
	for i := range t.Rows {
		r := &t.Rows[i]
		d, why := day(r)
		if why == "" {
			why = t.Possible(d)
		}
		if why != "" {
			t.Bad(r.Line, "%s", why)
			continue
		}
		r.Day = d
	}
	return nil
}

// Possible says why there can be no observation of a day; empty where there can.
func (t *Table) Possible(d unit.Day) string {
	switch {
	case d > t.Gatherer.Today():
		return fmt.Sprintf("date %s is after today, %s", d, t.Gatherer.Today())
	case d.Year() < weather.FirstYear:
		return fmt.Sprintf("date %s, accepted from %d", d, weather.FirstYear)
	}
	return ""
}

// Keep puts the daily elements of all rows into their records.
func (t *Table) Keep() {
	for i := range t.Rows {
		r := &t.Rows[i]
		y := t.Stations[r.Station].Record.Year(r.Day.Year())
		for _, e := range weather.Elements() {
			if v := r.Value[e]; v.Mark != weather.Absent {
				y.Put(r.Day.YearDay()-1, e, e.Stored(v.Base), v.Mark, 0)
			}
		}
	}
}

func oneLine(err error) string { return strings.ReplaceAll(err.Error(), "\n", "; ") }

// HasDaily reports whether the file holds any element that is kept of a day.
func (t *Table) HasDaily() bool {
	for q := range t.at {
		if _, ok := q.Element(); ok {
			return true
		}
	}
	return false
}
