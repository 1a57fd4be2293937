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
	Also                                 string   // what else is to be done there, by title
	Call                                 string   // whom to ring
	Fields                               []linkTo // other fields of which the same is to be said
}

type linkTo struct{ Name, Href string }

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
	if a.Window != nil && a.Window.BestWhy != "" {
		v.Grounds = append(v.Grounds, groundView{What: "Best day", Value: advice.Short(a.Window.Best) + ": " + a.Window.BestWhy, How: "counted over past years and the error of today's estimate"})
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
	if w.Early == w.Late {
		return advice.Short(w.Early)
	}
	return fmt.Sprintf("%s, best %s", advice.Span(w.Early, w.Late), advice.Short(w.Best))
}

// line shows a stand's line in the round: shorter than on the stand's own page.
func (p frame) line(l advice.Line) pieceView {
	v := p.view(l.Piece, false)
	if l.Worth.Dollars != nil {
		v.Grounds = append([]groundView{{What: "Worth", Value: v.Worth, How: "against " + l.Worth.Dollars.Against}}, v.Grounds...)
		v.Worth = ""
	}
	var also []string
	for _, a := range l.Also {
		if a.Urgency <= advice.Week {
			also = append(also, lower(a.Title))
		}
	}
	v.Also = strings.Join(also, "; ")
	if c := l.Stand.Farm.Contacts; len(c) > 0 && l.Urgency <= advice.Today {
		v.Call = strings.TrimSuffix(c[0].Body.Name+", "+c[0].Body.Phone, ", ")
	}
	return v
}

func lower(s string) string { return strings.ToLower(s[:1]) + s[1:] }

// lines shows the lines of an urgency. Where the same is to be said of several stands it is said once.
func (p frame) lines(all []advice.Line) []pieceView {
	type saying struct{ decision, title, sentence string }
	var out []pieceView
	at := map[saying]int{}
	for _, l := range all {
		key := saying{l.Decision, l.Title, l.Sentence}
		if i, ok := at[key]; ok && l.Urgency > advice.Today {
			out[i].Fields = append(out[i].Fields, linkTo{l.Stand.Named(), p.standHref(l.Stand)})
			continue
		}
		at[key] = len(out)
		out = append(out, p.line(l))
	}
	return out
}

func dollars(d *advice.Dollars) (amount, against string) {
	if d.NoDifference {
		return "No difference in money", "against " + d.Against + ", by " + d.Line
	}
	return fmt.Sprintf("$%.0f/ac", d.Middle), fmt.Sprintf("against %s; range $%.0f to $%.0f, by %s.", d.Against, d.Low, d.High, d.Line)
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
