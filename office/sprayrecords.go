package office

import (
	"context"
	"io"

	"haywarden/book"
	"haywarden/exchange"
)

// ImportSprays takes a table of spray products and of sprayings into the book, all of it or nothing. The
// entry of a product and day takes the place of the one the book holds, unless it is just so.
func (o *Office) ImportSprays(ctx context.Context, actor Actor, r io.Reader, name string, dry bool) (ImportedRecords, error) {
	if err := may(actor, actRecord); err != nil {
		return ImportedRecords{}, err
	}
	table, err := exchange.ReadSprays(r, name)
	if err != nil {
		return ImportedRecords{}, err
	}
	return o.takeIn(ctx, actor, table.File, dry, func(b *batch) error {
		for _, row := range table.Sprays {
			if !b.past(row.Row, "date", row.Day) {
				continue
			}
			if row.Product != nil {
				b.takeProduct(row)
				continue
			}
			if s := b.standOn(row.Row, row.Farm, row.Field, row.Day, true); s != nil {
				b.takeSprayed(s, row)
			}
		}
		return nil
	})
}

func (b *batch) takeProduct(row exchange.SprayRow) {
	farm, told := "", b.view.Products
	if row.Farm != "" {
		f := b.needFarm(row.Row, row.Farm)
		if f == nil {
			return
		}
		farm, told = f.ID, f.Products
	}
	e := Entry{Farm: farm, Subject: "spray " + plain(row.Product.Name), Day: row.Day, Body: *row.Product}
	for _, d := range told {
		if d.Day != row.Day || plain(d.Body.Name) != plain(row.Product.Name) {
			continue
		}
		if equalJSON(d.Body, *row.Product) {
			b.same(book.KindProduct)
			return
		}
		e.Supersedes = d.ID
	}
	b.add(e, e.Supersedes != "")
}

func (b *batch) takeSprayed(s *book.StandView, row exchange.SprayRow) {
	e := Entry{Farm: s.Farm.ID, Subject: s.ID, Day: row.Day, Body: *row.Sprayed}
	for _, d := range s.Sprayed {
		if d.Day != row.Day || plain(d.Body.Product) != plain(row.Sprayed.Product) {
			continue
		}
		if equalJSON(d.Body, *row.Sprayed) {
			b.same(book.KindSprayed)
			return
		}
		e.Supersedes = d.ID
	}
	b.add(e, e.Supersedes != "")
}
