package declared

import (
	"fmt"
	"regexp"
	"strconv"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/tabular"
	"haywarden/weather"
)

// Order is the order of day and month in a date whose year stands last.
type Order string

// The orders.
const (
	UnstatedOrder Order = "" // found, where one date of the file can be read in one way only
	MonthFirst    Order = "mdy"
	DayFirst      Order = "dmy"
)

// ParseOrder reads an order by its name.
func ParseOrder(s string) (Order, error) {
	switch o := Order(s); o {
	case UnstatedOrder, MonthFirst, DayFirst:
		return o, nil
	}
	return "", fmt.Errorf("order of dates %q: accepted mdy (month first) and dmy (day first)", s)
}

var yearLast = regexp.MustCompile(`^(\d{1,2})[-/.](\d{1,2})[-/.](\d{4})(.*)$`)

// dates gives the function that reads a row's day.
func (t *Table) dates() (func(*Row) (unit.Day, string), error) {
	switch {
	case t.Has(weather.DateQ):
		order := t.FindOrder()
		return func(r *Row) (unit.Day, string) {
			d, err := order.Date(r.Date)
			if err != nil {
				return 0, fmt.Sprintf("date %.40q: %v", r.Date, err)
			}
			return unit.DayOf(d), ""
		}, nil
	case t.Has(weather.YearQ) && t.Has(weather.YearDayQ):
		return func(r *Row) (unit.Day, string) { return yearDay(r.parts[0], r.parts[3]) }, nil
	case t.Has(weather.YearQ) && t.Has(weather.MonthQ) && t.Has(weather.DayQ):
		return func(r *Row) (unit.Day, string) {
			d, err := tabular.DateByYear(r.parts[0] + "-" + r.parts[1] + "-" + r.parts[2])
			if err != nil {
				return 0, fmt.Sprintf("year %.8q, month %.8q, day %.8q: %v", r.parts[0], r.parts[1], r.parts[2], err)
			}
			return unit.DayOf(d), ""
		}, nil
	}
	return nil, t.Refuse("no column of dates: a column date, or year with month and day, or year with yday wanted; the columns are %.200q", t.names)
}

func yearDay(year, day string) (unit.Day, string) {
	y, err1 := strconv.Atoi(year)
	n, err2 := strconv.Atoi(day)
	if err1 != nil || err2 != nil || y < 1 || y > 9999 || n < 1 || n > unit.DaysIn(y) {
		return 0, fmt.Sprintf("year %.8q, day of the year %.8q: there is no such day", year, day)
	}
	return unit.DateOf(y, time.January, 1) + unit.Day(n-1), ""
}

// FindOrder finds in which order the file's dates stand, from those that can be read in one way only,
// and notes it. The order that was declared goes first.
func (t *Table) FindOrder() Order {
	if t.options.Dates != UnstatedOrder {
		t.Note.Notes = append(t.Note.Notes, "dates with the year last are read as "+string(t.options.Dates)+", as declared")
		return t.options.Dates
	}
	month, day, both := 0, 0, 0
	for i := range t.Rows {
		m := yearLast.FindStringSubmatch(t.Rows[i].Date)
		if m == nil {
			continue
		}
		a, _ := strconv.Atoi(m[1]) // one or two digits
		b, _ := strconv.Atoi(m[2])
		switch {
		case a > 12 && b <= 12:
			day++
		case b > 12 && a <= 12:
			month++
		default:
			both++
		}
	}
	found := UnstatedOrder
	switch {
	case both == 0:
	case month > 0 && day == 0:
		found = MonthFirst
	case day > 0 && month == 0:
		found = DayFirst
	}
	if found != UnstatedOrder {
		t.Note.Notes = append(t.Note.Notes, fmt.Sprintf("dates are read as %s, since %d of them can be read in no other way", found, month+day))
	}
	return found
}

// Date reads a date, as midnight UTC.
func (o Order) Date(s string) (time.Time, error) {
	m := yearLast.FindStringSubmatch(s)
	if m == nil || o == UnstatedOrder {
		d, err := tabular.Date(s)
		if err != nil && m != nil {
			return d, fmt.Errorf("%w, or declare the order of dates, mdy or dmy", err)
		}
		return d, err
	}
	month, day := m[1], m[2]
	if o == DayFirst {
		month, day = day, month
	}
	return tabular.Date(m[3] + "-" + month + "-" + day + m[4])
}
