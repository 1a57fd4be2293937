package exchange_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/exchange"
)

func day(t testing.TB, s string) unit.Day {
	t.Helper()
	d, err := unit.ParseDay(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func TestStandsAreReadAsPeopleWriteThem(t *testing.T) {
	full := exchange.StandRow{
		Row: 2, Farm: book.Farm{Name: "Alder Run", County: "North"},
		Field:   book.Field{Name: "Home Forty", Acres: 30.89, Latitude: 43.1, Longitude: -89.4, Station: "ZZT00000001"},
		Stand:   book.Stand{Crop: book.AlfalfaGrass, Seeded: unit.DateOf(2023, 4, 20), GrassShare: 0.3, Variety: "Wendle 4", Product: book.Hay, FeedRFV: 150, Sentinel: true},
		Contact: book.Contact{Name: "Ida Quell", Phone: "+1 555 0100"}, Says: exchange.Says{Grass: true, Sentinel: true},
	}
	short := exchange.StandRow{
		Row: 2, Farm: book.Farm{Name: "Alder Run"}, Field: book.Field{Name: "Home Forty", Acres: 30.89},
		Stand: book.Stand{Crop: book.AlfalfaGrass, Seeded: unit.DateOf(2023, 4, 20)},
	}
	for _, c := range []struct {
		name, file string
		want       exchange.StandRow
	}{
		{"commas", "farm,county,field,acres,latitude,longitude,station,crop,seeded,grass_share,variety,product,feed_rfv,sentinel,contact,phone\n" +
			"Alder Run,North,Home Forty,30.89,43.1,-89.4,ZZT00000001,alfalfa-grass,2023-04-20,0.3,Wendle 4,hay,150,yes,Ida Quell,+1 555 0100\n", full},
		{"any order, other names, capitals", "CROP,Seeding Date,Field Name,Farm Name,Grass,Rfv wanted,Weather Station,Acreage,Lat,Long,County,Cultivar,Usual product,Sentinel field,Producer,Telephone\n" +
			"Alfalfa/Grass,20 April 2023,Home  Forty,Alder Run,30%,150 RFV,ZZT00000001,30.89 acres,43.1,-89.4,North,Wendle 4,Dry hay,X,Ida Quell,'+1 555 0100\n", full},
		{"semicolons, decimal commas, hectares", "farm;county;field;hectares;latitude;longitude;station;crop;seeded;grass_share;variety;product;feed_rfv;sentinel;contact;phone\n" +
			"Alder Run;North;Home Forty;12,5;43,1;-89,4;ZZT00000001;Mix;20.4.2023;0,3;Wendle 4;HAY;150;true;Ida Quell;+1 555 0100\n", full},
		{"tabs, byte-order mark, percent by heading", "\ufefffarm\tcounty\tfield\tarea\tlat\tlon\tstation\tcrop\tseeded\tgrass %\tvariety\tproduct\trfv\tsentinel\tcontact\tphone\r\n" +
			"Alder Run\tNorth\tHome Forty\t12,5 ha\t43.1°\t-89.4 deg\tZZT00000001\talfalfa grass mix\t2023/4/20\t30\tWendle 4\thay\t150\ty\tIda Quell\t+1 555 0100\r\n", full},
		{"the needed columns alone", "farm,field,acres,crop,seeded\nAlder Run,Home Forty,30.89,mixture,4/20/2023\n", short},
		{"empty cells say nothing", "farm,field,acres,crop,seeded,latitude,longitude,grass_share,product,feed_rfv,sentinel,contact,phone,turned_under\nAlder Run,Home Forty,30.89,mixed,2023-04-20,,,,,,,,,\n", short},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := exchange.ReadStands(strings.NewReader(c.file), "stands.csv")
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff([]exchange.StandRow{c.want}, got.Stands); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
			if got.Rows != 1 || got.Name != "stands.csv" || len(got.Unused) != 0 {
				t.Errorf("file %+v, want one row of stands.csv and every column used", got.File)
			}
		})
	}
}

func TestEveryCropAndProductIsKnownByItsName(t *testing.T) {
	for _, crop := range book.Crops() {
		for _, product := range book.Products() {
			got, err := exchange.ReadStands(strings.NewReader("farm,field,acres,crop,seeded,product\nA,B,9,"+string(crop)+",2024-05-01,"+string(product)+"\n"), "s.csv")
			if err != nil || got.Stands[0].Stand.Crop != crop || got.Stands[0].Stand.Product != product {
				t.Errorf("%s for %s: %+v, %v", crop, product, got.Stands, err)
			}
		}
	}
}

func TestNoAndZeroAreAnswers(t *testing.T) {
	got, err := exchange.ReadStands(strings.NewReader("farm,field,acres,crop,seeded,grass_share,sentinel\nA,B,9,alfalfa,2024-05-01,0,no\n"), "s.csv")
	if err != nil {
		t.Fatal(err)
	}
	if s := got.Stands[0]; s.Says != (exchange.Says{Grass: true, Sentinel: true}) || s.Stand.GrassShare != 0 || s.Stand.Sentinel {
		t.Errorf("got %+v", s)
	}
}

func TestAFieldMayHaveOneStandAfterTheOther(t *testing.T) {
	got, err := exchange.ReadStands(strings.NewReader("farm,field,acres,crop,seeded,turned_under\nA,B,9,alfalfa,2024-08-10,\na,b,9,alfalfa,2019-04-20,2023-10-01\n"), "s.csv")
	if err != nil {
		t.Fatal(err)
	}
	if gone := got.Stands[1].Stand.TurnedUnder; gone == nil || *gone != day(t, "2023-10-01") {
		t.Errorf("turned under %v", gone)
	}
}

func TestColumnsThatSayNothingAreNamed(t *testing.T) {
	got, err := exchange.ReadStands(strings.NewReader("farm,field,acres,grass_shar,crop,seeded,,soil\nA,B,9,0.3,alfalfa,2024-05-01,,loam\n"), "s.csv")
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff([]string{"grass_shar", "soil"}, got.Unused); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// refused holds a reader to the whole text of its refusals.
func refused(t *testing.T, read func(file string) error, cases []refusal) {
	t.Helper()
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			err := read(c.file)
			if _, ok := errors.AsType[*exchange.Refusal](err); !ok {
				t.Fatalf("error %v, want a refusal", err)
			}
			want := "read f.csv: " + strings.Join(c.want, "\n  ")
			if len(c.want) == 1 {
				want += "; nothing was taken in"
			}
			if diff := cmp.Diff(want, err.Error()); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

// refusal is a bad file and what is said of it: one fault, or a heading and faults.
type refusal struct {
	name, file string
	want       []string
}

func TestBadStandsAreRefusedWithRowColumnAndRange(t *testing.T) {
	const head = "farm,field,acres,crop,seeded\n"
	const wide = "farm,field,acres,crop,seeded,county,latitude,longitude,turned_under,grass_share,product,feed_rfv,sentinel,contact,phone\n"
	const row = "A,B,9,alfalfa,2024-05-01,"
	const accepted = "accepted alfalfa, reduced-lignin alfalfa, red clover, alfalfa-grass"
	refused(t, func(file string) error {
		_, err := exchange.ReadStands(strings.NewReader(file), "f.csv")
		return err
	}, []refusal{
		{"empty", "", []string{"the file is empty"}},
		{"header alone", head, []string{"the file has a header and no rows"}},
		{"not text", "farm\x00,field\n", []string{"line 1 holds the control character U+0000: this is not a CSV text file"}},
		{"neither UTF-8 nor Windows-1252", head + "A\x81,B,9,alfalfa,2024-05-01\n", []string{"line 2: the file is neither UTF-8 nor Windows-1252; save it again as CSV UTF-8"}},
		{"a column is missing", "farm,field\nA,B\n", []string{`row 1: no column acres and no column crop and no column seeded; the columns are ["farm" "field"]`}},
		{"two columns for one thing", "farm,field,acres,crop,seeded,hectares\n", []string{"row 1: columns acres and hectares say the same thing, acres; take one out"}},
		{"acres of 0", head + "A,B,0,alfalfa,2024-05-01\n", []string{`row 2, acres: "0": accepted 0.1 to 2000 acres`}},
		{"few hectares", "farm,field,ha,crop,seeded\nA,B,0.01,alfalfa,2024-05-01\n", []string{`row 2, ha: "0.01": acres 0.02: accepted 0.1 to 2000 acres`}},
		{"an area without a unit", "farm,field,area,crop,seeded\nA,B,9,alfalfa,2024-05-01\n", []string{`row 2, area: "9": a unit after the number wanted, such as ac`}},
		{"acres in words", head + "A,B,many,alfalfa,2024-05-01\n", []string{`row 2, acres: "many": a number wanted`}},
		{"acres in pounds", head + "A,B,9 lb,alfalfa,2024-05-01\n", []string{`row 2, acres: "9 lb": ac wanted: lb measures mass, and area (ac) is wanted`}},
		{"acres in barns", head + "A,B,9 barns,alfalfa,2024-05-01\n", []string{`row 2, acres: "9 barns": no unit is written "barns"; ac wanted`}},
		{"a crop that is none of ours", head + "A,B,9,wheat,2024-05-01\n", []string{`row 2, crop: "wheat": ` + accepted}},
		{"a crop with a slip", head + "A,B,9,alfafa,2024-05-01\n", []string{`row 2, crop: "alfafa": ` + accepted + "; did you mean alfalfa?"}},
		{"a date of two readings", head + "A,B,9,alfalfa,3/4/2024\n", []string{`row 2, seeded: "3/4/2024": 2024-03-04 or 2024-04-03? write the date so`}},
		{"a year alone", head + "A,B,9,alfalfa,2024\n", []string{`row 2, seeded: "2024": a date written YYYY-MM-DD wanted`}},
		{"seeded before our time", head + "A,B,9,alfalfa,1949-05-01\n", []string{`row 2, seeded: "1949-05-01": accepted from 1950-01-01`}},
		{"empty cells that are needed", head + ",,,,\nA,,,,\n", []string{
			"4 things are wrong, nothing was taken in", "row 3, field: is empty; each row says it", "row 3, acres: is empty; 0.1 to 2000 acres wanted",
			"row 3, crop: is empty; " + accepted, "row 3, seeded: is empty; a date written YYYY-MM-DD wanted",
		}},
		{"a name of marks", head + "--,B,9,alfalfa,2024-05-01\n", []string{`row 2, farm: "--": a name with letters or digits wanted`}},
		{"a name over two lines", head + "\"A\nB\",B,9,alfalfa,2024-05-01\n", []string{`row 2, farm: "A\nB": one line wanted; check the quotes`}},
		{"too few cells", head + "A,B,9\n", []string{"row 2: 3 fields, 5 wanted as in the header"}},
		{"quotes astray", head + "A,\"B\"b,9,alfalfa,2024-05-01\nA,C,9,alfalfa,2024-05-01\n", []string{`row 2: extraneous or missing " in quoted-field; check the quotes`}},
		{"the same field twice", head + "A,B,9,alfalfa,2024-05-01\na,b.,9,red clover,2025-05-01\n", []string{
			`row 3, field: "b.": it has a stand in row 2; a field has one stand at a time: say when the earlier was turned under (column turned_under), or take one out`,
		}},
		{"the same field with other acres", wide + row + ",,,2024-09-01,,,,,,\nA,B,10,alfalfa,2025-05-01,,,,,,,,,,\n", []string{`row 3, acres: "10": the field has 9 acres in row 2`}},
		{"one farm in two counties", wide + row + "North,,,,,,,,,\nA,C,9,alfalfa,2024-05-01,South,,,,,,,,,\n", []string{`row 3, county: "South": A is in North in row 2; a farm has one county`}},
		{"one contact with two phones", wide + row + ",,,,,,,,Ida,555 0100\nA,C,9,alfalfa,2024-05-01,,,,,,,,,ida,555 0199\n", []string{`row 3, phone: "555 0199": ida has "555 0100" in row 2; give one number`}},
		{"a phone of nobody", wide + row + ",,,,,,,,,555 0100\n", []string{"row 2, contact: is empty beside a phone; whose is it?"}},
		{"off the globe", wide + row + ",143.1,-89.4,,,,,,,\n", []string{`row 2, latitude: "143.1": accepted -90 to 90 degrees`}},
		{"half a position", wide + row + ",43.1,,,,,,,,\n", []string{"row 2: latitude and longitude go together; give both or neither"}},
		{"turned under before it was seeded", wide + row + ",,,2023-05-01,,,,,,\n", []string{`row 2, turned_under: "2023-05-01": turned under 2023-05-01, before it was seeded on 2024-05-01`}},
		{"grass in percent without the sign", wide + row + ",,,,30,,,,,\n", []string{`row 2, grass_share: "30": accepted 0 to 1, or 0% to 100% with the sign`}},
		{"grass in words", wide + row + ",,,,some,,,,,\n", []string{`row 2, grass_share: "some": a share wanted, such as 0.3 or 30%`}},
		{"a product that is none of ours", wide + row + ",,,,,halage,,,,\n", []string{`row 2, product: "halage": accepted hay, haylage, baleage; did you mean haylage?`}},
		{"an RFV out of range", wide + row + ",,,,,,300,,,\n", []string{`row 2, feed_rfv: "300": accepted 80 to 220 points`}},
		{"an RFV of 0", wide + row + ",,,,,,0,,,\n", []string{`row 2, feed_rfv: "0": accepted 80 to 220 points, or nothing`}},
		{"perhaps a sentinel", wide + row + ",,,,,,,perhaps,,\n", []string{`row 2, sentinel: "perhaps": accepted yes or no`}},
		{"a decimal comma between commas", head + "A,B,\"9,5\",alfalfa,2024-05-01\n", []string{
			`row 2, acres: "9,5" is not a number; a decimal comma is read only where fields are parted by ; or a tab`,
		}},
	})
}

func TestTwentyFaultsAreListedAndTheRestCounted(t *testing.T) {
	file := "farm,field,acres,crop,seeded\n"
	want := []string{"25 things are wrong, nothing was taken in"}
	for i := range 25 {
		file += fmt.Sprintf("A,B%d,0,alfalfa,2024-05-01\n", i)
		if i < 20 {
			want = append(want, fmt.Sprintf(`row %d, acres: "0": accepted 0.1 to 2000 acres`, i+2))
		}
	}
	refused(t, func(file string) error {
		_, err := exchange.ReadStands(strings.NewReader(file), "f.csv")
		return err
	}, []refusal{{"many", file, append(want, "and 5 more")}})
}

func TestAReadingErrorIsNoRefusal(t *testing.T) {
	lost := errors.New("the disk is gone")
	var r *exchange.Refusal
	for name, err := range map[string]error{
		"stands": func() error { _, err := exchange.ReadStands(iotest.ErrReader(lost), "f.csv"); return err }(),
		"visits": func() error { _, err := exchange.ReadVisits(iotest.ErrReader(lost), "f.csv"); return err }(),
		"prices": func() error { _, err := exchange.ReadPrices(iotest.ErrReader(lost), "f.csv"); return err }(),
		"labs":   func() error { _, err := exchange.ReadLabs(iotest.ErrReader(lost), "f.csv"); return err }(),
	} {
		if !errors.Is(err, lost) || errors.As(err, &r) || !strings.Contains(err.Error(), "f.csv") {
			t.Errorf("%s: error %v, want the one of reading f.csv", name, err)
		}
	}
}

// cell draws text as a cell gives it: one line, single spaces, with a letter, quotes and formulas
// among it.
func cell() *rapid.Generator[string] {
	return rapid.Map(rapid.StringMatching(`['=+@-]{0,2}[A-Za-zäø][A-Za-z0-9 ,;"'|é=-]{0,12}`), func(s string) string { return strings.Join(strings.Fields(s), " ") })
}

func maybe[T any](t *rapid.T, g *rapid.Generator[T], label string) *T {
	if !rapid.Bool().Draw(t, label+" given") {
		return nil
	}
	v := g.Draw(t, label)
	return &v
}

func hundredths(low, high int) *rapid.Generator[float64] {
	return rapid.Map(rapid.IntRange(low*100, high*100), func(n int) float64 { return float64(n) / 100 })
}

// drawStand draws a row whose farm and field are the only ones of their names.
func drawStand(t *rapid.T, i int) exchange.StandRow {
	seeded := unit.DateOf(2000, 1, 1) + unit.Day(rapid.IntRange(0, 9000).Draw(t, "seeded"))
	row := exchange.StandRow{
		Row: i + 2, Farm: book.Farm{Name: fmt.Sprint(cell().Draw(t, "farm"), i)}, Field: book.Field{Name: cell().Draw(t, "field"), Acres: hundredths(1, 2000).Draw(t, "acres")},
		Stand: book.Stand{Crop: rapid.SampledFrom(book.Crops()).Draw(t, "crop"), Seeded: seeded},
	}
	if c := maybe(t, cell(), "county"); c != nil {
		row.Farm.County = *c
	}
	if lat := maybe(t, hundredths(-90, 90), "latitude"); lat != nil && *lat != 0 {
		row.Field.Latitude, row.Field.Longitude = *lat, hundredths(-180, 180).Draw(t, "longitude")
	}
	row.Field.Station = rapid.SampledFrom([]string{"", "ZZT00000001"}).Draw(t, "station")
	if n := maybe(t, rapid.IntRange(0, 3000), "turned under"); n != nil {
		gone := seeded + unit.Day(*n)
		row.Stand.TurnedUnder = &gone
	}
	if g := maybe(t, hundredths(0, 1), "grass"); g != nil {
		row.Stand.GrassShare, row.Says.Grass = *g, true
	}
	if h := maybe(t, rapid.Bool(), "hairy"); h != nil {
		row.Stand.Hairy, row.Says.Hairy = *h, true
	}
	if s := maybe(t, rapid.Bool(), "sentinel"); s != nil {
		row.Stand.Sentinel, row.Says.Sentinel = *s, true
	}
	row.Stand.Variety = rapid.OneOf(cell(), rapid.Just("")).Draw(t, "variety")
	row.Stand.Product = rapid.SampledFrom(append(book.Products(), "")).Draw(t, "product")
	if v := maybe(t, hundredths(80, 220), "rfv"); v != nil {
		row.Stand.FeedRFV = *v
	}
	if c := maybe(t, cell(), "contact"); c != nil {
		row.Contact = book.Contact{Name: *c, Phone: rapid.SampledFrom([]string{"", "+1 555 0100", "-555", "(555) 0100"}).Draw(t, "phone")}
	}
	return row
}

func TestStandsWrittenAreReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var rows []exchange.StandRow
		for i := range rapid.IntRange(1, 6).Draw(t, "rows") {
			rows = append(rows, drawStand(t, i))
		}
		var b strings.Builder
		if err := exchange.WriteStands(&b, rows); err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(b.String()) {
			if strings.ContainsRune("=+@-", rune(line[0])) {
				t.Fatalf("a line begins as a formula: %q", line)
			}
		}
		got, err := exchange.ReadStands(strings.NewReader(b.String()), "out.csv")
		if err != nil {
			t.Fatalf("%v in:\n%s", err, b.String())
		}
		if diff := cmp.Diff(rows, got.Stands); diff != "" {
			t.Fatalf("(-written +read):\n%s\n%s", diff, b.String())
		}
	})
}

func FuzzReadStands(f *testing.F) {
	f.Add([]byte("farm,field,acres,crop,seeded\nA,B,9,alfalfa,2024-05-01\n"))
	f.Add([]byte("farm;field;ha;crop;seeded;grass\nA;B;9,5;mix;1 May 2024;30 %\nA;C;1;red clover;2024-05-01;\n"))
	f.Add([]byte("\ufefffarm\tfield\tarea\tcrop\tseeded\tturned_under\tlat\tlon\nA\tB\t9 ha\talfalfa\t2020-05-01\t2024-05-01\t43.1\t-89,4\n"))
	f.Add([]byte("farm,field,acres,crop,seeded,sentinel,contact,phone,feed_rfv\n'=A,B,9\",alfalfa,2024-05-01,x,Ida,+1,150\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		got, err := exchange.ReadStands(strings.NewReader(string(data)), "f.csv")
		if err != nil {
			sound(t, err)
			return
		}
		for _, r := range got.Stands {
			r.Stand.Field = "f"
			if err := errors.Join(r.Farm.Check(), r.Field.Check(), r.Stand.Check()); err != nil {
				t.Errorf("took what the book refuses: %v", err)
			}
		}
		var b strings.Builder
		if err := exchange.WriteStands(&b, got.Stands); err != nil {
			t.Fatal(err)
		}
		again, err := exchange.ReadStands(strings.NewReader(b.String()), "f.csv")
		if err != nil {
			t.Fatalf("what was written is refused: %v\n%s", err, b.String())
		}
		for i := range got.Stands {
			got.Stands[i].Row = again.Stands[i].Row
		}
		if diff := cmp.Diff(got.Stands, again.Stands); diff != "" {
			t.Errorf("(-read +read again):\n%s", diff)
		}
	})
}

// sound holds a refusal to what every refusal is: counted, listed by row, and not endless.
func sound(t *testing.T, err error) {
	t.Helper()
	var r *exchange.Refusal
	if !errors.As(err, &r) {
		t.Fatalf("error %v, want a refusal", err)
	}
	if len(r.Faults) == 0 || len(r.Faults) > exchange.MostFaults || r.Found < len(r.Faults) {
		t.Errorf("%d faults listed of %d", len(r.Faults), r.Found)
	}
	for i := range r.Faults[1:] {
		if r.Faults[i].Row > r.Faults[i+1].Row {
			t.Errorf("row %d stands before row %d", r.Faults[i].Row, r.Faults[i+1].Row)
		}
	}
}
