package weather

import (
	"math"

	"haywarden/agronomy/climate"
	"haywarden/agronomy/unit"
)

// Usual is a station's usual highest and lowest temperature by calendar day, the mean over its years.
type Usual struct {
	high, low [367]float64
	years     [367]int
}

// usualOf learns the usual temperatures of a record.
func usualOf(s *Series) *Usual {
	u := &Usual{}
	for i := range s.Len() {
		d := s.First + unit.Day(i)
		if !s.HasTemperature(d) {
			continue
		}
		k := CalendarSlot(d)
		u.high[k] += s.TMaxC[i]
		u.low[k] += s.TMinC[i]
		u.years[k]++
	}
	for k, n := range u.years {
		u.high[k] /= float64(n) // none: NaN
		u.low[k] /= float64(n)
	}
	return u
}

// On is the usual highest and lowest temperature of a day, C; NaN where no year reported it.
func (u *Usual) On(d unit.Day) (high, low float64) {
	k := CalendarSlot(d)
	return u.high[k], u.low[k]
}

// CalendarSlot numbers calendar days so that 1 March is 61 in every year and 29 February has a place
// of its own, 60.
func CalendarSlot(d unit.Day) int {
	doy := d.YearDay()
	if !unit.Leap(d.Year()) && doy >= 60 {
		return doy + 1
	}
	return doy
}

// Normals is the smoothed course of a station's year: temperatures, the chance of a wet day and the
// rain of a wet day. [source.SmoothNormals]
type Normals struct {
	High, Low       climate.Harmonics // C
	HighSD, LowSD   climate.Harmonics // C
	Wet             climate.Harmonics // chance of 0.25 mm or more
	WetMM           climate.Harmonics // mm on a wet day
	FirstYear, Last int
	YearlyRainMM    float64
}

// normalWaves is how many waves of the year smooth the normals.
const normalWaves = 3

// NewNormals smooths the normals of the years from first to last; zero years stand for all.
func NewNormals(s *Series, first, last int) *Normals {
	a, b := s.Years()
	if first == 0 {
		first = a
	}
	if last == 0 {
		last = b
	}
	n := &Normals{FirstYear: first, Last: last}
	var c [7][367]float64 // count, high, low, high squared, low squared, wet, wet mm
	var rainDays [367]float64
	var rain, years float64
	for i := range s.Len() {
		d := s.First + unit.Day(i)
		if y := d.Year(); y < first || y > last {
			continue
		}
		k := CalendarSlot(d)
		if s.HasTemperature(d) {
			c[0][k]++
			c[1][k] += s.TMaxC[i]
			c[2][k] += s.TMinC[i]
			c[3][k] += s.TMaxC[i] * s.TMaxC[i]
			c[4][k] += s.TMinC[i] * s.TMinC[i]
		}
		if r := s.RainMM[i]; !math.IsNaN(r) {
			rainDays[k]++
			rain += r
			years += 1 / 365.25
			if r >= DryBelowMM {
				c[5][k]++
				c[6][k] += r
			}
		}
	}
	n.YearlyRainMM = rain / years
	var day, high, low, highSD, lowSD, wet, wetMM []float64
	for k := 1; k < 367; k++ {
		m := c[0][k]
		day = append(day, float64(k))
		high = append(high, c[1][k]/m)
		low = append(low, c[2][k]/m)
		highSD = append(highSD, math.Sqrt(max(0, c[3][k]/m-c[1][k]/m*c[1][k]/m)))
		lowSD = append(lowSD, math.Sqrt(max(0, c[4][k]/m-c[2][k]/m*c[2][k]/m)))
		wet = append(wet, c[5][k]/rainDays[k])
		wetMM = append(wetMM, c[6][k]/c[5][k])
	}
	fit := func(v []float64) climate.Harmonics { return climate.FitHarmonics(day, v, normalWaves) }
	n.High, n.Low, n.HighSD, n.LowSD, n.Wet, n.WetMM = fit(high), fit(low), fit(highSD), fit(lowSD), fit(wet), fit(wetMM)
	return n
}
