package exchange

import (
	"strings"
	"testing"
)

func TestATrialTableIsReadUnderAnyNames(t *testing.T) {
	got, err := ReadTrial(strings.NewReader("Cultivar;Site;Harvest Year;Rep;DM yield (t/ac);RFQ;Remark\nAster;North;2024;1;5,1;150;fine\nBriar;North;2024;1;.;148;\nAster;South;2025;1;4,2;;\n"), "t.csv", TrialColumns{})
	if err != nil {
		t.Fatal(err)
	}
	if strings.Join(got.Traits, "|") != "DM yield (t/ac)|RFQ" || strings.Join(got.Unused, "|") != "Remark" || len(got.Rows) != 3 {
		t.Fatalf("%+v", got)
	}
	r := got.Rows[1]
	if r.Entry != "Briar" || r.Place != "North" || r.Year != "2024" || r.Block != "1" || r.Values[0] != nil || *r.Values[1] != 148 || *got.Rows[0].Values[0] != 5.1 {
		t.Errorf("%+v", r)
	}
	if name, err := got.Trait("dm_yield t/ac"); err != nil || name != "DM yield (t/ac)" {
		t.Errorf("%q, %v", name, err)
	}
}

func TestATrialTableThatCannotBeReadSaysWhere(t *testing.T) {
	for want, c := range map[string]struct {
		text   string
		called TrialColumns
	}{
		"no column says which entry": {"plot,yield\n1,5\n", TrialColumns{}},
		"no column Sort":             {"entry,yield\nA,5\n", TrialColumns{Entry: "Sort"}},
		"asked to say two things":    {"entry,yield\nA,5\n", TrialColumns{Entry: "entry", Block: "entry"}},
		"is empty: each row says":    {"entry,yield\nA,5\n,6\n", TrialColumns{}},
		"no column holds what":       {"entry,remark\nA,good\n", TrialColumns{}},
	} {
		if _, err := ReadTrial(strings.NewReader(c.text), "t.csv", c.called); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v; want %q", c.text, err, want)
		}
	}
	got, err := ReadTrial(strings.NewReader("entry,yield,rfq\nA,5,150\nB,five,149\n"), "t.csv", TrialColumns{})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := got.Trait("yield"); err == nil || !strings.Contains(err.Error(), `row 3, column yield: "five" is not a number`) {
		t.Error(err)
	}
	if _, err := got.Trait("height"); err == nil || !strings.Contains(err.Error(), "those are rfq") {
		t.Error(err)
	}
}

func FuzzReadTrial(f *testing.F) {
	f.Add("entry,site,year,rep,yield\nA,X,2024,1,5.1\n")
	f.Add("entry;yield\nA;5,1\n")
	f.Fuzz(func(t *testing.T, text string) {
		got, err := ReadTrial(strings.NewReader(text), "f.csv", TrialColumns{})
		if err != nil {
			return
		}
		for _, r := range got.Rows {
			if len(r.Values) != len(got.Traits) || r.Entry == "" {
				t.Fatalf("%+v of %v", r, got.Traits)
			}
		}
	})
}
