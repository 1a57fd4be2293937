package exchange

import (
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"haywarden/tabular"
)

// mostBytes is the largest table taken (choice): some hundred thousand rows.
const mostBytes = 32 << 20

// Column is one column of a table.
type Column struct {
	Name   string   // as it is written, and demanded
	Also   []string // other names it goes by
	Needed bool
	in     []spelling // names it goes by where it is in another unit
	check  string     // what the book's check of a body calls it, where that is not its name
}

// spelling is what a column is called in a unit.
type spelling struct {
	unit  string
	names []string
}

// stated is the unit of a column whose numbers must carry their own.
const stated = "?"

// File tells of a file that was read what its rows do not.
type File struct {
	Name     string
	Encoding string
	Rows     int
	Unused   []string // columns that say nothing to this form
}

// sheet reads the rows of a form and gathers its faults.
type sheet struct {
	*Faults
	file    File
	columns []Column
	in      *tabular.Reader
	row     tabular.Row
	at      map[string]int    // by column: its place in the file
	unit    map[string]string // by column: the unit that its heading in the file states
	basis   map[string]string // by column: dry matter or as fed, where its heading says so
	said    map[string]string // by column: what all rows say where the file has no such column
	says    map[string]string // by the word of a check: the column it is about in this row
	lenient bool              // bad rows are left out, not the file
}

// openBare reads the header and looks for no column in it.
func openBare(r io.Reader, name string, columns []Column) (*sheet, error) {
	s := &sheet{Faults: NewFaults(name), file: File{Name: name}, columns: columns, at: map[string]int{}, unit: map[string]string{}, basis: map[string]string{}}
	in, err := tabular.Open(r, mostBytes)
	if fault, ok := errors.AsType[*tabular.Fault](err); ok {
		s.Add(fault.Row, "", "%s", fault.Text)
		return nil, s.Err()
	}
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", name, err)
	}
	s.in, s.file.Encoding = in, in.Encoding
	return s, nil
}

// open reads the header and demands the columns that are needed.
func open(r io.Reader, name string, columns []Column) (*sheet, error) {
	s, err := openBare(r, name, columns)
	if err != nil {
		return nil, err
	}
	used := map[int]bool{}
	for _, c := range columns {
		s.place(c, used)
	}
	for i, n := range s.in.Header.Names() {
		if n != "" && !used[i] {
			s.file.Unused = append(s.file.Unused, n)
		}
	}
	var lack []string
	for _, c := range columns {
		if _, there := s.at[c.Name]; c.Needed && !there {
			lack = append(lack, c.Name)
		}
	}
	if len(lack) > 0 {
		s.Add(1, "", "no column %s; the columns are %s", strings.Join(lack, " and no column "), s.in.Header)
	}
	if err := s.Err(); err != nil {
		return nil, err
	}
	return s, nil
}

// place finds a column in the header, under one name only.
func (s *sheet) place(c Column, used map[int]bool) {
	names := s.in.Header.Names()
	for _, called := range append([]spelling{{"", append([]string{c.Name}, c.Also...)}}, c.in...) {
		for _, n := range called.names {
			i := s.in.Header.Find(n)
			if i < 0 || used[i] {
				continue
			}
			if first, twice := s.at[c.Name]; twice {
				s.Add(1, "", "columns %s and %s say the same thing, %s; take one out", names[min(first, i)], names[max(first, i)], c.Name)
				return
			}
			used[i] = true
			s.at[c.Name], s.unit[c.Name] = i, called.unit
		}
	}
}

// next moves to the next row; false at the end. A row that cannot be parted into its fields is noted
// and passed over.
func (s *sheet) next() (bool, error) {
	for {
		row, err := s.in.Next()
		if fault, ok := errors.AsType[*tabular.Fault](err); ok {
			s.file.Rows++
			s.Add(fault.Row, "", "%s", fault.Text)
			continue
		}
		switch {
		case errors.Is(err, io.EOF):
			if s.file.Rows == 0 {
				s.Add(0, "", "the file has a header and no rows")
				return false, s.Err()
			}
			if s.lenient {
				return false, nil
			}
			return false, s.Err()
		case err != nil:
			return false, fmt.Errorf("read %s: %w", s.file.Name, err)
		}
		s.file.Rows++
		s.row = row
		return true, nil
	}
}

// fault notes that a cell of the row is wrong, with what it says.
func (s *sheet) fault(col, format string, args ...any) {
	text := fmt.Sprintf(format, args...)
	if raw := s.raw(col); raw != "" && !strings.HasPrefix(text, strconv.Quote(raw)) {
		text = fmt.Sprintf("%.60q: %s", raw, text)
	}
	s.Add(s.row.Place, s.heading(col), "%s", text)
}

// heading is what the file calls a column.
func (s *sheet) heading(col string) string {
	if i, ok := s.at[col]; ok {
		return s.in.Header.Names()[i]
	}
	return col
}

// accept notes each thing that the book finds wrong in a body, in the column it is about.
func (s *sheet) accept(err error) {
	if err == nil {
		return
	}
	if joined, ok := errors.AsType[interface {
		error
		Unwrap() []error
	}](err); ok {
		for _, e := range joined.Unwrap() {
			s.accept(e)
		}
		return
	}
	// A row makes one spot or frame, and a spreadsheet has no spot 1.
	text := strings.TrimPrefix(strings.TrimPrefix(err.Error(), "spot 1 "), "frame 1 ")
	text = strings.TrimSpace(text)
	for word, col := range s.says {
		if strings.HasPrefix(text, word+" ") {
			s.fault(col, "%s", text)
			return
		}
	}
	for _, c := range s.columns {
		if called := c.called(); strings.HasPrefix(text, called+" ") {
			s.fault(c.Name, "%s", strings.TrimPrefix(text, called+" "+s.raw(c.Name)+": "))
			return
		}
	}
	s.Add(s.row.Place, "", "%s", text)
}

func (c Column) called() string {
	if c.check != "" {
		return c.check
	}
	return c.Name
}
