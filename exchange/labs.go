package exchange

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"haywarden/agronomy/forage"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/tabular"
)

// Labs is a table of laboratory results.
type Labs struct {
	File
	Labs    []LabRow
	Fed     int     // rows as fed that were turned into dry matter
	LeftOut []Fault // of rows that were left out, where that was asked for
}

// LabRow is one result.
type LabRow struct {
	Row   int
	Farm  string
	Field string
	Day   unit.Day // the sample was taken
	Lab   book.Lab
}

var samples = []call[string]{
	{"standing", []string{"fresh", "standing crop", "fresh forage", "legume fresh", "scissors cut"}},
	{"hay", []string{"dry hay", "legume hay", "alfalfa hay", "hay legume", "mixed hay", "mixed mostly legume hay", "clover hay"}},
	{"haylage", []string{"silage", "hay silage", "alfalfa silage", "legume silage", "legume haylage", "alfalfa haylage", "mixed haylage", "mixed mostly legume haylage", "hay crop silage"}},
	{"baleage", []string{"balage", "bale silage", "wrapped bales", "legume baleage", "alfalfa baleage"}},
}

var bases = []call[string]{
	{book.DryBasis, []string{"dry", "dry matter", "dry basis", "dry matter basis", "dm basis", "100 dm", "dmb"}},
	{book.FedBasis, []string{"as fed", "as received", "as is", "fed", "af", "ar", "as fed basis", "as sampled"}},
}

// LabHow is how a table of laboratory results is to be read.
type LabHow struct {
	Form     *book.TableForm   // nil: our own columns
	Say      map[string]string // what no column says, by code: of all rows
	KeepRest bool              // leave bad rows out and take the rest
}

// LabFile is a table of laboratory results of forage that was opened and not yet read.
type LabFile struct{ mapped }

// OpenLabs reads a table's headings.
func OpenLabs(r io.Reader, name string) (*LabFile, error) {
	f, err := openMapped(r, name, mapped{of: LabForage, columns: labColumns, terms: labTerms})
	return &LabFile{f}, err
}

// ReadLabs reads laboratory results in our own form, a row a sample: farm, field, sampled, sample, adf
// and ndf are needed. Shares are of dry matter unless the column basis says otherwise.
func ReadLabs(r io.Reader, name string) (Labs, error) {
	f, err := OpenLabs(r, name)
	if err != nil {
		return Labs{}, err
	}
	return f.Read(LabHow{})
}

// Read reads the results.
func (f *LabFile) Read(how LabHow) (Labs, error) {
	s, err := f.sheet(how)
	if err != nil {
		return Labs{}, err
	}
	s.lenient = how.KeepRest
	var got Labs
	seen := map[string]int{}
	for {
		more, err := s.next()
		if err != nil {
			return Labs{}, err
		}
		if !more {
			break
		}
		before := len(s.list)
		row, fed := s.labRow(how.Form)
		key, err := labKey(row)
		if err != nil {
			return Labs{}, err
		}
		if first := seen[key]; first != 0 {
			s.Add(row.Row, "", "it says what row %d says; take one out", first)
		}
		if seen[key] = row.Row; len(s.list) > before {
			continue
		}
		if fed {
			got.Fed++
		}
		got.Labs = append(got.Labs, row)
	}
	got.File, got.LeftOut = s.file, s.list
	if len(got.Labs) == 0 {
		return Labs{}, s.Err()
	}
	return got, nil
}

// labKey is what a row says, apart from where it stands.
func labKey(row LabRow) (string, error) {
	row.Row, row.Farm, row.Field = 0, tabular.Plain(row.Farm), tabular.Plain(row.Field)
	key, err := json.Marshal(row)
	return string(key), err
}

// labRow reads the row, and reports whether it was as fed.
func (s *sheet) labRow(form *book.TableForm) (row LabRow, fed bool) {
	before := len(s.list)
	row = LabRow{Row: s.row.Place, Farm: s.name("farm"), Field: s.name("field")}
	row.Day, _ = s.date("sampled", true)
	row.Lab = book.Lab{Lab: s.text("lab"), Sample: oneOf(s, "sample", samples, true), Number: s.text("number"), Lot: s.text("lot"), Method: s.text("method")}
	if row.Lab.Lab == "" && form != nil {
		row.Lab.Lab = form.From
	}
	if n := s.cuttingNumber(); n != nil {
		row.Lab.Cutting = *n
	}
	given := s.labValues()
	basis, own := s.rowBasis(form)
	if len(s.list) > before {
		return row, false
	}
	values, fed := s.toDry(given, basis, own)
	if len(s.list) > before {
		return row, fed
	}
	row.Lab.ADF, row.Lab.NDF, row.Lab.CP = values["adf"], values["ndf"], values["cp"]
	for code, v := range values {
		if code != "adf" && code != "ndf" && code != "cp" {
			if row.Lab.More == nil {
				row.Lab.More = map[string]float64{}
			}
			row.Lab.More[code] = v
		}
	}
	s.accept(row.Lab.Check())
	if len(s.list) > before {
		return row, fed
	}
	for _, flag := range forage.CheckReport(values, "") {
		if flag.Level == forage.Wrong {
			s.fault(flag.Field, "%s", flag.Text)
		}
	}
	return row, fed
}

// labValues reads all numbers of the row, in the first unit of their terms.
func (s *sheet) labValues() forage.Report {
	given := forage.Report{}
	for _, t := range labTerms {
		if len(t.Units) == 0 {
			continue
		}
		switch raw := s.raw(t.Code); {
		case raw != "":
			if v, err := s.labValue(t, raw); err != nil {
				s.fault(t.Code, "%v", err)
			} else {
				given[t.Code] = v
			}
		case t.Needed:
			s.fault(t.Code, "is empty; %% of dry matter wanted")
		}
	}
	return given
}

func (s *sheet) labValue(t Term, raw string) (float64, error) {
	v, u, err := s.termValue(t, raw)
	return rounded(v * u.Factor), err
}

// termValue reads a number as it is written, and its unit: of the cell, else of its column.
func (s *sheet) termValue(t Term, raw string) (v float64, in TermUnit, err error) {
	number, after := tabular.CutUnit(raw)
	if number == "" {
		return 0, in, errors.New("a number wanted")
	}
	if v, err = s.row.Number(number); err != nil {
		return 0, in, err
	}
	named := s.unit[t.Code]
	if after != "" {
		u, ok := t.unit(after)
		if !ok {
			return 0, in, fmt.Errorf("no unit of %s is written %q; accepted %s", t.Code, after, t.unitNames())
		}
		if named != "" && named != u.Name {
			return 0, in, fmt.Errorf("the cell says %s and its column %s", u.Name, named)
		}
		named = u.Name
	}
	if named == "" && t.SayUnit {
		return 0, in, fmt.Errorf("a unit after the number wanted: %s", t.unitNames())
	}
	u, ok := t.unit(named)
	if !ok {
		u = t.Units[0]
	}
	return v, u, nil
}

// rounded leaves what a laboratory prints and a conversion keeps.
func rounded(v float64) float64 { return math.Round(v*1e4) / 1e4 }

// rowBasis says what the shares of the row are of, and whether the row said so itself.
func (s *sheet) rowBasis(form *book.TableForm) (basis string, own bool) {
	if said := oneOf(s, basisCode, bases, form != nil && form.Basis == book.RowBasis); said != "" {
		return said, true
	}
	if form != nil && form.Basis != book.RowBasis {
		return form.Basis, false
	}
	return book.DryBasis, false
}

// toDry turns what the row gives as fed into shares of dry matter. A row that reads as if it were on the
// other basis than the file is refused: as fed and dry rows in one file are a mistake, or want a column
// that tells them apart.
func (s *sheet) toDry(given forage.Report, basis string, own bool) (dry forage.Report, fed bool) {
	dm, known := given.DM()
	if moisture, both := given["moisture"]; both && known && math.Abs(dm+moisture-100) > 0.5 {
		s.fault("dm", "with moisture %g it does not add up to 100", moisture)
		return given, false
	}
	dry = forage.Report{}
	for _, t := range labTerms {
		v, ok := given[t.Code]
		if !ok {
			continue
		}
		on := basis
		if own := s.basis[t.Code]; own != "" {
			on = own
		}
		if dry[t.Code] = v; !t.OnBasis || on != book.FedBasis {
			continue
		}
		if fed = true; known {
			dry[t.Code] = rounded(v * 100 / dm)
			continue
		}
		s.fault(t.Code, "it is as fed, and the row tells neither dry matter nor moisture to turn it into dry matter")
		return given, true
	}
	if !own && len(s.basisOfColumns()) == 0 {
		if seen, why := forage.BasisSeen(given); seen != "" && string(seen) != basis {
			s.Add(s.row.Place, s.heading("ndf"), "its shares seem to be %s: %s; the file is said to be %s. Give each row its basis in a column, or take the row out",
				basisSaid(string(seen)), why, basisSaid(basis))
		}
	}
	return dry, fed
}

// basisOfColumns lists the columns whose headings say what they are of.
func (s *sheet) basisOfColumns() (codes []string) {
	for code, b := range s.basis {
		if b != "" {
			codes = append(codes, code)
		}
	}
	return codes
}

func basisSaid(b string) string {
	if b == book.FedBasis {
		return "as fed"
	}
	return "of dry matter"
}

// cuttingNumber reads a cutting as people write it: 2, 2nd, second.
func (s *sheet) cuttingNumber() *int {
	raw := strings.ToLower(s.raw("cutting"))
	for i, words := range [][]string{{"1st", "first"}, {"2nd", "second"}, {"3rd", "third"}, {"4th", "fourth"}, {"5th", "fifth"}} {
		first, _, _ := strings.Cut(raw, " ")
		if n := i + 1; slices.Contains(words, first) {
			return &n
		}
	}
	return s.count("cutting")
}
