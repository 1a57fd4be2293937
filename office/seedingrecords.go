package office

import (
	"context"
	"io"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/exchange"
)

// ImportSeedings takes a table of planned seedings into the book, all of it or nothing. A plan of a field,
// season and year takes the place of the one the book holds, unless it is just so.
func (o *Office) ImportSeedings(ctx context.Context, actor Actor, r io.Reader, name string, dry bool) (ImportedRecords, error) {
	if err := may(actor, actRecord); err != nil {
		return ImportedRecords{}, err
	}
	table, err := exchange.ReadSeedings(r, name)
	if err != nil {
		return ImportedRecords{}, err
	}
	return o.takeIn(ctx, actor, table.File, dry, func(b *batch) error {
		for _, row := range table.Plans {
			b.seeding(row, o.Today())
		}
		return nil
	})
}

func (b *batch) seeding(row exchange.SeedingRow, today unit.Day) {
	day := row.Day
	if day == 0 {
		day = today
	}
	farm := b.needFarm(row.Row, row.Farm)
	if !b.past(row.Row, "date", day) || farm == nil {
		return
	}
	field := fieldNamed(farm, row.Field)
	if field == nil {
		var known []string
		for _, fd := range farm.Fields {
			known = append(known, fd.Name)
		}
		b.faults.Add(row.Row, "field", "%s has no field called %q%s", farm.Name, row.Field, meant(row.Field, known))
		return
	}
	if row.Plan.Acres > field.Acres*1.1 {
		b.faults.Add(row.Row, "acres", "%g: the field has %g", row.Plan.Acres, field.Acres)
		return
	}
	e := Entry{Farm: farm.ID, Subject: field.ID, Day: day, Body: row.Plan}
	for _, told := range field.Planned {
		if told.Body.Year != row.Plan.Year || told.Body.Season != row.Plan.Season {
			continue
		}
		if equalJSON(told.Body, row.Plan) {
			b.same(book.KindSeedingPlan)
			return
		}
		e.Supersedes = told.ID
		if day < told.Day {
			e.Day = told.Day
		}
	}
	b.add(e, e.Supersedes != "")
}
