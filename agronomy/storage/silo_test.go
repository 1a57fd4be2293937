package storage

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// TestATowerFedOffTheTopLosesWhatWasTakenFromIt proves that tons only fall as feet are removed, down to
// nothing, and that half the depth holds more than half the feed.
func TestATowerFedOffTheTopLosesWhatWasTakenFromIt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := Body{Shape: TowerShape, Diameter: rapid.Float64Range(8, 40).Draw(t, "diameter"), Height: rapid.Float64Range(10, 100).Draw(t, "height")}
		for _, f := range Fills() {
			line, last := PublishedTowers().Of(Fill(f)), math.Inf(1)
			for i := range 11 {
				b.Removed = b.Height * float64(i) / 10
				got := line.Tons(b)
				if !(got < last) {
					t.Fatalf("%s: %g ft off leave %g tons, after %g", f, b.Removed, got, last)
				}
				last = got
			}
			if math.Abs(last) > 1e-6 {
				t.Fatalf("%s: an empty tower holds %g tons", f, last)
			}
			full, half := b, b
			full.Removed, half.Removed = 0, b.Height/2
			if line.Tons(half) <= line.Tons(full)/2 {
				t.Fatalf("%s: the lower half holds %g of %g tons", f, line.Tons(half), line.Tons(full))
			}
		}
	})
}

// TestPackingAnswersTheWayTheCrewWorks proves that weight, tractors, dry matter and depth pack, that
// layers and haste do not, and that the pace is the rate at which the goal is just reached.
func TestPackingAnswersTheWayTheCrewWorks(t *testing.T) {
	k := PublishedPacking()
	rapid.Check(t, func(t *rapid.T) {
		draw := rapid.Float64Range
		c := Crew{draw(8000, 60000).Draw(t, "weight"), draw(3, 14).Draw(t, "layer"), draw(0.3, 4).Draw(t, "tractors"), draw(0.25, 0.6).Draw(t, "dm"), draw(10, 200).Draw(t, "rate"), draw(4, 30).Draw(t, "depth")}
		at := func(change func(*Crew)) float64 {
			d := c
			change(&d)
			got, err := k.Density(d)
			if err != nil {
				t.Fatal(err)
			}
			return got.Mid
		}
		base := at(func(*Crew) {})
		for name, change := range map[string]func(*Crew){
			"weight": func(c *Crew) { c.Weight *= 1.1 }, "tractors": func(c *Crew) { c.Tractors *= 1.1 }, "dm": func(c *Crew) { c.DM *= 1.1 }, "depth": func(c *Crew) { c.Depth *= 1.1 },
			"thinner layers": func(c *Crew) { c.Layer /= 1.1 }, "slower delivery": func(c *Crew) { c.Rate /= 1.1 },
		} {
			if at(change) <= base {
				t.Fatalf("more %s packs no better: %g after %g", name, at(change), base)
			}
		}
		if base > 39 {
			return // no goal so far
		}
		p, err := k.Pace(c, base, poundsAnHour)
		if err != nil || math.Abs(p.ByFactor/c.Rate-1) > 1e-6 {
			t.Fatalf("density %g is reached at %g tons an hour, the pace says %g (%v)", base, c.Rate, p.ByFactor, err)
		}
	})
}

// TestAFaceAsLargeAsAllowedIsFedAtTheRateAsked proves that the size of a face and its rate agree.
func TestAFaceAsLargeAsAllowedIsFedAtTheRateAsked(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lb, density, rate := rapid.Float64Range(100, 20000).Draw(t, "lb"), rapid.Float64Range(6, 25).Draw(t, "density"), rapid.Float64Range(1, 36).Draw(t, "rate")
		got, err := FaceInches(lb, FaceMost(lb, density, rate), density)
		if err != nil || math.Abs(got/rate-1) > 1e-9 {
			t.Fatalf("asked for %g in a day, got %g (%v)", rate, got, err)
		}
	})
}

func TestWhatCannotBeASiloIsRefusedByName(t *testing.T) {
	for want, b := range map[string]Body{
		`shape "barn"; accepted tower`:                  {Shape: "barn"},
		"diameter of the tower 0: accepted over 0":      {Shape: TowerShape, Height: 20},
		"removed 30 ft of a tower filled 20 ft":         {Shape: TowerShape, Diameter: 16, Height: 20, Removed: 30},
		"length of the bunker -3: accepted over 0":      {Shape: BunkerShape, Width: 30, Length: -3, Wall: 8},
		"crown 3 ft over a wall of 10 ft":               {Shape: BunkerShape, Width: 30, Length: 90, Wall: 10, Crown: 3},
		"ramp 100 ft in a bunker 90 ft long":            {Shape: BunkerShape, Width: 30, Length: 90, Wall: 8, Ramp: 100},
		"area1 and area2 are both 0":                    {Shape: PileShape, Length: 50},
		"diameter of the bag 40: accepted over 0 to 20": {Shape: BagShape, Diameter: 40, Length: 100},
		"wall of the bunker NaN: accepted over 0 to 60": {Shape: BunkerShape, Width: 30, Length: 90, Wall: math.NaN()},
	} {
		if _, err := b.Volume(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error %v, want one saying %q", err, want)
		}
	}
	if _, err := Weeks(-1, 0, 100); err == nil || !strings.Contains(err.Error(), "tons -1: accepted 0 to") {
		t.Errorf("negative tons: %v", err)
	}
	if _, err := Weeks(10, 0, 0); err == nil || !strings.Contains(err.Error(), "lb_day 0: accepted over 0") {
		t.Errorf("nobody eats: %v", err)
	}
}

// TestABunkerFilledLevelIsAsDeepAsItsWall proves that no crown means level, and that depth is section by
// width.
func TestABunkerFilledLevelIsAsDeepAsItsWall(t *testing.T) {
	b := Body{Shape: BunkerShape, Width: 30, Length: 90, Wall: 8}
	if b.Depth() != 8 || b.Face() != 240 {
		t.Errorf("depth %g ft and face %g ft2, want 8 and 240", b.Depth(), b.Face())
	}
	b.Crown = 11
	if got := b.Depth(); math.Abs(got-10) > 1e-9 {
		t.Errorf("crowned by 3 ft it is %g ft deep, want 10", got)
	}
}
