package losses

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// anyFeed draws a crop that passes Check.
func anyFeed(t *rapid.T) Feed {
	f := Feed{DM: rapid.Float64Range(0.01, 20).Draw(t, "dm")}
	f.NDF = rapid.Float64Range(20, 78).Draw(t, "ndf")
	f.ADF = rapid.Float64Range(10, min(59, f.NDF-0.5)).Draw(t, "adf")
	f.CP = rapid.Float64Range(2, min(40, 100-f.NDF)).Draw(t, "cp")
	if err := f.Check(); err != nil {
		t.Fatal(err)
	}
	return f
}

// anyForage draws a crop as laboratories see them, where no pool runs out.
func anyForage(t *rapid.T) Feed {
	f := Feed{DM: rapid.Float64Range(0.5, 8).Draw(t, "dm")}
	f.NDF = rapid.Float64Range(34, 55).Draw(t, "ndf")
	f.ADF = f.NDF * rapid.Float64Range(0.70, 0.82).Draw(t, "adf/ndf")
	f.CP = rapid.Float64Range(14, 26).Draw(t, "cp")
	return f
}

func anyMade(t *rapid.T) Made {
	var p [6]float64
	sum := 0.0
	for i := range p {
		p[i] = rapid.Float64Range(0, 1).Draw(t, "part")
		sum += p[i]
	}
	if sum == 0 {
		return Made{Whole: 1}
	}
	return Made{p[0] / sum, p[1] / sum, p[2] / sum, p[3] / sum, p[4] / sum, p[5] / sum}
}

func near(a, b float64) bool { return math.Abs(a-b) <= 1e-9*(1+math.Abs(a)+math.Abs(b)) }

// TestWhatLeavesAndWhatStaysIsWhatEntered proves the mass balance of each component for any loss from
// any crop, and that nothing falls below 0 or passes the whole.
func TestWhatLeavesAndWhatStaysIsWhatEntered(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, share := anyFeed(t), rapid.Float64Range(0, 0.999).Draw(t, "share")
		left, lost, err := f.Take(share, PublishedTissue().Of(anyMade(t), f.Composition))
		if err != nil {
			t.Fatal(err)
		}
		if !near(lost.DM, share*f.DM) {
			t.Errorf("lost %g of %g, want %g", lost.DM, f.DM, share*f.DM)
		}
		before, a, b := f.masses(), left.masses(), lost.masses()
		for i := range before {
			if !near(before[i], a[i]+b[i]) || a[i] < -1e-12 || b[i] < -1e-12 {
				t.Errorf("pool %d: %g entered, %g stays and %g leaves", i, before[i], a[i], b[i])
			}
		}
		if left.NDF+left.CP > 100+1e-9 || left.ADF > left.NDF+1e-9 {
			t.Errorf("left %+v: parts pass the whole", left)
		}
	})
}

func TestALossThatIsNoneOrTooMuchIsRefused(t *testing.T) {
	f := Feed{DM: 1, Composition: Composition{NDF: 40, ADF: 30, CP: 20}}
	for _, share := range []float64{-0.01, 1, math.NaN(), math.Inf(1)} {
		if _, _, err := f.Take(share, Composition{}); err == nil {
			t.Errorf("share %g was taken", share)
		}
	}
	for _, made := range []Composition{{NDF: 10, ADF: 20}, {NDF: 60, CP: 50}, {NDF: math.NaN()}, {CP: -1}} {
		if _, _, err := f.Take(0.1, made); err == nil {
			t.Errorf("a loss of %+v was taken", made)
		}
	}
	for _, bad := range []Feed{{}, {DM: 1, Composition: Composition{NDF: 40, ADF: 41, CP: 20}}, {DM: 1, Composition: Composition{NDF: 70, ADF: 40, CP: 31}}, {DM: math.Inf(1), Composition: f.Composition}} {
		if _, err := Begin(bad, PublishedTissue()); err == nil {
			t.Errorf("a chain began with %+v", bad)
		}
	}
}

func TestAChainRefusesALossThatCannotBe(t *testing.T) {
	c, err := Begin(Feed{DM: 1, Composition: Composition{NDF: 40, ADF: 30, CP: 20}}, PublishedTissue())
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range []Loss{
		{Name: "upside down", Share: Range{0.2, 0.1, 0.3}, Made: Made{Whole: 1}},
		{Name: "all of it", Share: Range{0.1, 0.2, 1}, Made: Made{Whole: 1}},
		{Name: "a gain", Share: Range{-0.1, 0, 0.1}, Made: Made{Whole: 1}},
		{Name: "half named", Share: Range{0.1, 0.1, 0.1}, Made: Made{Leaf: 0.5}},
		{Name: "negative part", Share: Range{0.1, 0.1, 0.1}, Made: Made{Leaf: 1.5, Stem: -0.5}},
	} {
		if _, err := c.Then(l); err == nil {
			t.Errorf("%s was taken", l.Name)
		}
	}
}

// TestALongerChainLeavesTheShorterAsItWas proves that chains may be branched: hay and haylage off one
// swath.
func TestALongerChainLeavesTheShorterAsItWas(t *testing.T) {
	c, _ := Begin(Feed{DM: 4, Composition: Composition{NDF: 40, ADF: 30, CP: 20}}, PublishedTissue())
	loss := func(name string) Loss {
		return Loss{Name: name, Share: Range{0.1, 0.1, 0.1}, Made: Made{Whole: 1}}
	}
	c, err := c.Then(loss("a"), loss("b"), loss("c"))
	if err != nil {
		t.Fatal(err)
	}
	hay, _ := c.Then(loss("hay"))
	haylage, _ := c.Then(loss("haylage"))
	if hay.Steps[3].Name != "hay" || haylage.Steps[3].Name != "haylage" || len(c.Steps) != 3 {
		t.Errorf("branches mixed: %s, %s, %d steps", hay.Steps[3].Name, haylage.Steps[3].Name, len(c.Steps))
	}
	if got, want := hay.Left().DM, 4*math.Pow(0.9, 4); !near(got, want) {
		t.Errorf("%g left, want %g", got, want)
	}
}
