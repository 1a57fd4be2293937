// Package frost reckons with freezes: how long a night was cold, when the first and last freeze of a
// year come and with what chance, and what a fall cut risks before the killing one.
//
// Which temperature kills alfalfa tops is disputed ([KillingFreezes]) and moves the date by weeks, so
// it is always an input. Temperatures are in F unless a name says otherwise; dates are day numbers of
// the year, 1 to 366.
package frost

import "math"

// HoursBelow is how many hours of a day stood at or below a threshold, from its lowest and highest
// temperature alone, all in one unit:
//
//	h = (24/pi) acos((M - T)/a),   M = (tmin + tmax)/2, a = (tmax - tmin)/2
//
// a sine day. NaN where a temperature is missing or the highest is below the lowest.
// Source: [source.FrostHours].
func HoursBelow(tmin, tmax, threshold float64) float64 {
	const hours = 24
	switch {
	case !(tmin <= tmax) || math.IsNaN(threshold):
		return math.NaN()
	case tmax <= threshold:
		return hours
	case tmin >= threshold:
		return 0
	}
	x := (tmin + tmax - 2*threshold) / (tmax - tmin)
	return hours / math.Pi * math.Acos(max(-1, min(1, x)))
}
