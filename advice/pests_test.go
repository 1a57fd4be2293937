package advice_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"haywarden/advice"
	"haywarden/agronomy/hazard"
	"haywarden/agronomy/pest"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/outlook"
)

func counted(name string, size, height float64, counts ...float64) book.Visit {
	return book.Visit{GrowthIn: &height, Pests: []book.Pests{{Pest: name, Counts: counts, Size: size}}}
}

func seen(d unit.Day, v book.Visit) book.Dated[book.Visit] {
	return book.Dated[book.Visit]{Day: d, Author: "jo", Body: v}
}

// mown is a stand whose first cut was made on a day.
func mown(name string, on unit.Day) *stand {
	s := alfalfa(name)
	s.cuts = append(s.cuts, on.String()[5:])
	return s
}

func labelled(read unit.Day, phi float64) book.SprayProduct {
	return book.SprayProduct{Name: "label A", Against: []string{"weevil", "leafhopper"}, PHIDays: phi, REIHours: 24, Cost: 12, Crops: []book.Crop{book.Alfalfa}, LabelRead: &read}
}

func TestHoppersAreSweptForFromAWeekAfterACut(t *testing.T) {
	cut := day("06-01")
	for d := cut; d <= cut+30; d++ {
		p := find(round(t, d, plain(), mown("Alder", cut)), "Alder", "hopper-walk")
		switch n := d - cut; {
		case n < 4 && p != nil:
			t.Errorf("day %d: %q", n, p.Title)
		case n >= 7 && n < 14 && (p == nil || p.Urgency != advice.Week):
			t.Errorf("day %d: nobody is sent to sweep", n)
		case p != nil:
			says(t, p, "5 sets of 20 sweeps", "placeholder", "what was sprayed")
		}
	}
}

func TestNobodySweepsRedCloverOrOldFirstGrowth(t *testing.T) {
	clover := mown("Red", day("06-01"))
	clover.Crop = book.RedClover
	r := round(t, day("06-12"), plain(), clover, late())
	for _, name := range []string{"Red", "Alder"} {
		if p := find(r, name, "hopper-walk"); p != nil {
			t.Errorf("%s: %q", name, p.Title)
		}
	}
}

// A count far over, a label read and enough days: act by. The same in bloom, without a label, and where
// the label keeps the mower out past the cut.
func TestWhatACountOfHoppersLeadsTo(t *testing.T) {
	cut, on := day("06-01"), day("06-09")
	over := counted("leafhopper", 20, 8, 60, 66, 58, 62, 61)
	near := counted("leafhopper", 20, 8, 9, 3, 10, 4, 8)
	few := counted("leafhopper", 20, 8, 2, 0, 3, 1, 2)
	bloom := counted("leafhopper", 20, 8, 60, 66, 58, 62, 61)
	bloom.WeedsBloom = true
	for _, c := range []struct {
		name    string
		visit   book.Visit
		product *book.SprayProduct
		title   string
		spray   bool
		says    string
	}{
		{"over", over, new(labelled(day("04-01"), 7)), "act by", true, "label A"},
		{"in bloom", bloom, new(labelled(day("04-01"), 7)), "Cut early", false, "bees"},
		{"no label", over, nil, "over its threshold", false, "no product against it is entered"},
		{"last year's label", over, new(labelled(unit.DateOf(2025, 4, 1), 7)), "over its threshold", false, "nobody has read the label"},
		{"too long a wait", over, new(labelled(day("04-01"), 40)), "over its threshold", false, "keeps the mower out"},
		{"near", near, new(labelled(day("04-01"), 7)), "Count leafhopper again", false, "chance"},
		{"few", few, new(labelled(day("04-01"), 7)), "under its threshold", false, "Leave it"},
	} {
		s := mown("Alder", cut)
		s.visits[on.String()[5:]] = c.visit
		s.deck = hayPrices(0.5)
		if c.product != nil {
			s.products = append(s.products, book.Dated[book.SprayProduct]{Day: unit.DateOf(2025, 4, 1), Body: *c.product})
		}
		p := find(round(t, on+1, plain(), s), "Alder", "hopper-act")
		if p == nil {
			t.Errorf("%s: nothing is said", c.name)
			continue
		}
		if !strings.Contains(p.Title, c.title) {
			t.Errorf("%s: %q, want %q", c.name, p.Title, c.title)
		}
		if got := strings.Contains(p.Sentence, "Spraying label A pays"); got != c.spray {
			t.Errorf("%s: sprays %t: %s", c.name, got, p.Sentence)
		}
		says(t, p, c.says)
	}
}

// TestNoSprayWithoutItsCautions draws stands, counts, labels and days: whatever any decision says of
// spraying or grazing, all that goes with it is on the piece, and nothing is sprayed in bloom or inside
// the days to harvest.
func TestNoSprayWithoutItsCautions(t *testing.T) {
	_, all := pest.TellSpray("").Say()
	_, graze := hazard.TellGraze("").Say()
	rapid.Check(t, func(rt *rapid.T) {
		cut := day("05-20") + unit.Day(rapid.IntRange(0, 20).Draw(rt, "cut"))
		on := cut + unit.Day(rapid.IntRange(1, 20).Draw(rt, "seen"))
		s := mown("Alder", cut)
		if rapid.Bool().Draw(rt, "first growth") {
			s = late()
		}
		s.Hairy = rapid.Bool().Draw(rt, "hairy")
		v := counted(rapid.SampledFrom([]string{"weevil", "leafhopper", "spittlebug", "pea-aphid"}).Draw(rt, "pest"), 20, rapid.Float64Range(2, 30).Draw(rt, "height"))
		for range rapid.IntRange(1, 6).Draw(rt, "samples") {
			v.Pests[0].Counts = append(v.Pests[0].Counts, float64(rapid.IntRange(0, 300).Draw(rt, "count")))
		}
		v.WeedsBloom = rapid.Bool().Draw(rt, "bloom")
		s.visits[on.String()[5:]] = v
		phi := float64(rapid.IntRange(0, 30).Draw(rt, "phi"))
		if rapid.Bool().Draw(rt, "product") {
			s.products = append(s.products, book.Dated[book.SprayProduct]{Day: day("04-01"), Body: labelled(day("04-01"), phi)})
		}
		if rapid.Bool().Draw(rt, "sprayed") {
			s.sprayed = append(s.sprayed, book.Dated[book.Sprayed]{Day: on, Body: book.Sprayed{Product: "label A", PHIDays: phi}})
		}
		for _, p := range round(rt, on+unit.Day(rapid.IntRange(0, 9).Draw(rt, "later")), plain(), s).Pieces {
			text := strings.ToLower(p.Title + " " + p.Sentence + " " + p.Worth.Text)
			if strings.Contains(text, "spray") && p.Decision != "keep-out" {
				for _, c := range all {
					if !slices.Contains(p.Cautions, string(c)) {
						rt.Fatalf("%s speaks of spraying without %q", p.Title, c)
					}
				}
			}
			if strings.Contains(text, "graze") && p.Decision != "keep-out" {
				for _, c := range graze {
					if !slices.Contains(p.Cautions, string(c)) {
						rt.Fatalf("%s speaks of grazing without %q", p.Title, c)
					}
				}
			}
			if strings.Contains(text, "spraying label a pays") && v.WeedsBloom {
				rt.Fatal("sprays in bloom")
			}
			if r := p.Stand.SprayedStill(); r != nil && advice.Cuts(p.Decision) && p.Window != nil && p.Window.Best < r.CutFrom {
				rt.Fatalf("%s: cut on %s, kept out until %s", p.Title, p.Window.Best, r.CutFrom)
			}
		}
	})
}

func TestASprayedStandIsKeptOutOf(t *testing.T) {
	s := mown("Alder", day("06-01"))
	s.sprayed = append(s.sprayed, book.Dated[book.Sprayed]{Day: day("06-10"), Body: book.Sprayed{Product: "label A", PHIDays: 14, REIHours: 24}})
	for d := day("06-10"); d <= day("06-28"); d++ {
		p := find(round(t, d, plain(), s), "Alder", "keep-out")
		if (p != nil) != (d < day("06-24")) {
			t.Fatalf("%s: %v", d, p)
		}
		if p != nil && p.Urgency != advice.Safety {
			t.Errorf("%s: %s", d, p.Urgency.Title())
		}
	}
}

func TestStubbleIsLookedAtWhereWeevilWasSeen(t *testing.T) {
	s := mown("Alder", day("06-01"))
	tips := 30.0
	s.visits["05-22"] = book.Visit{WeevilTips: &tips}
	clean := mown("Birch", day("06-01"))
	r := round(t, day("06-06"), plain(), s, clean)
	if p := find(r, "Alder", "weevil-stubble"); p == nil {
		t.Error("nobody is sent to the stubble")
	}
	if p := find(r, "Birch", "weevil-stubble"); p != nil {
		t.Error("stubble is looked at where no weevil was")
	}
}

// The pests that can be counted are those that have a limit or a price, and none more.
func TestWhatCanBeCountedHasALimit(t *testing.T) {
	var counted []string
	for _, k := range book.PestKinds() {
		counted = append(counted, k.Name)
	}
	want := append([]string{string(pest.AlfalfaWeevil), string(pest.Leafhopper)}, pest.MinorNames()...)
	slices.Sort(counted)
	slices.Sort(want)
	if !slices.Equal(counted, want) {
		t.Errorf("counted %v, with a limit %v", counted, want)
	}
}

// BenchmarkPestsOf10000Stands asks the clocks and all pest advice of a large book for one date.
func BenchmarkPestsOf10000Stands(b *testing.B) {
	date := day("06-25")
	v := territory(10000, 20, date)
	for i, f := range v.Farms {
		for j, fd := range f.Fields {
			s := fd.Stands[0]
			s.Cuts = append(s.Cuts, book.Dated[book.Cut]{Day: date - 15 - unit.Day((i+j)%5), Body: book.Cut{Number: 1}})
			if j%2 == 0 {
				s.Visits = append(s.Visits, seen(date-3, counted("leafhopper", 20, 9, 12, 18, 9, 22, float64((i+j)%30))))
			}
		}
	}
	for b.Loop() {
		skies := map[string]*outlook.Sky{}
		for i := range 20 {
			skies[fmt.Sprintf("S%d", i)] = outlook.NewSky(plain(), date, outlook.SkyOptions{})
		}
		b.StopTimer()
		o, err := outlook.Build(v, skies)
		if err != nil {
			b.Fatal(err)
		}
		b.StartTimer()
		n := 0
		for _, s := range o.Stands {
			for _, d := range []func(*outlook.Stand, *outlook.Outlook) *advice.Piece{advice.Weevil, advice.WeevilAct, advice.Stubble, advice.HopperWalk, advice.HopperAct, advice.MinorPests, advice.KeepOut} {
				if d(s, o) != nil {
					n++
				}
			}
		}
		if n == 0 {
			b.Fatal("no advice")
		}
	}
}
