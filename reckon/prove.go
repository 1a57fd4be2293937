package reckon

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

// Proven is one printed answer beside ours.
type Proven struct {
	Proof      method.Proof
	Source     source.Source
	Numeric    bool    // both answers are numbers: Printed, Number and Difference hold
	Printed    float64 // the printed number
	Number     float64 // ours, not rounded
	Difference float64 // ours less the printed one
	Word       string  // ours where it is no number
	Failure    string  // why it is not reproduced or could not run; empty: reproduced
}

// Tally counts the proofs of one tag.
type Tally struct {
	Tag    method.Tag
	Tables int // tables and single answers
	Values int // printed values in them
	Failed int // values that are not reproduced or could not run
}

// Prove runs every proof shipped, or those of the method named only. A list that cannot be read, an
// unknown method and a method that has no proof are errors.
func Prove(only string) ([]Proven, error) { return prove(Disciplines(), only) }

func prove(list []Discipline, only string) ([]Proven, error) {
	if only != "" {
		if _, err := find(list, only); err != nil {
			return nil, err
		}
	}
	var all []Proven
	for _, d := range list {
		proofs, err := method.ParseProofs(d.Proofs)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", d.Name, err)
		}
		for _, p := range proofs {
			if only != "" && p.Method != only {
				continue
			}
			m, err := find(list, p.Method)
			if err != nil {
				all = append(all, Proven{Proof: p, Failure: "cannot run: " + err.Error()})
				continue
			}
			all = append(all, proveWith(m, p, nil))
		}
	}
	if len(all) == 0 {
		return nil, fmt.Errorf("no proof is shipped for %s", only)
	}
	return all, nil
}

// Count tallies proofs by tag. A table counts once, whoever uses it; an answer that belongs to none
// counts as a table of one.
func Count(proven []Proven) []Tally {
	tallies := []Tally{{Tag: method.PublishedAnswer}, {Tag: method.ReferenceLibrary}, {Tag: method.FittedTable}, {Tag: method.OwnArithmetic}}
	type table struct {
		tag    method.Tag
		source source.ID
		name   string
	}
	seen := map[table]bool{}
	for _, p := range proven {
		for i := range tallies {
			t := &tallies[i]
			if t.Tag != p.Proof.Tag {
				continue
			}
			t.Values++
			if p.Failure != "" {
				t.Failed++
			}
			at := table{p.Proof.Tag, p.Proof.Source, p.Proof.Table}
			if p.Proof.Table == "" || !seen[at] {
				t.Tables++
				seen[at] = true
			}
		}
	}
	return tallies
}

// Failed counts the proofs that are not reproduced or could not run.
func Failed(proven []Proven) int {
	n := 0
	for _, p := range proven {
		if p.Failure != "" {
			n++
		}
	}
	return n
}

// proveWith runs one proof on m with some constants moved.
func proveWith(m *method.Method, p method.Proof, moved map[string]float64) Proven {
	r := Proven{Proof: p}
	s, ok := source.Find(p.Source)
	if !ok {
		r.Failure = fmt.Sprintf("cannot run: no source is called %q", p.Source)
		return r
	}
	r.Source = s
	q, err := Parse(m, strings.Fields(p.Inputs), shipped(m))
	if err != nil {
		r.Failure = "cannot run: " + err.Error()
		return r
	}
	a, err := q.run(moved)
	if err != nil {
		r.Failure = "cannot run: " + err.Error()
		return r
	}
	ours, err := pick(a, p.Output)
	if err != nil {
		r.Failure = "cannot run: " + err.Error()
		return r
	}
	compare(&r, ours)
	return r
}

// shipped opens the files that m's proofs name.
func shipped(m *method.Method) Opener {
	return func(name string) (io.ReadCloser, error) {
		text, ok := m.Sheets[name]
		if !ok {
			return nil, fmt.Errorf("no proof of %s has a file %s", m.Name, name)
		}
		return io.NopCloser(strings.NewReader(text)), nil
	}
}

// compare sets our answer against the printed one.
func compare(r *Proven, ours any) {
	v, isNumber := ours.(float64)
	if !isNumber || math.IsInf(v, 0) {
		r.Word = sayWord(ours)
		if r.Word != r.Proof.Want {
			r.Failure = fmt.Sprintf("%q stands against the printed %q", r.Word, r.Proof.Want)
		}
		return
	}
	want, err := strconv.ParseFloat(r.Proof.Want, 64)
	if err != nil || math.IsNaN(want) || math.IsInf(want, 0) {
		r.Word = plain(v)
		r.Failure = fmt.Sprintf("a number stands against the printed word %q", r.Proof.Want)
		return
	}
	r.Numeric, r.Printed, r.Number, r.Difference = true, want, v, v-want
	if !(math.Abs(r.Difference) <= r.Proof.Tolerance) {
		r.Failure = fmt.Sprintf("off by %s, %s allowed", plain(r.Difference), plain(r.Proof.Tolerance))
	}
}

func sayWord(v any) string {
	switch v := v.(type) {
	case float64: // +Inf, the only number that comes here
		return "none"
	case bool:
		if v {
			return "yes"
		}
		return "no"
	case unit.Day:
		return v.String()
	}
	return fmt.Sprint(v)
}

// pick takes one value of an answer: an output key, with an index for a list, with row and column for
// a grid: `table.Variety.f`.
func pick(a *Answer, output string) (any, error) {
	if key, place, ok := strings.Cut(output, "."); ok {
		return pickCell(a, key, place)
	}
	key, index, isList := strings.Cut(strings.TrimSuffix(output, "]"), "[")
	for _, o := range a.Outputs {
		if o.Output.Key != key {
			continue
		}
		if !isList {
			switch o.Value.(type) {
			case []float64, []string:
				return nil, fmt.Errorf("output %s is a list; write %s[0] for its first item", key, key)
			case []method.Pair:
				return nil, fmt.Errorf("output %s has names; write %s[NAME] for one", key, key)
			}
			return o.Value, nil
		}
		if named, ok := o.Value.([]method.Pair); ok {
			for _, p := range named {
				if p.Name == index {
					return p.Value, nil
				}
			}
			return nil, fmt.Errorf("output %s has no %s", key, index)
		}
		i, err := strconv.Atoi(index)
		if err != nil {
			return nil, fmt.Errorf("output %q: %q is no index", output, index)
		}
		switch list := o.Value.(type) {
		case []float64:
			if i >= 0 && i < len(list) {
				return list[i], nil
			}
			return nil, fmt.Errorf("output %s has %d items, none at %d", key, len(list), i)
		case []string:
			if i >= 0 && i < len(list) {
				return list[i], nil
			}
			return nil, fmt.Errorf("output %s has %d items, none at %d", key, len(list), i)
		}
		return nil, fmt.Errorf("output %s is no list", key)
	}
	return nil, fmt.Errorf("%s does not answer %s with these inputs", a.Method.Name, key)
}
