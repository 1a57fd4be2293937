package advice_test

import (
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"sync"
	"testing"

	"haywarden/advice"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/outlook"
	"haywarden/weather"
)

// sky is a station with 30 years of sine seasons and noise that hangs on to its past, warm enough for
// first cut in late May and frost in October. change lays a finger on it.
func sky(change func(d unit.Day, o *weather.Obs)) *weather.Series {
	r := rand.New(rand.NewPCG(11, 4))
	var blocks []*weather.Block
	carry := 0.0
	for y := 1996; y <= 2026; y++ {
		b := weather.NewBlock(station, y)
		for i := range b.Days {
			carry = 0.6*carry + 2.2*r.NormFloat64()
			mean := 7.5 + 14.5*math.Sin(2*math.Pi*(float64(i)-111)/365.25) + carry
			o := &b.Days[i]
			o.Value[weather.TMax], o.Mark[weather.TMax] = int16(math.Round((mean+6)*10)), weather.Reported
			o.Value[weather.TMin], o.Mark[weather.TMin] = int16(math.Round((mean-5)*10)), weather.Reported
			rain := int16(0)
			if r.Float64() < 0.3 {
				rain = int16(5 + 80*r.ExpFloat64())
			}
			o.Value[weather.Rain], o.Mark[weather.Rain] = rain, weather.Reported
			if change != nil {
				change(unit.DateOf(y, 1, 1)+unit.Day(i), o)
			}
		}
		blocks = append(blocks, b)
	}
	return weather.NewSeries(weather.Station{ID: station, Name: "Test Ridge"}, blocks, unit.DateOf(2026, 12, 31))
}

func day(s string) unit.Day {
	d, err := unit.ParseDay("2026-" + s)
	if err != nil {
		panic(err)
	}
	return d
}

// plain is the station without a finger on it.
var plain = sync.OnceValue(func() *weather.Series { return sky(nil) })

const station = "ZZT00000001"

// stand is one stand on a farm of its own.
type stand struct {
	book.Stand
	name     string
	visits   map[string]book.Visit // by month and day of 2026
	cuts     []string
	bare     bool                        // the field never had a stand
	plans    map[string]book.SeedingPlan // by month and day of 2026 on which they were told
	deck     *book.Prices
	station  string
	east     float64                     // degrees from where all others lie
	soil     map[string]book.SoilTest    // by year, month and day
	tissue   map[string]book.TissueTest  // by month and day of 2026
	spread   map[string]book.Application // by month and day of 2026
	products []book.Dated[book.SprayProduct]
	sprayed  []book.Dated[book.Sprayed]
}

// hayPrices prices hay by the point, never under a floor.
func hayPrices(floor float64) *book.Prices {
	return &book.Prices{Name: "Test deck", Lines: []book.PriceLine{
		{Name: book.HayBase, Unit: "$/ton", Value: 176}, {Name: book.HayBaseRFV, Unit: "RFV", Value: 137.5},
		{Name: book.HayPerPoint, Unit: "$/ton", Value: 1.3}, {Name: book.HayFloor, Unit: "$/ton", Value: floor},
	}}
}

func alfalfa(name string) *stand {
	return &stand{name: name, station: station, Stand: book.Stand{Crop: book.Alfalfa, Seeded: unit.DateOf(2023, 4, 20), Product: book.Haylage, FeedRFV: 150}, visits: map[string]book.Visit{}}
}

// stick is a reading of five spots around a height.
func stick(height float64, stage book.Stage) book.Visit {
	var v book.Visit
	for i := range 5 {
		v.Spots = append(v.Spots, book.Spot{HeightIn: height + float64(i-2)*0.6, Stage: stage})
	}
	return v
}

// stems is a count of frames of 2 ft2.
func stems(counts ...int) book.Visit {
	var v book.Visit
	for _, c := range counts {
		v.Frames = append(v.Frames, book.Frame{Stems: &c, Ft2: 2})
	}
	return v
}

// failer is what a test of the testing package and one of rapid have in common.
type failer interface {
	Helper()
	Fatal(args ...any)
}

// round makes the round of a date over the stands, by the Wisconsin guide.
func round(t failer, date unit.Day, series *weather.Series, stands ...*stand) *advice.Round {
	t.Helper()
	return roundIn(t, "Wisconsin", date, series, stands...)
}

// roundIn makes the round where another state's tables are used.
func roundIn(t failer, guide string, date unit.Day, series *weather.Series, stands ...*stand) *advice.Round {
	t.Helper()
	v := &book.View{Date: date, Place: book.Place{Region: "Test", Guide: guide}}
	for _, s := range stands {
		farm := &book.FarmView{ID: "farm-" + s.name, Farm: book.Farm{Name: s.name}}
		field := &book.FieldView{ID: "field-" + s.name, Field: book.Field{Name: "Field of " + s.name, Acres: 30, Station: s.station, Latitude: 43, Longitude: -89 + s.east}, Farm: farm}
		sv := &book.StandView{ID: "stand-" + s.name, Stand: s.Stand, Farm: farm, InField: field}
		for d := unit.DateOf(2026, 1, 1); d <= date; d++ {
			if visit, ok := s.visits[d.String()[5:]]; ok {
				sv.Visits = append(sv.Visits, book.Dated[book.Visit]{Day: d, Author: "jo", Body: visit})
			}
		}
		for i, c := range s.cuts {
			if day(c) <= date {
				sv.Cuts = append(sv.Cuts, book.Dated[book.Cut]{Day: day(c), Body: book.Cut{Number: i + 1}})
			}
		}
		for d := unit.DateOf(2026, 1, 1); d <= date; d++ {
			if plan, ok := s.plans[d.String()[5:]]; ok {
				field.Planned = append(field.Planned, book.Dated[book.SeedingPlan]{Day: d, Author: "jo", Body: plan})
			}
		}
		s.ofSoil(field, sv, date)
		farm.Products = s.products
		sv.Sprayed = slices.DeleteFunc(slices.Clone(s.sprayed), func(d book.Dated[book.Sprayed]) bool { return d.Day > date })
		if s.deck != nil {
			farm.Prices = []book.Deck{{Day: day("03-01"), Body: *s.deck}}
		}
		if !s.bare {
			field.Stands = []*book.StandView{sv}
		}
		farm.Fields = []*book.FieldView{field}
		v.Farms = append(v.Farms, farm)
	}
	skies := map[string]*outlook.Sky{}
	if series != nil {
		skies[station] = outlook.NewSky(series, date, outlook.SkyOptions{})
	}
	o, err := outlook.Build(v, skies)
	if err != nil {
		t.Fatal(err)
	}
	return advice.Make(o)
}

// ofSoil adds what was found in the soil and the tops, and what was spread.
func (s *stand) ofSoil(field *book.FieldView, sv *book.StandView, date unit.Day) {
	for _, d := range slices.Sorted(maps.Keys(s.soil)) {
		on, err := unit.ParseDay(d)
		if err != nil {
			panic(err)
		}
		if on <= date {
			field.SoilTests = append(field.SoilTests, book.Dated[book.SoilTest]{Day: on, Body: s.soil[d]})
		}
	}
	for _, d := range slices.Sorted(maps.Keys(s.tissue)) {
		if day(d) <= date {
			sv.Tissue = append(sv.Tissue, book.Dated[book.TissueTest]{Day: day(d), Body: s.tissue[d]})
		}
	}
	for _, d := range slices.Sorted(maps.Keys(s.spread)) {
		if day(d) <= date {
			field.Applications = append(field.Applications, book.Dated[book.Application]{Day: day(d), Body: s.spread[d]})
		}
	}
}

// find is a farm's piece of a decision, nil where there is none.
func find(r *advice.Round, name, decision string) *advice.Piece {
	for _, p := range r.Pieces {
		if p.Stand.Farm.Name == name && p.Decision == decision {
			return p
		}
	}
	return nil
}

// words is all that a piece says.
func words(p *advice.Piece) string {
	all := p.Title + " | " + p.Sentence + " | " + p.Worth.Text + " | " + p.Measure + " | " + strings.Join(p.Cautions, " | ")
	if p.Window != nil {
		all += " | " + p.Window.Means + " | " + p.Window.BestWhy
	}
	if d := p.Worth.Dollars; d != nil {
		all += " | " + d.Against + " | " + d.Line
	}
	for _, g := range p.Grounds {
		all += " | " + g.What + ": " + g.Value + " (" + g.How + ") " + g.Reckon
	}
	for _, r := range p.Rules {
		all += " | " + r.Says + " (" + r.Here + ") " + r.Differs
	}
	return all
}

// without wants a piece, if there is one, to say none of it.
func without(t *testing.T, p *advice.Piece, unwanted ...string) {
	t.Helper()
	if p == nil {
		return
	}
	for _, w := range unwanted {
		if all := words(p); strings.Contains(all, w) {
			t.Errorf("%q says %q", all, w)
		}
	}
}

// says wants a piece that is there and says all of it.
func says(t *testing.T, p *advice.Piece, want ...string) {
	t.Helper()
	if p == nil {
		t.Errorf("no advice; want one that says %q", want)
		return
	}
	all := words(p)
	for _, w := range want {
		if !strings.Contains(all, w) {
			t.Errorf("%q does not say %q", all, w)
		}
	}
}

// frostOn makes one night cold enough to kill tops.
func frostOn(night unit.Day) func(unit.Day, *weather.Obs) {
	return func(d unit.Day, o *weather.Obs) {
		if d == night {
			o.Value[weather.TMin], o.Value[weather.TMax] = -65, 80 // 20 F to 46 F
		}
	}
}
