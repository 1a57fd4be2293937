package unit

import (
	"fmt"
	"time"
)

// Day is a calendar day, counted from 1 January 1970. It has no time of day and no time zone.
type Day int32

// DateOf returns the day with the given civil date; months and days out of range roll over as in
// [time.Date].
func DateOf(year int, month time.Month, day int) Day {
	return Day(floorDiv(time.Date(year, month, day, 0, 0, 0, 0, time.UTC).Unix(), 86400))
}

// DayOf returns the civil day of t in t's own location.
func DayOf(t time.Time) Day {
	y, m, d := t.Date()
	return DateOf(y, m, d)
}

// ParseDay reads a date written YYYY-MM-DD.
func ParseDay(s string) (Day, error) {
	t, err := time.Parse(time.DateOnly, s)
	if err != nil {
		return 0, fmt.Errorf("date %q: want a calendar date written YYYY-MM-DD, such as 2026-05-19", s)
	}
	return DayOf(t), nil
}

// Time returns midnight UTC at the start of d.
func (d Day) Time() time.Time { return time.Unix(int64(d)*86400, 0).UTC() }

// Date returns the civil date of d.
func (d Day) Date() (year int, month time.Month, day int) { return d.Time().Date() }

// Year returns the year of d.
func (d Day) Year() int { return d.Time().Year() }

// Month returns the month of d.
func (d Day) Month() time.Month { return d.Time().Month() }

// YearDay returns the number of d in its own year, 1 to 366.
func (d Day) YearDay() int { return d.Time().YearDay() }

// Weekday returns the day of the week.
func (d Day) Weekday() time.Weekday { return d.Time().Weekday() }

// InYear returns the day with the same month and day in another year; 29 February becomes the 28th
// in a year that has none.
func (d Day) InYear(year int) Day {
	_, m, dd := d.Date()
	if m == time.February && dd == 29 && !Leap(year) {
		dd = 28
	}
	return DateOf(year, m, dd)
}

// String writes d as YYYY-MM-DD.
func (d Day) String() string { return d.Time().Format(time.DateOnly) }

// MarshalText writes d as YYYY-MM-DD.
func (d Day) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// UnmarshalText reads YYYY-MM-DD.
func (d *Day) UnmarshalText(b []byte) error {
	v, err := ParseDay(string(b))
	if err != nil {
		return err
	}
	*d = v
	return nil
}

// Leap reports whether year has a 29 February.
func Leap(year int) bool { return year%4 == 0 && (year%100 != 0 || year%400 == 0) }

// DaysIn returns the number of days in year.
func DaysIn(year int) int {
	if Leap(year) {
		return 366
	}
	return 365
}

func floorDiv(a, b int64) int64 {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}
