package ghcn

import (
	"bytes"
	"encoding/binary"
	"io"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/weather"
)

// The columns of a line, counted from 0: ID 11, year 4, month 2, element 4, then for each of 31 days
// a value of 5, right-justified, and the three flags M, Q and S. [source.GHCNDaily]
const (
	yearAt    = idWidth
	monthAt   = yearAt + 4
	elementAt = monthAt + 2
	daysAt    = elementAt + 4
	dayWidth  = 8
	lineWidth = daysAt + 31*dayWidth
)

// FixedWidth reads a .dly file, named name in messages and in the report. A value for a day after
// today refuses the file.
func FixedWidth(r io.Reader, name string, today unit.Day) ([]weather.Reading, error) {
	f := open(r, name, today)
	var padded [lineWidth]byte
	var met met
	for {
		line, ended, ok, err := f.next()
		if err != nil {
			return nil, err
		}
		if !ok {
			return f.close(weather.FormatFixedWidth)
		}
		if len(line) != lineWidth {
			line = bytes.TrimRight(line, " ")
			if len(line) == 0 {
				continue
			}
			if !f.complete(line, ended) {
				continue
			}
			for i := copy(padded[:], line); i < lineWidth; i++ {
				padded[i] = ' '
			}
			line = padded[:]
		}
		f.month(line, &met)
	}
}

// complete reports whether a line that is not of full width has only lost its trailing blanks.
func (f *file) complete(line []byte, ended bool) bool {
	n := len(line)
	switch {
	case n < daysAt:
		f.bad("%d columns, at least %d wanted: ID, year, month and element, then the days", n, daysAt)
	case n > lineWidth:
		f.bad("%d columns, at most %d wanted", n, lineWidth)
	case (n-daysAt)%dayWidth > 0 && (n-daysAt)%dayWidth < 5:
		f.bad("the line ends inside the value of day %d: the file was cut off, fetch it again", (n-daysAt)/dayWidth+1)
	case !ended && (n-daysAt+dayWidth-1)/dayWidth < 28:
		f.bad("the file ends in the middle of the line, after day %d: it was cut off, fetch it again", (n-daysAt+dayWidth-1)/dayWidth)
	default:
		return true
	}
	return false
}

// month takes in one line of full width.
func (f *file) month(line []byte, met *met) {
	rec := f.station(line[:idWidth])
	if rec == nil {
		return
	}
	year, month := whole(line[yearAt:monthAt]), time.Month(whole(line[monthAt:elementAt]))
	if year < weather.FirstYear || year > f.year {
		f.bad("columns 12-15: year %q, accepted %d to %d", line[yearAt:monthAt], weather.FirstYear, f.year)
		return
	}
	if month < time.January || month > time.December {
		f.bad("columns 16-17: month %q, accepted 01 to 12", line[monthAt:elementAt])
		return
	}
	code := line[elementAt:daysAt]
	e, kept := element(code)
	if !kept {
		if !elementName(code) {
			f.bad("columns 18-21: element %q is not four letters and digits", code)
			return
		}
		rec.Skip(code)
		if total(code) {
			f.totals(rec, code, line, year, month)
		}
		return
	}
	days := weather.DaysInMonth(year, month)
	observed := days // days that can have been observed by today
	if year == f.year {
		observed = min(days, int(f.g.Today()-unit.DateOf(year, month, 1))+1)
	}
	y, at := rec.Year(year), weather.MonthStart(year, month)
	for d := range 31 {
		w := binary.LittleEndian.Uint64(line[daysAt+dayWidth*d:]) | sFlag
		if w == blankMissing || w == allBlank {
			continue
		}
		r := met.of(w)
		if r.word == w && d < observed && y.Take(at+d, e, r.value, r.mark) {
			continue
		}
		v, ok := number(line[daysAt+dayWidth*d:][:5])
		mflag, qflag := byte(w>>mflagBits), byte(w>>qflagBits)
		switch {
		case !ok:
			f.bad("day %d: %q is not a whole number, right-justified", d+1, line[daysAt+dayWidth*d:][:5])
			return
		case v == missing:
			continue
		case d >= days:
			f.bad("day %d: value %d, but the month has %d days", d+1, v, days)
			return
		case d >= observed:
			f.bad("day %d: %s is after today, %s", d+1, unit.DateOf(year, month, d+1), f.g.Today())
			return
		case !printable(mflag) || !printable(qflag):
			f.bad("day %d: flags %q are not letters or blanks", d+1, line[daysAt+dayWidth*d:][5:8])
			return
		}
		m := mark(mflag, qflag)
		if m != weather.Flagged && v == int32(int16(v)) {
			*r = reading{w, int16(v), m}
		}
		y.Put(at+d, e, v, m, qflag)
	}
}

func printable(c byte) bool { return c >= ' ' && c <= '~' }

// A day's value and flags are read as one 64-bit word, the first column in the lowest byte. The source
// flag, which is not kept, is masked.
const (
	sFlag        = 0xff << 56
	blankMissing = sFlag | 0x2020_3939_3939_2d // "-9999   "
	allBlank     = sFlag | 0x20202020202020
	mflagBits    = 40
	qflagBits    = 48
)

// reading is what was made of a day's word.
type reading struct {
	word  uint64
	value int16
	mark  weather.Mark
}

// met remembers the words met last. A station's record holds a hundred thousand of them and not two
// thousand that differ, so that few have to be read.
type met [1 << metBits]reading

const metBits = 11

// of is the place of a word, where another may stand. No word is 0, as an empty place is.
func (m *met) of(w uint64) *reading {
	const golden = 0x9e3779b97f4a7c15 // 2^64 by the golden ratio: spreads words that differ little
	return &m[w*golden>>(64-metBits)]
}

// number reads a right-justified whole number: blanks, perhaps a minus, digits.
func number(b []byte) (int32, bool) { return signed(bytes.TrimLeft(b, " ")) }
