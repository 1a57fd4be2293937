package advice_test

import (
	"strings"
	"testing"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/outlook"
)

func TestGrassBringsTheCutForwardAndHasNoFeedValue(t *testing.T) {
	series := plain()
	last := unit.Day(1 << 30)
	for _, grass := range []float64{0.2, 0.4, 0.7} {
		s := alfalfa("Mixed")
		s.Crop, s.GrassShare = book.AlfalfaGrass, grass
		s.visits["05-10"] = stick(17, book.Vegetative)
		p := find(round(t, day("05-12"), series, s), "Mixed", "first-cut")
		says(t, p, "grass", "tallest alfalfa")
		if p == nil {
			continue
		}
		if strings.Contains(p.Sentence+p.Worth.Text, "RFV") || p.Stand.Standing != nil {
			t.Errorf("a mixture was given a feed value: %q", p.Sentence)
		}
		if p.Window.Middle > last {
			t.Errorf("%.0f %% grass: %s, later than with less", 100*grass, p.Window.Middle)
		}
		last = p.Window.Middle
	}
}

func TestTenPercentGrassIsStillPureAndMoreIsNot(t *testing.T) {
	for grass, want := range map[float64]outlook.Kind{0: outlook.PureAlfalfa, 0.10: outlook.PureAlfalfa, 0.11: outlook.Mixture, 0.6: outlook.Mixture} {
		s := alfalfa("Alder")
		s.visits["05-01"] = book.Visit{Grass: &grass}
		if got := round(t, day("05-23"), plain(), s).Outlook.Stands[0].Judged(); got != want {
			t.Errorf("%.0f %% grass as seen: judged as %v, want %v", 100*grass, got, want)
		}
	}
}

func TestAMixtureIsNeverGivenAFeedValueAllYear(t *testing.T) {
	s := alfalfa("Mixed")
	s.Crop, s.GrassShare, s.deck = book.AlfalfaGrass, 0.35, hayPrices(0)
	s.visits["05-12"], s.visits["05-19"], s.visits["06-16"] = stick(18, book.Vegetative), stick(24, book.Bud), stick(22, book.Bud)
	s.cuts = []string{"05-27", "06-29"}
	for d := day("04-01"); d < day("11-01"); d += 4 {
		for _, p := range round(t, d, plain(), s).Pieces {
			without(t, p, "RFV", "rfv")
			if p.Stand.Standing != nil || p.Worth.Dollars != nil {
				t.Errorf("%s: %q with %+v", d, p.Title, p.Worth)
			}
		}
	}
}

func TestAHeightThatLooksWrongDoesNotTriggerAMixture(t *testing.T) {
	s := alfalfa("Mixed")
	s.Crop, s.GrassShare = book.AlfalfaGrass, 0.4
	s.visits["05-06"] = stick(12, book.Vegetative)
	sound := find(round(t, day("05-09"), plain(), s), "Mixed", "first-cut")
	s.visits["05-08"] = stick(44, book.Vegetative)
	p := find(round(t, day("05-09"), plain(), s), "Mixed", "first-cut")
	says(t, p, "looks wrong", "again")
	if p != nil && sound != nil && p.Window.Middle != sound.Window.Middle {
		t.Errorf("the window moved from %s to %s by a reading that was set aside", sound.Window.Middle, p.Window.Middle)
	}
}
