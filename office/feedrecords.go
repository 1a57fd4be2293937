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

// ImportFeed takes a table of feed in store into the book, all of it or nothing. A lot is known by its
// farm and name; told anew it takes the place of what was told of the same filling. What is left and fed
// is told by day.
func (o *Office) ImportFeed(ctx context.Context, actor Actor, r io.Reader, name string, dry bool) (ImportedRecords, error) {
	if err := may(actor, actRecord); err != nil {
		return ImportedRecords{}, err
	}
	table, err := exchange.ReadFeedLots(r, name)
	if err != nil {
		return ImportedRecords{}, err
	}
	return o.takeIn(ctx, actor, table.File, dry, func(b *batch) error {
		put := map[string]putLot{}
		for _, row := range table.Rows {
			if row.Put != nil {
				if err := b.putLot(row, put); err != nil {
					return err
				}
			}
		}
		for _, row := range table.Rows {
			if row.Left != nil || row.Fed != nil {
				b.ofLot(row, put)
			}
		}
		return nil
	})
}

// putLot is a lot of the book or of the table itself.
type putLot struct {
	id     string
	filled unit.Day
	view   *book.LotView // nil: not in the book yet
	row    int           // of the table; 0: of the book alone
}

func lotNamed(f *book.FarmView, name string) *book.LotView {
	for _, l := range slices.Backward(f.Lots) {
		if plain(l.Name) == plain(name) {
			return l
		}
	}
	return nil
}

// putLot takes feed that a row puts into store.
func (b *batch) putLot(row exchange.FeedLotRow, put map[string]putLot) error {
	f := b.needFarm(row.Row, row.Farm)
	if f == nil || !b.past(row.Row, "date", row.Day) {
		return nil
	}
	body := *row.Put
	for _, name := range row.Fields {
		s := b.standOn(row.Row, row.Farm, name, row.Day, true)
		if s == nil {
			return nil
		}
		body.Stands = append(body.Stands, s.ID)
	}
	key := plain(f.Name) + " " + plain(row.Lot)
	if first := put[key].row; first != 0 {
		b.faults.Add(row.Row, "lot", "%s is put up in row %d already; give each lot a name of its own", row.Lot, first)
		return nil
	}
	known := lotNamed(f, row.Lot)
	if known == nil {
		id, err := b.office.newID()
		if err != nil {
			return err
		}
		put[key] = putLot{id: id, filled: row.Day, row: row.Row}
		b.add(Entry{Farm: f.ID, Subject: id, Day: row.Day, Body: body}, false)
		return nil
	}
	if known.Filled != row.Day {
		b.faults.Add(row.Row, "lot", "%s of %s was filled on %s; another filling wants a name of its own, such as %s %d", row.Lot, f.Name, known.Filled, row.Lot, row.Day.Year())
		return nil
	}
	put[key] = putLot{known.ID, row.Day, known, row.Row}
	if equalJSON(known.FeedLot, body) {
		b.same(body.Kind())
		return nil
	}
	b.add(Entry{Farm: f.ID, Subject: known.ID, Day: row.Day, Supersedes: known.Fact, Body: body}, true)
	return nil
}

// ofLot takes what was left or is fed of a lot of the book or of the table.
func (b *batch) ofLot(row exchange.FeedLotRow, put map[string]putLot) {
	f := b.needFarm(row.Row, row.Farm)
	if f == nil || !b.past(row.Row, "date", row.Day) {
		return
	}
	lot, ok := put[plain(f.Name)+" "+plain(row.Lot)]
	if known := lotNamed(f, row.Lot); !ok && known != nil {
		lot, ok = putLot{known.ID, known.Filled, known, 0}, true
	}
	if !ok {
		var names []string
		for _, l := range f.Lots {
			names = append(names, l.Name)
		}
		b.faults.Add(row.Row, "lot", "%s has no lot called %q%s; put it up first, by a row with its store", f.Name, row.Lot, meant(row.Lot, names))
		return
	}
	if row.Day < lot.filled {
		b.faults.Add(row.Row, "date", "%s lies before the lot was filled, on %s", row.Day, lot.filled)
		return
	}
	if row.Left != nil {
		takeOfLot(b, f, lot, row.Day, *row.Left, func(v *book.LotView) []book.Dated[book.LotLeft] { return v.Left })
	}
	if row.Fed != nil {
		if row.Fed.Group != "" {
			if h, told := f.Herd(); told && !slices.ContainsFunc(h.Body.Groups, func(g book.Group) bool { return plain(g.Name) == plain(row.Fed.Group) }) {
				var names []string
				for _, g := range h.Body.Groups {
					names = append(names, g.Name)
				}
				b.faults.Add(row.Row, "group", "%s has no group called %q; it has %s", f.Name, row.Fed.Group, strings.Join(names, ", "))
				return
			}
		}
		takeOfLot(b, f, lot, row.Day, *row.Fed, func(v *book.LotView) []book.Dated[book.LotFed] { return v.Fed })
	}
}

func takeOfLot[T book.Body](b *batch, f *book.FarmView, lot putLot, day unit.Day, body T, told func(*book.LotView) []book.Dated[T]) {
	e := Entry{Farm: f.ID, Subject: lot.id, Day: day, Body: body}
	if lot.view != nil {
		for _, d := range told(lot.view) {
			if d.Day != day {
				continue
			}
			if equalJSON(d.Body, body) {
				b.same(body.Kind())
				return
			}
			e.Supersedes = d.ID
		}
	}
	b.add(e, e.Supersedes != "")
}
