package web

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strings"

	"github.com/a-h/templ"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/office"
)

type groupRow struct {
	Name, What, Intake, Range, Energy, Forage, Legume, Wanted string
	Flags                                                     []string
	Change                                                    string // where it is changed
}

type herdView struct {
	Farm, Home, Lede string
	Done             doneView
	None             string
	Groups           []groupRow
	Quality, Crops   [][]string
	Notes, Sources   []string
	Pace             partView
	Group, Crop      formView
	Drop             *formView
	Machine, Crew    formView
	DropMachine      *formView
	Machines         []linkTo
	Wanted           [][]string // the book's table of quality targets
	Table            formView
}

func (s *Server) herd(ctx context.Context, r *http.Request, p frame) (templ.Component, error) {
	return s.herdAgain(ctx, r, p, nil)
}

func (s *Server) herdAgain(ctx context.Context, r *http.Request, p frame, t *typed) (templ.Component, error) {
	n, err := s.office.HerdNeed(ctx, s.actor, r.PathValue("id"), p.ask)
	if err != nil {
		return nil, err
	}
	p.Title, p.Region = n.Farm.Name+", herd", n.Region
	here := "/farms/" + n.Farm.ID + "/herd"
	v := herdView{Farm: n.Farm.Name, Home: string(p.link("/farms/" + n.Farm.ID)), Done: p.done(r), None: n.Need.None, Pace: partOf(n.Pace), Notes: n.Need.Notes, Sources: cites(n.Need.Sources)}
	v.Lede = "What its animals need in a year, and how fast its crew takes a cutting."
	if v.None == "" {
		v.Lede = fmt.Sprintf("%d animals eat %.0f tons of forage dry matter a year (%.0f to %.0f between the equations). Answers go by edition %s of the feeding standard, quality by the %s table; the herd was told on %s.",
			n.Need.Head, n.Need.Forage, n.Need.Low, n.Need.High, n.Need.Edition, capital(n.Need.Table), n.Need.Told)
	}
	for _, g := range n.Need.Groups {
		row := groupRow{Name: g.Name, What: fmt.Sprintf("%d %s", g.Head, g.Kind), Intake: fmt.Sprintf("%.1f", g.IntakeLb), Forage: fmt.Sprintf("%.0f", g.Tons), Legume: fmt.Sprintf("%.0f", g.Legume), Wanted: g.Wanted, Flags: g.Flags}
		row.Range = g.By
		if g.High-g.Low >= 0.05 {
			row.Range += fmt.Sprintf(" (%.1f to %.1f)", g.Low, g.High)
		}
		if g.NEL > 0 {
			row.Energy = fmt.Sprintf("needs %.1f Mcal NEL a day, %.1f by the other edition", g.NEL, g.NELOther)
		}
		row.Change = string(p.linkWith(here, "group", g.Name)) + "#group"
		v.Groups = append(v.Groups, row)
	}
	for _, q := range n.Need.Quality {
		v.Quality = append(v.Quality, []string{spaced(q.Target), q.Wanted, fmt.Sprintf("%.0f", q.Forage), fmt.Sprintf("%.0f", q.Legume)})
	}
	for _, c := range n.Need.Crops {
		acres, have := "–", "–"
		if c.Acres > 0 {
			acres = fmt.Sprintf("%.0f", c.Acres)
		}
		if c.Have > 0 {
			have = fmt.Sprintf("%.0f", c.Have)
		}
		v.Crops = append(v.Crops, []string{c.Forage, c.Why, fmt.Sprintf("%.0f", c.Fed), fmt.Sprintf("%.0f", c.Stored), acres, have})
	}
	for _, q := range n.Table {
		v.Wanted = append(v.Wanted, []string{spaced(q.Target), q.Wanted})
	}
	base, _, _ := strings.Cut(n.Need.Table, ",")
	v.Table = t.fill(formView{
		ID: "quality", Action: string(p.link(here)), Button: "Save for the whole book",
		Fields: []fieldView{
			{Name: "base", Label: "Published table", Kind: "select", Value: base, Choices: words([]string{"wisconsin", "minnesota"})},
			{Name: "target", Label: "Own row for", Kind: "select", Choices: append([][2]string{{"", "none"}}, words(book.QualityGroups())...)},
			{Name: "low", Label: "RFQ from", Unit: "points"}, {Name: "high", Label: "RFQ to", Unit: "points"}, {Name: "fat", Label: "Too good over", Unit: "points"},
		},
	})
	p.herdForms(&v, n, r, here, t)
	return herdPage(p, v), nil
}

// called are the words with which the book's checks begin, by the field of a form.
var called = map[string]string{
	"name": "group", "head": "head", "kind": "kind", "weight": "weight", "milk": "milk", "fat": "fat", "protein": "protein", "dim": "days in milk", "pregnant": "days pregnant",
	"mature": "mature weight", "dietndf": "diet NDF", "foragendf": "forage NDF", "forage": "forage share", "legume": "legume share", "silage": "silage share", "intake": "intake", "target": "target",
	"yield": "yield", "field": "field loss", "storage": "storage loss", "feeding": "feeding loss", "reserve": "reserve",
	"machine": "machine", "width": "width", "speed": "speed", "efficiency": "efficiency", "price": "price", "salvage": "salvage", "years": "years", "hours": "hours a year", "power": "power", "tractor": "tractor",
	"crew": "crew hours", "what": "what takes the crew", "to": "to", "from": "from",
}

// spaced writes a word of a list as it is read: early cows for early-cows.
func spaced(word string) string { return strings.ReplaceAll(word, "-", " ") }

func words[T ~string](all []T) (out [][2]string) {
	for _, w := range all {
		out = append(out, [2]string{string(w), spaced(string(w))})
	}
	return out
}

func percentOf(v float64) string { return plainNumber(float64(int(v*1000+0.5)) / 10) }

// herdForms lays out the forms of the page, with the group or machine that is to be changed.
func (p frame) herdForms(v *herdView, n *office.FarmNeed, r *http.Request, here string, t *typed) {
	told, _ := n.Farm.Herd()
	var g book.Group
	was := r.URL.Query().Get("group")
	if t != nil {
		was = t.value.Get("was")
	}
	i := slices.IndexFunc(told.Body.Groups, func(x book.Group) bool { return x.Name == was })
	if i >= 0 {
		g = told.Body.Groups[i]
	} else {
		was = ""
	}
	action := string(p.link(here))
	v.Group = formView{
		ID: "group", Action: action, Title: "Add a group", Button: "Save the group", Hidden: [][2]string{{"was", was}},
		Fields: []fieldView{
			{Name: "name", Label: "Name", Kind: "text", Value: g.Name}, {Name: "kind", Label: "Animals", Kind: "select", Value: string(g.Kind), Choices: words(book.GroupKinds())},
			{Name: "head", Label: "Head", Value: plainNumber(float64(g.Head)), Unit: "animals"}, {Name: "weight", Label: "Weight", Value: plainNumber(g.WeightLb), Unit: "lb"},
			{Name: "forage", Label: "Forage in the diet", Value: percentOf(g.ForageShare), Unit: "% of DM"}, {Name: "legume", Label: "Legume in the forage", Value: percentOf(g.LegumeShare), Unit: "%"},
			{Name: "silage", Label: "Corn silage in it", Value: percentOf(g.SilageShare), Unit: "%"}, {Name: "foragendf", Label: "NDF of the forage", Value: plainNumber(g.ForageNDF), Unit: "% of DM"},
			{Name: "dietndf", Label: "NDF of the diet", Value: plainNumber(g.DietNDF), Unit: "% of DM"},
			{Name: "milk", Label: "Milk", Value: plainNumber(g.MilkLb), Unit: "lb a day", Hint: "lactating"}, {Name: "fat", Label: "Fat", Value: plainNumber(g.Fat), Unit: "%", Hint: "lactating"},
			{Name: "protein", Label: "True protein", Value: plainNumber(g.Protein), Unit: "%", Hint: "lactating"}, {Name: "dim", Label: "Days in milk", Value: plainNumber(g.DaysInMilk), Unit: "days", Hint: "lactating"},
			{Name: "pregnant", Label: "Days pregnant", Value: plainNumber(g.DaysPregnant), Unit: "days", Hint: "dry cows"}, {Name: "mature", Label: "Grown weight", Value: plainNumber(g.MatureLb), Unit: "lb", Hint: "heifers"},
			{Name: "intake", Label: "Weighed intake", Value: plainNumber(g.IntakeLb), Unit: "lb DM", Hint: "goes before the equations"},
			{Name: "target", Label: "Quality wanted as", Kind: "select", Value: g.Target, Choices: append([][2]string{{"", "by kind and days"}}, words(book.QualityGroups())...)},
		},
	}
	if was != "" {
		v.Group.Title = "Change " + was
		v.Drop = &formView{ID: "drop", Action: action, Button: "Take " + was + " out of the herd", Hidden: [][2]string{{"was", was}}}
	}
	v.Group = t.fill(v.Group)
	c := book.ForageCrop{Forage: "legume", Field: 0.15, Storage: 0.1}
	for _, x := range told.Body.Crops {
		if x.Forage == cmp.Or(r.URL.Query().Get("crop"), "legume") {
			c = x
		}
	}
	v.Crop = t.fill(formView{
		ID: "crop", Action: action, Title: "Yield, losses and reserve of a forage", Button: "Save the forage",
		Fields: []fieldView{
			{Name: "what", Label: "Forage", Kind: "select", Value: c.Forage, Choices: words(book.Forages())}, {Name: "yield", Label: "Yield", Value: plainNumber(c.Yield), Unit: "tons DM/ac", Hint: "empty: as the book judges the stands"},
			{Name: "field", Label: "Lost in the field", Value: percentOf(c.Field), Unit: "%"}, {Name: "storage", Label: "Lost in store", Value: percentOf(c.Storage), Unit: "%"},
			{Name: "feeding", Label: "Lost at feeding", Value: percentOf(c.Feeding), Unit: "%"}, {Name: "reserve", Label: "Kept over", Value: percentOf(c.Reserve), Unit: "% of the need"},
			{Name: "edition", Label: "Feeding standard", Kind: "select", Value: n.Need.Edition, Choices: [][2]string{{"2021", "edition 2021"}, {"2001", "edition 2001"}}},
		},
	})
	p.machineForms(v, n, r, here, action, t)
}

func (p frame) machineForms(v *herdView, n *office.FarmNeed, r *http.Request, here, action string, t *typed) {
	kit, _ := n.Farm.Kit()
	was := r.URL.Query().Get("machine")
	if t != nil {
		was = t.value.Get("was")
	}
	var m book.Machine
	found := false
	for _, x := range kit.Body.Machines {
		v.Machines = append(v.Machines, linkTo{x.Name, string(p.linkWith(here, "machine", x.Name)) + "#machine"})
		if x.Name == was {
			m, found = x, true
		}
	}
	if !found {
		was = ""
	}
	v.Machine = formView{
		ID: "machine", Action: action, Title: "Add a machine", Button: "Save the machine", Hidden: [][2]string{{"was", was}},
		Fields: []fieldView{
			{Name: "machine", Label: "Name", Kind: "text", Value: m.Name}, {Name: "kind", Label: "Kind", Kind: "select", Value: m.Kind, Choices: words(book.MachineKinds())},
			{Name: "width", Label: "Width", Value: plainNumber(m.WidthFt), Unit: "ft"}, {Name: "speed", Label: "Speed", Value: plainNumber(m.SpeedMph), Unit: "mph", Hint: "empty: the kind's"},
			{Name: "efficiency", Label: "Field efficiency", Value: percentOf(m.Efficiency), Unit: "%", Hint: "empty: the kind's"}, {Name: "price", Label: "Price", Value: plainNumber(m.Price), Unit: "$"},
			{Name: "salvage", Label: "Sells for at the end", Value: plainNumber(m.Salvage), Unit: "$"}, {Name: "years", Label: "Kept", Value: plainNumber(m.Years), Unit: "years"},
			{Name: "hours", Label: "Work", Value: plainNumber(m.HoursYear), Unit: "hours a year"}, {Name: "power", Label: "Power before it", Value: plainNumber(m.PowerHP), Unit: "hp"},
			{Name: "tractor", Label: "That tractor", Value: plainNumber(m.Tractor), Unit: "$/h"},
		},
	}
	if was != "" {
		v.Machine.Title = "Change " + was
		v.DropMachine = &formView{ID: "dropmachine", Action: action, Button: "Take " + was + " off the farm", Hidden: [][2]string{{"was", was}}}
	}
	v.Machine = t.fill(v.Machine)
	v.Crew = t.fill(formView{
		ID: "crew", Action: action, Title: "The crew", Button: "Save the crew",
		Fields: []fieldView{
			{Name: "crew", Label: "Works", Value: plainNumber(kit.Body.CrewHours), Unit: "hours a day"}, {Name: "what", Label: "Elsewhere for", Kind: "text", Hint: "corn planting, corn silage; empty adds none"},
			{Name: "from", Label: "From", Kind: "date"}, {Name: "to", Label: "Through", Kind: "date"},
		},
	})
}

// changeHerd records what one of the page's forms says.
func (s *Server) changeHerd(ctx context.Context, r *http.Request, p frame, f *sent) (office.Saved, string, error) {
	farm := r.PathValue("id")
	back := "/farms/" + farm + "/herd"
	was := f.value.Get("was")
	var saved office.Saved
	var err error
	switch f.text("form") {
	case "group":
		g := book.Group{
			Name: f.text("name"), Kind: book.GroupKind(f.text("kind")), WeightLb: f.number("weight"), MilkLb: f.number("milk"), Fat: f.number("fat"), Protein: f.number("protein"),
			DaysInMilk: f.number("dim"), DaysPregnant: f.number("pregnant"), MatureLb: f.number("mature"), DietNDF: f.number("dietndf"), ForageNDF: f.number("foragendf"), IntakeLb: f.number("intake"),
			ForageShare: f.percent("forage"), LegumeShare: f.percent("legume"), SilageShare: f.percent("silage"), Target: f.text("target"),
		}
		head := f.number("head")
		if g.Head = int(head); float64(g.Head) != head {
			f.wrong["head"] = "a whole number wanted"
		}
		f.accept(g.Check(), called)
		if len(f.wrong) > 0 {
			return saved, back, nil
		}
		saved, err = s.office.SetGroup(ctx, s.actor, p.ask, farm, was, g)
		if err != nil && !paged(err) {
			f.accept(errors.New("group: the herd has one of that name; give it another"), called)
			err = nil
		}
	case "drop":
		saved, err = s.office.DropGroup(ctx, s.actor, p.ask, farm, was)
	case "crop":
		c := book.ForageCrop{Forage: f.text("what"), Yield: f.number("yield"), Field: f.percent("field"), Storage: f.percent("storage"), Feeding: f.percent("feeding"), Reserve: f.percent("reserve")}
		f.accept(c.Check(), called)
		if len(f.wrong) > 0 {
			return saved, back, nil
		}
		saved, err = s.office.SetForageCrop(ctx, s.actor, p.ask, farm, f.text("edition"), c)
	case "machine":
		m := book.Machine{
			Name: f.text("machine"), Kind: f.text("kind"), WidthFt: f.number("width"), SpeedMph: f.number("speed"), Efficiency: f.percent("efficiency"), Price: f.number("price"), Salvage: f.number("salvage"),
			Years: f.number("years"), HoursYear: f.number("hours"), PowerHP: f.number("power"), Tractor: f.number("tractor"),
		}
		f.accept(m.Check(), called)
		if len(f.wrong) > 0 {
			return saved, back, nil
		}
		saved, err = s.office.SetMachine(ctx, s.actor, p.ask, farm, was, m)
		if err != nil && !paged(err) {
			f.accept(errors.New("machine: the farm has one of that name; give it another"), called)
			err = nil
		}
	case "dropmachine":
		saved, err = s.office.DropMachine(ctx, s.actor, p.ask, farm, was)
	case "quality":
		saved, err = s.changeQuality(ctx, p, farm, f)
	case "crew":
		saved, err = s.changeCrew(ctx, p, farm, f)
	default:
		err = office.ErrNotFound
	}
	return saved, back, err
}

// paged reports whether an error is one of those that have a page of their own.
func paged(err error) bool {
	return errors.Is(err, office.ErrForbidden) || errors.Is(err, office.ErrNotFound) || errors.Is(err, context.DeadlineExceeded) || errors.Is(err, context.Canceled)
}

func (s *Server) changeCrew(ctx context.Context, p frame, farm string, f *sent) (office.Saved, error) {
	hours := f.number("crew")
	f.accept(book.Machines{CrewHours: hours}.Check(), called)
	var busy *book.Busy
	if f.text("what") != "" || f.text("from") != "" || f.text("to") != "" {
		busy = &book.Busy{What: f.text("what")}
		for name, to := range map[string]*unit.Day{"from": &busy.From, "to": &busy.To} {
			d, err := unit.ParseDay(f.text(name))
			if err != nil {
				f.wrong[name] = "a date wanted"
			}
			*to = d
		}
		if len(f.wrong) == 0 {
			f.accept(busy.Check(), called)
		}
	}
	if len(f.wrong) > 0 {
		return office.Saved{}, nil
	}
	return s.office.SetCrew(ctx, s.actor, p.ask, farm, hours, busy)
}

// changeQuality records which table of quality targets the book goes by, with a row of its own where one
// is given.
func (s *Server) changeQuality(ctx context.Context, p frame, farm string, f *sent) (office.Saved, error) {
	n, err := s.office.HerdNeed(ctx, s.actor, farm, p.ask)
	if err != nil {
		return office.Saved{}, err
	}
	q := book.Quality{Base: f.text("base"), Rows: n.Rows}
	if group := f.text("target"); group != "" {
		row := book.QualityRow{Group: group}
		for name, to := range map[string]**float64{"low": &row.RFQLow, "high": &row.RFQHigh, "fat": &row.Fat} {
			if f.text(name) != "" {
				v := f.number(name)
				*to = &v
			}
		}
		q.Rows = append(slices.DeleteFunc(slices.Clone(q.Rows), func(x book.QualityRow) bool { return x.Group == group }), row)
		f.accept(q.Check(), map[string]string{"low": group + " RFQ from", "high": group + " RFQ to", "fat": group + " RFQ too good over"})
	}
	if len(f.wrong) > 0 {
		return office.Saved{}, nil
	}
	return s.office.SetQuality(ctx, s.actor, p.ask, q)
}
