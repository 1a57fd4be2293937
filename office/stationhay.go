package office

import (
	"fmt"
	"time"

	"haywarden/agronomy/curing"
	"haywarden/agronomy/unit"
	"haywarden/weather"
)

// HayDays are the chances of making one product where it is mown on each of the days ahead, and through
// the season.
type HayDays struct {
	Product string      `json:"product"`
	At      float64     `json:"at_moisture"` // % of fresh weight at which it is taken up
	Within  int         `json:"within_days"` // that it may take, the day of mowing being the first
	Ahead   []HayStart  `json:"ahead"`
	Season  []HaySeason `json:"by_date"`
}

// HayStart is the chance where the crop is mown on a day: made in time and without harmful rain.
type HayStart struct {
	Day   unit.Day `json:"day"`
	Share float64  `json:"chance"`
	Low   float64  `json:"low"` // 95 % interval
	High  float64  `json:"high"`
	Dew   *float64 `json:"chance_dewy,omitempty"` // where the swath takes on dew as heavily as it may
	Dry   float64  `json:"all_days_dry"`          // the simple rule beside it
	Hours float64  `json:"hours"`                 // mean from mowing until made
}

// HaySeason is the share of past years in which it was made, over five days of mowing.
type HaySeason struct {
	From  unit.Day `json:"from"`
	Years int      `json:"years"`
	Share float64  `json:"chance"`
	Dew   *float64 `json:"chance_dewy,omitempty"` // where the swath takes on dew as heavily as it may
	Dry   float64  `json:"all_days_dry"`
}

const (
	hayAhead   = 10 // days of mowing ahead
	hayStarts  = 5  // days of mowing around each date of the season
	hayYears   = 10 // fewer give no chance (choice, as for freezes)
	seasonStep = 15 // days between dates of the season
)

// hayMade are the products told, with the days that each may take (choice, within the one to five days
// that they are said to want). Hay is told by the package, since each keeps at its own moisture.
var hayMade = []struct {
	name    string
	product curing.Product
	within  int
	dewy    bool // whether the bound of dew tells anything: it has next to no dry hay made in any month
}{
	{"haylage", curing.BunkerHaylage, 2, true}, {"baleage", curing.Baleage, 3, true}, {"hay, small squares", curing.SmallSquare, 4, false},
	{"hay, round bales", curing.RoundBale, 4, false}, {"hay, large squares", curing.LargeSquare, 4, false},
}

// hayDays reckons the chances of haymaking at a station. past ends the day before the date.
func hayDays(past *weather.Series, f *weather.Forecast, date unit.Day) ([]HayDays, error) {
	out := []HayDays{}
	if past.Len() == 0 || past.Station.Latitude == 0 {
		return out, nil
	}
	months := date.Month() >= time.April && date.Month() <= time.October
	var ensemble *weather.Ensemble
	if months {
		ensemble = weather.NewEnsemble(past, date, weather.EnsembleOptions{Forecast: f})
	}
	for _, m := range hayMade {
		h := HayDays{Product: m.name, At: float64(m.product.Moisture()), Within: m.within, Ahead: []HayStart{}, Season: []HaySeason{}}
		ask := curing.UsualHaymaking(m.product, m.within, curing.Place{})
		if months && len(ensemble.Members) >= hayYears {
			ahead, err := ensemble.HayChances(past, ask, hayAhead)
			if err != nil {
				return nil, fmt.Errorf("chances of %s ahead: %w", m.name, err)
			}
			var dew []weather.HayChance
			if m.dewy {
				if dew, err = ensemble.HayChances(past, dewy(ask), hayAhead); err != nil {
					return nil, fmt.Errorf("chances of %s ahead with dew: %w", m.name, err)
				}
			}
			for i, c := range ahead {
				if c.Years >= hayYears {
					h.Ahead = append(h.Ahead, HayStart{Day: c.Day, Share: float64(c.Share), Low: float64(c.Low), High: float64(c.High), Dew: shareAt(dew, i), Dry: float64(c.Dry), Hours: orZero(c.Hours)})
				}
			}
		}
		season, err := haySeason(past, ask, date.Year(), m.dewy)
		if err != nil {
			return nil, fmt.Errorf("chances of %s by date: %w", m.name, err)
		}
		h.Season = append(h.Season, season...)
		out = append(out, h)
	}
	return out, nil
}

// dewy asks the same of a swath that takes on all the dew a calm night may give it: the other bound.
func dewy(ask curing.Haymaking) curing.Haymaking {
	ask.Swath.Damp = curing.DampDew
	return ask
}

func haySeason(past *weather.Series, ask curing.Haymaking, year int, withDew bool) ([]HaySeason, error) {
	var out []HaySeason
	for d := unit.DateOf(year, time.May, 15); d <= unit.DateOf(year, time.September, 30); d += seasonStep {
		air, err := weather.HayChances(past, ask, d, hayStarts)
		if err != nil {
			return nil, err
		}
		s := HaySeason{From: d}
		var dew []weather.HayChance
		if withDew {
			if dew, err = weather.HayChances(past, dewy(ask), d, hayStarts); err != nil {
				return nil, err
			}
			s.Dew = new(float64)
		}
		for i, c := range air {
			if c.Years < hayYears {
				return nil, nil
			}
			s.Years = max(s.Years, c.Years)
			s.Share += float64(c.Share) / float64(len(air))
			if withDew {
				*s.Dew += float64(dew[i].Share) / float64(len(air))
			}
			s.Dry += float64(c.Dry) / float64(len(air))
		}
		out = append(out, s)
	}
	return out, nil
}

// shareAt is nil where nothing was asked.
func shareAt(all []weather.HayChance, i int) *float64 {
	if i >= len(all) {
		return nil
	}
	share := float64(all[i].Share)
	return &share
}

// orZero leaves out what is not known, as JSON cannot say it.
func orZero(v float64) float64 {
	if v != v {
		return 0
	}
	return v
}
