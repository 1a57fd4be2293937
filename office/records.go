package office

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"slices"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/book/store"
	"haywarden/exchange"
	"haywarden/reckon"
)

// ImportedRecords says what a table brought to the book.
type ImportedRecords struct {
	File      string         `json:"file"`
	Rows      int            `json:"rows"`  // of the file
	Added     int            `json:"added"` // things new to the book
	Changed   int            `json:"changed"`
	Unchanged int            `json:"unchanged"` // things the book held just so
	Kinds     []ImportedKind `json:"kinds"`
	Unused    []string       `json:"columns_not_used,omitempty"`
	DryRun    bool           `json:"dry_run,omitempty"` // nothing was stored
	// Facts are what was stored and may be taken back with [Office.Undo], empty where some of it may not:
	// farms, fields and stands, on which others lean by then.
	Facts []string `json:"-"`
}

// ImportedKind is what a table brought of one kind of thing.
type ImportedKind struct {
	Kind      book.Kind `json:"kind"`
	Added     int       `json:"added"`
	Changed   int       `json:"changed"`
	Unchanged int       `json:"unchanged"`
}

// Nothing reports whether the table changed nothing.
func (r ImportedRecords) Nothing() bool { return r.Added+r.Changed == 0 }

// batch gathers what a table says into one change of the book, and what speaks against it.
type batch struct {
	office  *Office
	at      int64 // revision of the book it was made from
	file    exchange.File
	view    *book.View
	subject map[string]string          // by fact: the thing it is about
	span    map[string][2]unit.Day     // by farm, field and stand: the days on which it was first and last described
	count   map[book.Kind]ImportedKind // so far
	faults  *exchange.Faults
	entries []Entry
}

// mostTries is how often a table is held against a book that others keep changing (choice).
const mostTries = 8

// takeIn holds a table against the book and stores what it says, once more where the book was changed by
// another between the look and the change: two who bring the same table at once bring it once.
func (o *Office) takeIn(ctx context.Context, actor Actor, file exchange.File, dry bool, fill func(b *batch) error) (ImportedRecords, error) {
	for try := 1; ; try++ {
		b, err := o.begin(ctx, file)
		if err != nil {
			return ImportedRecords{}, err
		}
		if err := fill(b); err != nil {
			return ImportedRecords{}, err
		}
		done, err := b.store(ctx, actor, dry)
		if !errors.Is(err, store.ErrChanged) || try == mostTries {
			return done, err
		}
	}
}

// begin looks up the book as it stands today, for a table to be held against.
func (o *Office) begin(ctx context.Context, file exchange.File) (*batch, error) {
	at, err := o.store.Revision(ctx)
	if err != nil {
		return nil, err
	}
	facts, err := o.store.Facts(ctx, store.Filter{})
	if err != nil {
		return nil, err
	}
	view, err := book.Project(facts, o.Today(), o.Now())
	if err != nil {
		return nil, err
	}
	b := &batch{office: o, at: at, file: file, view: view, subject: map[string]string{}, span: map[string][2]unit.Day{}, count: map[book.Kind]ImportedKind{}, faults: exchange.NewFaults(file.Name)}
	for _, f := range facts {
		b.subject[f.ID] = f.Subject
		if f.Kind != book.KindFarm && f.Kind != book.KindField && f.Kind != book.KindStand {
			continue
		}
		days, known := b.span[f.Subject]
		if !known {
			days = [2]unit.Day{f.Day, f.Day}
		}
		b.span[f.Subject] = [2]unit.Day{min(days[0], f.Day), max(days[1], f.Day)}
	}
	return b, nil
}

// add takes an entry for a thing that the book does not hold, or, where it supersedes a fact or changes,
// for one that it holds otherwise.
func (b *batch) add(e Entry, change bool) {
	b.entries = append(b.entries, e)
	k := b.count[e.Body.Kind()]
	if change {
		k.Changed++
	} else {
		k.Added++
	}
	b.count[e.Body.Kind()] = k
}

// same counts a thing that the book holds just so.
func (b *batch) same(kind book.Kind) {
	k := b.count[kind]
	k.Unchanged++
	b.count[kind] = k
}

// store records what was gathered, in one change, unless something speaks against it or the run is dry.
func (b *batch) store(ctx context.Context, actor Actor, dry bool) (ImportedRecords, error) {
	file := b.file
	if err := b.faults.Err(); err != nil {
		return ImportedRecords{}, err
	}
	done := ImportedRecords{File: file.Name, Rows: file.Rows, Unused: file.Unused, DryRun: dry}
	for _, kind := range []book.Kind{book.KindFarm, book.KindField, book.KindStand, book.KindContact, book.KindVisit, book.KindForm, book.KindLab, book.KindPrices, book.KindHerd, book.KindMachines, book.KindStack, book.KindStackReading, book.KindFeedLot, book.KindLotLeft, book.KindLotFed, book.KindSoilTest, book.KindTissue, book.KindApplication, book.KindSeeding, book.KindGuideTable, book.KindSeedingPlan, book.KindProduct, book.KindSprayed} {
		k, ok := b.count[kind]
		if !ok {
			continue
		}
		k.Kind = kind
		done.Kinds = append(done.Kinds, k)
		done.Added, done.Changed, done.Unchanged = done.Added+k.Added, done.Changed+k.Changed, done.Unchanged+k.Unchanged
	}
	if dry || len(b.entries) == 0 {
		return done, nil
	}
	if err := b.inOrder(); err != nil {
		return ImportedRecords{}, err
	}
	unchanged := func(ctx context.Context, facts []book.Fact) (store.Added, error) {
		return b.office.store.AppendAt(ctx, facts, b.at)
	}
	if _, err := b.office.record(ctx, actor, unchanged, b.entries); err != nil {
		return ImportedRecords{}, fmt.Errorf("take in %s: %w", file.Name, err)
	}
	done.Facts = b.takenBack()
	return done, nil
}

// takenBack lists the facts that can be taken back as a whole; the form of a table stays remembered.
func (b *batch) takenBack() (facts []string) {
	for _, e := range b.entries {
		switch kind := e.Body.Kind(); {
		case slices.Contains(undoable, kind):
			facts = append(facts, e.ID)
		case kind != book.KindForm:
			return nil
		}
	}
	return facts
}

// inOrder gives the entries ids that rise, so that what the table tells first comes first in the book: of
// the people on a farm, the one to ring.
func (b *batch) inOrder() error {
	ids := make([]string, len(b.entries))
	for i := range ids {
		id, err := b.office.newID()
		if err != nil {
			return err
		}
		ids[i] = id
	}
	slices.Sort(ids)
	for i, id := range ids {
		b.entries[i].ID = id
	}
	return nil
}

// past reports whether a day has come; one that has not is a fault of the row.
func (b *batch) past(row int, field string, day unit.Day) bool {
	today := b.office.Today()
	if day > today {
		b.faults.Add(row, field, "%s is after today, %s", day, today)
	}
	return day <= today
}

// farm finds a farm by name, nil where the book has none.
func (b *batch) farm(name string) *book.FarmView {
	i := slices.IndexFunc(b.view.Farms, func(f *book.FarmView) bool { return plain(f.Name) == plain(name) })
	if i < 0 {
		return nil
	}
	return b.view.Farms[i]
}

// needFarm finds a farm that has to be in the book.
func (b *batch) needFarm(row int, name string) *book.FarmView {
	f := b.farm(name)
	if f == nil {
		var known []string
		for _, f := range b.view.Farms {
			known = append(known, f.Name)
		}
		b.faults.Add(row, "farm", "no farm is called %q%s", name, meant(name, known))
	}
	return f
}

// fieldNamed finds a field of a farm by name, nil where it has none.
func fieldNamed(f *book.FarmView, name string) *book.FieldView {
	i := slices.IndexFunc(f.Fields, func(fd *book.FieldView) bool { return plain(fd.Name) == plain(name) })
	if i < 0 {
		return nil
	}
	return f.Fields[i]
}

// fieldOn finds a field that has to be in the book.
func (b *batch) fieldOn(row int, farmName, fieldName string) *book.FieldView {
	farm := b.needFarm(row, farmName)
	if farm == nil {
		return nil
	}
	field := fieldNamed(farm, fieldName)
	if field == nil {
		var known []string
		for _, fd := range farm.Fields {
			known = append(known, fd.Name)
		}
		b.faults.Add(row, "field", "%s has no field called %q%s", farm.Name, fieldName, meant(fieldName, known))
	}
	return field
}

// standOn finds the stand that grew in a field on a day, or, for what was stored, that grew there last.
func (b *batch) standOn(row int, farmName, fieldName string, day unit.Day, stored bool) *book.StandView {
	field := b.fieldOn(row, farmName, fieldName)
	if field == nil {
		return nil
	}
	for _, s := range slices.Backward(field.Stands) {
		if s.Growing(day) || stored && s.Seeded <= day {
			return s
		}
	}
	b.faults.Add(row, "field", "no stand grew in %s of %s on %s%s", field.Name, field.Farm.Name, day, stoodThere(field))
	return nil
}

// stoodThere says which stands a field had.
func stoodThere(f *book.FieldView) (said string) {
	for i, s := range f.Stands {
		if i == 0 {
			said = "; it has "
		} else {
			said += ", "
		}
		said += "one seeded on " + s.Seeded.String()
		if s.TurnedUnder != nil {
			said += " and turned under on " + s.TurnedUnder.String()
		}
	}
	return said
}

// meant suggests the name that a slip of the fingers would turn into another.
func meant(name string, known []string) string {
	if near := reckon.Nearest(name, known); near != "" {
		return "; did you mean " + near + "?"
	}
	return ""
}

func equalJSON(a, b any) bool {
	x, errX := json.Marshal(a)
	y, errY := json.Marshal(b)
	return errX == nil && errY == nil && bytes.Equal(x, y)
}

func (o *Office) newID() (string, error) { return book.NewID(o.Now(), o.random) }
