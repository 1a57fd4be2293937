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
	var cell [fields + 1][]byte
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
		n := 0
		for rest, more := line, true; more && n < len(cell); n++ {
			cell[n], rest, more = bytes.Cut(rest, []byte{','})
		}
		switch {
		case n < fields && !ended:
			f.bad("the file ends in the middle of the line: it was cut off, fetch it again")
		case n <= valueField || n > fields:
			f.bad("%d fields, 8 wanted: ID, YYYYMMDD, element, value, three flags, hour", n)
		default:
			clear(cell[n:])
			f.day(cell[:fields])
		}
	}
}

// day takes in one line of the CSV form.
func (f *file) day(cell [][]byte) {
	if len(cell[idField]) != idWidth {
		f.bad("station ID %q has %d letters, 11 wanted", cell[idField], len(cell[idField]))
		return
	}
	rec := f.station(cell[idField])
	if rec == nil {
		return
	}
	e, kept := element(cell[elementField])
	if !kept {
		if !elementName(cell[elementField]) {
			f.bad("element %q is not four letters and digits", cell[elementField])
			return
		}
		rec.Skip(cell[elementField])
		return
	}
	date := cell[dateField]
	day, why := f.date(date)
	if why != "" {
		f.bad("date %q: %s", date, why)
		return
	}
	v, err := strconv.ParseInt(string(cell[valueField]), 10, 32)
	if err != nil {
		f.bad("value %q is not a whole number", cell[valueField])
		return
	}
	mflag, okM := flagOf(cell[mField])
	qflag, okQ := flagOf(cell[qField])
	if !okM || !okQ {
		f.bad("flags %q and %q: a single letter or nothing wanted", cell[mField], cell[qField])
		return
	}
	hour, ok := hourOf(cell[timeField])
	if !ok {
		f.bad("hour of observation %q, accepted 0000 to 2400 or nothing", cell[timeField])
		return
	}
	if v == missing {
		return
	}
	if e == weather.TMin && hour >= 0 {
		rec.ReadAt(hour)
	}
	year, month, dd := day[0], time.Month(day[1]), day[2]
	rec.Year(year).Put(weather.MonthStart(year, month)+dd-1, e, int32(v), mark(mflag, qflag), qflag)
}

// date reads YYYYMMDD as year, month and day, or says what is wrong with it.
func (f *file) date(b []byte) (day [3]int, why string) {
	if len(b) != 8 || whole(b) < 0 {
		return day, "YYYYMMDD wanted"
	}
	day = [3]int{whole(b[:4]), whole(b[4:6]), whole(b[6:])}
	year, month := day[0], time.Month(day[1])
	switch {
	case year < weather.FirstYear:
		return day, "accepted from " + strconv.Itoa(weather.FirstYear)
	case month < time.January || month > time.December || day[2] < 1 || day[2] > weather.DaysInMonth(year, month):
		return day, "there is no such day"
	case unit.DateOf(year, month, day[2]) > f.g.Today():
		return day, "it is after today, " + f.g.Today().String()
	}
	return day, ""
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
