package office

import (
	"time"

	"haywarden/agronomy/climate"
	"haywarden/agronomy/frost"
	"haywarden/agronomy/unit"
	"haywarden/outlook"
	"haywarden/weather"
)

// FallCut is how past falls would have treated a last cut on a day of the calendar, by the heat that was
// left to the next killing freeze, C-days above 5 C.
type FallCut struct {
	Day     unit.Day `json:"day"`
	Years   int      `json:"years"`
	Over    float64  `json:"enough_left"` // share of years in which roots could fill again
	Under   float64  `json:"little_left"` // so little that nothing was drawn
	Between float64  `json:"risk"`
	Low     float64  `json:"risk_low"` // 95 % interval of the risk
	High    float64  `json:"risk_high"`
}

// leastFalls is how many falls a risk wants, as freeze dates do. [source.FreezeYears]
const leastFalls = leastFreezeYears

// fallCuts tells the risk of a last cut through the fall; nothing where too few falls are known.
func fallCuts(s *weather.Series, neighbours []weather.Neighbour, date unit.Day) []FallCut {
	sky := outlook.NewSky(s, date, outlook.SkyOptions{Neighbours: neighbours})
	limits := frost.PublishedRest()
	out := []FallCut{}
	for d := unit.DateOf(date.Year(), time.August, 10); d <= unit.DateOf(date.Year(), time.November, 10); d += 10 {
		left := sky.HeatUntilFreeze(d)
		if len(left) < leastFalls {
			return []FallCut{}
		}
		rest := frost.RestRisk(left, limits.Enough, limits.Little)
		c := FallCut{Day: d, Years: len(left), Over: rest.Over, Under: rest.Under, Between: rest.Between}
		between := 0
		for _, h := range left {
			if h < limits.Enough && h > limits.Little {
				between++
			}
		}
		c.Low, c.High = climate.Wilson(between, len(left))
		out = append(out, c)
	}
	return out
}
