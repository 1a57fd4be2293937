// Package exchange reads and writes the records of a book as tables people can edit: farms, fields and
// stands; visits; price decks. A file is taken whole or not at all: all its faults are listed, with
// row, field, what was given and what is accepted.
package exchange

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"haywarden/agronomy/unit"
	"haywarden/tabular"
)

// mostBytes is the largest table taken (choice).
const mostBytes = 32 << 20

// mostFaults is how many faults a refusal lists; the rest are counted.
const mostFaults = 20

// Fault is one thing wrong with a file.
type Fault struct {
	Row   int    `json:"row"` // as a spreadsheet program counts, the header being 1; 0 for the whole file
	Field string `json:"field,omitempty"`
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

// Refusal says why a file was not taken.
type Refusal struct {
	File   string  `json:"file"`
	Faults []Fault `json:"faults"` // the first of them
	Found  int     `json:"found"`
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

// sheet reads one file row by row and gathers its faults.
type sheet struct {
	name   string
	in     *tabular.Reader
	row    tabular.Row
	faults []Fault
	found  int
}

// open reads the header and demands the columns that are needed.
func open(r io.Reader, name string, needed map[string][]string, order []string) (*sheet, error) {
	in, err := tabular.Open(r, mostBytes)
	if fault, ok := errors.AsType[*tabular.Fault](err); ok {
		return nil, &Refusal{File: name, Faults: []Fault{{Row: fault.Row, Text: fault.Text}}, Found: 1}
	}
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", name, err)
	}
	s := &sheet{name: name, in: in}
	for _, key := range order {
		if in.Header.Find(needed[key]...) < 0 {
			s.fault(1, "", "no column %s; the file has %s", key, in.Header)
		}
	}
	if s.found > 0 {
		return nil, s.refusal()
	}
	return s, nil
}

func (s *sheet) fault(row int, field, format string, args ...any) {
	s.found++
	if len(s.faults) < mostFaults {
		s.faults = append(s.faults, Fault{Row: row, Field: field, Text: fmt.Sprintf(format, args...)})
	}
}

func (s *sheet) refusal() *Refusal { return &Refusal{File: s.name, Faults: s.faults, Found: s.found} }

// next moves to the next sound row; false at the end.
func (s *sheet) next() (bool, error) {
	for {
		row, err := s.in.Next()
		var fault *tabular.Fault
		switch {
		case errors.As(err, &fault):
			s.fault(fault.Row, "", "%s", fault.Text)
			continue
		case errors.Is(err, io.EOF):
			return false, nil
		case err != nil:
			return false, fmt.Errorf("read %s: %w", s.name, err)
		}
		s.row = row
		return true, nil
	}
}

// text is a cell by the names of its column, empty where there is none.
func (s *sheet) text(names ...string) string { return s.row.Cell(s.in.Header.Find(names...)) }

// number is a cell as a number in the unit wanted; ok where it was given and could be read. The
// number may carry its own unit.
func (s *sheet) number(want string, names ...string) (v float64, ok bool) {
	cell := s.text(names...)
	if cell == "" {
		return 0, false
	}
	digits, symbol := tabular.CutUnit(cell)
	if digits == "" {
		digits, symbol = cell, ""
	}
	v, err := s.row.Number(digits)
	if err == nil && symbol != "" && symbol != want {
		v, err = converted(v, symbol, want)
	}
	if err != nil {
		s.fault(s.row.Place, names[0], "%v", err)
		return 0, false
	}
	return v, true
}

func converted(v float64, symbol, want string) (float64, error) {
	from, ok := unit.Lookup(symbol)
	to, ok2 := unit.Lookup(want)
	if !ok || !ok2 {
		return 0, fmt.Errorf("no unit is written %q here; %s wanted", symbol, orPlain(want))
	}
	return unit.Convert(v, from, to)
}

func orPlain(want string) string {
	if want == "" {
		return "a plain number"
	}
	return want
}

// whole is a cell as a whole number.
func (s *sheet) whole(names ...string) (n int, ok bool) {
	v, ok := s.number("", names...)
	if ok && v != float64(int(v)) {
		s.fault(s.row.Place, names[0], "%g is not a whole number", v)
		return 0, false
	}
	return int(v), ok
}

// date is a cell as a day.
func (s *sheet) date(names ...string) (unit.Day, bool) {
	cell := s.text(names...)
	if cell == "" {
		return 0, false
	}
	t, err := tabular.Date(cell)
	if err != nil {
		s.fault(s.row.Place, names[0], "%q: %v", cell, err)
		return 0, false
	}
	return unit.DayOf(t), true
}

// share is a cell as a part of a whole, written 0.3 or 30 %.
func (s *sheet) share(names ...string) (float64, bool) {
	cell := s.text(names...)
	if cell == "" {
		return 0, false
	}
	percent := strings.HasSuffix(cell, "%")
	v, err := s.row.Number(strings.TrimSpace(strings.TrimSuffix(cell, "%")))
	if err != nil {
		s.fault(s.row.Place, names[0], "%v", err)
		return 0, false
	}
	if percent {
		v /= 100
	}
	return v, true
}

// yes is a cell as yes or no; no where it is empty.
func (s *sheet) yes(names ...string) bool {
	switch cell := strings.ToLower(s.text(names...)); cell {
	case "", "no", "n", "0", "false":
		return false
	case "yes", "y", "1", "true", "x":
		return true
	default:
		s.fault(s.row.Place, names[0], "%q: yes or no wanted", cell)
		return false
	}
}

// checked notes each fault that the book finds in a body.
func (s *sheet) checked(row int, err error) {
	if err == nil {
		return
	}
	for line := range strings.SplitSeq(err.Error(), "\n") {
		s.fault(row, "", "%s", line)
	}
}
