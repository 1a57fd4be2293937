package exchange

import (
	"io"
	"slices"
	"strings"

	"haywarden/book"
)

// Guides is a table that a user typed in from a printed guide.
type Guides struct {
	File
	Tables []GuideRow
}

// GuideRow is one guide's table, of the rows that tell it.
type GuideRow struct {
	Row   int // the first of them
	Table book.GuideTable
}

var guideColumns = []Column{
	{Name: "guide", Also: []string{"state"}, Needed: true},
	{Name: "edition", Also: []string{"print", "publication"}, Needed: true},
	{Name: "basis"}, {Name: "depth", Also: []string{"depth in"}, check: "depth"},
	{Name: "target", Also: []string{"target ph"}}, {Name: "a"}, {Name: "b"}, {Name: "c"},
	{Name: "class", Also: []string{"soil class", "test class"}}, {Name: "ph", Also: []string{"water ph"}}, {Name: "tons", Also: []string{"tons acre", "tons ac"}},
	{Name: "crop"}, {Name: "soil", Also: []string{"soil group"}}, {Name: "nutrient"}, {Name: "extractant"}, {Name: "from"}, {Name: "to"},
}

// GuideColumns lists the columns of a table typed in from a printed guide.
func GuideColumns() []Column { return slices.Clone(guideColumns) }

var cropCalls = []call[book.Crop]{
	{book.Alfalfa, []string{"lucerne"}}, {book.ReducedLignin, nil}, {book.RedClover, []string{"clover"}}, {book.AlfalfaGrass, []string{"mixture"}},
}

var nutrientCalls = []call[string]{{"p", []string{"phosphorus"}}, {"k", []string{"potassium"}}}

// ReadGuides reads tables typed in from a printed guide. A row with target, a, b and c is a line of lime:
// tons an acre = a - b x buffer pH - c x water pH. One with class, ph and tons is a cell of a lime chart. One
// with crop, nutrient, extractant, class, from and to is a class of a soil test, in ppm. Guide and edition
// stand in each row; rows of one guide and use are one table.
func ReadGuides(r io.Reader, name string) (Guides, error) {
	s, err := open(r, name, guideColumns)
	if err != nil {
		return Guides{}, err
	}
	var out Guides
	for {
		more, err := s.next()
		if err != nil {
			return Guides{}, err
		}
		if !more {
			break
		}
		before := len(s.list)
		t := book.GuideTable{Guide: s.name("guide"), Edition: s.name("edition"), Basis: s.text("basis")}
		if d := s.quantity("depth", "in"); d != nil {
			t.DepthIn = *d
		}
		switch {
		case s.raw("target") != "":
			l := book.LimeLine{}
			s.numbers(map[string]*float64{"target": &l.Target, "a": &l.A, "b": &l.B, "c": &l.C}, "target", "a", "b", "c")
			t.Lines = []book.LimeLine{l}
		case s.raw("tons") != "":
			var ph, tons float64
			s.numbers(map[string]*float64{"ph": &ph, "tons": &tons}, "ph", "tons")
			t.Chart = &book.LimeChart{Classes: []string{s.name("class")}, PH: []float64{ph}, Tons: [][]float64{{tons}}}
		case s.raw("nutrient") != "":
			c := book.TestClass{Crop: oneOf(s, "crop", cropCalls, true), Soil: s.text("soil"), Nutrient: oneOf(s, "nutrient", nutrientCalls, true), Class: s.name("class"),
				By: oneOf(s, "extractant", extractants(book.BrayP1, book.Mehlich3, book.Mehlich3Color, book.Olsen, book.AmmoniumAcetate), true)}
			s.numbers(map[string]*float64{"from": &c.From, "to": &c.To}, "from", "to")
			t.Classes = []book.TestClass{c}
		default:
			s.Add(s.row.Place, "", "the row says no line of lime (target, a, b, c), no cell of a lime chart (class, ph, tons) and no class of a test (crop, nutrient, extractant, class, from, to)")
		}
		if len(s.list) == before {
			out.take(s, t)
		}
	}
	for _, g := range out.Tables {
		if err := g.Table.Check(); err != nil {
			s.Add(g.Row, "", "the table of %s that begins here: %s", g.Table.Guide, strings.ReplaceAll(err.Error(), "\n", "; "))
		}
	}
	if err := s.Err(); err != nil {
		return Guides{}, err
	}
	out.File = s.file
	return out, nil
}

// numbers reads cells that must hold a number.
func (s *sheet) numbers(into map[string]*float64, columns ...string) {
	for _, col := range columns {
		if v := s.quantity(col, ""); v != nil {
			*into[col] = *v
		} else if s.raw(col) == "" {
			s.fault(col, "is empty; a number wanted")
		}
	}
}

// take puts a row's part of a table to the table it belongs to.
func (g *Guides) take(s *sheet, t book.GuideTable) {
	i := slices.IndexFunc(g.Tables, func(o GuideRow) bool { return o.Table.Guide == t.Guide && o.Table.Use() == t.Use() })
	if i < 0 {
		g.Tables = append(g.Tables, GuideRow{Row: s.row.Place, Table: t})
		return
	}
	o := &g.Tables[i].Table
	if o.Edition != t.Edition || o.Basis != t.Basis || o.DepthIn != t.DepthIn {
		s.Add(s.row.Place, s.heading("edition"), "rows of one table of %s differ in edition, basis or depth from row %d", t.Guide, g.Tables[i].Row)
		return
	}
	o.Lines, o.Classes = append(o.Lines, t.Lines...), append(o.Classes, t.Classes...)
	if t.Chart != nil && !o.Chart.Put(t.Chart.Classes[0], t.Chart.PH[0], t.Chart.Tons[0][0]) {
		s.Add(s.row.Place, s.heading("ph"), "class %s at pH %g is told twice, or after a class that told fewer values of pH; order the rows by class and rising pH", t.Chart.Classes[0], t.Chart.PH[0])
	}
}
