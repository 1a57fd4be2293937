package store_test

import (
	"context"
	"path/filepath"
	"testing"
	"time"

	"haywarden/book/store"
	"haywarden/book/store/storetest"
)

// clock is a clock that stands still.
func clock() time.Time { return time.Date(2026, time.May, 19, 8, 30, 5, 0, time.UTC) }

var options = store.Options{Create: true, Now: clock, Program: "1.2.3"}

func mustOpen(tb testing.TB, location string, opts store.Options) *store.DB {
	tb.Helper()
	db, err := store.Open(tb.Context(), location, opts)
	if err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() {
		if err := db.Close(); err != nil {
			tb.Error(err)
		}
	})
	return db
}

func mustCheck(tb testing.TB, db *store.DB) {
	tb.Helper()
	if err := db.Check(context.Background()); err != nil { // also after the test, when its own is over
		tb.Error(err)
	}
}

func TestSQLiteConforms(t *testing.T) {
	storetest.Run(t, func(t *testing.T) store.Store {
		db := mustOpen(t, filepath.Join(t.TempDir(), "a?b #c%20 d.book"), options)
		t.Cleanup(func() { mustCheck(t, db) })
		return db
	})
}

func TestPostgreSQLConforms(t *testing.T) {
	cluster := storetest.StartPostgreSQL(t)
	storetest.Run(t, func(t *testing.T) store.Store {
		db := mustOpen(t, cluster.Fresh(t), options)
		t.Cleanup(func() { mustCheck(t, db) })
		return db
	})
}
