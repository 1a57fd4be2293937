package budget

import (
	"maps"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"haywarden/agronomy/forage"
	"haywarden/agronomy/method"
)

func TestCornAndMealCostJustWhatTheyCarry(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		corn, meal := rapid.Float64Range(2, 10).Draw(t, "corn"), rapid.Float64Range(150, 800).Draw(t, "meal")
		k := PublishedNutrients()
		p, err := k.Prices(corn, meal)
		if err != nil {
			t.Fatal(err)
		}
		if got, want := p.Ton(k.Corn.NEL, k.Corn.CP), corn*2000/56/0.88; !near(got, want, 1e-6) {
			t.Fatalf("corn %g, want %g", got, want)
		}
		if got, want := p.Ton(k.Meal.NEL, k.Meal.CP), meal/0.895; !near(got, want, 1e-6) {
			t.Fatalf("meal %g, want %g", got, want)
		}
	})
}

func TestFeedsThatCannotPriceAreRefused(t *testing.T) {
	alike := Nutrients{Feed{0.9, 0.9, 0.1}, Feed{0.9, 0.9, 0.1}, 56}
	if _, err := alike.Prices(4, 300); err == nil || !strings.Contains(err.Error(), "in one proportion") {
		t.Errorf("two feeds alike: %v", err)
	}
	for _, c := range []struct{ corn, meal float64 }{{-4, 300}, {4, 0}, {math.Inf(1), 300}} {
		if _, err := PublishedNutrients().Prices(c.corn, c.meal); err == nil || !strings.Contains(err.Error(), "accepted over 0") {
			t.Errorf("%v: %v", c, err)
		}
	}
}

func TestBetterHayIsNeverCheaper(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		line := forage.PriceLine{Base: rapid.Float64Range(50, 300).Draw(t, "base"), BaseRFV: 137.5, PerPoint: rapid.Float64Range(0, 3).Draw(t, "point")}
		floor, rfv := rapid.Float64Range(0, 200).Draw(t, "floor"), rapid.Float64Range(60, 220).Draw(t, "rfv")
		if p := HayPrice(line, floor, rfv); HayPrice(line, floor, rfv+5) < p || p < floor {
			t.Fatalf("%g at %g, %g at 5 points more, floor %g", p, rfv, HayPrice(line, floor, rfv+5), floor)
		}
	})
}

func TestAPriceCarriedThereAndBackIsThePrice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, a, b := rapid.Float64Range(10, 400).Draw(t, "price"), rapid.Float64Range(0.2, 1).Draw(t, "dm"), rapid.Float64Range(0.2, 1).Draw(t, "to")
		if back := Moved(Moved(p, a, b, 140, 160), b, a, 160, 140); !near(back, p, 1e-9*p) {
			t.Fatalf("%g came back as %g", p, back)
		}
	})
}

func TestCutSharesAddUp(t *testing.T) {
	for _, s := range PublishedCutShares() {
		sum := 0.0
		for _, v := range s.Shares {
			sum += v
		}
		if !near(sum, 1, 1e-9) {
			t.Errorf("%s, %d cuts: %g", s.By, len(s.Shares), sum)
		}
	}
	if _, err := ShareOf(PublishedCutShares(), "wisconsin", 3, 4); err == nil {
		t.Error("a fourth cut of three is found")
	}
}

func TestAMachineIsPaidForByItsRecovery(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := Owned{Price: rapid.Float64Range(1000, 200000).Draw(t, "price"), Years: float64(rapid.IntRange(1, 20).Draw(t, "years")), Rate: rapid.Float64Range(0, 0.15).Draw(t, "rate")}
		o.Salvage = o.Price * rapid.Float64Range(0, 1).Draw(t, "salvage")
		owed := o.Price
		for range int(o.Years) {
			owed = owed*(1+o.Rate) - o.Recovery()
		}
		if !near(owed, o.Salvage, 1e-6*o.Price) {
			t.Fatalf("after %g years %g is owed, and it sells for %g", o.Years, owed, o.Salvage)
		}
		if !near(Recovery(1e-12, o.Years), Recovery(0, o.Years), 1e-9) {
			t.Fatal("a hair of interest jumps")
		}
	})
}

func TestMachineLaws(t *testing.T) {
	for _, k := range PublishedKinds() {
		if k.Repairs(10000, 2000) <= k.Repairs(10000, 1000)*2 {
			t.Errorf("%s: an older machine is repaired no more", k.Name)
		}
		if k.Efficiency < 0 || k.Efficiency > 1 || (k.Efficiency == 0) != (k.Speed == 0) || k.Life <= 0 {
			t.Errorf("%+v", k)
		}
		if got, err := KindOf(PublishedKinds(), k.Name); err != nil || got != k {
			t.Errorf("%s: %+v, %v", k.Name, got, err)
		}
	}
	if _, err := KindOf(PublishedKinds(), "plough"); err == nil || !strings.Contains(err.Error(), "accepted tractor-2wd, tractor-4wd, mower-conditioner") {
		t.Errorf("a plough: %v", err)
	}
	late := PublishedLate()
	one, two := late.Cost(false, 0.018, 80, 1.6, 190, 8, 8.65, 0.5), late.Cost(false, 0.018, 160, 1.6, 190, 8, 8.65, 0.5)
	if !near(two, 4*one, 1e-9*two) || !near(late.Cost(true, 0.018, 80, 1.6, 190, 8, 8.65, 0.5), one/2, 1e-9) {
		t.Error("waiting does not grow with the square of the acres, or half before does not halve it")
	}
}

func TestAtTheBreakOwningCostsWhatHiringDoes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		yearly, running, hired := rapid.Float64Range(100, 50000).Draw(t, "yearly"), rapid.Float64Range(0, 30).Draw(t, "running"), rapid.Float64Range(0, 60).Draw(t, "hired")
		o := Compare(yearly, running, hired, 100)
		if hired <= running {
			if !math.IsInf(o.Break, 1) {
				t.Fatalf("%+v", o)
			}
			return
		}
		at := Compare(yearly, running, hired, o.Break)
		if !near(at.Own, at.Hire, 1e-6*max(1, at.Hire)) || Compare(yearly, running, hired, o.Break*2).Own > at.Own {
			t.Fatalf("%+v", at)
		}
	})
}

func TestAFieldAddsUpAndBreaksEvenAtItsCost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := Field{
			Lines:   []Line{{"land", rapid.Float64Range(0, 400).Draw(t, "land")}, {"k2o", rapid.Float64Range(0, 200).Draw(t, "k2o")}},
			CutCost: rapid.Float64Range(0, 90).Draw(t, "cut"), Cuts: float64(rapid.IntRange(0, 5).Draw(t, "cuts")), Establishment: rapid.Float64Range(0, 700).Draw(t, "establishment"),
			Years: float64(rapid.IntRange(1, 8).Draw(t, "years")), Rate: rapid.Float64Range(0, 0.12).Draw(t, "rate"), Yield: rapid.Float64Range(1, 8).Draw(t, "yield"),
		}
		c, err := f.Year()
		if err != nil {
			t.Fatal(err)
		}
		if !near(f.Lines[0].Value+f.Lines[1].Value+c.Stand+c.Harvest, c.PerAcre, 1e-9) || !near(c.PerTon*f.Yield, c.PerAcre, 1e-9) {
			t.Fatalf("%+v", c)
		}
		longer := f
		longer.Years++
		if d, _ := longer.Year(); d.Stand > c.Stand+1e-9 {
			t.Fatal("a stand kept longer costs more a year")
		}
	})
	for name, c := range map[string]struct {
		f    Field
		want string
	}{
		"nothing":            {Field{Yield: 4}, "no cost line is given"},
		"no yield":           {Field{Lines: []Line{{"land", 200}}}, "yield 0 tons/ac: accepted over 0"},
		"a line under 0":     {Field{Lines: []Line{{"land", -200}}, Yield: 4}, "line land: -200 $/ac; accepted 0 and over"},
		"spread over naught": {Field{Lines: []Line{{"land", 200}}, Yield: 4, Establishment: 480}, "years 0 to spread the establishment over: accepted over 0"},
	} {
		if _, err := c.f.Year(); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want an error saying %q", name, err, c.want)
		}
	}
}

func TestALastCutBreaksEvenWhereItSays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := LastCut{Price: rapid.Float64Range(50, 300).Draw(t, "price"), Harvest: rapid.Float64Range(10, 100).Draw(t, "harvest"), Nutrients: rapid.Float64Range(0, 60).Draw(t, "nutrients"), SpringLoss: 190, SpringTons: rapid.Float64Range(0, 0.3).Draw(t, "spring")}
		_, even := l.Net()
		if l.Yield = even; math.IsInf(even, 1) {
			return
		}
		if net, _ := l.Net(); !near(net, 0, 1e-6) {
			t.Fatalf("at %g it brings %g", even, net)
		}
	})
}

func TestSharesPartTheProfitAsTheCosts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		owner, tenant, value := rapid.Float64Range(1, 400).Draw(t, "owner"), rapid.Float64Range(1, 600).Draw(t, "tenant"), rapid.Float64Range(0, 2000).Draw(t, "value")
		s := Shared(owner, tenant)
		a, b := (s*value-owner)/owner, ((1-s)*value-tenant)/tenant
		if !near(a, b, 1e-6*max(1, math.Abs(a))) {
			t.Fatalf("a dollar of the owner returns %g and one of the tenant %g", a, b)
		}
	})
}

func TestAPriceBetweenSuitsBoth(t *testing.T) {
	b := HayTrade{Worth: 240, DM: 0.88, Loss: 0.08, Freight: 20, Other: 165, Hauling: 10}.Prices()
	if m := b.Middle(); !b.Room() || m > b.Most || m < b.Least {
		t.Errorf("%+v", b)
	}
	if (Bargain{Most: 100, Least: 101}).Room() || !(Bargain{Most: 100, Least: 100}).Room() {
		t.Error("room is told where there is none, or not at the edge")
	}
}

// run runs a method of this discipline on numbers, words and lists by key.
func run(name string, given map[string]any) (*method.Call, error) {
	for _, m := range Methods() {
		if m.Name != name {
			continue
		}
		c := method.NewCall(m, nil)
		for key, v := range given {
			switch v := v.(type) {
			case float64:
				c.SetNum(key, v)
			case string:
				c.SetWord(key, v)
			case []float64:
				c.SetList(key, v)
			case []string:
				c.SetWords(key, v)
			case []method.Pair:
				c.SetPairs(key, v)
			}
		}
		return c, m.Run(c)
	}
	panic("no method is called " + name)
}

// TestWhatBelongsTogetherIsAskedForTogether proves that half of a pair is refused and that each refusal
// says what is accepted.
func TestWhatBelongsTogetherIsAskedForTogether(t *testing.T) {
	machine := func(more map[string]any) map[string]any {
		given := map[string]any{"price": 45000., "salvage": 13500., "years": 8., "hours": 120., "rate": 0.07, "kind": "tractor-2wd", "wage": 0., "labour": 1.1, "tractor": 0.}
		maps.Copy(given, more)
		return given
	}
	for name, c := range map[string]struct {
		method string
		given  map[string]any
		want   string
	}{
		"one feed value":          {"price-by-moisture", map[string]any{"price": 100., "dm": 0.8, "to_dm": 0.4, "rfv": 140.}, "rfv and to_rfv belong together"},
		"a cut of no number":      {"standing-share", map[string]any{"yield": 4., "price": 180., "share": 0.5, "by": "hoards", "cut": 1.}, "cuts and cut belong together"},
		"half a cut":              {"standing-share", map[string]any{"yield": 4., "price": 180., "share": 0.5, "by": "hoards", "cuts": 4., "cut": 1.5}, "cut 1.5: accepted whole numbers"},
		"the fourth of three":     {"standing-share", map[string]any{"yield": 4., "price": 180., "share": 0.5, "by": "hoards", "cuts": 3., "cut": 4.}, "accepted cut 1 to 3 of 3"},
		"salvage over the price":  {"machine-cost", machine(map[string]any{"salvage": 50000.}), "salvage 50000 is over the price: accepted 0 to 45000 $"},
		"power without fuel":      {"machine-cost", machine(map[string]any{"power": 120.}), "power and fuel belong together"},
		"a tractor's own acres":   {"machine-cost", machine(map[string]any{"width": 12.}), "speed is missing: a tractor-2wd has none of its own"},
		"machines without speeds": {"harvest-pace", map[string]any{"machine": []string{"a", "b"}, "speed": []float64{5}, "width": []float64{9, 9}, "efficiency": []float64{0.8, 0.8}}, "2 machines, 1 speed"},
		"nobody puts in anything": {"crop-share", map[string]any{"owner": []method.Pair{{Name: "land", Value: 0}}, "tenant": []method.Pair{{Name: "seed", Value: 0}}, "yield": 4., "price": 180.}, "one over 0"},
		"half a price deck":       {"keep-or-turn", map[string]any{"stems": 45., "local": 1., "price": 180.}, "price, harvest_cost and fixed_cost belong together"},
		"a chain without prices":  {"keep-or-turn", map[string]any{"stems": 45., "local": 1., "next_eae": 180.}, "next_eae wants price, harvest_cost and fixed_cost"},
		"salvage for other ages":  {"stand-life", map[string]any{"yields": []float64{2, 4, 4}, "price": 180., "salvage": []float64{1, 2}}, "2 salvage for 3 yields: want one for each, or one for all"},
		"half a year of cuts":     {"cost-per-ton", map[string]any{"cuts": 3.5}, "cuts 3.5: accepted whole numbers"},
		"forage worth nothing":    {"nutrient-worth", map[string]any{"nel": 0.2, "cp": 0.5, "corn": 20., "meal": 20.}, "check corn in $/bu and meal in $/ton"},
	} {
		if _, err := run(c.method, c.given); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want an error saying %q", name, err, c.want)
		}
	}
}

// TestAnswersSayWhatTheyLeaveOut proves the remarks that go with an answer.
func TestAnswersSayWhatTheyLeaveOut(t *testing.T) {
	for name, c := range map[string]struct {
		method string
		given  map[string]any
		want   string
	}{
		"hay held at its floor":      {"hay-price", map[string]any{"rfv": 80., "base": 176., "base_rfv": 137.5, "per_point": 1.3, "floor": 130.}, "held there"},
		"a crop not worth its cut":   {"standing-hay", map[string]any{"yield": 0.3, "price": 100., "loss": 0.1, "harvest": 70.}, "worth nothing uncut"},
		"protein below nothing":      {"nutrient-prices", map[string]any{"corn": 12., "meal": 150.}, "do not price forage then"},
		"a machine past its life":    {"machine-cost", map[string]any{"price": 45000., "salvage": 0., "years": 20., "hours": 500., "rate": 0.07, "kind": "rake", "wage": 0., "labour": 1.1, "tractor": 0.}, "over the 2500 that such a machine lasts"},
		"no fuel":                    {"machine-cost", map[string]any{"price": 45000., "salvage": 0., "years": 5., "hours": 100., "rate": 0.07, "kind": "rake", "wage": 0., "labour": 1.1, "tractor": 0.}, "fuel is not in it"},
		"a stand still rising":       {"equal-annual", map[string]any{"cash": []float64{-100, 200, 300}, "salvage": []float64{0}, "outlay": 0., "rate": 0.05}, "give more years"},
		"which chain":                {"stand-life", map[string]any{"yields": []float64{2, 4, 1}, "price": 180., "harvest": 30., "fixed": 200., "establishment": 400., "rate": 0.05, "salvage": []float64{0}}, "the chain is alfalfa after alfalfa"},
		"which chain, with corn":     {"rotation-life", map[string]any{"yields": []float64{2, 4}, "price": 180., "harvest": 30., "fixed": 200., "establishment": 400., "rate": 0.05, "credits": []float64{100, 100}, "corn_yield": 180., "corn_price": 4.5, "corn_cost": 700., "bump": []float64{1.1, 1.07}}, "the chain is 2 years of alfalfa and 2 of corn"},
		"nothing to lay beside":      {"keep-or-turn", map[string]any{"stems": 45., "local": 1., "price": 180., "harvest_cost": 30., "fixed_cost": 290.}, "nothing to lay the margin beside"},
		"no prices":                  {"keep-or-turn", map[string]any{"stems": 45., "local": 1.}, "no prices given: the first word only"},
		"owning that never pays":     {"own-or-hire", map[string]any{"yearly": 100., "running": 20., "hired": 16., "acres": 100., "error": 0.}, "before it is paid for"},
		"roots that nobody has seen": {"keep-or-turn", map[string]any{"stems": 60., "local": 1.}, "dig and split 20 to 30 roots"},
	} {
		got, err := run(c.method, c.given)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if all := strings.Join(got.Notes(), "\n"); !strings.Contains(all, c.want) {
			t.Errorf("%s: notes %q, want one saying %q", name, all, c.want)
		}
	}
}
