package office

import (
	"context"
	"io"
	"slices"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/exchange"
)

// ImportStands takes a table of farms, fields and stands into the book, all of it or nothing. They are
// known by name, a field's stands by the day they were seeded. What the book holds already adds nothing;
// what differs is recorded as a newer fact; what the table does not say stays as it is. A dry run stores
// nothing.
func (o *Office) ImportStands(ctx context.Context, actor Actor, r io.Reader, name string, dry bool) (ImportedRecords, error) {
	if err := may(actor, actRecord); err != nil {
		return ImportedRecords{}, err
	}
	table, err := exchange.ReadStands(r, name)
	if err != nil {
		return ImportedRecords{}, err
	}
	return o.takeIn(ctx, actor, table.File, dry, func(b *batch) error {
		for _, farm := range grouped(table.Stands, func(row exchange.StandRow) string { return row.Farm.Name }) {
			if err := b.takeFarm(farm); err != nil {
				return err
			}
		}
		return nil
	})
}

// grouped gathers rows of one name, in the order in which the names first come.
func grouped(rows []exchange.StandRow, name func(exchange.StandRow) string) (groups [][]exchange.StandRow) {
	at := map[string]int{}
	for _, row := range rows {
		i, known := at[plain(name(row))]
		if !known {
			i = len(groups)
			at[plain(name(row))] = i
			groups = append(groups, nil)
		}
		groups[i] = append(groups[i], row)
	}
	return groups
}

// begun is the first seeding of the rows. What is new to the book was true from then on, so that the
// book can be asked for days before it was typed in.
func begun(rows []exchange.StandRow) unit.Day {
	first := rows[0].Stand.Seeded
	for _, row := range rows {
		first = min(first, row.Stand.Seeded)
	}
	return first
}

// place is a thing of the book, or one that is being added to it, and the day from which it holds it.
type place struct {
	farm, id string
	from     unit.Day
}

// takeFarm takes the rows of one farm.
func (b *batch) takeFarm(rows []exchange.StandRow) error {
	body, old := rows[0].Farm, b.farm(rows[0].Farm.Name)
	for _, row := range rows {
		if body.County == "" {
			body.County = row.Farm.County
		}
	}
	at := place{from: begun(rows)}
	if old == nil {
		id, err := b.office.newID()
		if err != nil {
			return err
		}
		at.farm, at.id = id, id
		b.add(Entry{Farm: id, Subject: id, Day: at.from, Body: body}, false)
		old = &book.FarmView{}
	} else {
		at = place{farm: old.ID, id: old.ID, from: b.span[old.ID][0]}
		said := old.Farm
		if body.County != "" {
			said.County = body.County
		}
		b.addOrSame(said != old.Farm, Entry{Farm: old.ID, Subject: old.ID, Day: b.office.Today(), Body: said})
	}
	for _, field := range grouped(rows, func(row exchange.StandRow) string { return row.Field.Name }) {
		if err := b.takeField(at, old, field); err != nil {
			return err
		}
	}
	return b.takeContacts(at, old, rows)
}

// addOrSame takes an entry for a thing of the book where it differs from what the book holds.
func (b *batch) addOrSame(differs bool, e Entry) {
	if differs {
		b.add(e, true)
	} else {
		b.same(e.Body.Kind())
	}
}

// takeField takes the rows of one field.
func (b *batch) takeField(farm place, known *book.FarmView, rows []exchange.StandRow) error {
	body, old := rows[0].Field, fieldNamed(known, rows[0].Field.Name)
	for _, row := range rows[1:] {
		body = fieldOver(body, row.Field)
	}
	at := place{farm: farm.farm, from: max(farm.from, begun(rows))}
	if old == nil {
		id, err := b.office.newID()
		if err != nil {
			return err
		}
		at.id = id
		b.add(Entry{Farm: farm.farm, Subject: id, Day: at.from, Body: body}, false)
		old = &book.FieldView{}
	} else {
		at.id, at.from = old.ID, b.span[old.ID][0]
		body.Name = old.Name // as the book spells it
		said := fieldOver(old.Field, body)
		b.addOrSame(said != old.Field, Entry{Farm: farm.farm, Subject: old.ID, Day: b.office.Today(), Body: said})
	}
	return b.takeStands(at, old, rows)
}

// fieldOver lays what a row says of a field over what was known of it.
func fieldOver(known, said book.Field) book.Field {
	known.Acres = said.Acres // each row says it
	if known.Name == "" {
		known.Name = said.Name
	}
	if said.Station != "" {
		known.Station = said.Station
	}
	if said.Latitude != 0 || said.Longitude != 0 {
		known.Latitude, known.Longitude = said.Latitude, said.Longitude
	}
	return known
}

// takeStands takes the stands of one field, and holds them to one at a time.
func (b *batch) takeStands(field place, known *book.FieldView, rows []exchange.StandRow) error {
	after := make([]book.Stand, 0, len(known.Stands)+len(rows)) // the field's stands once this is taken in
	for _, s := range known.Stands {
		if !slices.ContainsFunc(rows, func(row exchange.StandRow) bool { return row.Stand.Seeded == s.Seeded }) {
			after = append(after, s.Stand)
		}
	}
	for _, row := range rows {
		if !b.past(row.Row, "seeded", row.Stand.Seeded) {
			continue
		}
		i := slices.IndexFunc(known.Stands, func(s *book.StandView) bool { return s.Seeded == row.Stand.Seeded })
		said := row.Stand
		said.Field = field.id
		if i >= 0 {
			said = standOver(known.Stands[i].Stand, row)
		}
		for _, s := range after {
			if s.Seeded <= said.Seeded && (s.TurnedUnder == nil || *s.TurnedUnder > said.Seeded) || s.Seeded > said.Seeded && (said.TurnedUnder == nil || *said.TurnedUnder > s.Seeded) {
				b.faults.Add(row.Row, "seeded", "%s: the book has a stand in %s of %s seeded on %s; if it was turned under, say when in a row of its own (column turned_under), else correct the date",
					said.Seeded, row.Field.Name, row.Farm.Name, s.Seeded)
			}
		}
		if i < 0 {
			id, err := b.office.newID()
			if err != nil {
				return err
			}
			b.add(Entry{Farm: field.farm, Subject: id, Day: max(field.from, said.Seeded), Body: said}, false)
			continue
		}
		old := known.Stands[i]
		b.addOrSame(!equalJSON(said, old.Stand), Entry{Farm: field.farm, Subject: old.ID, Day: b.changed(old, said), Body: said})
	}
	return nil
}

// changed is the day from which a stand is as is said now: today, but for one that is told to have been
// turned under, which it was on that day.
func (b *batch) changed(old *book.StandView, said book.Stand) unit.Day {
	today := b.office.Today()
	if gone := said.TurnedUnder; gone != nil && old.TurnedUnder == nil && *gone <= today && *gone >= b.span[old.ID][1] {
		return *gone
	}
	return today
}

// standOver lays what a row says of a stand over what was known of it.
func standOver(known book.Stand, row exchange.StandRow) book.Stand {
	said := row.Stand
	known.Crop = said.Crop
	if row.Says.Grass {
		known.GrassShare = said.GrassShare
	}
	if row.Says.Hairy {
		known.Hairy = said.Hairy
	}
	if row.Says.Sentinel {
		known.Sentinel = said.Sentinel
	}
	if said.Variety != "" {
		known.Variety = said.Variety
	}
	if said.Product != "" {
		known.Product = said.Product
	}
	if said.FeedRFV != 0 {
		known.FeedRFV = said.FeedRFV
	}
	if said.TurnedUnder != nil {
		known.TurnedUnder = said.TurnedUnder
	}
	return known
}

// takeContacts takes the people of a farm, known by name. Another phone takes the place of the old one.
func (b *batch) takeContacts(farm place, known *book.FarmView, rows []exchange.StandRow) error {
	var people []book.Contact
	for _, row := range rows {
		i := slices.IndexFunc(people, func(c book.Contact) bool { return plain(c.Name) == plain(row.Contact.Name) })
		switch {
		case row.Contact.Name == "":
		case i < 0:
			people = append(people, row.Contact)
		case people[i].Phone == "":
			people[i].Phone = row.Contact.Phone
		}
	}
	for _, c := range people {
		i := slices.IndexFunc(known.Contacts, func(k book.Dated[book.Contact]) bool { return plain(k.Body.Name) == plain(c.Name) })
		if i < 0 {
			day := b.office.Today()
			if known.ID == "" {
				day = farm.from
			}
			b.add(Entry{Farm: farm.farm, Day: day, Body: c}, false)
			continue
		}
		old := known.Contacts[i]
		said := old.Body
		if c.Phone != "" {
			said.Phone = c.Phone
		}
		b.addOrSame(said != old.Body, Entry{Farm: farm.farm, Subject: b.subject[old.ID], Day: b.office.Today(), Supersedes: old.ID, Body: said})
	}
	return nil
}
