package office_test

import (
	"errors"
	"io"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/demo"
	"haywarden/exchange"
	"haywarden/office"
	"haywarden/weather"
)

// pass lets time pass.
func (c *clock) pass(d time.Duration) {
	c.mu.Lock()
	c.now = c.now.Add(d)
	c.mu.Unlock()
}

// table is one kind of table being brought.
type table func(o *office.Office, t testing.TB, text string, dry bool) (office.ImportedRecords, error)

func stands(o *office.Office, t testing.TB, text string, dry bool) (office.ImportedRecords, error) {
	return o.ImportStands(t.Context(), ida, strings.NewReader(text), "s.csv", dry)
}

func visits(o *office.Office, t testing.TB, text string, dry bool) (office.ImportedRecords, error) {
	return o.ImportVisits(t.Context(), ida, strings.NewReader(text), "v.csv", dry)
}

func labs(o *office.Office, t testing.TB, text string, dry bool) (office.ImportedRecords, error) {
	got, err := o.BringLabs(t.Context(), ida, strings.NewReader(text), "l.csv", office.LabImport{Dry: dry})
	return got.ImportedRecords, err
}

func prices(o *office.Office, t testing.TB, text string, dry bool) (office.ImportedRecords, error) {
	return o.ImportPrices(t.Context(), ida, strings.NewReader(text), "p.csv", dry)
}

// brings takes a table in and holds what it brought to counts: added, changed, unchanged.
func brings(t testing.TB, o *office.Office, do table, text string, want [3]int) {
	t.Helper()
	before := view(t, o, 0)
	dry, err := do(o, t, text, true)
	if err != nil {
		t.Fatalf("dry run: %v", err)
	}
	if diff := cmp.Diff(before, view(t, o, 0)); diff != "" {
		t.Errorf("a dry run changed the book (-before +after):\n%s", diff)
	}
	got, err := do(o, t, text, false)
	if err != nil {
		t.Fatal(err)
	}
	if n := [3]int{got.Added, got.Changed, got.Unchanged}; n != want {
		t.Errorf("%d added, %d changed, %d unchanged; want %v", n[0], n[1], n[2], want)
	}
	dry.DryRun, got.Facts = false, nil
	if diff := cmp.Diff(dry, got); diff != "" {
		t.Errorf("the dry run said otherwise (-dry +got):\n%s", diff)
	}
	again, err := do(o, t, text, false)
	if err != nil {
		t.Fatal(err)
	}
	if all := want[0] + want[1] + want[2]; !again.Nothing() || again.Unchanged != all {
		t.Errorf("the same table again: %d added, %d changed, %d unchanged; want %d unchanged", again.Added, again.Changed, again.Unchanged, all)
	}
}

// view is the book as it stands on a day; 0 is today.
func view(t testing.TB, o *office.Office, day unit.Day) *book.View {
	t.Helper()
	v, err := o.View(t.Context(), ida, office.Ask{Date: day})
	if err != nil {
		t.Fatal(err)
	}
	if len(v.LeftOut) > 0 {
		t.Errorf("%s: facts hang in the air: %q", v.Date, v.LeftOut)
	}
	return v
}

// standNames lists the growing stands with the day they were seeded.
func standNames(v *book.View) (names []string) {
	for _, s := range v.Stands() {
		names = append(names, s.Named()+" "+s.Seeded.String())
	}
	return names
}

const twoStands = "farm,county,field,acres,station,crop,seeded,variety,contact,phone\n" +
	"Alder Run,North,Home Forty,40,ZZT00000001,alfalfa,2022-04-20,Wendle 4,Ida Quell,555 0100\n" +
	"Alder Run,,Back Lot,18,,mix,2023-04-20,,ida quell,\n"

func TestStandsAreInTheBookFromTheirSeedingOn(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	brings(t, o, stands, twoStands, [3]int{6, 0, 0})
	for day, want := range map[unit.Day][]string{
		unit.DateOf(2022, 4, 19): nil,
		unit.DateOf(2022, 4, 20): {"Alder Run · Home Forty 2022-04-20"},
		unit.DateOf(2026, 5, 19): {"Alder Run · Back Lot 2023-04-20", "Alder Run · Home Forty 2022-04-20"},
	} {
		if diff := cmp.Diff(want, standNames(view(t, o, day))); diff != "" {
			t.Errorf("%s (-want +got):\n%s", day, diff)
		}
	}
	f := view(t, o, 0).Farms[0]
	if f.County != "North" || len(f.Contacts) != 1 || f.Contacts[0].Body != (book.Contact{Name: "Ida Quell", Phone: "555 0100"}) {
		t.Errorf("farm %+v, contacts %+v", f.Farm, f.Contacts)
	}
}

func TestWhatDiffersIsRecordedAnewAndWhatIsNotSaidStays(t *testing.T) {
	o, c := newOffice(t, "2026-05-19 08:00")
	brings(t, o, stands, twoStands, [3]int{6, 0, 0})
	c.set("2026-06-02 08:00")
	brings(t, o, stands, "farm,field,acres,crop,seeded,grass_share,sentinel,contact,phone\n"+
		"alder run,HOME FORTY,41.5,alfalfa,2022-04-20,,no,Ida Quell,555 0199\n"+
		"alder run,Back Lot,18,alfalfa-grass,2023-04-20,35%,yes,Jo Quell,\n", [3]int{1, 3, 3})
	v := view(t, o, 0)
	f := v.Farms[0]
	home, back := f.Fields[1], f.Fields[0]
	if home.Name != "Home Forty" || home.Acres != 41.5 || home.Station != "ZZT00000001" || home.Stands[0].Variety != "Wendle 4" {
		t.Errorf("field %+v with %+v", home.Field, home.Stands[0].Stand)
	}
	if s := back.Stands[0]; s.GrassShare != 0.35 || !s.Sentinel {
		t.Errorf("stand %+v", s.Stand)
	}
	if len(f.Contacts) != 2 || f.Contacts[0].Body.Phone != "555 0199" {
		t.Errorf("contacts %+v, want the new phone in the place of the old, and Jo", f.Contacts)
	}
	then := view(t, o, unit.DateOf(2026, 6, 1))
	if acres := then.Farms[0].Fields[1].Acres; acres != 40 {
		t.Errorf("the day before the change it had %g acres, want 40", acres)
	}
	if diff := cmp.Diff("555 0100", then.Farms[0].Contacts[0].Body.Phone); diff != "" {
		t.Errorf("phone the day before (-want +got):\n%s", diff)
	}
}

func TestAPlaceOfTheFarmOutlivesATableWithoutIt(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	day := unit.DateOf(2025, 3, 1)
	farm := record(t, o, office.Entry{Day: day, Body: book.Farm{Name: "Alder Run", County: "North", Latitude: 43.1, Longitude: -89.4}})
	record(t, o, office.Entry{Farm: farm, Day: day, Body: book.Contact{Name: "Ida Quell", Phone: "555 0100", Email: "ida@alder.example", Role: "herd"}})
	brings(t, o, stands, strings.ReplaceAll(twoStands, "North", "South"), [3]int{4, 1, 1})
	f := view(t, o, 0).Farms[0]
	if f.Farm != (book.Farm{Name: "Alder Run", County: "South", Latitude: 43.1, Longitude: -89.4}) {
		t.Errorf("farm %+v", f.Farm)
	}
	if c := f.Contacts[0].Body; c.Email == "" || c.Role == "" {
		t.Errorf("contact %+v", c)
	}
	// The farm is known from March 2025: its older stands cannot be in the book before it.
	if got := standNames(view(t, o, day)); len(got) != 2 {
		t.Errorf("on the day the farm came: %q, want both stands", got)
	}
	if got := standNames(view(t, o, day-1)); got != nil {
		t.Errorf("the day before: %q, want none", got)
	}
}

func TestAFieldIsReseededOnlyOnceItsStandIsTurnedUnder(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	brings(t, o, stands, twoStands, [3]int{6, 0, 0})
	const head = "farm,field,acres,crop,seeded,turned_under\n"
	refuses(t, o, stands, head+"Alder Run,Home Forty,40,red clover,2026-04-10,\n",
		"read s.csv: row 2, seeded: 2026-04-10: the book has a stand in Home Forty of Alder Run seeded on 2022-04-20; if it was turned under, say when in a row of its own (column turned_under), else correct the date; nothing was taken in")
	refuses(t, o, stands, head+"Alder Run,Home Forty,40,red clover,2020-04-10,2022-04-21\n",
		"read s.csv: row 2, seeded: 2020-04-10: the book has a stand in Home Forty of Alder Run seeded on 2022-04-20; if it was turned under, say when in a row of its own (column turned_under), else correct the date; nothing was taken in")
	brings(t, o, stands, head+"Alder Run,Home Forty,40,red clover,2026-04-10,\nAlder Run,Home Forty,40,alfalfa,2022-04-20,2025-10-05\n", [3]int{1, 1, 2})
	for day, want := range map[unit.Day]string{
		unit.DateOf(2025, 10, 4): "Alder Run · Home Forty 2022-04-20",
		unit.DateOf(2025, 10, 5): "",
		unit.DateOf(2026, 4, 10): "Alder Run · Home Forty 2026-04-10",
	} {
		got := strings.Join(standNames(view(t, o, day))[1:], ", ")
		if got != want {
			t.Errorf("%s: in Home Forty %q, want %q", day, got, want)
		}
	}
}

// refuses brings a table that is refused, in these words, and leaves the book as it was.
func refuses(t *testing.T, o *office.Office, do table, text string, want ...string) {
	t.Helper()
	before := view(t, o, 0)
	for _, dry := range []bool{true, false} {
		_, err := do(o, t, text, dry)
		if _, ok := errors.AsType[*exchange.Refusal](err); !ok {
			t.Fatalf("error %v, want a refusal", err)
		}
		if diff := cmp.Diff(strings.Join(want, "\n  "), err.Error()); diff != "" {
			t.Errorf("(-want +got):\n%s", diff)
		}
	}
	if diff := cmp.Diff(before, view(t, o, 0)); diff != "" {
		t.Errorf("the book has changed (-before +after):\n%s", diff)
	}
}

func TestEveryRowThatSpeaksOfTheUnknownIsNamed(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	brings(t, o, stands, twoStands, [3]int{6, 0, 0})
	refuses(t, o, visits, "farm,field,date,height,stage\n"+
		"Alder Run,Home Forty,2026-05-18,27,bud\n"+
		"Elder Run,Home Forty,2026-05-18,27,bud\n"+
		"Alder Run,Home Frty,2026-05-18,27,bud\n"+
		"Alder Run,Orchard,2026-05-18,27,bud\n"+
		"Alder Run,Back Lot,2022-05-18,27,bud\n"+
		"Alder Run,Home Forty,2026-05-20,27,bud\n",
		"read v.csv: 5 things are wrong, nothing was taken in",
		`row 3, farm: no farm is called "Elder Run"; did you mean Alder Run?`,
		`row 4, field: Alder Run has no field called "Home Frty"; did you mean Home Forty?`,
		`row 5, field: Alder Run has no field called "Orchard"`,
		"row 6, field: no stand grew in Back Lot of Alder Run on 2022-05-18; it has one seeded on 2023-04-20",
		"row 7, date: 2026-05-20 is after today, 2026-05-19")
	refuses(t, o, stands, "farm,field,acres,crop,seeded\nFox Hill,Top,9,alfalfa,2026-05-20\n",
		"read s.csv: row 2, seeded: 2026-05-20 is after today, 2026-05-19; nothing was taken in")
	refuses(t, o, labs, "farm,field,sampled,sample,adf,ndf\nFox Hill,Top,2026-05-12,hay,30,40\nAlder Run,Back Lot,2026-05-20,hay,30,40\n",
		"read l.csv: 2 things are wrong, nothing was taken in", `row 2, farm: no farm is called "Fox Hill"`, "row 3, sampled: 2026-05-20 is after today, 2026-05-19")
	refuses(t, o, prices, "deck,farm,date,line,unit,value\nMay,Alder Rum,2026-05-01,hay-base,$/ton,200\nMay,,2026-05-20,hay-base,$/ton,200\n",
		"read p.csv: 2 things are wrong, nothing was taken in", `row 2, farm: no farm is called "Alder Rum"; did you mean Alder Run?`, "row 3, date: 2026-05-20 is after today, 2026-05-19")
}

// homeVisits are the visits to Home Forty in short: author, spots, note.
func homeVisits(t testing.TB, o *office.Office) (seen []string) {
	t.Helper()
	for _, v := range view(t, o, 0).Farms[0].Fields[1].Stands[0].Visits {
		seen = append(seen, v.Day.String()+" "+v.Author+strings.Repeat(" spot", len(v.Body.Spots))+strings.Repeat(" frame", len(v.Body.Frames))+" "+v.Body.Note)
	}
	return seen
}

func TestAVisitIsCorrectedByOneThatMeasuresAllItDid(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	brings(t, o, stands, twoStands, [3]int{6, 0, 0})
	const head = "farm,field,date,observer,height,stage,stems,note\n"
	const at = "Alder Run,Home Forty,2026-05-18,"
	for _, step := range []struct {
		name, rows string
		want       [3]int
		seen       []string
	}{
		{"two observers", at + "Jo,27,bud,,\n" + at + "Jo,26,bud,,\n" + at + ",28,bud,,\n", [3]int{2, 0, 0}, []string{"2026-05-18 Jo spot spot ", "2026-05-18 ida spot "}},
		{"a spot was forgotten", at + "jo,27,bud,,\n" + at + "jo,26,bud,,\n" + at + "jo,30,bud,,\n", [3]int{0, 1, 0}, []string{"2026-05-18 ida spot ", "2026-05-18 jo spot spot spot "}},
		{"frames of the same day", at + "jo,,,80,\n", [3]int{1, 0, 0}, []string{"2026-05-18 ida spot ", "2026-05-18 jo spot spot spot ", "2026-05-18 jo frame "}},
		{"a note of the same day", at + "ida,,,,mown\n", [3]int{1, 0, 0}, []string{"2026-05-18 ida spot ", "2026-05-18 jo spot spot spot ", "2026-05-18 jo frame ", "2026-05-18 ida mown"}},
	} {
		t.Run(step.name, func(t *testing.T) {
			brings(t, o, visits, head+step.rows, step.want)
			same := func(a, b string) bool { return a < b }
			if diff := cmp.Diff(step.seen, homeVisits(t, o), cmpopts.SortSlices(same)); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

func TestATableThatNamesNoObserverIsTheSameInOtherHands(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	brings(t, o, stands, twoStands, [3]int{6, 0, 0})
	const text = "farm,field,date,height,stage\nAlder Run,Home Forty,2026-05-18,27,bud\n"
	brings(t, o, visits, text, [3]int{1, 0, 0})
	got, err := o.ImportVisits(t.Context(), office.Actor{Name: "jo", Role: office.Adviser}, strings.NewReader(text), "v.csv", false)
	if err != nil || !got.Nothing() {
		t.Errorf("%+v, %v; want nothing new", got, err)
	}
}

func TestLabResultsGoToTheStandThatGrew(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	brings(t, o, stands, "farm,field,acres,crop,seeded,turned_under\nAlder Run,Top,9,alfalfa,2019-04-20,2025-10-05\n", [3]int{3, 0, 0})
	const head = "farm,field,sampled,lab,sample,adf,ndf,cp\n"
	brings(t, o, labs, head+"Alder Run,Top,2025-05-20,Valley,standing,27,36,\nAlder Run,Top,2026-01-12,Valley,hay,32,41,19.5\nAlder Run,Top,2025-05-20,Valley,standing,28,37,\n", [3]int{3, 0, 0})
	refuses(t, o, labs, head+"Alder Run,Top,2026-01-12,Valley,standing,27,36,\n",
		"read l.csv: row 2, field: no stand grew in Top of Alder Run on 2026-01-12; it has one seeded on 2019-04-20 and turned under on 2025-10-05; nothing was taken in")
	if n := len(view(t, o, 0).Farms[0].Fields[0].Stands[0].Labs); n != 3 {
		t.Errorf("%d results, want 3", n)
	}
}

func TestADeckOfTheSameNameAndDateTakesThePlaceOfTheOld(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	brings(t, o, stands, twoStands, [3]int{6, 0, 0})
	const head = "deck,farm,date,line,unit,value\n"
	brings(t, o, prices, head+"May,,2026-05-01,hay-base,$/ton,200\nMay,,2026-05-01,hay-base-rfv,RFV,150\nMay,alder run,2026-05-01,hay-base,$/ton,240\n", [3]int{2, 0, 0})
	brings(t, o, prices, head+"May,,2026-05-01,hay-base-rfv,RFV,150\nMay,,2026-05-01,hay-base,$/ton,200\n", [3]int{0, 0, 1}) // the order says nothing
	brings(t, o, prices, head+"may,,2026-05-01,hay-base,$/ton,210\nMay,,2026-05-01,hay-base-rfv,RFV,150\nMarch,,2026-03-01,hay-base,$/ton,190\n", [3]int{1, 1, 0})
	v := view(t, o, 0)
	if len(v.Prices) != 2 || len(v.Farms[0].Prices) != 1 {
		t.Fatalf("%d and %d decks, want 2 of the book and 1 of the farm", len(v.Prices), len(v.Farms[0].Prices))
	}
	if d, _ := v.Deck(nil, book.HayBase); d.Body.Lines[0].Value != 210 {
		t.Errorf("the newest deck is %+v", d)
	}
}

func TestWhatSomebodyElseBringsIsRefusedUnread(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	unread := readerFunc(func([]byte) (int, error) { t.Error("the file was read"); return 0, io.EOF })
	for _, a := range []office.Actor{{}, {Name: "eve", Role: "guest"}} {
		if _, err := o.BringLabs(t.Context(), a, unread, "l.csv", office.LabImport{}); !errors.Is(err, office.ErrForbidden) {
			t.Errorf("labs by %+v: error %v, want it forbidden", a, err)
		}
		if _, err := o.ImportStands(t.Context(), a, unread, "s.csv", true); !errors.Is(err, office.ErrForbidden) {
			t.Errorf("stands by %+v: error %v, want it forbidden", a, err)
		}
	}
}

type readerFunc func([]byte) (int, error)

func (f readerFunc) Read(b []byte) (int, error) { return f(b) }

// described lists a view's stands and visits as tables hold them, without the rows.
func described(v *book.View) (stands []exchange.StandRow, visits []exchange.VisitRow) {
	return exchange.StandsOf(v), exchange.VisitsOf(v)
}

func TestADistrictWrittenAsTablesMakesTheSameBook(t *testing.T) {
	d, err := demo.Make(demo.Seed)
	if err != nil {
		t.Fatal(err)
	}
	there := larkmoor(t, d, all, func(demo.Delivery) (*weather.Block, bool) { return nil, false })
	v := view(t, there, 0)
	rows, seen := described(v)
	if len(rows) < 20 || len(seen) < 100 {
		t.Fatalf("the district has %d stands and %d visits: too few to prove anything", len(rows), len(seen))
	}
	var standTable, visitTable strings.Builder
	if err := errors.Join(exchange.WriteStands(&standTable, rows), exchange.WriteVisits(&visitTable, seen)); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		do   table
		text string
	}{{stands, standTable.String()}, {visits, visitTable.String()}} {
		if got, err := c.do(there, t, c.text, false); err != nil || !got.Nothing() {
			t.Errorf("into the book it was written from: %+v, %v; want nothing new", got, err)
		}
	}
	here, _ := newOffice(t, "2027-12-31 20:00")
	for _, c := range []struct {
		do   table
		text string
	}{{stands, standTable.String()}, {visits, visitTable.String()}} {
		if got, err := c.do(here, t, c.text, false); err != nil || got.Added == 0 || got.Changed+got.Unchanged > 0 {
			t.Errorf("into a new book: %+v, %v; want all of it new", got, err)
		}
	}
	gotRows, gotSeen := described(view(t, here, 0))
	if diff := cmp.Diff(rows, gotRows); diff != "" {
		t.Errorf("stands (-there +here):\n%s", diff)
	}
	if diff := cmp.Diff(seen, gotSeen); diff != "" {
		t.Errorf("visits (-there +here):\n%s", diff)
	}
}

func TestAnyTableTwiceChangesNothing(t *testing.T) {
	o, c := newOffice(t, "2026-05-19 08:00")
	name := rapid.SampledFrom([]string{"Alder Run", "alder run", "Fox Hill", "Top", "top", "Low Ground", "=1+1"})
	rapid.Check(t, func(rt *rapid.T) {
		var rows []exchange.StandRow
		for range rapid.IntRange(1, 4).Draw(rt, "rows") {
			row := exchange.StandRow{
				Farm: book.Farm{Name: name.Draw(rt, "farm"), County: rapid.SampledFrom([]string{"", "North"}).Draw(rt, "county")}, Field: book.Field{Name: name.Draw(rt, "field"), Acres: 9},
				Stand: book.Stand{Crop: rapid.SampledFrom(book.Crops()).Draw(rt, "crop"), Seeded: unit.DateOf(2020+rapid.IntRange(0, 3).Draw(rt, "year"), 4, 20)},
			}
			row.Contact.Name = rapid.SampledFrom([]string{"", "Ida", "Jo"}).Draw(rt, "contact")
			if rapid.Bool().Draw(rt, "turned under") {
				gone := row.Stand.Seeded + 300
				row.Stand.TurnedUnder = &gone
			}
			rows = append(rows, row)
		}
		var text strings.Builder
		if err := exchange.WriteStands(&text, rows); err != nil {
			rt.Fatal(err)
		}
		c.pass(time.Second) // of two descriptions at one moment neither is the newer
		first, err := stands(o, t, text.String(), false)
		if _, ok := errors.AsType[*exchange.Refusal](err); ok {
			return // a stand where another grows
		}
		if err != nil {
			rt.Fatal(err)
		}
		again, err := stands(o, t, text.String(), false)
		if err != nil || !again.Nothing() || again.Unchanged != first.Added+first.Changed+first.Unchanged {
			rt.Fatalf("first %+v, then %+v, %v", first, again, err)
		}
		view(t, o, 0)
	})
}
