package office_test

import (
	"strings"
	"testing"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/demo"
	"haywarden/office"
	"haywarden/weather"
)

// district is the invented district in an office.
func district(t *testing.T) *office.Office {
	t.Helper()
	d, err := demo.Make(demo.Seed)
	if err != nil {
		t.Fatal(err)
	}
	return larkmoor(t, d, func(book.Fact) bool { return true }, func(w demo.Delivery) (*weather.Block, bool) { return w.Block, true })
}

func TestTheMoreCarefulTheLessARiskyDayCounts(t *testing.T) {
	o := district(t)
	ask := office.Ask{Date: unit.DateOf(2026, time.May, 19)}
	rain := []float64{0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5}
	last := 1e9
	for _, how := range []string{"by the average", "a little careful", "careful", "very careful", "safest only"} {
		w, err := o.Weigh(t.Context(), ida, "Ottermoss Long Meadow", rain, how, ask)
		if err != nil {
			t.Fatal(err)
		}
		if len(w.Part.Rows) == 0 || !strings.Contains(w.Part.Says, how) || len(w.Part.Prices) == 0 {
			t.Fatalf("%s: %+v", how, w.Part)
		}
		if today := w.Part.Rows[0].Value; today >= last {
			t.Errorf("%s: cutting today counts %g, no less than %g before", how, today, last)
		} else {
			last = today
		}
	}
	// With half a chance of rain the worst 2 years in 10 are all wet: safest only counts what is wet.
	w, err := o.Weigh(t.Context(), ida, "Ottermoss Long Meadow", []float64{0, 1}, "safest only", ask)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(w.Part.Says, "19 May") && !strings.Contains(w.Part.Says, "no difference") && w.Part.Rows[0].Value <= w.Part.Rows[1].Value {
		t.Errorf("a sure dry day before a sure wet one: %s", w.Part.Says)
	}
}

func TestCautionIsTheFarmsOwnElseTheBooksElseTheUsual(t *testing.T) {
	o := district(t)
	ask := office.Ask{Date: unit.DateOf(2026, time.May, 19)}
	asks := func(stand string) string {
		w, err := o.Weigh(t.Context(), ida, stand, nil, "", ask)
		if err != nil {
			t.Fatal(err)
		}
		return w.How + ", " + w.Why
	}
	if got := asks("Candlewick Tallow Field"); got != "very careful, as the farm has said" {
		t.Error(got)
	}
	if got := asks("Ottermoss Long Meadow"); got != "careful, nobody has said how careful: the usual" {
		t.Error(got)
	}
	if _, err := o.SetCaution(t.Context(), ida, ask, "", "a little careful"); err != nil {
		t.Fatal(err)
	}
	if got := asks("Ottermoss Long Meadow"); got != "a little careful, as is kept for the whole book" {
		t.Error(got)
	}
}

func TestAnOldPriceIsSaidToBeOld(t *testing.T) {
	o := district(t)
	for day, want := range map[unit.Day]int{unit.DateOf(2026, time.May, 19): 0, unit.DateOf(2026, time.June, 29): 0, unit.DateOf(2026, time.June, 30): 121} {
		s, err := o.Stand(t.Context(), ida, "Ottermoss Long Meadow", office.Ask{Date: day})
		if err != nil {
			t.Fatal(err)
		}
		if p, ok := s.Stand.HayPrice(); !ok || p.Old != want {
			t.Errorf("on %s the price of 1 March is %d days old (%t), want %d", day, p.Old, ok, want)
		}
	}
}

func TestABudgetTakesTheFarmsOwnPricesAndItsStands(t *testing.T) {
	o := district(t)
	ask := office.Ask{Date: unit.DateOf(2026, time.May, 19)}
	b, err := o.Budget(t.Context(), ida, "Candlewick", office.BudgetFor{Field: "Tallow Field"}, ask)
	if err != nil {
		t.Fatal(err)
	}
	if b.Sheet.Field.Acres != 35 || b.Sheet.Field.RFV != 170 || !strings.Contains(strings.Join(b.Parts[0].Prices, "\n"), "harvest-cost 58 $/ac, the farm's own Candlewick") {
		t.Errorf("field %+v, prices %q", b.Sheet.Field, b.Parts[0].Prices)
	}
	for _, p := range b.Parts {
		if strings.Contains(p.Says, "NaN") {
			t.Errorf("%s: %s", p.Key, p.Says)
		}
	}
}
