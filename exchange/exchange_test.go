package exchange_test

import (
	"bytes"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/exchange"
)

func TestStandsAreReadAsPeopleWriteThem(t *testing.T) {
	want := exchange.StandRow{
		Row: 2, Farm: book.Farm{Name: "Alder Run", County: "North"}, Field: book.Field{Name: "Home Forty", Acres: 30.89, Station: "USC00999999"},
		Stand: book.Stand{Crop: book.AlfalfaGrass, Seeded: unit.DateOf(2023, 4, 20), GrassShare: 0.3, Product: book.Hay, FeedRFV: 150, Sentinel: true},
	}
	for name, text := range map[string]string{
		"commas":          "farm,county,field,acres,station,crop,seeded,grass_share,product,feed_rfv,sentinel\nAlder Run,North,Home Forty,30.89,USC00999999,alfalfa-grass,2023-04-20,0.3,hay,150,yes\n",
		"semicolons, ha":  "Farm;County;Field name;Area;Weather station;Kind;Seeding date;Grass;Product;Target RFV;Sentinel\nAlder Run;North;Home Forty;12,5 ha;USC00999999;Mix;20 April 2023;30 %;Hay;150;x\n",
		"byte-order mark": "\ufefffarm\tcounty\tfield\tacres\tstation\tcrop\tseeded\tgrass\tproduct\tfeed rfv\tsentinel\r\nAlder Run\tNorth\tHome Forty\t30.89\tUSC00999999\tmixture\t2023/4/20\t30%\thay\t150\ty\r\n",
	} {
		rows, err := exchange.ReadStands(strings.NewReader(text), "stands.csv")
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if diff := cmp.Diff([]exchange.StandRow{want}, rows); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
}

func TestBadTablesAreRefusedWithRowFieldAndRange(t *testing.T) {
	head := "farm,field,acres,crop,seeded\n"
	visits := "farm,field,date,height,stage,stems,frame_ft2\n"
	stands := func(s string) (any, error) { return exchange.ReadStands(strings.NewReader(s), "f.csv") }
	seen := func(s string) (any, error) { return exchange.ReadVisits(strings.NewReader(s), "f.csv") }
	prices := func(s string) (any, error) { return exchange.ReadPrices(strings.NewReader(s), "f.csv") }
	for _, c := range []struct {
		name, text string
		read       func(string) (any, error)
		want       []string
	}{
		{"empty file", "", stands, []string{"f.csv", "the file is empty"}},
		{"header alone", head, stands, []string{"a header and no rows"}},
		{"a column is missing", "farm,field\nA,B\n", stands, []string{"no column acres", "no column crop"}},
		{"acres of 0", head + "A,B,0,alfalfa,2024-05-01\n", stands, []string{"row 2", "acres 0", "accepted 0.1 to 2000"}},
		{"a crop that is none of ours", head + "A,B,9,wheat,2024-05-01\n", stands, []string{`crop "wheat"`, "red clover"}},
		{"a date of two readings", head + "A,B,9,alfalfa,3/4/2024\n", stands, []string{"row 2, seeded", "2024-03-04 or 2024-04-03?"}},
		{"twice the same field", head + "A,B,9,alfalfa,2024-05-01\na,b,9,alfalfa,2024-05-01\n", stands, []string{"row 3, field", "row 2 already"}},
		{"too few cells", head + "A,B,9\n", stands, []string{"row 2", "3 fields, 5 wanted"}},
		{"a height of 300 in", visits + "A,B,2026-05-01,300,bud,,\n", seen, []string{"row 2", "height 300", "accepted 4 to 60 inches"}},
		{"an unknown stage", visits + "A,B,2026-05-01,20,budding,,\n", seen, []string{`stage "budding"`, "vegetative, bud, flower"}},
		{"a height without a stage", visits + "A,B,2026-05-01,20,,,\n", seen, []string{"row 2, stage", "is empty"}},
		{"half a stem", visits + "A,B,2026-05-01,,,40.5,2\n", seen, []string{"stems", "not a whole number"}},
		{"a length in pounds", visits + "A,B,2026-05-01,20 lb,bud,,\n", seen, []string{"row 2, height", "mass"}},
		{"no farm", visits + ",B,2026-05-01,20,bud,,\n", seen, []string{"farm or field is empty"}},
		{"a negative price", "deck,date,line,unit,value\nD,2026-03-01,hay-base,$/ton,-4\n", prices, []string{"hay-base -4", "accepted 0 to"}},
		{"not text", "farm\x00,field\n", stands, []string{"control character"}},
		{"neither UTF-8 nor Windows-1252", head + "A\x81,B,9,alfalfa,2024-05-01\n", stands, []string{"save it again as CSV UTF-8"}},
	} {
		_, err := c.read(c.text)
		if err == nil {
			t.Errorf("%s: taken", c.name)
			continue
		}
		for _, w := range append(c.want, "nothing was taken in") {
			if !strings.Contains(err.Error(), w) {
				t.Errorf("%s: %q does not say %q", c.name, err, w)
			}
		}
	}
}

func TestRowsOfOneVisitAreOneVisit(t *testing.T) {
	rows, err := exchange.ReadVisits(strings.NewReader("farm,field,date,by,height,stage,stems,roots_dug,roots_bad,note\n"+
		"A,B,2026-05-01,Ida,71cm,bud,,,,tall\nA,B,2026-05-01,Ida,28,vegetative,,,,\nA,B,2026-05-01,Ida,,,94,20,4,tall\nA,B,2026-05-04,Ida,30,bud,,,,\n"), "v.csv")
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 2 || len(rows[0].Visit.Spots) != 2 || len(rows[0].Visit.Frames) != 1 || rows[0].Visit.Roots.Bad != 4 || rows[0].Visit.Note != "tall" {
		t.Fatalf("got %+v", rows)
	}
	if h := rows[0].Visit.Spots[0].HeightIn; h < 27.95 || h > 27.96 {
		t.Errorf("71 cm became %g in", h)
	}
}

func TestStandsWrittenAreReadBack(t *testing.T) {
	word := rapid.StringMatching(`[A-Za-z=+@-][A-Za-z0-9 ,;"'éø-]{0,11}[a-z]`)
	rapid.Check(t, func(t *rapid.T) {
		row := exchange.StandRow{
			Row:   2,
			Farm:  book.Farm{Name: word.Draw(t, "farm"), County: word.Draw(t, "county")},
			Field: book.Field{Name: word.Draw(t, "field"), Acres: float64(rapid.IntRange(10, 200000).Draw(t, "acres")) / 100, Latitude: float64(rapid.IntRange(-8999, 8999).Draw(t, "lat")) / 100},
			Stand: book.Stand{Crop: rapid.SampledFrom(book.Crops()).Draw(t, "crop"), Seeded: unit.DateOf(2000, 1, 1) + unit.Day(rapid.IntRange(0, 9000).Draw(t, "seeded")), Product: book.Hay, Sentinel: rapid.Bool().Draw(t, "sentinel")},
		}
		var b bytes.Buffer
		if err := exchange.WriteStands(&b, []exchange.StandRow{row}); err != nil {
			t.Fatal(err)
		}
		got, err := exchange.ReadStands(&b, "out.csv")
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff([]exchange.StandRow{row}, got); diff != "" {
			t.Fatalf("(-written +read):\n%s", diff)
		}
	})
}

func FuzzReadStands(f *testing.F) {
	f.Add([]byte("farm,field,acres,crop,seeded\nA,B,9,alfalfa,2024-05-01\n"))
	f.Add([]byte("farm;field;acres;crop;seeded;grass\nA;B;9,5 ha;mix;1 May 2024;30 %\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		rows, err := exchange.ReadStands(bytes.NewReader(data), "f.csv")
		if err != nil {
			return
		}
		for _, r := range rows {
			r.Stand.Field = "f"
			if r.Farm.Check() != nil || r.Field.Check() != nil || r.Stand.Check() != nil {
				t.Errorf("took what the book refuses: %+v", r)
			}
		}
	})
}

func FuzzReadVisits(f *testing.F) {
	f.Add([]byte("farm,field,date,height,stage,stems\nA,B,2026-05-01,20,bud,44\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		rows, err := exchange.ReadVisits(bytes.NewReader(data), "f.csv")
		if err != nil {
			return
		}
		for _, r := range rows {
			if err := r.Visit.Check(); err != nil {
				t.Errorf("took what the book refuses: %v", err)
			}
		}
	})
}
