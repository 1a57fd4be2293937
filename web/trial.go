package web

import (
	"context"
	_ "embed"
	"errors"
	"fmt"
	"io"
	"net/http"
	"strings"

	"github.com/a-h/templ"

	"haywarden/exchange"
	"haywarden/office"
)

// exampleTrial is an invented table to try the page with.
//
//go:embed exampletrial.csv
var exampleTrial string

// mostTrial is the largest table taken from a page, bytes (choice).
const mostTrial = 8 << 20

// trialView is the page of variety trials: what was asked, what is wrong, and the answer.
type trialView struct {
	Lede, Wrong string
	Action      string
	Example     string
	Table       string // as pasted
	Fields      []fieldView
	Answers     []trialAnswer
}

type trialAnswer struct {
	ID, Title, Says string
	Tables          []trialTable
	Notes, Sources  []string
}

type trialTable struct {
	ID, Title string
	Head      []string
	Right     []bool
	Rows      [][]string
}

func (s *Server) trials(_ context.Context, r *http.Request, p frame) (templ.Component, error) {
	p.Title, p.Date = "Variety trials", ""
	v := trialForm(p, &sent{r.URL.Query(), map[string]string{}})
	if r.URL.Query().Has("example") {
		v = trialForm(p, &sent{map[string][]string{"table": {exampleTrial}, "weights": {"yield=1, rfq=0.5, winter=0.3:lower"}, "limits": {"winter<=3, dri>=25"}, "trait": {"yield"}, "check": {"Aster"}}, map[string]string{}})
	}
	return trialPage(p, v), nil
}

// trialForm is the form with what was typed.
func trialForm(p frame, q *sent) trialView {
	or := func(name, other string) string {
		if q.value.Has(name) {
			return q.text(name)
		}
		return other
	}
	v := trialView{
		Lede:   "Paste or bring a table of trials: plots, or means of an entry in a place and year, under any column names. It is worked out here and not kept.",
		Action: string(p.link("/trials")), Example: "/trials?example", Table: q.value.Get("table"),
	}
	v.Fields = []fieldView{
		{Name: "trait", Label: "Trait", Kind: "text", Value: or("trait", ""), Hint: "a column of numbers; empty: the first"},
		{Name: "check", Label: "Entry to beat", Kind: "text", Value: or("check", "")},
		{Name: "level", Label: "Level of the least difference", Value: or("level", "0.1")},
		{Name: "weights", Label: "Weights for a shortlist", Kind: "text", Wide: true, Value: or("weights", ""), Hint: "such as yield=1, rfq=0.5, winter=0.3:lower; empty: no shortlist"},
		{Name: "limits", Label: "Limits of the site", Kind: "text", Wide: true, Value: or("limits", ""), Hint: "such as winter<=3, dri>=27"},
		{Name: "price", Label: "Column of seed prices", Kind: "text", Value: or("price", ""), Unit: "$/lb"},
		{Name: "hay", Label: "A further ton is worth", Value: or("hay", ""), Unit: "$/ton", Hint: "less its harvest; empty: no dollars"},
		{Name: "rate", Label: "Seed", Value: or("rate", "15"), Unit: "lb/ac"},
		{Name: "years", Label: "Stand is kept", Value: or("years", "4"), Unit: "years"},
	}
	for i := range v.Fields {
		v.Fields[i].Error = q.wrong[v.Fields[i].Name]
	}
	return v
}

// askTrial works out the table that was sent, and keeps nothing of it.
func (s *Server) askTrial(_ context.Context, r *http.Request, p frame) (templ.Component, error) {
	p.Title, p.Date = "Variety trials", ""
	r.Body = http.MaxBytesReader(nil, r.Body, mostTrial)
	q := &sent{map[string][]string{}, map[string]string{}}
	if err := r.ParseMultipartForm(mostTrial); err != nil {
		v := trialForm(p, q)
		v.Wrong = "The table did not come through: it is larger than 8 MB, or the form was not sent whole."
		return trialPage(p, v), nil
	}
	defer func() { _ = r.MultipartForm.RemoveAll() }() // parts are in memory
	q.value = r.Form
	sheets, err := s.trialAnswers(r, q)
	v := trialForm(p, q)
	if err != nil {
		if paged(err) {
			return nil, err
		}
		v.Wrong = capital(err.Error()) + "."
		return trialPage(p, v), nil
	}
	for i, sheet := range sheets {
		printed := sheet.Printed()
		a := trialAnswer{ID: fmt.Sprintf("answer-%d", i), Title: printed.Title, Says: printed.Says, Notes: printed.Notes, Sources: cites(printed.Sources)}
		for n, t := range printed.Tables {
			a.Tables = append(a.Tables, trialTable{fmt.Sprintf("table-%d-%d", i, n), t.Title, t.Head, t.Right, t.Rows})
		}
		v.Answers = append(v.Answers, a)
	}
	return trialPage(p, v), nil
}

// errNoTable says that nothing was sent to work out.
var errNoTable = errors.New("no table was given: paste one, or choose a file")

func (s *Server) trialAnswers(r *http.Request, q *sent) ([]*office.TrialSheet, error) {
	var from io.Reader = strings.NewReader(q.value.Get("table"))
	name := "the table"
	switch f, head, err := r.FormFile("file"); {
	case err == nil:
		defer func() { _ = f.Close() }() // it was only read
		from, name = f, head.Filename
	case strings.TrimSpace(q.value.Get("table")) == "":
		return nil, errNoTable
	}
	t, err := office.ReadTrial(s.actor, from, name, exchange.TrialColumns{})
	if err != nil {
		return nil, err
	}
	level, hay, rate, years := q.needed("level"), q.number("hay"), q.number("rate"), q.number("years")
	if len(q.wrong) > 0 {
		return nil, errors.New("a number below is not understood")
	}
	var out []*office.TrialSheet
	if weights := listed(q.text("weights")); len(weights) > 0 {
		short, err := office.ShortenTrial(s.actor, t, office.TrialChoice{
			Weights: weights, Limits: listed(q.text("limits")), Check: q.text("check"), Keep: 12, Level: level, Seed: 1,
			Price: q.text("price"), Hay: hay, Rate: rate, Years: years,
		})
		if err != nil {
			return nil, err
		}
		out = append(out, short)
	}
	a, err := office.AnalyseTrial(s.actor, t, office.TrialAsk{Trait: q.text("trait"), Level: level, Check: q.text("check"), Seed: 1})
	if err != nil {
		return nil, err
	}
	return append(out, a), nil
}

// listed parts what was typed at commas.
func listed(text string) []string {
	var out []string
	for part := range strings.SplitSeq(text, ",") {
		if part = strings.TrimSpace(part); part != "" {
			out = append(out, part)
		}
	}
	return out
}
