package advice_test

import (
	"testing"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/weather"
)

func TestThirdGrowthIsLedByDaysAndStage(t *testing.T) {
	s := alfalfa("Alder")
	s.cuts = []string{"05-28", "06-28"}
	s.visits["07-22"] = stick(20, book.Bud)
	p := find(round(t, day("07-24"), plain(), s), "Alder", "later-cut")
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
	p := find(round(t, day("06-18"), plain(), s), "Alder", "later-cut")
	says(t, p, "Standing RFV", "25 to 30 days apart")
	without(t, find(round(t, day("06-18"), plain(), s), "Alder", "later-cut"), "start the first cut")
}

func TestSecondGrowthThatNobodyReadGoesByDaysAndStage(t *testing.T) {
	s := alfalfa("Alder")
	s.cuts = []string{"05-24"}
	p := find(round(t, day("06-18"), plain(), s), "Alder", "later-cut")
	says(t, p, "Day 25 of its second growth", "bud about", "one-tenth bloom about", "stage and height in the field")
	without(t, p, "RFV")
}

func TestBudStaysOnTheDayItCame(t *testing.T) {
	s := alfalfa("Alder")
	s.cuts = []string{"05-24", "06-24"}
	var bud unit.Day
	for d := day("07-26"); d <= day("08-10"); d++ {
		p := find(round(t, d, plain(), s), "Alder", "later-cut")
		if p == nil {
			t.Fatalf("%s: nothing said", d)
		}
		if bud != 0 && p.Window.Middle > bud {
			t.Errorf("%s: the middle of the window has moved on from %s to %s", d, bud, p.Window.Middle)
		}
		if p.Window.Middle < d {
			bud = p.Window.Middle
		}
	}
	says(t, find(round(t, day("08-10"), plain(), s), "Alder", "later-cut"), "its quality has gone by")
}

func TestWhatWasReadOnTheDayOfACutWasTheOldGrowth(t *testing.T) {
	s := alfalfa("Alder")
	s.cuts = []string{"05-24"}
	s.visits["05-24"] = stick(31, book.Bud)
	r := round(t, day("05-27"), plain(), s)
	if p := find(r, "Alder", "later-cut"); p != nil {
		t.Errorf("three days after the cut: %q", p.Title)
	}
	if n := len(r.Outlook.Stands[0].Readings); n != 0 {
		t.Errorf("%d readings of a growth of three days", n)
	}
}

// In a fall that brings too little heat for another bud no day is made up for it: a year in which
// the event does not come counts as late, not for nothing.
func TestABudThatMostYearsDoNotBringIsNotDated(t *testing.T) {
	s := alfalfa("Alder")
	s.cuts = []string{"05-24", "06-24", "07-26", "09-20"}
	for d := day("09-21"); d < day("11-01"); d += 5 {
		if p := find(round(t, d, plain(), s), "Alder", "later-cut"); p != nil {
			t.Errorf("%s: %q", d, p.Title)
		}
	}
}

func TestHeatNeverBringsALaterCutUnder25Days(t *testing.T) {
	hot := sky(func(d unit.Day, o *weather.Obs) {
		if m := d.Month(); m == time.July {
			o.Value[weather.TMin] += 90
			o.Value[weather.TMax] += 90
		}
	})
	s := alfalfa("Alder")
	s.cuts = []string{"05-24", "07-01"}
	p := find(round(t, day("07-22"), hot, s), "Alder", "later-cut")
	says(t, p, "(26–31 July)")
	if p != nil && p.Window.Early != day("07-26") {
		t.Errorf("from %s, cut on 1 July", p.Window.Early)
	}
}
