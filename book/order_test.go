package book_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"haywarden/agronomy/unit"
	"haywarden/book"
)

// drawBook draws the facts of a few farms with fields, stands, visits, cuts, corrections and
// withdrawals, recorded over a season. Names repeat and many facts share a day and a time of receipt,
// since that is where an order could slip through.
func drawBook(t *rapid.T) []book.Fact {
	var facts []book.Fact
	add := func(farm, subject string, day unit.Day, body book.Body) book.Fact {
		f, err := book.New(id(len(facts)), farm, subject, day, "ada", body)
		if err != nil {
			t.Fatal(err)
		}
		f.Received = noon.AddDate(0, 0, rapid.IntRange(0, 3).Draw(t, "received"))
		facts = append(facts, f)
		return f
	}
	day := func() unit.Day { return may1 + unit.Day(rapid.IntRange(0, 4).Draw(t, "day")) }
	name := func() string { return rapid.SampledFrom([]string{"North", "South"}).Draw(t, "name") }
	var stands []book.Fact
	for i := range rapid.IntRange(1, 3).Draw(t, "farms") {
		farm := fmt.Sprintf("farm-%d", i)
		add("", farm, may1, book.Farm{Name: name()})
		for j := range rapid.IntRange(0, 3).Draw(t, "fields") {
			field := fmt.Sprintf("%s-field-%d", farm, j)
			add(farm, field, may1, book.Field{Name: name(), Acres: 10})
			seeded := may1 - unit.Day(rapid.IntRange(0, 1).Draw(t, "seeded"))
			for k := range rapid.IntRange(0, 2).Draw(t, "stands") {
				stands = append(stands, add(farm, fmt.Sprintf("%s-stand-%d", field, k), may1, book.Stand{Field: field, Crop: book.Alfalfa, Seeded: seeded}))
			}
		}
		add("", rapid.SampledFrom([]string{"A", "B"}).Draw(t, "station"), day(), book.Station{ID: rapid.SampledFrom([]string{"A", "B"}).Draw(t, "station id"), Name: name()})
		add(rapid.SampledFrom([]string{"", farm}).Draw(t, "deck of"), "deck", day(), book.Prices{Name: name(), Lines: []book.PriceLine{{Name: book.HayBase}}})
	}
	for range rapid.IntRange(0, 12).Draw(t, "seen") {
		if len(stands) == 0 {
			break
		}
		s := rapid.SampledFrom(stands).Draw(t, "stand")
		cut := add(s.Farm, s.Subject, day(), book.Cut{Number: rapid.IntRange(1, 4).Draw(t, "cut")})
		switch rapid.IntRange(0, 3).Draw(t, "then") {
		case 0:
			add(s.Farm, s.Subject, day(), book.Cut{Number: rapid.IntRange(1, 4).Draw(t, "corrected cut")})
			facts[len(facts)-1].Supersedes = cut.ID
		case 1:
			add("", s.Subject, day(), book.Withdrawn{Why: "typed twice"})
			facts[len(facts)-1].Supersedes = cut.ID
		}
	}
	return facts
}

func TestProjectingDoesNotDependOnTheOrderOfFacts(t *testing.T) {
	// The views are circular, and comparing follows circles; equal pointers are compared by content.
	rapid.Check(t, func(t *rapid.T) {
		facts := drawBook(t)
		date := may1 + unit.Day(rapid.IntRange(0, 5).Draw(t, "date"))
		shuffled := rapid.Permutation(facts).Draw(t, "shuffled")
		want, err := book.Project(facts, date, later)
		if err != nil {
			t.Fatal(err)
		}
		got, err := book.Project(shuffled, date, later)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(want, got, cmpopts.EquateEmpty()); diff != "" {
			t.Fatalf("another order of facts gives another view (-listed +shuffled):\n%s", diff)
		}
	})
}

func TestProjectingLeavesTheFactsAlone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		facts := rapid.Permutation(drawBook(t)).Draw(t, "shuffled")
		before := append([]book.Fact(nil), facts...)
		if _, err := book.Project(facts, may1+9, later); err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(before, facts); diff != "" {
			t.Fatalf("(-before +after):\n%s", diff)
		}
	})
}

func TestWhatIsKnownOnlyGrowsByWhatWasReceived(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		facts := drawBook(t)
		known := noon.Add(time.Duration(rapid.IntRange(0, 72).Draw(t, "hours")) * time.Hour)
		// Farms, fields and stands are there from the start, so that any time has a whole view.
		for i := range facts {
			switch facts[i].Kind {
			case book.KindFarm, book.KindField, book.KindStand:
				facts[i].Received = noon
			default:
			}
		}
		var received []book.Fact
		for _, f := range facts {
			if !f.Received.After(known) {
				received = append(received, f)
			}
		}
		want, err := book.Project(received, may1+9, known)
		if err != nil {
			t.Fatal(err)
		}
		got, err := book.Project(facts, may1+9, known)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(want, got, cmpopts.EquateEmpty()); diff != "" {
			t.Fatalf("a fact received later is in the view (-received +all):\n%s", diff)
		}
	})
}
