package ghcn

import (
	"time"

	"haywarden/agronomy/unit"
	"haywarden/weather"
)

// total reports whether an element is rain of several days read at once, or over how many days it fell.
func total(code []byte) bool { return string(code) == "MDPR" || string(code) == "DAPR" }

// totals takes in a line of full width that holds either.
func (f *file) totals(rec *weather.Record, code, line []byte, year int, month time.Month) {
	for d := range weather.DaysInMonth(year, month) {
		cell := line[daysAt+dayWidth*d:][:dayWidth]
		v, ok := number(cell[:5])
		switch {
		case string(cell[:5]) == "     ", ok && v == missing, cell[6] != ' ':
		case !ok:
			f.bad("day %d: %q is not a whole number, right-justified", d+1, cell[:5])
			return
		case unit.DateOf(year, month, d+1) > f.g.Today():
			f.bad("day %d: %s is after today, %s", d+1, unit.DateOf(year, month, d+1), f.g.Today())
			return
		default:
			note(rec, code, unit.DateOf(year, month, d+1), v)
		}
	}
}

// totalOn takes in a line of the CSV form that holds either.
func (f *file) totalOn(rec *weather.Record, code []byte, row *row) {
	date := row.cell(dateField)
	if why := f.readDate(date, whole(date)); why != "" {
		f.bad("date %q: %s", date, why)
		return
	}
	v, ok := signed(row.cell(valueField))
	if !ok {
		f.bad("value %q is not a whole number", row.cell(valueField))
		return
	}
	if qflag, ok := flagOf(row.cell(qField)); v != missing && ok && qflag == ' ' {
		note(rec, code, unit.DateOf(f.date.year, time.January, 1)+unit.Day(f.date.place), v)
	}
}

func note(rec *weather.Record, code []byte, read unit.Day, v int32) {
	if string(code) == "MDPR" {
		rec.Total(read, v)
		return
	}
	rec.TotalDays(read, int(v))
}
