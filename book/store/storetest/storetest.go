// Package storetest is the suite that every engine of a store passes, and a private PostgreSQL server
// to run it on.
package storetest

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/book/store"
	"haywarden/weather"
)

// Run runs the suite. Each case opens a store of its own, empty at first.
func Run(t *testing.T, open func(t *testing.T) store.Store) {
	t.Helper()
	for _, cases := range [][]suiteCase{factCases, correctionCases, filterCases, revisionCases, weatherCases, importCases, severalCases, forecastCases, manyCases} {
		for _, c := range cases {
			t.Run(c.name, func(t *testing.T) {
				c.holds(t, open(t))
			})
		}
	}
}

// suiteCase is one thing that holds for a store, named as a sentence.
type suiteCase struct {
	name  string
	holds func(t *testing.T, s store.Store)
}

var (
	may1 = unit.DateOf(2026, time.May, 1)
	// noon carries nanoseconds and a zone: both must survive.
	noon = time.Date(2026, time.May, 1, 12, 0, 0, 123456789, time.FixedZone("CDT", -5*3600))
)

// ID makes the id with a number, for facts whose ids do not matter.
func ID(n int) string { return fmt.Sprintf("01900000-0000-7000-8000-%012x", n) }

// Fact makes a fact with the id of a number, received at noon of 1 May 2026 and n seconds.
func Fact(tb testing.TB, n int, farm, subject string, body book.Body) book.Fact {
	tb.Helper()
	f, err := book.New(ID(n), farm, subject, may1, "ada", body)
	if err != nil {
		tb.Fatal(err)
	}
	f.Received = noon.Add(time.Duration(n) * time.Second)
	return f
}

// Ridge is a farm with a field and a stand, facts 1 to 3.
func Ridge(tb testing.TB) []book.Fact {
	tb.Helper()
	return []book.Fact{
		Fact(tb, 1, "", "farm-1", book.Farm{Name: "Ridge"}),
		Fact(tb, 2, "farm-1", "field-1", book.Field{Name: "North", Acres: 20}),
		Fact(tb, 3, "farm-1", "stand-1", book.Stand{Field: "field-1", Crop: book.Alfalfa, Seeded: may1 - 700}),
	}
}

// Block makes a year of weather that a number determines.
func Block(station string, year, n int) *weather.Block {
	b := weather.NewBlock(station, year)
	for i := range b.Days {
		for _, e := range weather.Elements() {
			b.Days[i].Value[e], b.Days[i].Mark[e] = int16((n+7*i+int(e))%300), weather.Reported
		}
	}
	return b
}

// Years makes blocks of consecutive years.
func Years(station string, first, count, n int) []*weather.Block {
	blocks := make([]*weather.Block, count)
	for i := range blocks {
		blocks[i] = Block(station, first+i, n+i)
	}
	return blocks
}

// File makes an import of a file that a number determines.
func File(n int, received time.Time, blocks ...*weather.Block) store.Import {
	return store.Import{
		Source: fmt.Sprintf("file-%d.dly", n), SHA256: fmt.Sprintf("%064x", n), Received: received,
		Station: weather.Station{ID: blocks[0].Station, Name: "Airport", Latitude: 42.95, Longitude: -87.9, Elevation: 204.2, WholeF: true},
		Blocks:  blocks, Report: []byte{0, 255, byte(n)},
	}
}

func add(t *testing.T, s store.Store, facts ...book.Fact) store.Added {
	t.Helper()
	added, err := s.Append(context.Background(), facts)
	if err != nil {
		t.Fatal(err)
	}
	return added
}

func factsOf(t *testing.T, s store.Store, filter store.Filter) []book.Fact {
	t.Helper()
	facts, err := s.Facts(context.Background(), filter)
	if err != nil {
		t.Fatal(err)
	}
	return facts
}

func revision(t *testing.T, s store.Store) int64 {
	t.Helper()
	n, err := s.Revision(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return n
}

func put(t *testing.T, s store.Store, in store.Import) store.Imported {
	t.Helper()
	out, err := s.PutWeather(context.Background(), in)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func weatherOf(t *testing.T, s store.Store, station string, known time.Time) []*weather.Block {
	t.Helper()
	blocks, err := s.Weather(context.Background(), station, known)
	if err != nil {
		t.Fatal(err)
	}
	return blocks
}

func importsOf(t *testing.T, s store.Store, station string) []store.ImportRecord {
	t.Helper()
	records, err := s.Imports(context.Background(), station)
	if err != nil {
		t.Fatal(err)
	}
	return records
}

// same compares without regard to the zone that a time is written in.
func same(t *testing.T, what string, want, got any) {
	t.Helper()
	instants := cmp.Comparer(func(a, b time.Time) bool { return a.Equal(b) })
	if diff := cmp.Diff(want, got, instants); diff != "" {
		t.Errorf("%s (-want +got):\n%s", what, diff)
	}
}

// ids lists the ids of facts, shortened to their numbers.
func ids(facts []book.Fact) (numbers []string) {
	for _, f := range facts {
		numbers = append(numbers, strings.TrimLeft(f.ID[24:], "0"))
	}
	return numbers
}

// refused demands an error of a kind that says something.
func refused(t *testing.T, err, kind error, says string) {
	t.Helper()
	if !errors.Is(err, kind) || !strings.Contains(err.Error(), says) {
		t.Errorf("error %v\nwant one that is %q and says %q", err, kind, says)
	}
}
