package advice_test

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"haywarden/advice"
	"haywarden/agronomy/storage"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/outlook"
	"haywarden/weather"
)

// stacked is a stand with hay put up and read.
func stacked(baled unit.Day, moisture *float64, read map[string]float64) *outlook.Stand {
	v := &book.StandView{Farm: &book.FarmView{}, InField: &book.FieldView{}, Stacks: []book.Dated[book.Stack]{{Day: baled, Body: book.Stack{Package: "round", Moisture: moisture, Place: "inside"}}}}
	for d, f := range read {
		v.StackReadings = append(v.StackReadings, book.Dated[book.StackReading]{Day: day(d), Body: book.StackReading{CoreF: f}})
	}
	return &outlook.Stand{StandView: v, Date: day("06-20")}
}

// placed is the plain station where the sun is known to stand, with a rain of its own.
func placed(rain func(unit.Day) float64) *weather.Series {
	s := *plain()
	s.Station.Latitude, s.Station.Longitude = 43, -89
	s.RainMM = append([]float64(nil), s.RainMM...)
	for i := range s.RainMM {
		if rain != nil {
			s.RainMM[i] = rain(s.First + unit.Day(i))
		}
	}
	return &s
}

// lyingHay is a stand whose hay was mown and not put up.
func lyingHay(date, mown unit.Day, series *weather.Series) *outlook.Stand {
	v := &book.StandView{Farm: &book.FarmView{}, InField: &book.FieldView{}, Stand: book.Stand{Product: book.Hay}, Cuts: []book.Dated[book.Cut]{{Day: mown, Body: book.Cut{Number: 1}}}}
	return &outlook.Stand{StandView: v, Date: date, Sky: outlook.NewSky(series, date, outlook.SkyOptions{})}
}

// dangerous are words of which each wants its caution in the same piece, and in the file made of it.
var dangerous = map[string][]storage.Caution{
	"stack":        {storage.NeverAlone, storage.ProbeRight},
	"core":         {storage.NeverAlone, storage.ProbeRight},
	"Bale ":        {storage.KeepLooking, storage.CallFirst, storage.NeverAlone},
	"bale":         {storage.KeepLooking},
	"baling":       {storage.KeepLooking, storage.CallFirst},
	"preservative": {storage.LabelRules, storage.ToxicSmoke},
	"haylage":      {storage.GasKills}, "bunker": {storage.GasKills}, "silo": {storage.GasKills},
}

// cautioned wants every dangerous word of a piece to stand beside its cautions, as said and as filed.
func cautioned(t interface{ Errorf(string, ...any) }, p *advice.Piece) {
	filed, err := json.Marshal(advice.FileStand(p.Stand, []*advice.Piece{p}))
	if err != nil {
		t.Errorf("%v", err)
		return
	}
	said := p.Title + p.Sentence + p.Worth.Text + p.Measure
	for word, cautions := range dangerous {
		if !strings.Contains(said, word) {
			continue
		}
		for _, c := range cautions {
			kept := false
			for _, have := range p.Cautions {
				kept = kept || have == string(c)
			}
			enc, _ := json.Marshal(string(c))
			if !kept || !strings.Contains(string(filed), string(enc)) {
				t.Errorf("%q speaks of %q without: %s", said, word, c)
			}
		}
	}
}

// TestNoTextOfHotHayDampBalesOrSilosIsWithoutItsCautions proves it for any core temperature, any moisture
// and any rain on the swath.
func TestNoTextOfHotHayDampBalesOrSilosIsWithoutItsCautions(t *testing.T) {
	seen := map[string]bool{}
	rapid.Check(t, func(t *rapid.T) {
		var moisture *float64
		if rapid.Bool().Draw(t, "known") {
			m := rapid.Float64Range(5, 40).Draw(t, "moisture")
			moisture = &m
		}
		read := map[string]float64{}
		if rapid.Bool().Draw(t, "read") {
			read["06-18"] = rapid.Float64Range(-20, 400).Draw(t, "core")
		}
		s := stacked(day("06-20")-unit.Day(rapid.IntRange(2, 41).Draw(t, "old")), moisture, read)
		s.Stacks[0].Body.Treated = rapid.Bool().Draw(t, "treated")
		if rapid.Bool().Draw(t, "in a building") {
			s.Stacks[0].Body.Place = "inside"
		}
		p := advice.HotStack(s, nil)
		if p == nil {
			t.Fatal("a stack of six weeks is not spoken of")
		}
		cautioned(t, p)
		if len(read) > 0 && s.Stacks[0].Day <= day("06-18") && read["06-18"] >= 140 && p.Urgency != advice.Safety {
			t.Errorf("%.0f F is %s", read["06-18"], p.Urgency.Key())
		}
	})
	for _, mm := range []float64{0, 2, 15} {
		for _, days := range []unit.Day{1, 2, 4, 8} {
			series := placed(func(d unit.Day) float64 { return mm * float64(d%2) })
			p := advice.BaleNow(lyingHay(day("06-10"), day("06-10")-days, series), nil)
			if p == nil {
				t.Fatalf("hay of %d days is not spoken of", days)
			}
			cautioned(t, p)
			seen[p.Title] = true
		}
	}
	if len(seen) < 2 {
		t.Errorf("dry and wet swaths all say %v", seen)
	}
	for _, product := range book.Products() {
		st := alfalfa("A")
		st.Product, st.visits["05-17"], st.deck = product, stick(26, book.Bud), hayPrices(60)
		p := find(round(t, day("05-18"), placed(nil), st), "A", "harvest-way")
		if p == nil {
			t.Fatalf("%s: no way to the bunk", product)
		}
		cautioned(t, p)
	}
}

func TestAStackIsReadUntilItHasCooled(t *testing.T) {
	wet := 24.0
	for _, c := range []struct {
		name     string
		baled    string
		moisture *float64
		read     map[string]float64
		want     advice.Urgency
		says     string
	}{
		{"not read", "06-10", nil, nil, advice.Week, "no core temperature is in the book"},
		{"damp and not read", "06-10", &wet, nil, advice.Today, "at 24 % moisture"},
		{"cool", "06-10", nil, map[string]float64{"06-19": 101}, advice.Watch, "Nothing unusual"},
		{"read long ago", "06-10", nil, map[string]float64{"06-14": 101}, advice.Week, "Read that stack again"},
		{"warm", "06-10", nil, map[string]float64{"06-19": 133}, advice.Today, "twice a day"},
		{"hot", "06-10", nil, map[string]float64{"06-19": 141}, advice.Safety, "fire service"},
		{"cooled since", "06-10", nil, map[string]float64{"06-15": 151, "06-19": 110}, advice.Watch, "110 °F"},
		{"old and warm", "05-01", nil, map[string]float64{"06-12": 125}, advice.Today, "every day"},
	} {
		p := advice.HotStack(stacked(day(c.baled), c.moisture, c.read), nil)
		says(t, p, c.says)
		if p != nil && p.Urgency != c.want {
			t.Errorf("%s: %s, want %s", c.name, p.Urgency.Key(), c.want.Key())
		}
	}
	if p := advice.HotStack(stacked(day("05-01"), nil, map[string]float64{"06-01": 100}), nil); p != nil {
		t.Errorf("a cool stack of seven weeks: %s", p.Title)
	}
}

// Untreated hay over 25 % stands in a building as no table lets it: it is spoken of before anything else.
func TestHayTooWetForABuildingIsADanger(t *testing.T) {
	for _, c := range []struct {
		moisture float64
		place    string
		treated  bool
		want     bool
	}{{26, "inside", false, true}, {25, "inside", false, false}, {26, "inside", true, false}, {26, "", false, false}} {
		s := stacked(day("06-18"), &c.moisture, nil)
		s.Stacks[0].Body.Place, s.Stacks[0].Body.Treated = c.place, c.treated
		p := advice.HotStack(s, nil)
		warned := slices.Contains(p.Cautions, string(storage.NotInside))
		if got := p.Urgency == advice.Safety; got != c.want || warned != c.want {
			t.Errorf("%g %% %s, treated %v: %s, warned %v: %s", c.moisture, c.place, c.treated, p.Urgency.Key(), warned, p.Title)
		}
		cautioned(t, p)
	}
}

func TestHayIsBaledDryAndLeftWet(t *testing.T) {
	dry := advice.BaleNow(lyingHay(day("06-10"), day("06-06"), placed(func(unit.Day) float64 { return 0 })), nil)
	says(t, dry, "Bale today", "without rain so far", "17 %", "round bales assumed")
	wet := advice.BaleNow(lyingHay(day("06-10"), day("06-06"), placed(func(unit.Day) float64 { return 10 })), nil)
	says(t, wet, "Wait with baling", "mm of rain")
	s := lyingHay(day("06-10"), day("06-06"), placed(nil))
	s.Stacks = []book.Dated[book.Stack]{{Day: day("06-09"), Body: book.Stack{Package: "round"}}}
	if p := advice.BaleNow(s, nil); p != nil {
		t.Errorf("hay that is stacked: %s", p.Title)
	}
	s.Stacks = nil
	s.Cuts[0].Body.Product = book.Haylage
	if p := advice.BaleNow(s, nil); p != nil {
		t.Errorf("haylage: %s", p.Title)
	}
}

func TestAWayThatIsNoBetterIsCalledNoDifference(t *testing.T) {
	st := alfalfa("A")
	st.visits["05-17"] = stick(26, book.Bud)
	plainly := find(round(t, day("05-18"), placed(func(unit.Day) float64 { return 0 }), st), "A", "harvest-way")
	says(t, plainly, "at the bunk", "Laid wide", "haylage", "baleage", "tons an acre more than")
	st.deck = hayPrices(60)
	priced := find(round(t, day("05-18"), placed(func(unit.Day) float64 { return 0 }), st), "A", "harvest-way")
	says(t, priced, "is worth $", "an acre more than", "priced as hay of its feed value by Test deck")
	for _, p := range []*advice.Piece{plainly, priced} {
		if p != nil && strings.Contains(p.Title, "no difference") != strings.Contains(p.Worth.Text, "That is no difference.") {
			t.Errorf("%q and %q", p.Title, p.Worth.Text)
		}
	}
}

func TestNewHayHidesNoHotStack(t *testing.T) {
	s := stacked(day("06-04"), nil, map[string]float64{"06-09": 145})
	s.Stacks = append(s.Stacks, book.Dated[book.Stack]{Day: day("07-04"), Body: book.Stack{Package: "round"}})
	for _, c := range []struct {
		on, read string // a reading of the new stack, none where empty
		core     float64
		want     string
	}{
		{"07-05", "", 0, "145"},        // the new stack is not read yet
		{"07-05", "07-04", 90, "145"},  // and cools nothing where it is
		{"07-20", "07-04", 90, "145"},  // over six weeks old, and nobody read the hot one cooler
		{"07-06", "07-05", 165, "165"}, // the hotter of two
		{"09-20", "", 0, ""},           // at last it is of no news
	} {
		x := *s
		v := *s.StandView
		x.StandView = &v
		if c.read != "" {
			v.StackReadings = append(slices.Clone(v.StackReadings), book.Dated[book.StackReading]{Day: day(c.read), Body: book.StackReading{CoreF: c.core}})
		}
		x.Date = day(c.on)
		p := advice.HotStack(&x, nil)
		switch {
		case c.want == "" && p != nil:
			t.Errorf("on %s: %q", c.on, p.Title)
		case c.want != "" && (p == nil || p.Urgency != advice.Safety || !strings.Contains(p.Title, c.want)):
			t.Errorf("on %s, new stack read %g °F: %+v, want the one of %s °F first", c.on, c.core, p, c.want)
		}
	}
	cooled := stacked(day("06-04"), nil, map[string]float64{"06-09": 145, "06-20": 95})
	cooled.Date = day("08-01")
	if p := advice.HotStack(cooled, nil); p != nil {
		t.Errorf("read cool and two months old: %q", p.Title)
	}
}

// The rule of 15 points lost to haylage and the losses counted step by step do not agree: who reads both
// figures for one stand is told why.
func TestTwoFiguresForOneLossAreSetBesideEachOther(t *testing.T) {
	st := alfalfa("A")
	st.visits["05-17"] = stick(26, book.Bud)
	p := find(round(t, day("05-18"), placed(func(unit.Day) float64 { return 0 }), st), "A", "harvest-way")
	says(t, p, "Step by step haylage loses", "the target allows 15", "want more standing")
	if p == nil || len(p.Rules) != 1 || !strings.Contains(p.Rules[0].Differs, "step") && !strings.Contains(p.Rules[0].Differs, "each machine") {
		t.Fatalf("%+v", p)
	}
	var lost, allowed int
	text := p.Worth.Text[strings.Index(p.Worth.Text, "Step by step"):]
	if _, err := fmt.Sscanf(text, "Step by step haylage loses %d points from field to bunk, and the target allows %d:", &lost, &allowed); err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	if lost-allowed <= 5 || lost > 60 {
		t.Errorf("%d lost and %d allowed: a difference no test can tell apart is not to be spoken of", lost, allowed)
	}
}
