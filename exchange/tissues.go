package exchange

import (
	"io"
	"slices"
	"strings"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/tabular"
)

// Tissues is a table of tissue tests.
type Tissues struct {
	File
	Tests []TissueRow
}

// TissueRow is one test.
type TissueRow struct {
	Row         int
	Farm, Field string
	Day         unit.Day // the sample was taken
	Test        book.TissueTest
}

var tissueColumns = makeTissueColumns()

func makeTissueColumns() []Column {
	columns := []Column{
		{Name: "farm", Also: []string{"farm name", "operation"}, Needed: true},
		{Name: "field", Also: []string{"field name"}, Needed: true},
		{Name: "sampled", Also: []string{"sample date", "date sampled", "date", "day"}, Needed: true},
		{Name: "lab", Also: []string{"laboratory"}},
		{Name: "number", Also: []string{"lab number", "sample number"}},
		{Name: "part", Also: []string{"plant part", "sampled part"}},
		{Name: "stage", Also: []string{"growth stage"}},
	}
	for _, v := range book.TissueValues() {
		columns = append(columns, Column{Name: v.Code, Also: []string{v.About, v.Code + " " + v.Unit}})
	}
	return columns
}

// TissueColumns lists the columns of a table of tissue tests.
func TissueColumns() []Column { return slices.Clone(tissueColumns) }

var tissueParts = []call[string]{
	{"top-6in", []string{"top 6 in", "top 6 inches", "upper 6 inches", "top six inches"}}, {"top-4in", []string{"top 4 in", "top 4 inches"}}, {"whole", []string{"whole top", "whole plant"}},
}

var tissueStages = []call[string]{
	{"bud", []string{"late bud", "early bud"}}, {"first-bloom", []string{"first flower", "1/10 bloom", "early bloom", "10% bloom"}}, {"bloom", []string{"full bloom", "flower"}},
}

// ReadTissues reads tissue tests, a row a sample: farm, field and the day it was sampled are needed. N, P,
// K, Ca, Mg and S are % of dry matter, the others ppm.
func ReadTissues(r io.Reader, name string) (Tissues, error) {
	s, err := open(r, name, tissueColumns)
	if err != nil {
		return Tissues{}, err
	}
	var out Tissues
	seen := map[string]int{}
	for {
		more, err := s.next()
		if err != nil {
			return Tissues{}, err
		}
		if !more {
			break
		}
		before := len(s.list)
		row := TissueRow{Row: s.row.Place, Farm: s.name("farm"), Field: s.name("field")}
		row.Day, _ = s.date("sampled", true)
		b := book.TissueTest{Lab: s.text("lab"), Number: s.text("number"), Part: oneOf(s, "part", tissueParts, false), Stage: oneOf(s, "stage", tissueStages, false)}
		for _, v := range book.TissueValues() {
			if got, ok := s.inUnit(v.Code, v.Unit); ok {
				if b.Values == nil {
					b.Values = map[string]float64{}
				}
				b.Values[v.Code] = got
			}
		}
		if len(s.list) == before {
			s.accept(b.Check())
		}
		key := strings.Join([]string{tabular.Plain(row.Farm), tabular.Plain(row.Field), row.Day.String(), tabular.Plain(b.Lab), tabular.Plain(b.Number), b.Part}, "\n")
		if first := seen[key]; first != 0 {
			s.Add(row.Row, s.heading("field"), "%s was sampled on %s in row %d too; take one out", row.Field, row.Day, first)
		}
		seen[key] = row.Row
		row.Test = b
		out.Tests = append(out.Tests, row)
	}
	out.File = s.file
	return out, nil
}
