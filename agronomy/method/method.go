// Package method declares calculations as data: what goes in with which unit and range, what comes
// out, which published constants it uses, where it is published and which printed answers it must
// reproduce. Command line, pages, documents and tests are all drawn from a declaration.
package method

import (
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

// Kind is the form of an input.
type Kind int

// The forms an input takes.
const (
	Number   Kind = iota // one number
	Numbers              // comma-separated numbers
	Word                 // one of Choices
	Readings             // comma-separated height:stage pairs
	Days                 // comma-separated day numbers of the year, or `none` for a year without the event
	Date                 // YYYY-MM-DD
	Words                // comma-separated words, each one of Choices where there are any
	Pairs                // comma-separated name:number, each name once and one of Choices where there are any
	Matrix               // rows apart by semicolons, numbers in a row by commas, all rows of one length
	Sheet                // a table with a header, rows apart by semicolons, cells by commas; mostly a file
	Terms                // comma-separated columns of a sheet, a:b for the crossing of two
)

// Range is a closed interval. The zero Range accepts every finite number.
type Range struct{ Low, High float64 }

// Holds reports whether v lies inside r.
func (r Range) Holds(v float64) bool {
	return r == Range{} || v >= r.Low && v <= r.High
}

// Input is one thing a method must be given.
type Input struct {
	Key      string // as the user writes it: `height`
	About    string // one plain phrase
	Kind     Kind
	Unit     unit.Unit
	UnitFrom string // key of a word input whose value ("F" or "C") is the unit; the ranges stay in Unit
	Accepted Range  // outside it: refused; of Readings the heights, of Pairs and a Matrix every number
	Tested   Range  // outside it: answered with a note
	Choices  []string
	Default  string // used when the key is absent; listed in the answer
	Optional bool   // may be absent and has no default
}

// Output is one thing a method answers.
type Output struct {
	Key      string
	About    string
	Unit     unit.Unit
	Decimals int    // shown; JSON is never rounded
	When     string // when it is answered, in words: `with weights`; empty: always
	Never    string // how +Inf is said: `none`, the event does not come; empty: +Inf is a fault
}

// Constant is a published (or chosen) coefficient a method names. The mutation test moves each by
// 1 % and wants a proof to fail.
type Constant struct {
	Key    string
	Value  float64
	Unit   string
	Source source.ID
	Exempt string // why no proof can hold it: a clamp, a choice; empty for published coefficients
}

// Method is a declared calculation.
type Method struct {
	Name      string // `stem-count`
	Title     string // `Stem count of a stand`
	About     string // two or three plain sentences: what it is for, and what it is not for
	Inputs    []Input
	Outputs   []Output
	Constants []Constant
	Sources   []source.ID
	Example   string            // arguments of a run that works: `adf=30 ndf=40`
	Sheets    map[string]string // files, by name, that proofs give as @name
	Run       func(*Call) error
}

// Constant returns the declared value of a constant; a missing one is a slip in the declaration.
func (m *Method) Constant(key string) (Constant, bool) {
	for _, c := range m.Constants {
		if c.Key == key {
			return c, true
		}
	}
	return Constant{}, false
}

// Input returns the declaration of an input.
func (m *Method) Input(key string) (Input, bool) {
	for _, in := range m.Inputs {
		if in.Key == key {
			return in, true
		}
	}
	return Input{}, false
}
