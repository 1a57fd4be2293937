package herd

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// A herd from its animals: intake by the equations of 2001 and 2021, then tons and acres.
func TestAHerdFromItsAnimals(t *testing.T) {
	fcm, cow, dry, young := PublishedFCM(), PublishedCow2001(), PublishedDries(Fit2001).Cow, PublishedHeifer2021()
	groups := []Group{
		{"high", 50, cow.Intake(680, fcm.Of(45, 3.7), 15) / kgAPound, 0.50, []float64{0.45}},
		{"low", 35, cow.Intake(700, fcm.Of(28, 4.0), 35) / kgAPound, 0.58, []float64{0.45}},
		{"dry", 15, dry.Intake(720, 250) / kgAPound, 0.85, []float64{0.25}},
		{"heifers 3-11 months", 45, young.Intake(200, 700) / kgAPound, 0.65, []float64{0.50}},
		{"heifers 12-23 months", 55, young.Intake(430, 700) / kgAPound, 0.85, []float64{0.60}},
	}
	for i, want := range []float64{61.90, 51.97, 31.17, 12.09, 20.77} {
		if !near(groups[i].IntakeLb, want, 6e-3) {
			t.Errorf("%s: %g lb, want %g", groups[i].Name, groups[i].IntakeLb, want)
		}
	}
	n, err := Year(groups, []Forage{{"legume", 5, Losses{0.15, 0.12, 0.05}, 0}})
	if err != nil {
		t.Fatal(err)
	}
	l := n.Forages[0]
	if !near(n.Forage, 789.2, 0.06) || !near(l.Fed, 370.4, 0.06) || !near(l.Stored, 443.1, 0.06) || !near(l.Acres, 104.3, 0.06) {
		t.Errorf("%+v", n)
	}
	if perDay := l.Fed * poundsATon / daysAYear; !near(perDay, 2029.8, 0.06) {
		t.Errorf("%g lb of legume a day, want 2029.8", perDay)
	}
}

func TestNeedGrowsWithHerdLossAndReserve(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := Group{"g", float64(rapid.IntRange(1, 500).Draw(t, "head")), rapid.Float64Range(5, 70).Draw(t, "lb"), rapid.Float64Range(0.1, 1).Draw(t, "share"), []float64{rapid.Float64Range(0.1, 1).Draw(t, "part")}}
		f := Forage{"f", rapid.Float64Range(1, 9).Draw(t, "yield"), Losses{rapid.Float64Range(0, 0.4).Draw(t, "field"), rapid.Float64Range(0, 0.4).Draw(t, "storage"), rapid.Float64Range(0, 0.3).Draw(t, "feeding")}, rapid.Float64Range(0, 0.5).Draw(t, "reserve")}
		acres := func(g Group, f Forage) Tons {
			n, err := Year([]Group{g}, []Forage{f})
			if err != nil {
				t.Fatal(err)
			}
			return n.Forages[0]
		}
		a := acres(g, f)
		if !(a.Fed <= a.Stored && a.Stored <= a.Cut) || !near(a.Cut/f.Yield, a.Acres, 1e-9) {
			t.Fatalf("%+v", a)
		}
		twice := g
		twice.Head *= 2
		if !near(acres(twice, f).Acres, 2*a.Acres, 1e-6*a.Acres) {
			t.Fatal("twice the herd does not want twice the acres")
		}
		lossy, held := f, f
		lossy.Losses.Storage += 0.1
		held.Reserve += 0.1
		if !(acres(g, lossy).Acres > a.Acres) || !(acres(g, held).Acres > a.Acres) {
			t.Fatal("more loss or reserve wants no more acres")
		}
	})
}

// TestAHerdThatCannotBeIsRefused proves that each refusal names the group or forage and what is
// accepted.
func TestAHerdThatCannotBeIsRefused(t *testing.T) {
	g := func(f func(*Group)) []Group {
		x := Group{"cows", 100, 50, 0.5, []float64{0.5}}
		f(&x)
		return []Group{x}
	}
	fg := func(f func(*Forage)) []Forage {
		x := Forage{"haylage", 5, Losses{0.1, 0.1, 0.05}, 0}
		f(&x)
		return []Forage{x}
	}
	asIs, field := func(*Group) {}, func(*Forage) {}
	for name, c := range map[string]struct {
		groups  []Group
		forages []Forage
		want    string
	}{
		"no group":             {nil, fg(field), "no group is given"},
		"no animal":            {g(func(x *Group) { x.Head = 0 }), fg(field), "no animal in any group: head accepted over 0 in one group at least"},
		"animals under 0":      {g(func(x *Group) { x.Head = -3 }), fg(field), "group 1 cows: head -3: accepted 0 to 100000"},
		"half an animal":       {g(func(x *Group) { x.Head = 3.5 }), fg(field), "head 3.5: accepted whole numbers"},
		"intake unknown":       {g(func(x *Group) { x.IntakeLb = math.NaN() }), fg(field), "lb of dry matter a head and day NaN: accepted 0 to 100"},
		"a share over 1":       {g(func(x *Group) { x.ForageShare = 50 }), fg(field), "forage share 50: accepted 0 to 1"},
		"parts over 1":         {g(func(x *Group) { x.Parts = []float64{0.6, 0.6} }), append(fg(field), fg(field)...), "the parts of the forage add to 1.2"},
		"a part under 0":       {g(func(x *Group) { x.Parts = []float64{-0.1} }), fg(field), "part of the forage -0.1: accepted 0 to 1"},
		"parts for no forage":  {g(asIs), nil, "1 parts of the forage for 0 forages"},
		"no yield":             {g(asIs), fg(func(x *Forage) { x.Yield = 0 }), "forage 1 haylage: yield 0 tons/ac: accepted over 0 to 20"},
		"all lost":             {g(asIs), fg(func(x *Forage) { x.Losses.Storage = 1 }), "storage loss 1: accepted 0 to under 1"},
		"a reserve under 0":    {g(asIs), fg(func(x *Forage) { x.Reserve = -0.1 }), "reserve -0.1: accepted 0 and over"},
		"a feeding loss of 12": {g(asIs), fg(func(x *Forage) { x.Losses.Feeding = 12 }), "feeding loss 12: accepted 0 to under 1"},
	} {
		if _, err := Year(c.groups, c.forages); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want an error saying %q", name, err, c.want)
		}
	}
}

func TestAPenThatIsEmptyTodayEatsNothing(t *testing.T) {
	n, err := Year([]Group{{"cows", 100, 50, 0.5, []float64{1}}, {"dry", 0, 30, 0.8, []float64{1}}}, []Forage{{"haylage", 5, Losses{}, 0}})
	if err != nil || !near(n.Forage, 100*50*0.5*365/2000, 1e-9) {
		t.Errorf("%+v, %v", n, err)
	}
}

func TestEveryGroupFindsItsTarget(t *testing.T) {
	for _, table := range []Targets{MinnesotaTargets(), WisconsinTargets()} {
		for _, x := range table {
			if got, err := table.For(x.Group); err != nil || got.Group != x.Group {
				t.Errorf("%s: %+v, %v", x.Group, got, err)
			}
			for _, b := range []Band{x.CP, x.NDF, x.NDFD, x.RFQ} {
				if b.High < b.Low {
					t.Errorf("%s: band %v", x.Group, b)
				}
			}
		}
	}
	for _, g := range Groups() {
		if _, err := WisconsinTargets().For(g); err != nil {
			t.Error(err)
		}
	}
}

// TestBetterForageIsNeverCalledPoorer proves that verdicts go from too poor through suits to better.
func TestBetterForageIsNeverCalledPoorer(t *testing.T) {
	rank := map[Fit]int{Short: 0, Suits: 1, Better: 2, Fatting: 3}
	for _, table := range []Targets{MinnesotaTargets(), WisconsinTargets()} {
		for _, x := range table {
			last := 0
			for rfq := 50.; rfq <= 250; rfq += 0.5 {
				if r := rank[x.Judge(rfq)]; r < last {
					t.Errorf("%s: %s at %g", x.Group, x.Judge(rfq), rfq)
				} else {
					last = r
				}
			}
		}
	}
}

func TestADietWithinItsLimitsIsNotFlagged(t *testing.T) {
	k := PublishedDietLimits()
	for _, c := range []struct {
		share, ndf, diet float64
		flags            int
	}{{0.55, 42, 31, 0}, {0.55, 42, -1, 0}, {0.50, 38, 28, 0}, {0.80, 45, 40, 0}, {0.40, 30, 20, 3}, {0.85, 45, 42, 1}} {
		if got := k.Flags(c.share, ForageNDF(c.share, c.ndf), c.diet); len(got) != c.flags {
			t.Errorf("%+v: %q", c, got)
		}
	}
	if _, err := run("diet-fibre", map[string]any{"forage_share": 0.6, "forage_ndf": 50., "diet_ndf": 25.}); err == nil || !strings.Contains(err.Error(), "under the 30.0 % that comes from forage alone") {
		t.Errorf("a diet with less fibre than its forage: %v", err)
	}
}
