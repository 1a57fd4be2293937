package reckon

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"haywarden/agronomy/method"
)

// mostBytes bounds a file of inputs; a century of daily weather is a tenth of it.
const mostBytes = 16 << 20

// column is a list input taken from a file, as if it had been written on the command line.
type column struct{ key, list string }

// readColumns takes from a file every column whose header is the key of a list input of m, and names
// the columns it left alone.
func readColumns(m *method.Method, name string, open Opener) (columns []column, unused []string, err error) {
	header, rows, err := readTable(m, name, open)
	if err != nil {
		return nil, nil, err
	}
	var lists []string
	for _, in := range m.Inputs {
		if isList(in) {
			lists = append(lists, in.Key)
		}
	}
	for j, title := range header {
		if !slices.Contains(lists, title) {
			unused = append(unused, title)
			continue
		}
		list, err := joinColumn(m, name, title, rows, j)
		if err != nil {
			return nil, nil, err
		}
		columns = append(columns, column{title, list})
	}
	if len(columns) == 0 {
		want := strings.Join(lists, ", ")
		if want == "" {
			want = "none, this reckoning takes no list"
		}
		return nil, nil, &BadInput{Method: m.Name, Text: fmt.Sprintf("@%s: no column is a list of this reckoning, found %s; accepted columns: %s", name, strings.Join(header, ", "), want)}
	}
	return columns, unused, nil
}

// readColumn takes one list from a file: the column headed by the key, or the only column.
func readColumn(m *method.Method, in method.Input, name string, open Opener) (string, error) {
	if !isList(in) {
		return "", &BadInput{Method: m.Name, Key: in.Key, Text: fmt.Sprintf("%s=@%s: a file can only stand for a list; accepted: %s", in.Key, name, accepted(in, in.Unit))}
	}
	header, rows, err := readTable(m, name, open)
	if err != nil {
		return "", err
	}
	j := slices.Index(header, in.Key)
	if j < 0 && len(header) == 1 {
		j = 0
	}
	if j < 0 {
		return "", &BadInput{Method: m.Name, Key: in.Key, Text: fmt.Sprintf("%s=@%s: no column is headed %s, found %s", in.Key, name, in.Key, strings.Join(header, ", "))}
	}
	return joinColumn(m, name, header[j], rows, j)
}

func isList(in method.Input) bool {
	return in.Kind == method.Numbers || in.Kind == method.Readings || in.Kind == method.Days || in.Kind == method.Words
}

// readTable reads a CSV file with a header row.
func readTable(m *method.Method, name string, open Opener) (header []string, rows [][]string, err error) {
	if open == nil {
		return nil, nil, &BadInput{Method: m.Name, Text: fmt.Sprintf("@%s: files cannot be read here; write the list out", name)}
	}
	f, err := open(name)
	if err != nil {
		return nil, nil, fmt.Errorf("read inputs from @%s: %w", name, err)
	}
	defer f.Close() // only read from: nothing is lost
	text, err := io.ReadAll(io.LimitReader(f, mostBytes+1))
	if err != nil {
		return nil, nil, fmt.Errorf("read inputs from @%s: %w", name, err)
	}
	bad := func(format string, args ...any) error {
		return &BadInput{Method: m.Name, Text: "@" + name + ": " + fmt.Sprintf(format, args...)}
	}
	if len(text) > mostBytes {
		return nil, nil, bad("the file is over %d MB; accepted: a CSV file with a header", mostBytes>>20)
	}
	r := csv.NewReader(strings.NewReader(strings.TrimPrefix(string(text), "\ufeff")))
	r.TrimLeadingSpace = true
	all, err := r.ReadAll()
	var parse *csv.ParseError
	switch {
	case errors.As(err, &parse):
		return nil, nil, bad("line %d: %v; accepted: a CSV file with a header and equally long rows", parse.Line, parse.Err)
	case err != nil:
		return nil, nil, bad("%v", err)
	case len(all) < 2:
		return nil, nil, bad("%d rows; accepted: a CSV file with a header and at least one row", len(all))
	}
	header = all[0]
	for j := range header {
		header[j] = strings.TrimSpace(header[j])
	}
	return header, all[1:], nil
}

// joinColumn writes a column as a comma-separated list. A cell with a comma of its own would shift
// every later item, so it is refused by row.
func joinColumn(m *method.Method, name, title string, rows [][]string, j int) (string, error) {
	cells := make([]string, len(rows))
	for i, row := range rows {
		cell := strings.TrimSpace(row[j])
		if cell == "" || strings.Contains(cell, ",") {
			return "", &BadInput{Method: m.Name, Key: title, Text: fmt.Sprintf("@%s: row %d, column %s: %q; accepted: one value in every row", name, i+1, title, cell)}
		}
		cells[i] = cell
	}
	return strings.Join(cells, ","), nil
}
