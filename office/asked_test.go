package office_test

import (
	"bytes"
	"encoding/json"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/book/store"
	"haywarden/demo"
	"haywarden/office"
	"haywarden/weather"
)

// larkmoor is an office over a part of the invented district.
func larkmoor(t *testing.T, d demo.District, fact func(book.Fact) bool, delivery func(demo.Delivery) (*weather.Block, bool)) *office.Office {
	t.Helper()
	now := func() time.Time { return time.Date(2027, 12, 31, 20, 0, 0, 0, time.UTC) }
	db, err := store.Create(t.Context(), filepath.Join(t.TempDir(), "larkmoor.book"), store.Options{Now: now})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { db.Close() })
	o := office.New(db, now, rand.NewChaCha8([32]byte{2}))
	if _, err := o.Receive(t.Context(), ida, slices.DeleteFunc(slices.Clone(d.Facts), func(f book.Fact) bool { return !fact(f) })); err != nil {
		t.Fatal(err)
	}
	var deliveries []office.Delivery
	for _, w := range d.Weather {
		if b, ok := delivery(w); ok {
			deliveries = append(deliveries, office.Delivery{Block: b, Received: w.Received})
		}
	}
	if err := o.ReceiveWeather(t.Context(), ida, d.Stations, deliveries); err != nil {
		t.Fatal(err)
	}
	return o
}

func roundJSON(t *testing.T, o *office.Office, ask office.Ask) []byte {
	t.Helper()
	r, err := o.Round(t.Context(), ida, ask)
	if err != nil {
		t.Fatal(err)
	}
	f := r.File()
	f.Known = time.Time{} // the question, not the answer
	text, err := json.MarshalIndent(f, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	return text
}

func sameRound(t *testing.T, what string, want, got []byte) {
	t.Helper()
	if bytes.Equal(want, got) {
		return
	}
	a, b := bytes.Split(want, []byte("\n")), bytes.Split(got, []byte("\n"))
	for i := range min(len(a), len(b)) {
		if !bytes.Equal(a[i], b[i]) {
			t.Errorf("%s: line %d is %s, want %s", what, i+1, b[i], a[i])
			return
		}
	}
	t.Errorf("%s: %d lines, want %d", what, len(b), len(a))
}

func all(book.Fact) bool { return true }

func asDelivered(w demo.Delivery) (*weather.Block, bool) { return w.Block, true }

// cutAfter leaves of a year what was observed by a day.
func cutAfter(day unit.Day) func(demo.Delivery) (*weather.Block, bool) {
	return func(w demo.Delivery) (*weather.Block, bool) {
		if w.Block.Year < day.Year() {
			return w.Block, true
		}
		b := weather.NewBlock(w.Block.Station, w.Block.Year)
		if w.Block.Year == day.Year() {
			copy(b.Days[:day.YearDay()], w.Block.Days)
		}
		return b, w.Block.Year == day.Year()
	}
}

// What happened after the date asked for is not used, whenever it came to the book: the answer is that of
// a book that ends there.
func TestARoundUsesNothingThatHappenedAfterItsDate(t *testing.T) {
	d, err := demo.Make(demo.Seed)
	if err != nil {
		t.Fatal(err)
	}
	whole := larkmoor(t, d, all, asDelivered)
	for _, day := range []unit.Day{unit.DateOf(2026, 5, 19), unit.DateOf(2026, 9, 8)} {
		later := slices.ContainsFunc(d.Facts, func(f book.Fact) bool { return f.Day > day })
		ended := larkmoor(t, d, func(f book.Fact) bool { return f.Day <= day }, cutAfter(day))
		got := roundJSON(t, whole, office.Ask{Date: day})
		sameRound(t, day.String(), roundJSON(t, ended, office.Ask{Date: day}), got)
		if !later || bytes.Equal(got, roundJSON(t, whole, office.Ask{Date: day + 14})) {
			t.Errorf("%s: nothing in the book comes after it, so nothing was proved", day)
		}
	}
}

// A book asked as it was known is the book that had received no more.
func TestARoundAsKnownUsesNothingReceivedLater(t *testing.T) {
	d, err := demo.Make(demo.Seed)
	if err != nil {
		t.Fatal(err)
	}
	whole := larkmoor(t, d, all, asDelivered)
	differs := false
	for _, c := range []struct{ date, known string }{{"2026-05-19", "2026-05-19T07:00:00Z"}, {"2026-05-19", "2026-05-12T23:00:00Z"}, {"2026-09-08", "2026-09-01T12:00:00Z"}} {
		day, err := unit.ParseDay(c.date)
		if err != nil {
			t.Fatal(err)
		}
		known, err := time.Parse(time.RFC3339, c.known)
		if err != nil {
			t.Fatal(err)
		}
		then := larkmoor(t, d,
			func(f book.Fact) bool { return !f.Received.After(known) },
			func(w demo.Delivery) (*weather.Block, bool) { return w.Block, !w.Received.After(known) })
		got := roundJSON(t, whole, office.Ask{Date: day, Known: known})
		sameRound(t, c.date+" as known "+c.known, roundJSON(t, then, office.Ask{Date: day}), got)
		differs = differs || !bytes.Equal(got, roundJSON(t, whole, office.Ask{Date: day}))
	}
	if !differs {
		t.Error("what was received later never mattered, so nothing was proved")
	}
}
