package husbandry_test

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"haywarden/agronomy/allot"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/husbandry"
	"haywarden/outlook"
)

var (
	feedDate = unit.DateOf(2026, time.March, 2)
	lastFall = unit.DateOf(2025, time.August, 10)
)

// dairy is a farm of cows and heifers with lots, and a price of hay where wanted.
func dairy(priced bool, lots ...*book.LotView) *outlook.Outlook {
	herd := book.Herd{Groups: []book.Group{
		{Name: "cows", Kind: book.Lactating, Head: 60, WeightLb: 1500, IntakeLb: 50, ForageShare: 0.5, LegumeShare: 1, DaysInMilk: 60, MilkLb: 80, Fat: 3.8},
		{Name: "heifers", Kind: book.Heifer, Head: 40, WeightLb: 1200, IntakeLb: 24, ForageShare: 1, LegumeShare: 1},
	}}
	f := &book.FarmView{ID: "farm", Farm: book.Farm{Name: "Alder Run"}, Lots: lots, Herds: []book.Dated[book.Herd]{{Day: lastFall, Body: herd}}}
	v := &book.View{Date: feedDate, Farms: []*book.FarmView{f}}
	if priced {
		v.Prices = []book.Deck{{Day: feedDate, Body: book.Prices{Name: "March", Lines: []book.PriceLine{{Name: book.HayBase, Unit: "$/ton", Value: 180}, {Name: book.HayBaseRFV, Unit: "RFV", Value: 150}, {Name: book.HayPerPoint, Unit: "$/ton", Value: 1}, {Name: book.HayHauling, Unit: "$/ton", Value: 15}}}}}
	}
	return &outlook.Outlook{Date: feedDate, View: v}
}

func feedOf(t *testing.T, o *outlook.Outlook) *outlook.Farm {
	t.Helper()
	all, err := husbandry.Feed(t.Context(), o)
	if err != nil || len(all) != 1 {
		t.Fatalf("%d farms with feed: %v", len(all), err)
	}
	return all[0]
}

func lot(name, store string, b book.FeedLot) *book.LotView {
	b.Name, b.Store, b.Forage = name, store, "legume"
	return &book.LotView{ID: name, FeedLot: b, Filled: lastFall}
}

func tons(name string, tons, rfq float64) *book.LotView {
	return lot(name, "inside", book.FeedLot{TonsDM: tons, RFQ: rfq, Wet: 13})
}

func TestWhatIsInStoreIsCountedByItsMeasure(t *testing.T) {
	for name, tc := range map[string]struct {
		lot         *book.LotView
		mid, around float64
		how         string
	}{
		// pi/4 x 9^2 x 132 x 12 / 2000
		"a cored bag":              {lot("x", "bag", book.FeedLot{Size: &book.LotSize{Diameter: 9, Length: 132, Density: 12, By: "cores"}}), 50.38, 0.10, "by cores"},
		"a bag by a usual density": {lot("x", "bag", book.FeedLot{Size: &book.LotSize{Diameter: 8, Length: 150}}), 47.12, 0.20, "usual bag"},
		"a bunker by packing":      {lot("x", "bunker", book.FeedLot{Size: &book.LotSize{Width: 40, Length: 100, Wall: 10, Crown: 12, Ramp: 20, Density: 15, By: "packing"}}), 306, 0.20, "packing"},
		"a tower by the table":     {lot("x", "stave-tower", book.FeedLot{Size: &book.LotSize{Diameter: 20, Height: 60}}), 112.15, 0.10, "table of towers"},
		"weighed bales":            {lot("x", "inside", book.FeedLot{Wet: 14, Bales: &book.LotBales{Number: 100, WeighLb: 1100, Weighed: true}}), 47.3, 0.05, "weighed"},
		"guessed bales":            {lot("x", "inside", book.FeedLot{Wet: 14, Bales: &book.LotBales{Number: 100, WeighLb: 1100}}), 47.3, 0.10, "weigh three"},
		"tons as told":             {tons("x", 80, 140), 80, 0.10, "as told"},
	} {
		t.Run(name, func(t *testing.T) {
			l := feedOf(t, dairy(false, tc.lot)).Lots[0]
			if math.Abs(l.Tons.Mid-tc.mid) > 0.01 || math.Abs(l.Tons.High/l.Tons.Mid-1-tc.around) > 1e-9 || math.Abs(1-l.Tons.Low/l.Tons.Mid-tc.around) > 1e-9 || !strings.Contains(l.How, tc.how) {
				t.Errorf("%+v by %q, want %g tons within %g by %q", l.Tons, l.How, tc.mid, tc.around, tc.how)
			}
		})
	}
}

func TestAStockGoesDownFromWhereItWasLastSeen(t *testing.T) {
	l := lot("x", "stave-tower", book.FeedLot{Size: &book.LotSize{Diameter: 20, Height: 60}})
	l.Left = []book.Dated[book.LotLeft]{{Day: feedDate - 10, Body: book.LotLeft{Removed: new(25.)}}}
	l.Fed = []book.Dated[book.LotFed]{{Day: feedDate - 100, Body: book.LotFed{LbDay: 3000}}, {Day: feedDate - 30, Body: book.LotFed{LbDay: 1000, Group: "cows"}}}
	got := feedOf(t, dairy(false, l)).Lots[0]
	// 79.168 tons when it was seen; ten days of half a ton since, with what the store took of them: half of
	// a stave tower's 10 %, for it was measured since it was filled.
	if want := 79.168 - 5/0.95; math.Abs(got.Tons.Mid-want) > 0.001 || math.Abs(got.Loss-0.05) > 1e-9 {
		t.Errorf("%g tons with %g to be lost, want %g and 0.05", got.Tons.Mid, got.Loss, want)
	}
	if want := got.Tons.Mid * 0.95 * 2000 / 7000; math.Abs(got.Weeks-want) > 1e-9 || got.RunsOut != feedDate+unit.Day(7*want) {
		t.Errorf("lasts %g weeks until %s, want %g", got.Weeks, got.RunsOut, want)
	}
	// The error stays that of the full tower.
	if around := got.Tons.High - got.Tons.Mid; math.Abs(around-11.215) > 0.001 {
		t.Errorf("known within %g tons, want a tenth of 112.15", around)
	}
}

func TestALackOfTonsIsToldApartFromALackOfQuality(t *testing.T) {
	// 60 x 25 lb and 40 x 24 lb a day: 1500 and 960; from 2 March to three weeks after 1 June, 112 days.
	for name, tc := range map[string]struct {
		lots              []*book.LotView
		quantity, quality bool
		short             []bool // by class, from the most demanding on
	}{
		"enough of both":       {[]*book.LotView{tons("good", 130, 160), tons("fair", 90, 118)}, false, false, []bool{false, false}},
		"short of tons":        {[]*book.LotView{tons("good", 110, 160)}, true, false, []bool{false, true}},
		"short of quality":     {[]*book.LotView{tons("good", 20, 160), tons("fair", 200, 118)}, false, true, []bool{true, false}},
		"short of both":        {[]*book.LotView{tons("good", 20, 160), tons("poor", 60, 80)}, true, true, []bool{true, true}},
		"tons nobody tested":   {[]*book.LotView{tons("untested", 300, 0)}, false, true, []bool{true, true}},
		"rained on and plenty": {[]*book.LotView{tons("good", 100, 160), tons("rained", 200, 80)}, false, true, []bool{false, true}},
	} {
		t.Run(name, func(t *testing.T) {
			f := feedOf(t, dairy(true, tc.lots...))
			if f.Plan == nil {
				t.Fatal(f.NoPlan)
			}
			if f.Opens != unit.DateOf(2026, time.June, 22) {
				t.Errorf("opened on %s", f.Opens)
			}
			if g := f.Plan.Gaps; g.Quantity > 0 != tc.quantity || g.Quality > 0 != tc.quality {
				t.Errorf("gaps %+v", g)
			}
			for i, want := range tc.short {
				if c := f.Classes[i]; c.Gap > 0 != want {
					t.Errorf("%s: %g tons short, of %g", c.Name, c.Gap, c.Supply.Mid)
				}
			}
		})
	}
}

func TestOneMoreTonIsWorthWhatItSpares(t *testing.T) {
	f := feedOf(t, dairy(true, tons("good", 20, 160), tons("fair", 200, 118)))
	// Hay for the cows, RFQ 140 by the table, is bought at 170 $/ton and hauled for 15, of 88 % dry matter.
	if worth, ok := f.TonWorth(150); !ok || math.Abs(worth-185/0.88) > 1e-6 {
		t.Errorf("a ton for the cows is worth %g, want %g", worth, 185/0.88)
	}
	if worth, _ := f.TonWorth(118); worth >= 185/0.88-1 {
		t.Errorf("a ton for the heifers, who have enough, is worth %g", worth)
	}
	f = feedOf(t, dairy(false, tons("good", 20, 160), tons("fair", 200, 118)))
	if worth, ok := f.TonWorth(150); !ok || worth != 1 || !f.Plan.Ask.Tons || len(f.Prices) > 0 {
		t.Errorf("without a price a ton spares %g tons; prices %q", worth, f.Prices)
	}
	if !slices.ContainsFunc(f.Lacks, func(s string) bool { return strings.Contains(s, "hay-base") }) {
		t.Errorf("that no price of hay is entered is not said: %q", f.Lacks)
	}
}

func TestAFarmThatToldLittleIsAskedForTheRest(t *testing.T) {
	o := dairy(true)
	if all, err := husbandry.Feed(t.Context(), o); err != nil || len(all) > 0 {
		t.Errorf("a farm without stores has feed: %v %v", all, err)
	}
	f, err := husbandry.FeedOf(t.Context(), o, o.View.Farms[0])
	if err != nil || f.Plan != nil || !strings.Contains(f.NoPlan, "No feed in store was told") || len(f.Classes) > 0 {
		t.Errorf("no stores: %+v %v", f, err)
	}
	o = dairy(true, tons("good", 20, 160))
	o.View.Farms[0].Herds = nil
	if f := feedOf(t, o); f.Plan != nil || !strings.Contains(f.NoPlan, "No herd was told") {
		t.Errorf("no herd: %q", f.NoPlan)
	}
	f = feedOf(t, dairy(true, lot("bag", "bag", book.FeedLot{RFQ: 150, Size: &book.LotSize{Length: 100}})))
	if len(f.Lots) != 1 || f.Lots[0].Tons.Mid != 0 || !strings.Contains(f.Lots[0].How, "diameter") || !strings.Contains(strings.Join(f.Lacks, " "), "what is in bag") {
		t.Errorf("a bag without a diameter: %+v, lacks %q", f.Lots, f.Lacks)
	}
	f = feedOf(t, dairy(true, tons("fed up", 10, 150)))
	f.Lots[0].LotView.Left = []book.Dated[book.LotLeft]{{Day: feedDate, Body: book.LotLeft{TonsDM: new(0.)}}}
	if f = feedOf(t, dairy(true, f.Lots[0].LotView, tons("other", 9, 150))); len(f.Lots) > 2 {
		t.Errorf("%d lots", len(f.Lots))
	}
}

func TestAllocateByRulesOfTheAskers(t *testing.T) {
	o := dairy(true, tons("good", 200, 160), tons("fair", 200, 118))
	f := feedOf(t, o)
	p, err := husbandry.Allocate(t.Context(), o.View, f, allot.ByFloor, true)
	if err != nil {
		t.Fatal(err)
	}
	if p.Fed[0][0] > 0 || p.Fed[1][1] > 0 || p.Purchase[0]+p.Purchase[1] > 0 {
		t.Errorf("each lot to one group: %v, bought %v", p.Fed, p.Purchase)
	}
	if _, err := husbandry.Allocate(t.Context(), o.View, f, "best", false); err == nil || !strings.Contains(err.Error(), "accepted floor or blend") {
		t.Errorf("a rule nobody knows: %v", err)
	}
}

func TestQualityIsThatOfTheLaboratoryBeforeWhatWasTold(t *testing.T) {
	l := tons("first", 100, 130)
	l.Stands, l.Cutting = []string{"a", "b"}, 1
	o := dairy(true, l)
	f := o.View.Farms[0]
	result := func(day unit.Day, ndf float64, cutting int, lotName string, more map[string]float64) book.Dated[book.Lab] {
		return book.Dated[book.Lab]{Day: day, Body: book.Lab{Sample: "hay", ADF: 30, NDF: ndf, Cutting: cutting, Lot: lotName, More: more}}
	}
	a := &book.StandView{ID: "a", Labs: []book.Dated[book.Lab]{result(lastFall+20, 40, 1, "", map[string]float64{"rfq": 150}), result(lastFall+40, 50, 2, "", nil)}}
	b := &book.StandView{ID: "b", Labs: []book.Dated[book.Lab]{result(lastFall+20, 44, 0, "", map[string]float64{"rfq": 140})}}
	other := &book.StandView{ID: "c", Labs: []book.Dated[book.Lab]{result(lastFall+20, 60, 1, "", nil)}}
	f.Fields = []*book.FieldView{{Stands: []*book.StandView{a, b, other}}}
	got := feedOf(t, o).Lots[0]
	if got.RFQ != 145 || got.NDF != 42 || !strings.Contains(got.From, "mean of 2 fields") {
		t.Errorf("RFQ %g and NDF %g by %q, want 145 and 42 by two fields", got.RFQ, got.NDF, got.From)
	}
	other.Labs = append(other.Labs, result(lastFall+200, 45, 0, "FIRST", nil))
	if got = feedOf(t, o).Lots[0]; !strings.Contains(got.From, "RFV in the place of RFQ, mean of 3") {
		t.Errorf("a result that names the lot: %q", got.From)
	}
}
