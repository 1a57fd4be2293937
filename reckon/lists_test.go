package reckon

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"haywarden/agronomy/method"
	"haywarden/agronomy/unit"
)

// TestListsAreShownAsTheyWereAsked proves that words, named numbers and matrices stand in the text and
// in JSON, where numbers are never rounded.
func TestListsAreShownAsTheyWereAsked(t *testing.T) {
	m := sample(func(c *method.Call) error { c.Answer("out", 1.); return nil })
	a, err := Ask(m, []string{"height=27", "group=high,dry", "need=p2o5:60.12345678,k2o:250", "table=1,2;3,4.5"}, nil)
	if err != nil {
		t.Fatal(err)
	}
	text := a.Text()
	for _, want := range []string{"high, dry", "p2o5:60.1235, k2o:250", "1, 2; 3, 4.5"} {
		if !strings.Contains(text, want) {
			t.Errorf("want %q in\n%s", want, text)
		}
	}
	b, err := a.JSON()
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`"group":["high","dry"]`, `"need":["p2o5:60.12345678","k2o:250"]`, `"table":[[1,2],[3,4.5]]`} {
		if !strings.Contains(string(b), want) {
			t.Errorf("want %s in %s", want, b)
		}
	}
}

// TestAKeyInTwoUnitsTellsBoth proves that JSON says both units where one key goes in and comes out in
// different ones.
func TestAKeyInTwoUnitsTellsBoth(t *testing.T) {
	m := sample(func(c *method.Call) error { c.AnswerIn("height", 2.25, unit.Must("ft")); return nil })
	m.Outputs = []method.Output{{Key: "height", About: "height"}}
	a, err := Ask(m, []string{"height=27"}, nil)
	if err != nil {
		t.Fatal(err)
	}
	b, err := a.JSON()
	if err != nil {
		t.Fatal(err)
	}
	var got struct {
		Inputs, Outputs map[string]any
		Units           map[string]string
	}
	if err := json.Unmarshal(b, &got); err != nil {
		t.Fatal(err)
	}
	want := map[string]string{"height": "ft", "inputs.height": "in"}
	if diff := cmp.Diff(want, got.Units); diff != "" || got.Inputs["height"] != 27. || got.Outputs["height"] != 2.25 {
		t.Errorf("units (-want +got):\n%s\n%s", diff, b)
	}
}

// TestAMatrixIsReadAsItIsWritten proves that what text shows of a matrix can be asked again.
func TestAMatrixIsReadAsItIsWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		columns := rapid.IntRange(1, 5).Draw(t, "columns")
		rows := rapid.SliceOfN(rapid.SliceOfN(rapid.Float64Range(-9, 9), columns, columns), 1, 5).Draw(t, "rows")
		lines := make([]string, len(rows))
		for i, row := range rows {
			lines[i] = joined(row, formatted)
		}
		q, err := Parse(sample(nil), []string{"height=27", "table=" + strings.Join(lines, ";")}, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, g := range q.Given {
			if g.Input.Key == "table" {
				if diff := cmp.Diff(rows, g.Value); diff != "" {
					t.Fatalf("(-written +read):\n%s", diff)
				}
			}
		}
	})
}
