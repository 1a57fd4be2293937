package office

import (
	"context"
	"io"

	"haywarden/book"
	"haywarden/exchange"
)

// ImportStacks takes a table of hay stacks and their readings into the book, all of it or nothing. A
// stack of a stand and day takes the place of the one the book holds, unless it is just so; of two
// readings of a day both are kept.
func (o *Office) ImportStacks(ctx context.Context, actor Actor, r io.Reader, name string, dry bool) (ImportedRecords, error) {
	if err := may(actor, actRecord); err != nil {
		return ImportedRecords{}, err
	}
	table, err := exchange.ReadStacks(r, name)
	if err != nil {
		return ImportedRecords{}, err
	}
	return o.takeIn(ctx, actor, table.File, dry, func(b *batch) error {
		for _, row := range table.Stacks {
			if !b.past(row.Row, "date", row.Day) {
				continue
			}
			s := b.standOn(row.Row, row.Farm, row.Field, row.Day, false)
			if s != nil && row.Stack != nil {
				takeStacked(b, s, row, *row.Stack, s.Stacks, true)
			}
			if s != nil && row.Reading != nil {
				takeStacked(b, s, row, *row.Reading, s.StackReadings, false)
			}
		}
		return nil
	})
}

func takeStacked[T book.Body](b *batch, s *book.StandView, row exchange.StackRow, body T, told []book.Dated[T], whole bool) {
	e := Entry{Farm: s.Farm.ID, Subject: s.ID, Day: row.Day, Body: body}
	for _, d := range told {
		if d.Day != row.Day {
			continue
		}
		if equalJSON(d.Body, body) {
			b.same(body.Kind())
			return
		}
		if whole {
			e.Supersedes = d.ID
		}
	}
	b.add(e, e.Supersedes != "")
}
