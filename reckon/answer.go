package reckon

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

// Answer is a method run on one set of inputs.
type Answer struct {
	Method  *method.Method
	Given   []Given
	Outputs []Answered
	Sources []source.Source
	Notes   []string
}

// Answered is one output with its value: float64, []float64, []method.Pair, string, []string, bool,
// unit.Day or method.Grid.
type Answered struct {
	Output method.Output
	Unit   unit.Unit
	Value  any
}

// Ask reads the arguments of m, runs it and returns its answer. What the asker did wrong is a
// *BadInput; any other error is a file that cannot be read or a fault of the method.
func Ask(m *method.Method, args []string, open Opener) (*Answer, error) {
	q, err := Parse(m, args, open)
	if err != nil {
		return nil, err
	}
	return q.Run()
}

// Run answers the question.
func (q *Question) Run() (*Answer, error) { return q.run(nil) }

func (q *Question) run(moved map[string]float64) (*Answer, error) {
	c := q.call(moved)
	if err := q.Method.Run(c); err != nil {
		return nil, &BadInput{Method: q.Method.Name, Text: err.Error()}
	}
	outputs, err := collect(q.Method, c)
	if err != nil {
		return nil, fmt.Errorf("%s: %w; this is a fault in the method, not in what was asked", q.Method.Name, err)
	}
	sources, err := restsOn(q.Method)
	if err != nil {
		return nil, err
	}
	a := &Answer{Method: q.Method, Given: q.Given, Outputs: outputs, Sources: sources}
	a.Notes = slices.Concat(q.Notes, c.Notes(), recalled(q.Method, sources))
	return a, nil
}

// recalled names the constants whose source was recalled and not read.
func recalled(m *method.Method, sources []source.Source) []string {
	var notes []string
	for _, s := range sources {
		if s.Grade != source.FromMemory {
			continue
		}
		var keys []string
		for _, k := range m.Constants {
			if k.Source == s.ID {
				keys = append(keys, k.Key)
			}
		}
		if len(keys) > 0 {
			notes = append(notes, fmt.Sprintf("recalled and not read: %s (%s)", strings.Join(keys, ", "), s.Cite))
		}
	}
	return notes
}

// collect takes the answered outputs in declared order. An output nobody declared, a declared one
// that is missing without a reason, and a number that is none are faults.
func collect(m *method.Method, c *method.Call) ([]Answered, error) {
	left := c.Outputs()
	outputs := make([]Answered, 0, len(m.Outputs))
	for _, out := range m.Outputs {
		v, ok := left[out.Key]
		if !ok {
			if out.When == "" {
				return nil, fmt.Errorf("output %s is declared and not answered", out.Key)
			}
			continue
		}
		v, err := checked(v, out.Never != "")
		if err != nil {
			return nil, fmt.Errorf("output %s: %w", out.Key, err)
		}
		outputs = append(outputs, Answered{Output: out, Unit: declared(c.UnitOf(out)), Value: v})
	}
	if len(outputs) < len(left) {
		for key := range left {
			if !slices.ContainsFunc(m.Outputs, func(o method.Output) bool { return o.Key == key }) {
				return nil, fmt.Errorf("output %s is answered and not declared", key)
			}
		}
	}
	return outputs, nil
}

// checked brings an answered value to one of the forms of [Answered]. Negative zero becomes zero, so
// that no -0 is shown.
func checked(v any, mayBeNever bool) (any, error) {
	number := func(v float64) (float64, error) {
		if math.IsNaN(v) || math.IsInf(v, -1) || math.IsInf(v, 1) && !mayBeNever {
			return 0, fmt.Errorf("%g is not a number one can use", v)
		}
		return v + 0, nil
	}
	switch v := v.(type) {
	case float64:
		return number(v)
	case int:
		return float64(v), nil
	case []float64:
		list := make([]float64, len(v))
		for i := range v {
			n, err := number(v[i])
			if err != nil {
				return nil, fmt.Errorf("item %d: %w", i, err)
			}
			list[i] = n
		}
		return list, nil
	case method.Grid:
		return checkedGrid(v)
	case []method.Pair:
		list := make([]method.Pair, len(v))
		for i, p := range v {
			n, err := number(p.Value)
			if err != nil {
				return nil, fmt.Errorf("%s: %w", p.Name, err)
			}
			list[i] = method.Pair{Name: p.Name, Value: n}
		}
		return list, nil
	case []string, string, bool, unit.Day:
		return v, nil
	}
	return nil, fmt.Errorf("%T is no form an answer takes", v)
}

// restsOn lists the sources of a method, those of its constants after its own.
func restsOn(m *method.Method) ([]source.Source, error) {
	ids := slices.Clone(m.Sources)
	for _, k := range m.Constants {
		ids = append(ids, k.Source)
	}
	var list []source.Source
	for i, id := range ids {
		if slices.Contains(ids[:i], id) {
			continue
		}
		s, ok := source.Find(id)
		if !ok {
			return nil, fmt.Errorf("%s: no source is called %q", m.Name, id)
		}
		list = append(list, s)
	}
	return list, nil
}
