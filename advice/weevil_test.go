package advice_test

import (
	"testing"

	"haywarden/advice"
	"haywarden/agronomy/unit"
	"haywarden/book"
)

// late is a stand that feeds dry cows: its cut comes late, so that weevil comes first.
func late() *stand {
	s := alfalfa("Alder")
	s.FeedRFV = 90
	return s
}

func TestWeevilStartsWithTheStateGuide(t *testing.T) {
	for d := day("04-10"); d <= day("06-10"); d++ {
		p := find(round(t, d, plain(), late()), "Alder", "weevil-walk")
		if p == nil {
			continue
		}
		h := p.Stand.Sky.Heat48.Now()
		if started := p.Urgency == advice.Week; started != (h >= 300) {
			t.Errorf("%s: %.0f F-days, Wisconsin says 300: %q", d, h, p.Title)
		}
		says(t, p, "The label is the law", "48 °F", "50 stems")
	}
}

func TestEachStateStartsAtItsOwnHeat(t *testing.T) {
	starts := func(guide string) (unit.Day, *advice.Piece) {
		for d := day("04-10"); d <= day("06-10"); d++ {
			if p := find(roundIn(t, guide, d, plain(), late()), "Alder", "weevil-walk"); p != nil && p.Urgency == advice.Week {
				return d, p
			}
		}
		t.Fatalf("%s: weevil never starts", guide)
		return 0, nil
	}
	kentucky, _ := starts("Kentucky")
	newYork, _ := starts("New York")
	wisconsin, _ := starts("Wisconsin")
	if kentucky >= newYork || newYork > wisconsin {
		t.Errorf("190 F-days on %s, 280 on %s, 300 on %s", kentucky, newYork, wisconsin)
	}
	michigan, p := starts("Michigan")
	if michigan != wisconsin {
		t.Errorf("no start is known for Michigan: %s, want Wisconsin's %s", michigan, wisconsin)
	}
	says(t, p, "Wisconsin, for want of a start printed for Michigan")
}

func TestWeevilIsNotWalkedForWhereTheCutComesFirst(t *testing.T) {
	first := 0
	for d := day("05-01"); d <= day("06-05"); d++ {
		for _, feed := range []float64{90, 150, 170, 190, 210} {
			for _, h := range []float64{16, 20, 26} {
				s := alfalfa("Alder")
				s.FeedRFV = feed
				s.visits[(d - 1).String()[5:]] = stick(h, book.Bud)
				r := round(t, d, plain(), s)
				st := r.Outlook.Stands[0]
				cut, ok := st.Ahead().Reaches(st.Target.CutRFV).Window()
				due, _ := st.Sky.Reaches(st.Sky.Heat48, 300).Window()
				if !ok || cut.Middle > due.Middle && cut.Middle > d+7 {
					continue
				}
				if cut.Middle > d+7 && due.Early <= d+7 {
					first++
				}
				if p := find(r, "Alder", "weevil-walk"); p != nil {
					t.Errorf("%s: cut about %s, and weevil from %s", d, cut.Middle, due.Middle)
				}
			}
		}
	}
	if first == 0 {
		t.Error("no stand had its cut between a week from now and the weevil's start: the limit is not seen")
	}
}

func TestWeevilIsLookedForAgainWithinAWeek(t *testing.T) {
	var start unit.Day
	for d := day("05-01"); d <= day("06-05") && start == 0; d++ {
		if p := find(round(t, d, plain(), late()), "Alder", "weevil-walk"); p != nil && p.Urgency == advice.Week {
			start = d
		}
	}
	if start == 0 {
		t.Fatal("weevil never starts")
	}
	s, ten := late(), 10.0
	s.visits[start.String()[5:]] = book.Visit{WeevilTips: &ten}
	for d, want := range map[unit.Day]advice.Urgency{start + 2: advice.Watch, start + 7: advice.Week} {
		p := find(round(t, d, plain(), s), "Alder", "weevil-walk")
		says(t, p, "look again")
		if p != nil && (p.Urgency != want || p.Window.Best != start+7) {
			t.Errorf("%s: %s, again on %s, walked on %s", d, p.Urgency.Key(), p.Window.Best, start)
		}
	}
}
