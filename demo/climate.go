package demo

import (
	"math"

	"haywarden/agronomy/unit"
	"haywarden/weather"
)

// byMonth is a quantity of the climate, January first, at mid-month.
type byMonth [12]float64

// The invented climate. The levels are typical of the inland upper Midwest (from memory, a choice of
// ours, and held to published ranges by climate_test.go); no station's normals are copied.
var (
	highF   = byMonth{24.5, 29, 43, 60.5, 73, 79.3, 83.3, 80.5, 72.5, 58.5, 42.5, 29.5} // mean daily maximum
	lowF    = byMonth{8, 11, 22.5, 34, 46, 55.5, 60, 57.5, 49, 37.5, 26, 13.5}
	spreadF = byMonth{11, 10.5, 9.2, 7.8, 6.9, 5.6, 4.5, 4.7, 6.2, 7.5, 8.8, 10.2} // SD of the day's mean about its normal
	rangeF  = byMonth{5, 5, 5.4, 6.4, 6.4, 5.2, 4.6, 4.6, 5.2, 5.6, 5, 4.8}        // SD of the day's range about its normal
	wetHigh = byMonth{2, 1, -1.5, -5, -6, -5, -4, -4, -5, -5, -2, 1}               // a wet day's maximum against a dry one's
	wetLow  = byMonth{7, 6, 5, 3, 2, 1, 1, 1.5, 3, 4, 5, 6}

	wetAfterDry = byMonth{.235, .225, .245, .295, .30, .30, .26, .25, .25, .245, .24, .25}
	wetAfterWet = byMonth{.45, .45, .49, .50, .49, .46, .41, .42, .45, .47, .48, .47}
	inchesWet   = byMonth{.135, .145, .19, .295, .345, .425, .425, .415, .345, .265, .215, .155} // mean rain of a wet day
)

const (
	gammaShape = 0.78 // of the rain of a wet day; Richardson 1981 fits 0.6-1.0 (from memory)
	fastMemory = 0.66 // day to day carry-over of the anomaly; about that of daily means in the Midwest (from memory)
	slowMemory = 0.98 // of the slow part that makes warm and cold seasons: fifty days (choice)
	slowShare  = 0.16 // of the variance that is slow (choice)
	yearSpread = 0.8  // F, SD of whole years (choice)
	apart      = 0.12 // share of a station's variance that is its own (choice)
	scatter    = 0.35 // SD of the log of a station's rain about the district's (choice)
)

// place is a weather station with what sets it apart from the district.
type place struct {
	weather.Station
	high, low float64 // F added
	pool      float64 // F taken from the minimum of a dry night: cold air gathers
	rain      float64 // factor
}

// heart is the middle of the district; nothing stands there but water.
const (
	heartLat  = 43.52
	heartLong = -87.16
)

// miles returns the position so many miles east and north of the district's middle.
func miles(east, north float64) (lat, long float64) {
	const perDegree = 69.1 // of latitude
	lat = heartLat + north/perDegree
	long = heartLong + east/(perDegree*math.Cos(heartLat*math.Pi/180))
	return round(lat, 5), round(long, 5)
}

func round(v float64, digits int) float64 {
	p := math.Pow10(digits)
	return math.Round(v*p) / p
}

// The stations. Their ids begin with ZZ, which no archive gives to a country.
const (
	crossing = "ZZLM0000017"
	ridge    = "ZZLM0000025"
	hollow   = "ZZLM0000042"
)

func places() []place {
	at := func(id, name string, east, north, metres float64) weather.Station {
		lat, long := miles(east, north)
		return weather.Station{ID: id, Name: name, Latitude: lat, Longitude: long, Elevation: metres, WholeF: true}
	}
	return []place{
		{Station: at(crossing, "Larkmoor Crossing", -3, -2, 268), rain: 1},
		{Station: at(ridge, "Thrushgate Ridge", 5, 3.5, 341), high: -1.2, low: 0.2, rain: 1.03},
		{Station: at(hollow, "Tansy Hollow", 1, 9, 252), high: 0.4, low: -0.6, pool: 1.2, rain: 0.98},
	}
}

func stationList() []weather.Station {
	var out []weather.Station
	for _, p := range places() {
		out = append(out, p.Station)
	}
	return out
}

// normal is the climate of one day of the year.
type normal struct {
	high, low, spread, spanSD, wetHigh, wetLow, afterDry, afterWet, inches, wetShare float64
}

// normals spreads the months over the days of a leap year.
func normals() []normal {
	out := make([]normal, 366)
	for i := range out {
		n := normal{
			high: highF.on(i), low: lowF.on(i), spread: spreadF.on(i), spanSD: rangeF.on(i),
			wetHigh: wetHigh.on(i), wetLow: wetLow.on(i),
			afterDry: wetAfterDry.on(i), afterWet: wetAfterWet.on(i), inches: inchesWet.on(i),
		}
		n.wetShare = n.afterDry / (1 + n.afterDry - n.afterWet)
		out[i] = n
	}
	return out
}

// on reads the months at a day of a leap year, counted from 0, along a straight line from mid-month
// to mid-month.
func (m byMonth) on(day int) float64 {
	x := (float64(day)+0.5)/30.5 - 0.5
	i := int(math.Floor(x))
	part := x - float64(i)
	return m[(i+12)%12]*(1-part) + m[(i+13)%12]*part
}

// leapDay returns a day's place in a leap year, counted from 0, so that dates keep their normals.
func leapDay(d unit.Day) int {
	n := d.YearDay() - 1
	if n >= 59 && !unit.Leap(d.Year()) {
		n++
	}
	return n
}
