package ghcn

import (
	"bytes"
	"io"
	"strconv"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/weather"
)

// The fields of a line. [source.GHCNDaily]
const (
	idField = iota
	dateField
	elementField
	valueField
	mField
	qField
	sField
	timeField
	fields
)

// ByStation reads the CSV form without a header: ID, YYYYMMDD, element, value, three flags and the
// hour of observation (HHMM or empty). Copies of the archive that carry a header line have it passed
// over. Trailing empty fields may be missing. A value for a day after today refuses the file.
func ByStation(r io.Reader, name string, today unit.Day) ([]weather.Reading, error) {
	f := open(r, name, today)
	var row row
	for {
		line, ended, ok, err := f.next()
		if err != nil {
			return nil, err
		}
		if !ok {
			return f.close(weather.FormatByStation)
		}
		line = bytes.TrimRight(line, " ")
		if len(line) == 0 || f.g.Lines == 1 && bytes.HasPrefix(line, []byte("ID,DATE,ELEMENT,")) {
			continue
		}
		switch n := row.split(line); {
		case n < fields && !ended:
			f.bad("the file ends in the middle of the line: it was cut off, fetch it again")
		case n <= valueField || n > fields:
			f.bad("%d fields, 8 wanted: ID, YYYYMMDD, element, value, three flags, hour", n)
		default:
			f.day(&row)
		}
	}
}

// row is a line cut at its commas. It holds places, not slices, which would cost a barrier each
// whenever the collector runs.
type row struct {
	line     []byte
	from, to [fields + 1]int
}

// cell is a field; one that the line lacks is empty.
func (r *row) cell(i int) []byte { return r.line[r.from[i]:r.to[i]] }

// split cuts a line and returns how many fields it has, or one more than it may have. Nearly every line
// has its first three commas where the widths of ID, date and element put them, and only a few letters
// after those.
func (r *row) split(line []byte) int {
	const date, elem, value = idWidth + 1, idWidth + 1 + 8 + 1, idWidth + 1 + 8 + 1 + 4 + 1
	*r = row{line: line}
	n, from := 0, 0
	if len(line) > value && line[date-1] == ',' && line[elem-1] == ',' && line[value-1] == ',' {
		r.from, r.to = [fields + 1]int{0, date, elem}, [fields + 1]int{date - 1, elem - 1, value - 1}
		n, from = valueField, value
	}
	for i := from; i < len(line) && n < fields; i++ {
		if line[i] == ',' {
			r.from[n], r.to[n] = from, i
			n, from = n+1, i+1
		}
	}
	r.from[n], r.to[n] = from, len(line)
	return n + 1
}

// day takes in one line of the CSV form.
func (f *file) day(row *row) {
	id, code, date := row.cell(idField), row.cell(elementField), row.cell(dateField)
	if len(id) != idWidth {
		f.bad("station ID %q has %d letters, 11 wanted", id, len(id))
		return
	}
	rec := f.station(id)
	if rec == nil {
		return
	}
	e, kept := element(code)
	if !kept {
		if !elementName(code) {
			f.bad("element %q is not four letters and digits", code)
			return
		}
		rec.Skip(code)
		if total(code) {
			f.totalOn(rec, code, row)
		}
		return
	}
	if n := whole(date); len(date) != 8 || n != f.date.number {
		if why := f.readDate(date, n); why != "" {
			f.bad("date %q: %s", date, why)
			return
		}
	}
	v, ok := signed(row.cell(valueField))
	if !ok {
		f.bad("value %q is not a whole number", row.cell(valueField))
		return
	}
	mflag, okM := flagOf(row.cell(mField))
	qflag, okQ := flagOf(row.cell(qField))
	if !okM || !okQ {
		f.bad("flags %q and %q: a single letter or nothing wanted", row.cell(mField), row.cell(qField))
		return
	}
	hour, ok := hourOf(row.cell(timeField))
	if !ok {
		f.bad("hour of observation %q, accepted 0000 to 2400 or nothing", row.cell(timeField))
		return
	}
	if v == missing {
		return
	}
	y := rec.Year(f.date.year)
	if hour >= 0 {
		y.ReadAt(f.date.place, e, hour)
	}
	y.Put(f.date.place, e, v, mark(mflag, qflag), qflag)
}

// date is the date of the line before, which that of the next line often is.
type date struct {
	number int // YYYYMMDD; no date is 0
	year   int
	place  int // in the year, from 0
}

// readDate keeps the date written in b, as a number n, or says what is wrong with it.
func (f *file) readDate(b []byte, n int) (why string) {
	if len(b) != 8 || n < 0 {
		return "YYYYMMDD wanted"
	}
	year, month, day := n/10000, time.Month(n/100%100), n%100
	switch {
	case year < weather.FirstYear:
		return "accepted from " + strconv.Itoa(weather.FirstYear)
	case month < time.January || month > time.December || day < 1 || day > weather.DaysInMonth(year, month):
		return "there is no such day"
	case year >= f.year && unit.DateOf(year, month, day) > f.g.Today():
		return "it is after today, " + f.g.Today().String()
	}
	f.date = date{n, year, weather.MonthStart(year, month) + day - 1}
	return ""
}

// flagOf reads a flag field as a letter, a blank where it is empty.
func flagOf(b []byte) (byte, bool) {
	switch {
	case len(b) == 0:
		return ' ', true
	case len(b) == 1 && printable(b[0]):
		return b[0], true
	}
	return 0, false
}

// hourOf reads HHMM as the nearest whole hour, 0 to 24; -1 where it is empty.
func hourOf(b []byte) (int, bool) {
	if len(b) == 0 {
		return -1, true
	}
	if n := whole(b); len(b) == 4 && n >= 0 && n <= 2400 && n%100 < 60 {
		return (n/100*60 + n%100 + 30) / 60, true
	}
	return 0, false
}
