package web

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"net/http"
	"slices"
	"strings"

	"github.com/a-h/templ"

	"haywarden/book"
	"haywarden/office"
)

type budgetView struct {
	Farm, Home, Lede, None string
	For                    formView
	Parts                  []partView
}

func (s *Server) budget(ctx context.Context, r *http.Request, p frame) (templ.Component, error) {
	q := &sent{r.URL.Query(), map[string]string{}}
	of := office.BudgetFor{Field: q.text("field"), Yield: q.number("yield"), RFV: q.number("rfv"), Cuts: int(q.number("cuts")), Years: int(q.number("years"))}
	asked := of
	b, err := s.office.Budget(ctx, s.actor, r.PathValue("id"), of, p.ask)
	if bad, ok := errors.AsType[*office.BadEntry](err); ok {
		q.accept(errors.New(bad.Text), map[string]string{"yield": "yield", "rfv": "RFV", "cuts": "cuts", "years": "years"})
		b, err = s.office.Budget(ctx, s.actor, r.PathValue("id"), office.BudgetFor{Field: of.Field}, p.ask)
	}
	if err != nil {
		return nil, err
	}
	p.Title, p.Region = b.FarmView.Name+", budget", b.Region
	f := b.Sheet.Field
	v := budgetView{Farm: b.FarmView.Name, Home: string(p.link("/farms/" + b.FarmView.ID))}
	v.Lede = fmt.Sprintf("%s: %.0f acres, %.1f tons of dry matter an acre a year, fed or sold at RFV %.0f, %d cuts, kept %d years after seeding.", capital(f.Name), f.Acres, f.Yield, f.RFV, f.Cuts, f.Years)
	if len(b.Parts) == 0 {
		v.Lede, v.None = "", "No legume stand grows on this farm on this day. Give a yield and an RFV for a budget all the same."
	}
	fields := [][2]string{{"", "all legume stands"}}
	for _, name := range b.Fields {
		fields = append(fields, [2]string{name, name})
	}
	v.For = formView{
		ID: "for", Action: r.URL.Path, Button: "Reckon", Get: true, Hidden: p.dateHidden(),
		Fields: []fieldView{
			{Name: "field", Label: "Field", Kind: "select", Value: of.Field, Choices: fields},
			{Name: "yield", Label: "Yield", Value: plainNumber(asked.Yield), Unit: "tons DM/ac", Hint: "empty: as the book judges", Error: q.wrong["yield"]},
			{Name: "rfv", Label: "RFV", Value: plainNumber(asked.RFV), Unit: "points", Hint: "empty: as wanted of the stand", Error: q.wrong["rfv"]},
			{Name: "cuts", Label: "Cuts", Value: plainNumber(float64(f.Cuts)), Unit: "a year", Error: q.wrong["cuts"]},
			{Name: "years", Label: "Kept", Value: plainNumber(float64(f.Years)), Unit: "years", Error: q.wrong["years"]},
		},
	}
	if len(q.wrong) > 0 {
		for i, f := range v.For.Fields {
			v.For.Fields[i].Value = q.value.Get(f.Name)
		}
		v.For.Wrong = "The budget below is as the book judges."
	}
	for _, part := range b.Parts {
		v.Parts = append(v.Parts, partOf(part))
	}
	return budgetPage(p, v), nil
}

type weighView struct {
	Field, Home, Lede string
	Done              doneView
	Rain, Caution     formView
	Part, Waiting     partView
}

func (s *Server) weigh(ctx context.Context, r *http.Request, p frame) (templ.Component, error) {
	return s.weighAgain(ctx, r, p, nil)
}

func (s *Server) weighAgain(ctx context.Context, r *http.Request, p frame, t *typed) (templ.Component, error) {
	q := &sent{r.URL.Query(), map[string]string{}}
	var rain []float64
	for _, part := range strings.FieldsFunc(q.text("rain"), func(r rune) bool { return r == ',' || r == ' ' || r == ';' }) {
		one := &sent{map[string][]string{"rain": {strings.TrimSuffix(part, "%")}}, q.wrong}
		rain = append(rain, one.number("rain")/100)
	}
	how := q.text("how")
	w, err := s.office.Weigh(ctx, s.actor, r.PathValue("id"), rain, how, p.ask)
	if bad, ok := errors.AsType[*office.BadEntry](err); ok {
		if q.wrong["rain"] = bad.Text; len(rain) > 0 {
			q.wrong["rain"] = "chances of rain: accepted 0 to 100 %, one for each day"
		}
	}
	if len(q.wrong) > 0 {
		w, err = s.office.Weigh(ctx, s.actor, r.PathValue("id"), nil, "", p.ask)
	}
	if err != nil {
		return nil, err
	}
	p.Title = w.Named + ", cut or wait"
	v := weighView{Field: w.Named, Home: p.standHref(w.Stand), Lede: fmt.Sprintf("Weighed %s (%s).", w.How, w.Why), Done: p.done(r), Part: partOf(w.Part), Waiting: partOf(w.Waiting)}
	v.Rain = formView{ID: "rain", Action: r.URL.Path, Button: "Weigh", Get: true, Hidden: p.dateHidden(), Fields: []fieldView{
		{Name: "rain", Label: "Chances of rain from today on", Kind: "text", Wide: true, Value: q.text("rain"), Unit: "%", Hint: "such as 60, 50, 10; empty: as the station's record says", Error: q.wrong["rain"]},
		{Name: "how", Label: "For once as", Kind: "select", Value: how, Choices: append([][2]string{{"", "kept below"}}, words(book.Cautions())...)},
	}}
	if len(q.wrong) > 0 {
		v.Rain.Wrong = "The days below are weighed by the station's record."
	}
	v.Caution = t.fill(formView{ID: "caution", Action: string(p.link(r.URL.Path)), Button: "Keep it", Fields: []fieldView{
		{Name: "how", Label: "How careful", Kind: "select", Value: w.How, Choices: words(book.Cautions())},
		{Name: "for", Label: "For", Kind: "select", Value: w.Stand.Farm.ID, Choices: [][2]string{{w.Stand.Farm.ID, w.Stand.Farm.Name}, {"", "the whole book"}}},
	}})
	return weighPage(p, v), nil
}

func (s *Server) setCaution(ctx context.Context, r *http.Request, p frame, f *sent) (office.Saved, string, error) {
	saved, err := s.office.SetCaution(ctx, s.actor, p.ask, f.text("for"), f.text("how"))
	if err != nil && !paged(err) {
		f.wrong["how"] = err.Error()
		err = nil
	}
	return saved, r.URL.Path, err
}

func (s *Server) undoAgain(_ context.Context, _ *http.Request, p frame, t *typed) (templ.Component, error) {
	p.Title = "Not taken back"
	return wrong(p, p.Title, "It could not be taken back: "+strings.Join(slices.Sorted(maps.Values(t.wrong)), "; ")+"."), nil
}
