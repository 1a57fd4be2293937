package office

import (
	"context"
	"fmt"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/book/store"
)

// Entry is one thing to record; the office gives it its id, author and time.
type Entry struct {
	ID         string // of the fact; empty: a new one
	Farm       string // subject of the farm; empty for the whole book, or for a farm itself
	Subject    string // empty: a new thing, named by a new id
	Day        unit.Day
	Supersedes string
	Author     string    // who saw it; empty: the actor
	Received   time.Time // zero: now; a book that is played as of a time, as the demo is, records at that time
	Body       book.Body
}

// Recorded says what became of entries.
type Recorded struct {
	Added    int
	Subjects []string // of each entry, in order
}

// Record takes entries into the book, all or none.
func (o *Office) Record(ctx context.Context, actor Actor, entries ...Entry) (Recorded, error) {
	return o.record(ctx, actor, o.store.Append, entries)
}

// record takes entries into the book by one of the store's ways.
func (o *Office) record(ctx context.Context, actor Actor, keep func(context.Context, []book.Fact) (store.Added, error), entries []Entry) (Recorded, error) {
	if err := may(actor, actRecord); err != nil {
		return Recorded{}, err
	}
	now, today := o.Now(), o.Today()
	facts := make([]book.Fact, len(entries))
	var r Recorded
	for i, e := range entries {
		id := e.ID
		if id == "" {
			made, err := o.newID()
			if err != nil {
				return Recorded{}, err
			}
			id = made
		}
		if e.Author == "" {
			e.Author = actor.Name
		}
		if e.Subject == "" {
			e.Subject = id
		}
		if e.Farm == "" && e.Body.Kind() == book.KindFarm {
			e.Farm = e.Subject
		}
		f, err := book.New(id, e.Farm, e.Subject, e.Day, e.Author, e.Body)
		if err != nil {
			return Recorded{}, fmt.Errorf("entry %d: %w", i+1, err)
		}
		f.Supersedes, f.Received = e.Supersedes, now
		if !e.Received.IsZero() && e.Received.Before(now) {
			f.Received = e.Received.UTC()
		}
		if err := f.Valid(today); err != nil {
			return Recorded{}, fmt.Errorf("entry %d: %w", i+1, err)
		}
		facts[i] = f
		r.Subjects = append(r.Subjects, e.Subject)
	}
	added, err := keep(ctx, facts)
	if err != nil {
		return Recorded{}, err
	}
	r.Added = len(added.New)
	return r, nil
}

// Receive takes facts that were made elsewhere, with their own ids and times, all or none. The same
// facts again change nothing.
func (o *Office) Receive(ctx context.Context, actor Actor, facts []book.Fact) (int, error) {
	if err := may(actor, actRecord); err != nil {
		return 0, err
	}
	for i, f := range facts {
		if err := f.Valid(o.Today()); err != nil {
			return 0, fmt.Errorf("fact %d: %w", i+1, err)
		}
	}
	added, err := o.store.Append(ctx, facts)
	return len(added.New), err
}
