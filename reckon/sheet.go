package reckon

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"haywarden/agronomy/method"
)

// sheetOf returns the sheet that a bare @file.csv stands for, if m takes one: of several the first that
// was not given yet, and the last where all were.
func sheetOf(m *method.Method, written map[string]string) (sheet method.Input, takes bool) {
	for _, in := range m.Inputs {
		if in.Kind != method.Sheet {
			continue
		}
		sheet, takes = in, true
		if _, given := written[in.Key]; !given {
			break
		}
	}
	return sheet, takes
}

// sheetFromFile writes a whole file as it could have been given in writing.
func sheetFromFile(m *method.Method, in method.Input, name string, open Opener) (string, error) {
	header, rows, err := readTable(m, name, open)
	if err != nil {
		return "", err
	}
	lines := []string{strings.Join(header, ",")}
	for i, row := range append([][]string{header}, rows...) {
		for j := range row {
			row[j] = strings.TrimSpace(row[j])
			if strings.ContainsAny(row[j], ",;") {
				return "", &BadInput{Method: m.Name, Key: in.Key, Text: fmt.Sprintf("@%s: row %d, column %s: %q; accepted: text without comma or semicolon", name, i, header[j], row[j])}
			}
		}
		if i > 0 {
			lines = append(lines, strings.Join(row, ","))
		}
	}
	return strings.Join(lines, ";"), nil
}

// readSheet reads a table with a header. A cell may be empty, a name of a column may not.
func readSheet(text string) (*method.Table, error) {
	var t method.Table
	for i, line := range strings.Split(text, ";") {
		cells := strings.Split(line, ",")
		for j := range cells {
			cells[j] = strings.TrimSpace(cells[j])
		}
		if i > 0 {
			if len(cells) != len(t.Header) {
				return nil, fmt.Errorf("row %d has %d cells and the header has %d", i, len(cells), len(t.Header))
			}
			t.Rows = append(t.Rows, cells)
			continue
		}
		for j, c := range cells {
			if c == "" || slices.Contains(cells[:j], c) || strings.Contains(c, ":") {
				return nil, fmt.Errorf("column %d is headed %q: each column wants a name of its own, without a colon", j+1, c)
			}
		}
		t.Header = cells
	}
	if len(t.Rows) == 0 {
		return nil, fmt.Errorf("there is a header and no row")
	}
	return &t, nil
}

// readTerm reads one column, or the crossing of two.
func readTerm(text string) (string, error) {
	parts := strings.Split(text, ":")
	for i := range parts {
		parts[i] = strings.TrimSpace(parts[i])
	}
	if slices.Contains(parts, "") || strings.ContainsAny(text, ";=@") {
		return "", fmt.Errorf("%q is not written column or column:column", text)
	}
	return strings.Join(parts, ":"), nil
}

// checkedGrid holds a grid to its shape. NaN is a number that a row does not have; +Inf is a fault.
func checkedGrid(g method.Grid) (method.Grid, error) {
	for _, row := range g.Rows {
		if len(row.Values) != len(g.Columns) {
			return g, fmt.Errorf("row %s has %d values for %d columns", row.Name, len(row.Values), len(g.Columns))
		}
		for j, v := range row.Values {
			if math.IsInf(v, 0) {
				return g, fmt.Errorf("row %s, %s: %g is not a number one can use", row.Name, g.Columns[j], v)
			}
			row.Values[j] = v + 0 // never -0
		}
	}
	return g, nil
}

// gridJSON says a grid as a list of objects, name first among their keys by sense, not by place.
func gridJSON(g method.Grid) []map[string]any {
	list := make([]map[string]any, len(g.Rows))
	for i, row := range g.Rows {
		list[i] = map[string]any{"name": row.Name}
		for j, v := range row.Values {
			if !math.IsNaN(v) {
				list[i][g.Columns[j]] = v
			}
		}
	}
	return list
}

// alignGrid sets a grid as a table of its own under its key.
func alignGrid(b *strings.Builder, key string, g method.Grid) {
	cells := [][]string{append([]string{key}, g.Columns...)}
	for _, row := range g.Rows {
		line := []string{row.Name}
		for _, v := range row.Values {
			if math.IsNaN(v) {
				line = append(line, "-")
				continue
			}
			line = append(line, plain(v))
		}
		cells = append(cells, line)
	}
	widths := make([]int, len(cells[0]))
	for _, line := range cells {
		for j, c := range line {
			widths[j] = max(widths[j], len([]rune(c)))
		}
	}
	b.WriteString("\n")
	for _, line := range cells {
		parts := []string{"", line[0] + pad(widths[0], line[0])}
		for j, c := range line[1:] {
			parts = append(parts, pad(widths[j+1], c)+c)
		}
		b.WriteString(strings.TrimRight(strings.Join(parts, "  "), " ") + "\n")
	}
}

// pickCell takes one number of a grid. Names of rows may hold dots; names of columns do not.
func pickCell(a *Answer, key, place string) (any, error) {
	i := strings.LastIndex(place, ".")
	if i < 0 {
		return nil, fmt.Errorf("output %s.%s: write %s.ROW.COLUMN", key, place, key)
	}
	row, column := place[:i], place[i+1:]
	for _, o := range a.Outputs {
		g, ok := o.Value.(method.Grid)
		if !ok || o.Output.Key != key {
			continue
		}
		r := slices.IndexFunc(g.Rows, func(l method.Line) bool { return l.Name == row })
		c := slices.Index(g.Columns, column)
		if r < 0 || c < 0 {
			return nil, fmt.Errorf("output %s has no row %q with a column %q", key, row, column)
		}
		if math.IsNaN(g.Rows[r].Values[c]) {
			return nil, fmt.Errorf("output %s has no %s in row %s", key, column, row)
		}
		return g.Rows[r].Values[c], nil
	}
	return nil, fmt.Errorf("%s does not answer a table %s with these inputs", a.Method.Name, key)
}
