package advice_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"haywarden/advice"
	"haywarden/agronomy/unit"
	"haywarden/book"
)

// soilOf is a test as one laboratory prints it.
func soilOf(ph, buffer, p, k float64) book.SoilTest {
	return book.SoilTest{
		Lab: "Test Bench", PH: ph, Buffer: buffer, BufferBy: book.Sikora, P: &book.Extracted{Value: p, Unit: book.PPM, By: book.Mehlich3},
		K: &book.Extracted{Value: k, Unit: book.PPM, By: book.Mehlich3}, More: map[string]float64{"cec": 12},
	}
}

func withSoil(name, on string, t book.SoilTest) *stand {
	s := alfalfa(name)
	s.soil = map[string]book.SoilTest{on: t}
	return s
}

func TestSoilIsSampledAgainFromItsThirdYear(t *testing.T) {
	sound := soilOf(6.9, 7, 40, 150)
	r := round(t, day("09-08"), plain(), withSoil("Young", "2024-10-01", sound), withSoil("Due", "2023-09-07", sound), withSoil("Old", "2022-04-10", sound), alfalfa("None"))
	if p := find(r, "Young", "soil-sample"); p != nil {
		t.Errorf("a test of two years is sampled again: %s", words(p))
	}
	says(t, find(r, "Due", "soil-sample"), "The soil test of 7 September 2023 is three years old and falls due", "K 150 ppm by Mehlich 3", "every 3 to 4 years")
	says(t, find(r, "Old", "soil-sample"), "over four years old: it says nothing of today")
	says(t, find(r, "None", "soil-sample"), "No soil test of this field is in the book", "buffer pH")
	if p := find(round(t, day("07-08"), plain(), withSoil("Due", "2023-06-07", sound)), "Due", "soil-sample"); p != nil {
		t.Errorf("sampled in July: %s", words(p))
	}
	if p := find(round(t, day("09-08"), plain(), alfalfa("A"), alfalfa("B")), "A", "soil-sample"); p != nil {
		t.Errorf("a book that holds no soil test asks for some: %s", words(p))
	}
}

func TestASampleThatIsDueTellsWhatWasTakenSince(t *testing.T) {
	s := withSoil("A", "2023-04-21", soilOf(6.9, 7, 40, 150))
	s.cuts = []string{"05-25", "06-28"}
	s.spread = map[string]book.Application{"05-28": {Class: book.FertilizerSpread, Material: "mop", Rate: 200, Unit: book.PoundsAcre}}
	p := find(roundIn(t, "Ohio", day("09-01"), plain(), s), "A", "soil-sample")
	says(t, p, "lb of potash an acre, and 120 were given back", "the tests ought to have moved by", "Tri State 2020's table")
}

func TestLimeIsAskedOfTheGuideAndRefusedWhereItsTableIsMissing(t *testing.T) {
	sour := soilOf(6.1, 6.4, 40, 150)
	old := withSoil("Old", "2025-10-01", sour)
	old.Seeded -= 366 * 2
	// Ohio to 6.8 at a buffer of 6.4: 5.48 t of neutralizing value 90, 8 in [lines of the Ohio table].
	r := roundIn(t, "Ohio", day("09-08"), plain(), withSoil("Sour", "2025-10-01", sour), old, withSoil("Sweet", "2025-10-01", soilOf(6.7, 7, 40, 150)))
	says(t, find(r, "Sour", "lime"), "pH 6.1 is under the 6.8 that alfalfa wants", "5.5 tons an acre of ground limestone", "acts in the top inches only", "lime guide=ohio ph=6.1 target=6.8 buffer=6.4", "4 tons now, then a new test after 2 years")
	says(t, find(r, "Old", "lime"), "Lime when this stand is turned under", "half before ploughing, half disked in after")
	if p := find(r, "Sweet", "lime"); p != nil {
		t.Errorf("a pH a tenth under is limed: %s", words(p))
	}
	p := find(round(t, day("09-08"), plain(), withSoil("Sour", "2025-10-01", sour)), "Sour", "lime")
	says(t, p, "pH 6.1 is under the 6.8", "How much lime brings it there cannot be said", "type it in from the print", "its table is not in the program: load it")
	without(t, p, " tons an acre of")
	if p := find(roundIn(t, "Ohio", day("05-08"), plain(), withSoil("Sour", "2025-10-01", sour)), "Sour", "lime"); p != nil {
		t.Errorf("a standing crop is limed in May: %s", words(p))
	}
	limed := withSoil("Limed", "2025-10-01", sour)
	limed.spread = map[string]book.Application{"04-02": {Class: book.LimeSpread, Material: "aglime", Rate: 3, Unit: book.TonsAcre}}
	if p := find(roundIn(t, "Ohio", day("09-08"), plain(), limed), "Limed", "lime"); p != nil {
		t.Errorf("lime that the test does not know of is spread again: %s", words(p))
	}
	mehlich := sour
	mehlich.BufferBy = book.Mehlich
	says(t, find(roundIn(t, "Iowa", day("09-08"), plain(), withSoil("Other", "2025-10-01", mehlich)), "Other", "lime"), "does not go with the mehlich buffer")
	low := sour
	low.More = map[string]float64{"mg": 40}
	says(t, find(roundIn(t, "Iowa", day("09-08"), plain(), withSoil("Mg", "2025-10-01", low)), "Mg", "lime"), "Magnesium is 40 ppm: take dolomitic stone")
}

func TestLimeIsSpreadSixMonthsBeforeASeedingThatIsPlanned(t *testing.T) {
	planned := func(name, season string, year int, test book.SoilTest) *stand {
		s := withSoil(name, "2025-10-01", test)
		gone := day("03-02")
		s.TurnedUnder = &gone
		s.plans = map[string]book.SeedingPlan{"04-01": {Year: year, Season: season, Crop: book.RedClover, Offers: []book.SeedOffer{{Species: "red-clover", PureLb: 10}}}}
		return s
	}
	untested := planned("Untested", book.LateSummerSeeding, 2026, book.SoilTest{})
	untested.soil = nil
	sour := soilOf(5.6, 6.4, 40, 150)
	r := roundIn(t, "Ohio", day("05-08"), plain(), planned("Far", book.SpringSeeding, 2027, sour), planned("Near", book.LateSummerSeeding, 2026, sour), untested, planned("Sweet", book.LateSummerSeeding, 2026, soilOf(6.9, 7, 40, 150)))
	far := find(r, "Far", "lime")
	says(t, far, "pH 5.6 is under the 6.8 that red clover wants", "Lime now for the seeding of ", "2027", "half before ploughing, half disked in after")
	without(t, far, "in the top inches only", "does part of it by then", "seeded without tillage")
	says(t, find(r, "Near", "lime"), "Lime now for the seeding of September 2026", "what is spread and worked in now does part of it by then")
	says(t, find(r, "Untested", "lime"), "Sample the soil before the seeding of September 2026")
	if p := find(r, "Sweet", "lime"); p != nil {
		t.Errorf("%s", words(p))
	}
	for _, p := range r.Pieces {
		if why := faulty(p); why != "" {
			t.Errorf("%q %s", p.Title, why)
		}
	}
}

// Alfalfa into ground that alfalfa just left is not to be: nor is lime for it.
func TestNoLimeForASeedingThatIsNotToBe(t *testing.T) {
	s := withSoil("A", "2025-10-01", soilOf(5.9, 6.4, 40, 150))
	gone := day("03-02")
	s.TurnedUnder = &gone
	s.plans = map[string]book.SeedingPlan{"04-01": {Year: 2026, Season: book.LateSummerSeeding, Crop: book.Alfalfa, Offers: []book.SeedOffer{{Species: "alfalfa", PureLb: 15}}}}
	r := roundIn(t, "Ohio", day("05-08"), plain(), s)
	if find(r, "A", "do-not-reseed") == nil || find(r, "A", "lime") != nil {
		t.Errorf("%+v", r.Pieces)
	}
}

func TestPotashIsTopdressedAfterTheFirstAndTheLastCut(t *testing.T) {
	fed := func(name string, cuts ...string) *stand {
		s := withSoil(name, "2024-10-01", soilOf(6.9, 7, 40, 85))
		s.cuts = cuts
		return s
	}
	given := fed("Given", "05-25")
	given.spread = map[string]book.Application{"04-20": {Class: book.FertilizerSpread, Material: "mop", Rate: 300, Unit: book.PoundsAcre}}
	r := roundIn(t, "Ohio", day("05-28"), plain(), fed("First", "05-25"), given)
	// K 85 at CEC 12 with 120 critical: 56 lb to build up, and 49 a ton and 20 beside [Tri-State 2020], 300 at most.
	p := find(r, "First", "topdress")
	says(t, p, "Potash after the first cut: ", "At K 85 ppm the Tri-State (2020) guide gives", "56 of it to raise the test", "Half goes on now", "no clear gain from splitting")
	if p != nil && p.Urgency != advice.Week {
		t.Errorf("a low test waits: %v", p.Urgency)
	}
	year := 0.0
	if p != nil {
		if _, err := fmt.Sscanf(p.Title, "Potash after the first cut: %f lb an acre", &year); err != nil || year < 100 || year > 150 {
			t.Errorf("half of the year is %g lb (%v)", year, err)
		}
	}
	// 300 lb of muriate bring 180 lb of potash: more than half the year.
	if p := find(r, "Given", "topdress"); p != nil {
		t.Errorf("potash is given twice: %s", words(p))
	}
	if p := find(roundIn(t, "Ohio", day("07-01"), plain(), fed("Second", "05-25", "06-28")), "Second", "topdress"); p != nil {
		t.Errorf("potash after the second cut: %s", words(p))
	}
	says(t, find(roundIn(t, "Ohio", day("09-04"), plain(), fed("Last", "05-25", "06-28", "08-01", "09-02")), "Last", "topdress"), "Potash after the last cut: ", "What was not given after the first cut goes on now")
	if p := find(roundIn(t, "Ohio", day("06-20"), plain(), fed("Late", "05-25")), "Late", "topdress"); p != nil {
		t.Errorf("wheels on tall regrowth: %s", words(p))
	}
}

func TestWithoutAGuidesTablePotashGoesByRemoval(t *testing.T) {
	s := withSoil("A", "2024-10-01", soilOf(6.9, 7, 40, 85))
	s.cuts = []string{"05-25"}
	p := find(round(t, day("05-28"), plain(), s), "A", "topdress")
	says(t, p, "lb of potash an acre away: giving it back keeps the test of 85 ppm", "Wisconsin's table", "its table is not in the program")
	without(t, p, "$")
	s.deck = hayPrices(90)
	s.deck.Lines = append(s.deck.Lines, book.PriceLine{Name: book.Potash, Unit: "$/ton", Value: 480})
	says(t, find(round(t, day("05-28"), plain(), s), "A", "topdress"), "It costs $", "potash $480/ton, the farm's own Test deck")
	untested := alfalfa("B")
	untested.cuts = s.cuts
	if p := find(round(t, day("05-28"), plain(), untested), "B", "topdress"); p != nil {
		t.Errorf("potash without a test: %s", words(p))
	}
}

// Over 150 ppm by acetate Wisconsin's trials saw little benefit from any potash; 171 by Mehlich 3 is 150.
func TestAmplePotashWantsNoneWhereNoGuideIsAsked(t *testing.T) {
	at := func(name string, k float64) *stand {
		s := withSoil(name, "2024-10-01", soilOf(6.9, 7, 60, k))
		s.cuts = []string{"05-25"}
		return s
	}
	r := round(t, day("05-28"), plain(), at("Ample", 172), at("Not", 170))
	if p := find(r, "Ample", "topdress"); p != nil {
		t.Errorf("%s", words(p))
	}
	p := find(r, "Not", "topdress")
	says(t, p, "giving it back keeps the test of 170 ppm")
	without(t, p, "of phosphate. ", "With it")
}

// Red clover gains nothing from splitting [Smith & Smith 1977].
func TestRedCloverGetsItsPotashAtOnce(t *testing.T) {
	s := withSoil("A", "2024-10-01", soilOf(6.9, 7, 40, 85))
	s.Crop, s.cuts = book.RedClover, []string{"06-02"}
	p := find(round(t, day("06-05"), plain(), s), "A", "topdress")
	says(t, p, "Potash after the first cut")
	without(t, p, "Half goes on now")
}

func tops(values map[string]float64) book.TissueTest {
	return book.TissueTest{Lab: "Test Bench", Part: "top-6in", Stage: "bud", Values: values}
}

func TestSulfurAndBoronGoByTheTops(t *testing.T) {
	tested := func(name string, values map[string]float64) *stand {
		s := alfalfa(name)
		s.tissue = map[string]book.TissueTest{"05-20": tops(values)}
		return s
	}
	done := tested("Done", map[string]float64{"s": 0.21})
	done.spread = map[string]book.Application{"05-30": {Class: book.FertilizerSpread, Material: "gyp", Rate: 150, Unit: book.PoundsAcre}}
	whole := alfalfa("Whole")
	whole.tissue = map[string]book.TissueTest{"05-20": {Part: "whole", Values: map[string]float64{"s": 0.2}}}
	r := round(t, day("06-02"), plain(), tested("Short", map[string]float64{"n": 3.4, "s": 0.22, "b": 18}), tested("Enough", map[string]float64{"s": 0.25, "b": 24}), done, whole,
		tested("Copper", map[string]float64{"cu": 6, "mo": 4}))
	p := find(r, "Short", "sulfur-boron")
	says(t, p, "0.22 % of sulfur, under 0.25: 25 lb of sulfate sulfur", "18 ppm of boron", "2 lb an acre broadcast", "nitrogen to sulfur 15.5 to 1", "never over 4 lb an acre", "tri-state 0.31 to 0.5: low")
	if p != nil && p.Urgency != advice.Week {
		t.Errorf("%v", p.Urgency)
	}
	for _, name := range []string{"Enough", "Done"} {
		if p := find(r, name, "sulfur-boron"); p != nil {
			t.Errorf("%s: %s", name, words(p))
		}
	}
	if p := find(r, "Whole", "sulfur-boron"); p == nil || p.Urgency != advice.Unjudged || !strings.Contains(p.Sentence, "top 4 to 6 inches") {
		t.Errorf("whole plants are judged: %+v", p)
	}
	says(t, find(r, "Copper", "sulfur-boron"), "Copper to molybdenum is 1.5 to 1", "will want copper", "put no molybdenum on", "nothing is to be spread")
	if p := find(round(t, day("09-20"), plain(), tested("Short", map[string]float64{"s": 0.22})), "Short", "sulfur-boron"); p == nil || p.Urgency != advice.Watch {
		t.Errorf("an old test is this week's business: %+v", p)
	}
}

// TestAnySoilKeepsTheLawsOfTheRound: whatever a laboratory prints and whoever's guide is followed, the round
// speaks plainly and asks no more potash than the most in a year.
func TestAnySoilKeepsTheLawsOfTheRound(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		by := rapid.SampledFrom(book.KExtractants()).Draw(rt, "k by")
		pby := rapid.SampledFrom(book.PExtractants()).Draw(rt, "p by")
		test := book.SoilTest{
			PH: rapid.Float64Range(4, 8.5).Draw(rt, "ph"), Buffer: rapid.SampledFrom([]float64{0, 5.2, 6.2, 6.9, 7.4}).Draw(rt, "buffer"), BufferBy: rapid.SampledFrom(book.Buffers()).Draw(rt, "buffer by"),
			P: &book.Extracted{Value: rapid.Float64Range(0, 300).Draw(rt, "p"), Unit: rapid.SampledFrom([]book.SoilUnit{book.PPM, book.LbAcre}).Draw(rt, "unit"), By: pby},
			K: &book.Extracted{Value: rapid.Float64Range(0, 900).Draw(rt, "k"), Unit: book.PPM, By: by},
		}
		if rapid.Bool().Draw(rt, "capacity") {
			test.More = map[string]float64{"cec": rapid.Float64Range(0.5, 60).Draw(rt, "cec")}
		}
		s := withSoil("A", fmt.Sprintf("%d-04-02", rapid.IntRange(2020, 2026).Draw(rt, "year")), test)
		s.Crop = rapid.SampledFrom(book.Crops()).Draw(rt, "crop")
		s.cuts = []string{"05-25", "06-28", "08-01", "09-02"}[:rapid.IntRange(0, 4).Draw(rt, "cuts")]
		s.tissue = map[string]book.TissueTest{"05-20": tops(map[string]float64{"s": rapid.Float64Range(0.05, 0.6).Draw(rt, "s"), "b": rapid.Float64Range(2, 120).Draw(rt, "b")})}
		guide := rapid.SampledFrom([]string{"Wisconsin", "Ohio", "Iowa", "Minnesota", "Illinois", "Kansas", "Pennsylvania", "North Carolina", "Elsewhere"}).Draw(rt, "guide")
		r := roundIn(rt, guide, day("03-01")+unit.Day(rapid.IntRange(0, 270).Draw(rt, "day")), plain(), s)
		for _, p := range r.Pieces {
			if why := faulty(p); why != "" {
				rt.Fatalf("%s: %q %s: %s", p.Decision, p.Title, why, words(p))
			}
			var lb float64
			if _, err := fmt.Sscanf(p.Title[strings.LastIndex(p.Title, ":")+1:], " %f lb an acre", &lb); err == nil && p.Decision == "topdress" && !(lb >= 20 && lb <= 300) {
				rt.Fatalf("%g lb of potash: %s", lb, words(p))
			}
		}
	})
}
