package water

import (
	"fmt"
	"math"

	"haywarden/agronomy/unit"
)

// Shape is how temperature runs through a day: a sine while the sun is up, an exponential at night.
// Source: [source.DayShape].
type Shape struct {
	Lag   float64 // of the highest temperature after noon, h (a)
	Decay float64 // of the night, in lengths of the night (b)
	Delay float64 // of the lowest temperature after sunrise, h (c)
}

// DenverShape is fitted to air at 1.5 m over Denver, but for a delay of -0.17 h that is taken as 0.
// Source: [source.DayShape].
func DenverShape() Shape { return Shape{Lag: 1.86, Decay: 2.20} }

// CarolinaShape is the mean of five places of North Carolina: a later peak and a later morning low.
// Source: [source.DayShape].
func CarolinaShape() Shape { return Shape{Lag: 2.59, Decay: 2.20, Delay: 1.55} }

// Extremes are what the hours of a day are made from: its own lowest and highest temperature, the
// lowest of the next morning and the highest of the day before, which led into its first hours.
type Extremes struct{ PrevMaxC, MinC, MaxC, NextMinC float64 }

// Hours are the middles of the 24 hours of a day by the sun: noon is 12.
type Hours struct {
	TempC     [24]float64
	SolarW    [24]float64 // solar radiation, W/m2
	DeficitKP [24]float64 // vapour pressure deficit, kPa
}

// SolarW is solar radiation at an hour by the sun: the day's total laid under half a sine,
//
//	Rs 1e6/3600 pi/(2 N) sin(pi (h - sunrise)/N)   W/m2, sunrise = 12 - N/2
//
// Source: [source.DayShape].
func SolarW(hour, rsMJ, dayLengthH float64) float64 {
	const whByMJ = 1e6 / 3600
	since := hour - (12 - dayLengthH/2)
	if since <= 0 || since >= dayLengthH {
		return 0
	}
	return rsMJ * whByMJ * math.Pi / (2 * dayLengthH) * math.Sin(math.Pi*since/dayLengthH)
}

// TempC is the temperature at an hour by the sun:
//
//	by day    Tmin + (Tmax - Tmin) sin(pi (h - sunrise - c)/(N + 2a))
//	by night  Tmin(next) + (T(sunset) - Tmin(next)) exp(-b n/(24 - N + c)), n hours after sunset
//
// The night runs from sunset to its lowest temperature. It does not quite get there, and the day starts
// from it: a step of a ninth of the night's fall. Source: [source.DayShape].
func (s Shape) TempC(hour, dayLengthH float64, x *Extremes) float64 {
	sunrise := 12 - dayLengthH/2
	low, sunset := sunrise+s.Delay, sunrise+dayLengthH
	switch {
	case hour < low:
		atSunset := s.byDay(dayLengthH-s.Delay, dayLengthH, x.MinC, x.PrevMaxC)
		return s.byNight(hour+hoursOfDay-sunset, dayLengthH, atSunset, x.MinC)
	case hour > sunset:
		atSunset := s.byDay(dayLengthH-s.Delay, dayLengthH, x.MinC, x.MaxC)
		return s.byNight(hour-sunset, dayLengthH, atSunset, x.NextMinC)
	}
	return s.byDay(hour-low, dayLengthH, x.MinC, x.MaxC)
}

func (s Shape) byDay(since, dayLengthH, minC, maxC float64) float64 {
	if since <= 0 { // a day without sun too, whose sine has no length
		return minC
	}
	return minC + (maxC-minC)*math.Sin(math.Pi*since/(dayLengthH+2*s.Lag))
}

func (s Shape) byNight(since, dayLengthH, sunsetC, nextMinC float64) float64 {
	return nextMinC + (sunsetC-nextMinC)*math.Exp(-s.Decay*since/(hoursOfDay-dayLengthH+s.Delay))
}

// Fill makes the hours of a day in place. The vapour pressure is held through the day; where the air
// would be more than saturated the deficit is 0.
func (s Shape) Fill(h *Hours, air *Air, x *Extremes, rsMJ, eaKPa, dayLengthH float64) {
	for i := range h.TempC {
		hour := float64(i) + 0.5
		h.TempC[i] = s.TempC(hour, dayLengthH, x)
		h.SolarW[i] = SolarW(hour, rsMJ, dayLengthH)
		h.DeficitKP[i] = max(0, air.VapourKPa(h.TempC[i])-eaKPa)
	}
}

// HoursOf makes the hours of a day from a station's daily values. Source: [source.DayShape].
func HoursOf(s Shape, x Extremes, rs unit.MJm2Day, ea unit.Kilopascal, dayLength unit.Hour) (Hours, error) {
	switch {
	case !(x.MinC <= x.MaxC):
		return Hours{}, fmt.Errorf("lowest temperature %g C, highest %g C: the lowest is accepted up to the highest", x.MinC, x.MaxC)
	case math.IsNaN(x.PrevMaxC + x.NextMinC):
		return Hours{}, fmt.Errorf("yesterday's highest %g C, tomorrow's lowest %g C: both are wanted; today's may stand in", x.PrevMaxC, x.NextMinC)
	case !(rs >= 0):
		return Hours{}, fmt.Errorf("solar radiation %g MJ/m2: accepted 0 or more", rs)
	case !(ea > 0):
		return Hours{}, fmt.Errorf("vapour pressure %g kPa: accepted more than 0", ea)
	case !(dayLength >= 0 && dayLength <= hoursOfDay):
		return Hours{}, fmt.Errorf("day length %g h: accepted 0 to 24", dayLength)
	case !(s.Delay >= 0 && s.Delay < 6 && s.Lag >= 0 && s.Decay > 0):
		return Hours{}, fmt.Errorf("shape %+v: accepted a lag of 0 or more, a decay above 0 and a delay of 0 to 6 h", s)
	}
	var h Hours
	air := FAOAir()
	s.Fill(&h, &air, &x, float64(rs), float64(ea), float64(dayLength))
	return h, nil
}
