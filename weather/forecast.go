package weather

import (
	"math"
	"time"

	"haywarden/agronomy/unit"
)

// Forecast is what was forecast for a place, kept as it was issued. A later forecast stands beside it.
type Forecast struct {
	Place  string        `json:"place"` // the point it is for, as asked
	Source string        `json:"source"`
	Issued time.Time     `json:"issued"`
	Days   []ForecastDay `json:"days"` // in order
}

// ForecastDay is one day of a forecast. What was not said is nil: no rain forecast is not a dry day.
type ForecastDay struct {
	Day    unit.Day `json:"day"`
	TMaxC  *float64 `json:"tmax_c,omitempty"`
	TMinC  *float64 `json:"tmin_c,omitempty"`
	PoP    *float64 `json:"pop,omitempty"`     // chance of 0.25 mm or more in the day, 0-1
	RainMM *float64 `json:"rain_mm,omitempty"` // expected amount
}

// On returns the forecast of a day.
func (f *Forecast) On(d unit.Day) (ForecastDay, bool) {
	if f == nil {
		return ForecastDay{}, false
	}
	for _, fd := range f.Days {
		if fd.Day == d {
			return fd, true
		}
	}
	return ForecastDay{}, false
}

// Age is how old a forecast is.
func (f *Forecast) Age(now time.Time) time.Duration { return now.Sub(f.Issued) }

// known reads an optional number, NaN where it is not there.
func known(v *float64) float64 {
	if v == nil {
		return math.NaN()
	}
	return *v
}
