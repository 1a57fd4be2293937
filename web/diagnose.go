package web

import (
	"context"
	"fmt"
	"net/http"
	"strings"

	"github.com/a-h/templ"

	"haywarden/agronomy/source"
	"haywarden/office"
)

// diagnoseView is the key with what it leads to.
type diagnoseView struct {
	Ask   formView
	Asked bool
	Fits  []causeView
	Weeds tableView
	Says  []string
}

type causeView struct{ Name, Kind, Fits, Signs, Mistaken, Test, Then, Source string }

func (s *Server) diagnose(_ context.Context, r *http.Request, p frame) (templ.Component, error) {
	q := r.URL.Query()
	d, err := office.Diagnose(office.Seen(q.Get))
	p.Title = "What did that?"
	v := diagnoseView{Says: d.WeedSays, Ask: formView{ID: "seen", Action: "/diagnose", Button: "Show what fits", Get: true}}
	if err != nil {
		v.Ask.Wrong = err.Error()
	}
	for _, question := range d.Questions {
		f := fieldView{Name: question.Key, Label: question.Ask, Kind: "select", Value: q.Get(question.Key), Choices: [][2]string{{"", "not looked at"}}}
		v.Asked = v.Asked || f.Value != ""
		for _, a := range question.Answers {
			f.Choices = append(f.Choices, [2]string{a, a})
		}
		v.Ask.Fields = append(v.Ask.Fields, f)
	}
	for _, c := range d.Fits {
		from, _ := source.Find(c.Source)
		v.Fits = append(v.Fits, causeView{c.Name, c.Kind, fmt.Sprintf("fits %d of %d", c.Fits, c.Asked), c.Signs, strings.Join(c.Mistaken, ", "), c.Test, c.Then, from.Cite + " (" + string(from.Grade) + ")"})
	}
	v.Weeds.Head = []headView{{"Weeds of a new stand", ""}, {"number", "a square foot"}, {"yield lost", "%"}}
	for _, g := range d.Weeds {
		for _, w := range g.Rows {
			many := fmt.Sprintf("over %g", w.From)
			if w.To > 0 {
				many = fmt.Sprintf("%g–%g", w.From, w.To)
			}
			v.Weeds.Rows = append(v.Weeds.Rows, []string{g.Name, many, fmt.Sprintf("%g–%g", w.Low, w.High)})
		}
	}
	return diagnosePage(p, v), nil
}

func (s *Server) safety(_ context.Context, _ *http.Request, p frame) (templ.Component, error) {
	p.Title = "Safety"
	return safetyPage(p, office.Safety()), nil
}

// safetyID names the first section, to which other pages lead; the others need none.
func safetyID(i int) string {
	if i == 0 {
		return "spraying"
	}
	return fmt.Sprintf("safety-%d", i)
}
