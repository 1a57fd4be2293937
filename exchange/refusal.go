// Package exchange reads and writes the records of a book as tables that people edit: farms, fields
// and stands; visits; laboratory results; price decks.
//
// Columns may stand in any order, under several names, in capitals or not; a number may carry its own
// unit. A file is taken whole or not at all, and all that is wrong with it is said at once: row,
// column, what was given and what is accepted. Where a date or a number can be read in two ways, it is
// refused rather than guessed. An empty cell says nothing.
//
// The package works on readers and writers alone; what the rows mean to a book that holds something
// already is for the office to say.
package exchange

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// MostFaults is how many faults a refusal lists; the rest are counted.
const MostFaults = 20

// Fault is one thing wrong with a file.
type Fault struct {
	Row   int    `json:"row,omitempty"`   // as a spreadsheet program counts, the header being 1; 0 for the whole file
	Field string `json:"field,omitempty"` // the column, as the file calls it
	Text  string `json:"text"`
}

// String names row and field.
func (f Fault) String() string {
	switch {
	case f.Row == 0:
		return f.Text
	case f.Field == "":
		return fmt.Sprintf("row %d: %s", f.Row, f.Text)
	}
	return fmt.Sprintf("row %d, %s: %s", f.Row, f.Field, f.Text)
}

// Faults gathers what is wrong with a file.
type Faults struct {
	file string
	list []Fault
}

// NewFaults starts on a file.
func NewFaults(file string) *Faults { return &Faults{file: file} }

// Add notes a fault.
func (f *Faults) Add(row int, field, format string, args ...any) {
	f.list = append(f.list, Fault{Row: row, Field: field, Text: fmt.Sprintf(format, args...)})
}

// Take hands out what is wrong and forgets it.
func (f *Faults) Take() []Fault {
	list := f.list
	f.list = nil
	return list
}

// Err is the refusal of the file, nil where nothing is wrong with it.
func (f *Faults) Err() error {
	if len(f.list) == 0 {
		return nil
	}
	list := slices.Clone(f.list)
	slices.SortStableFunc(list, func(a, b Fault) int { return cmp.Compare(a.Row, b.Row) })
	return &Refusal{File: f.file, Faults: list[:min(len(list), MostFaults)], Found: len(list)}
}

// Refusal says why a file was not taken.
type Refusal struct {
	File   string  `json:"file"`
	Faults []Fault `json:"faults"` // the first of them, by row
	Found  int     `json:"found"`  // how many there are
}

// Error names the file and the first faults, one on a line.
func (r *Refusal) Error() string {
	if r.Found == 1 {
		return fmt.Sprintf("read %s: %s; nothing was taken in", r.File, r.Faults[0])
	}
	var b strings.Builder
	fmt.Fprintf(&b, "read %s: %d things are wrong, nothing was taken in", r.File, r.Found)
	for _, f := range r.Faults {
		b.WriteString("\n  " + f.String())
	}
	if more := r.Found - len(r.Faults); more > 0 {
		fmt.Fprintf(&b, "\n  and %d more", more)
	}
	return b.String()
}
