package web

import (
	"context"
	"fmt"
	"net/http"
	"slices"
	"strconv"

	"github.com/a-h/templ"

	"haywarden/advice"
	"haywarden/office"
	"haywarden/paper"
)

type farmRow struct{ Href, Name, Say string }

type farmView struct {
	Name, Lede, PDF string
	Months, Legend  string
	Strips          []stripView
	Stands          []farmStand
	Contacts        []factView
	Calls           []dayView
}

type farmStand struct {
	ID, Href, Name, What string
	Pieces               []pieceView
}

func (s *Server) farms(ctx context.Context, _ *http.Request, p frame) (templ.Component, error) {
	v, err := s.office.View(ctx, s.actor, p.ask)
	if err != nil {
		return nil, err
	}
	p.Title, p.Region = "Farms", v.Place.Region
	var rows []farmRow
	for _, f := range v.Farms {
		stands, acres := 0, 0.0
		for _, fd := range f.Fields {
			for _, st := range fd.Stands {
				if st.Growing(v.Date) {
					stands++
					acres += fd.Acres
				}
			}
		}
		rows = append(rows, farmRow{string(p.link("/farms/" + f.ID)), f.Name, fmt.Sprintf("%d %s, %.0f acres", stands, advice.Plural(stands, "stand"), acres)})
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
		Name: f.Farm.Name, Lede: paper.FarmLede(f.Farm, f.Stands), PDF: string(p.link("/farms/" + f.Farm.ID + "/report.pdf")),
		Months: months(f.Outlook.Date.Year()), Legend: legend(),
	}
	for _, sa := range f.Stands {
		v.Strips = append(v.Strips, p.strip(sa.Stand, sa.Pieces))
		st := farmStand{ID: "stand-" + sa.Stand.ID, Href: p.standHref(sa.Stand), Name: sa.Stand.InField.Name, What: standLede(sa.Stand)}
		for _, a := range sa.Pieces {
			pv := p.view(a, true)
			for i := range pv.Grounds {
				pv.Grounds[i].Others = "" // a farm's page shows no other farm's fields
			}
			st.Pieces = append(st.Pieces, pv)
		}
		v.Stands = append(v.Stands, st)
	}
	for _, c := range f.Farm.Contacts {
		say := c.Body.Phone
		if c.Body.Role != "" {
			say = c.Body.Role + ", " + say
		}
		v.Contacts = append(v.Contacts, factView{c.Body.Name, say})
	}
	for _, c := range slices.Backward(f.Farm.Calls) {
		say := c.Body.Said
		if c.Body.Came != "" {
			say += " — " + c.Body.Came
		}
		v.Calls = append(v.Calls, dayView{c.Day.String(), advice.Short(c.Day), say})
	}
	return v
}

// report sends one farm's report as a PDF.
func (s *Server) report(w http.ResponseWriter, r *http.Request) {
	ctx, cancel := context.WithTimeout(r.Context(), answerTime)
	defer cancel()
	p, err := s.frame(r)
	var data []byte
	var f *office.FarmAdvice
	if err == nil {
		f, err = s.office.Farm(ctx, s.actor, r.PathValue("id"), p.ask)
	}
	if err == nil {
		data, err = paper.FarmReport(f.Farm, f.Outlook, f.Stands, s.demo)
	}
	if err != nil {
		s.page(func(context.Context, *http.Request, frame) (templ.Component, error) { return nil, err })(w, r)
		return
	}
	w.Header().Set("Content-Type", "application/pdf")
	w.Header().Set("Content-Length", strconv.Itoa(len(data)))
	w.Header().Set("Content-Disposition", "inline; filename="+strconv.Quote(paper.FileName(f.Farm.Name, f.Outlook.Date)))
	if _, err := w.Write(data); err != nil {
		s.log.DebugContext(ctx, "send report", "error", err)
	}
}
