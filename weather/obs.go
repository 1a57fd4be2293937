// Package weather holds station records: what a station reported, what was done to it, and the
// series that every sum, threshold and chance is computed from. Readers of outside files live in the
// packages below it; this one does no I/O.
package weather

import (
	"math"

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
	Outlier                  // far outside this station's values for the season
)

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

// Block is one station-year, the piece in which weather is stored and superseded.
type Block struct {
	Station string
	Year    int
	Days    []Obs // 365 or 366
}

// NewBlock returns a year with nothing reported.
func NewBlock(station string, year int) *Block {
	b := &Block{Station: station, Year: year, Days: make([]Obs, unit.DaysIn(year))}
	for i := range b.Days {
		b.Days[i] = NoObs()
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
