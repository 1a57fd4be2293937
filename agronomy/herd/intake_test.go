package herd

import (
	"maps"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"haywarden/agronomy/method"
)

func near(a, b, tolerance float64) bool { return math.Abs(a-b) <= tolerance }

func TestIntakeRisesWithMilkAndWeight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, m := rapid.Float64Range(350, 850).Draw(t, "weight"), rapid.Float64Range(10, 55).Draw(t, "milk")
		heavier, more := w+rapid.Float64Range(1, 100).Draw(t, "heavier"), m+rapid.Float64Range(0.5, 10).Draw(t, "more")
		fat, days := rapid.Float64Range(2.5, 6).Draw(t, "fat"), rapid.Float64Range(1, 365).Draw(t, "days")
		older, condition := rapid.Float64Range(0, 1).Draw(t, "older"), rapid.Float64Range(2, 4).Draw(t, "condition")
		by2001 := func(w, m float64) float64 {
			return PublishedCow2001().Intake(w, PublishedFCM().Of(m, fat), days/daysAWeek)
		}
		by2021 := func(w, m float64) float64 {
			return PublishedCow2021().Intake(w, m*PublishedMilk(Edition2021).Energy(fat, 3.1, 4.85), older, condition, days)
		}
		check := func(w, m float64) float64 { return PublishedCrossCheck().Intake(w, PublishedFCM().Of(m, fat), 32) }
		for name, f := range map[string]func(w, m float64) float64{"2001": by2001, "2021": by2021, "cross-check": check} {
			if !(f(heavier, m) > f(w, m)) || !(f(w, more) > f(w, m)) {
				t.Fatalf("%s: %g kg at %g kg and %g milk, %g heavier, %g with more milk", name, f(w, m), w, m, f(heavier, m), f(w, more))
			}
		}
		if !(PublishedHeifer2021().Intake(w, 900) < PublishedHeifer2021().Intake(min(heavier, 900), 900)) {
			t.Fatal("a heavier heifer does not eat more")
		}
	})
}

func TestIntakeFallsTowardsCalving(t *testing.T) {
	for _, fit := range []DryFit{Fit2001, Fit2003} {
		for who, k := range map[string]Dry{"cow": PublishedDries(fit).Cow, "heifer": PublishedDries(fit).Heifer} {
			for d := 241.; d <= 283; d++ {
				if !(k.Intake(700, d) < k.Intake(700, d-1)) {
					t.Errorf("%s %s: day %g is not below the day before", fit, who, d)
				}
			}
		}
	}
	k := PublishedDry2021()
	for w := -2.75; w <= 0; w += 0.25 {
		if !(k.Intake(720, w, 45) < k.Intake(720, w-0.25, 45)) {
			t.Errorf("2021: week %g is not below the week before", w)
		}
	}
	if k.Intake(720, -3, 45) != k.Intake(720, -9, 45) || k.Intake(720, 0, 45) != k.Intake(720, 1, 45) {
		t.Error("2021: the week is not held to -3..0")
	}
}

// The fits of 2001 and 2003 are the same to 0.05 kg at the points where both were printed.
func TestTheTwoDryFitsAgree(t *testing.T) {
	for _, c := range []struct{ weight, days float64 }{{751, 262}, {751, 270}, {751, 279}} {
		a, b := PublishedDries(Fit2001).Cow.Intake(c.weight, c.days), PublishedDries(Fit2003).Cow.Intake(c.weight, c.days)
		if !near(a, b, 0.05) {
			t.Errorf("day %g: %g and %g", c.days, a, b)
		}
	}
}

// Feed at 1.60 Mcal/kg that meets the need of three cows of 2001.
func TestFeedForTheEnergy(t *testing.T) {
	for _, c := range []struct{ weight, milk, fat, kg float64 }{{680, 35, 3.5, 21.952}, {600, 30, 3.8, 19.716}, {450, 27, 4.9, 18.973}} {
		nel := PublishedMaintenance(Edition2001).Energy(c.weight) + c.milk*PublishedFatMilk().Energy(c.fat)
		if !near(nel/1.60, c.kg, 6e-4) {
			t.Errorf("%g kg: %g, want %g kg", c.weight, nel/1.60, c.kg)
		}
	}
}

// Milk of 4 % fat carries 0.74 to 0.75 Mcal/kg by every form.
func TestMilkOfFourPerCentFat(t *testing.T) {
	for name, v := range map[string]float64{
		"2001, fat alone": PublishedFatMilk().Energy(4), "2001": PublishedMilk(Edition2001).Energy(4, 3.3, 4.85), "2021": PublishedMilk(Edition2021).Energy(4, 3.1, 4.85),
	} {
		if v < 0.735 || v > 0.755 {
			t.Errorf("%s: %g", name, v)
		}
	}
}

func TestACalfTakesMoreEachDay(t *testing.T) {
	for d := 191.; d <= 279; d++ {
		if !(PublishedPregnancy2001().Energy(d, 45) > PublishedPregnancy2001().Energy(d-1, 45)) || !(PublishedPregnancy2021().Energy(d, 45) > PublishedPregnancy2021().Energy(d-1, 45)) {
			t.Errorf("day %g takes no more than the day before", d)
		}
	}
	if PublishedPregnancy2001().Energy(270, 30) >= PublishedPregnancy2001().Energy(270, 45) || PublishedPregnancy2021().Energy(270, 30) >= PublishedPregnancy2021().Energy(270, 45) {
		t.Error("a smaller calf takes no less")
	}
}

// run runs a method of this discipline on what is given, numbers or words by key.
func run(name string, given map[string]any) (*method.Call, error) {
	for _, m := range Methods() {
		if m.Name != name {
			continue
		}
		c := method.NewCall(m, nil)
		for key, v := range given {
			switch v := v.(type) {
			case float64:
				c.SetNum(key, v)
			case string:
				c.SetWord(key, v)
			}
		}
		return c, m.Run(c)
	}
	panic("no method is called " + name)
}

func TestTheRangeBetweenTheEditionsIsTold(t *testing.T) {
	c, err := run("cow-intake", map[string]any{"edition": "2021", "weight": 680., "milk": 35., "fat": 3.5, "protein": 3., "lactose": 4.85, "condition": 3., "dim": 11., "parity": "older"})
	if err != nil || len(c.Notes()) != 1 || c.Notes()[0] != "edition 2021 gives 19.4 and edition 2001 15.8 kg/day: take the range 15.8 to 19.4" {
		t.Errorf("%v, %v", c.Notes(), err)
	}
	c, err = run("heifer-intake", map[string]any{"edition": "2021", "weight": 300., "mature_weight": 700.})
	if err != nil || len(c.Notes()) != 1 || c.Notes()[0] != "edition 2021; the other edition wants what was not given" {
		t.Errorf("%v, %v", c.Notes(), err)
	}
	c, err = run("energy-need", map[string]any{"edition": "2001", "weight": 680., "milk": 35., "fat": 3.5, "calf": 45.})
	if err != nil || len(c.Notes()) != 1 || c.Notes()[0] != "edition 2001; goes with feed values of that edition only" {
		t.Errorf("%v, %v", c.Notes(), err)
	}
}

// TestWhatIsMissingIsNamed proves that each refusal names what is wanted and its range.
func TestWhatIsMissingIsNamed(t *testing.T) {
	cow := func(more map[string]any) map[string]any {
		given := map[string]any{"edition": "2021", "weight": 680., "milk": 35., "fat": 3.5, "protein": 3., "lactose": 4.85, "condition": 3., "parity": "older"}
		maps.Copy(given, more)
		return given
	}
	for name, c := range map[string]struct {
		method string
		given  map[string]any
		want   string
	}{
		"no stage":                  {"cow-intake", cow(nil), "dim 0 to 700 days, or wol 0 to 100 weeks"},
		"two stages":                {"cow-intake", cow(map[string]any{"dim": 100., "wol": 14.}), "want one of dim"},
		"a cow that cannot eat":     {"cow-intake", map[string]any{"edition": "2021", "weight": 250., "milk": 1., "fat": 1., "protein": 1., "lactose": 3., "condition": 5., "parity": "older", "dim": 0.}, ""},
		"heifer without energy":     {"heifer-intake", map[string]any{"edition": "2001", "weight": 300., "mature_weight": 700.}, "nem is missing: edition 2001 wants the diet's energy for maintenance, 0.7 to 2.5 Mcal/kg"},
		"heifer without a cow":      {"heifer-intake", map[string]any{"edition": "2021", "weight": 300., "nem": 1.3}, "mature_weight is missing: edition 2021 wants it, 300 to 1000 kg"},
		"heifer over her dam":       {"heifer-intake", map[string]any{"edition": "2021", "weight": 800., "mature_weight": 700.}, "accepted up to the mature weight"},
		"dry cow without fibre":     {"dry-intake", map[string]any{"edition": "2021", "weight": 700., "week": -2.}, "ndf is missing: edition 2021 wants the NDF of the diet, 20 to 80 %"},
		"dry cow without a date":    {"dry-intake", map[string]any{"edition": "2001", "weight": 700.}, "days_pregnant 180 to 290, or week -14 to 0"},
		"heifer past calving":       {"close-up-intake", map[string]any{"animal": "heifer", "fit": "2001", "weight": 700., "days_pregnant": 290.}, "accepted up to about 285"},
		"protein without lactose":   {"energy-need", map[string]any{"edition": "2001", "weight": 700., "milk": 30., "fat": 4., "protein": 3.}, "give both, or neither"},
		"milk without fat":          {"energy-need", map[string]any{"edition": "2001", "weight": 700., "milk": 30.}, "fat is missing: a cow in milk wants it, 1 to 9 %"},
		"2021 by fat alone":         {"energy-need", map[string]any{"edition": "2021", "weight": 700., "milk": 30., "fat": 4.}, "protein and lactose are missing: edition 2021 wants both"},
		"half a cow":                {"digestibility-response", map[string]any{"points": 1., "cows": 1.5}, "whole numbers"},
		"a group of no such line":   {"quality-target", map[string]any{"group": "heifers", "table": "minnesota"}, `group "heifers" has no line in this table; it has [early-cows late-cows young-calves breeding-heifers older-animals]`},
		"a cow past calving":        {"dry-intake", map[string]any{"edition": "2001", "weight": 700., "days_pregnant": 290.}, "days_pregnant accepted up to about 285"},
		"a diet at its worst":       {"intake-by-fibre", map[string]any{"forage_ndf": 50., "adf_ndf": 1., "ndfd": 85., "milk": 1.}, ""},
		"a cow of nothing but bone": {"group-intake", map[string]any{"weight": 250., "milk_energy": 0.5, "older_share": 1., "condition": 5., "dim": 0.}, ""},
	} {
		got, err := run(c.method, c.given)
		switch {
		case c.want == "" && err == nil:
			if v, _ := got.Outputs()["dmi"].(float64); !(v > 0) {
				t.Errorf("%s: answered %v", name, got.Outputs())
			}
		case err == nil || !strings.Contains(err.Error(), c.want):
			t.Errorf("%s: %v, want an error saying %q", name, err, c.want)
		}
	}
}
