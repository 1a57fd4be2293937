package exchange_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"haywarden/agronomy/forage"
	"haywarden/book"
	"haywarden/exchange"
	"haywarden/tabular"
)

// proposed says what one heading would be, as `code unit basis`; empty where nothing.
func proposed(heading string) string {
	p := exchange.Propose(exchange.LabForage, []string{heading}, exchange.LabTerms())
	u := p.Form.Columns[0]
	return strings.Join(strings.Fields(u.Code+" "+u.Unit+" "+u.Basis), " ")
}

// TestHeadingsAreUnderstoodAsLaboratoriesWriteThem proves that name, unit and basis are parted in the
// many ways they are put together, and that what could mislead is left out.
func TestHeadingsAreUnderstoodAsLaboratoriesWriteThem(t *testing.T) {
	for heading, want := range map[string]string{
		"Crude Protein, % DM": "cp % dm", "CP (As Fed)": "cp as-fed", "Protein_pct_as_received": "cp % as-fed", "% Crude Protein": "cp %", "Crude Protein % of Dry Matter": "cp % dm",
		"aNDF %DM": "ndf % dm", "NDF": "ndf", "aNDFom (% of DM)": "andfom % dm", "ADF g/kg DM": "adf g/kg dm", "adf": "adf",
		"DM": "dm", "DM %": "dm %", "% DM": "dm %", "Dry Matter (%)": "dm %", "Dry Matter, % as fed": "dm %", "Moisture": "moisture",
		"NDFD 48hr, % of NDF": "ndfd48 %", "NDFD30": "ndfd30", "uNDF240 % DM": "undf240 % dm", "Soluble Protein % CP": "sp %",
		"NEL, Mcal/lb": "nel Mcal/lb", "NEL (Mcal/cwt)": "nel Mcal/cwt", "Ne-L Mcal / kg DM": "nel Mcal/kg dm", "Ca": "ca", "Calcium ppm": "ca ppm", "pH": "ph", "RFV": "rfv", "Relative Forage Quality": "rfq",
		"Client": "farm", "Date Sampled": "sampled", "Feed Type": "sample", "Lab No.": "number", "Basis": "basis",
		// Left out: another whole, no unit where one is wanted, a unit of something else, an unknown name.
		"Lignin % NDF": "", "NDFD48 % DM": "", "NDICP, % CP": "", "Soluble Protein, % DM": "", "NEL": "", "Ash ppb": "", "Remarks": "", "NDF Mcal/lb": "", "pH %": "",
	} {
		if got := proposed(heading); got != want {
			t.Errorf("%q: %q, want %q", heading, got, want)
		}
	}
}

func TestEveryTermIsFoundUnderEachOfItsNames(t *testing.T) {
	seen := map[string]string{}
	for _, term := range exchange.LabTerms() {
		for _, n := range append([]string{term.Code}, term.Names...) {
			if other, twice := seen[tabular.Plain(n)]; twice && other != term.Code {
				t.Errorf("%q stands for %s and for %s", n, other, term.Code)
			}
			seen[tabular.Plain(n)] = term.Code
			if term.SayUnit {
				n += " " + term.Units[0].Name
			}
			if got, _, _ := strings.Cut(proposed(strings.ToUpper(n)), " "); got != term.Code {
				t.Errorf("%q is %q, want %s", n, got, term.Code)
			}
		}
	}
}

// TestTheBookTakesWhatTheChecksTake proves that the two lists of laboratory values are one.
func TestTheBookTakesWhatTheChecksTake(t *testing.T) {
	var fields, values []string
	for _, f := range forage.LabFields() {
		if f.Code != "adf" && f.Code != "ndf" && f.Code != "cp" {
			fields = append(fields, fmt.Sprintf("%s %g-%g", f.Code, f.Low, f.High))
		}
	}
	for _, v := range book.LabValues() {
		values = append(values, fmt.Sprintf("%s %g-%g", v.Code, v.Low, v.High))
	}
	slices.Sort(fields)
	slices.Sort(values)
	if diff := cmp.Diff(fields, values); diff != "" {
		t.Errorf("(-checks +book):\n%s", diff)
	}
}

func TestTheBasisIsAskedForOnlyWhereHeadingsDoNotTell(t *testing.T) {
	for _, c := range []struct {
		headings []string
		basis    string
	}{
		{[]string{"NDF", "ADF"}, ""},
		{[]string{"NDF % DM", "ADF"}, book.DryBasis},
		{[]string{"NDF as fed", "ADF"}, book.FedBasis},
		{[]string{"NDF as fed", "ADF % DM"}, book.DryBasis}, // each says its own
		{[]string{"NDF as fed", "ADF % DM", "CP"}, ""},
		{[]string{"NDF", "ADF", "Basis"}, book.RowBasis},
		{[]string{"NDF as fed", "ADF as fed", "NDF % DM", "ADF % DM"}, book.DryBasis},
	} {
		p := exchange.Propose(exchange.LabForage, c.headings, exchange.LabTerms())
		if p.Form.Basis != c.basis || p.NoBasis != (c.basis == "") {
			t.Errorf("%q: basis %q, unknown %t; want %q", c.headings, p.Form.Basis, p.NoBasis, c.basis)
		}
	}
}

func TestABasisByRowWantsItsColumn(t *testing.T) {
	for heads, open := range map[string]bool{"NDF,ADF": true, "NDF,ADF,Basis": false} {
		p := exchange.Propose(exchange.LabForage, strings.Split(heads, ","), exchange.LabTerms())
		if err := p.Apply(nil, book.RowBasis, exchange.LabTerms()); err != nil || p.NoBasis != open {
			t.Errorf("%s: open %t, %v; want %t", heads, p.NoBasis, err, open)
		}
	}
}

func TestAPersonsChangesAreHeldToTheTable(t *testing.T) {
	for _, c := range []struct{ change, basis, want string }{
		{"Remarks=ash", "", ""},
		{"NEL=nel:Mcal/lb", "", ""},
		{"NDF % DM=-", "", ""},
		{"Ramarks=ash", "", `no column is headed "Ramarks"`},
		{"Remarks=asch", "", `no value has the code "asch"; the codes are farm, field`},
		{"Remarks=ash:lb", "", `ash in "lb": accepted %, g/kg, ppm`},
		{"NEL=nel", "", "NEL wants its unit: NEL=nel:UNIT, one of Mcal/kg, Mcal/lb, Mcal/cwt, MJ/kg"},
		{"ADF g/kg=adf:ppm", "", "column ADF g/kg says g/kg itself and cannot be in ppm"},
		{"Remarks=-", "as-fed", "column NDF % DM says dry matter itself, and basis as-fed is asked for"},
		{"Remarks", "", "want COLUMN=code"},
	} {
		p := exchange.Propose(exchange.LabForage, []string{"NDF % DM", "ADF g/kg", "NEL", "Remarks"}, exchange.LabTerms())
		change, err := exchange.ParseChange(c.change)
		if err == nil {
			err = p.Apply([]exchange.Change{change}, c.basis, exchange.LabTerms())
		}
		if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("%s, basis %q: error %v, want %q", c.change, c.basis, err, c.want)
		}
	}
}

// TestAFormUsesNoThingTwice proves that whatever the headings, a proposal is a form that the book takes.
func TestAFormUsesNoThingTwice(t *testing.T) {
	words := []string{"NDF", "aNDF", "%", "DM", "as fed", "CP", "protein", "g/kg", "NEL", "Mcal/lb", "of NDF", "ash", "lab", "farm", "(", ",", "48", "NDFD"}
	rapid.Check(t, func(t *rapid.T) {
		headings := rapid.SliceOfNDistinct(rapid.Map(rapid.SliceOfN(rapid.SampledFrom(words), 1, 4), func(w []string) string { return strings.Join(w, " ") }), 1, 8, tabular.Plain).Draw(t, "headings")
		p := exchange.Propose(exchange.LabForage, headings, exchange.LabTerms())
		form := p.Form
		form.From, form.Basis = "Valley", book.DryBasis
		if err := form.Check(); err != nil && !strings.Contains(err.Error(), "heading of a column is empty") {
			t.Fatalf("%q: %v", headings, err)
		}
		q := exchange.Propose(exchange.LabForage, headings, exchange.LabTerms())
		q.Recall(form)
		q.Form.From, q.Form.Basis = form.From, form.Basis
		if diff := cmp.Diff(form, q.Form); diff != "" {
			t.Fatalf("%q: recalled it is another form (-was +now):\n%s", headings, diff)
		}
	})
}
