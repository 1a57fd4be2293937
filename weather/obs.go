// Package weather holds station records: what a station reported, what was done to it, and the
// series that every sum, threshold and chance is computed from. Readers of outside files live in the
// packages below it; this one does no I/O.
package weather

import (
	"math"
	"slices"
	"strings"

	"haywarden/agronomy/unit"
)

// Element is one thing a station measures.
type Element uint8

// The elements kept.
const (
	TMax  Element = iota // highest temperature of the observation day, tenths C
	TMin                 // lowest temperature of the observation day, tenths C
	Rain                 // precipitation, tenths mm
	Snow                 // new snow, mm
	Depth                // snow on the ground, mm
	elements
)

// String is the element's plain name.
func (e Element) String() string {
	return [...]string{"highest temperature", "lowest temperature", "rain", "new snow", "snow depth"}[e]
}

// Code is the element's name in the daily archive. [source.GHCNDaily]
func (e Element) Code() string {
	return [...]string{"TMAX", "TMIN", "PRCP", "SNOW", "SNWD"}[e]
}

// ElementOf finds a kept element by its name in the daily archive.
func ElementOf(code string) (Element, bool) {
	for _, e := range Elements() {
		if e.Code() == code {
			return e, true
		}
	}
	return 0, false
}

// Elements lists all elements kept.
func Elements() []Element { return []Element{TMax, TMin, Rain, Snow, Depth} }

// Missing is the stored value of an element that was not reported, or that failed a check.
const Missing int16 = math.MinInt16

// Mark says how a value came to be what it is.
type Mark uint8

// The marks. A value with a mark from Flagged on is Missing; the others are usable.
const (
	Reported     Mark = iota // as the station reported it
	Absent                   // not reported
	Trace                    // rain or snow too small to measure, kept as 0
	PresumedZero             // a missing amount that the archive presumes to be 0, kept as 0
	Shifted                  // moved by a day because the observer reads in the morning
	Filled                   // estimated: from neighbours, by interpolation or from the normal
	Flagged                  // failed one of the archive's own checks
	OutOfBounds              // outside what the region has ever seen
	Naught                   // both temperatures 0 F, the archive's mark for missing
	Inconsistent             // highest below lowest
	Streak                   // one of 15 or more equal values in a row
	Spike                    // jumped 25 C there and back
	Duplicate                // reported twice with different values, or a copied month
	Outlier                  // 6 standard deviations from this station's values for the season
	Gap                      // 10 C away from every other value of this station and month
	WetUnknown               // part of a total of several days: rain fell, on which of them is not known
	marks
)

// String is the mark's plain name.
func (m Mark) String() string {
	return [...]string{"reported", "absent", "trace", "presumed zero", "shifted", "filled", "flagged by the archive",
		"out of bounds", "naught", "inconsistent", "streak", "spike", "duplicate", "outlier", "gap", "wet, day not known"}[m]
}

// Obs is one day of one station as kept.
type Obs struct {
	Value [elements]int16
	Mark  [elements]Mark
}

// NoObs is a day on which nothing was reported.
func NoObs() Obs {
	var o Obs
	for e := range o.Value {
		o.Value[e], o.Mark[e] = Missing, Absent
	}
	return o
}

// Has reports whether the element has a usable value.
func (o Obs) Has(e Element) bool { return o.Value[e] != Missing }

// Reject marks a value as failed and drops it.
func (o *Obs) Reject(e Element, why Mark) { o.Value[e], o.Mark[e] = Missing, why }

// Station is where a record was made.
type Station struct {
	ID        string  `json:"id"`   // as in the archive: USW00014839
	Name      string  `json:"name"` // as people say it
	Latitude  float64 `json:"latitude"`
	Longitude float64 `json:"longitude"`
	Elevation float64 `json:"elevation_m"` // metres
	// WholeF says that observers read whole degrees Fahrenheit, which the archive keeps as tenths of
	// a degree C: the whole degree is recovered before any sum or threshold. [source.WholeF]
	WholeF bool `json:"whole_f"`
}

// ReadsWholeF reports whether a station's temperatures, given in tenths of a degree C, are whole
// degrees F at heart: those of the United States are, whose observers read whole degrees F that the
// archive keeps as tenths C. [source.WholeF] It matters most at the frost thresholds: 24 F is -4.44 C,
// kept as -4.4, and -4.4 <= -4.444 is false, so that in C a frost of just 24 F would not be one. Some
// automatic stations do report tenths C since about 2013; their values are then rounded to the
// nearest degree F, and the report counts them.
func ReadsWholeF(id string) bool { return strings.HasPrefix(id, "US") }

// Block is one station-year, the piece in which weather is stored and superseded.
type Block struct {
	Station string
	Year    int
	Days    []Obs // 365 or 366
}

// NewBlock returns a year with nothing reported.
func NewBlock(station string, year int) *Block {
	b := &Block{Station: station, Year: year, Days: make([]Obs, unit.DaysIn(year))}
	b.Days[0] = NoObs()
	for n := 1; n < len(b.Days); n *= 2 {
		copy(b.Days[n:], b.Days[:n])
	}
	return b
}

// On returns the day's place in the block, nil for a day of another year.
func (b *Block) On(d unit.Day) *Obs {
	if d.Year() != b.Year {
		return nil
	}
	return &b.Days[d.YearDay()-1]
}

// Over lays a block over an older one of the same year: where it is silent the older one speaks. A
// value that failed a check is not silence. Neither block is changed.
func (b *Block) Over(older *Block) *Block {
	if older == nil {
		return b
	}
	out := &Block{Station: b.Station, Year: b.Year, Days: slices.Clone(older.Days)}
	for i := range b.Days {
		for e := range b.Days[i].Value {
			if b.Days[i].Mark[e] != Absent {
				out.Days[i].Value[e], out.Days[i].Mark[e] = b.Days[i].Value[e], b.Days[i].Mark[e]
			}
		}
	}
	return out
}
