package method

import (
	"fmt"
	"maps"

	"haywarden/agronomy/unit"
)

// Call is one run of a method: its inputs, already parsed and inside their accepted ranges, and the
// place where the method leaves its answer.
type Call struct {
	method    *Method
	numbers   map[string]float64
	lists     map[string][]float64
	words     map[string]string
	readings  map[string][]Reading
	days      map[string]unit.Day
	texts     map[string][]string
	pairs     map[string][]Pair
	rows      map[string][][]float64
	sheets    map[string]*Table
	constants map[string]float64
	outputs   map[string]any
	units     map[string]unit.Unit
	notes     []string
}

// Reading is one height and stage as written by the user, `27:bud`.
type Reading struct {
	Height float64 // in the input's unit
	Stage  string
}

// Pair is one named number as written by the user, `k2o:250`.
type Pair struct {
	Name  string
	Value float64 // in the input's unit
}

// Table is a sheet as the user has it: named columns of text. A cell may be empty.
type Table struct {
	Header []string
	Rows   [][]string // each as long as Header
}

// Grid is an answer of named rows with the same numbers in each: an analysis of variance, effects by
// entry. NaN is a number that the row does not have.
type Grid struct {
	Columns []string
	Rows    []Line
}

// Line is one row of a [Grid].
type Line struct {
	Name   string
	Values []float64
}

// NewCall prepares a run of m. Moved constants, if any, replace the declared values; the mutation
// test uses this and nothing else does.
func NewCall(m *Method, moved map[string]float64) *Call {
	c := &Call{
		method: m, numbers: map[string]float64{}, lists: map[string][]float64{}, words: map[string]string{},
		readings: map[string][]Reading{}, days: map[string]unit.Day{},
		texts: map[string][]string{}, pairs: map[string][]Pair{}, rows: map[string][][]float64{}, sheets: map[string]*Table{},
		constants: map[string]float64{}, outputs: map[string]any{}, units: map[string]unit.Unit{},
	}
	for _, k := range m.Constants {
		c.constants[k.Key] = k.Value
	}
	maps.Copy(c.constants, moved)
	return c
}

// Given reports whether the input was given or has a default.
func (c *Call) Given(key string) bool {
	_, a := c.numbers[key]
	_, b := c.lists[key]
	_, d := c.words[key]
	_, e := c.readings[key]
	_, f := c.days[key]
	_, g := c.texts[key]
	_, h := c.pairs[key]
	_, i := c.rows[key]
	_, j := c.sheets[key]
	return a || b || d || e || f || g || h || i || j
}

// Num returns a number, 0 where it was not given.
func (c *Call) Num(key string) float64 { return c.numbers[key] }

// List returns a list of numbers. In a list of days a year without the event is +Inf.
func (c *Call) List(key string) []float64 { return c.lists[key] }

// Word returns a word.
func (c *Call) Word(key string) string { return c.words[key] }

// Readings returns height and stage pairs.
func (c *Call) Readings(key string) []Reading { return c.readings[key] }

// Day returns a date.
func (c *Call) Day(key string) unit.Day { return c.days[key] }

// Words returns a list of words.
func (c *Call) Words(key string) []string { return c.texts[key] }

// Pairs returns named numbers in the order in which they were written.
func (c *Call) Pairs(key string) []Pair { return c.pairs[key] }

// Rows returns a matrix by its rows, which are equally long.
func (c *Call) Rows(key string) [][]float64 { return c.rows[key] }

// Sheet returns a table, nil where it was not given.
func (c *Call) Sheet(key string) *Table { return c.sheets[key] }

// K returns a constant that the method declares.
func (c *Call) K(key string) float64 {
	v, ok := c.constants[key]
	if !ok {
		panic("method " + c.method.Name + " declares no constant " + key)
	}
	return v
}

// SetNum hands the call a parsed number, in the input's unit and inside its accepted range.
func (c *Call) SetNum(key string, v float64) { c.numbers[key] = v }

// SetList hands the call a parsed list of numbers or days.
func (c *Call) SetList(key string, v []float64) { c.lists[key] = v }

// SetWord hands the call a parsed word, one of the input's choices.
func (c *Call) SetWord(key, v string) { c.words[key] = v }

// SetReadings hands the call parsed height and stage pairs.
func (c *Call) SetReadings(key string, v []Reading) { c.readings[key] = v }

// SetDay hands the call a parsed date.
func (c *Call) SetDay(key string, v unit.Day) { c.days[key] = v }

// SetWords hands the call a parsed list of words.
func (c *Call) SetWords(key string, v []string) { c.texts[key] = v }

// SetPairs hands the call parsed named numbers.
func (c *Call) SetPairs(key string, v []Pair) { c.pairs[key] = v }

// SetRows hands the call a parsed matrix.
func (c *Call) SetRows(key string, v [][]float64) { c.rows[key] = v }

// SetSheet hands the call a parsed table.
func (c *Call) SetSheet(key string, v *Table) { c.sheets[key] = v }

// Answer leaves a number (float64 or int), a list ([]float64 or []string), named numbers ([]Pair), a
// word, a yes/no (bool), a day (unit.Day) or a [Grid] under a declared output key.
func (c *Call) Answer(key string, v any) { c.outputs[key] = v }

// AnswerIn is Answer for an output whose unit follows from the inputs: a heat sum asked in F or in C.
func (c *Call) AnswerIn(key string, v any, u unit.Unit) {
	c.outputs[key] = v
	c.units[key] = u
}

// Note leaves a remark that belongs with the answer: a disputed coefficient, use outside the tested
// range, a value recalled and not read.
func (c *Call) Note(format string, args ...any) {
	c.notes = append(c.notes, fmt.Sprintf(format, args...))
}

// Outputs returns what the method answered, by key.
func (c *Call) Outputs() map[string]any { return c.outputs }

// UnitOf returns the unit of an answered output: the declared one unless AnswerIn said otherwise.
func (c *Call) UnitOf(out Output) unit.Unit {
	if u, ok := c.units[out.Key]; ok {
		return u
	}
	return out.Unit
}

// Notes returns the remarks in the order they were made.
func (c *Call) Notes() []string { return c.notes }
