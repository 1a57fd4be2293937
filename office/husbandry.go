package office

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/husbandry"
	"haywarden/outlook"
)

// PriceRow is one line that reckonings take, with the price of it that holds.
type PriceRow struct {
	Line   string   `json:"line"`
	Title  string   `json:"title"`
	Group  string   `json:"group"`
	Unit   string   `json:"unit"`
	Low    float64  `json:"accepted_from"`
	High   float64  `json:"accepted_to"`
	Fresh  int      `json:"old_after_days"`
	Value  *float64 `json:"value,omitempty"`
	Deck   string   `json:"deck,omitempty"`
	Day    string   `json:"day,omitempty"`
	Author string   `json:"author,omitempty"`
	Own    bool     `json:"farms_own,omitempty"`
	Age    int      `json:"age_days,omitempty"`
	Old    bool     `json:"old,omitempty"`
}

// PriceBook is the prices that hold on a date, for a farm or for the whole book.
type PriceBook struct {
	Date    unit.Day         `json:"date"`
	Farm    string           `json:"farm,omitempty"`
	FarmID  string           `json:"-"`
	Farms   [][2]string      `json:"-"` // id and name of each farm, to choose from
	Region  string           `json:"-"`
	Rows    []PriceRow       `json:"lines"`
	Lines   husbandry.Part   `json:"side_by_side"`
	Forage  husbandry.Forage `json:"-"`
	Caution string           `json:"caution,omitempty"`
}

// Prices looks up what prices hold for a farm; an empty farm is the book alone. of is the forage that is
// priced by several lines side by side.
func (o *Office) Prices(ctx context.Context, actor Actor, farm string, of husbandry.Forage, ask Ask) (*PriceBook, error) {
	v, err := o.View(ctx, actor, ask)
	if err != nil {
		return nil, err
	}
	b := &PriceBook{Date: v.Date, Region: v.Place.Region, Forage: of}
	for _, f := range v.Farms {
		b.Farms = append(b.Farms, [2]string{f.ID, f.Name})
	}
	var f *book.FarmView
	if farm != "" {
		if f, err = farmIn(v, farm); err != nil {
			return nil, err
		}
		b.Farm, b.FarmID = f.Name, f.ID
	}
	for _, k := range book.PriceKinds() {
		r := PriceRow{Line: k.Name, Title: k.Title, Group: k.Group, Unit: k.Unit, Low: k.Low, High: k.High, Fresh: k.Fresh}
		if p, ok := v.Price(f, k.Name); ok {
			r.Value, r.Deck, r.Day, r.Author, r.Own, r.Age, r.Old = &p.Value, p.Deck, p.Day.String(), p.Author, p.Own, p.Age, p.Old
		}
		b.Rows = append(b.Rows, r)
	}
	b.Lines = husbandry.Lines(v, f, of)
	b.Caution, _ = v.HowCareful(f)
	return b, nil
}

func farmIn(v *book.View, name string) (*book.FarmView, error) {
	i := slices.IndexFunc(v.Farms, func(f *book.FarmView) bool { return f.ID == name || plain(f.Name) == plain(name) })
	if i < 0 {
		var known []string
		for _, f := range v.Farms {
			known = append(known, f.Name)
		}
		return nil, fmt.Errorf("no farm is called %q%s: %w", name, meant(name, known), ErrNotFound)
	}
	return v.Farms[i], nil
}

// FarmNeed is what a farm's herd needs and how fast its crew takes a cutting.
type FarmNeed struct {
	Farm   *book.FarmView          `json:"-"`
	Region string                  `json:"-"`
	Date   unit.Day                `json:"date"`
	Need   husbandry.Need          `json:"need"`
	Pace   husbandry.Part          `json:"pace"`
	Table  []husbandry.QualityNeed `json:"quality_targets"`
	Rows   []book.QualityRow       `json:"-"` // the book\'s own, over the published table
}

// HerdNeed reckons what a farm's herd needs.
func (o *Office) HerdNeed(ctx context.Context, actor Actor, farm string, ask Ask) (*FarmNeed, error) {
	if err := may(actor, actRead); err != nil {
		return nil, err
	}
	out, err := o.outlook(ctx, o.settle(ask))
	if err != nil {
		return nil, err
	}
	f, err := farmIn(out.View, farm)
	if err != nil {
		return nil, err
	}
	g := husbandry.Growing{}
	for _, s := range standsOf(out, f) {
		g.Acres += s.InField.Acres
		g.Tons += s.InField.Acres * s.Yield.Year
	}
	n := &FarmNeed{Farm: f, Region: out.View.Place.Region, Date: out.Date, Pace: husbandry.Pace(out.View, f, g.Acres)}
	n.Table, _ = husbandry.Table(out.View)
	if all := out.View.Quality; len(all) > 0 {
		n.Rows = all[len(all)-1].Body.Rows
	}
	n.Need, err = husbandry.NeedOf(out.View, f, g)
	return n, err
}

func standsOf(out *outlook.Outlook, f *book.FarmView) (stands []*outlook.Stand) {
	for _, s := range out.Stands {
		if s.Farm.ID == f.ID {
			stands = append(stands, s)
		}
	}
	return stands
}

// BudgetFor says what a budget is for; what is 0 is as the book judges it.
type BudgetFor struct {
	Field string // name of a field; empty: the farm's legume in the mean
	Yield float64
	RFV   float64
	Cuts  int
	Years int
}

// FarmBudget is a budget with whose it is.
type FarmBudget struct {
	husbandry.Sheet
	FarmView *book.FarmView `json:"-"`
	Region   string         `json:"-"`
	Fields   []string       `json:"-"` // to choose from
}

// Budget makes a farm's or a field's budget.
func (o *Office) Budget(ctx context.Context, actor Actor, farm string, of BudgetFor, ask Ask) (*FarmBudget, error) {
	if err := may(actor, actRead); err != nil {
		return nil, err
	}
	out, err := o.outlook(ctx, o.settle(ask))
	if err != nil {
		return nil, err
	}
	f, err := farmIn(out.View, farm)
	if err != nil {
		return nil, err
	}
	b := &FarmBudget{FarmView: f, Region: out.View.Place.Region}
	field := husbandry.Field{Name: "all legume stands", Cuts: cmp.Or(of.Cuts, husbandry.UsualCuts), Years: cmp.Or(of.Years, husbandry.UsualYears)}
	found := of.Field == ""
	for _, s := range standsOf(out, f) {
		b.Fields = append(b.Fields, s.InField.Name)
		if of.Field != "" && plain(of.Field) != plain(s.InField.Name) && of.Field != s.ID {
			continue
		}
		if of.Field != "" {
			found, field.Name = true, s.InField.Name
		}
		field.Acres += s.InField.Acres
		field.Yield += s.InField.Acres * s.Yield.Year
		field.First += s.InField.Acres * s.Yield.FirstCut
		field.RFV += s.InField.Acres * s.Target.FeedRFV
	}
	if !found {
		return nil, fmt.Errorf("%s has no growing stand in a field called %q%s: %w", f.Name, of.Field, meant(of.Field, b.Fields), ErrNotFound)
	}
	if field.Acres > 0 {
		field.Yield, field.First, field.RFV = field.Yield/field.Acres, field.First/field.Acres, field.RFV/field.Acres
	}
	if of.Yield != 0 && field.Yield > 0 {
		field.First *= of.Yield / field.Yield
	}
	field.Yield, field.RFV = cmp.Or(of.Yield, field.Yield), cmp.Or(of.RFV, field.RFV)
	if field.Acres > 0 || of.Yield != 0 {
		if err := field.Check(); err != nil {
			return b, &BadEntry{Field: "budget", Text: err.Error()}
		}
		b.Sheet = husbandry.SheetOf(out.View, f, field)
	}
	b.Farm, b.Date, b.Sheet.Field = f.Name, out.Date.String(), field
	return b, nil
}

// Weighed is cutting a stand now or later, by how careful its farm is.
type Weighed struct {
	Stand *outlook.Stand `json:"-"`
	Named string         `json:"stand"`
	How   string         `json:"how_careful"`
	Why   string         `json:"whose_caution"`
	Part  husbandry.Part `json:"weighed"`
	// Waiting lays the lines of what waiting costs side by side, rain left out.
	Waiting husbandry.Part `json:"waiting"`
}

// Weigh lays cutting a stand today beside waiting. rain holds chances of rain for the days from today; an
// empty how is the farm's own caution, else the book's, else the usual.
func (o *Office) Weigh(ctx context.Context, actor Actor, stand string, rain []float64, how string, ask Ask) (*Weighed, error) {
	a, err := o.Stand(ctx, actor, stand, ask)
	if err != nil {
		return nil, err
	}
	w := &Weighed{Stand: a.Stand, Named: a.Stand.Named(), How: how, Why: "as asked"}
	if how == "" {
		var own bool
		w.How, own = a.Outlook.View.HowCareful(a.Stand.Farm)
		switch {
		case own:
			w.Why = "as the farm has said"
		case w.How != "":
			w.Why = "as is kept for the whole book"
		default:
			w.How, w.Why = husbandry.UsualCaution, "nobody has said how careful: the usual"
		}
	}
	pace := 0.0
	for _, r := range husbandry.Pace(a.Outlook.View, a.Stand.Farm, 0).Rows {
		if r.Unit == "ac" {
			pace = max(pace, r.Value)
		}
	}
	if w.Part, err = husbandry.Weigh(a.Outlook.View, a.Stand, rain, w.How, pace); err != nil {
		return nil, &BadEntry{Field: "weigh", Text: err.Error()}
	}
	w.Waiting = husbandry.Waiting(a.Outlook.View, a.Stand)
	return w, nil
}
