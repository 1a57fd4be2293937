package exchange_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"haywarden/book"
	"haywarden/exchange"
)

// readAs reads a table by the form that is proposed for it, on a basis where the headings tell none.
func readAs(t testing.TB, file, basis string, how exchange.LabHow) (exchange.Labs, error) {
	t.Helper()
	f, err := exchange.OpenLabs(strings.NewReader(file), "f.csv")
	if err != nil {
		return exchange.Labs{}, err
	}
	p := f.Propose()
	if err := p.Apply(nil, basis, exchange.LabTerms()); err != nil {
		t.Fatal(err)
	}
	p.Form.From = "Valley"
	how.Form = &p.Form
	return f.Read(how)
}

func result(more map[string]float64) book.Lab {
	return book.Lab{Lab: "Valley", Sample: "haylage", ADF: 30, NDF: 40, CP: 20, More: more}
}

// TestOneSampleIsTheSameHoweverItIsWritten proves that units and bases are turned into percent of dry
// matter: 40 % dry matter, so that 16 % NDF as fed is 40 % of dry matter.
func TestOneSampleIsTheSameHoweverItIsWritten(t *testing.T) {
	const who, what = "Client,Description,Date sampled,Feed type,", "Alder Run,Home Forty,2026-05-12,Legume silage,"
	for _, c := range []struct {
		name, heads, cells, basis string
		fed                       int
		more                      map[string]float64
	}{
		{"of dry matter", "NDF %DM,ADF %DM,CP %DM", "40,30,20", "", 0, nil},
		{"as fed by the headings", "DM,NDF as fed,ADF as fed,CP as fed", "40,16,12,8", "", 1, map[string]float64{"dm": 40}},
		{"as fed by the file, from moisture", "Moisture,NDF,ADF,CP", "60,16,12,8", book.FedBasis, 1, map[string]float64{"moisture": 60}},
		{"as fed by the row", "DM,NDF,ADF,CP,Basis", "40,16,12,8,As received", "", 1, map[string]float64{"dm": 40}},
		{"dry by the row", "DM,NDF,ADF,CP,Basis", "40,40,30,20,Dry", "", 0, map[string]float64{"dm": 40}},
		{"one column as fed", "DM,NDF % DM,ADF as fed,CP % DM", "40,40,12,20", "", 1, map[string]float64{"dm": 40}},
		{"g/kg, and a unit in the cell", "NDF g/kg DM,ADF g/kg DM,CP % DM,Ca ppm,K", "400,300 g/kg,20 %,14000,25 g/kg", "", 0, map[string]float64{"ca": 1.4, "k": 2.5}},
		{"energy by the pound", "NDF %DM,ADF,CP,NEL Mcal/lb,NEM MJ/kg", "40,30,20,0.65,6.276", "", 0, map[string]float64{"nel": 1.433, "nem": 1.5}},
		{"energy of feed as fed", "DM,NDF,ADF,CP,NEL Mcal/kg,RFV,NDFD48", "40,16,12,8,0.6,152,45", book.FedBasis, 1, map[string]float64{"dm": 40, "nel": 1.5, "rfv": 152, "ndfd48": 45}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := readAs(t, who+c.heads+"\n"+what+c.cells+"\n", c.basis, exchange.LabHow{})
			if err != nil {
				t.Fatal(err)
			}
			want := []exchange.LabRow{{Row: 2, Farm: "Alder Run", Field: "Home Forty", Day: day(t, "2026-05-12"), Lab: result(c.more)}}
			if diff := cmp.Diff(want, got.Labs, cmpopts.EquateApprox(0, 1e-4)); diff != "" || got.Fed != c.fed {
				t.Errorf("%d rows as fed, want %d (-want +got):\n%s", got.Fed, c.fed, diff)
			}
		})
	}
}

func TestResultsThatCannotBeTrueAreRefusedByRowAndColumn(t *testing.T) {
	const head = "Client,Description,Date sampled,Feed type,Dry matter,NDF g/kg,ADF,Crude prot,Fat,Ash,NFC,RFV,NDFD30,NDFD48\n"
	const who = "A,B,2026-05-12,hay,"
	refused(t, func(file string) error {
		_, err := readAs(t, file, book.DryBasis, exchange.LabHow{})
		return err
	}, []refusal{
		{"percent over 100", head + who + "88,400,130,20,,,,,,\n", []string{"2 things are wrong, nothing was taken in", `row 2, ADF: "130": accepted 10 to 60 % of dry matter`, `row 2, ADF: "130": ADF 130 is not under NDF 40: ADF is a part of NDF, check which is which`}},
		{"ADF over NDF", head + who + "88,300,31,20,,,,,,\n", []string{`row 2, ADF: "31": ADF 31 is not under NDF 30: ADF is a part of NDF, check which is which`}},
		{"a unit against its column's", head + who + "88,40 %,30,20,,,,,,\n", []string{`row 2, NDF g/kg: "40 %": the cell says % and its column g/kg`}},
		{"a unit of another thing", head + who + "88,400,30 lb,20,,,,,,\n", []string{`row 2, ADF: "30 lb": no unit of adf is written "lb"; accepted %, g/kg, ppm`}},
		{"less than can be measured", head + who + "88,400,30,<0.5,,,,,,\n", []string{`row 2, Crude prot: "<0.5": a number wanted`}},
		{"more digested in less time", head + who + "88,400,30,20,,,,,50,45\n", []string{`row 2, NDFD30: "50": ndfd30 50 is over ndfd48 45: more is digested in more time`}},
		{"more than the whole", head + who + "88,600,40,30,4,15,,,,\n", []string{`row 2, NDF g/kg: "600": NDF, protein, fat and ash add up to 109.0 %, over 100 and the 4.2 % of protein that is in NDF`}},
		{"an unknown kind of feed", head + "A,B,2026-05-12,corn silage,88,400,30,20,,,,,,\n", []string{`row 2, Feed type: "corn silage": accepted standing, hay, haylage, baleage`}},
	})
	// Rows on the other basis than the file, told by three signs.
	for _, c := range []struct{ name, cells, basis, want string }{
		{"its sum", "50,190,15,10,1.2,4.5,16,,,", book.DryBasis, "row 2, NDF g/kg: its shares seem to be as fed: NDF, protein, fat, ash and NFC add up to 50.7, its dry matter 50; the file is said to be of dry matter"},
		{"its RFV", "60,240,18,,,,,152,,", book.DryBasis, "row 2, NDF g/kg: its shares seem to be as fed: its RFV 152 is that of its fibre over its dry matter"},
		{"its RFV", "60,400,30,,,,,152,,", book.FedBasis, "row 2, NDF g/kg: its shares seem to be of dry matter: its RFV 152 is that of its fibre as it stands; the file is said to be as fed"},
		{"its sum", "50,400,30,20,2.5,9,31,,,", book.FedBasis, "row 2, NDF g/kg: its shares seem to be of dry matter: NDF, protein, fat, ash and NFC add up to 102.5 and not to its dry matter"},
		{"its fibre", "40,160,12,,,,,,,", book.DryBasis, "row 2, NDF g/kg: its shares seem to be as fed: NDF 16 is less than any forage has, and 40.0 of its dry matter"},
	} {
		if _, err := readAs(t, head+who+c.cells+"\n", c.basis, exchange.LabHow{}); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v\nwant %s", c.name, err, c.want)
		}
	}
	_, err := readAs(t, "Client,Description,Date sampled,Feed type,NDF,ADF\nA,B,2026-05-12,hay,35,26\n", book.FedBasis, exchange.LabHow{})
	if err == nil || !strings.Contains(err.Error(), `row 2, ADF: "26": it is as fed, and the row tells neither dry matter nor moisture`) {
		t.Errorf("as fed without dry matter: error %v", err)
	}
	_, err = readAs(t, "Client,Description,Date sampled,Feed type,DM,Moisture,NDF,ADF\nA,B,2026-05-12,hay,88,15,35,26\n", book.FedBasis, exchange.LabHow{})
	if err == nil || !strings.Contains(err.Error(), `row 2, DM: "88": with moisture 15 it does not add up to 100`) {
		t.Errorf("dry matter against moisture: error %v", err)
	}
}

// TestTheRestIsKeptOnlyWhereAskedFor proves that a bad row costs the file, unless it may be left out.
func TestTheRestIsKeptOnlyWhereAskedFor(t *testing.T) {
	const file = "Client,Description,Date sampled,Feed type,NDF %DM,ADF %DM\nA,B,2026-05-12,hay,40,30\nA,B,2026-05-13,hay,30,40\nA,C,soon,hay,40,30\n"
	if _, err := readAs(t, file, "", exchange.LabHow{}); err == nil || !strings.Contains(err.Error(), "2 things are wrong, nothing was taken in") {
		t.Errorf("error %v, want a refusal of two rows", err)
	}
	got, err := readAs(t, file, "", exchange.LabHow{KeepRest: true})
	if err != nil || len(got.Labs) != 1 || len(got.LeftOut) != 2 || got.LeftOut[0].Row != 3 || got.LeftOut[1].Row != 4 {
		t.Errorf("%+v, %v; want row 2 kept, rows 3 and 4 left out", got, err)
	}
	if _, err := readAs(t, "Client,Description,Date sampled,Feed type,NDF %DM,ADF %DM\nA,B,2026-05-13,hay,30,40\n", "", exchange.LabHow{KeepRest: true}); err == nil {
		t.Error("a file without one good row was taken")
	}
}

func TestWhatNoColumnSaysMayBeSaidOfAllRows(t *testing.T) {
	const file = "Description,NDF %DM,ADF %DM,Cut\nHome Forty,40,30,2nd\n"
	say := map[string]string{"farm": "Alder Run", "sampled": "2026-05-12", "sample": "hay"}
	got, err := readAs(t, file, "", exchange.LabHow{Say: say})
	if err != nil {
		t.Fatal(err)
	}
	want := []exchange.LabRow{{Row: 2, Farm: "Alder Run", Field: "Home Forty", Day: day(t, "2026-05-12"), Lab: book.Lab{Lab: "Valley", Sample: "hay", NDF: 40, ADF: 30, Cutting: 2}}}
	if diff := cmp.Diff(want, got.Labs); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	say["field"] = "Back Lot"
	if _, err := readAs(t, file, "", exchange.LabHow{Say: say}); err == nil || !strings.Contains(err.Error(), `row 1, Description: it says field of each row, and "Back Lot" was said of all; leave one out`) {
		t.Errorf("a field said twice: error %v", err)
	}
	delete(say, "field")
	delete(say, "farm")
	if _, err := readAs(t, file, "", exchange.LabHow{Say: say}); err == nil || !strings.Contains(err.Error(), "row 1: no column says farm, and nothing was said of it") {
		t.Errorf("error %v", err)
	}
}

func TestOnlyATableWhollyInOurWordsIsOurs(t *testing.T) {
	for heads, want := range map[string]bool{
		"farm,field,sampled,sample,adf,ndf":                      true,
		"Farm,Field,Date sampled,Feed,ADF %DM,aNDF,ash,ndfd48":   true,
		"farm,field,sampled,sample,adf,ndf,remarks":              true,
		"farm,field,sampled,sample,adf,ndf,Crude fat %DM":        false,
		"client,field,sampled,sample,adf,ndf":                    false,
		"farm,field,sampled,sample,adf as fed,ndf as fed,adf DM": false,
	} {
		f, err := exchange.OpenLabs(strings.NewReader(heads+"\n"), "f.csv")
		if err != nil {
			t.Fatal(err)
		}
		if f.Own() != want {
			t.Errorf("%s: ours %t, want %t", heads, f.Own(), want)
		}
	}
}

func FuzzLabForms(f *testing.F) {
	f.Add("Client,Description,Date sampled,Feed type,DM,NDF g/kg,ADF as fed,CP % DM,NEL Mcal/lb\nA,B,2026-05-12,hay,88,400,26,20 %,0.65\n")
	f.Add("farm;field;sampled;sample;basis;dm;adf;ndf;ash\nA;B;2026-05-12;hay;as fed;40;12,1;16;4\n")
	f.Fuzz(func(t *testing.T, file string) {
		got, err := readAs(t, file, "", exchange.LabHow{Say: map[string]string{"farm": "A", "field": "B", "sampled": "2026-05-12", "sample": "hay"}, KeepRest: true})
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
