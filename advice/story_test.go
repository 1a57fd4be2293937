package advice_test

import (
	"math"
	"math/rand/v2"
	"strings"
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
		b := weather.NewBlock("ZZT00000001", y)
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
	return weather.NewSeries(weather.Station{ID: "ZZT00000001", Name: "Test Ridge"}, blocks, unit.DateOf(2026, 12, 31))
}

func day(s string) unit.Day {
	d, err := unit.ParseDay("2026-" + s)
	if err != nil {
		panic(err)
	}
	return d
}

// stand is one stand on a farm of its own.
type stand struct {
	book.Stand
	name   string
	visits map[string]book.Visit
	cuts   []string
	prices bool
}

func alfalfa(name string) *stand {
	return &stand{name: name, Stand: book.Stand{Crop: book.Alfalfa, Seeded: unit.DateOf(2023, 4, 20), Product: book.Haylage, FeedRFV: 150}, visits: map[string]book.Visit{}}
}

func stick(height float64, stage book.Stage) book.Visit {
	var v book.Visit
	for i := range 5 {
		v.Spots = append(v.Spots, book.Spot{HeightIn: height + float64(i-2)*0.6, Stage: stage})
	}
	return v
}

func stems(counts ...int) book.Visit {
	var v book.Visit
	for _, c := range counts {
		v.Frames = append(v.Frames, book.Frame{Stems: &c, Ft2: 2})
	}
	return v
}

// round makes the round of a date over the stands.
func round(t *testing.T, date unit.Day, series *weather.Series, stands ...*stand) *advice.Round {
	t.Helper()
	v := &book.View{Date: date, Place: book.Place{Region: "Test", Guide: "Wisconsin"}}
	for _, s := range stands {
		farm := &book.FarmView{ID: "farm-" + s.name, Farm: book.Farm{Name: s.name}}
		field := &book.FieldView{ID: "field-" + s.name, Field: book.Field{Name: "Field of " + s.name, Acres: 30, Station: "ZZT00000001", Latitude: 43, Longitude: -89}, Farm: farm}
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
		if s.prices {
			farm.Prices = []book.Deck{{Day: day("03-01"), Body: book.Prices{Name: "Test deck", Lines: []book.PriceLine{
				{Name: book.HayBase, Unit: "$/ton", Value: 176}, {Name: book.HayBaseRFV, Unit: "RFV", Value: 137.5}, {Name: book.HayPerPoint, Unit: "$/ton", Value: 1.3}}}}}
		}
		field.Stands = []*book.StandView{sv}
		farm.Fields = []*book.FieldView{field}
		v.Farms = append(v.Farms, farm)
	}
	skies := map[string]*outlook.Sky{}
	if series != nil {
		skies["ZZT00000001"] = outlook.NewSky(series, date)
	}
	o, err := outlook.Build(v, skies)
	if err != nil {
		t.Fatal(err)
	}
	return advice.Make(o)
}

func find(r *advice.Round, name, decision string) *advice.Piece {
	for _, p := range r.Pieces {
		if p.Stand.Farm.Name == name && p.Decision == decision {
			return p
		}
	}
	return nil
}

func says(t *testing.T, p *advice.Piece, words ...string) {
	t.Helper()
	if p == nil {
		t.Errorf("no advice; want one that says %q", words)
		return
	}
	all := p.Title + " | " + p.Sentence + " | " + p.Worth.Text + " | " + p.Measure
	for _, g := range p.Grounds {
		all += " | " + g.What + ": " + g.Value + " (" + g.How + ")"
	}
	for _, r := range p.Rules {
		all += " | " + r.Says + " (" + r.Here + ")"
	}
	for _, w := range words {
		if !strings.Contains(all, w) {
			t.Errorf("%q does not say %q", all, w)
		}
	}
}

func TestTheFirstCutOfAPureStandFromWatchToTooLate(t *testing.T) {
	series := sky(nil)
	s := alfalfa("Alder")
	s.visits["05-18"] = stick(22, book.Vegetative)
	s.visits["05-22"] = stick(26, book.Bud)
	last := advice.Rest
	for _, c := range []struct {
		date string
		want advice.Urgency
	}{{"05-18", advice.Watch}, {"05-23", advice.Week}, {"05-29", advice.Today}, {"06-12", advice.Today}} {
		p := find(round(t, day(c.date), series, s), "Alder", "first-cut")
		if p == nil {
			t.Errorf("%s: nothing said of the cut", c.date)
			continue
		}
		if p.Urgency > last || p.Urgency > c.want {
			t.Errorf("%s: %s (%q), want %s or sooner", c.date, p.Urgency.Key(), p.Title, c.want.Key())
		}
		last = p.Urgency
		w := p.Window
		if w.Early > w.Middle || w.Middle > w.Late || w.Late-w.Early < 3 || w.Late-w.Early > 30 {
			t.Errorf("%s: window %s, %s, %s", c.date, w.Early, w.Middle, w.Late)
		}
		if p.Worth.Dollars != nil || strings.Contains(p.Worth.Text, "$") {
			t.Errorf("%s: dollars without a price deck: %+v", c.date, p.Worth)
		}
	}
	s.visits["05-27"] = stick(28, book.Bud)
	says(t, find(round(t, day("05-29"), series, s), "Alder", "first-cut"), "165", "150 for the cow as haylage", "Stick reading of 27 May", "Heat since 1 March", "correlation 0.5", "170", "3 to 5 points")
}

func TestDollarsNameTheirDeckAndAreOrdered(t *testing.T) {
	s := alfalfa("Alder")
	s.prices = true
	s.visits["05-26"] = stick(28, book.Bud)
	p := find(round(t, day("05-27"), sky(nil), s), "Alder", "first-cut")
	if p == nil || p.Worth.Dollars == nil {
		t.Fatalf("no dollars: %+v", p)
	}
	d := p.Worth.Dollars
	if !(d.Low <= d.Middle && d.Middle <= d.High) || !strings.Contains(d.Line, "Test deck (2026-03-01)") || !strings.Contains(d.Line, "$1.30 a point") {
		t.Errorf("worth %+v", d)
	}
	if p.LossShare <= 0 || p.LossShare > 0.05 {
		t.Errorf("a day of waiting loses %.4f of the year", p.LossShare)
	}
}

func TestATallerStandIsNeverCutLater(t *testing.T) {
	series := sky(nil)
	last := unit.Day(1 << 30)
	for _, h := range []float64{20, 23, 26, 29, 32} {
		s := alfalfa("Alder")
		s.visits["05-22"] = stick(h, book.Bud)
		p := find(round(t, day("05-23"), series, s), "Alder", "first-cut")
		if p == nil {
			t.Fatalf("%.0f in: nothing said", h)
		}
		if p.Window.Middle > last {
			t.Errorf("%.0f in: %s, later than a shorter stand's %s", h, p.Window.Middle, last)
		}
		last = p.Window.Middle
	}
}

func TestAStandWithoutAReadingBorrowsFromItsKind(t *testing.T) {
	var stands []*stand
	for _, n := range []string{"A", "B", "C", "D"} {
		s := alfalfa(n)
		s.Sentinel = true
		s.visits["05-22"] = stick(26, book.Bud)
		stands = append(stands, s)
	}
	unread, clover := alfalfa("Unread"), alfalfa("Clover")
	clover.Crop = book.RedClover
	r := round(t, day("05-23"), sky(nil), append(stands, unread, clover)...)
	p := find(r, "Unread", "first-cut")
	says(t, p, "no reading here", "four fields read nearby")
	own := find(r, "A", "first-cut")
	if p.Stand.Standing.SD <= own.Stand.Standing.SD {
		t.Errorf("borrowed ± %.1f, read ± %.1f", p.Stand.Standing.SD, own.Stand.Standing.SD)
	}
	if find(r, "Clover", "first-cut") != nil || find(r, "Clover", "clover-cut").Stand.Standing != nil {
		t.Error("red clover was given a feed value")
	}
}

func TestGrassBringsTheCutForwardAndHasNoFeedValue(t *testing.T) {
	series := sky(nil)
	last := unit.Day(1 << 30)
	for _, grass := range []float64{0.2, 0.4, 0.7} {
		s := alfalfa("Mixed")
		s.Crop, s.GrassShare = book.AlfalfaGrass, grass
		s.visits["05-10"] = stick(17, book.Vegetative)
		p := find(round(t, day("05-12"), series, s), "Mixed", "first-cut")
		says(t, p, "grass", "tallest alfalfa")
		if p == nil {
			continue
		}
		if strings.Contains(p.Sentence+p.Worth.Text, "RFV") || p.Stand.Standing != nil {
			t.Errorf("a mixture was given a feed value: %q", p.Sentence)
		}
		if p.Window.Middle > last {
			t.Errorf("%.0f %% grass: %s, later than with less", 100*grass, p.Window.Middle)
		}
		last = p.Window.Middle
	}
}

func TestRedCloverIsLedByStageWithLowConfidence(t *testing.T) {
	s := alfalfa("Clover")
	s.Crop = book.RedClover
	bloom := 25.0
	s.visits["06-03"] = book.Visit{Bloom: &bloom}
	says(t, find(round(t, day("05-25"), sky(nil), s), "Clover", "clover-cut"), "bud to 20 % bloom", "low confidence")
	p := find(round(t, day("06-04"), sky(nil), s), "Clover", "clover-cut")
	says(t, p, "past 20 %")
	if p != nil && p.Urgency != advice.Today {
		t.Errorf("past 20 %% bloom: %s", p.Urgency.Key())
	}
}

func TestThirdGrowthIsLedByDaysAndStage(t *testing.T) {
	s := alfalfa("Alder")
	s.cuts = []string{"05-28", "06-28"}
	s.visits["07-22"] = stick(20, book.Bud)
	p := find(round(t, day("07-24"), sky(nil), s), "Alder", "later-cut")
	says(t, p, "Day 26 of its third growth", "Days and stage lead", "25 to 30 days")
	if p != nil && p.Stand.Standing != nil {
		t.Error("a third growth was given a feed value")
	}
	if p != nil && p.Window.Early < day("06-28")+25 {
		t.Errorf("a third cut from %s, under 25 days", p.Window.Early)
	}
}

func TestSecondGrowthReadWithTheStickGoesByFeedValue(t *testing.T) {
	s := alfalfa("Alder")
	s.cuts = []string{"05-24"}
	s.visits["06-16"] = stick(24, book.Bud)
	p := find(round(t, day("06-18"), sky(nil), s), "Alder", "later-cut")
	says(t, p, "Standing feed value")
}

// frostOn makes one night cold enough to kill tops.
func frostOn(night unit.Day) func(unit.Day, *weather.Obs) {
	return func(d unit.Day, o *weather.Obs) {
		if d == night {
			o.Value[weather.TMin], o.Value[weather.TMax] = -65, 80 // 20 F to 46 F
		}
	}
}

func TestASpringFrostSuspendsTheWindowsUntilTheTipsAreSeen(t *testing.T) {
	series := sky(frostOn(day("05-12")))
	tall := func() *stand {
		s := alfalfa("Alder")
		s.visits["05-09"] = stick(16, book.Vegetative)
		return s
	}
	r := round(t, day("05-13"), series, tall())
	says(t, find(r, "Alder", "growing-tips"), "20 °F", "15 May")
	if find(r, "Alder", "first-cut") != nil || find(r, "Alder", "stick-reading") != nil {
		t.Error("heat or stick spoke before the tips were seen")
	}
	if p := find(round(t, day("05-15"), series, tall()), "Alder", "growing-tips"); p == nil || p.Urgency != advice.Today {
		t.Errorf("on the third day: %+v", p)
	}
	sound := tall()
	sound.visits["05-15"] = book.Visit{Tips: book.TipsSound}
	sound.visits["05-24"] = stick(25, book.Bud)
	r = round(t, day("05-25"), series, sound)
	if find(r, "Alder", "growing-tips") != nil {
		t.Error("a sound look did not lift the frost")
	}
	p := find(r, "Alder", "first-cut")
	says(t, p, "Stick reading of 24 May")
	for _, b := range p.Stand.Standing.From {
		if b.Name == outlook.BasisHeat {
			t.Error("heat was used after a killing frost")
		}
	}
	killed := tall()
	killed.visits["05-15"] = book.Visit{Tips: book.TipsKilled}
	says(t, find(round(t, day("05-17"), series, killed), "Alder", "growing-tips"), "killed", "do not call the next cut by heat")
	short := alfalfa("Short")
	five := 5.0
	short.visits["05-09"] = book.Visit{GrowthIn: &five}
	if find(round(t, day("05-13"), series, short), "Short", "growing-tips") != nil {
		t.Error("five inches of growth were taken for tall enough to lose tops")
	}
}
