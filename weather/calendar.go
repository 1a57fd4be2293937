package weather

import (
	"time"

	"haywarden/agronomy/unit"
)

// monthStart is the place of each month's first day in a year of 365 days, from 0.
var monthStart = [...]int{0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334}

// DaysInMonth returns the number of days of a month.
func DaysInMonth(year int, m time.Month) int {
	if m == time.December {
		return 31
	}
	return MonthStart(year, m+1) - MonthStart(year, m)
}

// MonthStart returns the place of the month's first day in its block.
func MonthStart(year int, m time.Month) int {
	at := monthStart[m-1]
	if m > time.February && unit.Leap(year) {
		at++
	}
	return at
}
