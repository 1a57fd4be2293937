package method

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haywarden/agronomy/unit"
)

func TestARangeHoldsItsEndsAndTheEmptyOneHoldsAll(t *testing.T) {
	for _, tc := range []struct {
		r    Range
		v    float64
		want bool
	}{
		{Range{2, 60}, 2, true}, {Range{2, 60}, 60, true}, {Range{2, 60}, 60.001, false}, {Range{2, 60}, 1.999, false},
		{Range{}, -1e9, true}, {Range{0, 1}, 0, true}, {Range{0, 1}, -0.001, false},
	} {
		if got := tc.r.Holds(tc.v); got != tc.want {
			t.Errorf("%v holds %g: %t, want %t", tc.r, tc.v, got, tc.want)
		}
	}
}

func TestACallHandsOverInputsAndKeepsAnswers(t *testing.T) {
	m := &Method{
		Name: "sample", Constants: []Constant{{Key: "slope", Value: 2}, {Key: "offset", Value: 1}},
		Inputs:  []Input{{Key: "height", Unit: unit.Must("in")}},
		Outputs: []Output{{Key: "heat", Unit: unit.Must("F-days")}, {Key: "rfv", Unit: unit.Must("RFV")}},
	}
	c := NewCall(m, map[string]float64{"slope": 2.02})
	if c.Given("height") {
		t.Error("an input is given before it was set")
	}
	c.SetNum("height", 27)
	c.SetList("counts", []float64{1, 2})
	c.SetWord("scheme", "usda")
	c.SetReadings("readings", []Reading{{27, "bud"}})
	c.SetDay("cut_on", unit.DateOf(2026, 5, 19))
	c.SetWords("group", []string{"high", "low"})
	c.SetPairs("need", []Pair{{"p2o5", 60}, {"k2o", 250}})
	c.SetRows("weights", [][]float64{{1, 2}, {3, 4}})
	for _, key := range []string{"height", "counts", "scheme", "readings", "cut_on", "group", "need", "weights"} {
		if !c.Given(key) {
			t.Errorf("%s was set and is not given", key)
		}
	}
	got := []any{c.Num("height"), c.List("counts"), c.Word("scheme"), c.Readings("readings"), c.Day("cut_on"), c.Words("group"), c.Pairs("need"), c.Rows("weights"), c.K("slope"), c.K("offset")}
	want := []any{27., []float64{1, 2}, "usda", []Reading{{27, "bud"}}, unit.DateOf(2026, 5, 19), []string{"high", "low"}, []Pair{{"p2o5", 60}, {"k2o", 250}}, [][]float64{{1, 2}, {3, 4}}, 2.02, 1.}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("inputs and constants (-want +got):\n%s", diff)
	}
	c.Answer("rfv", 150.)
	c.AnswerIn("heat", 9., unit.Must("C-days"))
	c.Note("held at %g", 55.)
	if diff := cmp.Diff(map[string]any{"rfv": 150., "heat": 9.}, c.Outputs()); diff != "" {
		t.Errorf("outputs (-want +got):\n%s", diff)
	}
	if c.UnitOf(m.Outputs[0]).Symbol != "C-days" || c.UnitOf(m.Outputs[1]).Symbol != "RFV" {
		t.Error("an output lost its unit")
	}
	if diff := cmp.Diff([]string{"held at 55"}, c.Notes()); diff != "" {
		t.Errorf("notes (-want +got):\n%s", diff)
	}
	defer func() {
		if recover() == nil {
			t.Error("a constant that is not declared is handed out")
		}
	}()
	c.K("undeclared")
}

func TestDeclarationsAreFoundByKey(t *testing.T) {
	m := &Method{Constants: []Constant{{Key: "slope", Value: 2}}, Inputs: []Input{{Key: "height"}}}
	if k, ok := m.Constant("slope"); !ok || k.Value != 2 {
		t.Error("the constant slope is not found")
	}
	if _, ok := m.Constant("none"); ok {
		t.Error("a constant that is not declared is found")
	}
	if in, ok := m.Input("height"); !ok || in.Key != "height" {
		t.Error("the input height is not found")
	}
	if _, ok := m.Input("none"); ok {
		t.Error("an input that is not declared is found")
	}
}

const header = "method,table,tag,source,inputs,output,want,tolerance\n"

func TestProofsAreReadWithTheirLines(t *testing.T) {
	got, err := ParseProofs(header + "# a remark\nrfv,utah,published,rfv-formula,adf=28 ndf=35,rfv,178,0.5\ncombine,,arithmetic,inverse-variance,\"values=1,2 sds=1,1\",value,1.5,\n")
	if err != nil {
		t.Fatal(err)
	}
	want := []Proof{
		{"rfv", "utah", PublishedAnswer, "rfv-formula", "adf=28 ndf=35", "rfv", "178", 0.5, 3},
		{"combine", "", OwnArithmetic, "inverse-variance", "values=1,2 sds=1,1", "value", "1.5", 0, 4},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestProofsThatCannotBeReadAreToldByLine(t *testing.T) {
	for name, tc := range map[string]struct{ text, want string }{
		"an unknown tag":             {"rfv,,guess,rfv-formula,adf=28 ndf=35,rfv,178,0.5", `line 2: tag "guess"; want published, library, fitted or arithmetic`},
		"a tolerance that is a word": {"rfv,,published,rfv-formula,adf=28 ndf=35,rfv,178,half", `line 2: tolerance "half"`},
		"a negative tolerance":       {"rfv,,published,rfv-formula,adf=28 ndf=35,rfv,178,-1", `line 2: tolerance "-1"`},
		"a tolerance without end":    {"rfv,,published,rfv-formula,adf=28 ndf=35,rfv,178,Inf", `line 2: tolerance "Inf"`},
		"a field too few":            {"rfv,published,rfv-formula,adf=28 ndf=35,rfv,178,0.5", "line 2: wrong number of fields"},
	} {
		t.Run(name, func(t *testing.T) {
			if _, err := ParseProofs(header + tc.text); err == nil || !strings.Contains(err.Error(), tc.want) {
				t.Errorf("error %v, want one saying %q", err, tc.want)
			}
		})
	}
	if _, err := ParseProofs("rfv,,published,rfv-formula,adf=28 ndf=35,rfv,178,0.5"); err == nil {
		t.Error("proofs without a header are read")
	}
}

func FuzzParseProofs(f *testing.F) {
	f.Add(header + "rfv,utah,published,rfv-formula,adf=28 ndf=35,rfv,178,0.5")
	f.Add("#\n\"")
	f.Fuzz(func(t *testing.T, text string) {
		proofs, err := ParseProofs(text)
		if err != nil {
			return
		}
		for _, p := range proofs {
			if !(p.Tolerance >= 0) || p.Line < 2 {
				t.Errorf("proof %+v is accepted", p)
			}
		}
	})
}
