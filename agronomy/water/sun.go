package water

import (
	"fmt"
	"math"

	"haywarden/agronomy/unit"
)

// Orbit holds the coefficients of the sun's course in FAO Paper 56. Source: [source.ReferenceET].
type Orbit struct {
	SolarConstant float64 // MJ/m2/min
	Eccentricity  float64 // relative, of the inverse distance to the sun
	Tilt          float64 // largest declination, rad
	Phase         float64 // of the declination, rad
}

// FAOOrbit returns the coefficients of equations 21 to 24.
func FAOOrbit() Orbit {
	return Orbit{SolarConstant: 0.0820, Eccentricity: 0.033, Tilt: 0.409, Phase: 1.39}
}

const (
	minutesOfDay = 24 * 60
	hoursOfDay   = 24
	radians      = math.Pi / 180
)

// Sky gives a day's radiation above the atmosphere and its length from sunrise to sunset:
//
//	dr = 1 + 0.033 cos(2 pi J/365)              equation 23
//	delta = 0.409 sin(2 pi J/365 - 1.39)        24
//	omega = acos(-tan phi tan delta)            25
//	Ra = (1440/pi) 0.0820 dr (omega sin phi sin delta + cos phi cos delta sin omega)   21
//	N = 24 omega/pi                             34
//
// where phi is the latitude, south negative, and J the day of the year. Where the sun does not set or
// does not rise the argument of acos is held at -1 or 1. The day is the geometric one of the sun's
// centre without refraction: at 43 N it is 11 to 17 minutes shorter than from sunrise to sunset by the
// clock, for which see [SunTimes]. Source: [source.ReferenceET].
func (o Orbit) Sky(latDeg, yearDay float64) (raMJ, dayLengthH float64) {
	phi, a := latDeg*radians, 2*math.Pi*yearDay/365
	delta := o.Tilt * math.Sin(a-o.Phase)
	omega := math.Acos(min(1, max(-1, -math.Tan(phi)*math.Tan(delta))))
	near := 1 + o.Eccentricity*math.Cos(a)
	ra := minutesOfDay / math.Pi * o.SolarConstant * near *
		(omega*math.Sin(phi)*math.Sin(delta) + math.Cos(phi)*math.Cos(delta)*math.Sin(omega))
	return max(0, ra), hoursOfDay / math.Pi * omega
}

// SkyYear is [Orbit.Sky] of every day of the year at one latitude, for loops over years. Index 0 is
// not used.
type SkyYear struct{ RaMJ, DayLengthH [367]float64 }

// Year fills a table of the sky.
func (o Orbit) Year(latDeg float64) *SkyYear {
	var y SkyYear
	for d := 1; d < len(y.RaMJ); d++ {
		y.RaMJ[d], y.DayLengthH[d] = o.Sky(latDeg, float64(d))
	}
	return &y
}

// Above returns a day's radiation above the atmosphere and its length. Source: [source.ReferenceET].
func Above(lat unit.Degree, yearDay int) (ra unit.MJm2Day, dayLength unit.Hour, err error) {
	if err := checkSky(lat, yearDay); err != nil {
		return 0, 0, err
	}
	r, n := FAOOrbit().Sky(float64(lat), float64(yearDay))
	return unit.MJm2Day(r), unit.Hour(n), nil
}

func checkSky(lat unit.Degree, yearDay int) error {
	switch {
	case !(lat >= -90 && lat <= 90):
		return fmt.Errorf("latitude %g: accepted -90 to 90 degrees, south negative", lat)
	case yearDay < 1 || yearDay > 366:
		return fmt.Errorf("day %d: accepted days 1 to 366 of the year", yearDay)
	}
	return nil
}
