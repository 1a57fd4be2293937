package climate

import "math"

// Lead holds the errors that a forecast is taken to have. Source: [source.ForecastBlend].
type Lead struct {
	SD      [7]float64 // of temperature, C, for days 1 to 7 ahead
	Fade    int        // days after the last over which the forecast's weight falls to nothing
	RainPer float64    // weight that the rain forecast loses a day
}

// PublishedLead returns the values in use.
func PublishedLead() Lead {
	return Lead{SD: [7]float64{1.5, 1.8, 2.1, 2.5, 2.9, 3.3, 3.7}, Fade: 7, RainPer: 0.1}
}

// Blended is a temperature between forecast and climate: its mean and what is still unknown of it.
type Blended struct{ Mean, SD, Weight float64 }

// Blend weighs a forecast with error s against a climate of mean mu and spread sigma:
//
//	w = sigma^2/(sigma^2 + s^2),   mean = w F + (1 - w) mu,   sd = sqrt(sigma^2 s^2/(sigma^2 + s^2))
func Blend(forecast, s, mu, sigma float64) Blended {
	v, e := sigma*sigma, s*s
	w := v / (v + e)
	return Blended{Mean: w*forecast + (1-w)*mu, SD: math.Sqrt(v * e / (v + e)), Weight: w}
}

// MemberTemperature keeps a past year's way from day to day while it follows a forecast:
//
//	T = F + (T_past - mu) s/sigma
func MemberTemperature(forecast, past, mu, s, sigma float64) float64 {
	if sigma == 0 {
		return forecast
	}
	return forecast + (past-mu)*s/sigma
}

// TemperatureSD is the error of a forecast k days ahead, 1 being tomorrow's; beyond the last day it is
// +Inf: the climate alone counts.
func (l Lead) TemperatureSD(k int) float64 {
	if k < 1 || k > len(l.SD) {
		return math.Inf(1)
	}
	return l.SD[k-1]
}

// RainWeight is the weight of a rain forecast k days ahead, 1 being tomorrow's.
func (l Lead) RainWeight(k int) float64 {
	if k < 1 || k > len(l.SD) {
		return 0
	}
	return 1 - l.RainPer*float64(k-1)
}

// BlendRain is the chance of rain k days ahead between a forecast's and the climate's.
func (l Lead) BlendRain(pop, climate float64, k int) float64 {
	w := l.RainWeight(k)
	return w*pop + (1-w)*climate
}
