// Package ghcn reads the two forms in which GHCN-Daily, the world archive of daily station weather,
// gives out a station's record: fixed width (.dly), a line a month and element, and the by-station
// CSV without a header, a line a day and element. [source.GHCNDaily]
//
// Both readers stream, keep TMAX, TMIN, PRCP, SNOW and SNWD, and count the lines of other elements.
// A missing value (-9999) stays absent; a trace is kept as 0 and marked; a missing amount that the
// archive presumes to be 0 is kept as 0 and marked; a value with any quality flag is dropped and its
// letter kept in the report. Lines may have lost their trailing blanks and may end in CR LF.
//
// One malformed line refuses the whole file, with the first twenty reasons by line
// ([weather.Refusal]). A file of several stations gives a reading for each.
package ghcn

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"

	"haywarden/agronomy/unit"
	"haywarden/weather"
)

const (
	missing  = -9999
	idWidth  = 11
	tenths   = "tenths of a degree C and of a mm, snow in mm"
	byFormat = "as the format defines them"
)

// file is one file being read, line by line.
type file struct {
	name string
	in   *bufio.Reader
	seal *weather.Seal
	g    *weather.Gatherer
	rec  *weather.Record // of the line before
	date date            // of the line before, where lines carry one
	year int             // of today
}

// open starts on a file. The buffer holds any line that makes sense many times over.
func open(r io.Reader, name string, today unit.Day) *file {
	seal := weather.NewSeal(r)
	return &file{name: name, in: bufio.NewReaderSize(seal, 1<<16), seal: seal, g: weather.NewGatherer(name, today), year: today.Year()}
}

// next gives the next line without its end, whether a line end followed, and false after the last.
func (f *file) next() (line []byte, ended, ok bool, err error) {
	line, err = f.in.ReadSlice('\n')
	switch {
	case errors.Is(err, bufio.ErrBufferFull):
		f.g.Lines++
		return nil, false, false, weather.Refuse(f.name, "line %d is longer than %d bytes: this is not a weather record", f.g.Lines, f.in.Size())
	case err != nil && !errors.Is(err, io.EOF):
		return nil, false, false, fmt.Errorf("read %s: after line %d: %w", f.name, f.g.Lines, err)
	case len(line) == 0:
		return nil, false, false, nil
	}
	if f.g.Lines == 0 {
		line = bytes.TrimPrefix(line, []byte("\ufeff"))
	}
	f.g.Lines++
	if n := len(line); n > 0 && line[n-1] == '\n' {
		ended, line = true, line[:n-1]
	}
	if n := len(line); n > 0 && line[n-1] == '\r' {
		line = line[:n-1]
	}
	return line, ended, true, nil
}

// bad notes that the line just read is wrong.
func (f *file) bad(format string, args ...any) { f.g.Bad(f.g.Lines, format, args...) }

// station finds the record that the line just read belongs to; nil, with the fault noted, where its
// ID is none or where the file holds too many.
func (f *file) station(id []byte) *weather.Record {
	if f.rec != nil && string(id) == f.rec.Station.ID {
		f.rec.Lines++
		return f.rec
	}
	for i, c := range id {
		if !letter(c) && !digit(c) && c != '_' && c != '-' {
			f.bad("column %d: station ID %q is not made of letters and digits", i+1, id)
			return nil
		}
	}
	rec := f.g.Station(id)
	if rec == nil {
		f.bad("station %s is one too many: a file may hold %d; take out the stations you need", id, weather.MostStations)
		return nil
	}
	rec.Station.WholeF = weather.ReadsWholeF(rec.Station.ID)
	rec.Lines++
	f.rec = rec
	return rec
}

// close makes the readings.
func (f *file) close(format weather.Format) ([]weather.Reading, error) {
	note := weather.FileNote{Format: string(format), Unit: tenths, UnitHow: byFormat}
	f.seal.Mark(&note)
	return f.g.Close(note)
}

// element names a kept element by its four letters; ok is false for all others.
func element(code []byte) (e weather.Element, ok bool) {
	switch string(code) {
	case "TMAX":
		return weather.TMax, true
	case "TMIN":
		return weather.TMin, true
	case "PRCP":
		return weather.Rain, true
	case "SNOW":
		return weather.Snow, true
	case "SNWD":
		return weather.Depth, true
	}
	return 0, false
}

// elementName reports whether four bytes can be the name of an element.
func elementName(code []byte) bool {
	if len(code) != 4 {
		return false
	}
	for _, c := range code {
		if !letter(c) && !digit(c) {
			return false
		}
	}
	return true
}

// mark says what the archive's two flags make of a value: any quality flag fails it.
func mark(mflag, qflag byte) weather.Mark {
	switch {
	case qflag != ' ':
		return weather.Flagged
	case mflag == 'T':
		return weather.Trace
	case mflag == 'P':
		return weather.PresumedZero
	}
	return weather.Reported
}

func letter(c byte) bool { return 'A' <= c && c <= 'Z' }

func digit(c byte) bool { return '0' <= c && c <= '9' }

// whole reads an unsigned number of digits only, -1 where it is none.
func whole(b []byte) int {
	n := 0
	for _, c := range b {
		if !digit(c) {
			return -1
		}
		n = 10*n + int(c-'0')
	}
	return n
}

// signed reads a whole number, perhaps with a minus, of no more digits than any value has.
func signed(b []byte) (int32, bool) {
	digits := b
	if len(b) > 0 && b[0] == '-' {
		digits = b[1:]
	}
	n := whole(digits)
	if len(digits) == 0 || len(digits) > 9 || n < 0 {
		return 0, false
	}
	if len(digits) < len(b) {
		n = -n
	}
	return int32(n), true
}
