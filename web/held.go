package web

import (
	"context"
	"fmt"
	"math"
	"net/http"
	"strings"

	"github.com/a-h/templ"

	"haywarden/advice"
	"haywarden/chart"
	"haywarden/office"
	"haywarden/outlook"
)

// heldView is what was said beforehand against what came.
type heldView struct {
	Lede      string
	StandSay  string
	Stands    []drawn
	StandRows [][]string
	LeftOut   tableView
	Labs      tableView
	LabSay    string
	Stations  []heldStation
	How       string
}

type heldStation struct {
	ID, Name, Href string
	Heat           tableView
	Forecasts      tableView
}

func (s *Server) held(ctx context.Context, _ *http.Request, p frame) (templ.Component, error) {
	h, err := s.office.Held(ctx, s.actor, p.ask)
	if err != nil {
		return nil, err
	}
	view, err := s.office.View(ctx, s.actor, p.ask)
	if err != nil {
		return nil, err
	}
	p.Title, p.Region = "How well it held", view.Place.Region
	v := heldView{
		Lede: "A window runs from the day by which 1 chance in 10 has come to that of 9 in 10: it should hold 8 times in 10.",
		How: "Each past year was given the window that the program would have given on that day from the years before it, without a forecast. How far off: the mean distance of all chances from what came, less their own spread (CRPS); " +
			"past years alone is the same for the days of the years before, whatever this season did. Intervals of shares by Wilson. The score of rain is the mean square of the chance's error (Brier).",
	}
	v.stands(h)
	v.LeftOut.Head = []headView{{"Morning of", ""}, {"Stands", "left out in turn"}, {"off by", "NDF"}, {"claimed", "NDF"}, {"within", "8 in 10"}}
	for _, l := range h.LeftOut {
		v.LeftOut.Rows = append(v.LeftOut.Rows, []string{advice.Short(l.Day), fmt.Sprint(l.Stands), fmt.Sprintf("%.1f", l.RMSE), fmt.Sprintf("%.1f", l.Claimed), fmt.Sprintf("%d of %d", l.Inside, l.Stands)})
	}
	v.Labs.Head = []headView{{"Farm and cutting", ""}, {"Samples", ""}, {"laboratory less stick", "NDF"}, {"readings corrected by", "NDF"}, {"known to", "NDF"}, {"set aside", "samples"}}
	for _, l := range h.Labs {
		v.Labs.Rows = append(v.Labs.Rows, []string{fmt.Sprintf("%s, %s cut", l.Farm, advice.Ordinal(l.Cutting)), fmt.Sprint(l.Samples), fmt.Sprintf("%+.1f", l.Mean), fmt.Sprintf("%+.1f", l.Bias), fmt.Sprintf("± %.1f", l.SD), fmt.Sprint(l.SetAside)})
	}
	v.LabSay = "A reading is kept as it was made; what later readings are corrected by is the mean difference drawn towards zero while samples are few. A sample too far off is set aside to be looked at: species, height, ash, and the basis of the report. Stick and heat: " + h.Shared + "."
	for _, st := range h.Stations {
		v.Stations = append(v.Stations, p.heldStation(st))
	}
	return heldPage(p, v), nil
}

func (v *heldView) stands(h *office.Held) {
	st := h.Stands
	if st.Looked == 0 {
		v.StandSay = "No stand was read twice in one growth yet this year."
		return
	}
	v.StandSay = fmt.Sprintf("%d of %d fell between the 10 and 90 %% that had been expected of them (%s, 95 %% interval)%s; on average they were %s.",
		st.Inside, st.Looked, between(st.Low, st.High), promiseSay(st.Low, st.High), biasSay(st.Bias))
	c := chart.Outcomes{Unit: "RFV"}
	c.Title, c.Desc = "Standing feed value found, against what had been expected", v.StandSay
	for _, f := range h.Found {
		c.All = append(c.All, chart.Outcome{
			Label: f.Stand.Named() + ", " + f.How, Day: chartDay(f.On),
			Low: math.Round(f.Expected.Low), Middle: math.Round(f.Expected.Middle), High: math.Round(f.Expected.High), Found: math.Round(f.RFV),
		})
	}
	for _, size := range []struct {
		class string
		width float64
	}{{"full-only", fullWide}, {"mid-only", midWide}, {"narrow-only", phoneWide}} {
		c.Width = size.width
		v.Stands = append(v.Stands, drawn{SVG: chart.SVG(c), Class: size.class})
	}
	v.StandRows = c.Rows()
}

// between writes the interval of a share.
func between(low, high float64) string { return fmt.Sprintf("%.0f to %.0f %%", 100*low, 100*high) }

// promiseSay says where an interval of shares does not hold what was promised.
func promiseSay(low, high float64) string {
	switch {
	case low > outlook.Promised:
		return ", more than the 8 in 10 promised: the spans are wider than they need be"
	case high < outlook.Promised:
		return ", less than the 8 in 10 promised: the spans are too narrow"
	}
	return ""
}

// capital begins a word with a capital letter.
func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// biasSay says by how much what was found lay over or under what was expected.
func biasSay(bias float64) string {
	points := math.Round(math.Abs(bias))
	switch {
	case points == 0:
		return "just what was expected"
	case bias < 0:
		return fmt.Sprintf("%.0f RFV under what was expected", points)
	}
	return fmt.Sprintf("%.0f RFV over what was expected", points)
}

func (p frame) heldStation(st office.StationHeld) heldStation {
	v := heldStation{ID: "station-" + st.ID, Name: st.Name, Href: p.stationHref(st.ID)}
	v.Heat.Head = []headView{{"Window of", ""}, {"given on", ""}, {"held", "of windows"}, {"that is", "95 % interval"}, {"wide", "days"}, {"off by", "days"}, {"past years alone", "days"}}
	for _, e := range st.Heat {
		sum, what, _ := strings.Cut(e.Event, ": ")
		sum, _, _ = strings.Cut(sum, " since")
		event := capital(what) + ", " + sum
		v.Heat.Rows = append(v.Heat.Rows, []string{
			event, advice.Short(e.Given), fmt.Sprintf("%d of %d", e.Inside, e.Held.Given), between(e.Low, e.High),
			fmt.Sprintf("%.0f", e.Width), fmt.Sprintf("%.1f", e.CRPS), fmt.Sprintf("%.1f", e.PlainCRPS),
		})
	}
	v.Forecasts.Head = []headView{{"Days ahead", ""}, {"compared", "days"}, {"high off by", "°F"}, {"low off by", "°F"}, {"high too warm by", "°F"}, {"low too warm by", "°F"}, {"rain score", "0 is perfect"}, {"usual share's", ""}}
	for _, l := range st.Forecasts {
		if l.Days == 0 {
			continue
		}
		rain, usual := "–", "–"
		if l.RainDays > 0 {
			rain, usual = fmt.Sprintf("%.2f", l.Brier), fmt.Sprintf("%.2f", l.UsualBrier)
		}
		v.Forecasts.Rows = append(v.Forecasts.Rows, []string{
			fmt.Sprint(l.Lead), fmt.Sprint(l.Days), fmt.Sprintf("%.1f", l.HighErr), fmt.Sprintf("%.1f", l.LowErr),
			fmt.Sprintf("%+.1f", l.HighBias), fmt.Sprintf("%+.1f", l.LowBias), rain, usual,
		})
	}
	return v
}
