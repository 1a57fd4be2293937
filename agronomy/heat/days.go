package heat

import (
	"fmt"
	"math"
)

// Days is the heat of each of a run of days. A day with a missing (NaN) temperature is NaN; a day whose
// highest is below its lowest is bad data and refused, never swapped.
//
// The double methods take tomorrow's lowest from the next day. For the last day tmin may carry one
// value more than tmax; where it does not, the last day's own lowest stands in for it (choice).
func (s Spec) Days(tmin, tmax []float64) ([]float64, error) {
	if err := s.Check(); err != nil {
		return nil, err
	}
	n := len(tmax)
	if len(tmin) != n && !(s.Method.Double() && len(tmin) == n+1) {
		return nil, fmt.Errorf("%d lowest and %d highest temperatures: give one of each for every day", len(tmin), n)
	}
	daily := make([]float64, n)
	for i := range daily {
		if tmax[i] < tmin[i] {
			return nil, fmt.Errorf("day %d: highest temperature %g is below lowest %g: check which is which", i+1, tmax[i], tmin[i])
		}
		if !s.Method.Double() {
			daily[i] = s.Day(tmin[i], tmax[i])
			continue
		}
		next := tmin[i]
		if i+1 < len(tmin) {
			next = tmin[i+1]
		}
		daily[i] = s.DoubleDay(tmin[i], tmax[i], next)
	}
	return daily, nil
}

// Hourly is the heat of a day told from evenly spaced readings, 24 for a day of hours: the mean of
// what each is above base. NaN for none, or where one is missing. The daily methods stand in for it
// where only lowest and highest are known. Source: [source.HourlyHeat].
func Hourly(readings []float64, base float64) float64 {
	if len(readings) == 0 {
		return math.NaN()
	}
	var sum float64
	for _, t := range readings {
		sum += notBelowZero(t - base)
	}
	return sum / float64(len(readings))
}
