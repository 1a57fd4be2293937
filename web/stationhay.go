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
		row := chart.ChanceRow{Label: hayLabel(h)}
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
		v.HaySay = "Chance in 100 that it is dry enough in time with no more than 0.05 inch of rain on it, a full swath mown at 10 in the morning and neither tedded nor raked, with the dew of a usual night on it: counted over past years, those most like this season counting most, each led by the forecast while there is one. Each kind of bale waits for its own limit; feel and probe them all the same." + fallSaid(unit.Day(c.Days[0]))
	}
}

// hayLabel names a product with the moisture at which it is taken up and the days it may take.
func hayLabel(h office.HayDays) string {
	return fmt.Sprintf("%s at %.0f %%, within %d days", advice.Capital(h.Product), h.At, h.Within)
}

// fallSaid warns where the model is known to be wrong: it has hay dry in September of more years than a
// published count does, 37 of 100 at Milwaukee for hay of 23 % within 4 days. Source: Dyer & Brown 1977, as
// quoted by MacDonald & Clark.
func fallSaid(mown unit.Day) string {
	if mown < unit.DateOf(mown.Year(), time.August, 15) {
		return ""
	}
	return " From late August on take dry hay for less likely than this: of hay of 23 % in early September the model has 37 of 100 made where a published count for Ontario has 5."
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
			rows = append(rows, []string{advice.Short(s.Day), hayLabel(h), inHundred(s.Share), between(s.Low, s.High), dewed(s.Dew), inHundred(s.Dry), hours})
		}
	}
	return rows
}
