package office

import (
	"context"
	"io"
	"slices"
	"strings"

	"haywarden/agronomy/unit"
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
		var put []stackPut
		for _, row := range table.Stacks {
			if !b.past(row.Row, "date", row.Day) {
				continue
			}
			if row.Stack != nil {
				if s := b.standOn(row.Row, row.Farm, row.Field, row.Day, true); s != nil {
					takeStacked(b, s, row, *row.Stack, s.Stacks, true)
					put = append(put, stackPut{s, row.Day})
				}
			}
		}
		for _, row := range table.Stacks {
			if row.Reading == nil || row.Day > o.Today() {
				continue
			}
			if s := b.standOfStack(row, put); s != nil {
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

// stackPut is a stack that the table itself puts up.
type stackPut struct {
	stand *book.StandView
	baled unit.Day
}

// standOfStack finds the stand whose hay was read: the one of the stack that the row names, else of the
// field's newest stack of the day, in the book or in the table, whatever grows in the field by then.
func (b *batch) standOfStack(row exchange.StackRow, put []stackPut) *book.StandView {
	now := b.standOn(row.Row, row.Farm, row.Field, row.Day, true)
	if now == nil {
		return nil
	}
	for _, s := range now.InField.Stands {
		for _, k := range s.Stacks {
			put = append(put, stackPut{s, k.Day})
		}
	}
	var of stackPut
	var baled []string
	for _, k := range put {
		if k.stand.InField != now.InField || k.baled > row.Day {
			continue
		}
		baled = append(baled, k.baled.String())
		if named := row.Reading.Baled; named == nil && k.baled >= of.baled || named != nil && k.baled == *named {
			of = k
		}
	}
	switch {
	case of.stand != nil:
		return of.stand
	case len(baled) == 0:
		b.faults.Add(row.Row, "field", "no stack of %s of %s is in the book by %s; put it up first, by a row with its package and the day of baling", row.Field, row.Farm, row.Day)
	default:
		slices.Sort(baled)
		b.faults.Add(row.Row, "stack", "%s: no stack of %s was baled on that day; baled were %s", row.Reading.Baled, row.Field, strings.Join(slices.Compact(baled), ", "))
	}
	return nil
}
