package reckon

import (
	"encoding/json"
	"strings"
	"testing"
	"unicode/utf8"
)

// TestListNamesEveryMethodInALine proves that nothing declared is hidden, in text or in JSON.
func TestListNamesEveryMethodInALine(t *testing.T) {
	b, err := ListJSON()
	if err != nil {
		t.Fatal(err)
	}
	var list []struct{ Reckoning, Discipline, Title string }
	if err := json.Unmarshal(b, &list); err != nil {
		t.Fatal(err)
	}
	if len(list) != len(methods()) {
		t.Errorf("JSON lists %d of %d methods", len(list), len(methods()))
	}
	lines := strings.Split(ListText(), "\n")
	for _, m := range list {
		found := 0
		for _, l := range lines {
			if f := strings.Fields(l); len(f) > 1 && f[0] == m.Reckoning && strings.HasSuffix(l, "  "+m.Title) && strings.HasPrefix(l, "  ") {
				found++
			}
		}
		if found != 1 {
			t.Errorf("%s stands in %d lines of\n%s", m.Reckoning, found, ListText())
		}
	}
}

// TestDescriptionTellsAllThatIsDeclared proves that every input, output, constant and source of every
// method is told, with the example to copy.
func TestDescriptionTellsAllThatIsDeclared(t *testing.T) {
	for _, m := range methods() {
		text, err := DescribeText(m)
		if err != nil {
			t.Fatal(err)
		}
		for _, in := range m.Inputs {
			if !strings.Contains(text, "\n  "+in.Key+" ") {
				t.Errorf("%s: input %s is not told in\n%s", m.Name, in.Key, text)
			}
		}
		for _, out := range m.Outputs {
			if !strings.Contains(text, "\n  "+out.Key+" ") {
				t.Errorf("%s: output %s is not told", m.Name, out.Key)
			}
		}
		for _, k := range m.Constants {
			if !strings.Contains(text, "\n  "+k.Key+" ") || !strings.Contains(text, "\n  - "+string(k.Source)+": ") {
				t.Errorf("%s: constant %s or its source is not told", m.Name, k.Key)
			}
		}
		if !strings.HasSuffix(text, "\nExample\n  haywarden reckon "+m.Name+" "+m.Example+"\n") {
			t.Errorf("%s: no example ends\n%s", m.Name, text)
		}
		b, err := DescribeJSON(m)
		if err != nil {
			t.Fatal(err)
		}
		var d struct {
			Inputs, Outputs, Constants, Sources []any
		}
		if err := json.Unmarshal(b, &d); err != nil {
			t.Fatal(err)
		}
		if len(d.Inputs) != len(m.Inputs) || len(d.Outputs) != len(m.Outputs) || len(d.Constants) != len(m.Constants) || len(d.Sources) == 0 {
			t.Errorf("%s: JSON leaves something out: %s", m.Name, b)
		}
	}
}

// TestTextKeepsToThePage proves that no line for people is wider than the page, save one long word
// or the command to copy.
func TestTextKeepsToThePage(t *testing.T) {
	for _, m := range methods() {
		described, err := DescribeText(m)
		if err != nil {
			t.Fatal(err)
		}
		described, _, _ = strings.Cut(described, "\nExample\n")
		a, err := Ask(m, strings.Fields(m.Example), nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, text := range []string{ListText(), described, a.Text()} {
			for line := range strings.SplitSeq(text, "\n") {
				if utf8.RuneCountInString(line) > wide || strings.TrimRight(line, " ") != line {
					t.Errorf("%s: %q is too wide or ends in blanks", m.Name, line)
				}
			}
		}
	}
}

func TestNeedSaysWhatMustBeGiven(t *testing.T) {
	for key, want := range map[string]string{"height": "required", "counts": "optional", "scheme": "default usda"} {
		in, _ := sample(nil).Input(key)
		if got := need(in); got != want {
			t.Errorf("%s is %q, want %q", key, got, want)
		}
	}
	in, _ := sample(nil).Input("tmin")
	if got, want := takes(in), "comma-separated numbers -40 to 140 F, in the unit that degrees names"; got != want {
		t.Errorf("tmin takes %q, want %q", got, want)
	}
}
