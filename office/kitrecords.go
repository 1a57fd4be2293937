package office

import (
	"context"
	"io"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/exchange"
)

// ImportHerds takes a table of herds into the book, all of it or nothing. The herd of a farm and day
// takes the place of what the book holds of both; a row without a day is of today.
func (o *Office) ImportHerds(ctx context.Context, actor Actor, r io.Reader, name string, dry bool) (ImportedRecords, error) {
	if err := may(actor, actRecord); err != nil {
		return ImportedRecords{}, err
	}
	table, err := exchange.ReadHerds(r, name)
	if err != nil {
		return ImportedRecords{}, err
	}
	return o.takeIn(ctx, actor, table.File, dry, func(b *batch) error {
		for _, row := range table.Herds {
			if f := b.needFarm(row.Row, row.Farm); f != nil {
				takeWhole(b, row.Row, f, row.Day, row.Herd, f.Herds)
			}
		}
		return nil
	})
}

// ImportMachines takes a table of machines and crews into the book, as [Office.ImportHerds] takes herds.
func (o *Office) ImportMachines(ctx context.Context, actor Actor, r io.Reader, name string, dry bool) (ImportedRecords, error) {
	if err := may(actor, actRecord); err != nil {
		return ImportedRecords{}, err
	}
	table, err := exchange.ReadMachines(r, name)
	if err != nil {
		return ImportedRecords{}, err
	}
	return o.takeIn(ctx, actor, table.File, dry, func(b *batch) error {
		for _, row := range table.Farms {
			if f := b.needFarm(row.Row, row.Farm); f != nil {
				takeWhole(b, row.Row, f, row.Day, row.Kit, f.Machines)
			}
		}
		return nil
	})
}

// takeWhole takes what a farm has on a day as a whole: in the place of what was told of that day, else
// beside what was told of others.
func takeWhole[T book.Body](b *batch, row int, f *book.FarmView, day unit.Day, body T, told []book.Dated[T]) {
	dated := day != 0
	if !dated {
		day = b.office.Today()
	}
	if !b.past(row, "date", day) {
		return
	}
	e := Entry{Farm: f.ID, Subject: f.ID, Day: day, Body: body}
	for i, d := range told {
		last := i == len(told)-1
		if (d.Day == day || !dated && last) && equalJSON(d.Body, body) {
			b.same(body.Kind())
			return
		}
		if d.Day == day {
			e.Supersedes = d.ID
		}
	}
	b.add(e, e.Supersedes != "")
}
