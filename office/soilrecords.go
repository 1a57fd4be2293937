package office

import (
	"context"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"haywarden/agronomy/soil"
	"haywarden/book"
	"haywarden/exchange"
)

// SoilBrought says what a table of soil tests brought.
type SoilBrought struct {
	ImportedRecords
	FormFound
	LeftOut []exchange.Fault `json:"left_out,omitempty"`
	Told    []string         `json:"told,omitempty"` // what new tests say, in words
}

// BringSoil takes a table of soil tests into the book, as [Office.BringLabs] takes one of forage: a form not
// known is proposed, and remembered once it is confirmed. A test that the book holds just so adds nothing;
// another of the same part of a field, on that day and by that laboratory, takes the place of the old one.
func (o *Office) BringSoil(ctx context.Context, actor Actor, r io.Reader, name string, how LabImport) (SoilBrought, error) {
	if err := may(actor, actRecord); err != nil {
		return SoilBrought{}, err
	}
	f, err := exchange.OpenSoils(r, name)
	if err != nil {
		return SoilBrought{}, err
	}
	var got SoilBrought
	done, err := o.takeIn(ctx, actor, exchange.File{Name: name}, how.Dry, func(b *batch) (err error) {
		got, err = b.fillSoil(f, how)
		return err
	})
	if err != nil {
		return SoilBrought{FormFound: FormFound{Proposal: got.Proposal}}, err
	}
	got.ImportedRecords = done
	return got, nil
}

func (b *batch) fillSoil(f *exchange.SoilFile, how LabImport) (got SoilBrought, err error) {
	found, form, err := b.formOf(book.OfSoil, exchange.SoilTerms(), f, how)
	got.FormFound = found
	if err != nil {
		return got, err
	}
	say := maps.Clone(how.Say)
	if form == nil && how.Lab != "" && say["lab"] == "" && !slices.ContainsFunc(f.Headings(), isLabColumn) {
		if say == nil {
			say = map[string]string{}
		}
		say["lab"] = how.Lab
	}
	table, err := f.Read(exchange.LabHow{Form: form, Say: say, KeepRest: how.KeepRest})
	if err != nil {
		return got, err
	}
	b.file, got.LeftOut = table.File, table.LeftOut
	before := len(b.entries)
	for _, row := range table.Tests {
		if !b.past(row.Row, "sampled", row.Day) {
			continue
		}
		if field := b.fieldOn(row.Row, row.Farm, row.Field); field != nil {
			b.takeSoil(field, row, &got)
		}
	}
	if taken := len(b.entries) > before || b.count[book.KindSoilTest].Unchanged > 0; how.KeepRest && taken {
		got.LeftOut = append(got.LeftOut, b.faults.Take()...)
	}
	return got, nil
}

func (b *batch) takeSoil(field *book.FieldView, row exchange.SoilRow, got *SoilBrought) {
	e := Entry{Farm: field.Farm.ID, Subject: field.ID, Day: row.Day, Body: row.Test}
	told := fmt.Sprintf("%s · %s, %s: %s", field.Farm.Name, field.Name, row.Day, exchange.SoilTold(row.Test))
	corrects := ""
	for _, d := range field.SoilTests {
		if d.Day != row.Day || plain(d.Body.Part) != plain(row.Test.Part) || plain(d.Body.Lab) != plain(row.Test.Lab) {
			continue
		}
		if equalJSON(d.Body, row.Test) {
			b.same(book.KindSoilTest)
			return
		}
		e.Supersedes, corrects = d.ID, "; it corrects "+exchange.SoilTold(d.Body)
	}
	got.Told = append(got.Told, told+corrects+".")
	b.add(e, e.Supersedes != "")
}

// checkGuides refuses a guide that no table goes by.
func checkGuides(g book.SoilGuides) error {
	for _, c := range []struct {
		field, said string
		known       []string
	}{
		{"lime", g.Lime, names(soil.LimeGuides())},
		{"fertility", g.Fertility, names(soil.FertilityGuides())},
		{"removal", g.Removal, soil.BookNames(soil.Alfalfa)},
	} {
		if c.said != "" && !slices.Contains(c.known, c.said) {
			return &BadEntry{c.field, fmt.Sprintf("%q: accepted %s%s", c.said, strings.Join(c.known, ", "), meant(c.said, c.known))}
		}
	}
	if err := g.Check(); err != nil {
		return &BadEntry{"guides", err.Error()}
	}
	return nil
}

func names[T ~string](list []T) (out []string) {
	for _, n := range list {
		out = append(out, string(n))
	}
	return out
}
