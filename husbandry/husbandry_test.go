package husbandry_test

import (
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"haywarden/agronomy/budget"
	"haywarden/agronomy/risk"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/demo"
	"haywarden/husbandry"
)

var may19 = unit.DateOf(2026, time.May, 19)

func line(name string, v float64) book.PriceLine {
	k, _ := book.PriceKindOf(name)
	return book.PriceLine{Name: name, Unit: k.Unit, Value: v}
}

// farmWith is a view of one farm with a herd and prices of the book.
func farmWith(herd *book.Herd, lines ...book.PriceLine) (*book.View, *book.FarmView) {
	f := &book.FarmView{ID: "farm-1", Farm: book.Farm{Name: "Ridge"}}
	v := &book.View{Date: may19, Farms: []*book.FarmView{f}}
	if len(lines) > 0 {
		v.Prices = []book.Deck{{ID: "deck-1", Day: may19 - 9, Author: "ada", Body: book.Prices{Name: "May", Lines: lines}}}
	}
	if herd != nil {
		f.Herds = []book.Dated[book.Herd]{{Day: may19 - 30, Body: *herd}}
	}
	return v, f
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > within {
		t.Errorf("%s: %g, want %g ± %g", what, got, want, within)
	}
}

const kg = 1 / 0.45359237

func TestAHerdOfAHundredCowsNeedsWhatTheEquationsSay(t *testing.T) {
	// Intakes by the equations of 2001 (National Research Council) and, for heifers, of 2021; the shares
	// are made up. 680 kg, 45 kg of milk at 3.7 %, week 15: 61.90 lb; 700 kg, 28 kg at 4.0 %, week 35:
	// 51.97 lb; a dry cow of 720 kg, 250 days pregnant: 31.17 lb; heifers of 200 and 430 kg: 12.09 and
	// 20.77 lb. Forage 789.2 tons, legume 370.4 tons, stored 443.1, 104.3 acres (own arithmetic).
	herd := &book.Herd{Edition: "2001", Groups: []book.Group{
		{Name: "high", Kind: book.Lactating, Head: 50, WeightLb: 680 * kg, MilkLb: 45 * kg, Fat: 3.7, DaysInMilk: 105, ForageShare: .5, LegumeShare: .45},
		{Name: "low", Kind: book.Lactating, Head: 35, WeightLb: 700 * kg, MilkLb: 28 * kg, Fat: 4, DaysInMilk: 245, ForageShare: .58, LegumeShare: .45},
		{Name: "dry", Kind: book.DryCows, Head: 15, WeightLb: 720 * kg, DaysPregnant: 250, ForageShare: .85, LegumeShare: .25},
		{Name: "young", Kind: book.Heifer, Head: 45, WeightLb: 200 * kg, MatureLb: 700 * kg, ForageShare: .65, LegumeShare: .5},
		{Name: "old", Kind: book.Heifer, Head: 55, WeightLb: 430 * kg, MatureLb: 700 * kg, ForageShare: .85, LegumeShare: .6},
	}, Crops: []book.ForageCrop{{Forage: "legume", Yield: 5, Field: .15, Storage: .12, Feeding: .05}}}
	v, f := farmWith(herd)
	n, err := husbandry.NeedOf(v, f, husbandry.Growing{Acres: 90, Tons: 400})
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{61.90, 51.97, 31.17, 12.09, 20.77} {
		near(t, n.Groups[i].Name, n.Groups[i].IntakeLb, want, 0.01)
	}
	near(t, "forage", n.Forage, 789.2, 0.1)
	near(t, "legume fed", n.Crops[0].Fed, 370.4, 0.1)
	near(t, "stored", n.Crops[0].Stored, 443.1, 0.1)
	near(t, "acres", n.Crops[0].Acres, 104.3, 0.1)
	if g := n.Groups[0]; !(g.Low < g.IntakeLb && g.High == g.IntakeLb) || g.By != "edition 2001" || g.NEL == g.NELOther {
		t.Errorf("the high group %+v: want the range between the editions", g)
	}
	sum := 0.0
	for _, q := range n.Quality {
		sum += q.Legume
	}
	near(t, "legume by quality", sum, n.Crops[0].Fed, 0.01)
}

func TestAHerdOfNobodyIsAnsweredPlainly(t *testing.T) {
	for name, c := range map[string]struct {
		herd *book.Herd
		want string
	}{
		"none told":  {nil, "No herd was told"},
		"no group":   {&book.Herd{}, "has no animals"},
		"no animals": {&book.Herd{Groups: []book.Group{{Name: "x", Kind: book.Heifer, WeightLb: 900, ForageShare: 1}}}, "has no animals"},
	} {
		v, f := farmWith(c.herd)
		n, err := husbandry.NeedOf(v, f, husbandry.Growing{})
		if err != nil || !strings.Contains(n.None, c.want) || n.Forage != 0 {
			t.Errorf("%s: %+v, %v", name, n, err)
		}
	}
}

// part finds a part of a sheet.
func part(t *testing.T, s husbandry.Sheet, key string) husbandry.Part {
	t.Helper()
	i := slices.IndexFunc(s.Parts, func(p husbandry.Part) bool { return p.Key == key })
	if i < 0 {
		t.Fatalf("no part %s", key)
	}
	return s.Parts[i]
}

func value(t *testing.T, p husbandry.Part, what string) float64 {
	t.Helper()
	for _, r := range p.Rows {
		if r.What == what {
			return r.Value
		}
	}
	t.Errorf("%s has no row %q: %+v, lacking %q", p.Key, what, p.Rows, p.Lacks)
	return math.NaN()
}

func TestABudgetSpreadsSeedingWithInterestAndNamesItsPrices(t *testing.T) {
	// 480 $ at 6 % over 4 years is 138.52 $ a year (capital recovery); 4.5 tons; 4 cuts of 55 $.
	v, f := farmWith(nil, line(book.StandFixed, 300), line(book.Establishment, 480), line(book.Interest, 6), line(book.HarvestCost, 55))
	s := husbandry.SheetOf(v, f, husbandry.Field{Name: "North", Acres: 40, Yield: 4.5, First: 1.6, RFV: 150, Cuts: 4, Years: 4})
	y := part(t, s, "year")
	near(t, "seeding", value(t, y, "the year's part of seeding"), 138.52, 0.005)
	near(t, "in all", value(t, y, "in all"), 658.52, 0.005)
	near(t, "a ton", value(t, y, "a ton of dry matter"), 658.52/4.5, 0.005)
	if len(y.Prices) != 4 || !strings.Contains(y.Prices[0], "May of 2026-05-10") {
		t.Errorf("prices %q", y.Prices)
	}
	for _, key := range []string{"standing", "trade", "rent", "one-more-cut"} {
		if p := part(t, s, key); p.Says != "" || len(p.Lacks) == 0 || !strings.Contains(strings.Join(p.Lacks, " "), book.HayBase) {
			t.Errorf("%s without a price of hay says %q and lacks %q", key, p.Says, p.Lacks)
		}
	}
}

func TestNothingIsSaidInDollarsWithoutAPrice(t *testing.T) {
	v, f := farmWith(nil)
	s := husbandry.SheetOf(v, f, husbandry.Field{Name: "North", Acres: 40, Yield: 4.5, First: 1.6, RFV: 150, Cuts: 4, Years: 4})
	for _, p := range append(s.Parts, husbandry.Lines(v, f, husbandry.Reference())) {
		if len(p.Lacks) == 0 || p.Says != "" || len(p.Rows) > 0 || len(p.Prices) > 0 {
			t.Errorf("%s: says %q, rows %+v, lacks %q", p.Key, p.Says, p.Rows, p.Lacks)
		}
	}
}

func TestStandingHayAndHayByTheLine(t *testing.T) {
	// The hay line of an Upper Midwest report of 2022: 176 $ at RFV 137.5, 1.30 a point: RFV 150 is 192.25 $.
	// Standing by cost: Y (1 - loss) P - harvest; by halves: Y P / 2.
	v, f := farmWith(nil, line(book.HayBase, 176), line(book.HayBaseRFV, 137.5), line(book.HayPerPoint, 1.3), line(book.HarvestCost, 70))
	s := husbandry.SheetOf(v, f, husbandry.Field{Name: "North", Acres: 40, Yield: 4.5, First: 1.6, RFV: 150, Cuts: 4, Years: 4})
	p := part(t, s, "standing")
	price := 192.25 / 0.88
	near(t, "by cost", value(t, p, "what it sells for less loss and harvest"), 1.6*0.9*price-70, 0.01)
	near(t, "by halves", value(t, p, "half of what it sells for"), 1.6*price/2, 0.01)
}

func TestPriceLinesSideBySideReproduceTheirChecks(t *testing.T) {
	// Corn 4.50 and meal 380: forage of 0.60 Mcal/lb and 20 % protein is 191.502 $ (own arithmetic of the
	// two-nutrient solve).
	v, f := farmWith(nil, line(book.Corn, 4.5), line(book.Meal, 380))
	p := husbandry.Lines(v, f, husbandry.Forage{RFV: 150, CP: 20, NEL: 0.6, NDF: 40})
	near(t, "by corn and meal", value(t, p, "energy and protein by corn and meal"), 191.502, 0.001)
	if !strings.Contains(strings.Join(p.Lacks, " "), "milk") {
		t.Errorf("lacks %q, want milk among it", p.Lacks)
	}
	if err := (husbandry.Forage{RFV: 150, CP: 55, NEL: 0.6, NDF: 40}).Check(); err == nil || !strings.Contains(err.Error(), "protein 55: accepted 4 to 35") {
		t.Errorf("protein of 55 %%: %v", err)
	}
}

func TestMaterialsStandForTheNutrientsInThem(t *testing.T) {
	// 0-0-60 at 480 $ a ton is 0.40 $ a lb of K2O; 0-46-0 at 690 is 0.75 a lb of P2O5. At 0.75 and 0.40 the
	// three published removals cost 33.7, 29.45 and 29 $ a ton: middle 29.45.
	v, f := farmWith(nil, line(book.Potash, 480), line(book.TripleSuper, 690), line(book.LandRent, 200), line(book.HarvestCost, 55), line(book.Establishment, 480), line(book.Interest, 6))
	s := husbandry.SheetOf(v, f, husbandry.Field{Name: "North", Acres: 40, Yield: 4, First: 1.6, RFV: 150, Cuts: 4, Years: 4})
	near(t, "nutrients", value(t, part(t, s, "year"), "phosphate and potash taken off"), 4*29.45, 0.01)
}

func TestTheWordsOfTheBookAreThoseOfTheReckonings(t *testing.T) {
	var words []string
	for _, c := range risk.Cautions() {
		words = append(words, string(c))
	}
	if !slices.Equal(words, book.Cautions()) {
		t.Errorf("cautions %q and %q", words, book.Cautions())
	}
	for _, k := range book.MachineKinds() {
		if _, err := budget.KindOf(budget.PublishedKinds(), k); err != nil {
			t.Error(err)
		}
	}
}

func TestTheCrewWaitsForTheSlowestMachineAndForCorn(t *testing.T) {
	// 7 mph x 12 ft x 0.85 / 8.25 = 8.6545 ac/h; 3.5 x 15 x 0.70 / 8.25 = 4.4545 ac/h (ASAE EP496).
	v, f := farmWith(nil)
	f.Machines = []book.Dated[book.Machines]{{Body: book.Machines{
		Machines:  []book.Machine{{Name: "mower", Kind: "rotary-mower-conditioner", WidthFt: 12, SpeedMph: 7, Efficiency: .85}, {Name: "chopper", Kind: "self-propelled-chopper", WidthFt: 15}},
		CrewHours: 10, Busy: []book.Busy{{What: "planting", From: may19 + 1, To: may19 + 3}},
	}}}
	p := husbandry.Pace(v, f, 90)
	near(t, "mower", value(t, p, "mower"), 8.6545, 0.0001)
	near(t, "a day", value(t, p, "haylage, acres a day"), 44.545, 0.001)
	for _, want := range []string{"set by chopping", "90 acres take 2.0 days of work", "with 3 days elsewhere are done on 2026-05-24"} {
		if !strings.Contains(p.Says, want) {
			t.Errorf("says %q, want %q in it", p.Says, want)
		}
	}
}

func TestEveryFarmOfTheDistrictIsAnsweredWithoutHoles(t *testing.T) {
	d, err := demo.Make(demo.Seed)
	if err != nil {
		t.Fatal(err)
	}
	v, err := book.Project(d.Facts, may19, may19.Time().Add(7*time.Hour))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range v.Farms {
		n, err := husbandry.NeedOf(v, f, husbandry.Growing{Acres: 80, Tons: 350})
		if err != nil {
			t.Fatal(err)
		}
		s := husbandry.SheetOf(v, f, husbandry.Field{Name: "all", Acres: 80, Yield: 4.4, First: 1.6, RFV: 150, Cuts: 4, Years: 4})
		text, err := json.Marshal([]any{n, s, husbandry.Pace(v, f, 80), husbandry.Lines(v, f, husbandry.Reference())})
		if err != nil {
			t.Fatalf("%s: %v", f.Name, err)
		}
		for _, bad := range []string{"NaN", "Inf", "%!"} {
			if strings.Contains(string(text), bad) {
				t.Errorf("%s: %s in %s", f.Name, bad, text)
			}
		}
		for _, p := range s.Parts {
			if p.Says == "" && len(p.Lacks) == 0 {
				t.Errorf("%s: %s says nothing and lacks nothing", f.Name, p.Key)
			}
			if strings.Contains(p.Says, "$") && len(p.Prices) == 0 {
				t.Errorf("%s: %s says dollars and names no price: %s", f.Name, p.Key, p.Says)
			}
			for _, id := range p.Sources {
				if _, ok := source.Find(id); !ok {
					t.Errorf("%s: no source is called %s", p.Key, id)
				}
			}
		}
	}
}
