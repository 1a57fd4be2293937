package web

import (
	"context"
	"fmt"
	"net/http"
	"strconv"
	"strings"

	"github.com/a-h/templ"

	"haywarden/advice"
	"haywarden/agronomy/unit"
	"haywarden/chart"
	"haywarden/office"
)

type stationView struct {
	Name, Lede string
	Empty      bool
	Week       weekView
	Season     tableView
	SeasonSay  string
	Clocks     []clockView
	Spells     tableView
	SpellsBy   [][]string
	SpellSay   string
	Freezes    []freezeView // spring and fall
	FreezeTab  tableView
	FreezeWays [][]string
	FreezeLede string
	FreezeSay  string
	Hay        []drawn
	HaySay     string
	HayRows    [][]string
	HayBy      [][]string
	Falls      tableView
	FallSay    string
	Record     []drawn
	RecordSay  string
	Months     [][]string
	Years      [][]string
	Done       []factView
	Imports    []dayView
	Older      []dayView
	Fields     string
}

// tableView is a table of numbers: the first column names, the rest stand under their units.
type tableView struct {
	Head []headView
	Rows [][]string
}

type headView struct{ Name, Unit string }

type clockView struct {
	ID, Title, Say string
	Drawings       []drawn
	Rows           [][]string
}

type freezeView struct {
	ID, Title string
	Drawings  []drawn
}

// halfWide is the width of a drawing in one of two even columns.
const halfWide = 548

func (s *Server) station(ctx context.Context, r *http.Request, p frame) (templ.Component, error) {
	page, err := s.office.StationPage(ctx, s.actor, r.PathValue("station"), p.ask)
	if err != nil {
		return nil, err
	}
	p.Title, p.Region = page.Name, page.Region
	return stationPage(p, stationViewOf(page)), nil
}

func stationViewOf(p *office.StationPage) stationView {
	v := stationView{Name: p.Name, Lede: stationLede(p), Empty: p.Through == 0, Week: week(p.Next), Fields: strings.Join(p.Fields, ", ")}
	v.imports(p)
	if v.Empty {
		return v
	}
	v.season(p)
	v.spells(p)
	v.hay(p)
	v.freezes(p)
	v.record(p)
	return v
}

func stationLede(p *office.StationPage) string {
	var parts []string
	if p.ID != p.Name {
		parts = append(parts, p.ID)
	}
	if p.Latitude != 0 || p.Longitude != 0 {
		parts = append(parts, fmt.Sprintf("%.2f, %.2f", p.Latitude, p.Longitude), fmt.Sprintf("%.0f feet", p.Elevation/0.3048))
	}
	if p.Through == 0 {
		return strings.Join(append(parts, "no day observed yet"), " · ")
	}
	parts = append(parts, fmt.Sprintf("record from %d through %s", p.FirstYear, daySay(p.Through, p.Date)))
	if n := len(p.Fields); n > 0 {
		parts = append(parts, fmt.Sprintf("weather of %d %s", n, advice.Plural(n, "field")))
	}
	return strings.Join(parts, " · ")
}

// season sets this season's sums against those of past years.
func (v *stationView) season(p *office.StationPage) {
	v.Season.Head = []headView{{"Sum", ""}, {"So far", ""}, {"Normal", ""}, {"8 years in 10", ""}, {"Against normal", ""}, {"Years with less", ""}}
	for _, c := range append(p.Clocks, p.Rain) {
		v.Season.Rows = append(v.Season.Rows, seasonRow(c))
		if c.Begun {
			v.Clocks = append(v.Clocks, clockDrawings(c, p.Date))
		}
	}
	v.SeasonSay = "Normals are the means of all past years, smoothed over the calendar. The band is read from the sums of the past years by Weibull’s rank p(n + 1). Missing days are filled from neighbours, else taken as normal."
}

func seasonRow(c office.SeasonClock) []string {
	row := []string{c.Name, "from " + advice.Short(c.From), "–", "–", "–", "–"}
	if !c.Begun {
		return row
	}
	i := len(c.Season) - 1
	row[1] = amountSay(c, c.Now)
	if c.Normal != nil {
		row[2] = amountSay(c, c.Normal[i])
		if c.Ahead == nil {
			row[4] = signed(c.Now-c.Normal[i], 1) + " in"
		}
	}
	if c.Unit != "inches" {
		row[4] = aheadSay(c.Ahead)
	}
	if c.P10 != nil {
		row[3] = bare(c, c.P10[i]) + " to " + bare(c, c.P90[i])
		row[5] = fmt.Sprintf("%d of %d", c.Below, c.Years)
	}
	return row
}

// aheadSay says by how many days heat leads or lags.
func aheadSay(days *int) string {
	switch {
	case days == nil:
		return "–"
	case *days == 0:
		return "on its day"
	case *days > 0:
		return fmt.Sprintf("%d %s ahead", *days, advice.Plural(*days, "day"))
	}
	return fmt.Sprintf("%d %s behind", -*days, advice.Plural(-*days, "day"))
}

// bare writes a sum of a clock without its unit: rain in tenths of an inch, heat whole.
func bare(c office.SeasonClock, v float64) string {
	if c.Unit == "inches" {
		return fmt.Sprintf("%.1f", v)
	}
	return fmt.Sprintf("%.0f", v)
}

func amountSay(c office.SeasonClock, v float64) string {
	return bare(c, v) + " " + strings.Replace(c.Unit, "inches", "in", 1)
}

// signed writes a number with its sign, a true minus.
func signed(v float64, places int) string {
	s := strconv.FormatFloat(v, 'f', places, 64)
	switch {
	case strings.Trim(s, "-0.") == "":
		return strings.TrimPrefix(s, "-")
	case s[0] == '-':
		return "−" + s[1:]
	}
	return "+" + s
}

// The days of a clock that are drawn: two weeks past the date, and four months at least.
const (
	clockAhead = 14
	clockLeast = 110
)

func clockDrawings(c office.SeasonClock, date unit.Day) clockView {
	v := clockView{ID: "clock-" + strings.ReplaceAll(strings.ToLower(c.Name), " ", "-"), Title: c.Name}
	last := min(unit.DateOf(c.From.Year(), 12, 31), max(date+clockAhead, c.From+clockLeast))
	d := chart.Clock{First: chartDay(c.From), Last: chartDay(last), Today: chartDay(date), Unit: c.Unit}
	d.Title = c.Name + " this season"
	for i, sum := range c.Season {
		d.Season = append(d.Season, chart.Sum{Day: chartDay(c.From + unit.Day(i)), Value: sum})
	}
	for i := 0; i <= int(last-c.From) && c.P10 != nil && c.Normal != nil; i++ {
		d.Past = append(d.Past, chart.Usual{Day: chartDay(c.From + unit.Day(i)), P10: c.P10[i], P50: c.Normal[i], P90: c.P90[i]})
	}
	for _, m := range c.Marks {
		if m.Day != 0 && m.Day <= last {
			d.Events = append(d.Events, chart.Event{Day: chartDay(m.Day), Value: m.At, Label: fmt.Sprintf("%s, %.0f", m.Name, m.At)})
		}
	}
	d.Desc = amountSay(c, c.Now) + " so far"
	if c.P10 != nil {
		d.Desc += fmt.Sprintf("; %d of %d past years had less by now", c.Below, c.Years)
	}
	v.Rows = d.Rows()
	v.Say = advice.Capital(c.How) + "."
	if c.Missing > 0 {
		v.Say += fmt.Sprintf(" %d %s of this season %s missing and taken as normal.", c.Missing, advice.Plural(c.Missing, "day"), isAre(c.Missing))
	}
	d.Width, d.Height = halfWide, 270
	v.Drawings = append(v.Drawings, drawn{SVG: chart.SVG(d), Class: "wide-only"})
	d.Width, d.Height = phoneWide, 240
	v.Drawings = append(v.Drawings, drawn{SVG: chart.SVG(d), Class: "narrow-only"})
	return v
}

func isAre(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}
