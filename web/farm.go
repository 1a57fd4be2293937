package web

import (
	"context"
	"fmt"
	"math"
	"net/http"
	"slices"
	"strconv"

	"github.com/a-h/templ"

	"haywarden/advice"
	"haywarden/chart"
	"haywarden/office"
	"haywarden/paper"
)

type farmRow struct{ Href, Name, Say string }

type farmView struct {
	Name, Lede, PDF string
	Labels          string
	Seed            string   // the list of seed to order; empty where no seeding is planned
	Herd, Budget    string   // the pages of both
	Feed            string   // the page of feed in store
	FeedSays        string   // how it stands; empty where nothing is told of it
	FeedMind        []string // cautions of what is said of it here
	Needs           string   // of fertilizer in a year, all fields together
	Fertilizer      string   // the page of it
	Call            phoneView
	Legend          string
	First           []firstView // what to do first, a line each
	Stands          []farmStand
	Contacts        []phoneView
	Calls           []dayView
}

// firstView is a stand with something to do, and its place on the page.
type firstView struct{ To, Field, Say string }

type farmStand struct {
	ID, Href, Name, What string
	Strips               []drawn
	Pieces               []pieceView
}

func (s *Server) farms(ctx context.Context, _ *http.Request, p frame) (templ.Component, error) {
	r, err := s.office.Round(ctx, s.actor, p.ask)
	if err != nil {
		return nil, err
	}
	v := r.Outlook.View
	p.Title, p.Region = "Farms", v.Place.Region
	type tally struct {
		stands, today, week int
		acres               float64
	}
	tallies := map[string]*tally{}
	for _, f := range v.Farms {
		tallies[f.ID] = &tally{}
	}
	for _, l := range r.Lines() {
		t := tallies[l.Stand.Farm.ID]
		t.stands++
		t.acres += l.Stand.InField.Acres
		switch {
		case l.Urgency <= advice.Today:
			t.today++
		case l.Urgency == advice.Week:
			t.week++
		}
	}
	var rows []farmRow
	for _, f := range v.Farms {
		t := tallies[f.ID]
		say := fmt.Sprintf("%d %s, %s acres", t.stands, advice.Plural(t.stands, "stand"), advice.Acres(math.Round(t.acres)))
		if t.today > 0 {
			say += fmt.Sprintf(" · %d to call today", t.today)
		}
		if t.week > 0 {
			say += fmt.Sprintf(" · %d this week", t.week)
		}
		rows = append(rows, farmRow{string(p.link("/farms/" + f.ID)), f.Name, say})
	}
	return farmsPage(p, rows), nil
}

func farmsLede(rows []farmRow) string {
	if len(rows) == 0 {
		return "No farm is in this book yet: bring them with `haywarden import stands FILE.csv`."
	}
	return fmt.Sprintf("%s %s in this book.", capitalCount(len(rows)), advice.Plural(len(rows), "farm"))
}

func (s *Server) farm(ctx context.Context, r *http.Request, p frame) (templ.Component, error) {
	f, err := s.office.Farm(ctx, s.actor, r.PathValue("id"), p.ask)
	if err != nil {
		return nil, err
	}
	p.Title, p.Region = f.Farm.Name, f.Outlook.View.Place.Region
	return farmPage(p, p.farmView(f)), nil
}

func (p frame) farmView(f *office.FarmAdvice) farmView {
	v := farmView{
		Name: f.Farm.Name, Lede: paper.FarmLede(f.Farm, f.Stands), PDF: string(p.link("/farms/" + f.Farm.ID + "/report.pdf")), Labels: string(p.link("/farms/" + f.Farm.ID + "/labels.pdf")),
		Call: callOf(f.Farm), Legend: legend(), Herd: string(p.link("/farms/" + f.Farm.ID + "/herd")), Budget: string(p.link("/farms/" + f.Farm.ID + "/budget")),
	}
	if slices.ContainsFunc(f.Stands, func(sa advice.StandAdvice) bool { return len(sa.Stand.Plans) > 0 }) {
		v.Seed = string(p.link("/farms/" + f.Farm.ID + "/seed-order.pdf"))
	}
	for _, sa := range paper.Ordered(f.Stands) {
		st := p.farmStand(sa)
		if a := sa.Pieces[0]; a.Urgency <= advice.Week {
			v.First = append(v.First, firstView{"#" + st.ID, st.Name, a.Title})
		}
		v.Stands = append(v.Stands, st)
	}
	p.fertilizerOf(&v, f)
	v.Feed = string(p.link("/farms/" + f.Farm.ID + "/feed"))
	if f.Feed != nil && f.Feed.None == "" && len(f.Feed.Lots) > 0 {
		v.FeedSays = paper.FeedSummary(f.Feed)
		var said []*advice.Piece
		for _, a := range advice.OfFeed(f.Feed) {
			if a.Urgency <= advice.Week {
				v.First, said = append(v.First, firstView{v.Feed, "Feed in store", a.Title}), append(said, a)
			}
		}
		v.FeedMind = advice.CautionsOf(said...)
	}
	for _, c := range f.Farm.Contacts {
		who := phoneView{Name: c.Body.Name, Phone: c.Body.Phone, Tel: tel(c.Body.Phone)}
		if c.Body.Role != "" {
			who.Name += ", " + c.Body.Role
		}
		v.Contacts = append(v.Contacts, who)
	}
	for _, c := range slices.Backward(f.Farm.Calls) {
		say := c.Body.Said
		if c.Body.Came != "" {
			say += " Came of it: " + c.Body.Came
		}
		v.Calls = append(v.Calls, dayView{c.Day.String(), brief(c.Day, f.Outlook.Date), say})
	}
	return v
}

// farmStand shows a stand on its farm's page, which names no other farm's fields.
func (p frame) farmStand(sa advice.StandAdvice) farmStand {
	s := sa.Stand
	v := farmStand{ID: "stand-" + s.ID, Href: p.standHref(s), Name: s.InField.Name, What: standLede(s)}
	strip := paper.Strip(s, sa.Pieces)
	strip.Labels, strip.Height = true, 140
	for _, size := range []struct {
		class string
		width float64
	}{{"full-only", rightWide}, {"mid-only", midWide}, {"narrow-only", phoneWide}} {
		strip.Width = size.width
		v.Strips = append(v.Strips, drawn{SVG: chart.SVG(strip), Class: size.class})
	}
	for _, a := range sa.Pieces {
		pv := p.view(a, true)
		for i := range pv.Grounds {
			pv.Grounds[i].Others = ""
		}
		v.Pieces = append(v.Pieces, pv)
	}
	return v
}

// report sends one farm's report as a PDF.
func (s *Server) report(w http.ResponseWriter, r *http.Request) {
	s.printed(w, r, "", func(f *office.FarmAdvice) ([]byte, error) {
		return paper.FarmReport(f.Farm, f.Outlook, f.Stands, s.demo)
	})
}

// labels sends the sheet of labels for a farm's samples.
func (s *Server) labels(w http.ResponseWriter, r *http.Request) {
	s.printed(w, r, "labels-", func(f *office.FarmAdvice) ([]byte, error) { return paper.SampleLabels(f.Farm, f.Outlook.Date, s.demo) })
}

// seedOrder sends the farm's list of seed to order.
func (s *Server) seedOrder(w http.ResponseWriter, r *http.Request) {
	s.printed(w, r, "seed-order-", func(f *office.FarmAdvice) ([]byte, error) {
		return paper.SeedOrder(f.Farm, f.Outlook, f.Stands, s.demo)
	})
}

// printed sends a farm's document.
func (s *Server) printed(w http.ResponseWriter, r *http.Request, prefix string, write func(*office.FarmAdvice) ([]byte, error)) {
	ctx, cancel := context.WithTimeout(r.Context(), answerTime)
	defer cancel()
	p, err := s.frame(r)
	var data []byte
	var f *office.FarmAdvice
	if err == nil {
		f, err = s.office.Farm(ctx, s.actor, r.PathValue("id"), p.ask)
	}
	if err == nil {
		data, err = write(f)
	}
	if err != nil {
		s.page(func(context.Context, *http.Request, frame) (templ.Component, error) { return nil, err })(w, r)
		return
	}
	w.Header().Set("Content-Type", "application/pdf")
	w.Header().Set("Content-Length", strconv.Itoa(len(data)))
	w.Header().Set("Content-Disposition", "inline; filename="+strconv.Quote(prefix+paper.FileName(f.Farm.Name, f.Outlook.Date)))
	if _, err := w.Write(data); err != nil {
		s.log.DebugContext(ctx, "send document", "error", err)
	}
}
