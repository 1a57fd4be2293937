package solve

import (
	"fmt"
	"math"
	"slices"
)

// Column is the number of a column of a [Problem], from 0 on in the order in which they were added.
type Column int

// Row is the number of a row of a [Problem], from 0 on in the order in which they were added.
type Row int

// Term is one column of a row with its coefficient.
type Term struct {
	Column Column
	Times  float64
}

// Problem is a linear programme under construction. A fault in what is added (a number that is none,
// bounds that contradict each other, a column that is not there) is kept, and [Solve] returns the
// first.
type Problem struct {
	sense   float64 // 1: least, -1: most
	columns []column
	rows    []row
	fault   error
}

type column struct {
	name      string
	low, high float64
	cost      float64
	whole     bool
}

type row struct {
	name      string
	low, high float64
	terms     []Term // by column, each once
}

// Least begins a problem that seeks the least.
func Least() *Problem { return &Problem{sense: 1} }

// Most begins a problem that seeks the most.
func Most() *Problem { return &Problem{sense: -1} }

// Column adds a column: a quantity from low to high (±Inf where there is no bound) of which each unit
// adds cost to the objective.
func (p *Problem) Column(name string, low, high, cost float64) Column {
	c := Column(len(p.columns))
	p.columns = append(p.columns, column{name: name, low: low, high: high, cost: cost})
	p.bounds("column", name, low, high)
	if math.IsNaN(cost) || math.IsInf(cost, 0) {
		p.fail("column %s: cost %g: want a finite number", name, cost)
	}
	return c
}

// Whole marks a column that takes whole numbers only.
func (p *Problem) Whole(c Column) {
	if p.has(c, "whole") {
		p.columns[c].whole = true
	}
}

// Relaxed returns the problem as it stands with every column free to take any number.
func (p *Problem) Relaxed() *Problem {
	q := &Problem{sense: p.sense, columns: slices.Clone(p.columns), rows: slices.Clip(p.rows), fault: p.fault}
	for j := range q.columns {
		q.columns[j].whole = false
	}
	return q
}

// Between adds a row: the sum of its terms lies from low to high (±Inf where there is no bound).
// Terms of one column are added up.
func (p *Problem) Between(name string, low, high float64, terms ...Term) Row {
	r := row{name: name, low: low, high: high}
	p.bounds("row", name, low, high)
	for _, t := range terms {
		if math.IsNaN(t.Times) || math.IsInf(t.Times, 0) {
			p.fail("row %s: coefficient %g: want a finite number", name, t.Times)
		}
		if p.has(t.Column, "row "+name) {
			r.terms = append(r.terms, t)
		}
	}
	slices.SortStableFunc(r.terms, func(a, b Term) int { return int(a.Column - b.Column) })
	r.terms = joined(r.terms)
	p.rows = append(p.rows, r)
	return Row(len(p.rows) - 1)
}

// AtMost adds a row whose sum is at most high.
func (p *Problem) AtMost(name string, high float64, terms ...Term) Row {
	return p.Between(name, math.Inf(-1), high, terms...)
}

// AtLeast adds a row whose sum is at least low.
func (p *Problem) AtLeast(name string, low float64, terms ...Term) Row {
	return p.Between(name, low, math.Inf(1), terms...)
}

// Exactly adds a row whose sum is v.
func (p *Problem) Exactly(name string, v float64, terms ...Term) Row {
	return p.Between(name, v, v, terms...)
}

// Err returns the first fault in what was added.
func (p *Problem) Err() error { return p.fault }

// Columns returns how many columns there are.
func (p *Problem) Columns() int { return len(p.columns) }

// Rows returns how many rows there are.
func (p *Problem) Rows() int { return len(p.rows) }

// ColumnName returns the name of a column.
func (p *Problem) ColumnName(c Column) string { return p.columns[c].name }

// RowName returns the name of a row.
func (p *Problem) RowName(r Row) string { return p.rows[r].name }

// wholes reports whether a column takes whole numbers only.
func (p *Problem) wholes() bool {
	return slices.ContainsFunc(p.columns, func(c column) bool { return c.whole })
}

func (p *Problem) has(c Column, where string) bool {
	if c < 0 || int(c) >= len(p.columns) {
		p.fail("%s: column %d: there are %d so far, numbered from 0", where, c, len(p.columns))
		return false
	}
	return true
}

func (p *Problem) bounds(kind, name string, low, high float64) {
	switch {
	case math.IsNaN(low) || math.IsNaN(high):
		p.fail("%s %s: bounds %g to %g: want numbers, or -Inf and +Inf for none", kind, name, low, high)
	case math.IsInf(low, 1) || math.IsInf(high, -1):
		p.fail("%s %s: bounds %g to %g leave nothing: a lower bound may be -Inf, an upper one +Inf", kind, name, low, high)
	case low > high:
		p.fail("%s %s: lower bound %g is over upper bound %g: no number lies between", kind, name, low, high)
	}
}

func (p *Problem) fail(format string, args ...any) {
	if p.fault == nil {
		p.fault = fmt.Errorf("solve: "+format, args...)
	}
}

// joined adds up neighbouring terms of one column.
func joined(terms []Term) []Term {
	var out []Term
	for _, t := range terms {
		if n := len(out); n > 0 && out[n-1].Column == t.Column {
			out[n-1].Times += t.Times
			continue
		}
		out = append(out, t)
	}
	return slices.DeleteFunc(out, func(t Term) bool { return t.Times == 0 })
}
