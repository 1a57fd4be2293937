// Package office holds the use cases: bring a file of weather, record a visit, make the round, look at
// a stand. It is the only door to the book for command line, pages and feeds. Each use case has the
// actor first and asks its own permission rule.
package office

import (
	"errors"
	"fmt"
	"io"
	"sync"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book/store"
	"haywarden/outlook"
)

// Clock tells the time; the demo and tests have their own.
type Clock func() time.Time

// Office is the door to one book.
type Office struct {
	store  store.Store
	clock  Clock
	random io.Reader // for ids

	mu    sync.Mutex
	made  map[madeKey]*outlook.Outlook
	skies map[string]*outlook.Sky // by what each was made from
}

// madeKey is what an outlook was made from: the question, and the book as it was.
type madeKey struct {
	ask      Ask
	revision int64
}

// New opens the office over a book. random gives the random part of ids.
func New(s store.Store, clock Clock, random io.Reader) *Office {
	return &Office{store: s, clock: clock, random: random, made: map[madeKey]*outlook.Outlook{}, skies: map[string]*outlook.Sky{}}
}

// At is the same book played as of a time: what is taken in there is received then.
func (o *Office) At(at time.Time) *Office {
	return New(o.store, func() time.Time { return at }, o.random)
}

// Now is the time by the book's clock, in UTC.
func (o *Office) Now() time.Time { return o.clock().UTC() }

// Today is the day by the book's clock, in the clock's own time zone.
func (o *Office) Today() unit.Day { return unit.DayOf(o.clock()) }

// Actor is who asks.
type Actor struct {
	Name string
	Role Role
}

// Role is what an actor may do.
type Role string

// The roles. Until accounts exist there is one: the adviser whose book it is.
const Adviser Role = "adviser"

// act is one thing that can be permitted.
type act string

const (
	actRead   act = "read the book"
	actRecord act = "record in the book"
)

// ErrForbidden says that the actor may not do what was asked.
var ErrForbidden = errors.New("not permitted")

// may is the permission rule: an adviser may do everything in their own book, and nobody else anything.
func may(a Actor, what act) error {
	if a.Name == "" {
		return fmt.Errorf("%s: nobody is named as acting: %w", what, ErrForbidden)
	}
	if a.Role != Adviser {
		return fmt.Errorf("%s as %q: %w", what, a.Role, ErrForbidden)
	}
	return nil
}

// Ask is the date a question is asked for, and how the book was known.
type Ask struct {
	Date  unit.Day
	Known time.Time // facts received later are not used; zero means all that is known now
}

func (o *Office) settle(a Ask) Ask {
	if a.Date == 0 {
		a.Date = o.Today()
	}
	if a.Known.After(o.Now()) {
		a.Known = time.Time{} // all that is known now
	}
	return a
}
