package demo

import (
	"maps"
	"math"
	"slices"
	"time"

	"gonum.org/v1/gonum/stat/distuv"

	"haywarden/agronomy/climate"
	"haywarden/agronomy/unit"
	"haywarden/weather"
)

// The skill of the invented forecasts (choice). Temperatures err by what [climate.PublishedLead] expects of
// a forecast, the errors of days beside each other being alike; rain is seen through a signal whose
// correlation with what makes a day wet falls with the lead, and its chance is the honest one given that
// signal: of days given 30 in 100, 30 in 100 are wet.
const (
	aheadDays   = 7
	errorMemory = 0.7  // of the error from one lead day to the next
	errorShared = 0.8  // of the error that highest and lowest share, as its part of a standard deviation
	firstSignal = 0.94 // correlation of the signal of rain on the first day
	signalLoss  = 0.08 // and what each day more takes from it
)

// forecastAt is when the day's forecast is issued.
const forecastAt = 4 * time.Hour

// Forecasts draws the forecasts issued on the mornings from one day to another for places, each under the
// sky of a station, in the order of their issue. The same seed and day give the same forecast, whatever
// else is asked beside.
func Forecasts(seed uint64, from, to unit.Day, stationOf map[string]string) []weather.Forecast {
	s := makeSky(seed)
	s.tellSpring()
	var out []weather.Forecast
	for day := max(from, firstDay); day <= min(to, lastDay); day++ {
		for _, place := range slices.Sorted(maps.Keys(stationOf)) {
			if i := slices.IndexFunc(s, func(a air) bool { return a.ID == stationOf[place] }); i >= 0 {
				out = append(out, weather.Forecast{Place: place, Source: "invented forecast of the demo", Issued: day.Time().Add(forecastAt), Days: s[i].ahead(seed, day)})
			}
		}
	}
	return out
}

// ahead sees the days ahead of a morning, the day itself first, through the errors of a forecast.
func (a *air) ahead(seed uint64, day unit.Day) []weather.ForecastDay {
	r := stream(seed, "forecast "+a.ID+" "+day.String())
	lead := climate.PublishedLead()
	own := math.Sqrt(1 - errorShared*errorShared)
	all := normals()
	shared := r.NormFloat64()
	var out []weather.ForecastDay
	for k := range unit.Day(aheadDays) {
		d := day + k
		if d > lastDay {
			break
		}
		i := at(d)
		sd := 1.8 * lead.TemperatureSD(int(k)+1)
		high := a.maxF[i] + sd*(errorShared*shared+own*r.NormFloat64())
		low := a.minF[i] + sd*(errorShared*shared+own*r.NormFloat64())
		shared = errorMemory*shared + math.Sqrt(1-errorMemory*errorMemory)*r.NormFloat64()
		high = max(high, low+1)
		chance, inches := a.rainAhead(i, firstSignal-signalLoss*float64(k), all[leapDay(d)].inches*a.rain, r.NormFloat64())
		hi, lo, mm := round((high-32)/1.8, 1), round((low-32)/1.8, 1), round(inches*25.4, 2)
		out = append(out, weather.ForecastDay{Day: d, TMaxC: &hi, TMinC: &lo, PoP: &chance, RainMM: &mm})
	}
	return out
}

// rainAhead is the chance of rain on a day and the amount expected, seen through a signal that goes with
// the day's wetness by a correlation. usual is the mean rain of a wet day, in.
func (a *air) rainAhead(i int, correlation, usual, noise float64) (chance, inches float64) {
	n := distuv.UnitNormal
	z, limit := a.wetness[i], n.Quantile(a.wetChance[i])
	switch wet := a.rainIn[i] > 0; { // where the story told otherwise than was drawn
	case wet && z >= limit:
		z = n.Quantile(a.wetChance[i] / 2)
	case !wet && z < limit:
		z = n.Quantile((1 + a.wetChance[i]) / 2)
	}
	rest := math.Sqrt(1 - correlation*correlation)
	signal := correlation*z + rest*noise
	chance = round(n.CDF((limit-correlation*signal)/rest), 2)
	amount := usual
	if a.rainIn[i] > 0 {
		amount += correlation * correlation * (a.rainIn[i] - usual)
	}
	return chance, chance * amount
}
