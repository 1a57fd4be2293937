package book_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"haywarden/agronomy/unit"
	"haywarden/book"
)

// later is a time by which all facts of these tests were received.
var later = noon.AddDate(1, 0, 0)

// ridge is a farm with one field and one stand, recorded on 1 May.
func ridge(tb testing.TB) []book.Fact {
	return []book.Fact{
		fact(tb, 1, "", "farm-1", may1, book.Farm{Name: "Ridge"}),
		fact(tb, 2, "farm-1", "field-1", may1, book.Field{Name: "North", Acres: 20}),
		fact(tb, 3, "farm-1", "stand-1", may1, book.Stand{Field: "field-1", Crop: book.Alfalfa, Seeded: may1 - 700}),
	}
}

func project(t *testing.T, facts []book.Fact, date unit.Day, known time.Time) *book.View {
	t.Helper()
	v, err := book.Project(facts, date, known)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// cuts lists the cut numbers of the only stand.
func cuts(v *book.View) (numbers []int) {
	for _, c := range v.Farms[0].Fields[0].Stands[0].Cuts {
		numbers = append(numbers, c.Body.Number)
	}
	return numbers
}

func TestAStandHangsInItsFieldAndFarm(t *testing.T) {
	v := project(t, ridge(t), may1, later)
	s := v.Farms[0].Fields[0].Stands[0]
	if s.Farm != v.Farms[0] || s.InField != v.Farms[0].Fields[0] || s.InField.Farm != s.Farm {
		t.Error("the stand does not point back to its field and farm")
	}
	if got, want := s.Named(), "Ridge · North"; got != want {
		t.Errorf("named %q, want %q", got, want)
	}
}

func TestWhatWasSeenIsInOrderOfTheDay(t *testing.T) {
	first := fact(t, 10, "farm-1", "stand-1", may1+23, book.Cut{Number: 1})
	second := fact(t, 11, "farm-1", "stand-1", may1+55, book.Cut{Number: 2})
	first.Received = second.Received.Add(time.Hour) // typed in after the second
	v := project(t, append(ridge(t), second, first), may1+60, later)
	if diff := cmp.Diff([]int{1, 2}, cuts(v)); diff != "" {
		t.Errorf("cuts (-want +got):\n%s", diff)
	}
}

func TestFactsOfOneDayAreInOrderOfReceipt(t *testing.T) {
	morning := fact(t, 21, "farm-1", "stand-1", may1+5, book.Cut{Number: 1})
	evening := fact(t, 20, "farm-1", "stand-1", may1+5, book.Cut{Number: 2})
	evening.Received = morning.Received.Add(6 * time.Hour)
	v := project(t, append(ridge(t), evening, morning), may1+5, later)
	if diff := cmp.Diff([]int{1, 2}, cuts(v)); diff != "" {
		t.Errorf("cuts (-want +got):\n%s", diff)
	}
}

func TestACorrectionTakesThePlaceOfWhatItCorrects(t *testing.T) {
	wrong := fact(t, 10, "farm-1", "stand-1", may1+23, book.Cut{Number: 2})
	right := fact(t, 11, "farm-1", "stand-1", may1+23, book.Cut{Number: 1})
	right.Supersedes, right.Received = wrong.ID, wrong.Received.AddDate(0, 0, 3)
	facts := append(ridge(t), wrong, right)
	for _, c := range []struct {
		name  string
		known time.Time
		want  int
	}{
		{"before the correction came", wrong.Received, 2},
		{"a moment before it came", right.Received.Add(-time.Nanosecond), 2},
		{"when it came", right.Received, 1},
		{"today", later, 1},
	} {
		if got := cuts(project(t, facts, may1+30, c.known)); !slices.Equal(got, []int{c.want}) {
			t.Errorf("%s: cuts %v, want [%d]", c.name, got, c.want)
		}
	}
}

func TestACorrectionOfACorrectionIsTheOneThatCounts(t *testing.T) {
	a := fact(t, 10, "farm-1", "stand-1", may1+23, book.Cut{Number: 1})
	b := fact(t, 11, "farm-1", "stand-1", may1+23, book.Cut{Number: 2})
	c := fact(t, 12, "farm-1", "stand-1", may1+23, book.Cut{Number: 3})
	b.Supersedes, c.Supersedes = a.ID, b.ID
	if got := cuts(project(t, append(ridge(t), c, a, b), may1+30, later)); !slices.Equal(got, []int{3}) {
		t.Errorf("cuts %v, want [3]", got)
	}
}

func TestAWithdrawnFactIsGoneButOnlyFromThenOn(t *testing.T) {
	cut := fact(t, 10, "farm-1", "stand-1", may1+23, book.Cut{Number: 1})
	gone := fact(t, 11, "", "stand-1", may1+25, book.Withdrawn{Why: "the neighbour's field"})
	gone.Supersedes = cut.ID
	facts := append(ridge(t), cut, gone)
	if got := cuts(project(t, facts, may1+24, later)); !slices.Equal(got, []int{1}) {
		t.Errorf("the day before: cuts %v, want [1]", got)
	}
	if got := cuts(project(t, facts, may1+25, later)); len(got) != 0 {
		t.Errorf("on the day: cuts %v, want none", got)
	}
}

func TestALabResultThatArrivesLateBelongsToTheDayOfItsSample(t *testing.T) {
	lab := fact(t, 10, "farm-1", "stand-1", may1+20, book.Lab{Sample: "standing", ADF: 30, NDF: 38})
	lab.Received = lab.Received.AddDate(0, 0, 7) // the laboratory took a week
	facts := append(ridge(t), lab)
	labs := func(v *book.View) int { return len(v.Farms[0].Fields[0].Stands[0].Labs) }
	for _, c := range []struct {
		name  string
		date  unit.Day
		known time.Time
		want  int
	}{
		{"as of the sample, as known today", may1 + 20, later, 1},
		{"as of the day before, as known today", may1 + 19, later, 0},
		{"as of the sample, as known then", may1 + 20, lab.Received.AddDate(0, 0, -7), 0},
		{"as of the week's end, as known the evening before it came", may1 + 27, lab.Received.Add(-time.Hour), 0},
		{"as of the week's end, as known when it came", may1 + 27, lab.Received, 1},
	} {
		if got := labs(project(t, facts, c.date, c.known)); got != c.want {
			t.Errorf("%s: %d results, want %d", c.name, got, c.want)
		}
	}
}

// A farm typed in today with visits of last year must not make last year unreadable.
func TestWhatHangsInTheAirIsLeftOutAndListed(t *testing.T) {
	for _, c := range []struct {
		name string
		fact book.Fact
	}{
		{"unknown farm", fact(t, 10, "farm-9", "field-9", may1, book.Field{Name: "East", Acres: 5})},
		{"unknown field", fact(t, 10, "farm-1", "stand-9", may1, book.Stand{Field: "field-9", Crop: book.Alfalfa, Seeded: may1})},
		{"unknown stand", fact(t, 10, "farm-1", "stand-9", may1, book.Visit{Note: "tall"})},
		{"no farm at all", book.Fact{ID: id(10), Subject: "c-1", Kind: book.KindContact, Day: may1, Author: "ada", Body: []byte(`{"name":"Ada"}`)}},
	} {
		t.Run(c.name, func(t *testing.T) {
			v, err := book.Project(append(ridge(t), c.fact), may1, later)
			if err != nil || len(v.LeftOut) != 1 || v.LeftOut[0] != id(10) {
				t.Errorf("left out %v, error %v; want the fact's id and no error", v.LeftOut, err)
			}
		})
	}
	_, err := book.Project(append(ridge(t), book.Fact{ID: id(10), Subject: "c-1", Kind: "omen", Day: may1, Author: "ada", Body: []byte(`{}`)}), may1, later)
	if err == nil || !strings.Contains(err.Error(), `kind "omen"`) || !strings.Contains(err.Error(), id(10)) {
		t.Errorf("unknown kind: error %v, want one that names it and the fact", err)
	}
}

func TestAStandGrowsFromSeedingUntilItIsTurnedUnder(t *testing.T) {
	under := may1 + 100
	facts := append(ridge(t)[:2], fact(t, 3, "farm-1", "stand-1", may1, book.Stand{Field: "field-1", Crop: book.RedClover, Seeded: may1, TurnedUnder: &under}))
	for _, c := range []struct {
		date unit.Day
		want int
	}{{may1, 1}, {under - 1, 1}, {under, 0}} {
		if got := len(project(t, facts, c.date, later).Stands()); got != c.want {
			t.Errorf("%s: %d stands growing, want %d", c.date, got, c.want)
		}
	}
}

func TestAFarmsOwnDeckGoesBeforeTheBooks(t *testing.T) {
	deck := func(n int, farm string, day unit.Day, dollars float64) book.Fact {
		return fact(t, n, farm, "deck", day, book.Prices{Name: "deck", Lines: []book.PriceLine{{Name: book.HayBase, Unit: "$/ton", Value: dollars}}})
	}
	shared := append(ridge(t), deck(10, "", may1+1, 180), deck(11, "", may1+9, 190))
	for _, c := range []struct {
		name  string
		facts []book.Fact
		date  unit.Day
		want  float64 // 0: no deck
	}{
		{"before any", shared, may1, 0},
		{"the book's first", shared, may1 + 8, 180},
		{"the book's newest", shared, may1 + 9, 190},
		{"the farm's own, older than the book's", append(shared, deck(12, "farm-1", may1+2, 210)), may1 + 9, 210},
	} {
		v := project(t, c.facts, c.date, later)
		d, ok := v.Deck(v.Farms[0], book.HayBase)
		line, _ := d.Body.Line(book.HayBase)
		if ok != (c.want != 0) || line.Value != c.want {
			t.Errorf("%s: %g (%t), want %g", c.name, line.Value, ok, c.want)
		}
	}
}

func TestTheNewestDescriptionOfAStationCounts(t *testing.T) {
	a := fact(t, 10, "", "USW00014839", may1, book.Station{ID: "USW00014839", Name: "Airport"})
	b := fact(t, 11, "", "USW00014839", may1+1, book.Station{ID: "USW00014839", Name: "Airport, moved", WholeF: true})
	v := project(t, []book.Fact{b, a}, may1+1, later)
	want := []book.Station{{ID: "USW00014839", Name: "Airport, moved", WholeF: true}}
	if diff := cmp.Diff(want, v.Stations); diff != "" {
		t.Errorf("stations (-want +got):\n%s", diff)
	}
}

func TestSoilIsOfTheFieldAndTissueOfTheStand(t *testing.T) {
	test := book.SoilTest{PH: 6.1}
	right := book.SoilTest{PH: 6.4}
	a := fact(t, 30, "farm-1", "field-1", may1+2, test)
	b := fact(t, 31, "farm-1", "field-1", may1+2, right)
	b.Supersedes, b.Received = a.ID, a.Received.AddDate(0, 0, 9)
	facts := append(ridge(t), a, b,
		fact(t, 32, "farm-1", "field-1", may1+40, book.Application{Class: book.FertilizerSpread, Material: "mop", Rate: 200, Unit: book.PoundsAcre}),
		fact(t, 33, "farm-1", "stand-1", may1+41, book.TissueTest{Values: map[string]float64{"s": 0.2}}),
		fact(t, 34, "farm-1", "stand-1", may1, book.Seeding{Lots: []book.SeedLot{{Species: "alfalfa", RateLb: 15}}}),
		fact(t, 35, "farm-1", "field-9", may1, book.SoilTest{PH: 6}),
	)
	v := project(t, facts, may1+60, later)
	f := v.Farms[0].Fields[0]
	if len(f.SoilTests) != 1 || f.SoilTests[0].Body.PH != 6.4 || len(f.Applications) != 1 || len(f.Stands[0].Tissue) != 1 || len(f.Stands[0].Seedings) != 1 {
		t.Errorf("tests %v, applications %v, tissue %v, seedings %v", f.SoilTests, f.Applications, f.Stands[0].Tissue, f.Stands[0].Seedings)
	}
	if !slices.Contains(v.LeftOut, id(35)) {
		t.Error("a test of no field is not told to be left out")
	}
	if v := project(t, facts, may1+39, later); len(v.Farms[0].Fields[0].Applications) != 0 {
		t.Error("what was spread later is seen")
	}
	if v := project(t, facts, may1+2, a.Received); v.Farms[0].Fields[0].SoilTests[0].Body.PH != 6.1 {
		t.Error("the correction is seen before it was known")
	}
}

func TestAFarmsOwnSoilGuidesGoFirst(t *testing.T) {
	facts := append(ridge(t),
		fact(t, 40, "", "soil-guides", may1, book.SoilGuides{Lime: "iowa", Fertility: "illinois", Supply: "low"}),
		fact(t, 41, "", "soil-guides", may1+1, book.SoilGuides{Lime: "kansas"}),
		fact(t, 42, "farm-1", "farm-1", may1, book.SoilGuides{Fertility: "minnesota"}),
		fact(t, 43, "", "guide", may1, book.GuideTable{Guide: "illinois", Edition: "1", Lines: []book.LimeLine{{Target: 6.5, A: 1}}}),
		fact(t, 44, "", "guide", may1+1, book.GuideTable{Guide: "illinois", Edition: "2", Lines: []book.LimeLine{{Target: 6.5, A: 2}}}),
	)
	v := project(t, facts, may1+9, later)
	if got, want := v.SoilGuidesOf(v.Farms[0]), (book.SoilGuides{Lime: "kansas", Fertility: "minnesota", Supply: "low"}); got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
	if got := v.SoilGuidesOf(nil); got.Fertility != "illinois" {
		t.Errorf("the book's own are %+v", got)
	}
	if d, ok := v.GuideTable("illinois", book.LimeLines); !ok || d.Body.Edition != "2" {
		t.Errorf("%+v %t, want the newest", d, ok)
	}
	if _, ok := v.GuideTable("illinois", book.LimeCharted); ok {
		t.Error("a chart nobody typed in is found")
	}
}
