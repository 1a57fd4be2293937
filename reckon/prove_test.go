package reckon

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

// provable is a discipline of one method that answers something of every form.
func provable(proofs string) []Discipline {
	m := sample(func(c *method.Call) error {
		c.Answer("out", c.Num("height"))
		c.Answer("list", []float64{1, math.Inf(1)})
		c.Answer("words", []string{"a", "b"})
		c.Answer("named", []method.Pair{{Name: "map", Value: 3}})
		c.Answer("word", "1")
		c.Answer("yes", true)
		c.Answer("day", unit.DateOf(2026, 5, 19))
		return nil
	})
	for _, key := range []string{"list", "words", "named", "word", "yes", "day"} {
		m.Outputs = append(m.Outputs, method.Output{Key: key, About: key, Never: "none"})
	}
	m.Outputs = append(m.Outputs, method.Output{Key: "rare", About: "rare", When: "never here"})
	return []Discipline{{"sampling", []*method.Method{m}, "method,table,tag,source,inputs,output,want,tolerance\n" + proofs}}
}

func TestAProofIsGreenOnlyWhereWeAgree(t *testing.T) {
	for _, tc := range []struct{ name, proof, failure string }{
		{"within the tolerance", "sample,,published,rfv-formula,height=27,out,27.4,0.5", ""},
		{"on the edge of it", "sample,,published,rfv-formula,height=27,out,27.5,0.5", ""},
		{"beyond it", "sample,,published,rfv-formula,height=27,out,28,0.5", "off by -1, 0.5 allowed"},
		{"no tolerance", "sample,,published,rfv-formula,height=27,out,27.0,", ""},
		{"an item of a list", "sample,,published,rfv-formula,height=27,list[0],1,0", ""},
		{"never", "sample,,published,rfv-formula,height=27,list[1],none,", ""},
		{"a word that looks like a number", "sample,,published,rfv-formula,height=27,word,1,", ""},
		{"another word", "sample,,published,rfv-formula,height=27,word,2,", `"1" stands against the printed "2"`},
		{"a word of a list", "sample,,published,rfv-formula,height=27,words[1],b,", ""},
		{"a named number", "sample,,published,rfv-formula,height=27,named[map],3,", ""},
		{"a name that is not there", "sample,,published,rfv-formula,height=27,named[tsp],3,", "cannot run: output named has no tsp"},
		{"named numbers without a name", "sample,,published,rfv-formula,height=27,named,3,", "cannot run: output named has names; write named[NAME] for one"},
		{"yes", "sample,,published,rfv-formula,height=27,yes,yes,", ""},
		{"a day", "sample,,published,rfv-formula,height=27,day,2026-05-19,", ""},
		{"a printed word for our number", "sample,,published,rfv-formula,height=27,out,high,", `a number stands against the printed word "high"`},
		{"a printed NaN", "sample,,published,rfv-formula,height=27,out,NaN,1", `a number stands against the printed word "NaN"`},
		{"an unknown source", "sample,,published,no-such,height=27,out,27,", `cannot run: no source is called "no-such"`},
		{"an unknown method", "simple,,published,rfv-formula,height=27,out,27,", "cannot run: no reckoning is called \"simple\" (did you mean sample?); `haywarden reckon` lists them all"},
		{"inputs that are refused", "sample,,published,rfv-formula,height=99,out,27,", "cannot run: sample: height=99: 99 in is outside the accepted range; accepted: a number 2 to 60 in"},
		{"an unknown output", "sample,,published,rfv-formula,height=27,up,27,", "cannot run: sample does not answer up with these inputs"},
		{"an output not answered this time", "sample,,published,rfv-formula,height=27,rare,27,", "cannot run: sample does not answer rare with these inputs"},
		{"a list without an index", "sample,,published,rfv-formula,height=27,list,27,", "cannot run: output list is a list; write list[0] for its first item"},
		{"an index beyond the list", "sample,,published,rfv-formula,height=27,list[2],27,", "cannot run: output list has 2 items, none at 2"},
		{"an index of words beyond the list", "sample,,published,rfv-formula,height=27,words[-1],a,", "cannot run: output words has 2 items, none at -1"},
		{"an index that is none", "sample,,published,rfv-formula,height=27,list[x],27,", `cannot run: output "list[x]": "x" is no index`},
		{"an index on a number", "sample,,published,rfv-formula,height=27,out[0],27,", "cannot run: output out is no list"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			proven, err := prove(provable(tc.proof), "")
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(tc.failure, proven[0].Failure); diff != "" {
				t.Errorf("failure (-want +got):\n%s", diff)
			}
			if want := map[bool]int{true: 0, false: 1}[tc.failure == ""]; Failed(proven) != want {
				t.Errorf("%d failed, want %d", Failed(proven), want)
			}
		})
	}
}

// TestATableCountsOnce proves that the long printed tables do not swell the count, that an answer of
// no table counts alone, and that tags are kept apart.
func TestATableCountsOnce(t *testing.T) {
	proven, err := prove(provable(`sample,grid,published,rfv-formula,height=27,out,27,0
sample,grid,published,rfv-formula,height=28,out,28,0
sample,grid,fitted,rfv-formula,height=28,out,28,0
sample,,published,rfv-formula,height=28,out,28,0
sample,,published,rfv-formula,height=29,out,28,0
sample,grid,arithmetic,rfv-error,height=29,out,29,0
sample,grid,published,rfv-formula,height=30,out,30,0
`), "sample")
	if err != nil {
		t.Fatal(err)
	}
	want := []Tally{
		{method.PublishedAnswer, 3, 5, 1}, {method.ReferenceLibrary, 0, 0, 0}, {method.FittedTable, 1, 1, 0}, {method.OwnArithmetic, 1, 1, 0},
	}
	if diff := cmp.Diff(want, Count(proven)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestProveTellsWhatIsNotThere(t *testing.T) {
	if _, err := Prove("no-such"); err == nil {
		t.Error("proving an unknown method is no error")
	}
	if _, err := prove(provable(""), "sample"); err == nil {
		t.Error("proving a method without a proof is no error")
	}
	if _, err := prove(provable("sample,,guess,rfv-formula,height=27,out,27,0"), ""); err == nil {
		t.Error("a list of proofs that cannot be read is no error")
	}
}

// TestEveryShippedProofIsGreen is `haywarden prove` within the tests.
func TestEveryShippedProofIsGreen(t *testing.T) {
	proven, err := Prove("")
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range proven {
		if p.Failure != "" {
			t.Errorf("%s line %d, %s: %s", p.Proof.Method, p.Proof.Line, p.Proof.Inputs, p.Failure)
		}
	}
}

// TestALongTableIsOneLine proves that a table is told by its worst difference unless all is asked
// for, and that what failed in it is shown either way.
func TestALongTableIsOneLine(t *testing.T) {
	var grid strings.Builder
	for _, row := range []string{"10,10", "11,11.25", "12,12", "13,13", "14,14", "15,15", "16,17", "17,17", "18,18"} {
		height, want, _ := strings.Cut(row, ",")
		grid.WriteString("sample,grid,published,rfv-formula,height=" + height + ",out," + want + ",0.5\n")
	}
	proven, err := prove(provable(grid.String()), "")
	if err != nil {
		t.Fatal(err)
	}
	short, long := ProofText(proven, false), ProofText(proven, true)
	for _, want := range []string{"9 values, 1 FAILED; worst out of height=16", "height=16 out printed 17 ours 16 FAILED off by -1, 0.5 allowed"} {
		if !strings.Contains(strings.Join(strings.Fields(short), " "), strings.Join(strings.Fields(want), " ")) {
			t.Errorf("want %q in\n%s", want, short)
		}
	}
	if strings.Contains(short, "height=11 ") || !strings.Contains(long, "height=11 ") {
		t.Errorf("a reproduced value stands in the short text, or not in the long one:\n%s\n%s", short, long)
	}
	b, err := ProofJSON(proven)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`"published":11.25,"ours":11,"difference":-0.25,"tolerance":0.5,"ok":true`, `"failed":1}`} {
		if !strings.Contains(string(b), want) {
			t.Errorf("want %s in\n%s", want, b)
		}
	}
	s, _ := source.Find(source.RFVFormula)
	if !strings.Contains(string(b), s.Cite) {
		t.Error("the source is not cited")
	}
}
