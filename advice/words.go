package advice

import (
	"fmt"
	"math"
	"strings"

	"haywarden/agronomy/unit"
	"haywarden/outlook"
)

// Weekday writes a day as people say it, with the weekday: Thursday 21 May.
func Weekday(d unit.Day) string { return d.Time().Format("Monday 2 January") }

// Short writes a day without its weekday: 21 May.
func Short(d unit.Day) string { return d.Time().Format("2 January") }

// Span writes two days: 20–24 May, or 28 May – 3 June.
func Span(a, b unit.Day) string {
	if a == b {
		return Short(a)
	}
	if a.Year() == b.Year() && a.Month() == b.Month() {
		return fmt.Sprintf("%d–%s", a.Time().Day(), Short(b))
	}
	return Short(a) + " – " + Short(b)
}

// Years writes a chance as years in ten.
func Years(p float64) string {
	n := int(math.Round(p * 10))
	switch {
	case math.IsNaN(p):
		return "an unknown share of years"
	case p < 0.05:
		return "fewer than 1 year in 20"
	case n == 0 || n == 1:
		return "1 year in 10"
	case n >= 10:
		return "nearly every year"
	}
	return fmt.Sprintf("%d years in 10", n)
}

// Odds writes a chance that is not one of years: 7 in 10.
func Odds(p float64) string {
	switch {
	case p < 0.01:
		return "less than 1 in 100"
	case p > 0.99:
		return "more than 99 in 100"
	case p < 0.095 || p > 0.905:
		return fmt.Sprintf("%.0f in 100", p*100)
	}
	return fmt.Sprintf("%.0f in 10", p*10)
}

// Points writes an RFV in whole points, half up.
func Points(rfv float64) string { return fmt.Sprintf("%.0f", math.Floor(rfv+0.5)) }

// Count writes small numbers as words.
func Count(n int) string {
	words := []string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}
	if n >= 0 && n < len(words) {
		return words[n]
	}
	return fmt.Sprint(n)
}

// Plural adds an s for any count but one.
func Plural(n int, word string) string {
	if n == 1 {
		return word
	}
	return word + "s"
}

// When says how far off a day is: today, tomorrow, on Thursday, on 21 May.
func When(today, d unit.Day) string {
	switch n := int(d - today); {
	case n == 0:
		return "today"
	case n == 1:
		return "tomorrow"
	case n == -1:
		return "yesterday"
	case n > 1 && n < 7:
		return "on " + d.Time().Format("Monday 2 January")
	}
	return "on " + Short(d)
}

// Capital makes the first letter of a sentence large.
func Capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// Describe says what a stand is: alfalfa, third year.
func Describe(s *outlook.Stand) string {
	year := "seeded this year"
	if s.Year > 0 {
		year = Ordinal(s.Year) + " year"
	}
	crop := string(s.Crop)
	if s.Judged() == outlook.Mixture {
		crop = fmt.Sprintf("alfalfa with %.0f %% grass", 100*s.Grass())
	}
	if s.Seeded > s.Date {
		year = "planned"
	}
	if gone := s.TurnedUnder; gone != nil && *gone <= s.Date {
		year = "turned under " + Short(*gone)
	}
	return crop + ", " + year
}

// Ordinal writes a number of order: first, second, 11th.
func Ordinal(n int) string {
	words := []string{"", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth"}
	if n < len(words) {
		return words[n]
	}
	end := "th"
	if n%100 < 11 || n%100 > 13 {
		switch n % 10 {
		case 1:
			end = "st"
		case 2:
			end = "nd"
		case 3:
			end = "rd"
		}
	}
	return fmt.Sprintf("%d%s", n, end)
}

// Acres writes a field's size: whole, or with one decimal where it is not.
func Acres(a float64) string {
	if a == math.Trunc(a) {
		return fmt.Sprintf("%.0f", a)
	}
	return fmt.Sprintf("%.1f", a)
}

// Season writes when something is sown: late summer 2026.
func Season(season string, year int) string {
	return fmt.Sprintf("%s %d", strings.ReplaceAll(season, "-", " "), year)
}
