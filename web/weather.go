package web

import (
	"context"
	"fmt"
	"math"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"github.com/a-h/templ"

	"haywarden/advice"
	"haywarden/agronomy/unit"
	"haywarden/chart"
	"haywarden/office"
	"haywarden/outlook"
)

// stationRow is a station in the list of all.
type stationRow struct{ Href, Name, Say string }

// weekView is the days ahead: drawn, and in a table.
type weekView struct {
	Drawing string
	Age     string
	Table   tableView
}

// stationHref is the address of a station's page.
func (p frame) stationHref(id string) string { return string(p.link("/weather/" + url.PathEscape(id))) }

// stationLinks lead to the stations whose weather stands take as it is.
func (p frame) stationLinks(o *outlook.Outlook) []linkTo {
	var out []linkTo
	for _, s := range o.Stands {
		if s.Sky == nil || s.Sky.Station.ID == s.InField.ID {
			continue
		}
		link := linkTo{s.Sky.Station.Name, p.stationHref(s.Sky.Station.ID)}
		if !slices.Contains(out, link) {
			out = append(out, link)
		}
	}
	slices.SortFunc(out, func(a, b linkTo) int { return strings.Compare(a.Name+a.Href, b.Name+b.Href) })
	return out
}

func (s *Server) stations(ctx context.Context, _ *http.Request, p frame) (templ.Component, error) {
	rows, region, err := s.office.StationRows(ctx, s.actor, p.ask)
	if err != nil {
		return nil, err
	}
	p.Title, p.Region = "Weather", region
	var out []stationRow
	for _, r := range rows {
		say := "no day observed yet"
		if r.Through != 0 {
			say = fmt.Sprintf("through %s · %s of days since %d known", daySay(r.Through, p.ask.Date), share(r.Known), r.FirstYear)
			if p.ask.Date-r.Through < 365 {
				say += fmt.Sprintf(", %s of the last year", share(r.Lately))
			}
		}
		if r.Fields > 0 {
			say += fmt.Sprintf(" · %d %s", r.Fields, advice.Plural(r.Fields, "field"))
		}
		out = append(out, stationRow{p.stationHref(r.ID), r.Name, say + " · " + r.Next.Age})
	}
	return weatherPage(p, out), nil
}

func stationsLede(rows []stationRow) string {
	if len(rows) == 0 {
		return "No station has weather in this book on this day: bring a file of daily weather with `haywarden weather import FILE`."
	}
	return fmt.Sprintf("%s %s: how far each record reaches, how whole it is, and the age of its forecast.", capitalCount(len(rows)), advice.Plural(len(rows), "station"))
}

// week draws the days ahead.
func week(n office.NextDays) weekView {
	v := weekView{Age: advice.Capital(n.Age) + "."}
	if n.For != "" {
		v.Age = advice.Capital(n.Age) + ", for " + n.For + "."
	}
	if len(n.Days) == 0 {
		if n.Kept() {
			v.Age = advice.Capital(n.Age) + "; it says nothing of the days from here on."
		}
		return v
	}
	w := chart.Week{}
	w.Title = "The days ahead"
	var said []string
	for _, d := range n.Days {
		f := chart.Forecast{Day: chartDay(d.Day), High: orNaN(d.HighF), Low: orNaN(d.LowF), RainIn: orNaN(d.RainIn), Chance: orNaN(d.Chance)}
		w.Days = append(w.Days, f)
		if d.HighF != nil && d.Chance != nil {
			said = append(said, fmt.Sprintf("%s high %.0f, rain %.0f in 100", d.Day.Weekday(), *d.HighF, 100**d.Chance))
		}
	}
	w.Desc = strings.Join(said, "; ")
	v.Drawing = chart.SVG(w)
	v.Table.Head = []headView{{"Day", ""}, {"High", "°F"}, {"Low", "°F"}, {"Rain", "chance, %"}, {"Rain", "inches"}}
	for _, d := range n.Days {
		v.Table.Rows = append(v.Table.Rows, []string{d.Day.Time().Format("Monday 2 January"), told(d.HighF, 0, 1), told(d.LowF, 0, 1), told(d.Chance, 0, 100), told(d.RainIn, 2, 1)})
	}
	return v
}

// told writes a number that may not have been forecast, times a factor.
func told(v *float64, places int, times float64) string {
	if v == nil {
		return "–"
	}
	return signless(*v*times, places)
}

// signless writes a number with a true minus, and none before a zero.
func signless(v float64, places int) string { return strings.TrimPrefix(signed(v, places), "+") }

func chartDay(d unit.Day) chart.Day { return chart.Day(d) }

func orNaN(v *float64) float64 {
	if v == nil {
		return math.NaN()
	}
	return *v
}

// share writes a share in percent, rounded down: 100 % means all of it.
func share(v float64) string {
	tenths := math.Floor(1000*v+1e-9) / 10
	if tenths == math.Trunc(tenths) {
		return fmt.Sprintf("%.0f %%", tenths)
	}
	return fmt.Sprintf("%.1f %%", tenths)
}

// daySay writes a day gone by as people say it.
func daySay(d, today unit.Day) string {
	if d == today-1 {
		return "yesterday"
	}
	if d.Year() != today.Year() {
		return d.Time().Format("2 January 2006")
	}
	return advice.Short(d)
}
