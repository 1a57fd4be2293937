package exchange_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/exchange"
)

func TestRowsOfOneVisitAreOneVisit(t *testing.T) {
	const file = "farm,field,date,observer,height_in,stage,stems,plants,frame_ft2,roots_dug,roots_bad,bloom_pct,growth_in,grass_share,tips,weevil_tips_pct,note\n" +
		"Alder Run,Home Forty,2026-05-18,Ida,71cm,bud,,,2,,,,,,,,\n" +
		"alder run,HOME FORTY,18 May 2026,ida,28,Veg,94,,,20,4,,,,,,\"leans, wet\"\n" +
		"Alder Run,Home Forty,2026-05-18,Jo,,,110,12,1,,,5%,27,30%,dead,40,\n" +
		"Alder Run,Home Forty,2026-05-18,Ida,30 in,late bud,88,0,0.5m2,,,,,,,,\"leans, wet\"\n" +
		"Alder Run,Home Forty,2026-05-18,Jo,,,,,,,,5,,0.3,killed,,gate shut\n" +
		"Alder Run,Home Forty,2026-05-21,,,,,,,,,,,,,,mown\n"
	got, err := exchange.ReadVisits(strings.NewReader(file), "visits.csv")
	if err != nil {
		t.Fatal(err)
	}
	d := day(t, "2026-05-18")
	want := []exchange.VisitRow{
		{Row: 2, Farm: "Alder Run", Field: "Home Forty", Day: d, Observer: "Ida", Visit: book.Visit{
			Spots:  []book.Spot{{HeightIn: 27.95, Stage: book.Bud}, {HeightIn: 28, Stage: book.Vegetative}, {HeightIn: 30, Stage: book.Bud}},
			Frames: []book.Frame{{Stems: new(94), Ft2: 2}, {Stems: new(88), Plants: new(0), Ft2: 5.38}},
			Roots:  &book.Roots{Dug: 20, Bad: 4}, Note: "leans, wet",
		}},
		{Row: 4, Farm: "Alder Run", Field: "Home Forty", Day: d, Observer: "Jo", Visit: book.Visit{
			Frames: []book.Frame{{Stems: new(110), Plants: new(12), Ft2: 1}}, Bloom: new(5.), GrowthIn: new(27.), Grass: new(0.3),
			Tips: book.TipsKilled, WeevilTips: new(40.), Note: "gate shut",
		}},
		{Row: 7, Farm: "Alder Run", Field: "Home Forty", Day: d + 3, Visit: book.Visit{Note: "mown"}},
	}
	if diff := cmp.Diff(want, got.Visits); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if got.Rows != 6 {
		t.Errorf("%d rows, want 6", got.Rows)
	}
}

func TestAHeadingMaySayTheUnit(t *testing.T) {
	got, err := exchange.ReadVisits(strings.NewReader("farm;field;day;Height (cm);stage;growth cm;frame m2;stems;grass pct\nA;B;2026-05-18;71,1;f;50;0,19;80;30\n"), "v.csv")
	if err != nil {
		t.Fatal(err)
	}
	want := book.Visit{Spots: []book.Spot{{HeightIn: 27.99, Stage: book.Flower}}, GrowthIn: new(19.69), Frames: []book.Frame{{Stems: new(80), Ft2: 2.05}}, Grass: new(0.3)}
	if diff := cmp.Diff(want, got.Visits[0].Visit); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestBadVisitsAreRefusedWithRowColumnAndRange(t *testing.T) {
	const head = "farm,field,date,height,stage,stems,frame_ft2\n"
	const wide = "farm,field,date,roots_dug,roots_bad,bloom,growth,grass_share,tips,weevil_pct\n"
	refused(t, func(file string) error {
		_, err := exchange.ReadVisits(strings.NewReader(file), "f.csv")
		return err
	}, []refusal{
		{"empty", "", []string{"the file is empty"}},
		{"header alone", head, []string{"the file has a header and no rows"}},
		{"no column of the day", "farm,field,note\nA,B,x\n", []string{`row 1: no column date; the columns are ["farm" "field" "note"]`}},
		{"a height of 300 in", head + "A,B,2026-05-01,300,bud,,\n", []string{`row 2, height: "300": accepted 4 to 60 inches`}},
		{"a height of 300 cm", head + "A,B,2026-05-01,300 cm,bud,,\n", []string{`row 2, height: "300 cm": height 118.11: accepted 4 to 60 inches`}},
		{"a height in pounds", head + "A,B,2026-05-01,20 lb,bud,,\n", []string{`row 2, height: "20 lb": in wanted: lb measures mass, and length (in) is wanted`}},
		{"an unknown stage", head + "A,B,2026-05-01,20,boot,,\n", []string{`row 2, stage: "boot": accepted vegetative, bud, flower`}},
		{"a stage with a slip", head + "A,B,2026-05-01,20,vegatative,,\n", []string{`row 2, stage: "vegatative": accepted vegetative, bud, flower; did you mean vegetative?`}},
		{"a height without a stage", head + "A,B,2026-05-01,20,,,\n", []string{"row 2, stage: is empty beside a height; accepted vegetative, bud, flower (height of growth without a stage is growth_in)"}},
		{"a stage without a height", head + "A,B,2026-05-01,,bud,,\n", []string{"row 2, height: is empty beside a stage; the height of the tallest stem is wanted, 4 to 60 in"}},
		{"half a stem", head + "A,B,2026-05-01,,,40.5,2\n", []string{`row 2, stems: "40.5": a whole number wanted`}},
		{"stems without end", head + "A,B,2026-05-01,,,1000,2\n", []string{`row 2, stems: "1000": stems a square foot 500: accepted 0 to 200`}},
		{"a frame of a room", head + "A,B,2026-05-01,,,40,200\n", []string{`row 2, frame_ft2: "200": accepted 0.25 to 20 square feet`}},
		{"a frame and nothing counted", head + "A,B,2026-05-01,,,,2\n", []string{"row 2: the row says nothing that was seen: fill in a height and stage, a count, or a note"}},
		{"more roots bad than dug", wide + "A,B,2026-05-01,4,5,,,,,\n", []string{"row 2: roots: 5 bad of 4 dug; accepted 1 to 500 dug and no more bad than dug"}},
		{"roots of one kind", wide + "A,B,2026-05-01,4,,,,,,\nA,B,2026-05-01,,1,,,,,\n", []string{
			"2 things are wrong, nothing was taken in", "row 2, roots_bad: is empty beside roots_dug; how many were rotted or streaked, 0 for none?", "row 3, roots_dug: is empty beside roots_bad; how many were split?",
		}},
		{"roots twice", wide + "A,B,2026-05-01,4,1,,,,,\nA,B,2026-05-01,4,1,,,,,\n", []string{`row 3, roots_dug: "4": row 2 of the same visit has roots already; give the sum of all digs once`}},
		{"two blooms of a visit", wide + "A,B,2026-05-01,,,10,,,,\nA,B,2026-05-01,,,12,,,,\n", []string{`row 3, bloom: "12": row 2 of the same visit says 10; give one value for the field`}},
		{"tips sound and killed", wide + "A,B,2026-05-01,,,,,,ok,\nA,B,2026-05-01,,,,,,dead,\n", []string{`row 3, tips: "dead": row 2 of the same visit says sound; give one value for the field`}},
		{"out of range, all of it", wide + "A,B,2026-05-01,,,101,61,1.5,hurt,-1\n", []string{
			"5 things are wrong, nothing was taken in",
			`row 2, grass_share: "1.5": accepted 0 to 1, or 0% to 100% with the sign`,
			`row 2, tips: "hurt": accepted sound, killed`,
			`row 2, growth: "61": accepted 0 to 60 inches`,
			`row 2, bloom: "101": accepted 0 to 100 % of stems`,
			`row 2, weevil_pct: "-1": accepted 0 to 100 % of stems`,
		}},
		{"nobody's visit on no day", head + ",B,soon,20,bud,,\n", []string{
			"2 things are wrong, nothing was taken in", "row 2, farm: is empty; each row says it", `row 2, date: "soon": a date written YYYY-MM-DD wanted`,
		}},
	})
}

// drawVisit draws a visit to a field of its own.
func drawVisit(t *rapid.T, i int) exchange.VisitRow {
	row := exchange.VisitRow{
		Farm: cell().Draw(t, "farm"), Field: fmt.Sprint(cell().Draw(t, "field"), i), Day: unit.DateOf(2026, 5, 1) + unit.Day(rapid.IntRange(0, 60).Draw(t, "day")),
		Observer: rapid.OneOf(cell(), rapid.Just("")).Draw(t, "observer"),
	}
	for range rapid.IntRange(0, 4).Draw(t, "spots") {
		row.Visit.Spots = append(row.Visit.Spots, book.Spot{HeightIn: hundredths(4, 60).Draw(t, "height"), Stage: rapid.SampledFrom(book.Stages()).Draw(t, "stage")})
	}
	for range rapid.IntRange(0, 4).Draw(t, "frames") {
		f := book.Frame{Ft2: rapid.SampledFrom([]float64{0.5, 1, 2, 2.07}).Draw(t, "size"), Stems: maybe(t, rapid.IntRange(0, 100), "stems"), Plants: maybe(t, rapid.IntRange(0, 40), "plants")}
		if f.Stems != nil || f.Plants != nil {
			row.Visit.Frames = append(row.Visit.Frames, f)
		}
	}
	if dug := maybe(t, rapid.IntRange(1, 40), "dug"); dug != nil {
		row.Visit.Roots = &book.Roots{Dug: *dug, Bad: rapid.IntRange(0, *dug).Draw(t, "bad")}
	}
	row.Visit.Bloom = maybe(t, hundredths(0, 100), "bloom")
	row.Visit.GrowthIn = maybe(t, hundredths(0, 60), "growth")
	row.Visit.Grass = maybe(t, hundredths(0, 1), "grass")
	row.Visit.Tips = rapid.SampledFrom([]book.Tips{"", book.TipsSound, book.TipsKilled}).Draw(t, "tips")
	row.Visit.WeevilTips = maybe(t, hundredths(0, 100), "weevil")
	for i := range rapid.IntRange(0, 2).Draw(t, "pests") {
		p := book.Pests{Pest: book.PestKinds()[i].Name, Size: float64(rapid.IntRange(1, 40).Draw(t, "size"))}
		for range rapid.IntRange(1, 4).Draw(t, "samples") {
			p.Counts = append(p.Counts, float64(rapid.IntRange(0, 50).Draw(t, "count")))
		}
		row.Visit.Pests = append(row.Visit.Pests, p)
	}
	row.Visit.WeedsBloom = rapid.Bool().Draw(t, "weeds in bloom")
	row.Visit.Note = strings.TrimSpace(rapid.SampledFrom([]string{"n", "=1+1", "two\nlines; 'quoted' \"twice\"", "-"}).Draw(t, "note") + rapid.StringMatching(`[ -~\n]{0,20}`).Draw(t, "more"))
	return row
}

func TestVisitsWrittenAreReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var rows []exchange.VisitRow
		for i := range rapid.IntRange(1, 5).Draw(t, "visits") {
			rows = append(rows, drawVisit(t, i))
		}
		var b strings.Builder
		if err := exchange.WriteVisits(&b, rows); err != nil {
			t.Fatal(err)
		}
		got, err := exchange.ReadVisits(strings.NewReader(b.String()), "out.csv")
		if err != nil {
			t.Fatalf("%v in:\n%s", err, b.String())
		}
		for i := range got.Visits {
			got.Visits[i].Row = 0
		}
		if diff := cmp.Diff(rows, got.Visits); diff != "" {
			t.Fatalf("(-written +read):\n%s\n%s", diff, b.String())
		}
	})
}

// fullDisk is a writer that has no room.
type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, fmt.Errorf("no space left") }

func TestAWriteThatFailsIsTold(t *testing.T) {
	for what, err := range map[string]error{
		"stands": exchange.WriteStands(fullDisk{}, []exchange.StandRow{{Farm: book.Farm{Name: strings.Repeat("x", 9000)}}}),
		"visits": exchange.WriteVisits(fullDisk{}, []exchange.VisitRow{{Farm: "A"}}),
	} {
		if err == nil || err.Error() != "write "+what+": no space left" {
			t.Errorf("%s: error %v", what, err)
		}
	}
}

func FuzzReadVisits(f *testing.F) {
	f.Add([]byte("farm,field,date,height,stage,stems\nA,B,2026-05-01,20,bud,44\nA,B,2026-05-01,71cm,v,\n"))
	f.Add([]byte("farm;field;day;height cm;stage;by;frame m2;plants\nA;B;1 May 2026;71,1;f;Ida;0,19;9\n"))
	f.Add([]byte("farm,field,date,roots_dug,roots_bad,bloom,growth,grass,tips,weevil_pct,note\nA,B,2026-05-01,9,1,10%,20 in,30%,ok,4,\"'=1\nx\"\nA,B,2026-05-01,,,10,,,,,y\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		got, err := exchange.ReadVisits(strings.NewReader(string(data)), "f.csv")
		if err != nil {
			sound(t, err)
			return
		}
		for i, v := range got.Visits {
			if err := v.Visit.Check(); err != nil {
				t.Errorf("took what the book refuses: %v", err)
			}
			got.Visits[i].Row = 0
		}
		var b strings.Builder
		if err := exchange.WriteVisits(&b, got.Visits); err != nil {
			t.Fatal(err)
		}
		again, err := exchange.ReadVisits(strings.NewReader(b.String()), "f.csv")
		if err != nil {
			t.Fatalf("what was written is refused: %v\n%s", err, b.String())
		}
		for i := range again.Visits {
			again.Visits[i].Row = 0
		}
		if diff := cmp.Diff(got.Visits, again.Visits); diff != "" {
			t.Errorf("(-read +read again):\n%s", diff)
		}
	})
}
