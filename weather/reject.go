package weather

import (
	"fmt"
	"math"
	"strconv"

	"haywarden/agronomy/unit"
)

// Rejected is a value that was dropped, with what is needed to say why.
type Rejected struct {
	Day     unit.Day
	Element Element
	Value   int32 // as reported, in the element's unit; [NoValue] where it is no longer known
	Mark    Mark
	Flag    byte     // the archive's letter, where it was the archive that failed it
	Than    int32    // what it was held against: the other report, the other temperature, the mean
	Copied  bool     // its whole month is a copy
	Other   unit.Day // of the month that begins here; the day on which a total was read
	By      float64  // how far off, in standard deviations, or how many values or days long
}

// NoValue stands in Rejected for a value that is not known.
const NoValue int32 = math.MinInt32

// Reason says in words why the value was dropped.
func (r Rejected) Reason() string {
	than := r.Element.Written(r.Than)
	switch r.Mark {
	case Flagged:
		return fmt.Sprintf("flag %c, %s", r.Flag, FlagMeaning(r.Flag))
	case OutOfBounds:
		low, high := bounds(r.Element)
		return fmt.Sprintf("outside %s to %s", r.Element.Written(int32(low)), r.Element.Written(int32(high)))
	case Naught:
		return "both temperatures are 0 F, which is how a missing day is often archived"
	case Inconsistent:
		return "the highest temperature is below the lowest; the other is " + than
	case Streak:
		return fmt.Sprintf("one of %.0f equal values in a row", r.By)
	case Spike:
		return fmt.Sprintf("at least 25 C off the day before (%s) and the day after", than)
	case Duplicate:
		if r.Copied {
			return fmt.Sprintf("the month's values are those of %s", r.Other.Time().Format("January 2006"))
		}
		return "reported twice for this day, also as " + than
	case Outlier:
		return fmt.Sprintf("%.1f standard deviations from the mean of the 15 days around it, %s", r.By, than)
	case Gap:
		return "10 C or more away from every other value of this month in all years"
	case WetUnknown:
		return fmt.Sprintf("part of %s that fell within %.0f days and was read on %s; on which of them it fell is not known", than, r.By, r.Other)
	default: // marks that reject nothing
		return r.Mark.String()
	}
}

// Written writes a value of the element in both systems of units.
func (e Element) Written(v int32) string {
	switch {
	case v == NoValue:
		return "a value that failed"
	case e == TMax || e == TMin:
		c := float64(v) / 10
		return decimal(c, 1) + " C (" + decimal(c*1.8+32, 0) + " F)"
	case e == Rain:
		return decimal(float64(v)/10, 1) + " mm (" + decimal(float64(v)/254, 2) + " in)"
	}
	return decimal(float64(v), 0) + " mm (" + decimal(float64(v)/25.4, 1) + " in)"
}

// decimal writes a number without a negative zero.
func decimal(v float64, places int) string {
	s := strconv.FormatFloat(v, 'f', places, 64)
	if w, err := strconv.ParseFloat(s, 64); err == nil && w == 0 {
		return strconv.FormatFloat(0, 'f', places, 64)
	}
	return s
}

// FlagMeaning explains a letter of the archive's own checks. [source.GHCNDaily]
func FlagMeaning(letter byte) string {
	switch letter {
	case 'D':
		return "duplicate check"
	case 'G':
		return "gap check"
	case 'I':
		return "internal consistency check"
	case 'K':
		return "streak check"
	case 'L':
		return "length of a multiday period"
	case 'M':
		return "mega-consistency check"
	case 'N':
		return "naught check"
	case 'O':
		return "climatological outlier check"
	case 'R':
		return "lagged range check"
	case 'S':
		return "spatial consistency check"
	case 'T':
		return "temporal consistency check"
	case 'W':
		return "too warm for snow"
	case 'X':
		return "bounds check"
	case 'Z':
		return "official investigation"
	}
	return "a letter the archive's readme does not explain"
}
