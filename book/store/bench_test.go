package store_test

import (
	"fmt"
	"path/filepath"
	"testing"
	"time"

	"haywarden/book"
	"haywarden/book/store"
	"haywarden/book/store/storetest"
)

func benchBoth(b *testing.B, bench func(b *testing.B, fresh func() *store.DB)) {
	b.Run("SQLite", func(b *testing.B) {
		bench(b, func() *store.DB { return mustOpen(b, filepath.Join(b.TempDir(), "a.book"), options) })
	})
	b.Run("PostgreSQL", func(b *testing.B) {
		storetest.PostgreSQL(b)
		bench(b, func() *store.DB { return mustOpen(b, storetest.PostgreSQL(b), options) })
	})
}

// tenThousand are the facts of a large book: a farm of visits with 20 stick readings each.
func tenThousand(b *testing.B) []book.Fact {
	facts := storetest.Ridge(b)
	for n := len(facts) + 1; len(facts) < 10_000; n++ {
		v := book.Visit{}
		for i := range 20 {
			v.Spots = append(v.Spots, book.Spot{HeightIn: 14 + float64((n+i)%20), Stage: book.Bud})
		}
		facts = append(facts, storetest.Fact(b, n, "farm-1", "stand-1", v))
	}
	return facts
}

func BenchmarkAppend10000Facts(b *testing.B) {
	benchBoth(b, func(b *testing.B, fresh func() *store.DB) {
		facts := tenThousand(b)
		for b.Loop() {
			b.StopTimer()
			db := fresh()
			b.StartTimer()
			if _, err := db.Append(b.Context(), facts); err != nil {
				b.Fatal(err)
			}
		}
	})
}

func BenchmarkAppendOneFact(b *testing.B) {
	benchBoth(b, func(b *testing.B, fresh func() *store.DB) {
		db := fresh()
		n := 0
		for b.Loop() {
			n++
			if _, err := db.Append(b.Context(), event(b, n)); err != nil {
				b.Fatal(err)
			}
		}
	})
}

func BenchmarkRead10000Facts(b *testing.B) {
	benchBoth(b, func(b *testing.B, fresh func() *store.DB) {
		db := fresh()
		if _, err := db.Append(b.Context(), tenThousand(b)); err != nil {
			b.Fatal(err)
		}
		for b.Loop() {
			if facts, err := db.Facts(b.Context(), store.Filter{}); err != nil || len(facts) != 10_000 {
				b.Fatal(len(facts), err)
			}
		}
	})
}

// district is the weather of 100 stations over 40 years.
func district() (files []store.Import) {
	for s := range 100 {
		files = append(files, storetest.File(s, clock(), storetest.Years(fmt.Sprintf("S%02d", s), 1986, 40, s)...))
	}
	return files
}

func BenchmarkPutWeatherOf100StationsOver40Years(b *testing.B) {
	benchBoth(b, func(b *testing.B, fresh func() *store.DB) {
		files := district()
		for b.Loop() {
			b.StopTimer()
			db := fresh()
			b.StartTimer()
			for _, f := range files {
				if _, err := db.PutWeather(b.Context(), f); err != nil {
					b.Fatal(err)
				}
			}
		}
	})
}

func BenchmarkReadWeatherOf100StationsOver40Years(b *testing.B) {
	benchBoth(b, func(b *testing.B, fresh func() *store.DB) {
		db := fresh()
		files := district()
		for _, f := range files {
			if _, err := db.PutWeather(b.Context(), f); err != nil {
				b.Fatal(err)
			}
		}
		for b.Loop() {
			for _, f := range files {
				if blocks, err := db.Weather(b.Context(), f.Station.ID, time.Time{}); err != nil || len(blocks) != 40 {
					b.Fatal(len(blocks), err)
				}
			}
		}
	})
}

// BenchmarkOpen is what every command of the command line pays.
func BenchmarkOpen(b *testing.B) {
	benchBoth(b, func(b *testing.B, fresh func() *store.DB) {
		location := fresh().Info().Location
		for b.Loop() {
			db, err := store.Open(b.Context(), location, options)
			if err != nil {
				b.Fatal(err)
			}
			if err := db.Close(); err != nil {
				b.Fatal(err)
			}
		}
	})
}
