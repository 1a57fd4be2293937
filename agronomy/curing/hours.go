package curing

import (
	"fmt"
	"math"

	"haywarden/agronomy/unit"
	"haywarden/agronomy/water"
)

// Day is what a station, a forecast or a member of an ensemble tells of a day. Solar radiation and
// vapour pressure are NaN where nobody measured them: they are then told from the temperatures.
type Day struct {
	YearDay   int // 1 to 366
	TMaxC     float64
	TMinC     float64
	RainMM    float64
	SolarMJ   float64 // MJ/m2
	VapourKPa float64
	SoilPct   float64 // soil moisture, % of dry soil: see [TopSoil]
}

// known reports whether the day can be cured in.
func (d *Day) known() bool {
	return d.TMaxC >= d.TMinC && d.RainMM >= 0 && d.SoilPct >= 0
}

// RainDay is when in a day its rain falls: in one spell at a steady rate around an hour. Stations give
// totals only. A spell late in the day lets a crop be taken up before it, one early in the day leaves
// the day of mowing dry. Source: [source.RainHours].
type RainDay struct {
	MiddleHour float64 // by the sun
	PerHourMM  float64
}

// AfternoonRain is the choice in use.
func AfternoonRain() RainDay { return RainDay{MiddleHour: 15, PerHourMM: 2.5} }

// spell is the first hour with rain and how many hours have some.
func (r RainDay) spell(mm float64) (first, hours int) {
	if !(mm > 0) {
		return 0, 0
	}
	hours = int(min(24, max(1, math.Ceil(mm/r.PerHourMM))))
	first = int(math.Round(r.MiddleHour - float64(hours)/2))
	return max(0, min(24-hours, first)), hours
}

// Place is where a swath lies, and how its hours are made from days.
type Place struct {
	LatDeg     float64
	ElevationM float64
	Coast      bool        // within reach of an ocean or a great lake: more sun by the range of temperature
	DryerC     float64     // dew point under the lowest temperature: 0 in a humid summer, 2 to 3 in a dry spell (from memory)
	Shape      water.Shape // zero: [water.DenverShape]
	Rain       RainDay     // zero: [AfternoonRain]
}

// Maker makes hours from days at one place.
type Maker struct {
	place     Place
	sky       *water.SkyYear
	radiation water.Radiation
	air       water.Air
}

// NewMaker prepares a place. Source: [source.DayShape], [source.ReferenceET].
func NewMaker(p Place) (*Maker, error) {
	if p.Shape == (water.Shape{}) {
		p.Shape = water.DenverShape()
	}
	if p.Rain == (RainDay{}) {
		p.Rain = AfternoonRain()
	}
	switch {
	case !(p.LatDeg >= -66 && p.LatDeg <= 66):
		return nil, fmt.Errorf("latitude %g: accepted -66 to 66 degrees, where the sun rises and sets every day", p.LatDeg)
	case !(p.ElevationM >= -430 && p.ElevationM <= 5000):
		return nil, fmt.Errorf("elevation %g m: accepted -430 to 5000", p.ElevationM)
	case !(p.DryerC >= 0 && p.DryerC <= 10):
		return nil, fmt.Errorf("dew point %g C under the lowest temperature: accepted 0 to 10", p.DryerC)
	case !(p.Rain.PerHourMM > 0) || !(p.Rain.MiddleHour >= 0 && p.Rain.MiddleHour <= 24):
		return nil, fmt.Errorf("rain at %g mm/h around hour %g: accepted over 0 mm/h, hours 0 to 24", p.Rain.PerHourMM, p.Rain.MiddleHour)
	}
	m := &Maker{place: p, sky: water.FAOOrbit().Year(p.LatDeg), radiation: water.FAORadiation(), air: water.FAOAir()}
	if p.Coast {
		m.radiation.RangeK = water.CoastRangeK
	}
	return m, nil
}

// SolarMJ is a day's solar radiation told from its range of temperature, at most that of a clear sky.
func (m *Maker) SolarMJ(d *Day) float64 {
	ra := m.sky.RaMJ[d.YearDay]
	return min(m.radiation.ByRangeMJ(d.TMaxC, d.TMinC, ra), m.radiation.ClearMJ(m.place.ElevationM, ra))
}

// Fill makes the hours of consecutive days, 24 a day. A day that is not known leaves its temperatures
// NaN. Nothing is allocated.
func (m *Maker) Fill(hours []Hour, days []Day) {
	var made water.Hours
	for i := range days {
		d := &days[i]
		x := water.Extremes{PrevMaxC: d.TMaxC, MinC: d.TMinC, MaxC: d.TMaxC, NextMinC: d.TMinC}
		if i > 0 && days[i-1].known() {
			x.PrevMaxC = days[i-1].TMaxC
		}
		if i+1 < len(days) && days[i+1].known() {
			x.NextMinC = days[i+1].TMinC
		}
		solar, vapour := d.SolarMJ, d.VapourKPa
		if math.IsNaN(solar) {
			solar = m.SolarMJ(d)
		}
		if math.IsNaN(vapour) {
			vapour = m.air.VapourKPa(d.TMinC - m.place.DryerC)
		}
		m.place.Shape.Fill(&made, &m.air, &x, solar, vapour, m.sky.DayLengthH[d.YearDay])
		first, spell := m.place.Rain.spell(d.RainMM)
		for h := range made.TempC {
			o := &hours[24*i+h]
			*o = Hour{SolarW: made.SolarW[h], TempC: made.TempC[h], DeficitKPa: made.DeficitKP[h], SoilPct: d.SoilPct}
			o.RH = vapour / (vapour + made.DeficitKP[h]) // saturated air has no deficit
			if h >= first && h < first+spell {
				o.RainMM = d.RainMM / float64(spell)
			}
		}
	}
}

// HoursOf makes the hours of consecutive days, 24 a day by the sun.
func HoursOf(p Place, days []Day) ([]Hour, error) {
	m, err := NewMaker(p)
	if err != nil {
		return nil, err
	}
	for i := range days {
		d := &days[i]
		switch {
		case d.YearDay < 1 || d.YearDay > 366:
			return nil, fmt.Errorf("day %d is day %d of the year: accepted 1 to 366", i+1, d.YearDay)
		case !d.known():
			return nil, fmt.Errorf("day %d: highest %g C, lowest %g C, rain %g mm, soil %g %%: all are wanted, the highest from the lowest up, none below 0 of the last two", i+1, d.TMaxC, d.TMinC, d.RainMM, d.SoilPct)
		}
	}
	hours := make([]Hour, 24*len(days))
	m.Fill(hours, days)
	return hours, nil
}

// TopSoil carries the moisture of the soil under a swath from day to day. Source: [source.CuringSoil].
type TopSoil struct {
	Field, Wilting float64 // m3/m3
	Bulk           float64 // t/m3
	Depth          unit.Metre
	Kc             float64
	P              float64
}

// SiltLoam is the choice where nothing nearer is known.
func SiltLoam() TopSoil {
	crop := water.Alfalfa()
	return TopSoil{Field: 0.29, Wilting: 0.15, Bulk: 1.35, Depth: 0.3, Kc: crop.Averaged.Mid, P: crop.P}
}

// Percent is soil moisture, % of dry soil, with so much lacking to field capacity.
func (t TopSoil) Percent(lacksMM float64) float64 {
	return 100 * (t.Field - lacksMM/(1000*float64(t.Depth))) / t.Bulk
}

// Along writes the soil moisture of consecutive days at the place, as it is in the morning, from
// a soil half full on the first. A day that is not known is as the day before.
func (t TopSoil) Along(m *Maker, days []Day) {
	taw := 1000 * (t.Field - t.Wilting) * float64(t.Depth)
	b := water.Bucket{TAWmm: taw, P: t.P, Depletion: water.FAODepletion()}
	et := water.HargreavesSamani()
	lacks := taw / 2
	for i := range days {
		d := &days[i]
		d.SoilPct = t.Percent(lacks)
		if !d.known() {
			continue
		}
		etc := t.Kc * et.EToMM(d.TMaxC, d.TMinC, m.sky.RaMJ[d.YearDay])
		lacks, _, _, _ = b.Day(lacks, b.ScarceMM(etc), etc, d.RainMM)
	}
}
