package exchange_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haywarden/book"
	"haywarden/exchange"
)

func TestPriceRowsOfOneNameAndDateAreOneDeck(t *testing.T) {
	const file = "deck,farm,date,line,unit,value\n" +
		"Spring,,2026-03-01,hay-base,$/ton,188\n" +
		"Spring,,March 1 2026,Hay base RFV,RFV,150\n" +
		"Spring,Alder Run,2026-03-01,hay_base,$ / ton,$236.50\n" +
		"spring,,2026-03-01,hay-per-point,$/tonne,1.38\n" +
		"Spring,,2026-04-01,diesel,$/gallon,4\n" +
		"Spring,,2026-04-01,potash K2O,$/tonne,800\n" +
		"Spring,,2026-04-01,twine,$/roll,40\n"
	got, err := exchange.ReadPrices(strings.NewReader(file), "p.csv")
	if err != nil {
		t.Fatal(err)
	}
	d := day(t, "2026-03-01")
	want := []exchange.PriceRow{
		{Row: 2, Day: d, Deck: book.Prices{Name: "Spring", Lines: []book.PriceLine{{Name: book.HayBase, Unit: "$/ton", Value: 188}, {Name: book.HayBaseRFV, Unit: "RFV", Value: 150}, {Name: book.HayPerPoint, Unit: "$/ton", Value: 1.2519}}}},
		{Row: 4, Farm: "Alder Run", Day: d, Deck: book.Prices{Name: "Spring", Lines: []book.PriceLine{{Name: book.HayBase, Unit: "$/ton", Value: 236.5}}}},
		{Row: 6, Day: d + 31, Deck: book.Prices{Name: "Spring", Lines: []book.PriceLine{{Name: "diesel", Unit: "$/gal", Value: 4}, {Name: "potash-k2o", Unit: "$/lb", Value: 0.3629}, {Name: "twine", Unit: "$/roll", Value: 40}}}},
	}
	if diff := cmp.Diff(want, got.Decks); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestBadPricesAreRefusedWithRowColumnAndRange(t *testing.T) {
	const head = "deck,date,line,unit,value\n"
	refused(t, func(file string) error {
		_, err := exchange.ReadPrices(strings.NewReader(file), "f.csv")
		return err
	}, []refusal{
		{"header alone", head, []string{"the file has a header and no rows"}},
		{"a negative price", head + "D,2026-03-01,hay-base,$/ton,-4\n", []string{`row 2, value: "-4": accepted 20 to 800 $/ton`}},
		{"a line that is none", head + "D,2026-03-01,hay-bse,$/ton,180\n", []string{`row 2, line: "hay-bse": no reckoning takes it; did you mean hay-base?`}},
		{"milk by the pound", head + "D,2026-03-01,milk,$/gal,2\n", []string{`row 2, unit: "$/gal": milk is given in $/cwt`}},
		{"a price in words", head + "D,2026-03-01,hay-base,$/ton,dear\n", []string{`row 2, value: "dear" is not a number`}},
		{"hay by the bale", head + "D,2026-03-01,hay-base,$/bale,4\n", []string{`row 2, unit: "$/bale": hay-base is given in $/ton`}},
		{"a line twice", head + "D,2026-03-01,hay-base,$/ton,180\nD,2026-03-01,Hay Base,$/ton,190\n", []string{`row 3, line: "Hay Base": the deck has it in row 2; take one out`}},
		{"empty cells", head + "D,,,,\n", []string{
			"4 things are wrong, nothing was taken in", "row 2, date: is empty; a date written YYYY-MM-DD wanted", "row 2, line: is empty; each row says it",
			"row 2, unit: is empty; each row says it", "row 2, value: is empty; a number wanted",
		}},
	})
}

func TestLabResultsAreReadAsLaboratoriesWriteThem(t *testing.T) {
	const file = "Lab;Farm;Field;Date sampled;Feed;aNDF;ADF %DM;Crude protein\n" +
		"Valley;Alder Run;Home Forty;2026-05-12;Silage;38,2;30,1 %;21\n" +
		";Alder Run;Home Forty;2026-05-12;fresh;36;27;\n"
	got, err := exchange.ReadLabs(strings.NewReader(file), "l.csv")
	if err != nil {
		t.Fatal(err)
	}
	d := day(t, "2026-05-12")
	want := []exchange.LabRow{
		{Row: 2, Farm: "Alder Run", Field: "Home Forty", Day: d, Lab: book.Lab{Lab: "Valley", Sample: "haylage", NDF: 38.2, ADF: 30.1, CP: 21}},
		{Row: 3, Farm: "Alder Run", Field: "Home Forty", Day: d, Lab: book.Lab{Sample: "standing", NDF: 36, ADF: 27}},
	}
	if diff := cmp.Diff(want, got.Labs); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestBadLabResultsAreRefusedWithRowColumnAndRange(t *testing.T) {
	const head = "farm,field,sampled,lab,sample,adf,ndf,cp\n"
	refused(t, func(file string) error {
		_, err := exchange.ReadLabs(strings.NewReader(file), "f.csv")
		return err
	}, []refusal{
		{"header alone", head, []string{"the file has a header and no rows"}},
		{"fibres exchanged", head + "A,B,2026-05-12,V,hay,42,33,\n", []string{`row 2, adf: "42": ADF 42 is not under NDF 33: ADF is a part of NDF, check which is which`}},
		{"fibre of straw", head + "A,B,2026-05-12,V,hay,55,85,2\n", []string{"2 things are wrong, nothing was taken in", `row 2, ndf: "85": accepted 18 to 80 % of dry matter`, `row 2, cp: "2": accepted 4 to 35 % of dry matter`}},
		{"a sample of nothing known", head + "A,B,2026-05-12,V,pellets,30,40,\n", []string{`row 2, sample: "pellets": accepted standing, hay, haylage, baleage`}},
		{"fibre left out", head + "A,B,2026-05-12,V,hay,30,,\n", []string{"row 2, ndf: is empty; % of dry matter wanted"}},
		{"the same twice", head + "A,B,2026-05-12,V,hay,30,40,\na,b,12 May 2026,V,dry hay,30,40,\n", []string{"row 3: it says what row 2 says; take one out"}},
	})
}

func FuzzReadPrices(f *testing.F) {
	f.Add([]byte("deck,farm,date,line,unit,value\nD,,2026-03-01,hay-base,$/tonne,$180\nD,A,1 May 2026,x,y,0\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		got, err := exchange.ReadPrices(strings.NewReader(string(data)), "f.csv")
		if err != nil {
			sound(t, err)
			return
		}
		for _, d := range got.Decks {
			if err := d.Deck.Check(); err != nil {
				t.Errorf("took what the book refuses: %v", err)
			}
		}
	})
}

func FuzzReadLabs(f *testing.F) {
	f.Add([]byte("farm;field;sampled;lab;sample;adf;ndf;cp\nA;B;2026-05-12;V;hay;30,1;40 %;\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		got, err := exchange.ReadLabs(strings.NewReader(string(data)), "f.csv")
		if err != nil {
			sound(t, err)
			return
		}
		for _, l := range got.Labs {
			if err := l.Lab.Check(); err != nil {
				t.Errorf("took what the book refuses: %v", err)
			}
		}
	})
}

func FuzzReadStacks(f *testing.F) {
	f.Add([]byte("farm,field,date,package,moisture,place,treated,core,stack\nA,B,2026-06-10,rounds,19%,barn,yes,,\nA,B,2026-06-12,,,,,48 C,2026-06-10\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		got, err := exchange.ReadStacks(strings.NewReader(string(data)), "f.csv")
		if err != nil {
			sound(t, err)
			return
		}
		for _, row := range got.Stacks {
			if row.Stack == nil && row.Reading == nil {
				t.Errorf("row %d says nothing", row.Row)
			}
			if row.Stack != nil && row.Stack.Check() != nil || row.Reading != nil && row.Reading.Check() != nil {
				t.Errorf("took what the book refuses: %+v", row)
			}
		}
	})
}

func TestAStackOrAReadingIsReadAndNothingBetween(t *testing.T) {
	const head = "farm,field,date,package,moisture,place,treated,core_f\n"
	got, err := exchange.ReadStacks(strings.NewReader(head+"A,B,2026-06-10,round bales,19%,barn,yes,\nA,B,2026-06-12,,,,,118\n"), "s.csv")
	if err != nil {
		t.Fatal(err)
	}
	if s := got.Stacks[0].Stack; s == nil || s.Package != "round" || *s.Moisture != 19 || s.Place != "inside" || !s.Treated {
		t.Errorf("stack %+v", s)
	}
	if r := got.Stacks[1].Reading; r == nil || r.CoreF != 118 {
		t.Errorf("reading %+v", r)
	}
	for row, want := range map[string]string{
		"A,B,2026-06-10,,,,,":        "row 2, package: is empty",
		"A,B,2026-06-10,round,55,,,": "accepted 5 to 40", "A,B,2026-06-10,,,,,4000": "accepted -60 to 2000", "A,B,2026-06-10,heap,,,,": "package",
	} {
		if _, err := exchange.ReadStacks(strings.NewReader(head+row+"\n"), "s.csv"); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", row, err, want)
		}
	}
}
