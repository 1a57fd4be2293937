package office_test

import (
	"math/rand/v2"
	"path/filepath"
	"testing"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/book/store"
	"haywarden/demo"
	"haywarden/office"
)

// BenchmarkOneEditReadvised is what the adviser waits for after recording a visit: the round anew.
func BenchmarkOneEditReadvised(b *testing.B) {
	d, err := demo.Make(demo.Seed)
	if err != nil {
		b.Fatal(err)
	}
	now := func() time.Time { return time.Date(2027, 12, 31, 20, 0, 0, 0, time.UTC) }
	db, err := store.Create(b.Context(), filepath.Join(b.TempDir(), "larkmoor.book"), store.Options{Now: now})
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { db.Close() })
	o := office.New(db, now, rand.NewChaCha8([32]byte{2}))
	if _, err := o.Receive(b.Context(), ida, d.Facts); err != nil {
		b.Fatal(err)
	}
	var deliveries []office.Delivery
	for _, w := range d.Weather {
		deliveries = append(deliveries, office.Delivery{Block: w.Block, Received: w.Received})
	}
	if err := o.ReceiveWeather(b.Context(), ida, d.Stations, deliveries); err != nil {
		b.Fatal(err)
	}
	ask := office.Ask{Date: unit.DateOf(2026, 5, 19)}
	r, err := o.Round(b.Context(), ida, ask)
	if err != nil {
		b.Fatal(err)
	}
	s := r.Pieces[0].Stand
	for b.Loop() {
		if _, err := o.Record(b.Context(), ida, office.Entry{Farm: s.Farm.ID, Subject: s.ID, Day: ask.Date - 1, Body: book.Visit{Note: "seen"}}); err != nil {
			b.Fatal(err)
		}
		if _, err := o.Round(b.Context(), ida, ask); err != nil {
			b.Fatal(err)
		}
	}
}
