package water

import (
	"fmt"
	"math"
	"time"

	"haywarden/agronomy/unit"
)

// SunDay is the sun's day by the clock at a place: its upper edge on the horizon, with refraction.
// Where it stays up or down all day, Up says so and Rise and Set are zero.
type SunDay struct {
	Rise, Noon, Set time.Time // UTC; around the noon of the local day, so Set may fall on the next UTC day
	Up              Up
}

// Up says whether the sun rises and sets.
type Up string

// What the sun does in a day.
const (
	RisesAndSets Up = "rises and sets"
	UpAllDay     Up = "up all day"
	DownAllDay   Up = "down all day"
)

// Length is the time from sunrise to sunset: 24 h or none where the sun stays up or down.
func (s SunDay) Length() unit.Hour {
	switch s.Up {
	case UpAllDay:
		return hoursOfDay
	case DownAllDay:
		return 0
	default:
		return unit.Hour(s.Set.Sub(s.Rise).Hours())
	}
}

// SunTimes gives sunrise, solar noon and sunset of a local day at a place, east and north positive,
// for a level horizon at sea level. It uses low-precision solar coordinates, good to about 0.01
// degrees, and 34 minutes of arc of refraction; weather moves the last by minutes of time at high
// latitudes. Source: [source.SunClock].
func SunTimes(lat, lon unit.Degree, day unit.Day) (SunDay, error) {
	if err := checkPlace(lat, lon); err != nil {
		return SunDay{}, err
	}
	midnight := float64(day)
	noon := transit(midnight+0.5-float64(lon)/360, float64(lon))
	s := SunDay{Noon: moment(noon), Up: RisesAndSets}
	var event [2]float64
	for i, side := range [2]float64{-1, 1} {
		t := noon
		for range 6 { // each round brings the error down by more than a hundred
			cos := hourCosine(t, float64(lat))
			switch {
			case cos < -1:
				s.Up = UpAllDay
				return s, nil
			case cos > 1:
				s.Up = DownAllDay
				return s, nil
			}
			t += math.Remainder(side*math.Acos(cos)/radians-hourAngle(t, float64(lon), sunAt(t)), 360) / 360
		}
		event[i] = t
	}
	s.Rise, s.Set = moment(event[0]), moment(event[1])
	return s, nil
}

// SunAltitude is how high the sun's centre stands over the horizon at a moment, without refraction.
// Source: [source.SunClock].
func SunAltitude(lat, lon unit.Degree, at time.Time) (unit.Degree, error) {
	if err := checkPlace(lat, lon); err != nil {
		return 0, err
	}
	t := float64(at.UnixMilli()) / (hoursOfDay * 3600 * 1000)
	p, phi := sunAt(t), float64(lat)*radians
	hour := hourAngle(t, float64(lon), p)
	sin := math.Sin(phi)*math.Sin(p.declination*radians) + math.Cos(phi)*math.Cos(p.declination*radians)*math.Cos(hour*radians)
	return unit.Degree(math.Asin(min(1, max(-1, sin))) / radians), nil
}

func checkPlace(lat, lon unit.Degree) error {
	if !(lat >= -90 && lat <= 90) {
		return fmt.Errorf("latitude %g: accepted -90 to 90 degrees, south negative", lat)
	}
	if !(lon >= -180 && lon <= 180) {
		return fmt.Errorf("longitude %g: accepted -180 to 180 degrees, west negative", lon)
	}
	return nil
}

// position is where the sun stands, in degrees; time here is days since 1970 in UTC.
type position struct {
	ascension, declination float64
	distance               float64 // astronomical units
	nutation               float64 // of longitude
	obliquity              float64
}

// sunAt is Meeus' low-precision sun, apparent. Source: [source.SunClock].
func sunAt(t float64) position {
	c := (t + 2440587.5 - 2451545) / 36525 // Julian centuries since 2000
	mean := 280.46646 + c*(36000.76983+c*0.0003032)
	anomaly := (357.52911 + c*(35999.05029-c*0.0001537)) * radians
	e := 0.016708634 - c*(0.000042037+c*0.0000001267)
	centre := math.Sin(anomaly)*(1.914602-c*(0.004817+c*0.000014)) + math.Sin(2*anomaly)*(0.019993-c*0.000101) + math.Sin(3*anomaly)*0.000289
	node := (125.04 - 1934.136*c) * radians
	p := position{nutation: -0.00478 * math.Sin(node)}
	long := (mean + centre - 0.00569 + p.nutation) * radians
	p.obliquity = 23 + (26+(21.448-c*(46.815+c*(0.00059-c*0.001813)))/60)/60 + 0.00256*math.Cos(node)
	eps := p.obliquity * radians
	p.declination = math.Asin(math.Sin(eps)*math.Sin(long)) / radians
	p.ascension = math.Atan2(math.Cos(eps)*math.Sin(long), math.Cos(long)) / radians
	p.distance = 1.000001018 * (1 - e*e) / (1 + e*math.Cos(anomaly+centre*radians))
	return p
}

// siderealDeg is the apparent sidereal time at Greenwich, degrees.
func siderealDeg(t float64, p position) float64 {
	days := t + 2440587.5 - 2451545
	c := days / 36525
	return 280.46061837 + 360.98564736629*days + c*c*0.000387933 + p.nutation*math.Cos(p.obliquity*radians)
}

// hourAngle is how far the sun has come since it stood due south, degrees west; due north it jumps.
func hourAngle(t, lonDeg float64, p position) float64 {
	return math.Remainder(siderealDeg(t, p)+lonDeg-p.ascension, 360)
}

// transit is the moment nearest to t at which the hour angle is 0.
func transit(t, lonDeg float64) float64 {
	for range 3 {
		t -= hourAngle(t, lonDeg, sunAt(t)) / 360
	}
	return t
}

// hourCosine is the cosine of the sun's hour angle at rise and set, by where it stands at t; beyond -1
// it does not set, beyond 1 not rise.
func hourCosine(t, latDeg float64) float64 {
	const refraction, halfDisc, parallax = 34. / 60, 0.26656, 8.794 / 3600 // degrees, the last two at 1 unit of distance
	p := sunAt(t)
	altitude := (-refraction + (parallax-halfDisc)/p.distance) * radians
	phi, delta := latDeg*radians, p.declination*radians
	return (math.Sin(altitude) - math.Sin(phi)*math.Sin(delta)) / (math.Cos(phi) * math.Cos(delta))
}

// moment turns days since 1970 into a time, to the millisecond.
func moment(t float64) time.Time {
	return time.UnixMilli(int64(math.Round(t * hoursOfDay * 3600 * 1000))).UTC()
}
