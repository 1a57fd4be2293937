// Package book is the records of one adviser or office, and their rules. A record is a fact: added,
// never changed. What pages show are projections of facts, so the book can be read as it was known on
// any day. The package knows no database.
package book

import (
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"haywarden/agronomy/unit"
)

// Fact is one thing that was recorded. A correction is a new fact that supersedes the old one.
type Fact struct {
	ID         string          `json:"id"`                   // UUIDv7, made where the fact was made
	Farm       string          `json:"farm,omitempty"`       // farm it belongs to; empty for the whole book
	Subject    string          `json:"subject"`              // the thing it is about: a farm, field, stand, station ...
	Kind       Kind            `json:"kind"`                 // what Body holds
	Day        unit.Day        `json:"day"`                  // when it happened
	Received   time.Time       `json:"received"`             // when the book took it in, by the book's clock, UTC
	Author     string          `json:"author"`               // who recorded it
	Supersedes string          `json:"supersedes,omitempty"` // the fact it corrects
	Body       json.RawMessage `json:"body"`
}

// Kind names what a fact's body holds.
type Kind string

// The kinds of fact.
const (
	KindFarm      Kind = "farm"
	KindContact   Kind = "contact"
	KindConsent   Kind = "consent"
	KindField     Kind = "field"
	KindStand     Kind = "stand"
	KindVisit     Kind = "visit"
	KindCut       Kind = "cut"
	KindLab       Kind = "lab-result"
	KindStation   Kind = "station"
	KindPrices    Kind = "price-deck"
	KindCall      Kind = "call"
	KindEvent     Kind = "event"
	KindAdvice    Kind = "advice-given"
	KindOutcome   Kind = "advice-outcome"
	KindPlace     Kind = "place"
	KindWithdrawn Kind = "withdrawn"
)

// New makes a fact from a body after checking it. Received is left for the book's clock to fill.
func New(id, farm, subject string, day unit.Day, author string, body Body) (Fact, error) {
	if err := body.Check(); err != nil {
		return Fact{}, fmt.Errorf("%s: %w", body.Kind(), err)
	}
	raw, err := json.Marshal(body)
	if err != nil {
		return Fact{}, fmt.Errorf("%s: %w", body.Kind(), err)
	}
	f := Fact{ID: id, Farm: farm, Subject: subject, Kind: body.Kind(), Day: day, Author: author, Body: raw}
	return f, f.check()
}

// Read decodes and checks the body of a fact.
func (f Fact) Read() (Body, error) {
	b := blank(f.Kind)
	if b == nil {
		return nil, fmt.Errorf("fact %s: kind %q is not known to this version", f.ID, f.Kind)
	}
	if err := json.Unmarshal(f.Body, b); err != nil {
		return nil, fmt.Errorf("fact %s (%s): %w", f.ID, f.Kind, err)
	}
	if err := b.Check(); err != nil {
		return nil, fmt.Errorf("fact %s (%s): %w", f.ID, f.Kind, err)
	}
	return b, nil
}

// Valid checks the whole fact, body included, as the book's door does before taking it in. today is
// the day by the book's clock: nothing is recorded ahead of it.
func (f Fact) Valid(today unit.Day) error {
	if err := f.check(); err != nil {
		return err
	}
	if f.Day > today {
		return fmt.Errorf("date %s is after today, %s: a record is made on the day or later", f.Day, today)
	}
	_, err := f.Read()
	return err
}

func (f Fact) check() error {
	switch {
	case !validID(f.ID):
		return fmt.Errorf("fact id %q is not a UUID", f.ID)
	case f.Subject == "":
		return errors.New("fact without a subject")
	case f.Author == "":
		return errors.New("fact without an author")
	case f.Day < unit.DateOf(1900, 1, 1):
		return fmt.Errorf("date %s is before 1900", f.Day)
	}
	return nil
}
