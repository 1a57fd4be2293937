package office

import (
	"context"
	"fmt"
	"slices"

	"haywarden/agronomy/soil"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/outlook"
)

// FieldSoil is what is known of a field's soil on a date: tests, what guides say of them, what left with the
// crops and what was spread.
type FieldSoil struct {
	Farm    string          `json:"farm"`
	Field   string          `json:"field"`
	Acres   float64         `json:"acres"`
	Date    unit.Day        `json:"date"`
	Guides  book.SoilGuides `json:"guides"`
	Values  []SoilNow       `json:"values"`
	Lime    GuideSays       `json:"lime"`
	Feed    GuideSays       `json:"phosphate_potash"`
	Ledger  *SoilLedger     `json:"ledger,omitempty"`
	Without string          `json:"no_ledger,omitempty"` // why there is no ledger
	Spread  []SpreadTold    `json:"spread"`
	Tissue  []TissueTold    `json:"tissue"`
	Sown    []string        `json:"sown,omitempty"`
	Tests   []SoilTested    `json:"tests"` // newest first, as they were printed
	Region  string          `json:"-"`

	Series  []outlook.SoilSeries `json:"-"`
	Stand   *outlook.Stand       `json:"-"` // nil where nothing stands there
	Outlook *outlook.Outlook     `json:"-"`
}

// SoilNow is the newest value of one thing.
type SoilNow struct {
	Code   string   `json:"code"`
	Name   string   `json:"name"`
	Value  float64  `json:"value"`
	Unit   string   `json:"unit,omitempty"`
	By     string   `json:"by,omitempty"`
	Day    unit.Day `json:"sampled"`
	Parts  int      `json:"parts"`
	Class  string   `json:"class,omitempty"`
	Moved  string   `json:"moved,omitempty"`
	Tested int      `json:"tests"`
}

// GuideSays is what a guide asks for, or why it cannot be asked.
type GuideSays struct {
	Guide string   `json:"guide,omitempty"`
	Says  string   `json:"says,omitempty"`
	Why   string   `json:"cannot,omitempty"`
	Notes []string `json:"notes,omitempty"`
}

// Named is the guide as it is spoken of.
func (g GuideSays) Named() string { return soil.Titled(g.Guide) }

// SoilLedger is what the years since a test took and gave.
type SoilLedger struct {
	Since unit.Day     `json:"since"`
	Years []LedgerYear `json:"years"`
	Says  string       `json:"says"`
}

// LedgerYear is one year's pounds an acre.
type LedgerYear struct {
	Year          int     `json:"year"`
	Tons          float64 `json:"tons_dm_acre"`
	TakenP2O5     float64 `json:"taken_p2o5"`
	TakenK2O      float64 `json:"taken_k2o"`
	GivenP2O5     float64 `json:"given_p2o5"`
	GivenK2O      float64 `json:"given_k2o"`
	BalanceP2O5   float64 `json:"balance_p2o5"`
	BalanceK2O    float64 `json:"balance_k2o"`
	CutsUnweighed int     `json:"cuts_not_weighed"`
}

// SpreadTold is one application, with what it brought an acre.
type SpreadTold struct {
	Day  unit.Day `json:"day"`
	Says string   `json:"says"`
	P2O5 float64  `json:"p2o5"`
	K2O  float64  `json:"k2o"`
	Why  string   `json:"cannot,omitempty"` // be reckoned
}

// TissueTold is what the newest tissue test says of an element.
type TissueTold struct {
	Day     unit.Day `json:"sampled"`
	Element string   `json:"element"`
	Value   float64  `json:"value"`
	Unit    string   `json:"unit"`
	Class   string   `json:"class"`
	Remedy  string   `json:"remedy,omitempty"`
}

// SoilTested is a test as it was printed.
type SoilTested struct {
	Day  unit.Day      `json:"sampled"`
	Test book.SoilTest `json:"test"`
}

// Soil looks up what is known of a field's soil by the field's name, `farm/field` or id, or by the id of its
// stand.
func (o *Office) Soil(ctx context.Context, actor Actor, name string, ask Ask) (*FieldSoil, error) {
	if err := may(actor, actRead); err != nil {
		return nil, err
	}
	out, err := o.outlook(ctx, o.settle(ask))
	if err != nil {
		return nil, fmt.Errorf("look up a soil: %w", err)
	}
	if i := slices.IndexFunc(out.Stands, func(s *outlook.Stand) bool { return s.ID == name }); i >= 0 {
		name = out.Stands[i].InField.ID
	}
	f, err := findField(out.View, name)
	if err != nil {
		return nil, err
	}
	return FieldSoilOf(out, f), nil
}

// FieldSoilOf gathers what an outlook knows of a field's soil.
func FieldSoilOf(out *outlook.Outlook, f *book.FieldView) *FieldSoil {
	s := &FieldSoil{
		Farm: f.Farm.Name, Field: f.Name, Acres: f.Acres, Date: out.Date, Region: out.View.Place.Region, Outlook: out,
		Values: []SoilNow{}, Spread: []SpreadTold{}, Tissue: []TissueTold{}, Tests: []SoilTested{}, Series: outlook.SoilSeriesOf(f, out.Date),
	}
	if i := slices.IndexFunc(out.Stands, func(g *outlook.Stand) bool { return g.InField == f }); i >= 0 {
		s.Stand = out.Stands[i]
	}
	for _, t := range slices.Backward(f.SoilTests) {
		s.Tests = append(s.Tests, SoilTested{t.Day, t.Body})
	}
	for _, x := range s.Series {
		p := x.Last()
		s.Values = append(s.Values, SoilNow{Code: x.Code, Name: x.Name, Value: p.Value, Unit: x.Unit, By: string(x.By), Day: p.Day, Parts: p.Parts, Moved: x.Moved(), Tested: len(x.Points)})
	}
	for _, a := range slices.Backward(f.Applications) {
		s.Spread = append(s.Spread, spreadTold(a))
	}
	s.judge()
	return s
}

// judge asks the guides of the stand that grows there.
func (s *FieldSoil) judge() {
	const nobody = "nothing grows there on this day"
	if s.Stand == nil {
		s.Lime.Why, s.Feed.Why, s.Without = nobody, nobody, nobody
		return
	}
	g := s.Outlook.GuidesOf(s.Stand)
	s.Guides = book.SoilGuides{Lime: string(g.Lime), Fertility: string(g.Fertility), Removal: g.Removal, Supply: string(g.Supply)}
	s.Lime.Guide, s.Feed.Guide = string(g.Lime), string(g.Fertility)
	if l, err := s.Outlook.Lime(s.Stand, s.Stand.SoilCrop(), false); err != nil {
		s.Lime.Why = err.Error()
	} else {
		s.Lime.Notes = l.Notes
		s.Lime.Says = fmt.Sprintf("no lime: pH %.1f is enough for a target of %.1f", l.Test.PH, l.Liming.Target)
		if l.Tons > 0 {
			s.Lime.Says = fmt.Sprintf("%.1f tons an acre of %s, mixed into %.0f in before the next seeding, to bring pH %.1f to %.1f", float64(l.Tons), l.Basis, float64(l.Depth), l.Test.PH, l.Liming.Target)
		}
	}
	f, err := s.Outlook.Fertility(s.Stand)
	if err != nil {
		s.Feed.Why = err.Error()
	} else {
		s.Feed.Says = fmt.Sprintf("%.0f lb of P2O5 and %.0f lb of K2O an acre a year for %.1f tons of dry matter", float64(f.P2O5), float64(f.K2O), s.Stand.Yield.Year)
		s.Feed.Notes = f.Notes
	}
	for i := range s.Values {
		s.Values[i].Class = s.class(s.Values[i], f, err == nil)
	}
	s.account()
	if t := s.Stand.Tops(); t != nil {
		for _, j := range t.Judged {
			told := TissueTold{Day: t.Day, Element: string(j.Element), Value: j.Value, Unit: "%", Class: j.Class}
			if j.Element.PPM() {
				told.Unit = "ppm"
			}
			if j.Remedy != "none" {
				told.Remedy = j.Remedy
			}
			s.Tissue = append(s.Tissue, told)
		}
	}
	for _, d := range s.Stand.Seedings {
		for _, l := range d.Body.Lots {
			said := fmt.Sprintf("%s: %s, %g lb/ac out of the bag", d.Day, l.Species, l.RateLb)
			if l.Variety != "" {
				said += ", " + l.Variety
			}
			if d.Body.Method != "" {
				said += ", " + d.Body.Method
			}
			s.Sown = append(s.Sown, said)
		}
	}
}

// class is what a guide calls a value: by a table that a user typed in, else by what the guide gives for it.
func (s *FieldSoil) class(v SoilNow, f outlook.Feeding, asked bool) string {
	if v.Code != "p" && v.Code != "k" {
		return ""
	}
	if class, edition, ok := s.Outlook.TestClass(s.Stand, v.Code, &book.Extracted{Value: v.Value, Unit: book.PPM, By: book.Extractant(v.By)}); ok {
		return fmt.Sprintf("%s (%s, %s)", class, s.Feed.Guide, edition)
	}
	if !asked || f.Test == nil || f.Test.Day != v.Day || f.CriticalP == 0 && f.CriticalK == 0 {
		return ""
	}
	build, give := f.BuildP, f.P2O5
	if v.Code == "k" {
		build, give = f.BuildK, f.K2O
	}
	switch {
	case build > 0:
		return "under the critical level (" + s.Feed.Named() + ")"
	case give > 0:
		return "kept up by giving back removal (" + s.Feed.Named() + ")"
	}
	return "ample: none is given (" + s.Feed.Named() + ")"
}

// account sums what left and came since the oldest test of the stand's life, or since its seeding.
func (s *FieldSoil) account() {
	from := s.Stand.Seeded
	l, ok := s.Outlook.Ledger(s.Stand, from)
	if !ok {
		s.Without = "no cut of this stand is in the book whose yield can be reckoned"
		return
	}
	led := &SoilLedger{Since: from}
	unweighed := map[int]int{}
	for _, y := range s.Stand.YearYields() {
		unweighed[y.Year] = y.Guessed
	}
	for _, y := range l.Years {
		if y.Tons == 0 && y.Given == (soil.Removed{}) {
			continue
		}
		p, k := y.Balance()
		led.Years = append(led.Years, LedgerYear{
			Year: y.Year, Tons: float64(y.Tons), TakenP2O5: y.Removed.P2O5, TakenK2O: y.Removed.K2O, GivenP2O5: y.Given.P2O5, GivenK2O: y.Given.K2O,
			BalanceP2O5: p, BalanceK2O: k, CutsUnweighed: unweighed[y.Year],
		})
	}
	led.Says = fmt.Sprintf("The cuts that the book has since %s took %.0f lb of P2O5 and %.0f of K2O an acre; %.0f and %.0f were given.", from.Time().Format("2 January 2006"), l.Removed.P2O5, l.Removed.K2O, l.Given.P2O5, l.Given.K2O)
	if l.MovementUnknown == "" {
		led.Says += fmt.Sprintf(" By the %s guide that moves the tests by about %+.0f ppm of P and %+.0f of K: an estimate that a new test settles.", s.Feed.Named(), l.MovedP, l.MovedK)
	}
	s.Ledger = led
}

func spreadTold(a book.Dated[book.Application]) SpreadTold {
	b := a.Body
	t := SpreadTold{Day: a.Day, Says: fmt.Sprintf("%s, %g %s", b.Material, b.Rate, b.Unit)}
	if b.Cut > 0 {
		t.Says += fmt.Sprintf(", after cut %d", b.Cut)
	}
	if b.Part != "" {
		t.Says += ", on " + b.Part
	}
	if b.Class == book.LimeSpread {
		return t
	}
	got, err := outlook.Given(b)
	if err != nil {
		t.Why = err.Error()
	}
	t.P2O5, t.K2O = got.P2O5, got.K2O
	return t
}

// SoilNumber writes a value as a laboratory prints it.
func SoilNumber(v SoilNow) string {
	switch {
	case v.Unit == "":
		return fmt.Sprintf("%.1f", v.Value)
	case v.Value >= 20:
		return fmt.Sprintf("%.0f", v.Value)
	}
	return fmt.Sprintf("%.3g", v.Value)
}

// SpreadBrought says what an application brought an acre.
func SpreadBrought(a SpreadTold) string {
	if a.Why != "" {
		return "cannot be reckoned: " + a.Why
	}
	return fmt.Sprintf("%.0f P2O5, %.0f K2O", a.P2O5, a.K2O)
}
