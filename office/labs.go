package office

import (
	"context"
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"haywarden/book"
	"haywarden/exchange"
)

// LabImport is how a table of a laboratory's results, of forage or soil, is brought in.
type LabImport struct {
	Lab      string            // whose table it is; empty: as the file or a remembered form says
	Basis    string            // dm, as-fed or row, where the headings do not tell
	Map      []exchange.Change // of what is proposed
	Say      map[string]string // what all rows say where no column does, by code: farm, sample ...
	Confirm  bool              // the form as proposed and changed is right
	KeepRest bool              // leave bad rows out and take the rest
	Dry      bool              // store nothing
}

// LabsBrought says what a table of laboratory results brought.
type LabsBrought struct {
	ImportedRecords
	FormFound
	Fed      int              `json:"as_fed,omitempty"` // rows turned into dry matter
	LeftOut  []exchange.Fault `json:"left_out,omitempty"`
	Warnings []LabWarning     `json:"warnings,omitempty"`
	Told     []string         `json:"told,omitempty"` // what new results say, in words
}

// LabWarning is something a reader of results should know, and of how many rows it is true.
type LabWarning struct {
	exchange.Fault
	Rows int `json:"rows"`
}

// ErrUnconfirmed says that a table's form has to be looked at and confirmed first.
var ErrUnconfirmed = errors.New("nothing was taken in: what each column says has to be confirmed first")

// BringLabs takes a table of laboratory results into the book. A table of a form not known is not read
// but proposed, with [ErrUnconfirmed]; confirmed once, the book remembers it for that laboratory. A
// result that the book holds just so adds nothing, and one that corrects another takes its place.
func (o *Office) BringLabs(ctx context.Context, actor Actor, r io.Reader, name string, how LabImport) (LabsBrought, error) {
	if err := may(actor, actRecord); err != nil {
		return LabsBrought{}, err
	}
	f, err := exchange.OpenLabs(r, name)
	if err != nil {
		return LabsBrought{}, err
	}
	var got LabsBrought
	done, err := o.takeIn(ctx, actor, exchange.File{Name: name}, how.Dry, func(b *batch) (err error) {
		got, err = b.fillLabs(f, how)
		return err
	})
	if err != nil {
		return LabsBrought{FormFound: FormFound{Proposal: got.Proposal}}, err
	}
	got.ImportedRecords = done
	return got, nil
}

// fillLabs gathers what a table of results says.
func (b *batch) fillLabs(f *exchange.LabFile, how LabImport) (LabsBrought, error) {
	found, form, err := b.formOf(exchange.LabForage, exchange.LabTerms(), f, how)
	got := LabsBrought{FormFound: found}
	if err != nil {
		return got, err
	}
	say := maps.Clone(how.Say)
	if form == nil && !slices.ContainsFunc(f.Headings(), isLabColumn) && how.Lab != "" && say["lab"] == "" {
		if say == nil {
			say = map[string]string{}
		}
		say["lab"] = how.Lab
	}
	table, err := f.Read(exchange.LabHow{Form: form, Say: say, KeepRest: how.KeepRest})
	if err != nil {
		return got, err
	}
	b.file = table.File
	got.Fed, got.LeftOut = table.Fed, table.LeftOut
	groups := b.labGroups(table.Labs, &got)
	if how.KeepRest && len(groups) > 0 {
		got.LeftOut = append(got.LeftOut, b.faults.Take()...)
	}
	for _, g := range groups {
		b.takeLabs(g, &got)
	}
	return got, nil
}

// isLabColumn reports whether our own form has a column of this heading that names the laboratory.
func isLabColumn(heading string) bool {
	i := slices.IndexFunc(exchange.LabColumns(), func(c exchange.Column) bool { return c.Name == "lab" })
	c := exchange.LabColumns()[i]
	return slices.ContainsFunc(append([]string{c.Name}, c.Also...), func(n string) bool { return plain(n) == plain(heading) })
}

// FormFound says how a table in somebody's own words was or is to be read.
type FormFound struct {
	Lab      string             `json:"lab,omitempty"`
	Proposal *exchange.Proposal `json:"proposal,omitempty"` // to be confirmed: nothing was taken in
	Form     string             `json:"form,omitempty"`     // own, remembered or confirmed
}

// mappedTable is a table in somebody's own words that was opened.
type mappedTable interface {
	Headings() []string
	Own() bool
	Propose() exchange.Proposal
}

// formOf finds how the file is to be read: nil for our own form. What is not known is proposed; what is
// confirmed is added to the book.
func (b *batch) formOf(of string, terms []exchange.Term, f mappedTable, how LabImport) (got FormFound, form *book.TableForm, err error) {
	asked := len(how.Map) > 0 || how.Basis != ""
	known := b.rememberedForm(of, how.Lab, f.Headings())
	switch {
	case known == nil && !asked && f.Own():
		got.Form, got.Lab = "own", how.Lab
		return got, nil, nil
	case known != nil && !asked && exchange.Fits(known.Body, f.Headings()) && len(newMeanings(known.Body, terms, f)) == 0:
		got.Form, got.Lab = "remembered", known.Body.From
		return got, &known.Body, nil
	}
	p := f.Propose()
	if known != nil {
		p.Recall(known.Body)
	}
	if err := p.Apply(how.Map, how.Basis, terms); err != nil {
		return got, nil, fmt.Errorf("read %s: %w", p.File, err)
	}
	p.Lacking = slices.DeleteFunc(p.Lacking, func(code string) bool { return how.Say[code] != "" })
	p.Form.From = how.Lab
	if known != nil && how.Lab == "" {
		p.Form.From = known.Body.From
	}
	if !how.Confirm {
		got.Proposal = &p
		return got, nil, fmt.Errorf("read %s: %w", p.File, ErrUnconfirmed)
	}
	var lack []string
	for _, code := range p.Lacking {
		lack = append(lack, "no column says "+code)
	}
	if p.NoBasis {
		lack = append(lack, "nothing says whether shares are of dry matter or as fed")
	}
	if p.Form.From == "" {
		lack = append(lack, "whose table it is was not said")
	}
	if len(lack) > 0 {
		got.Proposal = &p
		return got, nil, fmt.Errorf("read %s: %s: %w", p.File, strings.Join(lack, "; "), ErrUnconfirmed)
	}
	e := Entry{Day: b.office.Today(), Body: p.Form}
	for _, d := range b.view.Forms {
		if d.Body.Of == of && plain(d.Body.From) == plain(p.Form.From) {
			e.Subject, e.Supersedes = d.Subject, d.ID
		}
	}
	b.add(e, e.Supersedes != "")
	got.Form, got.Lab = "confirmed", p.Form.From
	return got, &p.Form, nil
}

// rememberedForm finds the form of a laboratory, or, where none is named, the newest that reads a table
// with these headings.
func (b *batch) rememberedForm(of, lab string, headings []string) *book.Dated[book.TableForm] {
	for _, d := range slices.Backward(b.view.Forms) {
		switch {
		case d.Body.Of != of:
		case lab != "" && plain(d.Body.From) == plain(lab), lab == "" && exchange.Fits(d.Body, headings):
			return &d
		}
	}
	return nil
}

// newMeanings lists columns that a form says nothing of and that would say something.
func newMeanings(form book.TableForm, terms []exchange.Term, f mappedTable) []string {
	more := exchange.Unmapped(form, f.Headings())
	p := exchange.Propose(form.Of, more, terms)
	return slices.DeleteFunc(more, func(n string) bool {
		return !slices.ContainsFunc(p.Form.Columns, func(c book.ColumnUse) bool { return c.Column == n && c.Code != "" })
	})
}
