package book_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haywarden/agronomy/unit"
	"haywarden/book"
)

func deckOf(t *testing.T, n int, farm string, day unit.Day, lines ...book.PriceLine) book.Fact {
	t.Helper()
	return fact(t, n, farm, "deck", day, book.Prices{Name: "deck " + day.String(), Lines: lines})
}

func line(name, unitName string, v float64) book.PriceLine {
	return book.PriceLine{Name: name, Unit: unitName, Value: v}
}

func TestALineComesFromTheNewestDeckThatHasItTheFarmsOwnFirst(t *testing.T) {
	facts := append(ridge(t),
		deckOf(t, 10, "", may1, line(book.HayBase, "$/ton", 180), line(book.HayBaseRFV, "RFV", 150), line(book.HayPerPoint, "$/ton", 1.2), line(book.HayFloor, "$/ton", 90), line(book.Corn, "$/bu", 4.5)),
		deckOf(t, 11, "", may1+10, line(book.Diesel, "$/gal", 3.5)),
		deckOf(t, 12, "farm-1", may1+2, line(book.HayBase, "$/ton", 220), line(book.HayBaseRFV, "RFV", 140)),
		deckOf(t, 13, "farm-1", may1+3, line(book.HarvestCost, "$/ac", 60), line(book.Milk, "$/lb", 0.2)),
	)
	v := project(t, facts, may1+70, later)
	type got struct {
		Value float64
		Own   bool
		Old   bool
		OK    bool
	}
	for _, c := range []struct {
		name string
		farm *book.FarmView
		line string
		want got
	}{
		{"the farm's own hay", v.Farms[0], book.HayBase, got{220, true, false, true}},
		{"with its own reference", v.Farms[0], book.HayBaseRFV, got{140, true, false, true}},
		{"and no slope of another deck", v.Farms[0], book.HayPerPoint, got{}},
		{"nor another's floor", v.Farms[0], book.HayFloor, got{}},
		{"the book's corn, by now old", v.Farms[0], book.Corn, got{4.5, false, true, true}},
		{"the book's diesel, 60 days old", v.Farms[0], book.Diesel, got{3.5, false, false, true}},
		{"the farm's own harvest", v.Farms[0], book.HarvestCost, got{60, true, false, true}},
		{"the book's hay", nil, book.HayBase, got{180, false, false, true}},
		{"what only the farm has", nil, book.HarvestCost, got{}},
		{"what nobody has", v.Farms[0], book.Straw, got{}},
	} {
		p, ok := v.Price(c.farm, c.line)
		if diff := cmp.Diff(c.want, got{p.Value, p.Own, p.Old, ok}); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, diff)
		}
	}
	if p, ok := v.Price(v.Farms[0], book.Milk); ok {
		t.Errorf("milk in $/lb was taken for $/cwt: %+v", p)
	}
}

func TestEveryKindOfPriceHasARangeAndAName(t *testing.T) {
	seen := map[string]bool{}
	for _, k := range book.PriceKinds() {
		if seen[k.Name] || k.Title == "" || k.Group == "" || k.Unit == "" || !(k.Low < k.High) || k.Fresh < 30 {
			t.Errorf("%+v", k)
		}
		seen[k.Name] = true
		for v, ok := range map[float64]bool{k.Low: true, k.High: true, (k.Low + k.High) / 2: true, k.Low - 0.01: false, k.High + 0.01: false, -1: false} {
			if err := k.Accept(line(k.Name, k.Unit, v)); (err == nil) != ok {
				t.Errorf("%s %g: %v", k.Name, v, err)
			}
		}
		if k.Accept(line(k.Name, "$/stone", k.Low)) == nil {
			t.Errorf("%s is taken in $/stone", k.Name)
		}
	}
}

func TestHerdsMachinesAndCautionAsLastTold(t *testing.T) {
	v := project(t, append(ridge(t),
		fact(t, 20, "farm-1", "farm-1", may1, book.Herd{Groups: []book.Group{{Name: "all", Kind: book.Heifer, Head: 9, WeightLb: 900, ForageShare: 1}}}),
		fact(t, 21, "farm-1", "farm-1", may1+3, book.Herd{}),
		fact(t, 22, "farm-1", "farm-1", may1, book.Machines{CrewHours: 8}),
		fact(t, 23, "", "book", may1, book.Caution{How: "careful"}),
	), may1+4, later)
	f := v.Farms[0]
	if h, ok := f.Herd(); !ok || len(h.Body.Groups) != 0 || h.Day != may1+3 {
		t.Errorf("herd %+v (%t), want the newer, empty one", h, ok)
	}
	if k, ok := f.Kit(); !ok || k.Body.CrewHours != 8 {
		t.Errorf("machines %+v (%t)", k, ok)
	}
	if how, own := v.HowCareful(f); how != "careful" || own {
		t.Errorf("%q, own %t; want the book's careful", how, own)
	}
	f.Caution = append(f.Caution, book.Dated[book.Caution]{Body: book.Caution{How: "safest only"}})
	if how, own := v.HowCareful(f); how != "safest only" || !own {
		t.Errorf("%q, own %t; want the farm's", how, own)
	}
	if how, _ := v.HowCareful(nil); how != "careful" {
		t.Errorf("%q, want the book's", how)
	}
}

func TestWhatCannotBeTrueOfHerdAndMachinesIsRefused(t *testing.T) {
	cow := book.Group{Name: "high", Kind: book.Lactating, Head: 80, WeightLb: 1500, MilkLb: 90, Fat: 3.8, DaysInMilk: 120, ForageShare: 0.5, LegumeShare: 0.5}
	with := func(change func(*book.Group)) book.Herd {
		g := cow
		change(&g)
		return book.Herd{Groups: []book.Group{g}}
	}
	low, high := 160., 140.
	for want, body := range map[string]book.Body{
		"":                              book.Herd{Groups: []book.Group{cow}},
		"head -1: accepted 0 to 100000": with(func(g *book.Group) { g.Head = -1 }),
		"weight 15: accepted 80 to":     with(func(g *book.Group) { g.WeightLb = 15 }),
		"add to 1.10":                   with(func(g *book.Group) { g.SilageShare = 0.6 }),
		"milk is missing":               with(func(g *book.Group) { g.MilkLb = 0 }),
		"days in milk is missing":       with(func(g *book.Group) { g.DaysInMilk = 0 }),
		`kind "cow": accepted`:          with(func(g *book.Group) { g.Kind = "cow" }),
		`is there twice`:                book.Herd{Groups: []book.Group{cow, cow}},
		"storage loss 1: accepted":      book.Herd{Crops: []book.ForageCrop{{Forage: "legume", Storage: 1}}},
		`edition "1989"`:                book.Herd{Edition: "1989"},
		"width 0: accepted 0.5 to 100":  book.Machines{Machines: []book.Machine{{Name: "m", Kind: "rake"}}},
		"salvage 9 is over the price":   book.Machines{Machines: []book.Machine{{Name: "m", Kind: "rake", WidthFt: 9, Price: 5, Salvage: 9}}},
		"is before from":                book.Machines{Busy: []book.Busy{{What: "x", From: may1, To: may1 - 1}}},
		"crew hours 30":                 book.Machines{CrewHours: 30},
		`how cautious "bold": accepted`: book.Caution{How: "bold"},
		"RFQ from 160 is over RFQ to":   book.Quality{Base: "wisconsin", Rows: []book.QualityRow{{Group: "heifers", RFQLow: &low, RFQHigh: &high}}},
	} {
		err := body.Check()
		if want == "" && err != nil || want != "" && (err == nil || !strings.Contains(err.Error(), want)) {
			t.Errorf("error %v, want one that says %q", err, want)
		}
	}
}
