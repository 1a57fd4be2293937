package exchange_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"haywarden/book"
	"haywarden/exchange"
	"haywarden/tabular"
)

// soilAs reads a table by the form that is proposed for it.
func soilAs(t testing.TB, file string, how exchange.LabHow) (exchange.Soils, error) {
	t.Helper()
	f, err := exchange.OpenSoils(strings.NewReader(file), "f.csv")
	if err != nil {
		return exchange.Soils{}, err
	}
	if p := f.Propose(); !f.Own() {
		if err := p.Apply(nil, "", exchange.SoilTerms()); err != nil {
			t.Fatal(err)
		}
		p.Form.From = "Valley"
		how.Form = &p.Form
	}
	return f.Read(how)
}

const soilWho, soilWhat = "Client,Field ID,Date sampled,", "Alder Run,Home Forty,2026-04-02,"

// TestASoilTestIsTakenAsItWasPrinted proves that extractant and unit are found wherever they are said, and
// kept: nothing is turned into anything else.
func TestASoilTestIsTakenAsItWasPrinted(t *testing.T) {
	bray := &book.Extracted{Value: 18, Unit: book.PPM, By: book.BrayP1}
	acetate := &book.Extracted{Value: 210, Unit: book.LbAcre, By: book.AmmoniumAcetate}
	mehlich := &book.Extracted{Value: 18, Unit: book.PPM, By: book.Mehlich3}
	for _, c := range []struct {
		name, heads, cells string
		say                map[string]string
		want               book.SoilTest
	}{
		{"in the heading", "pH,Bray P1 (ppm),K NH4OAc lbs/acre,Organic Matter %", "6.1,18,210,3.2", nil, book.SoilTest{PH: 6.1, P: bray, K: acetate, More: map[string]float64{"om": 3.2}}},
		{"in the other order", "Water pH,P (Bray-1) ppm,Ammonium acetate K lb/ac", "6.1,18,210", nil, book.SoilTest{PH: 6.1, P: bray, K: acetate}},
		{"the short name of the trade", "pH,P1 ppm", "6.1,18", nil, book.SoilTest{PH: 6.1, P: bray}},
		{"in a column for both", "pH,P ppm,K ppm,Extraction method", "6.1,18,120,Mehlich III", nil, book.SoilTest{PH: 6.1, P: mehlich, K: &book.Extracted{Value: 120, Unit: book.PPM, By: book.Mehlich3}}},
		{"in a column for each", "pH,P ppm,K lb/acre,P method,K method", "6.1,18,210,weak Bray,NH4OAc", nil, book.SoilTest{PH: 6.1, P: bray, K: acetate}},
		{"of all rows", "pH,P ppm", "6.1,18", map[string]string{"extractant": "m3"}, book.SoilTest{PH: 6.1, P: mehlich}},
		{"the unit in the cell", "pH,Mehlich-3 P ppm,CEC meq/100g,Ca lb/ac", "6.1,18 ppm,12.4,2400", nil, book.SoilTest{PH: 6.1, P: mehlich, More: map[string]float64{"cec": 12.4, "ca": 1200}}},
		{"the buffer in its heading", "pH,Sikora buffer", "5.9,6.6", nil, book.SoilTest{PH: 5.9, Buffer: 6.6, BufferBy: book.Sikora}},
		{"the buffer in a column", "pH,BpH,Buffer type", "5.9,6.6,SMP", nil, book.SoilTest{PH: 5.9, Buffer: 6.6, BufferBy: book.SMP}},
		{"the buffer as an index", "pH,Lime Test Index", "5.9,66", nil, book.SoilTest{PH: 5.9, Buffer: 6.6, BufferBy: book.SMP}},
		{"the depth in cm", "pH,Sample depth cm,Subsoil pH", "5.9,17.78,6.4", nil, book.SoilTest{PH: 5.9, DepthIn: 7, More: map[string]float64{"subsoil-ph": 6.4}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := soilAs(t, soilWho+c.heads+"\n"+soilWhat+c.cells+"\n", exchange.LabHow{Say: c.say})
			if err != nil {
				t.Fatal(err)
			}
			c.want.Lab = "Valley"
			want := []exchange.SoilRow{{Row: 2, Farm: "Alder Run", Field: "Home Forty", Day: day(t, "2026-04-02"), Test: c.want}}
			if diff := cmp.Diff(want, got.Tests, cmpopts.EquateApprox(0, 1e-4)); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

func TestOurOwnTableOfSoilNeedsNoForm(t *testing.T) {
	const file = "farm,field,sampled,lab,part,depth,ph,buffer-sikora,p-bray ppm,k-acetate lb ac,om,s ppm\nA,B,2026-04-02,Valley,east,7,6.1,6.6,18,210,3.2,8\nA,B,2026-04-02,Valley,west,7,6.4,6.8,22,240,3.0,9\n"
	f, err := exchange.OpenSoils(strings.NewReader(file), "f.csv")
	if err != nil {
		t.Fatal(err)
	}
	if !f.Own() {
		t.Fatal("our own table is not taken for ours")
	}
	got, err := f.Read(exchange.LabHow{})
	if err != nil {
		t.Fatal(err)
	}
	want := book.SoilTest{
		Lab: "Valley", Part: "east", DepthIn: 7, PH: 6.1, Buffer: 6.6, BufferBy: book.Sikora,
		P: &book.Extracted{Value: 18, Unit: book.PPM, By: book.BrayP1}, K: &book.Extracted{Value: 210, Unit: book.LbAcre, By: book.AmmoniumAcetate}, More: map[string]float64{"om": 3.2, "s": 8},
	}
	if diff := cmp.Diff(want, got.Tests[0].Test); diff != "" || len(got.Tests) != 2 {
		t.Errorf("%d tests (-want +got):\n%s", len(got.Tests), diff)
	}
}

func TestSoilTestsThatCannotBeRightAreRefusedByRowAndColumn(t *testing.T) {
	read := func(file string) error {
		_, err := soilAs(t, file, exchange.LabHow{})
		return err
	}
	refusedFor(t, read, []refusal{
		{"phosphorus without extractant", soilWho + "pH,P ppm\n" + soilWhat + "6.1,18\n", []string{`row 2, P ppm: "18": P without its extractant`, "accepted bray-p1, mehlich-3, mehlich-3-color, olsen"}},
		{"Bray said of potassium too", soilWho + "pH,K ppm,Extractant\n" + soilWhat + "6.1,118,Bray P1\n", []string{`row 2, K ppm: "118": K without its extractant`}},
		{"two extractants at odds", soilWho + "pH,Bray P1 ppm,P method\n" + soilWhat + "6.1,18,Olsen\n", []string{`row 2, Bray P1 ppm: "18": its heading says bray-p1 and the row olsen`}},
		{"two numbers of one nutrient", soilWho + "pH,Bray P1 ppm,Olsen P ppm\n" + soilWhat + "6.1,18,12\n", []string{`row 2, Olsen P ppm: "12": P stands under Bray P1 ppm too`}},
		{"a unit against its column's", soilWho + "pH,Bray P1 ppm\n" + soilWhat + "6.1,36 lb/ac\n", []string{`row 2, Bray P1 ppm: "36 lb/ac": the cell says lb/ac and its column ppm`}},
		{"a unit of another thing", soilWho + "pH,Bray P1 ppm\n" + soilWhat + "6.1,36 bu\n", []string{`no unit of p-bray is written "bu"; accepted ppm, lb/ac`}},
		{"pH out of range", soilWho + "pH,Bray P1 ppm\n" + soilWhat + "61,18\n", []string{`row 2, pH: "61": accepted 3 to 10`}},
		{"phosphorus of a fertilizer", soilWho + "pH,Bray P1 ppm\n" + soilWhat + "6.1,4600\n", []string{`row 2, Bray P1 ppm: "4600": P 4600: accepted 0 to 1000 ppm`}},
		{"a buffer nobody named", soilWho + "pH,Buffer pH\n" + soilWhat + "5.9,6.6\n", []string{`row 2, Buffer pH: "6.6": a buffer pH without its buffer`}},
		{"a buffer at odds", soilWho + "pH,SMP buffer pH,Buffer type\n" + soilWhat + "5.9,6.6,Sikora\n", []string{`row 2, Buffer type: "Sikora": the column SMP buffer pH is of smp`}},
		{"less than can be measured", soilWho + "pH,Bray P1 ppm\n" + soilWhat + "6.1,<1\n", []string{`row 2, Bray P1 ppm: "<1": a number wanted`}},
		{"a field sampled twice", soilWho + "pH\n" + soilWhat + "6.1\n" + soilWhat + "6.4\n", []string{"row 3, Field ID: Home Forty was sampled on 2026-04-02 in row 2 too"}},
	})
	got, err := soilAs(t, soilWho+"pH\n"+soilWhat+"6.1\n"+soilWhat+"6.4\nA,C,soon,6\n", exchange.LabHow{KeepRest: true})
	if err != nil || len(got.Tests) != 1 || len(got.LeftOut) != 2 || got.LeftOut[0].Row != 3 || got.LeftOut[1].Row != 4 {
		t.Errorf("%+v, %v; want row 2 kept, rows 3 and 4 left out", got, err)
	}
}

func TestAContentWithoutAUnitIsNotGuessed(t *testing.T) {
	f, err := exchange.OpenSoils(strings.NewReader(soilWho+"pH,Bray P1,K ppm\n"), "f.csv")
	if err != nil {
		t.Fatal(err)
	}
	p := f.Propose()
	if _, taken := p.Meanings["p-bray"]; taken || !strings.Contains(strings.Join(p.Doubts, "\n"), "Bray P1 is left out: it says no unit; name it, one of ppm, lb/ac") {
		t.Errorf("doubts %q", p.Doubts)
	}
	if p.NoBasis || p.Form.Basis != "" {
		t.Errorf("a soil test is asked for its basis: %+v", p)
	}
	if err := p.Apply([]exchange.Change{{Column: "Bray P1", Code: "p-bray", Unit: "lbs/acre"}}, "", exchange.SoilTerms()); err != nil {
		t.Fatal(err)
	}
	p.Form.From = "Valley"
	if err := p.Form.Check(); err != nil {
		t.Error(err)
	}
}

func TestNoNameIsOfTwoThingsOfSoil(t *testing.T) {
	seen := map[string]string{}
	for _, term := range exchange.SoilTerms() {
		own := map[string]bool{}
		for _, n := range append([]string{term.Code}, term.Names...) {
			key := tabular.Plain(n)
			if other, twice := seen[key]; twice && !own[key] {
				t.Errorf("%q is %s and %s", n, other, term.Code)
			}
			seen[key], own[key] = term.Code, true
		}
	}
}

func TestWhatWasSpreadIsReadWithItsUnit(t *testing.T) {
	const head = "farm,field,date,material,class,rate,unit,after_cut,effective,p2o5,k2o,n\n"
	got, err := exchange.ReadSpreads(strings.NewReader(head+
		"A,B,2026-06-10,0-0-60,,250 lbs/ac,,1,,,,\nA,B,2025-10-02,ag lime,,3,tons/ac,,1300,,,\nA,B,2026-07-01,dairy slurry,,3000 gal/ac,,2,,12,18,\nA,C,2026-06-10,Blend 7,fertilizer,200,lb/ac,,,10,40,3\n"), "f.csv")
	if err != nil {
		t.Fatal(err)
	}
	want := []book.Application{
		{Class: book.FertilizerSpread, Material: "mop", Rate: 250, Unit: book.PoundsAcre, Cut: 1},
		{Class: book.LimeSpread, Material: "aglime", Rate: 3, Unit: book.TonsAcre, Analysis: map[string]float64{"effective": 1300}},
		{Class: book.ManureSpread, Material: "dairy-liquid", Rate: 3000, Unit: book.GallonsAcre, Cut: 2, Analysis: map[string]float64{"p2o5": 12, "k2o": 18}},
		{Class: book.FertilizerSpread, Material: "Blend 7", Rate: 200, Unit: book.PoundsAcre, Analysis: map[string]float64{"n": 3, "p2o5": 10, "k2o": 40}},
	}
	for i, w := range want {
		if diff := cmp.Diff(w, got.Spread[i].Application); diff != "" {
			t.Errorf("row %d (-want +got):\n%s", i+2, diff)
		}
	}
	refusedFor(t, func(file string) error {
		_, err := exchange.ReadSpreads(strings.NewReader(file), "f.csv")
		return err
	}, []refusal{
		{"no unit", head + "A,B,2026-06-10,mop,,250,,,,,,\n", []string{`row 2, rate: "250": a unit wanted`}},
		{"two units", head + "A,B,2026-06-10,mop,,250 lb/ac,tons,,,,,\n", []string{`row 2, rate: "250 lb/ac": lb/ac and ton/ac are both said of it`}},
		{"no such unit", head + "A,B,2026-06-10,mop,,250 bags,,,,,,\n", []string{`no unit of a rate is written "bags"`}},
		{"an unknown material", head + "A,B,2026-06-10,Blend 7,,250 lb,,,,,,\n", []string{`row 2, material: "Blend 7": it goes by no name known here`}},
		{"potash said to be lime", head + "A,B,2026-06-10,potash,lime,250 lb,,,,,,\n", []string{`row 2, class: "lime": mop is fertilizer`}},
		{"too much", head + "A,B,2026-06-10,potash,,9 tons,,,,,,\nA,B,2026-06-10,potash,,9000 lb,,,,,,\n", []string{`row 3, rate: "9000 lb": rate 9000: accepted 0 to 5000 lb/ac`}},
		{"the same twice", head + "A,B,2026-06-10,potash,,250 lb,,,,,,\na,b,10 June 2026,mop,,250,lb/ac,,,,,\n", []string{"row 3: it says what row 2 says; take one out"}},
	})
}

func TestTissueSeedingsAndGuidesAreRead(t *testing.T) {
	tissue, err := exchange.ReadTissues(strings.NewReader("farm,field,sampled,lab,plant part,stage,n,k %,s,boron\nA,B,2026-05-28,V,top 6 inches,1/10 bloom,4.1,2.2%,0.22,28 ppm\n"), "f.csv")
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(book.TissueTest{Lab: "V", Part: "top-6in", Stage: "first-bloom", Values: map[string]float64{"n": 4.1, "k": 2.2, "s": 0.22, "b": 28}}, tissue.Tests[0].Test); diff != "" {
		t.Errorf("tissue (-want +got):\n%s", diff)
	}
	sown, err := exchange.ReadSown(strings.NewReader("farm,field,seeded,species,rate,purity,germ,method,depth,companion\nA,B,2026-04-20,alfalfa,14,99,88,drill,0.5,oats\nA,B,2026-04-20,orchardgrass,3 lb/ac,90,90,,,\n"), "f.csv")
	if err != nil {
		t.Fatal(err)
	}
	want := book.Seeding{Lots: []book.SeedLot{{Species: "alfalfa", RateLb: 14, Purity: 99, Germination: 88}, {Species: "orchardgrass", RateLb: 3, Purity: 90, Germination: 90}}, Method: "drilled", DepthIn: 0.5, Companion: "oats"}
	if diff := cmp.Diff(want, sown.Seedings[0].Seeding); diff != "" || len(sown.Seedings) != 1 {
		t.Errorf("%d seedings (-want +got):\n%s", len(sown.Seedings), diff)
	}
	guides, err := exchange.ReadGuides(strings.NewReader("guide,edition,basis,depth,target,a,b,c,class,ph,tons,crop,nutrient,extractant,from,to\n"+
		"valley,1999,pure lime,7,6.8,50,5,2,,,,,,,,\nvalley,1999,pure lime,7,6.5,40,4,2,,,,,,,,\n"+
		"hill,2001,,9,,,,,B,5,6,,,,,\nhill,2001,,9,,,,,B,6,2,,,,,\nhill,2001,,9,,,,,C,5,4,,,,,\nhill,2001,,9,,,,,C,6,1,,,,,\n"+
		"valley,1999,,,,,,,low,,,alfalfa,k,m3,0,90\nvalley,1999,,,,,,,optimum,,,alfalfa,k,m3,91,130\n"), "f.csv")
	if err != nil {
		t.Fatal(err)
	}
	chart := &book.LimeChart{Classes: []string{"B", "C"}, PH: []float64{5, 6}, Tons: [][]float64{{6, 2}, {4, 1}}}
	if len(guides.Tables) != 3 || len(guides.Tables[0].Table.Lines) != 2 || len(guides.Tables[2].Table.Classes) != 2 || !cmp.Equal(chart, guides.Tables[1].Table.Chart) {
		t.Errorf("%+v", guides.Tables)
	}
	refusedFor(t, func(file string) error {
		_, err := exchange.ReadGuides(strings.NewReader(file), "f.csv")
		return err
	}, []refusal{
		{"a row of nothing", "guide,edition\nvalley,1999\n", []string{"row 2: the row says no line of lime"}},
		{"a chart out of order", "guide,edition,class,ph,tons\nhill,2001,B,5,6\nhill,2001,B,6,2\nhill,2001,C,6,4\n", []string{"row 4, ph: class C at pH 6 is told twice, or after a class"}},
		{"a chart cut short", "guide,edition,class,ph,tons\nhill,2001,B,5,6\nhill,2001,B,6,2\nhill,2001,C,5,4\n", []string{"class C has tons for 1 values of pH, and the chart has 2"}},
		{"a chart that limes more", "guide,edition,class,ph,tons\nhill,2001,B,5,2\nhill,2001,B,6,6\n", []string{"class B takes 2 tons at pH 5 and more, 6, at pH 6"}},
		{"two editions", "guide,edition,target,a,b,c\nhill,2001,6.5,1,1,1\nhill,2002,6.8,1,1,1\n", []string{"row 3, edition: rows of one table of hill differ in edition, basis or depth from row 2"}},
	})
}

func FuzzReadSoils(f *testing.F) {
	f.Add(soilWho + "pH,Bray P1 (ppm),K NH4OAc lbs/acre,Organic Matter %,Sikora buffer\n" + soilWhat + "6.1,18,210,3.2,6.6\n")
	f.Add("farm;field;sampled;ph;p-mehlich3 ppm;lime-index\nA;B;2026-04-02;6,1;18;66\n")
	f.Fuzz(func(t *testing.T, file string) {
		got, err := soilAs(t, file, exchange.LabHow{Say: map[string]string{"extractant": "mehlich-3"}, KeepRest: true})
		if err != nil {
			sound(t, err)
			return
		}
		for _, r := range got.Tests {
			if err := r.Test.Check(); err != nil {
				t.Errorf("took what the book refuses: %v", err)
			}
		}
	})
}

func FuzzReadSpreads(f *testing.F) {
	f.Add("farm,field,date,material,class,rate,unit,p2o5\nA,B,2026-06-10,0-0-60,,250 lbs/ac,,\nA,B,2026-07-01,slurry x,manure,3000,gal,12\n")
	f.Fuzz(func(t *testing.T, file string) {
		got, err := exchange.ReadSpreads(strings.NewReader(file), "f.csv")
		if err != nil {
			sound(t, err)
			return
		}
		for _, r := range got.Spread {
			if err := r.Application.Check(); err != nil {
				t.Errorf("took what the book refuses: %v", err)
			}
		}
	})
}

func FuzzReadGuides(f *testing.F) {
	f.Add("guide,edition,target,a,b,c,class,ph,tons\nhill,2001,,,,,B,5,6\nhill,2001,,,,,B,6,2\nvalley,1999,6.8,50,5,2,,,\n")
	f.Fuzz(func(t *testing.T, file string) {
		got, err := exchange.ReadGuides(strings.NewReader(file), "f.csv")
		if err != nil {
			sound(t, err)
			return
		}
		for _, g := range got.Tables {
			if err := g.Table.Check(); err != nil {
				t.Errorf("took what the book refuses: %v", err)
			}
		}
	})
}

// refusedFor proves that a file is refused for reasons that the refusal names.
func refusedFor(t *testing.T, read func(file string) error, cases []refusal) {
	t.Helper()
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			err := read(c.file)
			if err == nil {
				t.Fatal("it was taken")
			}
			sound(t, err)
			for _, want := range c.want {
				if !strings.Contains(err.Error(), want) {
					t.Errorf("error %v\nwant %s", err, want)
				}
			}
		})
	}
}
