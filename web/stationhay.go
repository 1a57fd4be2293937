package web

import (
	"fmt"
	"math"
	"time"

	"haywarden/advice"
	"haywarden/agronomy/unit"
	"haywarden/chart"
	"haywarden/office"
)

// hay says how likely hay, baleage and haylage are made where the crop is mown on each of the days ahead,
// and through the season.
func (v *stationView) hay(p *office.StationPage) {
	c := chart.Chances{}
	c.Title = "Chances of haymaking where it is mown on each of the days ahead"
	v.HayBy = [][]string{{"Mown about", "Product", "Made in", "with heavy dew", "all days dry"}}
	for _, h := range p.Hay {
		row := chart.ChanceRow{Label: fmt.Sprintf("%s, within %d days", advice.Capital(h.Product), h.Within)}
		for i, s := range h.Ahead {
			if len(c.Things) == 0 {
				c.Days = append(c.Days, chartDay(s.Day))
			}
			row.By = append(row.By, s.Share)
			if i == 0 {
				c.Desc += fmt.Sprintf("%s mown on %s is made in %.0f of 100. ", advice.Capital(h.Product), advice.Short(s.Day), 100*s.Share)
			}
		}
		if len(row.By) > 0 {
			c.Things = append(c.Things, row)
		}
		for _, s := range h.Season {
			v.HayBy = append(v.HayBy, []string{advice.Short(s.From), h.Product, inHundred(s.Share), dewed(s.Dew), inHundred(s.Dry)})
		}
	}
	if len(v.HayBy) == 1 {
		v.HayBy = nil
	}
	if len(c.Things) > 0 {
		c.Width = halfWide
		v.Hay = append(v.Hay, drawn{SVG: chart.SVG(c), Class: "wide-only"})
		c.Width = phoneWide
		v.Hay = append(v.Hay, drawn{SVG: chart.SVG(c), Class: "narrow-only"})
		v.HayRows = hayRows(p)
		v.HaySay = "Chance in 100 that it is dry enough in time with no more than 0.05 inch of rain on it, a full swath mown at 10 in the morning and neither tedded nor raked: counted over past years, those most like this season counting most, each led by the forecast while there is one. Bales wait for the store's own limit: feel and probe them." + fallSaid(unit.Day(c.Days[0]))
	}
}

// fallSaid warns where the model is known to be wrong: it has hay dry in September of more years than a
// published count does. Source: Dyer & Brown 1977, as quoted by MacDonald & Clark.
func fallSaid(mown unit.Day) string {
	if mown < unit.DateOf(mown.Year(), time.August, 15) {
		return ""
	}
	return " Dry hay is made less often than this from late August on: a published count for Ontario has it made in 5 of 100 in early September."
}

// dewed writes the bound of dew, where there is one.
func dewed(share *float64) string {
	if share == nil {
		return "–"
	}
	return inHundred(*share)
}

func hayRows(p *office.StationPage) [][]string {
	rows := [][]string{{"Mown on", "Product", "Made in", "95 % interval", "with heavy dew", "all days dry", "hours until made"}}
	for _, h := range p.Hay {
		for _, s := range h.Ahead {
			hours := "–"
			if s.Hours > 0 {
				hours = fmt.Sprintf("%.0f", math.Round(s.Hours))
			}
			rows = append(rows, []string{advice.Short(s.Day), fmt.Sprintf("%s, within %d days", h.Product, h.Within), inHundred(s.Share), between(s.Low, s.High), dewed(s.Dew), inHundred(s.Dry), hours})
		}
	}
	return rows
}
