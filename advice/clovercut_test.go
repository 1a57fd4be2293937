package advice_test

import (
	"testing"

	"haywarden/advice"
	"haywarden/book"
)

func TestRedCloverIsLedByStageWithLowConfidence(t *testing.T) {
	s := alfalfa("Clover")
	s.Crop = book.RedClover
	bloom := 25.0
	s.visits["06-03"] = book.Visit{Bloom: &bloom}
	says(t, find(round(t, day("05-25"), plain(), s), "Clover", "clover-cut"), "bud to 20 % bloom", "low confidence")
	p := find(round(t, day("06-04"), plain(), s), "Clover", "clover-cut")
	says(t, p, "past 20 %")
	if p != nil && p.Urgency != advice.Today {
		t.Errorf("past 20 %% bloom: %s", p.Urgency.Key())
	}
}

func red(cuts ...string) *stand {
	s := alfalfa("Clover")
	s.Crop, s.cuts, s.deck = book.RedClover, cuts, hayPrices(0)
	return s
}

func TestRedCloversWindowStaysWhereItWasWhenItHasPassed(t *testing.T) {
	first := find(round(t, day("06-10"), plain(), red()), "Clover", "clover-cut")
	later := find(round(t, day("06-24"), plain(), red()), "Clover", "clover-cut")
	says(t, later, "its quality has gone by")
	if first == nil || later == nil || first.Window.Late > day("06-16") || later.Window.Late > day("06-16") {
		t.Errorf("windows %+v and %+v, want both over by mid June", first, later)
	}
}

func TestLaterRedCloverGoesByDays(t *testing.T) {
	p := find(round(t, day("07-08"), plain(), red("06-05")), "Clover", "clover-cut")
	says(t, p, "30 to 42 days after the last cut", "low confidence")
	if p != nil && (p.Window.Early != day("07-05") || p.Window.Late != day("07-17")) {
		t.Errorf("%+v", p.Window)
	}
}

func TestRedCloverIsNeverGivenAFeedValueAllYear(t *testing.T) {
	s := red("06-05", "07-12")
	s.visits["05-20"] = stick(20, book.Bud)
	for d := day("03-20"); d < day("11-10"); d += 4 {
		for _, p := range round(t, d, plain(), s).Pieces {
			without(t, p, "RFV", "rfv", "$")
			if p.Stand.Standing != nil || len(p.Stand.Readings) > 0 {
				t.Errorf("%s: a stick was used on red clover in %q", d, p.Title)
			}
		}
	}
}
