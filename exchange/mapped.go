package exchange

import (
	"bytes"
	"fmt"
	"io"
	"maps"
	"slices"

	"haywarden/tabular"
)

// mapped is a table in a stranger's words that was opened and not yet read: what it may say, and under
// which names it says so in our own form.
type mapped struct {
	of      string // what a [book.TableForm] of it tells of
	columns []Column
	terms   []Term
	name    string
	raw     []byte
	names   []string
}

// openMapped reads a table's headings.
func openMapped(r io.Reader, name string, f mapped) (mapped, error) {
	raw, err := io.ReadAll(io.LimitReader(r, mostBytes+1))
	if err != nil {
		return mapped{}, fmt.Errorf("read %s: %w", name, err)
	}
	s, err := openBare(bytes.NewReader(raw), name, f.columns)
	if err != nil {
		return mapped{}, err
	}
	f.name, f.raw, f.names = name, raw, s.in.Header.Names()
	return f, nil
}

// Headings lists the columns as the file writes them.
func (f *mapped) Headings() []string { return slices.Clone(f.names) }

// Own reports whether the table is in our own form: what it needs is there under our names, and no
// other column says something that would have to be understood first.
func (f *mapped) Own() bool {
	var rest []string
	found := map[string]bool{}
	for _, n := range f.names {
		i := slices.IndexFunc(f.columns, func(c Column) bool { return c.goesBy(n) })
		if i < 0 {
			rest = append(rest, n)
			continue
		}
		found[f.columns[i].Name] = true
	}
	for _, c := range f.columns {
		if c.Needed && !found[c.Name] {
			return false
		}
	}
	return len(Propose(f.of, rest, f.terms).Meanings) == 0
}

// goesBy reports whether a heading is one of the column's names.
func (c Column) goesBy(heading string) bool {
	same := func(n string) bool { return tabular.Plain(n) == tabular.Plain(heading) }
	return same(c.Name) || slices.ContainsFunc(c.Also, same) ||
		slices.ContainsFunc(c.in, func(in spelling) bool { return slices.ContainsFunc(in.names, same) })
}

// Propose says how the table would be read.
func (f *mapped) Propose() Proposal {
	p := Propose(f.of, f.names, f.terms)
	p.File = f.name
	return p
}

// sheet opens the table and finds its columns: by a form, or by our own names.
func (f *mapped) sheet(how LabHow) (*sheet, error) {
	if how.Form == nil {
		s, err := open(bytes.NewReader(f.raw), f.name, f.columns)
		if err != nil {
			return nil, err
		}
		return s, s.sayOfAll(how.Say)
	}
	s, err := openBare(bytes.NewReader(f.raw), f.name, f.columns)
	if err != nil {
		return nil, err
	}
	for _, c := range how.Form.Columns {
		i := s.in.Header.Find(c.Column)
		switch {
		case c.Code != "" && i < 0:
			s.Add(1, "", "no column %s, which the form of %s reads as %s; the columns are %s", c.Column, how.Form.From, c.Code, s.in.Header)
		case c.Code != "":
			s.at[c.Code], s.unit[c.Code], s.basis[c.Code] = i, c.Unit, c.Basis
		case i >= 0:
			s.file.Unused = append(s.file.Unused, c.Column)
		}
	}
	s.file.Unused = append(s.file.Unused, Unmapped(*how.Form, s.in.Header.Names())...)
	for _, c := range f.columns {
		if _, there := s.at[c.Name]; c.Needed && !there && how.Say[c.Name] == "" {
			s.Add(1, "", "no column says %s, and nothing was said of it", c.Name)
		}
	}
	return s, s.sayOfAll(how.Say)
}

// sayOfAll takes what is said of all rows, of which no column may say it too.
func (s *sheet) sayOfAll(say map[string]string) error {
	s.said = say
	for _, code := range slices.Sorted(maps.Keys(say)) {
		if _, there := s.at[code]; there {
			s.Add(1, s.heading(code), "it says %s of each row, and %q was said of all; leave one out", code, say[code])
		}
	}
	return s.Err()
}
