package office

import (
	"context"
	"io"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/exchange"
)

// ImportApplications takes a table of lime, fertilizer and manure that was spread into the book, all of it
// or nothing. One of the same material on the same field, part and day takes the place of the old one.
func (o *Office) ImportApplications(ctx context.Context, actor Actor, r io.Reader, name string, dry bool) (ImportedRecords, error) {
	if err := may(actor, actRecord); err != nil {
		return ImportedRecords{}, err
	}
	table, err := exchange.ReadSpreads(r, name)
	if err != nil {
		return ImportedRecords{}, err
	}
	return o.takeIn(ctx, actor, table.File, dry, func(b *batch) error {
		for _, row := range table.Spread {
			if !b.past(row.Row, "date", row.Day) {
				continue
			}
			if f := b.fieldOn(row.Row, row.Farm, row.Field); f != nil {
				takeDated(b, f.Farm.ID, f.ID, row.Day, row.Application, f.Applications, func(was book.Application) bool {
					return plain(was.Material) == plain(row.Application.Material) && plain(was.Part) == plain(row.Application.Part)
				})
			}
		}
		return nil
	})
}

// ImportTissues takes a table of tissue tests into the book, all of it or nothing. One of the same stand, day
// and laboratory takes the place of the old one.
func (o *Office) ImportTissues(ctx context.Context, actor Actor, r io.Reader, name string, dry bool) (ImportedRecords, error) {
	if err := may(actor, actRecord); err != nil {
		return ImportedRecords{}, err
	}
	table, err := exchange.ReadTissues(r, name)
	if err != nil {
		return ImportedRecords{}, err
	}
	return o.takeIn(ctx, actor, table.File, dry, func(b *batch) error {
		for _, row := range table.Tests {
			if !b.past(row.Row, "sampled", row.Day) {
				continue
			}
			if s := b.standOn(row.Row, row.Farm, row.Field, row.Day, false); s != nil {
				takeDated(b, s.Farm.ID, s.ID, row.Day, row.Test, s.Tissue, func(was book.TissueTest) bool {
					return plain(was.Lab) == plain(row.Test.Lab) && plain(was.Number) == plain(row.Test.Number)
				})
			}
		}
		return nil
	})
}

// ImportSown takes a table of how stands were sown into the book, all of it or nothing. What is told of
// a stand anew takes the place of what was told before.
func (o *Office) ImportSown(ctx context.Context, actor Actor, r io.Reader, name string, dry bool) (ImportedRecords, error) {
	if err := may(actor, actRecord); err != nil {
		return ImportedRecords{}, err
	}
	table, err := exchange.ReadSown(r, name)
	if err != nil {
		return ImportedRecords{}, err
	}
	return o.takeIn(ctx, actor, table.File, dry, func(b *batch) error {
		for _, row := range table.Seedings {
			if !b.past(row.Row, "seeded", row.Day) {
				continue
			}
			s := b.standOn(row.Row, row.Farm, row.Field, row.Day, false)
			if s == nil {
				continue
			}
			takeDated(b, s.Farm.ID, s.ID, row.Day, row.Seeding, s.Seedings, func(book.Seeding) bool { return true })
		}
		return nil
	})
}

// ImportGuides takes tables typed in from printed guides into the book, all of them or none. A table of a
// guide and use takes the place of the one typed in before.
func (o *Office) ImportGuides(ctx context.Context, actor Actor, r io.Reader, name string, dry bool) (ImportedRecords, error) {
	if err := may(actor, actRecord); err != nil {
		return ImportedRecords{}, err
	}
	table, err := exchange.ReadGuides(r, name)
	if err != nil {
		return ImportedRecords{}, err
	}
	return o.takeIn(ctx, actor, table.File, dry, func(b *batch) error {
		for _, row := range table.Tables {
			held, known := b.view.GuideTable(row.Table.Guide, row.Table.Use())
			if known && equalJSON(held.Body, row.Table) {
				b.same(book.KindGuideTable)
				continue
			}
			e := Entry{Subject: "guide " + row.Table.Guide + " " + row.Table.Use(), Day: o.Today(), Body: row.Table}
			if known && held.Day == e.Day {
				e.Supersedes = held.ID
			}
			b.add(e, known)
		}
		return nil
	})
}

// takeDated adds what a row says of a thing on a day: nothing where the book holds just that, in the place of
// the one of that day that it is another telling of.
func takeDated[T book.Body](b *batch, farm, subject string, day unit.Day, body T, held []book.Dated[T], again func(was T) bool) {
	e := Entry{Farm: farm, Subject: subject, Day: day, Body: body}
	for _, d := range held {
		switch {
		case d.Day != day || !again(d.Body):
			continue
		case equalJSON(d.Body, body):
			b.same(body.Kind())
			return
		}
		e.Supersedes = d.ID
	}
	b.add(e, e.Supersedes != "")
}

// ChooseSoilGuides says whose soil tables a farm, or with no farm the whole book, goes by from a day on. What
// is left empty stays as it was.
func (o *Office) ChooseSoilGuides(ctx context.Context, actor Actor, ask Ask, farm string, g book.SoilGuides) (Saved, error) {
	if err := checkGuides(g); err != nil {
		return Saved{}, err
	}
	if farm != "" {
		_, f, err := o.change(ctx, actor, &ask, farm)
		if err != nil {
			return Saved{}, err
		}
		return tell(ctx, o, actor, ask, f.ID, f.ID, g, f.Soil)
	}
	if err := may(actor, actRecord); err != nil {
		return Saved{}, err
	}
	ask = o.settle(ask)
	ask.Date = min(ask.Date, o.Today())
	v, err := o.viewOf(ctx, ask)
	if err != nil {
		return Saved{}, err
	}
	return tell(ctx, o, actor, ask, "", "soil-guides", g, v.SoilGuides)
}
