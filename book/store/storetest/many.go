package storetest

import (
	"cmp"
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"sync"
	"testing"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/book/store"
)

var manyCases = []suiteCase{
	{"many hands at once lose nothing and double nothing", func(t *testing.T, s store.Store) {
		const hands, each, shared = 8, 12, 5
		var group sync.WaitGroup
		errs := make([]error, hands)
		for h := range hands {
			group.Go(func() { errs[h] = oneHand(t, s, h, each, shared) })
		}
		group.Wait()
		for h, err := range errs {
			if err != nil {
				t.Fatalf("hand %d: %v", h, err)
			}
		}
		same(t, "facts", hands*each+shared, len(factsOf(t, s, store.Filter{})))
		same(t, "revision", int64(hands*each+shared), revision(t, s))
	}},
	{"facts are those that a plain list would hold", func(t *testing.T, s store.Store) {
		m := model{random: rand.New(rand.NewPCG(2026, 5)), facts: map[string]book.Fact{}}
		for range 60 {
			m.step(t, s)
			filter := m.filter()
			same(t, fmt.Sprintf("facts of %+v", filter), m.list(filter), factsOf(t, s, filter))
		}
	}},
}

// oneHand appends its own facts and, between them, some that all hands append, and reads the while.
func oneHand(t *testing.T, s store.Store, hand, each, shared int) error {
	for i := range each {
		if _, err := s.Append(context.Background(), []book.Fact{Fact(t, 1000*(hand+1)+i, "", "e", book.Event{Title: "own"})}); err != nil {
			return err
		}
		if _, err := s.Append(context.Background(), []book.Fact{Fact(t, i%shared, "", "e", book.Event{Title: "shared"})}); err != nil {
			return err
		}
		facts, err := s.Facts(context.Background(), store.Filter{})
		if err != nil {
			return err
		}
		if len(facts) < i+1 {
			return fmt.Errorf("%d facts after %d were appended", len(facts), i+1)
		}
	}
	return nil
}

// model is a store as a plain list.
type model struct {
	random *rand.Rand
	facts  map[string]book.Fact
}

// step appends a batch in which some facts are there already and some are corrected.
func (m *model) step(t *testing.T, s store.Store) {
	batch := make([]book.Fact, m.random.IntN(6))
	for i := range batch {
		f := Fact(t, m.random.IntN(200), "", "e", book.Event{Title: "x"})
		if m.random.IntN(2) == 0 {
			f = Fact(t, 200+m.random.IntN(200), fmt.Sprintf("farm-%d", m.random.IntN(3)), "stand", book.Cut{Number: 1})
		}
		f.Received = noon.Add(time.Duration(m.random.IntN(20)) * time.Minute)
		f.Day = may1 - unit.Day(m.random.IntN(5))
		if old, ok := m.facts[f.ID]; ok {
			f = old
			f.Received = f.Received.Add(time.Hour)
		}
		if j := slices.IndexFunc(batch[:i], func(g book.Fact) bool { return g.ID == f.ID }); j >= 0 {
			f = batch[j]
		}
		batch[i] = f
	}
	added := add(t, s, batch...)
	var isNew []string
	for _, f := range batch {
		if _, ok := m.facts[f.ID]; !ok {
			m.facts[f.ID] = f
			isNew = append(isNew, f.ID)
		}
	}
	same(t, "new", isNew, added.New)
}

func (m *model) filter() (f store.Filter) {
	if m.random.IntN(2) == 0 {
		f.Farm = fmt.Sprintf("farm-%d", m.random.IntN(4))
		f.Shared = m.random.IntN(2) == 0
	}
	if m.random.IntN(2) == 0 {
		f.Known = noon.Add(time.Duration(m.random.IntN(20)) * time.Minute)
	}
	if m.random.IntN(2) == 0 {
		f.Through = may1 - unit.Day(m.random.IntN(6))
	}
	return f
}

func (m *model) list(filter store.Filter) []book.Fact {
	out := []book.Fact{}
	for _, f := range m.facts {
		if filter.Farm != "" && f.Farm != filter.Farm && (f.Farm != "" || !filter.Shared) ||
			!filter.Known.IsZero() && f.Received.After(filter.Known) || filter.Through != 0 && f.Day > filter.Through {
			continue
		}
		out = append(out, f)
	}
	slices.SortFunc(out, func(a, b book.Fact) int {
		return cmp.Or(a.Received.Compare(b.Received), cmp.Compare(a.ID, b.ID))
	})
	return out
}
