package web

import (
	"fmt"
	"slices"
	"strings"

	"haywarden/advice"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
	"haywarden/book"
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
	Also                                 string      // what else is to be done there, by title
	Call                                 phoneView   // whom to ring
	Fields                               []farmLinks // other fields of which the same is to be said
}

// phoneView is a person and how to ring them.
type phoneView struct{ Name, Phone, Tel string }

// farmLinks are fields of one farm.
type farmLinks struct {
	Farm   string
	Fields []linkTo
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
		Title: a.Title, Sentence: a.Sentence, Worth: a.Worth.Text, Measure: a.Measure, Cautions: a.Cautions,
	}
	if s == nil {
		v.ID = a.Decision + "-" + a.Feed.ID
	} else {
		v.ID = a.Decision + "-" + s.ID
	}
	switch {
	case own:
	case s == nil:
		v.Who, v.Href = a.Named(), string(p.link("/farms/"+a.Feed.ID+"/feed"))
	default:
		v.Who, v.Href, v.What = a.Named(), p.standHref(s), fmt.Sprintf("%s ac · %s", acres(s), advice.Describe(s))
	}
	if a.Window != nil && a.Window.BestWhy != "" {
		v.Grounds = append(v.Grounds, groundView{What: "Best day", Value: advice.Short(a.Window.Best) + ": " + a.Window.BestWhy, How: "counted over past years and the error of today's estimate"})
	}
	if bar, ok := paper.WindowBar(a); ok {
		bar.Title, bar.Desc = "", "" // the dates stand beside it in words
		v.Bar, v.Dates = chart.SVG(bar), windowDates(a.Window, a.Date())
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

// windowDates says a window in words: the days, and where the best one is or that they are over.
func windowDates(w *advice.Window, today unit.Day) string {
	span := advice.Span(w.Early, w.Late)
	switch {
	case w.Early == w.Late:
		return span
	case w.Firm && w.Late < today:
		return "was due " + span
	case w.Firm:
		return span
	case w.Late < today:
		return "most likely " + span + ", now past"
	case w.Best == today:
		return span + ", best today"
	}
	return span + ", best " + advice.Short(w.Best)
}

// line shows a stand's line in the round: shorter than on the stand's own page.
func (p frame) line(l advice.Line) pieceView {
	v := p.view(l.Piece, false)
	if d := l.Worth.Dollars; d != nil {
		worth := groundView{What: "Worth", Value: v.Worth, How: "prices: " + d.Line}
		v.Grounds = append([]groundView{worth}, v.Grounds...)
		v.Worth = ""
	}
	var also []string
	said := []*advice.Piece{l.Piece}
	for _, a := range l.Also {
		switch {
		case a.Urgency <= advice.Week:
			said, also = append(said, a), append(also, lower(a.Title))
		case a.Urgency == advice.Unjudged:
			said, also = append(said, a), append(also, subject(a.Decision)+" cannot be judged ("+lower(strings.TrimSuffix(a.Sentence, "."))+")")
		}
	}
	v.Also, v.Cautions = strings.Join(also, "; "), advice.CautionsOf(said...)
	if l.Urgency <= advice.Today {
		v.Call = callOf(l.Stand.Farm)
	}
	return v
}

// subject is what a decision that cannot be made is about.
func subject(decision string) string {
	switch {
	case decision == "last-cut":
		return "the last cut"
	case advice.Cuts(decision):
		return "the cut"
	}
	return "it"
}

// few reports whether fields are few enough to be named in a sentence.
func few(all []farmLinks) bool {
	n := 0
	for _, f := range all {
		n += len(f.Fields)
	}
	return n <= namedInLine
}

const namedInLine = 3

// callOf is the farm's first contact; empty where none is known.
func callOf(f *book.FarmView) phoneView {
	if len(f.Contacts) == 0 {
		return phoneView{}
	}
	c := f.Contacts[0].Body
	return phoneView{Name: c.Name, Phone: c.Phone, Tel: tel(c.Phone)}
}

// tel is the address that makes a telephone ring; empty where the number cannot be dialled.
func tel(phone string) string {
	digits := strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' || r == '+' {
			return r
		}
		return -1
	}, phone)
	if len(digits) < leastDigits {
		return ""
	}
	return "tel:" + digits
}

const leastDigits = 5

func lower(s string) string { return strings.ToLower(s[:1]) + s[1:] }

// lines shows the lines of an urgency. Where all the same is to be said of several stands, and nobody
// need be rung, it is said once.
func (p frame) lines(all []advice.Line) []pieceView {
	var out []pieceView
	for _, l := range all {
		v := p.line(l)
		i := slices.IndexFunc(out, func(o pieceView) bool { return l.Urgency > advice.Today && o.reads() == v.reads() })
		if i >= 0 {
			out[i].Fields = p.join(out[i].Fields, l.Stand)
			continue
		}
		out = append(out, v)
	}
	return out
}

// reads is all that a line shows besides whose it is.
func (v pieceView) reads() string {
	return strings.Join(append([]string{v.Title, v.Sentence, v.Bar, v.Dates, v.Worth, v.Dollars, v.Against, v.Measure, v.Also}, v.Cautions...), "\n")
}

// join adds a stand to a list of fields by farm.
func (p frame) join(all []farmLinks, s *outlook.Stand) []farmLinks {
	link := linkTo{s.InField.Name, p.standHref(s)}
	for i := range all {
		if all[i].Farm == s.Farm.Name {
			all[i].Fields = append(all[i].Fields, link)
			return all
		}
	}
	return append(all, farmLinks{s.Farm.Name, []linkTo{link}})
}

// dollars says a worth in money with its price line.
func dollars(d *advice.Dollars) (amount, against string) {
	if d.NoDifference {
		return "No difference in money", "against " + d.Against + ", by " + d.Line + "."
	}
	return fmt.Sprintf("$%.0f/ac", d.Middle), fmt.Sprintf("($%.0f to $%.0f) against %s, by %s.", d.Low, d.High, d.Against, d.Short)
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
func legend() string { return keys(chart.StripKeys()) }

func keys(all []chart.Key) string {
	var b strings.Builder
	b.WriteString(`<ul class="legend">`)
	for _, k := range all {
		b.WriteString("<li>" + chart.SVG(k) + " " + k.Words + "</li>")
	}
	b.WriteString("</ul>")
	return b.String()
}
