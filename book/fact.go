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
	KindFarm         Kind = "farm"
	KindContact      Kind = "contact"
	KindConsent      Kind = "consent"
	KindField        Kind = "field"
	KindStand        Kind = "stand"
	KindVisit        Kind = "visit"
	KindCut          Kind = "cut"
	KindLab          Kind = "lab-result"
	KindForm         Kind = "table-form"
	KindStation      Kind = "station"
	KindLocal        Kind = "field-weather"
	KindPrices       Kind = "price-deck"
	KindCall         Kind = "call"
	KindEvent        Kind = "event"
	KindAdvice       Kind = "advice-given"
	KindOutcome      Kind = "advice-outcome"
	KindPlace        Kind = "place"
	KindHerd         Kind = "herd"
	KindMachines     Kind = "machines"
	KindQuality      Kind = "quality-targets"
	KindCaution      Kind = "caution"
	KindStack        Kind = "stack"
	KindStackReading Kind = "stack-reading"
	KindProduct      Kind = "spray-product"
	KindSprayed      Kind = "sprayed"
	KindSoilTest     Kind = "soil-test"
	KindTissue       Kind = "tissue-test"
	KindApplication  Kind = "application"
	KindSeeding      Kind = "seeding"
	KindSoilGuides   Kind = "soil-guides"
	KindGuideTable   Kind = "guide-table"
	KindSeedingPlan  Kind = "planned-seeding"
	KindFeedLot      Kind = "feed-lot"
	KindLotLeft      Kind = "feed-left"
	KindLotFed       Kind = "feeding"
	KindWithdrawn    Kind = "withdrawn"
)

// ofFarm reports whether facts of the kind are always about something on a farm.
func (k Kind) ofFarm() bool {
	switch k {
	case KindContact, KindConsent, KindField, KindStand, KindVisit, KindCut, KindLab, KindLocal, KindCall, KindAdvice, KindOutcome, KindHerd, KindMachines, KindStack, KindStackReading, KindFeedLot, KindLotLeft, KindLotFed, KindSprayed, KindSoilTest, KindTissue, KindApplication, KindSeeding, KindSeedingPlan:
		return true
	default:
		return false
	}
}

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
	switch {
	case f.Kind == KindWithdrawn && f.Supersedes == "":
		return errors.New("a withdrawal that does not say which fact it takes back")
	case f.Supersedes != "" && !validID(f.Supersedes):
		return fmt.Errorf("id %q of the fact that is corrected is not a UUID", f.Supersedes)
	case f.Supersedes == f.ID:
		return errors.New("a fact cannot correct itself")
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
	case f.Farm == "" && f.Kind.ofFarm():
		return fmt.Errorf("%s without a farm: it is about something on a farm, so say which", f.Kind)
	case f.Kind == KindFarm && f.Farm != "" && f.Farm != f.Subject:
		return fmt.Errorf("farm %s is said to belong to farm %s: leave the farm out, or give its own", f.Subject, f.Farm)
	case f.Author == "":
		return errors.New("fact without an author")
	case f.Day < unit.DateOf(1900, 1, 1):
		return fmt.Errorf("date %s is before 1900", f.Day)
	}
	return nil
}

// Home is the farm whose records the fact is part of: the farm itself for a farm's own fact, empty for
// a fact of the whole book.
func (f Fact) Home() string {
	if f.Kind == KindFarm {
		return f.Subject
	}
	return f.Farm
}

// Corrects checks that f may take the place of old: a correction says the same kind of thing about the
// same farm, and only a withdrawal says nothing in its place. A withdrawal need not repeat the farm.
func (f Fact) Corrects(old Fact) error {
	switch {
	case old.Kind == KindWithdrawn:
		return fmt.Errorf("fact %s is a withdrawal, which is not corrected: record anew what was withdrawn", old.ID)
	case f.Kind != KindWithdrawn && f.Kind != old.Kind:
		return fmt.Errorf("a %s cannot correct fact %s, which is a %s", f.Kind, old.ID, old.Kind)
	case f.Home() != old.Home() && (f.Kind != KindWithdrawn || f.Farm != ""):
		return fmt.Errorf("fact %s belongs to %s, its correction to %s: withdraw it there and record it here", old.ID, homeName(old), homeName(f))
	}
	return nil
}

func homeName(f Fact) string {
	if h := f.Home(); h != "" {
		return "farm " + h
	}
	return "the whole book"
}
