package water

import (
	"math"

	"haywarden/agronomy/unit"
)

// Air holds the coefficients of water vapour and pressure in FAO Paper 56. Source:
// [source.ReferenceET].
type Air struct {
	Vapour0 float64 // vapour pressure over water at 0 C, kPa
	VapourA float64
	VapourB float64 // C
	Slope   float64 // product of the two above as printed, C

	Pressure0 float64 // at sea level, kPa
	Kelvin0   float64 // air at sea level, K
	Lapse     float64 // K/m
	Power     float64
	Psychro   float64 // psychrometric constant over pressure, 1/C
}

// FAOAir returns the coefficients of equations 7, 8, 11 and 13.
func FAOAir() Air {
	return Air{
		Vapour0: 0.6108, VapourA: 17.27, VapourB: 237.3, Slope: 4098,
		Pressure0: 101.3, Kelvin0: 293, Lapse: 0.0065, Power: 5.26, Psychro: 0.000665,
	}
}

// VapourKPa is the vapour pressure of saturated air: e(T) = 0.6108 exp(17.27 T/(T + 237.3)), equation
// 11. Source: [source.ReferenceET].
func (a *Air) VapourKPa(tempC float64) float64 {
	return a.Vapour0 * math.Exp(a.VapourA*tempC/(tempC+a.VapourB))
}

// MeanVapourKPa is the saturated vapour pressure of a day, the mean of those at its two extremes and
// not that of its mean temperature: equation 12. Source: [source.ReferenceET].
func (a *Air) MeanVapourKPa(tmaxC, tminC float64) float64 {
	return (a.VapourKPa(tmaxC) + a.VapourKPa(tminC)) / 2
}

// SlopeKPa is how steeply saturated vapour pressure rises with temperature, kPa/C: 4098 e(T)/(T +
// 237.3)^2, equation 13. Source: [source.ReferenceET].
func (a *Air) SlopeKPa(tempC float64) float64 {
	d := tempC + a.VapourB
	return a.Slope * a.VapourKPa(tempC) / (d * d)
}

// PressureKPa is the usual pressure at a height above the sea: 101.3 ((293 - 0.0065 z)/293)^5.26,
// equation 7. Source: [source.ReferenceET].
func (a *Air) PressureKPa(elevationM float64) float64 {
	return a.Pressure0 * math.Pow((a.Kelvin0-a.Lapse*elevationM)/a.Kelvin0, a.Power)
}

// PsychroKPa is the psychrometric constant at a height above the sea, kPa/C: equation 8. Source:
// [source.ReferenceET].
func (a *Air) PsychroKPa(elevationM float64) float64 { return a.Psychro * a.PressureKPa(elevationM) }

// Vapour is the vapour pressure of saturated air. Source: [source.ReferenceET].
func Vapour(t unit.Celsius) unit.Kilopascal {
	a := FAOAir()
	return unit.Kilopascal(a.VapourKPa(float64(t)))
}

// Deficit is the vapour pressure deficit of air at a temperature and relative humidity. Source:
// [source.ReferenceET].
func Deficit(t unit.Celsius, rh unit.Percent) unit.Kilopascal {
	return Vapour(t) * unit.Kilopascal(1-rh/100)
}

// Pressure is the usual air pressure at a height above the sea. Source: [source.ReferenceET].
func Pressure(elevation unit.Metre) unit.Kilopascal {
	a := FAOAir()
	return unit.Kilopascal(a.PressureKPa(float64(elevation)))
}

// WindAt2 brings wind measured at a height down to 2 m over grass: u 4.87/ln(67.8 z - 5.42), equation
// 47. Wind of 10 m is taken times 0.748. NaN for a height the profile does not reach (under 0.1 m).
// Source: [source.ReferenceET].
func WindAt2(u unit.MetreSec, height unit.Metre) unit.MetreSec {
	const a, b, c, lowest = 4.87, 67.8, 5.42, 0.1
	if !(height >= lowest) {
		return unit.MetreSec(math.NaN())
	}
	return u * unit.MetreSec(a/math.Log(b*float64(height)-c))
}
