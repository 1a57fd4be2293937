package advice_test

import (
	"strings"
	"testing"

	"haywarden/advice"
	"haywarden/agronomy/unit"
	"haywarden/book"
)

func TestStandsAreCountedAtFourToSixInches(t *testing.T) {
	var from, until unit.Day
	for d := day("03-15"); d <= day("06-05"); d++ {
		p := find(round(t, d, plain(), alfalfa("Alder")), "Alder", "walk-and-count")
		if p == nil || p.Urgency != advice.Week {
			continue
		}
		if from == 0 {
			from = d
			if h := p.Stand.Sky.Heat41.Now(); h < 250 || h > 290 {
				t.Errorf("counting is called for on %s at %.0f F-days", d, h)
			}
			says(t, p, "4 to 6 inches", "frames", "every 5 of 30 acres")
		}
		if strings.Contains(p.Sentence, "4 to 6 inches") {
			until = d
		}
	}
	if from == 0 || until-from < 4 || until-from > 25 {
		t.Errorf("4 to 6 inches from %s to %s", from, until)
	}
}

func TestAHeightThatWasReadLeadsTheWalk(t *testing.T) {
	early := day("04-08") // by heat alone no stand has 4 in yet
	if p := find(round(t, early, plain(), alfalfa("Alder")), "Alder", "walk-and-count"); p != nil && p.Urgency == advice.Week {
		t.Fatalf("%q: the day is no test", p.Title)
	}
	s, five := alfalfa("Alder"), 5.0
	s.visits["04-07"] = book.Visit{GrowthIn: &five}
	if p := find(round(t, early, plain(), s), "Alder", "walk-and-count"); p == nil || p.Urgency != advice.Week {
		t.Errorf("five inches read, and no call to count: %+v", p)
	}
}

func TestWhatWasCountedOrIsTooYoungIsNotWalked(t *testing.T) {
	counted, young, cut := alfalfa("Counted"), alfalfa("Young"), alfalfa("Cut")
	counted.visits["04-20"] = stems(124, 130, 118, 126, 134)
	young.Seeded = day("04-10")
	cut.cuts = []string{"04-24"}
	r := round(t, day("04-26"), plain(), counted, young, cut)
	for _, n := range []string{"Counted", "Young", "Cut"} {
		if p := find(r, n, "walk-and-count"); p != nil {
			t.Errorf("%s: %q", n, p.Title)
		}
	}
}
