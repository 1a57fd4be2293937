package web

import (
	"context"
	"fmt"
	"net/http"
	"slices"
	"strings"

	"github.com/a-h/templ"

	"haywarden/advice"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/chart"
	"haywarden/office"
	"haywarden/outlook"
	"haywarden/paper"
)

type standView struct {
	Farm, FarmHref, Field, Lede string
	Strip, StripNarrow          drawn
	StripRows                   [][]string
	Pieces                      []pieceView
	StandingSay                 string
	Fan, FanNarrow              drawn
	FanRows                     [][]string
	Readings                    []readingView
	Stems, StemsNarrow          drawn
	StemsSay                    string
	Clock, ClockNarrow          drawn
	ClockSay                    string
	Next, History               []dayView
	Facts                       []factView
}

type readingView struct {
	Day, Spots, Height, Stage, NDF, RFV, SD, Doubt string
	Used                                           bool
}

// phoneWide is the width of drawings on a phone, px.
const phoneWide = 350

func (s *Server) stand(ctx context.Context, r *http.Request, p frame) (templ.Component, error) {
	a, err := s.office.Stand(ctx, s.actor, r.PathValue("id"), p.ask)
	if err != nil {
		return nil, err
	}
	p.Title, p.Region = a.Stand.Named(), a.Outlook.View.Place.Region
	return standPage(p, p.standView(a)), nil
}

func (p frame) standView(a *office.StandAdvice) standView {
	s := a.Stand
	v := standView{
		Farm: s.Farm.Name, FarmHref: string(p.link("/farms/" + s.Farm.ID)), Field: s.InField.Name,
		Lede: standLede(s), Facts: known(s), History: history(s),
	}
	strip := paper.Strip(s, a.Pieces)
	strip.Labels, strip.Width, strip.Height = true, 1100, 150
	v.Strip, v.StripRows = drawn{SVG: chart.SVG(strip), Class: "wide-only"}, strip.Rows()
	strip.Width, strip.Height = phoneWide, 140
	v.StripNarrow = drawn{SVG: chart.SVG(strip), Class: "narrow-only"}
	for _, piece := range a.Pieces {
		v.Pieces = append(v.Pieces, p.view(piece, true))
		if w := piece.Window; w != nil && w.Best >= s.Date {
			v.Next = append(v.Next, dayView{w.Best.String(), advice.Short(w.Best), piece.Title})
		}
	}
	slices.SortStableFunc(v.Next, func(a, b dayView) int { return strings.Compare(a.ISO, b.ISO) })
	v.StandingSay = standingSay(s)
	if f, ok := paper.Fan(s); ok {
		v.FanRows = f.Rows()
		v.Fan = drawn{SVG: chart.SVG(f), Class: "wide-only"}
		f.Width, f.Height = phoneWide, 260
		v.FanNarrow = drawn{SVG: chart.SVG(f), Class: "narrow-only"}
	}
	v.Readings = readings(s)
	if iv, ok := paper.Stems(s); ok {
		v.Stems, v.StemsSay = drawn{SVG: chart.SVG(iv), Class: "wide-only"}, stemsSay(s)
		iv.Width = phoneWide
		v.StemsNarrow = drawn{SVG: chart.SVG(iv), Class: "narrow-only"}
	}
	if c, ok := paper.Clock(s); ok {
		c.Width, c.Height = 460, 250
		v.Clock = drawn{SVG: chart.SVG(c), Class: "wide-only"}
		c.Width, c.Height = phoneWide, 230
		v.ClockNarrow = drawn{SVG: chart.SVG(c), Class: "narrow-only"}
		v.ClockSay = fmt.Sprintf("Station %s, weather through %s.", s.Sky.Station.Name, advice.Short(s.Sky.Through))
	}
	return v
}

func standLede(s *outlook.Stand) string {
	parts := []string{acres(s) + " acres", advice.Describe(s), "seeded " + advice.Short(s.Seeded) + fmt.Sprintf(" %d", s.Seeded.Year())}
	if s.Sentinel {
		parts = append(parts, "sentinel field")
	}
	return strings.Join(parts, " · ")
}

func standingSay(s *outlook.Stand) string {
	if s.Standing == nil {
		why := s.NotStanding
		if why == "" {
			why = s.NoSky
		}
		if why == "" {
			return "Not said."
		}
		return "Not said: " + why + "."
	}
	st := s.Standing
	say := fmt.Sprintf("RFV %s this morning, give or take %.0f.", advice.Points(st.RFV), st.SD)
	if a := s.Ahead(); a != nil {
		if low, mid, high, ok := a.Loss(0, 7); ok {
			say += fmt.Sprintf(" It loses %.1f points a day (%.1f to %.1f) over the next week.", mid/7, low/7, high/7)
		}
	}
	if st.Borrowed {
		say += " No reading here."
	}
	return say
}

func readings(s *outlook.Stand) []readingView {
	var out []readingView
	last, has := s.LastReading()
	for _, r := range slices.Backward(s.Readings) {
		out = append(out, readingView{
			Day: advice.Short(r.Day), Spots: fmt.Sprint(r.Field.N), Height: fmt.Sprintf("%.1f", r.Highest), Stage: stages(r.Spots),
			NDF: fmt.Sprintf("%.1f", r.Field.NDF), RFV: advice.Points(r.Field.RFV), SD: fmt.Sprintf("%.0f", r.Field.SD), Doubt: r.Doubt,
			Used: has && r.Day == last.Day && s.Standing != nil,
		})
	}
	return out
}

// stages names the stages seen, most frequent first.
func stages(spots []book.Spot) string {
	count := map[book.Stage]int{}
	for _, sp := range spots {
		count[sp.Stage]++
	}
	var parts []string
	for _, st := range []book.Stage{book.Flower, book.Bud, book.Vegetative} {
		if count[st] == len(spots) {
			return string(st)
		}
		if count[st] > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", count[st], st))
		}
	}
	return strings.Join(parts, ", ")
}

func stemsSay(s *outlook.Stand) string {
	c := s.Stems.Count
	say := fmt.Sprintf("%d frames on %s: %.0f (%.0f to %.0f). Chances: %s under 40, %s under 55.", s.Stems.Frames, advice.Short(s.Stems.Day), c.Interval.Mean, c.Interval.Low, c.Interval.High, advice.Odds(c.ChanceBelow40), advice.Odds(c.ChanceBelow55))
	if r := s.Stems.Roots; r != nil {
		say += fmt.Sprintf(" Roots: %d of %d bad.", r.Bad, r.Dug)
	}
	return say
}

func known(s *outlook.Stand) []factView {
	t := s.Target
	feed := advice.Points(t.FeedRFV) + " RFV, as " + string(t.Product)
	if t.Assumed {
		feed += " (assumed)"
	}
	out := []factView{{"Wanted when fed", feed}}
	if s.Variety != "" {
		out = append(out, factView{"Variety", s.Variety})
	}
	if s.Sky != nil {
		out = append(out, factView{"Weather", fmt.Sprintf("station %s, %d past years", s.Sky.Station.Name, len(s.Sky.Members))})
	} else {
		out = append(out, factView{"Weather", s.NoSky})
	}
	if price, ok := s.HayPrice(); ok {
		out = append(out, factView{"Prices", fmt.Sprintf("%s, %s", price.Deck, price.Day)})
	} else {
		out = append(out, factView{"Prices", "none entered: worth is said in tons and points"})
	}
	return append(out, factView{"Yield expected", fmt.Sprintf("%.1f tons of dry matter an acre a year", s.Yield.Year)})
}

const shownHistory = 14

// history lists what was seen and done, newest first.
func history(s *outlook.Stand) []dayView {
	type entry struct {
		day unit.Day
		say string
	}
	var all []entry
	for _, v := range s.Visits {
		all = append(all, entry{v.Day, visitSay(v.Body)})
	}
	for _, c := range s.Cuts {
		say := fmt.Sprintf("cut %d", c.Body.Number)
		if c.Body.Product != "" {
			say += ", " + string(c.Body.Product)
		}
		if c.Body.TonsDM != nil {
			say += fmt.Sprintf(", %.1f tons DM/ac", *c.Body.TonsDM)
		}
		all = append(all, entry{c.Day, say})
	}
	for _, l := range s.Labs {
		all = append(all, entry{l.Day, fmt.Sprintf("lab, %s: NDF %.1f, ADF %.1f %% DM", l.Body.Sample, l.Body.NDF, l.Body.ADF)})
	}
	slices.SortStableFunc(all, func(a, b entry) int { return int(b.day - a.day) })
	var out []dayView
	for _, e := range all[:min(len(all), shownHistory)] {
		label := advice.Short(e.day)
		if e.day.Year() != s.Date.Year() {
			label += fmt.Sprintf(" %d", e.day.Year())
		}
		out = append(out, dayView{e.day.String(), label, e.say})
	}
	return out
}

func visitSay(v book.Visit) string {
	var parts []string
	if n := len(v.Spots); n > 0 {
		parts = append(parts, fmt.Sprintf("stick, %d %s", n, advice.Plural(n, "spot")))
	}
	if n := len(v.Frames); n > 0 {
		parts = append(parts, fmt.Sprintf("%d %s counted", n, advice.Plural(n, "frame")))
	}
	if v.Roots != nil {
		parts = append(parts, fmt.Sprintf("%d roots dug, %d bad", v.Roots.Dug, v.Roots.Bad))
	}
	if v.Bloom != nil {
		parts = append(parts, fmt.Sprintf("%.0f %% in bloom", *v.Bloom))
	}
	if v.GrowthIn != nil {
		parts = append(parts, fmt.Sprintf("%.0f in tall", *v.GrowthIn))
	}
	if v.Tips != "" {
		parts = append(parts, "growing tips "+string(v.Tips))
	}
	if v.WeevilTips != nil {
		parts = append(parts, fmt.Sprintf("weevil on %.0f %% of tips", *v.WeevilTips))
	}
	if v.Note != "" {
		parts = append(parts, v.Note)
	}
	if len(parts) == 0 {
		return "visit"
	}
	return strings.Join(parts, "; ")
}
