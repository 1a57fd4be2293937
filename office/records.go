package office

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"slices"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/exchange"
)

// ImportedRecords says what a table brought to the book.
type ImportedRecords struct {
	Rows    int `json:"rows"`    // things the table speaks of
	Added   int `json:"added"`   // facts new to the book
	Already int `json:"already"` // things the book held just so
}

// ImportStands takes a table of farms, fields and stands into the book, all of it or nothing. What the
// book holds already adds nothing; what differs is recorded as a newer fact. A dry run stores nothing.
func (o *Office) ImportStands(ctx context.Context, actor Actor, r io.Reader, name string, dry bool) (ImportedRecords, error) {
	if err := may(actor, actRecord); err != nil {
		return ImportedRecords{}, err
	}
	rows, err := exchange.ReadStands(r, name)
	if err != nil {
		return ImportedRecords{}, err
	}
	view, err := o.bookView(ctx)
	if err != nil {
		return ImportedRecords{}, err
	}
	b := batch{office: o}
	farms := map[string]string{}
	// What is new to the book was true from the first seeding on, so that the book can be asked for
	// days before it was typed in; a change counts from today.
	begun := rows[0].Stand.Seeded
	for _, row := range rows {
		if row.Stand.Seeded > o.Today() {
			return ImportedRecords{}, fmt.Errorf("read %s: row %d, seeded: %s is after today, %s; nothing was taken in", name, row.Row, row.Stand.Seeded, o.Today())
		}
		begun = min(begun, row.Stand.Seeded)
	}
	for _, row := range rows {
		farm := farmNamed(view, row.Farm.Name)
		key := plain(row.Farm.Name)
		id := farms[key]
		if id == "" && farm != nil {
			id = farm.ID
		}
		if id == "" {
			if id, err = o.newID(); err != nil {
				return ImportedRecords{}, err
			}
			b.add(begun, id, id, row.Farm)
		} else if farm != nil && farms[key] == "" && row.Farm != farm.Farm && row.Farm.County != "" {
			row.Farm.Latitude, row.Farm.Longitude = farm.Latitude, farm.Longitude
			b.addUnless(row.Farm == farm.Farm, o.Today(), id, id, row.Farm)
		}
		farms[key] = id
		if err := b.stand(view, farm, id, row); err != nil {
			return ImportedRecords{}, err
		}
	}
	return b.store(ctx, actor, len(rows), dry)
}

// batch gathers entries for one change of the book.
type batch struct {
	office  *Office
	entries []Entry
	already int
}

func (b *batch) add(day unit.Day, farm, subject string, body book.Body) {
	b.entries = append(b.entries, Entry{Farm: farm, Subject: subject, Day: day, Body: body})
}

func (b *batch) addUnless(same bool, day unit.Day, farm, subject string, body book.Body) {
	if same {
		b.already++
		return
	}
	b.add(day, farm, subject, body)
}

func (b *batch) stand(view *book.View, farm *book.FarmView, farmID string, row exchange.StandRow) error {
	var field *book.FieldView
	if farm != nil {
		if i := slices.IndexFunc(farm.Fields, func(f *book.FieldView) bool { return plain(f.Name) == plain(row.Field.Name) }); i >= 0 {
			field = farm.Fields[i]
		}
	}
	id, err := b.office.newID()
	if err != nil {
		return err
	}
	fieldID, day := id, row.Stand.Seeded
	if field != nil {
		fieldID, day = field.ID, b.office.Today()
	}
	b.addUnless(field != nil && field.Field == row.Field, day, farmID, fieldID, row.Field)
	row.Stand.Field = fieldID
	if id, err = b.office.newID(); err != nil {
		return err
	}
	same, day := false, row.Stand.Seeded
	if field != nil {
		for _, s := range field.Stands {
			if s.Seeded == row.Stand.Seeded {
				id, same, day = s.ID, equalJSON(s.Stand, row.Stand), b.office.Today()
			}
		}
	}
	b.addUnless(same, day, farmID, id, row.Stand)
	if row.Contact.Name == "" {
		return nil
	}
	if farm != nil && slices.ContainsFunc(farm.Contacts, func(c book.Dated[book.Contact]) bool { return c.Body == row.Contact }) {
		b.already++
		return nil
	}
	for _, e := range b.entries {
		if c, ok := e.Body.(book.Contact); ok && e.Farm == farmID && c == row.Contact {
			return nil
		}
	}
	if id, err = b.office.newID(); err != nil {
		return err
	}
	b.add(row.Stand.Seeded, farmID, id, row.Contact)
	return nil
}

func (b *batch) store(ctx context.Context, actor Actor, rows int, dry bool) (ImportedRecords, error) {
	done := ImportedRecords{Rows: rows, Added: len(b.entries), Already: b.already}
	if dry || len(b.entries) == 0 {
		return done, nil
	}
	r, err := b.office.Record(ctx, actor, b.entries...)
	done.Added = r.Added
	return done, err
}

// ImportVisits takes a table of visits into the book, all of it or nothing. A visit that the book holds
// just so, by the same observer on the same day, adds nothing.
func (o *Office) ImportVisits(ctx context.Context, actor Actor, r io.Reader, name string, dry bool) (ImportedRecords, error) {
	if err := may(actor, actRecord); err != nil {
		return ImportedRecords{}, err
	}
	rows, err := exchange.ReadVisits(r, name)
	if err != nil {
		return ImportedRecords{}, err
	}
	view, err := o.bookView(ctx)
	if err != nil {
		return ImportedRecords{}, err
	}
	b := batch{office: o}
	for _, row := range rows {
		s, err := standAt(view, row)
		if err != nil {
			return ImportedRecords{}, fmt.Errorf("read %s: row %d: %w; nothing was taken in", name, row.Row, err)
		}
		if row.Day > o.Today() {
			return ImportedRecords{}, fmt.Errorf("read %s: row %d, date: %s is after today, %s; nothing was taken in", name, row.Row, row.Day, o.Today())
		}
		if slices.ContainsFunc(s.Visits, func(v book.Dated[book.Visit]) bool { return v.Day == row.Day && equalJSON(v.Body, row.Visit) }) {
			b.already++
			continue
		}
		id, err := o.newID()
		if err != nil {
			return ImportedRecords{}, err
		}
		b.entries = append(b.entries, Entry{ID: id, Farm: s.Farm.ID, Subject: s.ID, Day: row.Day, Author: row.Observer, Body: row.Visit})
	}
	return b.store(ctx, actor, len(rows), dry)
}

// ImportPrices takes price decks into the book, all or none.
func (o *Office) ImportPrices(ctx context.Context, actor Actor, r io.Reader, name string, dry bool) (ImportedRecords, error) {
	if err := may(actor, actRecord); err != nil {
		return ImportedRecords{}, err
	}
	rows, err := exchange.ReadPrices(r, name)
	if err != nil {
		return ImportedRecords{}, err
	}
	view, err := o.bookView(ctx)
	if err != nil {
		return ImportedRecords{}, err
	}
	b := batch{office: o}
	for _, row := range rows {
		farm, decks := "", view.Prices
		if row.Farm != "" {
			f := farmNamed(view, row.Farm)
			if f == nil {
				return ImportedRecords{}, fmt.Errorf("read %s: row %d, farm: no farm is called %q; nothing was taken in", name, row.Row, row.Farm)
			}
			farm, decks = f.ID, f.Prices
		}
		if slices.ContainsFunc(decks, func(d book.Deck) bool { return d.Day == row.Day && equalJSON(d.Body, row.Deck) }) {
			b.already++
			continue
		}
		id, err := o.newID()
		if err != nil {
			return ImportedRecords{}, err
		}
		b.entries = append(b.entries, Entry{Farm: farm, Subject: id, Day: row.Day, Body: row.Deck})
	}
	return b.store(ctx, actor, len(rows), dry)
}

// bookView is the book as it stands today.
func (o *Office) bookView(ctx context.Context) (*book.View, error) {
	out, err := o.outlook(ctx, o.settle(Ask{}))
	if err != nil {
		return nil, err
	}
	return out.View, nil
}

func farmNamed(v *book.View, name string) *book.FarmView {
	i := slices.IndexFunc(v.Farms, func(f *book.FarmView) bool { return plain(f.Name) == plain(name) })
	if i < 0 {
		return nil
	}
	return v.Farms[i]
}

// standAt finds the stand that grew in a field on the day of a visit.
func standAt(v *book.View, row exchange.VisitRow) (*book.StandView, error) {
	farm := farmNamed(v, row.Farm)
	if farm == nil {
		return nil, fmt.Errorf("no farm is called %q", row.Farm)
	}
	for _, f := range farm.Fields {
		if plain(f.Name) != plain(row.Field) {
			continue
		}
		for _, s := range slices.Backward(f.Stands) {
			if s.Growing(row.Day) {
				return s, nil
			}
		}
		return nil, fmt.Errorf("no stand grew in %s of %s on %s", f.Name, farm.Name, row.Day)
	}
	return nil, fmt.Errorf("%s has no field called %q", farm.Name, row.Field)
}

func equalJSON(a, b any) bool {
	x, errX := json.Marshal(a)
	y, errY := json.Marshal(b)
	return errX == nil && errY == nil && bytes.Equal(x, y)
}

func (o *Office) newID() (string, error) { return book.NewID(o.Now(), o.random) }
