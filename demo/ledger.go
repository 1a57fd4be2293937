package demo

import (
	"cmp"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
)

// ledger writes facts down as the office would have received them.
type ledger struct {
	ids   *rand.ChaCha8
	r     *rand.Rand // of delays
	facts []book.Fact
	errs  []error
	truth map[string]*tract // by stand
}

func newLedger(seed uint64) *ledger {
	return &ledger{ids: rand.NewChaCha8(keyOf(seed, "ids")), r: stream(seed, "delays"), truth: map[string]*tract{}}
}

// wait is how long a record took to reach the book after the evening of its day.
type wait struct{ least, most time.Duration }

var (
	atOnce   = wait{0, 3 * time.Hour}                        // typed in or sent from the field
	soon     = wait{2 * time.Hour, 40 * time.Hour}           // the phone had no signal, or the notebook waited
	byPhone  = wait{15 * time.Hour, 9 * 24 * time.Hour}      // told at the next call
	byPost   = wait{2 * 24 * time.Hour, 5 * 24 * time.Hour}  // a laboratory's turn
	longPost = wait{4 * 24 * time.Hour, 11 * 24 * time.Hour} // a sample that waited in the truck
)

const evening = 22 * time.Hour // five in the afternoon in the district, as UTC

// entry is where a fact belongs and who made it.
type entry struct {
	farm, subject string
	day           unit.Day
	author        string
	wait          wait
	supersedes    string
}

// add writes a fact down and returns its id; what the book refuses is kept for close to report.
func (l *ledger) add(e entry, body book.Body) string {
	received := e.day.Time().Add(evening + l.between(e.wait))
	id, err := book.NewID(received, l.ids)
	if err != nil {
		l.errs = append(l.errs, err)
		return ""
	}
	f, err := book.New(id, e.farm, e.subject, e.day, e.author, body)
	if err != nil {
		l.errs = append(l.errs, fmt.Errorf("demo record of %s by %s: %w", e.day, e.author, err))
		return ""
	}
	f.Received, f.Supersedes = received, e.supersedes
	l.facts = append(l.facts, f)
	return id
}

// between draws a wait, to the second.
func (l *ledger) between(w wait) time.Duration {
	span := int64((w.most-w.least)/time.Second) + 1
	return w.least + time.Duration(l.r.Int64N(span))*time.Second
}

// subject makes the id of a thing that is recorded about.
func (l *ledger) subject(begun unit.Day) string {
	id, err := book.NewID(begun.Time().Add(evening), l.ids)
	if err != nil {
		l.errs = append(l.errs, err)
	}
	return id
}

// close returns the facts in the order in which they were received.
func (l *ledger) close() ([]book.Fact, error) {
	slices.SortFunc(l.facts, func(a, b book.Fact) int {
		return cmp.Or(a.Received.Compare(b.Received), cmp.Compare(a.ID, b.ID))
	})
	return l.facts, errors.Join(l.errs...)
}
