package advice_test

import (
	"strings"
	"testing"

	"haywarden/advice"
	"haywarden/agronomy/unit"
	"haywarden/book"
)

func TestTheFirstCutOfAPureStandFromWatchToTooLate(t *testing.T) {
	series := plain()
	s := alfalfa("Alder")
	s.visits["05-18"] = stick(22, book.Vegetative)
	s.visits["05-22"] = stick(26, book.Bud)
	last := advice.Rest
	for _, c := range []struct {
		date string
		want advice.Urgency
	}{{"05-18", advice.Watch}, {"05-23", advice.Week}, {"05-29", advice.Today}, {"06-12", advice.Today}} {
		p := find(round(t, day(c.date), series, s), "Alder", "first-cut")
		if p == nil {
			t.Errorf("%s: nothing said of the cut", c.date)
			continue
		}
		if p.Urgency > last || p.Urgency > c.want {
			t.Errorf("%s: %s (%q), want %s or sooner", c.date, p.Urgency.Key(), p.Title, c.want.Key())
		}
		last = p.Urgency
		w := p.Window
		if w.Early > w.Middle || w.Middle > w.Late || w.Late-w.Early < 3 || w.Late-w.Early > 30 {
			t.Errorf("%s: window %s, %s, %s", c.date, w.Early, w.Middle, w.Late)
		}
		if p.Worth.Dollars != nil || strings.Contains(p.Worth.Text, "$") {
			t.Errorf("%s: dollars without a price deck: %+v", c.date, p.Worth)
		}
	}
	s.visits["05-27"] = stick(28, book.Bud)
	says(t, find(round(t, day("05-29"), series, s), "Alder", "first-cut"), "165", "150 for the cow as haylage", "Stick reading of 27 May", "Heat since 1 March", "correlation 0.5", "170", "3 to 5 points")
}

func TestHeatAloneJudgesWhatNobodyRead(t *testing.T) {
	date := day("06-01")
	p := find(round(t, date, plain(), alfalfa("Alder")), "Alder", "first-cut")
	says(t, p, "no reading here, judged by heat alone", "a stick reading of five spots", "F-days above 41 °F")
	without(t, p, "Stick reading", "nearby")
	read := alfalfa("Alder")
	read.visits["05-31"] = stick(29, book.Bud)
	q := find(round(t, date, plain(), read), "Alder", "first-cut")
	if p == nil || q == nil || q.Stand.Standing.SD >= p.Stand.Standing.SD {
		t.Error("a reading makes the standing quality no surer than heat alone")
	}
}

func TestHeatThatSaysNoMoreIsNotTakenForNothingDue(t *testing.T) {
	p := find(round(t, day("06-28"), plain(), alfalfa("Alder")), "Alder", "first-cut")
	says(t, p, "Cannot be judged", "was a cut not recorded?", "stick reading")
	if p != nil && p.Urgency != advice.Unjudged {
		t.Errorf("%s", p.Urgency.Key())
	}
}

func TestATallerStandIsNeverCutLater(t *testing.T) {
	series := plain()
	last := unit.Day(1 << 30)
	for _, h := range []float64{20, 23, 26, 29, 32} {
		s := alfalfa("Alder")
		s.visits["05-22"] = stick(h, book.Bud)
		p := find(round(t, day("05-23"), series, s), "Alder", "first-cut")
		if p == nil {
			t.Fatalf("%.0f in: nothing said", h)
		}
		if p.Window.Middle > last {
			t.Errorf("%.0f in: %s, later than a shorter stand's %s", h, p.Window.Middle, last)
		}
		last = p.Window.Middle
	}
}

// neighbours are read stands, one a mile or two from the next.
func neighbours(heights ...float64) []*stand {
	var out []*stand
	for i, h := range heights {
		s := alfalfa(string(rune('A' + i)))
		s.Sentinel, s.east = true, 0.02*float64(i)
		s.visits["05-22"] = stick(h, book.Bud)
		out = append(out, s)
	}
	return out
}

func TestAStandWithoutAReadingBorrowsFromItsKind(t *testing.T) {
	unread, clover, mixed := alfalfa("Unread"), alfalfa("Clover"), alfalfa("Mixed")
	clover.Crop, mixed.Crop, mixed.GrassShare = book.RedClover, book.AlfalfaGrass, 0.4
	mixed.visits["05-22"] = stick(24, book.Vegetative)
	stale := alfalfa("Stale")
	stale.visits["05-10"] = stick(18, book.Vegetative)
	r := round(t, day("05-23"), plain(), append(neighbours(25, 26, 27, 26, 25, 27), unread, clover, mixed, stale)...)
	p := find(r, "Unread", "first-cut")
	says(t, p, "no reading here", "judged from six fields read nearby", "six fields read nearby")
	own := find(r, "A", "first-cut")
	without(t, own, "no reading here")
	if p == nil || own == nil {
		t.Fatal("the stands are not judged")
	}
	if a, b := p.Stand.Standing.SD, own.Stand.Standing.SD; a <= b {
		t.Errorf("borrowed ± %.1f, read ± %.1f", a, b)
	}
	var others []string
	for _, g := range p.Grounds {
		others = append(others, g.Others...)
	}
	if len(others) != 6 || others[0] != "A · Field of A" {
		t.Errorf("borrowed from %q, want the six that were read, nearest first", others)
	}
	if find(r, "Clover", "first-cut") != nil || find(r, "Clover", "clover-cut").Stand.Standing != nil {
		t.Error("red clover was given a feed value")
	}
}

func TestANearNeighbourWeighsMoreThanAFarOne(t *testing.T) {
	ndf := func(nearTall bool) float64 {
		stands := neighbours(22, 22)
		stands[1].east = 0.9 // some 45 miles
		tall := stands[1]
		if nearTall {
			tall = stands[0]
		}
		tall.visits["05-22"] = stick(30, book.Bud)
		p := find(round(t, day("05-23"), plain(), append(stands, alfalfa("Unread"))...), "Unread", "first-cut")
		if p == nil {
			t.Fatal("nothing borrowed")
		}
		return p.Stand.Standing.NDF
	}
	if near, far := ndf(true), ndf(false); near <= far {
		t.Errorf("NDF %.2f with the tall field near, %.2f with it far", near, far)
	}
}

func TestReducedLigninIsCutByTheSameFeedValueAndToldOfItsRule(t *testing.T) {
	s := alfalfa("Alder")
	s.Crop = book.ReducedLignin
	s.visits["05-26"] = stick(28, book.Bud)
	says(t, find(round(t, day("05-27"), plain(), s), "Alder", "first-cut"), "reduced-lignin alfalfa may stand about 5 days longer")
}
