package web

import (
	"fmt"
	"strings"

	"haywarden/advice"
	"haywarden/agronomy/source"
	"haywarden/chart"
	"haywarden/outlook"
	"haywarden/paper"
)

// drawn is a drawing as it stands in a page.
type drawn struct{ SVG, Caption, Class string }

type notice struct{ Head, Text string }

// pieceView is one piece of advice as shown.
type pieceView struct {
	ID, Title, Who, What, Href, Sentence string
	Bar, Dates                           string
	Worth, Dollars, Against              string
	Measure                              string
	Cautions                             []string
	Grounds                              []groundView
	Rules                                []ruleView
	Also                                 []alsoView
}

// alsoView is another thing to do in the same field.
type alsoView struct{ Title, Sentence string }

type groundView struct {
	What, Value, How, Reckon string
	Others                   string // fields of other farms, only on the adviser's own pages
	Sources                  []string
}

type ruleView struct{ Says, Here, Differs, Source string }

// stripView is one stand's year in a list.
type stripView struct{ Href, Farm, Field, SVG string }

// factView is a name and a value.
type factView struct{ Name, Value string }

// dayView is something on a day.
type dayView struct{ ISO, Day, Say string }

func (p frame) standHref(s *outlook.Stand) string { return string(p.link("/stands/" + s.ID)) }

// view shows a piece; own leaves out the stand's name, on its own page.
func (p frame) view(a *advice.Piece, own bool) pieceView {
	s := a.Stand
	v := pieceView{
		ID: a.Decision + "-" + s.ID, Title: a.Title, What: fmt.Sprintf("%s ac · %s", acres(s), advice.Describe(s)),
		Sentence: a.Sentence, Worth: a.Worth.Text, Measure: a.Measure, Cautions: a.Cautions,
	}
	if !own {
		v.Who, v.Href = s.Named(), p.standHref(s)
	} else {
		v.What = ""
	}
	if bar, ok := paper.WindowBar(a); ok {
		v.Bar, v.Dates = chart.SVG(bar), windowDates(a.Window)
	}
	if d := a.Worth.Dollars; d != nil {
		v.Dollars, v.Against = dollars(d)
	}
	for _, g := range a.Grounds {
		v.Grounds = append(v.Grounds, groundView{What: g.What, Value: g.Value, How: g.How, Reckon: g.Reckon, Others: strings.Join(g.Others, ", "), Sources: cites(g.Sources)})
	}
	for _, r := range a.Rules {
		v.Rules = append(v.Rules, ruleView{r.Says, r.Here, r.Differs, cite(r.Source)})
	}
	return v
}

// windowDates says a window in words.
func windowDates(w *advice.Window) string {
	text := fmt.Sprintf("%s, best %s", advice.Span(w.Early, w.Late), advice.Short(w.Best))
	switch {
	case w.Early == w.Late:
		text = advice.Short(w.Early)
	case w.BestWhy != "":
		text += ": " + w.BestWhy
	}
	return text
}

// line shows a stand's line in the round.
func (p frame) line(l advice.Line) pieceView {
	v := p.view(l.Piece, false)
	for _, a := range l.Also {
		v.Also = append(v.Also, alsoView{a.Title, a.Sentence})
	}
	return v
}

func dollars(d *advice.Dollars) (amount, against string) {
	if d.NoDifference {
		return "No difference in money", "against " + d.Against + ", by " + d.Line
	}
	return fmt.Sprintf("$%.0f/ac", d.Middle), fmt.Sprintf("against %s; range $%.0f to $%.0f. Price line: %s.", d.Against, d.Low, d.High, d.Line)
}

func cites(ids []source.ID) []string {
	out := make([]string, len(ids))
	for i, id := range ids {
		out[i] = cite(id)
	}
	return out
}

// cite writes a source with its grade where that is not plainly published.
func cite(id source.ID) string {
	s, ok := source.Find(id)
	if !ok {
		return string(id)
	}
	if s.Grade == source.Published {
		return s.Cite
	}
	return s.Cite + " (" + string(s.Grade) + ")"
}

func acres(s *outlook.Stand) string { return advice.Acres(s.InField.Acres) }

// legend is the key of a strip.
func legend() string {
	var b strings.Builder
	b.WriteString(`<ul class="legend">`)
	for _, k := range chart.StripKeys() {
		b.WriteString("<li>" + chart.SVG(k) + " " + k.Words + "</li>")
	}
	b.WriteString("</ul>")
	return b.String()
}
