package book

import (
	"cmp"
	"slices"
	"time"

	"haywarden/agronomy/unit"
)

// View is the book as it stood on a date and as it was known at a time: a projection of facts, made
// anew and never stored.
type View struct {
	Date     unit.Day
	Known    time.Time
	Place    Place
	Farms    []*FarmView      // by name
	Stations []Station        // by id
	Prices   []Deck           // the book's own decks, oldest first
	Quality  []Dated[Quality] // tables of quality targets, oldest first
	Caution  []Dated[Caution] // how careful the whole book is, oldest first
	Events   []Dated[Event]
	Forms    []Dated[TableForm] // how laboratories write their tables, oldest first
	// SoilGuides are whose soil tables the whole book goes by, oldest first, and GuideTables those that a
	// user typed in.
	SoilGuides  []Dated[SoilGuides]
	GuideTables []Dated[GuideTable]
	// Products are what the book's people may spray, as they entered it from labels, oldest first.
	Products []Dated[SprayProduct]
	// LeftOut lists facts that hang on a farm, field or stand which the view does not hold: entered
	// for a later day, received after the time known, or withdrawn.
	LeftOut []string
}

// Dated is a body with the day and the fact it comes from.
type Dated[T any] struct {
	ID      string
	Subject string
	Day     unit.Day
	Author  string
	Body    T
}

// Deck is a price deck and its day.
type Deck = Dated[Prices]

// FarmView is a farm with all that belongs to it.
type FarmView struct {
	ID string
	Farm
	Contacts []Dated[Contact]
	Consents []Dated[Consent]
	Fields   []*FieldView // by name
	Prices   []Deck       // the farm's own decks, oldest first
	Herds    []Dated[Herd]
	Machines []Dated[Machines]
	Caution  []Dated[Caution]
	Soil     []Dated[SoilGuides]   // whose soil tables it goes by, oldest first
	Products []Dated[SprayProduct] // its own, oldest first
	Lots     []*LotView            // feed put into store, in the order of filling
	Calls    []Dated[Call]
	Advice   []Dated[Advice]
	Outcomes []Dated[Outcome]
}

// LotView is feed in store with what was found left of it and fed from it, oldest first.
type LotView struct {
	ID string
	FeedLot
	Filled unit.Day
	Fact   string // that says it
	Author string
	Left   []Dated[LotLeft]
	Fed    []Dated[LotFed]
}

// FieldView is a field with its stands.
type FieldView struct {
	ID string
	Field
	Farm    *FarmView
	Weather *Dated[FieldWeather] // how its weather is made; nil where its station alone gives it
	Stands  []*StandView         // oldest seeding first
	// What was found in its soil and spread on it, oldest first.
	SoilTests    []Dated[SoilTest]
	Applications []Dated[Application]
	// Planned is what is to be sown there, as told, oldest first.
	Planned []Dated[SeedingPlan]
}

// Position is where the field lies, or where its farm does; not ok where neither is known.
func (f *FieldView) Position() (latitude, longitude float64, ok bool) {
	if f.Latitude != 0 || f.Longitude != 0 {
		return f.Latitude, f.Longitude, true
	}
	return f.Farm.Latitude, f.Farm.Longitude, f.Farm.Latitude != 0 || f.Farm.Longitude != 0
}

// WeatherKey names the weather the field takes: its station's, by the station's id, which fields share,
// or its own, by the field's id. Empty where it takes none.
func (f *FieldView) WeatherKey() string {
	if f.Weather != nil && len(f.WeatherStations()) > 0 {
		return f.ID
	}
	return f.Station
}

// WeatherStations lists the stations the field's weather is made from.
func (f *FieldView) WeatherStations() []string {
	switch {
	case f.Weather != nil && len(f.Weather.Body.Stations) > 0:
		return f.Weather.Body.Stations
	case f.Station != "":
		return []string{f.Station}
	}
	return nil
}

// StandView is a stand with what was seen in it and done to it, oldest first.
type StandView struct {
	ID string
	Stand
	Farm          *FarmView
	InField       *FieldView
	Visits        []Dated[Visit]
	Cuts          []Dated[Cut]
	Labs          []Dated[Lab]
	Stacks        []Dated[Stack]
	StackReadings []Dated[StackReading]
	Sprayed       []Dated[Sprayed]
	Tissue        []Dated[TissueTest]
	Seedings      []Dated[Seeding]
}

// Named reports the stand's name: its field's, with the farm's.
func (s *StandView) Named() string { return s.Farm.Name + " · " + s.InField.Name }

// Growing reports whether the stand is in the ground on the view's date.
func (s *StandView) Growing(d unit.Day) bool {
	return s.Seeded <= d && (s.TurnedUnder == nil || *s.TurnedUnder > d)
}

// Stands lists all stands growing on the view's date, by farm and field.
func (v *View) Stands() []*StandView {
	var out []*StandView
	for _, f := range v.Farms {
		for _, fd := range f.Fields {
			for _, s := range fd.Stands {
				if s.Growing(v.Date) {
					out = append(out, s)
				}
			}
		}
	}
	return out
}

// Project makes the view of a date from facts. Facts that happened after the date are left out
// whenever they were received; facts received after known are left out too, unless known is zero. A fact whose correction
// is in the view is left out.
func Project(facts []Fact, date unit.Day, known time.Time) (*View, error) {
	kept := slices.DeleteFunc(slices.Clone(facts), func(f Fact) bool { return f.Day > date || !known.IsZero() && f.Received.After(known) })
	slices.SortStableFunc(kept, func(a, b Fact) int {
		return cmp.Or(cmp.Compare(a.Day, b.Day), a.Received.Compare(b.Received), cmp.Compare(a.ID, b.ID))
	})
	replaced := map[string]bool{}
	for _, f := range kept {
		if f.Supersedes != "" {
			replaced[f.Supersedes] = true
		}
	}
	p := projector{view: &View{Date: date, Known: known}, farms: map[string]*FarmView{}, fields: map[string]*FieldView{}, stands: map[string]*StandView{}, lots: map[string]*LotView{}}
	for _, pass := range [][]Kind{{KindFarm}, {KindField}, {KindStand}, {KindFeedLot}, nil} {
		for _, f := range kept {
			if replaced[f.ID] || f.Kind == KindWithdrawn || !inPass(f.Kind, pass) {
				continue
			}
			if err := p.take(f); err != nil {
				return nil, err
			}
		}
	}
	p.sort()
	return p.view, nil
}

func inPass(k Kind, pass []Kind) bool {
	if pass != nil {
		return slices.Contains(pass, k)
	}
	return k != KindFarm && k != KindField && k != KindStand && k != KindFeedLot
}

// projector gathers facts under the farms, fields and stands they belong to.
type projector struct {
	view   *View
	farms  map[string]*FarmView
	fields map[string]*FieldView
	stands map[string]*StandView
	lots   map[string]*LotView
}

func (p *projector) take(f Fact) error {
	body, err := f.Read()
	if err != nil {
		return err
	}
	farm := p.farms[f.Farm]
	if f.Kind != KindFarm && (f.Farm != "" || f.Kind.ofFarm()) && farm == nil {
		p.view.LeftOut = append(p.view.LeftOut, f.ID)
		return nil
	}
	switch b := body.(type) {
	case *Farm:
		p.farm(f, *b)
	case *Field:
		p.field(f, farm, *b)
	case *Stand:
		p.stand(f, *b)
	case *FieldWeather:
		field := p.fields[f.Subject]
		if field == nil {
			p.view.LeftOut = append(p.view.LeftOut, f.ID)
			return nil
		}
		said := dated(f, *b)
		if field.Weather = &said; b.Nothing() {
			field.Weather = nil
		}
	case *SeedingPlan:
		field := p.fields[f.Subject]
		if field == nil {
			p.view.LeftOut = append(p.view.LeftOut, f.ID)
			return nil
		}
		field.Planned = append(field.Planned, dated(f, *b))
	case *SoilTest, *Application:
		p.ofField(f, body)
	case *SoilGuides:
		if farm != nil {
			farm.Soil = append(farm.Soil, dated(f, *b))
		} else {
			p.view.SoilGuides = append(p.view.SoilGuides, dated(f, *b))
		}
	case *GuideTable:
		p.view.GuideTables = append(p.view.GuideTables, dated(f, *b))
	case *Visit, *Cut, *Lab, *Stack, *StackReading, *Sprayed, *TissueTest, *Seeding:
		p.seen(f, body)
	case *FeedLot:
		p.lot(f, farm, *b)
	case *LotLeft, *LotFed:
		p.ofLot(f, body)
	case *Contact:
		farm.Contacts = append(farm.Contacts, dated(f, *b))
	case *Consent:
		farm.Consents = append(farm.Consents, dated(f, *b))
	case *Call:
		farm.Calls = append(farm.Calls, dated(f, *b))
	case *Advice:
		farm.Advice = append(farm.Advice, dated(f, *b))
	case *Outcome:
		farm.Outcomes = append(farm.Outcomes, dated(f, *b))
	case *Prices:
		if farm != nil {
			farm.Prices = append(farm.Prices, dated(f, *b))
		} else {
			p.view.Prices = append(p.view.Prices, dated(f, *b))
		}
	case *Herd:
		farm.Herds = append(farm.Herds, dated(f, *b))
	case *Machines:
		farm.Machines = append(farm.Machines, dated(f, *b))
	case *Caution:
		if farm != nil {
			farm.Caution = append(farm.Caution, dated(f, *b))
		} else {
			p.view.Caution = append(p.view.Caution, dated(f, *b))
		}
	case *SprayProduct:
		if farm != nil {
			farm.Products = append(farm.Products, dated(f, *b))
		} else {
			p.view.Products = append(p.view.Products, dated(f, *b))
		}
	case *Quality:
		p.view.Quality = append(p.view.Quality, dated(f, *b))
	case *Station:
		p.station(*b)
	case *TableForm:
		p.view.Forms = append(p.view.Forms, dated(f, *b))
	case *Event:
		p.view.Events = append(p.view.Events, dated(f, *b))
	case *Place:
		p.view.Place = *b
	}
	return nil
}

func (p *projector) farm(f Fact, b Farm) {
	v := p.farms[f.Subject]
	if v == nil {
		v = &FarmView{ID: f.Subject}
		p.farms[f.Subject] = v
		p.view.Farms = append(p.view.Farms, v)
	}
	v.Farm = b
}

func (p *projector) field(f Fact, farm *FarmView, b Field) {
	v := p.fields[f.Subject]
	if v == nil {
		v = &FieldView{ID: f.Subject, Farm: farm}
		p.fields[f.Subject] = v
		farm.Fields = append(farm.Fields, v)
	}
	v.Field = b
}

func (p *projector) stand(f Fact, b Stand) {
	field := p.fields[b.Field]
	if field == nil {
		p.view.LeftOut = append(p.view.LeftOut, f.ID)
		return
	}
	v := p.stands[f.Subject]
	if v == nil {
		v = &StandView{ID: f.Subject, Farm: field.Farm, InField: field}
		p.stands[f.Subject] = v
		field.Stands = append(field.Stands, v)
	}
	v.Stand = b
}

func (p *projector) seen(f Fact, body Body) {
	s := p.stands[f.Subject]
	if s == nil {
		p.view.LeftOut = append(p.view.LeftOut, f.ID)
		return
	}
	switch b := body.(type) {
	case *Visit:
		s.Visits = append(s.Visits, dated(f, *b))
	case *Cut:
		s.Cuts = append(s.Cuts, dated(f, *b))
	case *Lab:
		s.Labs = append(s.Labs, dated(f, *b))
	case *Stack:
		s.Stacks = append(s.Stacks, dated(f, *b))
	case *StackReading:
		s.StackReadings = append(s.StackReadings, dated(f, *b))
	case *Sprayed:
		s.Sprayed = append(s.Sprayed, dated(f, *b))
	case *TissueTest:
		s.Tissue = append(s.Tissue, dated(f, *b))
	case *Seeding:
		s.Seedings = append(s.Seedings, dated(f, *b))
	}
}

func (p *projector) ofField(f Fact, body Body) {
	v := p.fields[f.Subject]
	if v == nil {
		p.view.LeftOut = append(p.view.LeftOut, f.ID)
		return
	}
	switch b := body.(type) {
	case *SoilTest:
		v.SoilTests = append(v.SoilTests, dated(f, *b))
	case *Application:
		v.Applications = append(v.Applications, dated(f, *b))
	}
}

// SoilGuidesOf is whose soil tables a farm goes by: its own choice first, then the book's. What neither
// chose is empty.
func (v *View) SoilGuidesOf(f *FarmView) (g SoilGuides) {
	if f != nil {
		for _, d := range f.Soil {
			g = d.Body.Over(g)
		}
	}
	var all SoilGuides
	for _, d := range v.SoilGuides {
		all = d.Body.Over(all)
	}
	return g.Over(all)
}

// GuideTable is what a user typed in of a guide for a use, the newest; not ok where nobody did.
func (v *View) GuideTable(guide, use string) (Dated[GuideTable], bool) {
	for _, d := range slices.Backward(v.GuideTables) {
		if d.Body.Guide == guide && d.Body.Use() == use {
			return d, true
		}
	}
	return Dated[GuideTable]{}, false
}

// lot puts feed into store, or tells anew what is known of it.
func (p *projector) lot(f Fact, farm *FarmView, b FeedLot) {
	v := p.lots[f.Subject]
	if v == nil {
		v = &LotView{ID: f.Subject}
		p.lots[f.Subject] = v
		farm.Lots = append(farm.Lots, v)
	}
	v.FeedLot, v.Filled, v.Fact, v.Author = b, f.Day, f.ID, f.Author
}

func (p *projector) ofLot(f Fact, body Body) {
	v := p.lots[f.Subject]
	if v == nil {
		p.view.LeftOut = append(p.view.LeftOut, f.ID)
		return
	}
	switch b := body.(type) {
	case *LotLeft:
		v.Left = append(v.Left, dated(f, *b))
	case *LotFed:
		v.Fed = append(v.Fed, dated(f, *b))
	}
}

func (p *projector) station(b Station) {
	i := slices.IndexFunc(p.view.Stations, func(s Station) bool { return s.ID == b.ID })
	if i >= 0 {
		p.view.Stations[i] = b
		return
	}
	p.view.Stations = append(p.view.Stations, b)
}

func (p *projector) sort() {
	slices.SortFunc(p.view.Stations, func(a, b Station) int { return cmp.Compare(a.ID, b.ID) })
	slices.SortFunc(p.view.Farms, func(a, b *FarmView) int { return cmp.Or(cmp.Compare(a.Name, b.Name), cmp.Compare(a.ID, b.ID)) })
	for _, f := range p.view.Farms {
		slices.SortFunc(f.Fields, func(a, b *FieldView) int { return cmp.Or(cmp.Compare(a.Name, b.Name), cmp.Compare(a.ID, b.ID)) })
		for _, fd := range f.Fields {
			slices.SortStableFunc(fd.Stands, func(a, b *StandView) int { return cmp.Compare(a.Seeded, b.Seeded) })
		}
	}
}

func dated[T any](f Fact, b T) Dated[T] {
	return Dated[T]{ID: f.ID, Subject: f.Subject, Day: f.Day, Author: f.Author, Body: b}
}
