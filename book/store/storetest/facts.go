package storetest

import (
	"context"
	"encoding/json"
	"errors"
	"testing"
	"time"

	"haywarden/book"
	"haywarden/book/store"
)

var factCases = []suiteCase{
	{"facts made from a book that has been changed since are not kept", func(t *testing.T, s store.Store) {
		at := revision(t, s)
		one, two := Fact(t, 1, "", "e-1", book.Event{Title: "one"}), Fact(t, 2, "", "e-2", book.Event{Title: "two"})
		added, err := s.AppendAt(context.Background(), []book.Fact{one}, at)
		if err != nil || added.Revision != at+1 {
			t.Fatalf("%+v, %v; want revision %d", added, err, at+1)
		}
		if _, err := s.AppendAt(context.Background(), []book.Fact{two}, at); !errors.Is(err, store.ErrChanged) {
			t.Errorf("error %v, want it refused as changed", err)
		}
		same(t, "facts", 1, len(factsOf(t, s, store.Filter{})))
		if _, err := s.AppendAt(context.Background(), []book.Fact{two}, at+1); err != nil {
			t.Error(err)
		}
		same(t, "facts", 2, len(factsOf(t, s, store.Filter{})))
	}},
	{"facts come back as they were, to the nanosecond and the byte", func(t *testing.T, s store.Store) {
		facts := Ridge(t)
		visit := Fact(t, 4, "farm-1", "stand-1", book.Visit{Note: "Grüße, 日本, \u2028 'quoted' \"twice\" \\ $1 ? :x \U0001F33E"})
		visit.Body = json.RawMessage(" { \"note\" : \"spaces and order stay\",\n\"bloom_pct\": 10.50 }")
		facts = append(facts, visit)
		added := add(t, s, facts...)
		same(t, "added", []string{ID(1), ID(2), ID(3), ID(4)}, added.New)
		got := factsOf(t, s, store.Filter{})
		same(t, "facts", facts, got)
		for _, f := range got {
			if f.Received.Location() != time.UTC {
				t.Errorf("fact %s: received in zone %s, want UTC", f.ID, f.Received.Location())
			}
		}
	}},
	{"facts are listed by receipt, then by id, however they were appended", func(t *testing.T, s store.Store) {
		a, b, c := Fact(t, 7, "", "e-1", book.Event{Title: "a"}), Fact(t, 5, "", "e-2", book.Event{Title: "b"}), Fact(t, 6, "", "e-3", book.Event{Title: "c"})
		a.Received, b.Received, c.Received = noon, noon, noon.Add(-time.Nanosecond)
		add(t, s, a, b)
		add(t, s, c)
		same(t, "order", []string{"6", "5", "7"}, ids(factsOf(t, s, store.Filter{})))
	}},
	{"appending again adds nothing and says so", func(t *testing.T, s store.Store) {
		first := add(t, s, Ridge(t)...)
		again := Ridge(t)
		for i := range again {
			again[i].Received = again[i].Received.Add(time.Hour) // sent again later
		}
		added := add(t, s, append(again, Fact(t, 4, "farm-1", "stand-1", book.Visit{Note: "new"}))...)
		same(t, "already", []string{ID(1), ID(2), ID(3)}, added.Already)
		same(t, "new", []string{ID(4)}, added.New)
		same(t, "first receipt stays", first.New[0], factsOf(t, s, store.Filter{Known: noon.Add(time.Second)})[0].ID)
		same(t, "count", 4, len(factsOf(t, s, store.Filter{})))
	}},
	{"a body that is written differently is the same body", func(t *testing.T, s store.Store) {
		f := Fact(t, 1, "", "e-1", book.Event{Title: "Field day", People: 40})
		add(t, s, f)
		f.Body = json.RawMessage("{\"people\": 40,\n \"title\": \"Field\\u0020day\"}")
		same(t, "already", []string{ID(1)}, add(t, s, f).Already)
	}},
	{"one fact twice in a batch is one fact", func(t *testing.T, s store.Store) {
		f := Fact(t, 1, "", "e-1", book.Event{Title: "Field day"})
		added := add(t, s, f, f)
		same(t, "new", []string{ID(1)}, added.New)
		same(t, "already", []string{ID(1)}, added.Already)
	}},
	{"the same id with other content is a conflict, and nothing of the batch is kept", func(t *testing.T, s store.Store) {
		corrected := Fact(t, 4, "farm-1", "field-1", book.Field{Name: "North", Acres: 22})
		corrected.Supersedes = ID(2)
		add(t, s, append(Ridge(t), corrected)...)
		before := revision(t, s)
		for what, edit := range map[string]func(*book.Fact){
			"body":       func(f *book.Fact) { f.Body = json.RawMessage(`{"name":"North","acres":21}`) },
			"author":     func(f *book.Fact) { f.Author = "eve" },
			"subject":    func(f *book.Fact) { f.Subject = "field-2" },
			"day":        func(f *book.Fact) { f.Day-- },
			"supersedes": func(f *book.Fact) { f.Supersedes = "" },
			"farm":       func(f *book.Fact) { f.Farm, f.Supersedes = "farm-2", "" },
			"kind": func(f *book.Fact) {
				f.Kind, f.Supersedes, f.Body = book.KindContact, "", json.RawMessage(`{"name":"Ada"}`)
			},
		} {
			clash := corrected
			edit(&clash)
			_, err := s.Append(context.Background(), []book.Fact{Fact(t, 20, "", "e-1", book.Event{Title: "beside"}), clash})
			refused(t, err, store.ErrConflict, "its "+what+" differs")
			refused(t, err, store.ErrConflict, clash.ID)
		}
		same(t, "facts", append(Ridge(t), corrected), factsOf(t, s, store.Filter{}))
		same(t, "revision", before, revision(t, s))
	}},
	{"one fact that cannot be read back keeps the whole batch out", func(t *testing.T, s store.Store) {
		for _, c := range []struct {
			says string
			edit func(*book.Fact)
		}{
			{"time it was received is missing", func(f *book.Fact) { f.Received = time.Time{} }},
			{"received in the year 1024", func(f *book.Fact) { f.Received = time.Date(1024, 1, 1, 0, 0, 0, 0, time.UTC) }},
			{"not a UUID", func(f *book.Fact) { f.ID = "7" }},
			{"is after today", func(f *book.Fact) { f.Day = may1 + 3 }},
			{`kind "omen"`, func(f *book.Fact) { f.Kind = "omen" }},
			{"title is empty", func(f *book.Fact) { f.Body = json.RawMessage(`{}`) }},
			{"zero character", func(f *book.Fact) { f.Author = "a\x00b" }},
			{"not UTF-8", func(f *book.Fact) { f.Subject = "a\xffb" }},
			{"not UTF-8", func(f *book.Fact) { f.Body = json.RawMessage("{\"title\":\"a\xff\"}") }},
		} {
			bad := Fact(t, 2, "", "e-2", book.Event{Title: "bad"})
			c.edit(&bad)
			_, err := s.Append(context.Background(), []book.Fact{Fact(t, 1, "", "e-1", book.Event{Title: "good"}), bad})
			refused(t, err, store.ErrRefused, c.says)
			refused(t, err, store.ErrRefused, "fact 2 of 2")
		}
		same(t, "facts", 0, len(factsOf(t, s, store.Filter{})))
		same(t, "revision", int64(0), revision(t, s))
	}},
	{"an evening's fact may carry a day that UTC has not reached", func(t *testing.T, s store.Store) {
		f := Fact(t, 1, "", "e-1", book.Event{Title: "early"})
		f.Day, f.Received = may1+1, time.Date(2026, time.May, 1, 23, 30, 0, 0, time.UTC)
		add(t, s, f)
	}},
	{"nothing appended changes nothing", func(t *testing.T, s store.Store) {
		same(t, "added", store.Added{}, add(t, s))
	}},
	{"work that is called off keeps nothing", func(t *testing.T, s store.Store) {
		ctx, cancel := context.WithCancel(context.Background())
		cancel()
		if _, err := s.Append(ctx, Ridge(t)); !errors.Is(err, context.Canceled) {
			t.Errorf("append: error %v, want %v", err, context.Canceled)
		}
		if _, err := s.Facts(ctx, store.Filter{}); !errors.Is(err, context.Canceled) {
			t.Errorf("facts: error %v, want %v", err, context.Canceled)
		}
		if _, err := s.PutWeather(ctx, File(1, noon, Block("A", 2025, 1))); !errors.Is(err, context.Canceled) {
			t.Errorf("put weather: error %v, want %v", err, context.Canceled)
		}
		same(t, "facts", 0, len(factsOf(t, s, store.Filter{})))
		same(t, "weather", 0, len(weatherOf(t, s, "A", time.Time{})))
	}},
}

var correctionCases = []suiteCase{
	{"a correction of what is not in the book is refused", func(t *testing.T, s store.Store) {
		f := Fact(t, 5, "farm-1", "stand-1", book.Cut{Number: 1})
		f.Supersedes = ID(4)
		_, err := s.Append(context.Background(), []book.Fact{f})
		refused(t, err, store.ErrRefused, "corrects fact "+ID(4)+", which is not in the book")
	}},
	{"a correction may come in one batch with what it corrects, in either order", func(t *testing.T, s store.Store) {
		for _, n := range []int{10, 20} {
			old, corrected := Fact(t, n, "farm-1", "stand-1", book.Cut{Number: 1}), Fact(t, n+1, "farm-1", "stand-1", book.Cut{Number: 2})
			corrected.Supersedes = old.ID
			if n == 10 {
				add(t, s, old, corrected)
			} else {
				add(t, s, corrected, old)
			}
			same(t, "supersedes", old.ID, factsOf(t, s, store.Filter{})[len(factsOf(t, s, store.Filter{}))-1].Supersedes)
		}
	}},
	{"a correction of another farm's fact is refused, in a batch or in the book", func(t *testing.T, s store.Store) {
		old, corrected := Fact(t, 1, "farm-1", "stand-1", book.Cut{Number: 1}), Fact(t, 2, "farm-2", "stand-1", book.Cut{Number: 2})
		corrected.Supersedes = old.ID
		_, err := s.Append(context.Background(), []book.Fact{old, corrected})
		refused(t, err, store.ErrRefused, "belongs to farm farm-1")
		add(t, s, old)
		_, err = s.Append(context.Background(), []book.Fact{corrected})
		refused(t, err, store.ErrRefused, "belongs to farm farm-1")
	}},
}

var filterCases = []suiteCase{
	{"a farm's facts are its own, with what was withdrawn of it", func(t *testing.T, s store.Store) {
		facts := Ridge(t)
		gone := Fact(t, 4, "", "stand-1", book.Withdrawn{Why: "wrong farm"})
		gone.Supersedes = ID(3)
		facts = append(facts, gone,
			Fact(t, 5, "farm-2", "farm-2", book.Farm{Name: "Valley"}),
			Fact(t, 6, "farm-2", "field-2", book.Field{Name: "South", Acres: 5}),
			Fact(t, 7, "", "deck", book.Prices{Name: "May", Lines: []book.PriceLine{{Name: book.HayBase}}}),
			Fact(t, 8, "farm-2", "deck", book.Prices{Name: "own", Lines: []book.PriceLine{{Name: book.HayBase}}}))
		add(t, s, facts...)
		for _, c := range []struct {
			filter store.Filter
			want   []string
		}{
			{store.Filter{}, []string{"1", "2", "3", "4", "5", "6", "7", "8"}},
			{store.Filter{Farm: "farm-1"}, []string{"1", "2", "3", "4"}},
			{store.Filter{Farm: "farm-2"}, []string{"5", "6", "8"}},
			{store.Filter{Farm: "farm-1", Shared: true}, []string{"1", "2", "3", "4", "7"}},
			{store.Filter{Farm: "farm-2", Shared: true}, []string{"5", "6", "7", "8"}},
			{store.Filter{Farm: "farm-3"}, nil},
			{store.Filter{Shared: true}, []string{"1", "2", "3", "4", "5", "6", "7", "8"}},
		} {
			same(t, "facts", c.want, ids(factsOf(t, s, c.filter)))
		}
	}},
	{"what was received later, or happened later, is left out", func(t *testing.T, s store.Store) {
		a, b, c := Fact(t, 1, "", "e", book.Event{Title: "a"}), Fact(t, 2, "", "e", book.Event{Title: "b"}), Fact(t, 3, "", "e", book.Event{Title: "c"})
		a.Day, b.Day, c.Day = may1-2, may1-4, may1-3
		add(t, s, a, b, c)
		for _, c := range []struct {
			name   string
			filter store.Filter
			want   []string
		}{
			{"known just before the second", store.Filter{Known: b.Received.Add(-time.Nanosecond)}, []string{"1"}},
			{"known with the second", store.Filter{Known: b.Received}, []string{"1", "2"}},
			{"known in another zone", store.Filter{Known: b.Received.In(time.FixedZone("", 9*3600))}, []string{"1", "2"}},
			{"known long after the calendar", store.Filter{Known: time.Date(12000, 1, 1, 0, 0, 0, 0, time.UTC)}, []string{"1", "2", "3"}},
			{"known before the calendar", store.Filter{Known: time.Date(-5, 1, 1, 0, 0, 0, 0, time.UTC)}, nil},
			{"through the second day", store.Filter{Through: may1 - 3}, []string{"2", "3"}},
			{"through the day before the first", store.Filter{Through: may1 - 5}, nil},
			{"both", store.Filter{Through: may1 - 3, Known: b.Received}, []string{"2"}},
			{"both, of a farm that has none", store.Filter{Farm: "x", Through: may1 - 3, Known: b.Received}, nil},
			{"both, of the book beside a farm", store.Filter{Farm: "x", Shared: true, Through: may1 - 3, Known: b.Received}, []string{"2"}},
		} {
			same(t, c.name, c.want, ids(factsOf(t, s, c.filter)))
		}
	}},
	{"a farm's view from its own facts is the farm in the whole view", func(t *testing.T, s store.Store) {
		add(t, s, append(Ridge(t), Fact(t, 4, "farm-1", "stand-1", book.Visit{Note: "tall"}),
			Fact(t, 5, "", "farm-2", book.Farm{Name: "Valley"}),
			Fact(t, 7, "", "deck", book.Prices{Name: "May", Lines: []book.PriceLine{{Name: book.HayBase}}}))...)
		whole, err := book.Project(factsOf(t, s, store.Filter{}), may1, noon.AddDate(0, 0, 1))
		if err != nil {
			t.Fatal(err)
		}
		one, err := book.Project(factsOf(t, s, store.Filter{Farm: "farm-1", Shared: true}), may1, noon.AddDate(0, 0, 1))
		if err != nil {
			t.Fatal(err)
		}
		same(t, "farm", whole.Farms[0], one.Farms[0])
		same(t, "prices", whole.Prices, one.Prices)
	}},
}

var revisionCases = []suiteCase{
	{"the revision grows with each change, and only then", func(t *testing.T, s store.Store) {
		last := revision(t, s)
		same(t, "revision of an empty book", int64(0), last)
		step := func(what string, changes bool, reported int64) {
			t.Helper()
			now := revision(t, s)
			if now != reported {
				t.Errorf("%s: reported revision %d, read %d", what, reported, now)
			}
			if grew := now > last; grew != changes {
				t.Errorf("%s: revision %d to %d, want it to change: %t", what, last, now, changes)
			}
			last = now
		}
		step("facts", true, add(t, s, Ridge(t)...).Revision)
		step("the same facts", false, add(t, s, Ridge(t)...).Revision)
		step("no facts", false, add(t, s).Revision)
		step("one more fact", true, add(t, s, Fact(t, 4, "", "e", book.Event{Title: "x"})).Revision)
		step("weather", true, put(t, s, File(1, noon, Block("A", 2025, 1))).Revision)
		step("the same file", false, put(t, s, File(1, noon.Add(time.Hour), Block("A", 2025, 1))).Revision)
		step("another file that says the same", true, put(t, s, File(2, noon.Add(time.Hour), Block("A", 2025, 1))).Revision)
		step("other weather", true, put(t, s, File(3, noon.Add(time.Hour), Block("A", 2025, 2))).Revision)
	}},
}
