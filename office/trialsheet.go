package office

import (
	"encoding/json"
	"fmt"
	"math"
	"strconv"

	"haywarden/agronomy/source"
	"haywarden/paper"
)

// TrialSheet is an answer about trials as every face shows it: tables, what to mind, what it rests on.
type TrialSheet struct {
	Title   string       `json:"title"`
	Says    string       `json:"says"`
	Tables  []TrialTable `json:"tables"`
	Notes   []string     `json:"notes"`
	Sources []source.ID  `json:"sources"`
}

// TrialTable is one table of the answer.
type TrialTable struct {
	Key, Title string
	Columns    []TrialColumn
	Rows       [][]any // a string, a whole number or a number a cell; NaN is not told
}

// TrialColumn heads a column.
type TrialColumn struct {
	Key, Title, Unit string
	Decimals         int
	Chance           bool // said in words: 7 in 10
}

// Number reports whether the column holds numbers, which stand to the right.
func (t TrialTable) Number(column int) bool {
	for _, r := range t.Rows {
		if _, text := r[column].(string); text {
			return false
		}
	}
	return true
}

// Text is a cell as it is shown; empty where nothing is told.
func (t TrialTable) Text(row, column int) string {
	c := t.Columns[column]
	switch v := t.Rows[row][column].(type) {
	case string:
		return v
	case int:
		return strconv.Itoa(v)
	case float64:
		switch {
		case math.IsNaN(v):
			return ""
		case c.Chance && v < 0.005:
			return "<1 in 100"
		case c.Chance && v > 0.995:
			return ">99 in 100"
		case c.Chance:
			return fmt.Sprintf("%.0f in 100", 100*v)
		case c.Decimals < 0:
			return strconv.FormatFloat(v, 'g', -c.Decimals, 64)
		}
		return strconv.FormatFloat(v, 'f', c.Decimals, 64)
	}
	return ""
}

// told leaves out columns in which nothing is told.
func (t TrialTable) told() TrialTable {
	out := TrialTable{Key: t.Key, Title: t.Title, Rows: make([][]any, len(t.Rows))}
	for j, c := range t.Columns {
		some := false
		for i := range t.Rows {
			some = some || t.Text(i, j) != ""
		}
		if !some {
			continue
		}
		out.Columns = append(out.Columns, c)
		for i, r := range t.Rows {
			out.Rows[i] = append(out.Rows[i], r[j])
		}
	}
	return out
}

// MarshalJSON writes rows as objects by the keys of columns, numbers not rounded, null where nothing is told.
func (t TrialTable) MarshalJSON() ([]byte, error) {
	rows := make([]map[string]any, len(t.Rows))
	for i, r := range t.Rows {
		rows[i] = map[string]any{}
		for j, c := range t.Columns {
			if v, ok := r[j].(float64); ok && math.IsNaN(v) {
				rows[i][c.Key] = nil
				continue
			}
			rows[i][c.Key] = r[j]
		}
	}
	return json.Marshal(struct {
		Key   string           `json:"key"`
		Title string           `json:"title"`
		Rows  []map[string]any `json:"rows"`
	}{t.Key, t.Title, rows})
}

// Head is a column's heading with its unit.
func (c TrialColumn) Head() string {
	if c.Unit != "" {
		return c.Title + ", " + c.Unit
	}
	return c.Title
}

// Printed is the answer as a paper sets it.
func (s *TrialSheet) Printed() paper.Tabled {
	p := paper.Tabled{Title: s.Title, Says: s.Says, Notes: s.Notes, Sources: s.Sources}
	for _, t := range s.Tables {
		out := paper.Table{Title: t.Title}
		for j, c := range t.Columns {
			out.Head = append(out.Head, c.Head())
			out.Right = append(out.Right, t.Number(j))
		}
		for i := range t.Rows {
			var row []string
			for j := range t.Columns {
				row = append(row, t.Text(i, j))
			}
			out.Rows = append(out.Rows, row)
		}
		p.Tables = append(p.Tables, out)
	}
	return p
}
