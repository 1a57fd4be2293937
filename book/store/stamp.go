package store

import (
	"fmt"
	"time"

	"haywarden/agronomy/unit"
)

// instantLayout writes an instant in UTC in a fixed width, so that the order of the texts is the order
// of the instants under every collation.
const instantLayout = "2006-01-02T15:04:05.000000000Z"

// The bounds that stand for no limit.
const (
	lastInstant = "9999-12-31T23:59:59.999999999Z"
	lastDay     = "9999-12-31"
)

// instant writes a time that is to be stored.
func instant(t time.Time) (string, error) {
	if t.IsZero() {
		return "", fmt.Errorf("%w: the time it was received is missing", ErrRefused)
	}
	if y := t.UTC().Year(); y < 1900 || y > 9999 {
		return "", fmt.Errorf("%w: received in the year %d; accepted are 1900 to 9999", ErrRefused, y)
	}
	return t.UTC().Format(instantLayout), nil
}

// knownBy writes the bound of what was received by a time.
func knownBy(t time.Time) string {
	switch {
	case t.IsZero() || t.UTC().Year() > 9999:
		return lastInstant
	case t.UTC().Year() < 0:
		return ""
	}
	return t.UTC().Format(instantLayout)
}

// through writes the bound of what happened by a day.
func through(d unit.Day) string {
	if d == 0 || d.Year() > 9999 {
		return lastDay
	}
	return d.String()
}

func parseInstant(s string) (time.Time, error) {
	t, err := time.Parse(instantLayout, s)
	if err != nil {
		return time.Time{}, fmt.Errorf("%w: %w", ErrDamaged, err)
	}
	return t, nil
}
