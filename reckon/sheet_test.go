package reckon

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haywarden/agronomy/method"
)

// sheetSample takes a sheet and columns of it, and answers with a grid.
func sheetSample(g method.Grid) *method.Method {
	m := sample(func(c *method.Call) error { c.Answer("out", g); return nil })
	m.Inputs = []method.Input{
		{Key: "data", About: "a sheet", Kind: method.Sheet},
		{Key: "by", About: "columns", Kind: method.Terms, Optional: true},
	}
	return m
}

func TestASheetIsReadFromAFileOrInWriting(t *testing.T) {
	files := opener(map[string]string{"t.csv": "\ufeffentry, yield\nWisconsin 38,4.1\nTrebi,\n"})
	want := &method.Table{Header: []string{"entry", "yield"}, Rows: [][]string{{"Wisconsin 38", "4.1"}, {"Trebi", ""}}}
	for _, args := range [][]string{{"@t.csv"}, {"data=@t.csv"}, {"data=entry,yield; Wisconsin 38 , 4.1;Trebi,"}} {
		q, err := Parse(sheetSample(method.Grid{}), append(args, "by=a, b:c"), files)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(want, q.Given[0].Value); diff != "" {
			t.Errorf("%s (-want +got):\n%s", args, diff)
		}
		if diff := cmp.Diff([]string{"a", "b:c"}, q.Given[1].Value); diff != "" {
			t.Errorf("%s (-want +got):\n%s", args, diff)
		}
	}
}

func TestASheetThatCannotBeReadIsToldByPlace(t *testing.T) {
	files := opener(map[string]string{"comma.csv": "entry,yield\n\"Wis, 38\",4\n", "head.csv": "\"a,b\",c\n1,2\n", "one.csv": "a\n1\n"})
	for name, c := range map[string]struct{ args, want string }{
		"a comma in a cell":            {"@comma.csv", `@comma.csv: row 1, column entry: "Wis, 38"; accepted: text without comma or semicolon`},
		"a comma in the header":        {"@head.csv", `row 0, column a,b: "a,b"`},
		"two columns of one name":      {"data=a,a;1,2", `column 2 is headed "a": each column wants a name of its own`},
		"a column without a name":      {"data=a,;1,2", `column 2 is headed ""`},
		"a column named as a crossing": {"data=a:b,c;1,2", `column 1 is headed "a:b"`},
		"rows of unequal length":       {"data=a,b;1,2;3", "row 2 has 1 cells and the header has 2"},
		"a header alone":               {"data=a,b", "there is a header and no row"},
		"half a crossing":              {"data=a;1 by=a:", `"a:" is not written column or column:column`},
		"two sheets":                   {"data=a;1 @one.csv", "data is given twice"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := Parse(sheetSample(method.Grid{}), strings.Fields(c.args), files)
			bad, ok := errors.AsType[*BadInput](err)
			if !ok || !strings.Contains(bad.Error(), c.want) {
				t.Errorf("error %v, want bad input saying %q", err, c.want)
			}
		})
	}
}

func TestAGridIsSetAsATableAndAsObjects(t *testing.T) {
	g := method.Grid{Columns: []string{"df", "f"}, Rows: []method.Line{{Name: "No. 457", Values: []float64{4, 12.5}}, {Name: "error", Values: []float64{10, math.NaN()}}}}
	a, err := Ask(sheetSample(g), []string{"data=a;1"}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if want := "  out      df     f\n  No. 457   4  12.5\n  error    10     -\n"; !strings.Contains(a.Text(), want) || !strings.Contains(a.Text(), "1 rows of a") {
		t.Errorf("want\n%s in\n%s", want, a.Text())
	}
	b, err := a.JSON()
	if want := `"out":[{"df":4,"f":12.5,"name":"No. 457"},{"df":10,"name":"error"}]`; err != nil || !strings.Contains(string(b), want) {
		t.Errorf("want %s in %s, %v", want, b, err)
	}
	if v, err := pick(a, "out.No. 457.f"); err != nil || v != 12.5 {
		t.Errorf("a cell: %v, %v", v, err)
	}
	for _, output := range []string{"out.error.f", "out.none.df", "out.error.none", "out.error", "other.error.df"} {
		if v, err := pick(a, output); err == nil {
			t.Errorf("%s: %v, want an error", output, v)
		}
	}
}

func TestAGridOutOfShapeIsAFault(t *testing.T) {
	for _, values := range [][]float64{{1}, {1, math.Inf(1)}} {
		_, err := Ask(sheetSample(method.Grid{Columns: []string{"df", "f"}, Rows: []method.Line{{Name: "a", Values: values}}}), []string{"data=a;1"}, nil)
		if _, bad := errors.AsType[*BadInput](err); err == nil || bad {
			t.Errorf("%v: %v, want a fault of the method", values, err)
		}
	}
}

// FuzzReadSheet proves that a sheet that is read has a cell in every column of every row.
func FuzzReadSheet(f *testing.F) {
	f.Add("a,b;1,2;3,")
	f.Add(";,;")
	f.Fuzz(func(t *testing.T, text string) {
		s, err := readSheet(text)
		if err != nil {
			return
		}
		for _, row := range s.Rows {
			if len(row) != len(s.Header) {
				t.Errorf("%q: row %q under %q", text, row, s.Header)
			}
		}
	})
}
