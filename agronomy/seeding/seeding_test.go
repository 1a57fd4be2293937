package seeding

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"haywarden/agronomy/unit"
)

func anyLot(t *rapid.T) Lot {
	g := rapid.Float64Range(0.1, 1).Draw(t, "germination")
	return Lot{
		SeedsPerLb: unit.SeedsPound(rapid.Float64Range(1e5, 1.3e6).Draw(t, "seeds")), Purity: unit.Share(rapid.Float64Range(0.3, 1).Draw(t, "purity")),
		Germination: unit.Share(g), Hard: unit.Share(rapid.Float64Range(0, 1-g).Draw(t, "hard")),
		Coating: unit.Share(rapid.Float64Range(0, 0.5).Draw(t, "coating")), HardCounts: 1,
	}
}

func TestALotNeverHoldsMoreLiveSeedThanSeed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, err := anyLot(t).At(unit.PoundAcre(rapid.Float64Range(1, 40).Draw(t, "rate")))
		if err != nil {
			t.Fatal(err)
		}
		if s.Live > s.Seeds*(1+1e-9) || s.PureLive < 0 || s.PureLive > 1+1e-9 {
			t.Fatalf("%+v", s)
		}
	})
}

func TestARateForAGoalReachesTheGoal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lot, goal := anyLot(t), rapid.Float64Range(5, 120).Draw(t, "goal")
		rate, err := lot.ForLive(unit.PerFt2(goal))
		if err != nil {
			t.Fatal(err)
		}
		s, err := lot.At(rate)
		if err != nil || math.Abs(float64(s.Live)-goal) > 1e-9*goal {
			t.Fatalf("%v, %v; want %g live", s, err, goal)
		}
	})
}

func TestLotsThatCannotBeAreRefusedByName(t *testing.T) {
	good := Lot{SeedsPerLb: 199000, Purity: 0.99, Germination: 0.9, HardCounts: 1}
	for name, tc := range map[string]struct {
		spoil func(*Lot)
		want  string
	}{
		"purity":            {func(l *Lot) { l.Purity = 1.2 }, "purity 1.2"},
		"nothing pure":      {func(l *Lot) { l.Purity = 0 }, "purity 0"},
		"not a number":      {func(l *Lot) { l.Germination = unit.Share(math.NaN()) }, "germination NaN"},
		"all coat":          {func(l *Lot) { l.Coating = 1 }, "coating 1"},
		"more than all":     {func(l *Lot) { l.Hard = 0.2 }, "over 1 together"},
		"no seeds":          {func(l *Lot) { l.SeedsPerLb = 0 }, "seeds_per_lb 0"},
		"nothing is living": {func(l *Lot) { l.Germination = 0 }, "nothing in this lot is alive"},
	} {
		lot := good
		tc.spoil(&lot)
		if _, err := lot.ForPure(12); err == nil || !strings.Contains(err.Error(), tc.want) {
			t.Errorf("%s: error %v, want one saying %q", name, err, tc.want)
		}
	}
	if _, err := SpeciesNamed("oats"); err == nil || !strings.Contains(err.Error(), "red-clover") {
		t.Errorf("oats: %v", err)
	}
}

func TestPlantsNeverOutnumberTheSeedsTheyCameFrom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		live := unit.PerFt2(rapid.Float64Range(0, 300).Draw(t, "live"))
		p, more := PublishedSurvival().From(live), PublishedSurvival().From(live+1)
		if !(p.Spring2 <= p.Spring1 && p.Spring1 <= p.Emerged && p.Emerged <= live) || more.Spring2 < p.Spring2 {
			t.Fatalf("%g live: %+v, one more: %+v", live, p, more)
		}
	})
}

func TestWaitingNeverRaisesTheRiskAndAgeNeverLowersIt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pick := func(w [3]string, key string) string { return rapid.SampledFrom(w[:]).Draw(t, key) }
		o := Old{
			Topgrowth: pick(Topgrowths(), "topgrowth"), Resistance: pick(Resistances(), "resistance"), Soil: pick(Soils(), "soil"), Tillage: pick(Tillages(), "tillage"),
			Rain: rapid.Float64Range(0, 5).Draw(t, "rain"), Age: rapid.Float64Range(0, 6).Draw(t, "age"), Delay: rapid.Float64Range(0, 14).Draw(t, "delay"),
		}
		r, err := PublishedScore().Of(o)
		if err != nil || r.Points < 0 || r.Points > 51 {
			t.Fatalf("%+v, %v", r, err)
		}
		later, older := o, o
		later.Delay++
		older.Age++
		a, _ := PublishedScore().Of(later)
		b, _ := PublishedScore().Of(older)
		if a.Points > r.Points+1e-9 || b.Points < r.Points-1e-9 {
			t.Fatalf("%+v: %g, a month later %g, a year older %g", o, r.Points, a.Points, b.Points)
		}
	})
}
