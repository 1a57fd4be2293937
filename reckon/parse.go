package reckon

import (
	"fmt"
	"io"
	"strings"

	"haywarden/agronomy/method"
	"haywarden/agronomy/unit"
)

// Opener opens a file named by the user as @file.csv. Command line, pages and tests pass their own;
// nil means that files cannot be read.
type Opener func(name string) (io.ReadCloser, error)

// Given is one input as it was understood.
type Given struct {
	Input     method.Input
	Unit      unit.Unit
	Value     any  // float64, []float64, string, []string, []method.Reading, []method.Pair, [][]float64, *method.Table or unit.Day, by the input's kind
	ByDefault bool // not given: the declared default was used
}

// Question is a method with all its inputs read and checked.
type Question struct {
	Method *method.Method
	Given  []Given  // in the order of the declaration; what was left out is absent
	Notes  []string // remarks on the inputs: outside the tested range, columns not used
}

// Parse reads the arguments of m: key=value pairs, key=@file.csv for a list, a matrix or a sheet, and
// @file.csv for the sheet of m (several files for its sheets in their order), or for every list whose key is a column of the file. Every error is a *BadInput, apart from a file that cannot
// be read.
func Parse(m *method.Method, args []string, open Opener) (*Question, error) {
	written, notes, err := gather(m, args, open)
	if err != nil {
		return nil, err
	}
	q := &Question{Method: m, Notes: notes}
	for _, in := range m.Inputs {
		given, present, err := q.read(in, written)
		if err != nil {
			return nil, err
		}
		if !present {
			continue
		}
		q.Given = append(q.Given, given)
		if note := untested(given); note != "" {
			q.Notes = append(q.Notes, note)
		}
	}
	return q, nil
}

// gather splits the arguments into the text written for each key.
func gather(m *method.Method, args []string, open Opener) (written map[string]string, notes []string, err error) {
	written = map[string]string{}
	put := func(key, value string) error {
		if _, twice := written[key]; twice {
			return &BadInput{Method: m.Name, Key: key, Text: fmt.Sprintf("%s is given twice; give it once", key)}
		}
		written[key] = value
		return nil
	}
	for _, arg := range args {
		if name, isFile := strings.CutPrefix(arg, "@"); isFile {
			if in, takes := sheetOf(m, written); takes {
				text, err := fromFile(m, in, name, open)
				if err == nil {
					err = put(in.Key, text)
				}
				if err != nil {
					return nil, nil, err
				}
				continue
			}
			columns, unused, err := readColumns(m, name, open)
			if err != nil {
				return nil, nil, err
			}
			for _, c := range columns {
				if err := put(c.key, c.list); err != nil {
					return nil, nil, err
				}
			}
			if len(unused) > 0 {
				notes = append(notes, fmt.Sprintf("%s: columns not used: %s", name, strings.Join(unused, ", ")))
			}
			continue
		}
		key, value, ok := strings.Cut(arg, "=")
		if !ok {
			return nil, nil, &BadInput{Method: m.Name, Text: fmt.Sprintf("%q is not written key=value; accepted keys: %s", arg, keys(m))}
		}
		in, known := m.Input(key)
		if !known {
			return nil, nil, &BadInput{Method: m.Name, Key: key, Text: fmt.Sprintf("%s: unknown key in %q%s; accepted keys: %s", key, arg, didYouMean(key, keyList(m)), keys(m))}
		}
		if name, isFile := strings.CutPrefix(value, "@"); isFile {
			if value, err = fromFile(m, in, name, open); err != nil {
				return nil, nil, err
			}
		}
		if err := put(key, value); err != nil {
			return nil, nil, err
		}
	}
	return written, notes, nil
}

// read understands one input from what was written for it, or from its default.
func (q *Question) read(in method.Input, written map[string]string) (g Given, present bool, err error) {
	text, here := written[in.Key]
	byDefault := !here && in.Default != ""
	switch {
	case here:
	case byDefault:
		text = in.Default
	case in.Optional:
		return Given{}, false, nil
	default:
		return Given{}, false, &BadInput{Method: q.Method.Name, Key: in.Key, Text: fmt.Sprintf("%s is missing; accepted: %s", in.Key, accepted(in, in.Unit))}
	}
	u, err := q.unitOf(in, written)
	if err != nil {
		return Given{}, false, err
	}
	v, err := readValue(strings.TrimSpace(text), in, u)
	if err != nil {
		return Given{}, false, &BadInput{Method: q.Method.Name, Key: in.Key, Text: fmt.Sprintf("%s=%s: %v; accepted: %s", in.Key, shorten(text), err, accepted(in, u))}
	}
	return Given{Input: in, Unit: u, Value: v, ByDefault: byDefault}, true, nil
}

// unitOf returns the unit in which an input is read: the declared one, or the one that a word input
// names, which may stand anywhere among the arguments.
func (q *Question) unitOf(in method.Input, written map[string]string) (unit.Unit, error) {
	if in.UnitFrom == "" {
		return declared(in.Unit), nil
	}
	chooser, _ := q.Method.Input(in.UnitFrom)
	g, present, err := q.read(chooser, written)
	if err != nil || !present {
		return declared(in.Unit), err
	}
	word, _ := g.Value.(string)
	u, ok := unit.Lookup(word)
	if !ok {
		return unit.Unit{}, fmt.Errorf("%s: %s chooses %q, which is no unit; this is a fault in the declaration", q.Method.Name, chooser.Key, word)
	}
	return u, nil
}

// declared reads a unit left out of a declaration as no unit.
func declared(u unit.Unit) unit.Unit {
	if u == (unit.Unit{}) {
		return unit.None
	}
	return u
}

// call hands the inputs to a fresh run of the method. Moved constants are for the mutation test.
func (q *Question) call(moved map[string]float64) *method.Call {
	c := method.NewCall(q.Method, moved)
	for _, g := range q.Given {
		switch v := g.Value.(type) {
		case float64:
			c.SetNum(g.Input.Key, v)
		case []float64:
			c.SetList(g.Input.Key, v)
		case string:
			c.SetWord(g.Input.Key, v)
		case []method.Reading:
			c.SetReadings(g.Input.Key, v)
		case []string:
			c.SetWords(g.Input.Key, v)
		case []method.Pair:
			c.SetPairs(g.Input.Key, v)
		case [][]float64:
			c.SetRows(g.Input.Key, v)
		case *method.Table:
			c.SetSheet(g.Input.Key, v)
		case unit.Day:
			c.SetDay(g.Input.Key, v)
		}
	}
	return c
}

func keyList(m *method.Method) []string {
	var ks []string
	for _, in := range m.Inputs {
		ks = append(ks, in.Key)
	}
	return ks
}

func keys(m *method.Method) string { return strings.Join(keyList(m), ", ") }

// shorten keeps a long list from filling the one line of an error.
func shorten(s string) string {
	const most = 40
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "..."
	}
	return s
}
