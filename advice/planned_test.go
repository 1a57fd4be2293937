package advice_test

import (
	"strings"
	"testing"

	"haywarden/advice"
	"haywarden/agronomy/unit"
	"haywarden/book"
)

// sowing is a plan of alfalfa with two lots of which the second's live seed is cheaper.
func sowing(season string, year int) book.SeedingPlan {
	return book.SeedingPlan{Year: year, Season: season, Crop: book.Alfalfa, Offers: []book.SeedOffer{
		{Species: "alfalfa", Variety: "Aster", PureLb: 14, Purity: new(0.66), Germination: new(0.9), PriceLb: 5.2, BagLb: 50},
		{Species: "alfalfa", Variety: "Briar", PureLb: 14, Purity: new(0.99), Germination: new(0.85), Hard: new(0.05), PriceLb: 6.1, BagLb: 50},
	}}
}

// fallow is a field whose clover was turned under long ago.
func fallow(name string) *stand {
	s := alfalfa(name)
	gone := unit.DateOf(2025, 9, 1)
	s.Crop, s.TurnedUnder = book.RedClover, &gone
	return s
}

func TestSeedIsOrderedByTheBagOfTheCheaperLiveSeed(t *testing.T) {
	s := fallow("Alder")
	s.plans = map[string]book.SeedingPlan{"02-01": sowing("late-summer", 2026)}
	if p := find(round(t, day("03-01"), plain(), s), "Alder", "order-seed"); p != nil {
		t.Errorf("spoken of in March: %q", p.Title)
	}
	r := round(t, day("06-10"), plain(), s)
	p := find(r, "Alder", "order-seed")
	says(t, p, "Order seed by", "10 bags (471 lb) of alfalfa Briar", "$3050", "side by side", "Aster 707 lb", "seed-lots species=alfalfa", "late summer 2026")
	if p.Urgency != advice.Watch && p.Urgency != advice.Week {
		t.Errorf("urgency %v", p.Urgency)
	}
	ordered := sowing("late-summer", 2026)
	ordered.Ordered = true
	s.plans["06-01"] = ordered
	if p := find(round(t, day("06-10"), plain(), s), "Alder", "order-seed"); p != nil {
		t.Errorf("ordered, and still asked for: %q", p.Title)
	}
	bare := sowing("late-summer", 2026)
	bare.Offers = []book.SeedOffer{{Species: "alfalfa", PureLb: 14}}
	s.plans = map[string]book.SeedingPlan{"02-01": bare}
	says(t, find(round(t, day("06-10"), plain(), s), "Alder", "order-seed"), "420 lb of pure live seed of alfalfa", "the tag of alfalfa", "not reckoned")
}

func TestSeedBySetsTheStationsFreezesBesideTheCalendar(t *testing.T) {
	s := fallow("Birch")
	s.plans = map[string]book.SeedingPlan{"02-01": sowing("late-summer", 2026), "02-02": sowing("spring", 2027)}
	p := find(round(t, day("08-05"), plain(), s), "Birch", "seed-by")
	says(t, p, "Seed alfalfa", "Killing freeze", "24 °F: median", "in east-central Wisconsin sow between 1–10 August", "No companion crop in late summer", "alfalfa and sweetclover", "0.38 to 0.5 in")
	late := find(round(t, p.Window.Late+3, plain(), s), "Birch", "seed-by")
	says(t, late, "window has closed", "wait for spring")
	if p := find(round(t, day("12-20"), plain(), s), "Birch", "seed-by"); p != nil {
		t.Errorf("in December: %q", p.Title)
	}
	// Without a sky the calendar alone speaks.
	unseen := fallow("Cedar")
	unseen.station = ""
	unseen.plans = map[string]book.SeedingPlan{"02-01": sowing("late-summer", 2026)}
	p = find(round(t, day("08-05"), plain(), unseen), "Cedar", "seed-by")
	says(t, p, "by the calendar", "freezes are not known", "1–10 August")
	without(t, p, "Killing freeze")
}

func TestSpringSeedingWaitsForTheLastFreezeOfSeedlings(t *testing.T) {
	s := fallow("Dogwood")
	s.plans = map[string]book.SeedingPlan{"02-01": sowing("spring", 2026)}
	says(t, find(round(t, day("04-02"), plain(), s), "Dogwood", "seed-by"), "26 °F", "nine years of ten", "0.25 to 0.38 in", "oats at 30-50 lb")
}

func TestAlfalfaIsNotSownAfterAlfalfaOrIntoIt(t *testing.T) {
	killed := alfalfa("Elm")
	gone := unit.DateOf(2025, 10, 8)
	killed.TurnedUnder = &gone
	killed.plans = map[string]book.SeedingPlan{"02-01": sowing("late-summer", 2026)}
	r := round(t, day("06-10"), plain(), killed)
	says(t, find(r, "Elm", "do-not-reseed"), "Do not sow alfalfa here in late summer 2026", "twelve months", "red clover", "8 to 29 %", "October 2026", "autotoxic-ground")
	for _, d := range []string{"order-seed", "seed-by"} {
		if p := find(r, "Elm", d); p != nil {
			t.Errorf("and yet: %q", p.Title)
		}
	}
	thin := alfalfa("Fir")
	into := sowing("late-summer", 2026)
	into.Into = true
	thin.plans = map[string]book.SeedingPlan{"02-01": into}
	says(t, find(round(t, day("06-10"), plain(), thin), "Fir", "do-not-reseed"), "cannot be thickened with alfalfa", "standing when it is sown into")
	young := alfalfa("Gum")
	young.Seeded, young.TurnedUnder = unit.DateOf(2025, 8, 10), &gone
	young.plans = map[string]book.SeedingPlan{"02-01": sowing("late-summer", 2026)}
	if p := find(round(t, day("06-10"), plain(), young), "Gum", "do-not-reseed"); p != nil {
		t.Errorf("a stand that failed in its first months: %q", p.Title)
	}
	clover := alfalfa("Holly")
	clover.TurnedUnder = &gone
	other := sowing("late-summer", 2026)
	other.Crop, other.Offers = book.RedClover, []book.SeedOffer{{Species: "red-clover", PureLb: 10}}
	clover.plans = map[string]book.SeedingPlan{"02-01": other}
	if p := find(round(t, day("06-10"), plain(), clover), "Holly", "do-not-reseed"); p != nil {
		t.Errorf("red clover: %q", p.Title)
	}
}

func TestAPlanThatWasSownIsNoLongerTold(t *testing.T) {
	s := alfalfa("Ivy")
	s.Seeded = day("08-08")
	s.plans = map[string]book.SeedingPlan{"02-01": sowing("late-summer", 2026)}
	for _, p := range round(t, day("08-12"), plain(), s).Pieces {
		if strings.Contains("order-seed seed-by do-not-reseed", p.Decision) {
			t.Errorf("%q", p.Title)
		}
	}
}

func TestAFieldThatNeverHadAStandIsToldItsSeeding(t *testing.T) {
	s := alfalfa("Juniper")
	s.bare = true
	s.plans = map[string]book.SeedingPlan{"02-01": sowing("late-summer", 2026)}
	r := round(t, day("08-05"), plain(), s)
	p := find(r, "Juniper", "seed-by")
	says(t, p, "30 acres of alfalfa")
	if d := advice.Describe(p.Stand); d != "alfalfa, planned" {
		t.Error(d)
	}
}
