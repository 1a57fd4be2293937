package book_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"haywarden/agronomy/unit"
	"haywarden/book"
)

var (
	may1 = unit.DateOf(2026, time.May, 1)
	noon = time.Date(2026, time.May, 1, 12, 0, 0, 0, time.UTC)
)

// id makes the id with a number, for facts whose ids do not matter.
func id(n int) string { return fmt.Sprintf("01900000-0000-7000-8000-%012x", n) }

// fact makes a fact received at noon of its own day.
func fact(tb testing.TB, n int, farm, subject string, day unit.Day, body book.Body) book.Fact {
	tb.Helper()
	f, err := book.New(id(n), farm, subject, day, "ada", body)
	if err != nil {
		tb.Fatal(err)
	}
	f.Received = day.Time().Add(12 * time.Hour)
	return f
}

func bodies() []book.Body {
	until := may1 + 365
	stems, tons, weevil, rfq := 55, 1.4, 35., 150.
	return []book.Body{
		&book.Farm{Name: "Ridge", County: "Dane", Latitude: 43.1, Longitude: -89.4},
		&book.Contact{Name: "Ada Moen", Phone: "555-0100"},
		&book.Consent{Use: "service", Given: true, Until: &until},
		&book.Field{Name: "North", Acres: 22.5, Station: "USW00014839"},
		&book.Stand{Field: "field-1", Crop: book.Alfalfa, Seeded: may1 - 700, Product: book.Haylage, FeedRFV: 170},
		&book.Visit{Spots: []book.Spot{{HeightIn: 24, Stage: book.Bud}}, Frames: []book.Frame{{Stems: &stems, Ft2: 1}}, WeevilTips: &weevil, Pests: []book.Pests{{Pest: "leafhopper", Counts: []float64{3, 0}, Size: 20}}, WeedsBloom: true},
		&book.SprayProduct{Name: "X", Against: []string{"weevil"}, PHIDays: 7, REIHours: 24, Crops: []book.Crop{book.Alfalfa}, LabelRead: &may1},
		&book.Sprayed{Product: "X", PHIDays: 7, REIHours: 24},
		&book.Cut{Number: 1, Product: book.Haylage, TonsDM: &tons},
		&book.Lab{Lab: "Valley", Sample: "haylage", ADF: 30.1, NDF: 38.2, CP: 21},
		&book.TableForm{Of: "forage", From: "Valley", Basis: "dm", Columns: []book.ColumnUse{{Column: "NDF, % DM", Code: "ndf", Unit: "%", Basis: "dm"}, {Column: "Remarks"}}},
		&book.Station{ID: "USW00014839", Name: "Airport", Latitude: 42.95, Longitude: -87.9, Elevation: 204, WholeF: true},
		&book.Prices{Name: "May", Lines: []book.PriceLine{{Name: book.HayBase, Unit: "$/ton", Value: 180}}},
		&book.Call{Said: "cut on Tuesday"},
		&book.Event{Title: "Field day", People: 40},
		&book.Advice{Decision: "first-cut", Sentence: "Cut by 24 May.", MadeFrom: "abc"},
		&book.Outcome{Advice: id(1), Taken: "partly"},
		&book.Place{Region: "south-east Wisconsin", Guide: "Wisconsin"},
		&book.Herd{Edition: "2021", Groups: []book.Group{{Name: "high", Kind: book.Lactating, Head: 80, WeightLb: 1500, MilkLb: 90, Fat: 3.8, DaysInMilk: 120, ForageShare: 0.5, LegumeShare: 0.45, SilageShare: 0.5}},
			Crops: []book.ForageCrop{{Forage: "legume", Yield: 4.5, Field: 0.15, Storage: 0.1, Feeding: 0.05, Reserve: 0.1}}},
		&book.Machines{Machines: []book.Machine{{Name: "mower", Kind: "rotary-mower-conditioner", WidthFt: 12}}, CrewHours: 8, Busy: []book.Busy{{What: "corn planting", From: may1 + 5, To: may1 + 15}}},
		&book.Quality{Base: "wisconsin", Rows: []book.QualityRow{{Group: "early-cows", RFQLow: &rfq}}},
		&book.Caution{How: "careful"},
		&book.SoilTest{Lab: "Valley", DepthIn: 7, PH: 6.1, Buffer: 6.6, BufferBy: book.Sikora, P: &book.Extracted{Value: 18, Unit: book.PPM, By: book.BrayP1}, K: &book.Extracted{Value: 210, Unit: book.LbAcre, By: book.AmmoniumAcetate}, More: map[string]float64{"om": 3.2, "subsoil-ph": 6.4}},
		&book.TissueTest{Part: "top-6in", Stage: "bud", Values: map[string]float64{"k": 2.1, "b": 31}},
		&book.Application{Class: book.FertilizerSpread, Material: "mop", Rate: 250, Unit: book.PoundsAcre, Cut: 1},
		&book.Seeding{Lots: []book.SeedLot{{Species: "alfalfa", RateLb: 15, Purity: 99, Germination: 90}}, Method: "drilled", DepthIn: 0.5},
		&book.SoilGuides{Lime: "ohio", Fertility: "tri-state-2020"},
		&book.GuideTable{Guide: "illinois", Edition: "2009", Chart: &book.LimeChart{Classes: []string{"B"}, PH: []float64{5, 6}, Tons: [][]float64{{5, 2}}}},
		&book.Withdrawn{Why: "wrong field"},
	}
}

func TestEveryKindIsReadBackAsItWasMade(t *testing.T) {
	for i, b := range bodies() {
		f := fact(t, i, "farm-1", "farm-1", may1, b)
		if f.Kind != b.Kind() {
			t.Errorf("kind %s, want %s", f.Kind, b.Kind())
		}
		got, err := f.Read()
		if err != nil {
			t.Fatalf("%s: %v", b.Kind(), err)
		}
		if diff := cmp.Diff(b, got); diff != "" {
			t.Errorf("%s (-made +read):\n%s", b.Kind(), diff)
		}
	}
}

func TestAFactSurvivesJSON(t *testing.T) {
	f := fact(t, 1, "farm-1", "field-1", may1, book.Field{Name: "North", Acres: 10})
	f.Supersedes = id(7)
	data, err := json.Marshal(f)
	if err != nil {
		t.Fatal(err)
	}
	var got book.Fact
	if err := json.Unmarshal(data, &got); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(f, got); diff != "" {
		t.Errorf("(-sent +received):\n%s", diff)
	}
}

func TestOnlyFactsOfAFarmNeedAFarm(t *testing.T) {
	shared := map[book.Kind]bool{
		book.KindFarm: true, book.KindStation: true, book.KindPrices: true, book.KindEvent: true, book.KindPlace: true, book.KindWithdrawn: true,
		book.KindQuality: true, book.KindCaution: true, book.KindForm: true, book.KindProduct: true, book.KindSoilGuides: true, book.KindGuideTable: true,
	}
	for _, b := range bodies() {
		_, err := book.New(id(1), "", "thing-1", may1, "ada", b)
		if shared[b.Kind()] && err != nil {
			t.Errorf("%s of the whole book: %v", b.Kind(), err)
		}
		if !shared[b.Kind()] && (err == nil || !strings.Contains(err.Error(), "without a farm")) {
			t.Errorf("%s without a farm: error %v, want one that says so", b.Kind(), err)
		}
	}
}

func TestNewSaysWhatIsWrong(t *testing.T) {
	visit := book.Visit{Spots: []book.Spot{{HeightIn: 24, Stage: book.Bud}}}
	over, under := 101., -1.
	for _, c := range []struct {
		name, subject, author string
		day                   unit.Day
		body                  book.Body
		want                  string
	}{
		{"no subject", "", "ada", may1, visit, "without a subject"},
		{"no author", "stand-1", "", may1, visit, "without an author"},
		{"a day of another century", "stand-1", "ada", unit.DateOf(1899, 12, 31), visit, "before 1900"},
		{"a farm of another farm", "farm-2", "ada", may1, book.Farm{Name: "Ridge"}, "farm farm-2 is said to belong to farm farm-1"},
		{"a stem of 70 inches", "stand-1", "ada", may1, book.Visit{Spots: []book.Spot{{HeightIn: 70, Stage: book.Bud}}}, "spot 1 height 70: accepted 4 to 60 inches"},
		{"an unknown stage", "stand-1", "ada", may1, book.Visit{Spots: []book.Spot{{HeightIn: 24, Stage: "ripe"}}}, `stage "ripe": accepted vegetative, bud, flower`},
		{"more weevil tips than stems", "stand-1", "ada", may1, book.Visit{WeevilTips: &over}, "tips fed on by weevil 101: accepted 0 to 100 % of stems"},
		{"a pest nobody knows", "stand-1", "ada", may1, book.Visit{Pests: []book.Pests{{Pest: "moth", Counts: []float64{1}, Size: 1}}}, `pest "moth": accepted weevil, `},
		{"more larvae than a stem bears", "stand-1", "ada", may1, book.Visit{Pests: []book.Pests{{Pest: "weevil", Counts: []float64{1600}, Size: 30}}}, "weevil sample 1 1600: accepted 0 to 1500 in 30 stems"},
		{"half a hopper", "stand-1", "ada", may1, book.Visit{Pests: []book.Pests{{Pest: "leafhopper", Counts: []float64{1.5}, Size: 20}}}, "leafhopper sample 1: 1.5; a whole number wanted"},
		{"a product against nothing", "spray x", "ada", may1, book.SprayProduct{Name: "X"}, "against no pest"},
		{"a product without a name", "spray", "ada", may1, book.SprayProduct{Against: []string{"weevil"}}, "product is empty"},
		{"harvest after more than a year", "stand-1", "ada", may1, book.Sprayed{Product: "X", PHIDays: 400}, "days to harvest 400: accepted 0 to 365 days"},
		{"fewer weevil tips than none", "stand-1", "ada", may1, book.Visit{WeevilTips: &under}, "tips fed on by weevil -1: accepted 0 to 100 % of stems"},
		{"fibres exchanged", "stand-1", "ada", may1, book.Lab{Sample: "hay", ADF: 42, NDF: 33}, "check which is which"},
		{"ash of a stone", "stand-1", "ada", may1, book.Lab{Sample: "hay", ADF: 30, NDF: 40, More: map[string]float64{"ash": 60}}, "ash 60: accepted 3 to 30 % of dry matter"},
		{"a value of no known code", "stand-1", "ada", may1, book.Lab{Sample: "hay", ADF: 30, NDF: 40, More: map[string]float64{"colour": 3}}, `no laboratory value has the code "colour"`},
		{"one thing in two columns", "form", "ada", may1, book.TableForm{Of: "forage", From: "Valley", Basis: "dm", Columns: []book.ColumnUse{{Column: "NDF", Code: "ndf"}, {Column: "aNDF", Code: "ndf"}}}, "two columns say ndf"},
		{"a form without a basis", "form", "ada", may1, book.TableForm{Of: "forage", From: "Valley", Columns: []book.ColumnUse{{Column: "NDF", Code: "ndf"}}}, "accepted dm, as-fed, row"},
		{"phosphorus without its extractant", "field-1", "ada", may1, book.SoilTest{P: &book.Extracted{Value: 20, Unit: book.PPM}}, "P 20 without its extractant"},
		{"potassium by one of phosphorus", "field-1", "ada", may1, book.SoilTest{K: &book.Extracted{Value: 20, Unit: book.PPM, By: book.Olsen}}, `K extractant "olsen": accepted ammonium-acetate, mehlich-3, bray-p1`},
		{"a content in no known unit", "field-1", "ada", may1, book.SoilTest{K: &book.Extracted{Value: 20, By: book.Mehlich3}}, `K unit "": accepted ppm, lb/ac`},
		{"pH of vinegar", "field-1", "ada", may1, book.SoilTest{PH: 2.4}, "pH 2.4: accepted 3 to 10"},
		{"a buffer nobody named", "field-1", "ada", may1, book.SoilTest{PH: 6, Buffer: 6.5}, "buffer pH 6.5 without its buffer"},
		{"a test of nothing", "field-1", "ada", may1, book.SoilTest{Lab: "Valley"}, "a soil test without pH, P or K says too little"},
		{"a value of soil of no known code", "field-1", "ada", may1, book.SoilTest{PH: 6, More: map[string]float64{"gold": 1}}, `no value of soil has the code "gold"`},
		{"potassium in ppm for per cent", "stand-1", "ada", may1, book.TissueTest{Values: map[string]float64{"k": 21000}}, "k 21000: accepted 0.2 to 7 % of dry matter"},
		{"lime by the gallon", "field-1", "ada", may1, book.Application{Class: book.LimeSpread, Material: "aglime", Rate: 3, Unit: book.GallonsAcre}, "lime is told in ton/ac or lb/ac"},
		{"potash by the truck", "field-1", "ada", may1, book.Application{Class: book.FertilizerSpread, Material: "mop", Rate: 9000, Unit: book.PoundsAcre}, "rate 9000: accepted 0 to 5000 lb/ac"},
		{"a bag of more than all", "field-1", "ada", may1, book.Application{Class: book.FertilizerSpread, Material: "mix", Rate: 200, Unit: book.PoundsAcre, Analysis: map[string]float64{"p2o5": 60, "k2o": 60}}, "the analysis adds up to 120 % of the weight"},
		{"what no lime is told by", "field-1", "ada", may1, book.Application{Class: book.LimeSpread, Material: "aglime", Rate: 2, Unit: book.TonsAcre, Analysis: map[string]float64{"k2o": 60}}, `the analysis of lime has no "k2o"`},
		{"a seeding by the sack", "stand-1", "ada", may1, book.Seeding{Lots: []book.SeedLot{{Species: "alfalfa", RateLb: 500}}}, "rate of alfalfa 500: accepted 0.1 to 200 lb/ac"},
		{"guides of nobody", "guides", "ada", may1, book.SoilGuides{}, "no guide is chosen"},
		{"a chart that limes more at a higher pH", "chart", "ada", may1, book.GuideTable{Guide: "illinois", Edition: "2009", Chart: &book.LimeChart{Classes: []string{"B"}, PH: []float64{5, 6}, Tons: [][]float64{{2, 5}}}}, "class B takes 2 tons at pH 5 and more, 5, at pH 6"},
		{"two targets alike", "lines", "ada", may1, book.GuideTable{Guide: "wisconsin", Edition: "2012", Lines: []book.LimeLine{{Target: 6.8}, {Target: 6.8}}}, "target 6.8 is given twice"},
		{"classes upside down", "classes", "ada", may1, book.GuideTable{Guide: "wisconsin", Edition: "2012", Classes: []book.TestClass{{Crop: book.Alfalfa, Nutrient: "k", By: book.Mehlich3, Class: "low", From: 110, To: 90}}}, "class low runs from 110 down to 90 ppm"},
		{"a field of no size", "field-1", "ada", may1, book.Field{Name: "North"}, "acres 0: accepted 0.1 to 2000 acres"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := book.New(id(1), "farm-1", c.subject, c.day, c.author, c.body)
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("error %v, want one with %q", err, c.want)
			}
		})
	}
}

func TestTheDoorRefusesWhatCannotBeRead(t *testing.T) {
	for _, c := range []struct {
		name string
		edit func(*book.Fact)
		want string // empty: taken in
	}{
		{"as made", func(*book.Fact) {}, ""},
		{"made today", func(f *book.Fact) { f.Day = may1 + 10 }, ""},
		{"made tomorrow", func(f *book.Fact) { f.Day = may1 + 11 }, "after today"},
		{"an unknown kind", func(f *book.Fact) { f.Kind = "omen" }, `kind "omen" is not known to this version`},
		{"a body that is no JSON", func(f *book.Fact) { f.Body = json.RawMessage("{") }, "unexpected end"},
		{"a body that is out of range", func(f *book.Fact) { f.Body = json.RawMessage(`{"number":12}`) }, "cut number 12: accepted 1 to 9"},
		{"a correction of nothing", func(f *book.Fact) { f.Supersedes = "the last one" }, "is not a UUID"},
		{"a correction of itself", func(f *book.Fact) { f.Supersedes = f.ID }, "cannot correct itself"},
		{"a withdrawal of nothing", func(f *book.Fact) { f.Kind, f.Body = book.KindWithdrawn, json.RawMessage(`{"why":"typed twice"}`) }, "which fact it takes back"},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := fact(t, 1, "farm-1", "stand-1", may1, book.Cut{Number: 1})
			c.edit(&f)
			err := f.Valid(may1 + 10)
			if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
				t.Errorf("error %v, want %q", err, c.want)
			}
		})
	}
}

func TestACorrectionStaysOnItsFarmAndOfItsKind(t *testing.T) {
	withdrawal := book.Withdrawn{Why: "typed twice"}
	old := fact(t, 1, "farm-1", "stand-1", may1, book.Cut{Number: 1})
	farm := fact(t, 2, "", "farm-1", may1, book.Farm{Name: "Ridge"})
	for _, c := range []struct {
		name     string
		old, new book.Fact
		want     string
	}{
		{"another number", old, fact(t, 3, "farm-1", "stand-1", may1, book.Cut{Number: 2}), ""},
		{"a farm's own name", farm, fact(t, 3, "farm-1", "farm-1", may1, book.Farm{Name: "Ridgeway"}), ""},
		{"a withdrawal that names the farm", old, fact(t, 3, "farm-1", "stand-1", may1, withdrawal), ""},
		{"a withdrawal that names none", old, fact(t, 3, "", "stand-1", may1, withdrawal), ""},
		{"a withdrawal on another farm", old, fact(t, 3, "farm-2", "stand-1", may1, withdrawal), "belongs to farm farm-1, its correction to farm farm-2"},
		{"another farm", old, fact(t, 3, "farm-2", "stand-1", may1, book.Cut{Number: 1}), "withdraw it there and record it here"},
		{"another kind", old, fact(t, 3, "farm-1", "stand-1", may1, book.Visit{Note: "bloom"}), "a visit cannot correct fact"},
		{"a withdrawal of a withdrawal", fact(t, 4, "farm-1", "stand-1", may1, withdrawal), fact(t, 3, "farm-1", "stand-1", may1, withdrawal), "record anew"},
	} {
		t.Run(c.name, func(t *testing.T) {
			err := c.new.Corrects(c.old)
			if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
				t.Errorf("error %v, want %q", err, c.want)
			}
		})
	}
}
