package exchange

import (
	"io"
	"slices"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/tabular"
)

// Labs is a table of laboratory results.
type Labs struct {
	File
	Labs []LabRow
}

// LabRow is one result.
type LabRow struct {
	Row   int
	Farm  string
	Field string
	Day   unit.Day // the sample was taken
	Lab   book.Lab
}

var labColumns = []Column{
	{Name: "farm", Also: []string{"farm name", "operation"}, Needed: true},
	{Name: "field", Also: []string{"field name"}, Needed: true},
	{Name: "sampled", Also: []string{"sample date", "date sampled", "sampled on", "date", "day"}, Needed: true},
	{Name: "lab", Also: []string{"laboratory", "lab name"}},
	{Name: "sample", Also: []string{"sample kind", "kind", "feed", "sample type"}, Needed: true},
	{Name: "adf", Also: []string{"adf pct", "adf pct dm"}, Needed: true, check: "ADF"},
	{Name: "ndf", Also: []string{"ndf pct", "ndf pct dm", "andf"}, Needed: true, check: "NDF"},
	{Name: "cp", Also: []string{"protein", "crude protein", "cp pct", "cp pct dm"}, check: "protein"},
}

// LabColumns lists the columns of a table of laboratory results.
func LabColumns() []Column { return slices.Clone(labColumns) }

var samples = []call[string]{
	{"standing", []string{"fresh", "standing crop"}},
	{"hay", []string{"dry hay"}},
	{"haylage", []string{"silage", "hay silage", "alfalfa silage"}},
	{"baleage", []string{"balage", "bale silage"}},
}

// ReadLabs reads laboratory results, a row a sample: farm, field, sampled, sample, adf and ndf are
// needed. Fibre and protein are percent of dry matter.
func ReadLabs(r io.Reader, name string) (Labs, error) {
	s, err := open(r, name, labColumns)
	if err != nil {
		return Labs{}, err
	}
	var rows []LabRow
	seen := map[LabRow]int{}
	for {
		more, err := s.next()
		if err != nil {
			return Labs{}, err
		}
		if !more {
			return Labs{File: s.file, Labs: rows}, nil
		}
		row := s.labRow()
		key := row
		key.Row, key.Farm, key.Field = 0, tabular.Plain(row.Farm), tabular.Plain(row.Field)
		if first := seen[key]; first != 0 {
			s.Add(row.Row, "", "it says what row %d says; take one out", first)
		}
		seen[key] = row.Row
		rows = append(rows, row)
	}
}

// labRow reads the row.
func (s *sheet) labRow() LabRow {
	row := LabRow{Row: s.row.Place, Farm: s.name("farm"), Field: s.name("field")}
	row.Day, _ = s.date("sampled", true)
	row.Lab = book.Lab{Lab: s.text("lab"), Sample: oneOf(s, "sample", samples, true)}
	whole := row.Lab.Sample != ""
	for _, c := range []struct {
		col    string
		to     *float64
		needed bool
	}{{"ndf", &row.Lab.NDF, true}, {"adf", &row.Lab.ADF, true}, {"cp", &row.Lab.CP, false}} {
		v := s.quantity(c.col, "%")
		switch {
		case v != nil:
			*c.to = *v
		case c.needed && s.raw(c.col) == "":
			s.fault(c.col, "is empty; %% of dry matter wanted")
		}
		whole = whole && (v != nil || !c.needed)
	}
	if whole {
		s.accept(row.Lab.Check())
	}
	return row
}
