package web

import (
	"context"
	"fmt"
	"net/http"
	"strconv"
	"strings"

	"github.com/a-h/templ"

	"haywarden/advice"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/office"
)

// samplesView is a stand's hay in store and what laboratories found in its forage.
type samplesView struct {
	Field, Home, Lede  string
	Done               doneView
	Piece              *pieceView // what is to be done about a stack
	Reading, Storing   pieceView  // cautions of reading a core and of putting hay up
	Stacks             []stackView
	Results            []resultView
	PutUp, Core, Table formView
	Bring              string
}

type stackView struct {
	Title, Say string
	Readings   [][]string
}

type resultView struct {
	Day, What, Lab string
	Values         string
	Says           []string
}

func (s *Server) samples(ctx context.Context, r *http.Request, p frame) (templ.Component, error) {
	return s.samplesAgain(ctx, r, p, nil)
}

func (s *Server) samplesAgain(ctx context.Context, r *http.Request, p frame, t *typed) (templ.Component, error) {
	all, err := s.office.Samples(ctx, s.actor, r.PathValue("id"), p.ask)
	if err != nil {
		return nil, err
	}
	packages, err := office.Packages()
	if err != nil {
		return nil, err
	}
	st := all.Stand
	p.Title, p.Region = st.InField.Name+", stacks and samples", all.Region
	here := string(p.link(r.URL.Path))
	v := samplesView{Field: st.InField.Name, Home: string(p.link("/stands/" + st.ID)), Done: p.done(r), Bring: string(p.link("/bring"))}
	v.Lede = fmt.Sprintf("%s of %s: hay that was put up, what was read in it, and what laboratories found.", st.InField.Name, st.Farm.Name)
	if hot := advice.HotStack(st, nil); hot != nil {
		piece := p.view(hot, true)
		v.Piece = &piece
	}
	v.Reading, v.Storing = pieceView{Cautions: all.Reading}, pieceView{Cautions: all.Storing}
	baled := [][2]string{}
	for _, k := range all.Stacks {
		v.Stacks = append(v.Stacks, stackOf(k))
		baled = append(baled, [2]string{k.Day.String(), "baled " + withYear(k.Day)})
	}
	for _, l := range all.Results {
		v.Results = append(v.Results, resultOf(l))
	}
	today := p.ask.Date.String()
	v.PutUp = t.fill(formView{ID: "stack", Action: here, Button: "Put it up", Fields: []fieldView{
		{Name: "day", Label: "Baled on", Kind: "date", Value: today},
		{Name: "package", Label: "As", Kind: "select", Value: "round", Choices: packages},
		{Name: "moisture", Label: "Moisture", Unit: "% as baled", Hint: "of the wettest bales; empty where nobody tested"},
		{Name: "place", Label: "Where", Kind: "select", Choices: append([][2]string{{"", "not known"}}, words(book.StackPlaces())...)},
		{Name: "treated", Label: "Preservative", Kind: "select", Choices: [][2]string{{"", "none"}, {"yes", "treated, by its label"}}},
	}})
	v.Core = t.fill(formView{ID: "core", Action: here, Button: "Save the reading", Fields: []fieldView{
		{Name: "baled", Label: "Stack", Kind: "select", Choices: baled},
		{Name: "day", Label: "Read on", Kind: "date", Value: today},
		{Name: "core", Label: "Hottest core", Unit: "°F", Hint: "of several places, the probe left in for 15 minutes"},
	}})
	v.Table = t.fill(formView{ID: "result", Action: here, Button: "Save the result", Fields: []fieldView{
		{Name: "day", Label: "Sampled on", Kind: "date", Value: today},
		{Name: "sample", Label: "Sample of", Kind: "select", Value: "hay", Choices: words([]string{"standing", "hay", "haylage", "baleage"})},
		{Name: "lab", Label: "Laboratory", Kind: "text"},
		{Name: "ndf", Label: "NDF", Unit: "% of DM"}, {Name: "adf", Label: "ADF", Unit: "% of DM"}, {Name: "cp", Label: "Protein", Unit: "% of DM", Hint: "may be empty"},
		{Name: "cutting", Label: "Cutting", Unit: "of the year", Hint: "may be empty"},
		{Name: "lot", Label: "Lot", Kind: "text", Hint: "bales or silage it stands for"},
	}})
	return samplesPage(p, v), nil
}

// withYear is a day with its year.
func withYear(d unit.Day) string { return advice.Short(d) + " " + strconv.Itoa(d.Year()) }

func stackOf(k office.StackSeen) stackView {
	v := stackView{Title: "Baled " + withYear(k.Day), Say: capital(strings.ReplaceAll(k.Body.Package, "-", " ")) + " bales"}
	if k.Body.Moisture != nil {
		v.Say += fmt.Sprintf(" at %g %% moisture", *k.Body.Moisture)
	} else {
		v.Say += ", moisture not known"
	}
	if k.Body.Place != "" {
		v.Say += ", stacked " + spaced(k.Body.Place)
	}
	if k.Body.Treated {
		v.Say += ", treated with a preservative"
	}
	for _, r := range k.Readings {
		v.Readings = append(v.Readings, []string{advice.Short(r.Day), fmt.Sprintf("%.0f", r.Body.CoreF), r.Author})
	}
	return v
}

func resultOf(l office.LabTold) resultView {
	v := resultView{Day: withYear(l.Day), What: l.Body.Sample, Lab: l.Body.Lab, Says: l.Says}
	v.Values = fmt.Sprintf("NDF %.1f %%, ADF %.1f %%", l.Body.NDF, l.Body.ADF)
	if l.Body.CP > 0 {
		v.Values += fmt.Sprintf(", protein %.1f %%", l.Body.CP)
	}
	v.Values += " of dry matter"
	if l.Body.Lot != "" {
		v.What += ", lot " + l.Body.Lot
	}
	if l.Against != "" {
		v.Says = append(v.Says, l.Against)
	}
	return v
}

// calledSamples are the words by which the book calls what the page's forms ask.
var calledSamples = map[string]string{"package": "package", "moisture": "moisture", "place": "place", "core": "core temperature", "ndf": "NDF", "adf": "ADF", "cp": "protein", "cutting": "cutting", "sample": "sample"}

// changeSamples records what one of the page's forms says.
func (s *Server) changeSamples(ctx context.Context, r *http.Request, p frame, f *sent) (office.Saved, string, error) {
	stand := r.PathValue("id")
	back := "/stands/" + stand + "/samples"
	day := f.day("day")
	switch f.text("form") {
	case "stack":
		k := book.Stack{Package: f.text("package"), Place: f.text("place"), Treated: f.text("treated") == "yes", Moisture: f.optional("moisture")}
		f.accept(k.Check(), calledSamples)
		if len(f.wrong) > 0 {
			return office.Saved{}, back, nil
		}
		saved, err := s.office.PutUp(ctx, s.actor, p.ask, stand, day, k)
		return saved, back, err
	case "core":
		core := f.needed("core")
		baled := f.day("baled")
		f.accept(book.StackReading{CoreF: core}.Check(), calledSamples)
		if len(f.wrong) > 0 {
			return office.Saved{}, back, nil
		}
		saved, err := s.office.ReadCore(ctx, s.actor, p.ask, stand, day, baled, core)
		return saved, back, err
	case "result":
		l := book.Lab{Sample: f.text("sample"), Lab: f.text("lab"), Lot: f.text("lot"), NDF: f.needed("ndf"), ADF: f.needed("adf"), CP: f.number("cp"), Cutting: f.whole("cutting")}
		if len(f.wrong) == 0 {
			f.accept(l.Check(), calledSamples)
		}
		if len(f.wrong) > 0 {
			return office.Saved{}, back, nil
		}
		saved, err := s.office.TakeResult(ctx, s.actor, p.ask, stand, day, l)
		return saved, back, err
	}
	return office.Saved{}, back, office.ErrNotFound
}
