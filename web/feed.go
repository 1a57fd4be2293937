package web

import (
	"context"
	"fmt"
	"math"
	"net/http"

	"github.com/a-h/templ"

	"haywarden/advice"
	"haywarden/book"
	"haywarden/chart"
	"haywarden/office"
	"haywarden/outlook"
	"haywarden/paper"
)

type feedView struct {
	Farm, Home, Lede, PDF, Bring string
	Done                         doneView
	Pieces                       []pieceView
	Stores, Lasting              []drawn
	StoreRows, LastRows          [][]string
	Lots                         []feedLotRow
	Plan                         [][]string
	PlanSays                     []string
	NoPlan                       string
	Lacks, Prices, Cautions      []string
	Sources                      []string
	Fed, Left                    formView
}

// feedLotRow is a lot as the page tells it.
type feedLotRow struct{ Name, What, Tons, Range, Quality, From, Fed, Until, Face, Wrong string }

func (s *Server) feed(ctx context.Context, r *http.Request, p frame) (templ.Component, error) {
	return s.feedAgain(ctx, r, p, nil)
}

func (s *Server) feedAgain(ctx context.Context, r *http.Request, p frame, t *typed) (templ.Component, error) {
	a, err := s.office.Feed(ctx, s.actor, r.PathValue("id"), p.ask)
	if err != nil {
		return nil, err
	}
	f := a.Feed
	p.Title, p.Region = f.Name+", feed in store", a.Region
	home := "/farms/" + f.ID
	v := feedView{
		Farm: f.Name, Home: string(p.link(home)), Lede: paper.FeedSummary(f), PDF: string(p.link(home + "/feed.pdf")), Bring: string(p.linkWith("/bring", "kind", "feed")),
		Done: p.done(r), Plan: paper.SharedRows(f), NoPlan: f.NoPlan, Lacks: f.Lacks, Prices: f.Prices, Cautions: f.Cautions(), Sources: cites(f.Sources),
	}
	if f.None != "" || len(f.Lots) == 0 {
		v.NoPlan = ""
	}
	if f.Plan != nil {
		for _, w := range f.Plan.Words() {
			v.PlanSays = append(v.PlanSays, capital(w)+".")
		}
	}
	for _, q := range advice.OfFeed(f) {
		v.Pieces = append(v.Pieces, p.view(q, true))
	}
	if len(f.Lots) > 0 {
		c := paper.Stores(f)
		v.StoreRows = c.Rows()
		for _, size := range []struct {
			class string
			width float64
		}{{"full-only", fullWide}, {"mid-only", midWide}, {"narrow-only", phoneWide}} {
			c.Width = size.width
			v.Stores = append(v.Stores, drawn{SVG: chart.SVG(c), Class: size.class})
		}
	}
	if c, ok := paper.Lasting(f); ok {
		v.LastRows = c.Rows()
		for _, size := range []struct {
			class string
			width float64
		}{{"full-only", rightWide}, {"mid-only", midWide}, {"narrow-only", phoneWide}} {
			c.Width = size.width
			v.Lasting = append(v.Lasting, drawn{SVG: chart.SVG(c), Class: size.class, Caption: c.Desc})
		}
	}
	for _, l := range f.Lots {
		v.Lots = append(v.Lots, lotRow(l))
	}
	v.forms(p, r.URL.Path, f, t)
	return feedPage(p, v), nil
}

func lotRow(l *outlook.FeedLot) feedLotRow {
	x := feedLotRow{
		Name: l.Name, What: fmt.Sprintf("%s, %s, filled %s; %s", l.Forage, spaced(l.Store), withYear(l.Filled), l.How), Tons: fmt.Sprintf("%.0f", l.Tons.Mid),
		Range: fmt.Sprintf("%.0f to %.0f of %.0f", l.Tons.Low, l.Tons.High, l.Put.Mid), Quality: "no test", From: l.From, Fed: "closed", Wrong: l.Unmatched,
	}
	if !math.IsNaN(l.RFQ) {
		x.Quality = fmt.Sprintf("RFQ %.0f", l.RFQ)
	}
	if l.LbDay > 0 {
		x.Fed = fmt.Sprintf("%.0f lb a day", l.LbDay)
		if l.Group != "" {
			x.Fed += " to " + l.Group
		}
		x.Until = fmt.Sprintf("%.1f weeks, to %s", l.Weeks, withYear(l.RunsOut))
	}
	if l.Inches > 0 {
		x.Face = fmt.Sprintf("face %.1f in a day: %s", l.Inches, l.FaceSays)
	}
	return x
}

// forms ask what is fed and what is left.
func (v *feedView) forms(p frame, path string, f *outlook.Farm, t *typed) {
	if len(f.Lots) == 0 {
		return
	}
	var lots [][2]string
	for _, l := range f.Lots {
		lots = append(lots, [2]string{l.ID, l.Name})
	}
	groups := [][2]string{{"", "not said"}}
	if h, ok := f.Herd(); ok {
		for _, g := range h.Body.Groups {
			groups = append(groups, [2]string{g.Name, g.Name})
		}
	}
	v.Fed = t.fill(formView{ID: "fed", Action: path, Title: "What is fed", Button: "Save", Hidden: p.dateHidden(), Fields: []fieldView{
		{Name: "lot", Label: "Lot", Kind: "select", Choices: lots},
		{Name: "fed", Label: "Fed from today on", Unit: "lb DM/day", Hint: "0 closes it"},
		{Name: "group", Label: "To", Kind: "select", Choices: groups},
	}})
	v.Left = t.fill(formView{ID: "left", Action: path, Title: "What is left", Button: "Save", Hidden: p.dateHidden(), Fields: []fieldView{
		{Name: "lot", Label: "Lot", Kind: "select", Choices: lots},
		{Name: "tons", Label: "Tons", Unit: "tons DM", Hint: "one of the three"},
		{Name: "bales", Label: "Bales", Unit: "bales"},
		{Name: "removed", Label: "Fed off so far", Unit: "ft", Hint: "off a tower's top, or off the length"},
	}})
}

// calledFeed are the words by which the book calls what the page's forms ask.
var calledFeed = map[string]string{"fed": "fed", "tons": "tons left", "bales": "bales left", "removed": "removed"}

// changeFeed records what one of the page's forms says.
func (s *Server) changeFeed(ctx context.Context, r *http.Request, p frame, f *sent) (office.Saved, string, error) {
	farm := r.PathValue("id")
	back := "/farms/" + farm + "/feed"
	switch f.text("form") {
	case "fed":
		b := book.LotFed{LbDay: f.needed("fed"), Group: f.text("group")}
		f.accept(b.Check(), calledFeed)
		if len(f.wrong) > 0 {
			return office.Saved{}, back, nil
		}
		saved, err := s.office.SetLotFed(ctx, s.actor, p.ask, farm, f.text("lot"), b)
		return saved, back, err
	case "left":
		b := book.LotLeft{TonsDM: f.optional("tons"), Removed: f.optional("removed")}
		if f.text("bales") != "" {
			b.Bales = new(f.whole("bales"))
		}
		if len(f.wrong) == 0 {
			f.accept(b.Check(), calledFeed)
		}
		if len(f.wrong) > 0 {
			return office.Saved{}, back, nil
		}
		saved, err := s.office.SetLotLeft(ctx, s.actor, p.ask, farm, f.text("lot"), b)
		return saved, back, err
	}
	return office.Saved{}, back, office.ErrNotFound
}

// feedReport sends the farm's inventory and allocation.
func (s *Server) feedReport(w http.ResponseWriter, r *http.Request) {
	s.printed(w, r, "feed-", func(f *office.FarmAdvice) ([]byte, error) { return paper.FeedReport(f.Feed, s.demo) })
}
