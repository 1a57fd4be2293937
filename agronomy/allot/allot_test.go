package allot

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

var nan = math.NaN()

// farm is four lots and four groups, invented.
func farm(rule Rule) Ask {
	return Ask{Rule: rule, Lots: []Lot{
		{Name: "A", Tons: 300, RFQ: 145, NDF: 42, Value: 165}, {Name: "B", Tons: 180, RFQ: 165, NDF: 38, Value: 200},
		{Name: "C", Tons: 120, RFQ: 172, NDF: 37, Value: 205}, {Name: "D", Tons: 100, RFQ: 105, NDF: 52, Value: 95},
	}, Groups: []Group{
		{"High", 220, 155, 39, 260, 36}, {"Low", 200, 140, 42, 225, 40}, {"Young", 60, 150, 41, 240, 38}, {"Older", 230, 115, 48, 160, 46},
	}}
}

// sound proves that a plan feeds every group just what it needs, takes no more of a lot than there is,
// and keeps each bound.
func sound(t interface{ Fatalf(string, ...any) }, p *Plan) {
	const hair = 1e-5
	for i, l := range p.Ask.Lots {
		sum := p.Over[i]
		for j, v := range p.Fed[i] {
			sum += v
			if v > 0 && !p.Ask.suits(l, p.Ask.Groups[j]) {
				t.Fatalf("%s goes to %s, which it does not suit", l.Name, p.Ask.Groups[j].Name)
			}
		}
		if math.Abs(sum-l.Tons) > hair*max(1, l.Tons) {
			t.Fatalf("lot %s of %g tons adds up to %g", l.Name, l.Tons, sum)
		}
	}
	for j, g := range p.Ask.Groups {
		got, fibre := p.Purchase[j], 0.
		if known(g.BuyNDF) {
			fibre = p.Purchase[j] * (g.BuyNDF - g.Ceiling)
		}
		for i, l := range p.Ask.Lots {
			if got += p.Fed[i][j]; p.Fed[i][j] > 0 {
				fibre += p.Fed[i][j] * (l.NDF - g.Ceiling)
			}
		}
		if got < g.Tons-hair*max(1, g.Tons) || !p.Ask.Whole && got > g.Tons+hair*max(1, g.Tons) {
			t.Fatalf("%s gets %g of %g tons", g.Name, got, g.Tons)
		}
		if p.Ask.Rule == ByBlend && known(g.Ceiling) && fibre > 1e-3*max(1, g.Tons) {
			t.Fatalf("%s eats %g ton-points over its ceiling", g.Name, fibre)
		}
	}
}

func TestTheBestBlendOfTheInventedFarmIsSound(t *testing.T) {
	p, err := Share(t.Context(), farm(ByBlend))
	if err != nil {
		t.Fatal(err)
	}
	sound(t, p)
	if math.Abs(p.Cost-116500) > 1e-6 {
		t.Errorf("costs %g, want 116500", p.Cost)
	}
}

func TestShadowPricesAreToldInWords(t *testing.T) {
	a := farm(ByFloor)
	for i := range a.Lots {
		a.Lots[i].Value = 110
	}
	p, err := Share(t.Context(), a)
	if err != nil {
		t.Fatal(err)
	}
	said := p.Words()
	for _, want := range []string{
		"10 tons are short, and 100 tons more are of a quality that nobody here can be fed: a gap in tons and a gap in quality",
		"one more ton of A saves $50", "one more ton of D saves nothing", "one more ton for Older costs $160",
	} {
		if !slices.Contains(said, want) {
			t.Errorf("%q does not hold %q", said, want)
		}
	}
	// A ton good enough for the cows spares what the older animals are bought, the cows having enough.
	if worth, group := p.TonWorth(160, 38); math.Abs(worth-160) > 1e-6 {
		t.Errorf("a ton of 160 is worth %g to %s, want 160", worth, group)
	}
	if worth, _ := p.TonWorth(100, 52); worth != 0 {
		t.Errorf("a ton nobody can be fed is worth %g", worth)
	}
	a = farm(ByBlend)
	if p, err = Share(t.Context(), a); err != nil {
		t.Fatal(err)
	}
	if want := "one point more of NDF allowed to High saves $1100"; !slices.Contains(p.Words(), want) {
		t.Errorf("%q does not hold %q", p.Words(), want)
	}
	// A ton at the ceiling of the high group spares what it costs to feed it.
	if worth, group := p.TonWorth(150, 39); math.Abs(worth-195) > 1e-6 || group != "High" {
		t.Errorf("a ton of 39 %% NDF is worth %g to %s, want 195 to High", worth, group)
	}
}

func TestOfPlansThatCostTheSameTheOneThatWastesLeastIsTold(t *testing.T) {
	p, err := Share(t.Context(), Ask{Rule: ByFloor, Tons: true, Lots: []Lot{{Name: "good", Tons: 100, RFQ: 170, NDF: nan}, {Name: "fair", Tons: 100, RFQ: 120, NDF: nan}},
		Groups: []Group{{"dry", 60, 110, nan, nan, nan}, {"cows", 70, 150, nan, nan, nan}}})
	if err != nil {
		t.Fatal(err)
	}
	want := [][]float64{{0, 70}, {60, 0}}
	if diff := cmp.Diff(want, p.Fed, cmp.Comparer(func(a, b float64) bool { return math.Abs(a-b) < 1e-4 })); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestWhatCannotBeFedIsToldWithWhatWouldDo(t *testing.T) {
	for _, tc := range []struct {
		name string
		ask  Ask
		want []string
	}{
		{"a group over every lot", Ask{Rule: ByFloor, Lots: []Lot{{Name: "fair", Tons: 100, RFQ: 130, NDF: nan, Value: 90}}, Groups: []Group{{"cows", 40, 150, nan, nan, nan}}}, []string{
			"short cows by 40 tons", "40 tons of RFQ 150 or better bought for cows: give a price", "a floor of RFQ 130 for cows", "40 tons less eaten by cows",
		}},
		{"no lots at all", Ask{Rule: ByFloor, Groups: []Group{{"cows", 40, nan, nan, nan, nan}}}, []string{"short cows by 40 tons", "40 tons bought for cows"}},
		{"coarse feed and coarse hay to buy", Ask{Rule: ByBlend, Lots: []Lot{{Name: "stemmy", Tons: 100, RFQ: nan, NDF: 50, Value: 90}}, Groups: []Group{{"cows", 40, nan, 44, 200, 46}}}, []string{
			"short cows", "forage for cows of NDF 44 or less: what can be bought has 46", "a ceiling of 46 % NDF for cows",
		}},
		{"lots that would have to be parted", Ask{Rule: ByFloor, Whole: true, Lots: []Lot{{Name: "one", Tons: 100, RFQ: 160, NDF: nan}}, Groups: []Group{{"cows", 40, nan, nan, nan, nan}, {"dry", 40, nan, nan, nan, nan}}}, []string{"parted lots would"}},
		{"a lot that nobody tested", Ask{Rule: ByFloor, Lots: []Lot{{Name: "untested", Tons: 100, RFQ: nan, NDF: nan}}, Groups: []Group{{"cows", 40, 140, nan, nan, nan}}}, []string{"short cows by 40 tons"}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			_, err := Share(t.Context(), tc.ask)
			if err == nil {
				t.Fatal("a plan was found")
			}
			for _, w := range tc.want {
				if !strings.Contains(err.Error(), w) {
					t.Errorf("%q does not say %q", err, w)
				}
			}
		})
	}
	if h, ok := errors.AsType[*Hungry](errOf(Share(t.Context(), Ask{Rule: ByFloor, Groups: []Group{{"cows", 40, nan, nan, nan, nan}}}))); !ok || h.Groups[0] != "cows" {
		t.Errorf("who goes short cannot be read: %v", h)
	}
}

func errOf(_ *Plan, err error) error { return err }

func TestNothingInStoreIsAllBought(t *testing.T) {
	a := farm(ByFloor)
	a.Lots = nil
	p, err := Share(t.Context(), a)
	if err != nil {
		t.Fatal(err)
	}
	sound(t, p)
	if want := 220*260 + 200*225 + 60*240 + 230*160.; math.Abs(p.Cost-want) > 1e-6 || p.Gaps.Quantity != 710 || p.Gaps.Quality != 0 {
		t.Errorf("costs %g with gaps %+v, want %g and 710 tons", p.Cost, p.Gaps, want)
	}
}

func TestWhatMakesNoSenseIsRefusedByName(t *testing.T) {
	for want, change := range map[string]func(*Ask){
		"lot A: tons -3: accepted 0 to":                   func(a *Ask) { a.Lots[0].Tons = -3 },
		"lot A: tons NaN: accepted 0 to":                  func(a *Ask) { a.Lots[0].Tons = nan },
		"lot B: rfq 900: accepted 20 to 400":              func(a *Ask) { a.Lots[1].RFQ = 900 },
		`lot "B": each lot and group wants a name of its`: func(a *Ask) { a.Lots[0].Name = "B" },
		`lot "High": each lot and group wants a name`:     func(a *Ask) { a.Lots[0].Name = "High" },
		`lot "": each lot and group wants a name`:         func(a *Ask) { a.Lots[0].Name = "" },
		`group "left": each lot and group wants a name`:   func(a *Ask) { a.Groups[0].Name = Left },
		"group Low: tons -1: accepted 0 to":               func(a *Ask) { a.Groups[1].Tons = -1 },
		"group Low: buy 0: accepted over 0":               func(a *Ask) { a.Groups[1].Buy = 0 },
		"group Low: buy_ndf is missing":                   func(a *Ask) { a.Groups[1].BuyNDF = nan },
		"no group is given":                               func(a *Ask) { a.Groups = nil },
		`rule "best": accepted floor`:                     func(a *Ask) { a.Rule = "best" },
		"lot A: value -1: accepted":                       func(a *Ask) { a.Lots[0].Value = -1 },
		"group High: ndf_max 3: accepted 10 to 90":        func(a *Ask) { a.Groups[0].Ceiling = 3 },
		"only weighed where lots are split":               func(a *Ask) { a.Whole, a.Lots[0].Worth = true, map[string]float64{"High": 3} },
	} {
		a := farm(ByBlend)
		change(&a)
		want = strings.Replace(want, `rule "best": accepted`, `rule "best"; accepted`, 1)
		if _, err := Share(t.Context(), a); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error %v, want one saying %q", err, want)
		}
	}
}

func anyAsk(t *rapid.T) Ask {
	a := Ask{Rule: rapid.SampledFrom([]Rule{ByFloor, ByBlend}).Draw(t, "rule"), Sold: rapid.Bool().Draw(t, "sold"), Tons: rapid.IntRange(0, 3).Draw(t, "no prices") == 0}
	whole := func(name string, low, high int) float64 { return float64(rapid.IntRange(low, high).Draw(t, name)) }
	for i := range rapid.IntRange(0, 6).Draw(t, "lots") {
		l := Lot{Name: fmt.Sprint("lot", i), Tons: whole("tons", 0, 300), RFQ: whole("rfq", 90, 190), NDF: whole("ndf", 34, 56)}
		if !a.Tons {
			l.Value = whole("value", 60, 250)
		}
		a.Lots = append(a.Lots, l)
	}
	if a.Tons {
		a.Sold = false
	}
	for j := range rapid.IntRange(1, 4).Draw(t, "groups") {
		g := Group{fmt.Sprint("group", j), whole("need", 0, 300), whole("floor", 100, 170), whole("ceiling", 38, 50), whole("buy", 100, 300), 0}
		g.BuyNDF = g.Ceiling - whole("finer", 0, 6)
		a.Groups = append(a.Groups, g)
	}
	return a
}

// TestAPlanFeedsEverybodyAndItsPricesHold proves that plans are sound, that whole lots never cost less
// than parted ones, and that no step of supply, need or ceiling beats the shadow prices: they support the
// cost from below, being prices of a programme whose cost is convex.
func TestAPlanFeedsEverybodyAndItsPricesHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := anyAsk(t)
		p, err := Share(context.Background(), a)
		if err != nil {
			t.Fatal(err)
		}
		sound(t, p)
		step := func(what string, price, by float64, change func(*Ask)) {
			b := a
			b.Lots, b.Groups = slices.Clone(a.Lots), slices.Clone(a.Groups)
			change(&b)
			q, err := Share(context.Background(), b)
			if err != nil {
				t.Fatal(err)
			}
			if q.Cost < p.Cost+price*by-1e-4*max(1, math.Abs(p.Cost)) {
				t.Fatalf("%s: costs %g after %g, under the shadow price of %g", what, q.Cost, p.Cost, price)
			}
		}
		by := float64(rapid.IntRange(1, 40).Draw(t, "by"))
		for i := range a.Lots {
			if p.Saves[i] < -1e-6 {
				t.Fatalf("one more ton of %s costs %g", a.Lots[i].Name, -p.Saves[i])
			}
			step("more of a lot", -p.Saves[i], by, func(b *Ask) { b.Lots[i].Tons += by })
		}
		for j := range a.Groups {
			step("more eaten", p.Needs[j], by, func(b *Ask) { b.Groups[j].Tons += by })
		}
		if !a.Tons && len(a.Lots) > 0 {
			a.Whole = true
			q, err := Share(context.Background(), a)
			if err != nil {
				t.Fatal(err)
			}
			sound(t, q)
			if q.Cost < p.Cost-1e-6*max(1, math.Abs(p.Cost)) {
				t.Fatalf("whole lots cost %g, parted ones %g", q.Cost, p.Cost)
			}
		}
	})
}

// large is a herd of 12 groups and 60 lots, invented by rule.
func large(rule Rule) Ask {
	a := Ask{Rule: rule}
	for i := range 60 {
		rfq := 95 + float64(i*37%90)
		a.Lots = append(a.Lots, Lot{Name: fmt.Sprint("L", i), Tons: 20 + float64(i*53%71), RFQ: rfq, NDF: 62 - rfq*0.14, Value: 60 + rfq*0.8})
	}
	for j := range 12 {
		floor := 100 + float64(j*29%70)
		a.Groups = append(a.Groups, Group{fmt.Sprint("G", j), 150 + float64(j*67%180), floor, 62 - floor*0.14, 110 + floor, 60 - floor*0.14})
	}
	return a
}

// TestWholeLotsOfALargeHerdComeWithinAHundredth proves that a plan of 60 whole lots is within 1 % of a
// bound that no plan can pass.
func TestWholeLotsOfALargeHerdComeWithinAHundredth(t *testing.T) {
	for _, rule := range []Rule{ByFloor, ByBlend} {
		a := large(rule)
		parted, err := Share(t.Context(), a)
		if err != nil {
			t.Fatal(err)
		}
		a.Whole = true
		p, err := Share(t.Context(), a)
		if err != nil {
			t.Fatal(err)
		}
		sound(t, p)
		if over := p.Cost/parted.Cost - 1; over > 0.01 || over < -1e-9 || p.near > over+1e-9 {
			t.Errorf("%s: whole lots cost %g, parted ones %g; said to be within %g", rule, p.Cost, parted.Cost, p.near)
		}
	}
}

func BenchmarkSixtyLotsToTwelveGroups(b *testing.B) {
	for _, rule := range []Rule{ByFloor, ByBlend} {
		b.Run(string(rule), func(b *testing.B) {
			a := large(rule)
			for b.Loop() {
				if _, err := Share(b.Context(), a); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkSixtyWholeLotsToTwelveGroups(b *testing.B) {
	for _, rule := range []Rule{ByFloor, ByBlend} {
		b.Run(string(rule), func(b *testing.B) {
			a := large(rule)
			a.Whole = true
			for b.Loop() {
				p, err := Share(b.Context(), a)
				if err != nil {
					b.Fatal(err)
				}
				if p.near > 0.01 {
					b.Fatalf("within %g of the best", p.near)
				}
			}
		})
	}
}

// TestOneGroupALotMayLeaveSomeOfIt proves that a lot goes to one group only and that what the group leaves
// keeps its value: two groups of 30 tons on two lots of 100 take 30 of each and buy nothing.
func TestOneGroupALotMayLeaveSomeOfIt(t *testing.T) {
	a := Ask{Rule: ByFloor, Whole: true, Kept: true, Lots: []Lot{{Name: "fine", Tons: 100, RFQ: 170, NDF: nan, Value: 190}, {Name: "fair", Tons: 100, RFQ: 120, NDF: nan, Value: 120}},
		Groups: []Group{{"cows", 30, 150, nan, 230, nan}, {"dry", 30, 100, nan, 170, nan}}}
	p, err := Share(t.Context(), a)
	if err != nil {
		t.Fatal(err)
	}
	sound(t, p)
	if want := 30*190 + 30*120.; math.Abs(p.Cost-want) > 1e-6 {
		t.Errorf("costs %g, want %g", p.Cost, want)
	}
	a.Groups = append(a.Groups, Group{"heifers", 30, 100, nan, 170, nan})
	if p, err = Share(t.Context(), a); err != nil {
		t.Fatal(err)
	}
	sound(t, p)
	for i, row := range p.Fed {
		fed := slices.DeleteFunc(slices.Clone(row), func(v float64) bool { return v == 0 })
		if len(fed) > 1 {
			t.Errorf("%s goes to %d groups", a.Lots[i].Name, len(fed))
		}
	}
	if want := 30*190 + 30*120 + 30*170.; math.Abs(p.Cost-want) > 1e-6 {
		t.Errorf("three groups cost %g, want %g: the third buys", p.Cost, want)
	}
}
