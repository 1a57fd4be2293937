package exchange

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/tabular"
)

// Soils is a table of soil tests.
type Soils struct {
	File
	Tests   []SoilRow
	LeftOut []Fault // of rows that were left out, where that was asked for
}

// SoilRow is one test.
type SoilRow struct {
	Row   int
	Farm  string
	Field string
	Day   unit.Day // the sample was taken
	Test  book.SoilTest
}

// SoilFile is a table of soil tests that was opened and not yet read.
type SoilFile struct{ mapped }

// OpenSoils reads a table's headings.
func OpenSoils(r io.Reader, name string) (*SoilFile, error) {
	f, err := openMapped(r, name, mapped{of: book.OfSoil, columns: soilColumns, terms: soilTerms})
	return &SoilFile{f}, err
}

// Read reads the tests, a row a sample. Two samples of a field and day are told apart by the part of the
// field they were taken in; else the second is a fault.
func (f *SoilFile) Read(how LabHow) (Soils, error) {
	s, err := f.sheet(how)
	if err != nil {
		return Soils{}, err
	}
	s.lenient = how.KeepRest
	var got Soils
	seen := map[string]int{}
	for {
		more, err := s.next()
		if err != nil {
			return Soils{}, err
		}
		if !more {
			break
		}
		before := len(s.list)
		row := s.soilRow(how.Form)
		key := strings.Join([]string{tabular.Plain(row.Farm), tabular.Plain(row.Field), row.Day.String(), tabular.Plain(row.Test.Part)}, "\n")
		if first := seen[key]; first != 0 && row.Day != 0 {
			s.Add(row.Row, s.heading("field"), "%s was sampled on %s in row %d too; say in a column part which part of the field each is of, or take one out", row.Field, row.Day, first)
		} else {
			seen[key] = row.Row
		}
		if len(s.list) == before {
			got.Tests = append(got.Tests, row)
		}
	}
	got.File, got.LeftOut = s.file, s.list
	if len(got.Tests) == 0 || len(s.list) > 0 && !how.KeepRest {
		return Soils{}, s.Err()
	}
	return got, nil
}

func (s *sheet) soilRow(form *book.TableForm) SoilRow {
	before := len(s.list)
	row := SoilRow{Row: s.row.Place, Farm: s.name("farm"), Field: s.name("field")}
	row.Day, _ = s.date("sampled", true)
	b := book.SoilTest{Lab: s.text("lab"), Number: s.text("number"), Part: s.text("part")}
	if b.Lab == "" && form != nil {
		b.Lab = form.From
	}
	for _, v := range []struct {
		code string
		into *float64
	}{{"depth", &b.DepthIn}, {"ph", &b.PH}} {
		if got, ok := s.soilValue(v.code); ok {
			*v.into = got
		}
	}
	s.buffer(&b)
	s.says = map[string]string{}
	b.P = s.extract("P", "p", pColumns, book.PExtractants())
	b.K = s.extract("K", "k", kColumns, book.KExtractants())
	for _, v := range book.SoilValues() {
		if got, ok := s.soilValue(v.Code); ok {
			if b.More == nil {
				b.More = map[string]float64{}
			}
			b.More[v.Code] = got
		}
	}
	if row.Test = b; len(s.list) == before {
		s.accept(b.Check())
	}
	return row
}

func soilTerm(code string) Term {
	return soilTerms[slices.IndexFunc(soilTerms, func(t Term) bool { return t.Code == code })]
}

// soilValue is a cell as a number in the first unit of its term; not ok where it says none.
func (s *sheet) soilValue(code string) (float64, bool) {
	raw := s.raw(code)
	if raw == "" {
		return 0, false
	}
	v, err := s.labValue(soilTerm(code), raw)
	if err != nil {
		s.fault(code, "%v", err)
		return 0, false
	}
	return v, true
}

// buffer reads the buffer pH under whichever heading it stands.
func (s *sheet) buffer(b *book.SoilTest) {
	used := ""
	b.BufferBy = oneOf(s, "buffer-by", bufferCalls, false)
	for _, c := range bufferColumns {
		v, ok := s.soilValue(c.code)
		switch {
		case !ok:
			continue
		case used != "":
			s.fault(c.code, "the buffer pH stands under %s too; take one out", s.heading(used))
			return
		case c.code == limeIndex:
			v = rounded(v / 10)
		}
		used, b.Buffer = c.code, v
		switch {
		case c.by == "":
		case b.BufferBy != "" && b.BufferBy != c.by:
			s.fault("buffer-by", "the column %s is of %s; take one out", s.heading(c.code), c.by)
		default:
			b.BufferBy = c.by
		}
	}
	switch {
	case used == "":
		b.BufferBy = "" // no reading to say it of
	case b.BufferBy == "":
		s.fault(used, "a buffer pH without its buffer: which one decides the lime; say it in a column buffer-by, or of all rows (smp, sikora, mehlich ...)")
	}
}

// extract reads a nutrient under whichever heading it stands, with its extractant and in the unit in which
// it is written.
func (s *sheet) extract(what, nutrient string, columns []extracted, all []book.Extractant) *book.Extracted {
	said := oneOf(s, "extractant-"+nutrient, extractants(all...), false)
	if both := oneOf(s, "extractant", extractants(book.BrayP1, book.Mehlich3, book.Mehlich3Color, book.Olsen, book.AmmoniumAcetate), false); said == "" && speaksFor(both, nutrient) {
		said = both
	}
	used := ""
	var got *book.Extracted
	for _, c := range columns {
		raw := s.raw(c.code)
		if raw == "" {
			continue
		}
		if used != "" {
			s.fault(c.code, "%s stands under %s too, by another extractant; a test holds one: leave a column out", what, s.heading(used))
			return nil
		}
		used, s.says[what] = c.code, c.code
		v, in, err := s.termValue(soilTerm(c.code), raw)
		if err != nil {
			s.fault(c.code, "%v", err)
			return nil
		}
		by := c.by
		switch {
		case by == "":
			by = said
		case said != "" && said != by:
			s.fault(c.code, "its heading says %s and the row %s", by, said)
			return nil
		}
		if by == "" {
			s.fault(c.code, "%s without its extractant, which decides what it means: name it in the heading (Bray P1, Mehlich-3 ...), in a column extractant-%s, or of all rows; accepted %s", what, nutrient, words(all))
			return nil
		}
		got = &book.Extracted{Value: v, Unit: book.SoilUnit(in.Name), By: by}
	}
	return got
}

// speaksFor reports whether an extractant that is said of a test says it of the nutrient. Bray is said of
// phosphorus: the potassium beside it is most often drawn by another, so that has to be said.
func speaksFor(by book.Extractant, nutrient string) bool {
	if nutrient == "k" {
		return by == book.AmmoniumAcetate || by == book.Mehlich3
	}
	return by != book.AmmoniumAcetate
}

func words[T ~string](list []T) string {
	var out []string
	for _, w := range list {
		out = append(out, string(w))
	}
	return strings.Join(out, ", ")
}

// SoilTold says a test in one line.
func SoilTold(b book.SoilTest) string {
	var parts []string
	if b.PH != 0 {
		parts = append(parts, fmt.Sprintf("pH %g", b.PH))
	}
	if b.Buffer != 0 {
		parts = append(parts, fmt.Sprintf("buffer %g (%s)", b.Buffer, b.BufferBy))
	}
	for _, e := range []struct {
		name string
		got  *book.Extracted
	}{{"P", b.P}, {"K", b.K}} {
		if e.got != nil {
			parts = append(parts, fmt.Sprintf("%s %g %s by %s", e.name, e.got.Value, e.got.Unit, e.got.By))
		}
	}
	return strings.Join(parts, ", ")
}
