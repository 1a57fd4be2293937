// Package demo makes the invented district that the program shows itself on: Larkmoor, twelve farms
// and forty-six stands around three weather stations, with thirty-five years of weather, the records
// of 2025 and the whole year 2026. Nobody and nothing in it exists; its ground lies, on purpose, out
// in Lake Michigan at the latitude of southern Wisconsin, so that no mark falls on a real field.
//
// The records are not made with the methods that will judge them. Behind them stands a truth with
// parameters of its own (see growth.go), seen through observers, laboratories and scales that err,
// so that a prediction can be wrong here as it can be in the field.
//
// Everything follows from one seed: the same seed gives the same bytes.
package demo

import (
	"crypto/sha256"
	"encoding/binary"
	"math/rand/v2"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/weather"
)

// Seed is the seed of the district shown when nobody asks for another.
const Seed uint64 = 2040

// The record of weather, both ends included.
var (
	firstDay = unit.DateOf(1992, time.January, 1)
	lastDay  = unit.DateOf(2027, time.December, 31)
)

// opened is the day the book was begun: what was there before is entered with this date.
var opened = unit.DateOf(2024, time.November, 18)

// District is all there is to know of the invented district, up to the end of 2027 for the weather
// and of 2026 for the records.
type District struct {
	Place    book.Place
	Stations []weather.Station
	// Weather holds whole station-years in the order in which they were received; a later delivery
	// of the same station and year corrects an earlier one.
	Weather []Delivery
	Facts   []book.Fact // in the order in which they were received
	truth   map[string]*tract
}

// Truth is what a stand truly was in the evening of a day of 2025 or 2026, before it was cut that day: what
// no record says, for judging those who judge by the records.
type Truth struct {
	Growth   int     // 1 is the year's first; 0: nothing stood
	NDF, ADF float64 // % of dry matter
}

// Truth looks a stand up; not ok where there is none by that id, or not in that year.
func (d District) Truth(stand string, on unit.Day) (Truth, bool) {
	st := d.truth[stand]
	if st == nil || st.years[on.Year()] == nil {
		return Truth{}, false
	}
	crop := st.on(on)
	if crop.growth == 0 {
		return Truth{}, true
	}
	f := crop.quality(st.plot, st.nature)
	return Truth{crop.growth, f.ndf, f.adf}, true
}

// Delivery is a block of weather and the time at which the book received it.
type Delivery struct {
	Block    *weather.Block
	Received time.Time
}

// Make draws the district of a seed. An error means that a record broke a rule of the book.
func Make(seed uint64) (District, error) {
	sky := makeSky(seed)
	sky.tellSpring()
	d := District{Place: book.Place{Region: "Larkmoor District", Guide: "Wisconsin"}, Stations: stationList()}
	d.Weather = deliveries(sky.read(seed))
	l := newLedger(seed)
	l.office(d)
	l.roster(seed, sky)
	facts, err := l.close()
	d.Facts, d.truth = facts, l.truth
	return d, err
}

// WeatherKnown returns what of the weather the book holds on the morning of a day: the deliveries
// received by then, and the running year through the day before.
func (d District) WeatherKnown(day unit.Day) []Delivery {
	morning := day.Time().Add(breakfast)
	var out []Delivery
	for _, w := range d.Weather {
		switch {
		case !w.Received.After(morning):
			out = append(out, w)
		case w.Block.Year == day.Year():
			part := weather.NewBlock(w.Block.Station, w.Block.Year)
			copy(part.Days[:day.YearDay()-1], w.Block.Days)
			out = append(out, Delivery{part, morning})
		}
	}
	return out
}

// stream is a source of chance of its own for each purpose, so that one more draw in one place
// changes nothing in another.
func stream(seed uint64, purpose string) *rand.Rand {
	key := keyOf(seed, purpose)
	return rand.New(rand.NewPCG(binary.LittleEndian.Uint64(key[:8]), binary.LittleEndian.Uint64(key[8:16])))
}

// keyOf mixes the seed with a purpose.
func keyOf(seed uint64, purpose string) [32]byte {
	return sha256.Sum256(append(binary.LittleEndian.AppendUint64(nil, seed), purpose...))
}
