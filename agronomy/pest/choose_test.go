package pest

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func anyCase(t *rapid.T) Case {
	c := Case{
		Pest:      rapid.SampledFrom([]Pest{AlfalfaWeevil, Leafhopper}).Draw(t, "pest"),
		Count:     rapid.Float64Range(0, 40).Draw(t, "count"),
		HeightIn:  rapid.Float64Range(1, 40).Draw(t, "height"),
		Stand:     Stand{rapid.Bool().Draw(t, "resistant"), rapid.Bool().Draw(t, "seeding")},
		DaysToCut: rapid.Float64Range(0, 60).Draw(t, "days"),
		PHI:       rapid.Float64Range(0, 30).Draw(t, "phi"),
		Bloom:     rapid.Bool().Draw(t, "bloom"),
		Confirmed: rapid.Bool().Draw(t, "label"),
	}
	if rapid.Bool().Draw(t, "priced") {
		c.Money = Money{rapid.Float64Range(20, 500).Draw(t, "hay"), rapid.Float64Range(3, 60).Draw(t, "cost")}
	}
	return c
}

// TestNothingIsSprayedThatIsForbidden: bees, the label and the days to harvest stand over every dollar.
func TestNothingIsSprayedThatIsForbidden(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCase(t)
		got, err := PublishedWeights().Choose(c)
		if err != nil {
			t.Fatal(err)
		}
		if got.Choice == Spray && (c.Bloom || !c.Confirmed || c.PHI > c.DaysToCut || c.DaysToCut <= CutInstead || len(got.Blocks) > 0) {
			t.Fatalf("sprayed: %+v, %+v", c, got)
		}
		if got.Choice == Spray && !got.Plain && got.NetSpray <= 0 {
			t.Fatalf("sprayed at a loss: %+v, %+v", c, got)
		}
		if got.Standing == Under && got.Choice != LeaveIt {
			t.Fatalf("acted under the threshold: %+v", got)
		}
		if c.Bloom != slices.Contains(got.Blocks, BlockBloom) {
			t.Fatalf("bloom %t, blocks %v", c.Bloom, got.Blocks)
		}
	})
}

// TestDearerHayActsSooner: a threshold never rises with the price of hay nor falls with the cost.
func TestDearerHayActsSooner(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCase(t)
		c.Money = Money{rapid.Float64Range(20, 500).Draw(t, "hay"), rapid.Float64Range(3, 60).Draw(t, "cost")}
		w := PublishedWeights()
		at := func(m Money) float64 {
			c.Money = m
			v, _, _ := w.Threshold(c)
			return v
		}
		m := c.Money
		base := at(m)
		if dear := at(Money{m.Hay * 1.5, m.Cost}); dear > base {
			t.Fatalf("dearer hay raises it from %g to %g", base, dear)
		}
		if costly := at(Money{m.Hay, m.Cost * 1.5}); costly < base {
			t.Fatalf("dearer treatment lowers it from %g to %g", base, costly)
		}
	})
}

// TestAResistantStandBearsNoLess: variety and year move the threshold up or not at all.
func TestAResistantStandBearsNoLess(t *testing.T) {
	k, m := PublishedHopper(), Money{120, 12}
	for h := 1.0; h <= 30; h++ {
		plain, _ := k.Threshold(h, m, Stand{})
		for _, s := range []Stand{{true, false}, {true, true}, {false, true}} {
			got, _ := k.Threshold(h, m, s)
			if want := plain * k.times(s); got != want || got < plain {
				t.Errorf("%g in, %+v: %g, plain %g", h, s, got, plain)
			}
		}
	}
}

func TestImpossibleCasesAreRefused(t *testing.T) {
	for _, c := range []Case{
		{Pest: "moth", Count: 1, HeightIn: 10}, {Pest: AlfalfaWeevil, Count: -1, HeightIn: 10},
		{Pest: AlfalfaWeevil, Count: 1}, {Pest: Leafhopper, Count: 1, HeightIn: 10, DaysToCut: -1},
	} {
		if _, err := PublishedWeights().Choose(c); err == nil {
			t.Errorf("%+v was taken", c)
		}
	}
}

// Ohio's worked counts: 8 in with 8 in ten sweeps treat, 7 look again; 6 in with 18 treat a resistant
// stand too. [source.HopperIndex]
func TestTheHopperIndexAgreesWithItsExamples(t *testing.T) {
	for _, c := range []struct {
		height, perTen float64
		resistant      bool
		want           Verdict
	}{{8, 8, false, Over}, {8, 7, false, Near}, {6, 18, true, Over}, {6, 6, false, Over}, {8, 3, false, Under}} {
		at := c.height / 10
		if c.resistant {
			at *= PublishedHopper().Resistant
		}
		if got := Judge(c.perTen/10, at); got != c.want {
			t.Errorf("%g in, %g in ten sweeps: %s, want %s", c.height, c.perTen, got, c.want)
		}
	}
}

// No spray is spoken of without all that goes with it.
func TestASprayIsToldWithEveryCaution(t *testing.T) {
	action, cautions := TellSpray("Spray.").Say()
	if action != "Spray." || len(cautions) != len(spraying()) || len(cautions) < 8 {
		t.Errorf("%q with %d cautions", action, len(cautions))
	}
	if _, walk := TellWalk("Walk.").Say(); len(walk) == 0 {
		t.Error("a walk into a field is told without its caution")
	}
}
