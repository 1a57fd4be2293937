package reckon

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

var (
	nameForm = regexp.MustCompile(`^[a-z][a-z0-9]*(-[a-z0-9]+)*$`)
	keyForm  = regexp.MustCompile(`^[A-Za-z][a-z0-9]*(_[a-z0-9]+)*$`)
)

func TestEveryMethodIsDeclaredWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, m := range methods() {
		if seen[m.Name] {
			t.Errorf("%s: declared twice", m.Name)
		}
		seen[m.Name] = true
		if !nameForm.MatchString(m.Name) {
			t.Errorf("%q: a name is small letters and hyphens", m.Name)
		}
		if m.Title == "" || m.About == "" || m.Run == nil || m.Example == "" || len(m.Outputs) == 0 || len(m.Sources) == 0 {
			t.Errorf("%s: title, about, run, example, outputs and sources are all wanted", m.Name)
		}
		for _, id := range m.Sources {
			if _, ok := source.Find(id); !ok {
				t.Errorf("%s: no source is called %q", m.Name, id)
			}
		}
		checkInputs(t, m)
		checkOutputs(t, m)
		checkConstants(t, m)
	}
}

func checkInputs(t *testing.T, m *method.Method) {
	t.Helper()
	seen := map[string]bool{}
	for _, in := range m.Inputs {
		at := m.Name + " input " + in.Key
		if seen[in.Key] || !keyForm.MatchString(in.Key) {
			t.Errorf("%s: a key is declared once, in small letters", at)
		}
		seen[in.Key] = true
		if in.About == "" {
			t.Errorf("%s: says nothing about itself", at)
		}
		if in.Default != "" && in.Optional {
			t.Errorf("%s: has a default and is optional", at)
		}
		if in.UnitFrom != "" {
			chooser, ok := m.Input(in.UnitFrom)
			if !ok || chooser.Kind != method.Word || len(chooser.Choices) == 0 {
				t.Errorf("%s: takes its unit from %q, which is no word with choices", at, in.UnitFrom)
			}
			for _, c := range chooser.Choices {
				if _, ok := unit.Lookup(c); !ok {
					t.Errorf("%s: choice %q of %s is no unit", at, c, in.UnitFrom)
				}
			}
		}
		for _, r := range []method.Range{in.Accepted, in.Tested} {
			if math.IsInf(r.Low, 0) || math.IsInf(r.High, 0) || r != (method.Range{}) && !(r.Low < r.High) {
				t.Errorf("%s: range %g to %g", at, r.Low, r.High)
			}
		}
		if in.Tested != (method.Range{}) && !(in.Accepted.Holds(in.Tested.Low) && in.Accepted.Holds(in.Tested.High)) {
			t.Errorf("%s: tested outside what is accepted", at)
		}
		if in.Default != "" && in.UnitFrom == "" {
			if _, err := readValue(in.Default, in, declared(in.Unit)); err != nil {
				t.Errorf("%s: default %q: %v", at, in.Default, err)
			}
		}
	}
}

func checkOutputs(t *testing.T, m *method.Method) {
	t.Helper()
	seen := map[string]bool{}
	for _, out := range m.Outputs {
		if seen[out.Key] || !keyForm.MatchString(out.Key) || out.About == "" {
			t.Errorf("%s output %s: declared once, in small letters, with a phrase about it", m.Name, out.Key)
		}
		seen[out.Key] = true
		if in, ok := m.Input(out.Key); ok && in.Unit != out.Unit && (in.Unit.Symbol == "" || out.Unit.Symbol == "") {
			t.Errorf("%s: %s goes in as %q and comes out as %q: one of them has no unit, and JSON would show it with the other's", m.Name, out.Key, in.Unit.Symbol, out.Unit.Symbol)
		}
	}
}

func checkConstants(t *testing.T, m *method.Method) {
	t.Helper()
	seen := map[string]bool{}
	for _, k := range m.Constants {
		at := m.Name + " constant " + k.Key
		if seen[k.Key] {
			t.Errorf("%s: declared twice", at)
		}
		seen[k.Key] = true
		if _, ok := source.Find(k.Source); !ok {
			t.Errorf("%s: no source is called %q", at, k.Source)
		}
		if k.Exempt != "" && len(strings.Fields(k.Exempt)) < 3 {
			t.Errorf("%s: exempt for %q, which is no reason", at, k.Exempt)
		}
	}
}

// TestExampleAnswers proves that what a user copies from the description works, within the tested
// ranges.
func TestExampleAnswers(t *testing.T) {
	for _, m := range methods() {
		a, err := Ask(m, strings.Fields(m.Example), nil)
		if err != nil {
			t.Errorf("%s %s: %v", m.Name, m.Example, err)
			continue
		}
		for _, n := range a.Notes {
			if strings.Contains(n, "where this was tested") {
				t.Errorf("%s: the example lies outside the tested range: %s", m.Name, n)
			}
		}
		if _, err := a.JSON(); err != nil {
			t.Errorf("%s: %v", m.Name, err)
		}
	}
}

// TestEveryOutputIsAnswered proves that each declared output comes out of the example or of a proof.
// (The other way round, an answer that nobody declared is an error of every run.)
func TestEveryOutputIsAnswered(t *testing.T) {
	runs := map[string][]string{}
	for _, m := range methods() {
		runs[m.Name] = []string{m.Example}
	}
	for _, p := range shippedProofs(t) {
		runs[p.Method] = append(runs[p.Method], p.Inputs)
	}
	for _, m := range methods() {
		answered := map[string]bool{}
		for _, inputs := range runs[m.Name] {
			if a, err := Ask(m, strings.Fields(inputs), shipped(m)); err == nil {
				for _, o := range a.Outputs {
					answered[o.Output.Key] = true
				}
			}
		}
		for _, out := range m.Outputs {
			if !answered[out.Key] {
				t.Errorf("%s: output %s comes out of neither the example nor a proof", m.Name, out.Key)
			}
		}
	}
}

// TestProofsLeanOnWhatTheySay proves that each proof names a declared method and an existing source,
// and that its tag fits the grade of that source.
func TestProofsLeanOnWhatTheySay(t *testing.T) {
	fits := map[method.Tag][]source.Grade{
		method.PublishedAnswer:  {source.Published, source.Secondhand, source.Dataset, source.FromMemory},
		method.ReferenceLibrary: {source.Library},
		method.FittedTable:      {source.Published, source.Secondhand, source.Derived},
		method.OwnArithmetic:    {source.Derived, source.Choice, source.Published, source.Secondhand, source.CommonPractice, source.FromMemory, source.Library},
	}
	for _, p := range shippedProofs(t) {
		m, err := Find(p.Method)
		if err != nil {
			t.Errorf("line %d: %v", p.Line, err)
			continue
		}
		s, ok := source.Find(p.Source)
		if !ok {
			t.Errorf("%s line %d: no source is called %q", m.Name, p.Line, p.Source)
			continue
		}
		if !slices.Contains(fits[p.Tag], s.Grade) {
			t.Errorf("%s line %d: tagged %s on source %s, which is %s", m.Name, p.Line, p.Tag, s.ID, s.Grade)
		}
	}
}

// TestEveryMethodHasAProof proves that nothing is offered unproven.
func TestEveryMethodHasAProof(t *testing.T) {
	proven := map[string]bool{}
	for _, p := range shippedProofs(t) {
		proven[p.Method] = true
	}
	for _, m := range methods() {
		if !proven[m.Name] {
			t.Errorf("%s ships no proof", m.Name)
		}
	}
}

func shippedProofs(t *testing.T) []method.Proof {
	t.Helper()
	var all []method.Proof
	for _, d := range Disciplines() {
		proofs, err := method.ParseProofs(d.Proofs)
		if err != nil {
			t.Fatalf("%s: %v", d.Name, err)
		}
		all = append(all, proofs...)
	}
	return all
}
