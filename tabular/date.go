package tabular

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// dateWanted ends every refusal of a date.
const dateWanted = "a date written YYYY-MM-DD wanted"

var (
	yearFirst  = regexp.MustCompile(`^(\d{4})([-/.])(\d{1,2})([-/.])(\d{1,2})$`)
	yearRun    = regexp.MustCompile(`^(\d{4})(\d{2})(\d{2})$`)
	yearLast   = regexp.MustCompile(`^(\d{1,2})([-/.])(\d{1,2})([-/.])(\d{4})$`)
	monthNamed = regexp.MustCompile(`^(?:(\d{1,2})(?:st|nd|rd|th)?[ .-]*([A-Za-z]{3,9})|([A-Za-z]{3,9})[ .-]*(\d{1,2})(?:st|nd|rd|th)?)[ .,-]*(\d{4})$`)
	midnight   = regexp.MustCompile(`[T ]00:00(:00(\.0+)?)?Z?$`)
)

// DateByYear reads a date that begins with its year, as midnight UTC. Others are refused, not guessed.
func DateByYear(s string) (time.Time, error) {
	for _, form := range []*regexp.Regexp{yearFirst, yearRun} {
		m := form.FindStringSubmatch(s)
		switch {
		case len(m) == 6 && m[2] == m[4]:
			return day(m[1], m[3], m[5])
		case len(m) == 4:
			return day(m[1], m[2], m[3])
		}
	}
	if strings.Count(s, "-") == 2 || strings.Count(s, "/") == 2 {
		return time.Time{}, fmt.Errorf("%s, since day and month cannot be told apart otherwise", dateWanted)
	}
	return time.Time{}, errors.New(dateWanted)
}

// Date reads a date in any form that can be read in one way only: with the year first, with the month
// in words, or with the year last where only one of the other numbers can be a month. 3/4/2024 is
// refused: it is a day in March to one reader and in April to another. A time of midnight, as
// spreadsheet programs put it, is passed over.
func Date(s string) (time.Time, error) {
	s = midnight.ReplaceAllString(s, "")
	if m := monthNamed.FindStringSubmatch(s); m != nil {
		month, ok := monthOf(m[2] + m[3])
		if !ok {
			return time.Time{}, fmt.Errorf("no month is called %q; %s", m[2]+m[3], dateWanted)
		}
		return day(m[5], strconv.Itoa(int(month)), m[1]+m[4])
	}
	m := yearLast.FindStringSubmatch(s)
	if m == nil || m[2] != m[4] {
		return DateByYear(s)
	}
	a, b, year := number(m[1]), number(m[3]), m[5]
	switch {
	case a == b || b > 12:
		return day(year, m[1], m[3])
	case a > 12:
		return day(year, m[3], m[1])
	}
	first, second := time.Date(number(year), time.Month(a), b, 0, 0, 0, 0, time.UTC), time.Date(number(year), time.Month(b), a, 0, 0, 0, 0, time.UTC)
	return time.Time{}, fmt.Errorf("%s or %s? write the date so", first.Format(time.DateOnly), second.Format(time.DateOnly))
}

// monthOf reads a month by its name or the first letters of it.
func monthOf(name string) (time.Month, bool) {
	for m := time.January; m <= time.December; m++ {
		if strings.HasPrefix(strings.ToLower(m.String()), strings.ToLower(name)) {
			return m, true
		}
	}
	return 0, false
}

// number reads digits that a pattern has found; there are four at most.
func number(digits string) int {
	n := 0
	for _, d := range []byte(digits) {
		n = 10*n + int(d-'0')
	}
	return n
}

// day is a date that exists.
func day(year, month, dayOfMonth string) (time.Time, error) {
	y, m, d := number(year), number(month), number(dayOfMonth)
	t := time.Date(y, time.Month(m), d, 0, 0, 0, 0, time.UTC)
	if m < 1 || m > 12 || t.Day() != d {
		return time.Time{}, errors.New("there is no such day")
	}
	return t, nil
}
