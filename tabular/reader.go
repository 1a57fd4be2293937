// Package tabular is the careful front for files of rows and columns as people send them: it finds out
// how the letters are encoded and what parts the fields, reads a header in which a column may go by
// several names, and gives each row its place in the file, so that whoever asks what the cells mean can
// say where something is wrong. It takes in text only, and guesses nothing it could ask about: where
// a number or a date can be read in two ways, it says so.
//
// It also writes such files so that a spreadsheet program takes no cell for a formula.
package tabular

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
)

// Fault is one thing wrong with a file before anybody asks what it says.
type Fault struct {
	Line int // of the text, counted from 1; 0 where the whole file is meant
	Row  int // as a spreadsheet program counts, the header being 1; 0 where the whole file is meant
	Text string
}

// Error names the line.
func (f *Fault) Error() string {
	if f.Line == 0 {
		return f.Text
	}
	return fmt.Sprintf("line %d: %s", f.Line, f.Text)
}

func whole(format string, args ...any) *Fault { return &Fault{Text: fmt.Sprintf(format, args...)} }

// Reader reads a file row by row.
type Reader struct {
	Encoding  string
	Separator rune // 0 in a workbook
	Header    Header

	in     interface{ Read() ([]string, error) }
	line   func() int // of the text on which the row read last begins
	folded int        // line ends inside cells so far
}

// Open reads a file whole, at most so many bytes of it, and its header line. What is wrong with the
// file itself is a [Fault]; any other error is one of reading.
func Open(r io.Reader, most int64) (*Reader, error) {
	raw, err := io.ReadAll(io.LimitReader(r, most+1))
	if err != nil {
		return nil, err
	}
	if int64(len(raw)) > most {
		return nil, whole("the file is larger than %d MB; take out the part you need", most>>20)
	}
	t, err := begin(raw)
	if err != nil {
		return nil, err
	}
	for {
		cells, err := t.in.Read()
		var wrong *csv.ParseError
		switch {
		case errors.As(err, &wrong):
			return nil, &Fault{Line: wrong.StartLine, Row: wrong.StartLine, Text: quoteTrouble(wrong)}
		case err != nil:
			return nil, whole("the file has no header line")
		case blank(cells):
			continue
		}
		line := t.line()
		t.folded = t.lineEnds(cells)
		if t.Header, err = newHeader(cells); err != nil {
			return nil, &Fault{Line: line, Row: line, Text: err.Error()}
		}
		return t, nil
	}
}

// begin finds out what the file is: a workbook, or text whose fields are parted by something.
func begin(raw []byte) (*Reader, error) {
	if isWorkbook(raw) {
		rows, err := workbookRows(raw)
		if err != nil {
			return nil, err
		}
		g := &grid{rows: rows}
		return &Reader{Encoding: "workbook", in: g, line: func() int { return g.next }}, nil
	}
	text, encoding, err := Decode(raw)
	if err != nil {
		return nil, err
	}
	in := csv.NewReader(lines(text))
	in.Comma, in.ReuseRecord, in.FieldsPerRecord = separator(text), true, -1
	return &Reader{Encoding: encoding, Separator: in.Comma, in: in, line: func() int {
		line, _ := in.FieldPos(0)
		return line
	}}, nil
}

// Next gives the next row with anything in it; its cells hold until the next call. [io.EOF] is the end.
// After a [Fault], which means that row alone, reading can go on.
func (t *Reader) Next() (Row, error) {
	for {
		cells, err := t.in.Read()
		if wrong, ok := errors.AsType[*csv.ParseError](err); ok {
			f := &Fault{Line: wrong.StartLine, Row: wrong.StartLine - t.folded, Text: quoteTrouble(wrong)}
			t.folded += wrong.Line - wrong.StartLine
			return Row{}, f
		}
		if err != nil {
			return Row{}, err
		}
		line := t.line()
		row := Row{Line: line, Place: line - t.folded, cells: cells, sep: t.Separator}
		t.folded += t.lineEnds(cells)
		if blank(cells) {
			continue
		}
		if _, workbook := t.in.(*grid); workbook {
			row.cells = fill(cells, len(t.Header.names))
			cells = row.cells
		}
		if want := len(t.Header.names); len(cells) != want {
			return Row{}, &Fault{Line: line, Row: row.Place, Text: fmt.Sprintf("%d fields, %d wanted as in the header", len(cells), want)}
		}
		return row, nil
	}
}

func quoteTrouble(wrong *csv.ParseError) string { return wrong.Err.Error() + "; check the quotes" }

func blank(cells []string) bool {
	for _, c := range cells {
		if strings.TrimSpace(c) != "" {
			return false
		}
	}
	return true
}

// lineEnds counts the line ends inside the cells of text; a workbook has none that count.
func (t *Reader) lineEnds(cells []string) (n int) {
	if _, workbook := t.in.(*grid); workbook {
		return 0
	}
	for _, c := range cells {
		n += strings.Count(c, "\n")
	}
	return n
}
