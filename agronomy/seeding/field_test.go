package seeding

import (
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"haywarden/agronomy/unit"
)

func TestWholeBagsHoldWhatTheFieldTakes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		need := Need{unit.PerFt2(rapid.Float64Range(5, 120).Draw(t, "live")), rapid.Float64Range(0.5, 300).Draw(t, "acres")}
		var offers []Offer
		for range rapid.IntRange(1, 5).Draw(t, "lots") {
			offers = append(offers, Offer{"lot", anyLot(t), rapid.Float64Range(0.5, 12).Draw(t, "price"), rapid.SampledFrom([]float64{25, 50}).Draw(t, "bag")})
		}
		list, err := Buy(need, offers)
		if err != nil {
			t.Fatal(err)
		}
		for _, b := range list {
			if have := float64(b.Bags) * b.BagLb; have < b.Pounds*(1-1e-6) || have >= b.Pounds+b.BagLb {
				t.Fatalf("%d bags of %g lb for %g lb", b.Bags, b.BagLb, b.Pounds)
			}
			// What the pounds cost is what their live seeds cost.
			seeds := float64(need.Live) * sqFeet * need.Acres
			if got, want := b.Million*seeds/1e6, b.Pounds*b.Price; math.Abs(got-want) > 1e-6*want {
				t.Fatalf("seeds cost %g, pounds %g", got, want)
			}
		}
		if n := len(Cheapest(list)); n < 1 || n > len(list) {
			t.Fatalf("%d cheapest of %d", n, len(list))
		}
	})
}

func TestOffersThatCannotBeAreRefusedByName(t *testing.T) {
	lot := Lot{SeedsPerLb: 199000, Purity: 0.99, Germination: 0.9, HardCounts: 1}
	for want, offer := range map[string]Offer{
		"lot A: purity 2": {"A", Lot{SeedsPerLb: 1, Purity: 2, Germination: 0.9}, 1, 50},
		"lot B: bag of 0": {"B", lot, 1, 0},
		"lot C: price -1": {"C", lot, -1, 50},
	} {
		if _, err := Buy(Need{60, 10}, []Offer{offer}); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v; want %q", err, want)
		}
	}
	if _, err := Buy(Need{60, 0}, []Offer{{"D", lot, 1, 50}}); err == nil {
		t.Error("no acres were taken")
	}
	list, err := Buy(Need{60, 10}, []Offer{{"E", lot, 0, 50}})
	if err != nil || len(Cheapest(list)) != 0 || !math.IsNaN(list[0].Cost) {
		t.Errorf("a lot without a price: %+v, %v", list, err)
	}
}

func TestALateSummerWindowLeavesTheWeeksPrinted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		middle := unit.DateOf(2026, time.October, 20) + unit.Day(rapid.IntRange(-30, 30).Draw(t, "middle"))
		tenth := middle - unit.Day(rapid.IntRange(0, 40).Draw(t, "sooner"))
		up := rapid.Float64Range(3, 20).Draw(t, "emergence")
		w, ok := PublishedGrowing().LateSummer(middle, tenth, up)
		if ok != (w.Early <= w.Late) || w.Best > w.Late || ok && w.Best < w.Early {
			t.Fatalf("%+v, %v", w, ok)
		}
		if float64(tenth-w.Late) < 42+up {
			t.Fatalf("sown %s before a freeze on %s", w.Late, tenth)
		}
	})
}

func TestAutotoxicityIsClassedByAgeAndGapAlone(t *testing.T) {
	for _, c := range []struct {
		before AlfalfaBefore
		want   AfterAlfalfa
	}{
		{AlfalfaBefore{}, AfterNone},
		{AlfalfaBefore{Stood: true, Age: 5, Gone: 12}, AfterNone},
		{AlfalfaBefore{Stood: true, Age: 5, Gone: 11.9}, AfterGrown},
		{AlfalfaBefore{Stood: true, Age: 1, Gone: 0.5}, AfterGrown},
		{AlfalfaBefore{Stood: true, Age: 0.9, Gone: 0}, AfterYoung},
		{AlfalfaBefore{Stood: true, Age: 0.9, Standing: true}, AfterYoung},
		{AlfalfaBefore{Stood: true, Age: 3, Standing: true}, AfterAlive},
	} {
		if got := c.before.Class(); got != c.want {
			t.Errorf("%+v: %s, want %s", c.before, got, c.want)
		}
	}
}

func TestWorseGroundNeverSpeaksForAlfalfa(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		eats := Eaters()
		s := Site{"well", rapid.Float64Range(4, 8.5).Draw(t, "ph"), rapid.Float64Range(0.5, 10).Draw(t, "years"), rapid.SampledFrom(eats[:]).Draw(t, "eats"), rapid.Bool().Draw(t, "grazed")}
		place := func(drainage string) (at int, never bool) {
			s.Drainage = drainage
			list, err := PublishedLimits().Choose(s)
			if err != nil || len(list) != 5 {
				t.Fatal(list, err)
			}
			for i, f := range list {
				if f.Choice == "alfalfa" {
					return i, len(f.Never) > 0
				}
			}
			t.Fatal("alfalfa was left out")
			return 0, false
		}
		well, _ := place("well")
		damp, _ := place("somewhat-poor")
		_, never := place("poor")
		if damp < well || !never {
			t.Fatalf("place %d on well drained, %d on somewhat poor, forbidden on poor: %v", well, damp, never)
		}
	})
}

func TestEveryCompanionAndCalendarHoldsTogether(t *testing.T) {
	for state, list := range Calendars() {
		for _, c := range list {
			if c.SpringFrom.In(2026) >= c.SpringTo.In(2026) || c.LateFrom.In(2026) >= c.LateTo.In(2026) || c.NoneAfter.Month != 0 && c.NoneAfter.In(2026) < c.LateTo.In(2026) {
				t.Errorf("%s: %+v", state, c)
			}
		}
	}
	if ok, _ := TakesCompanion("late-summer", true); ok {
		t.Error("a companion crop in late summer")
	}
	if c := CalendarOf("Nowhere"); c.Place != "middle latitudes" {
		t.Error(c)
	}
	for _, s := range PublishedSpecies() {
		legume := strings.Contains(s.Name, "clover") || s.Name == "alfalfa" || s.Name == "birdsfoot-trefoil"
		if (StrainOf(s.Name) != "") != legume {
			t.Errorf("%s takes %q", s.Name, StrainOf(s.Name))
		}
	}
}
