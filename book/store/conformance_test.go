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

// onBothEngines runs a test on an empty book of each engine.
func onBothEngines(t *testing.T, test func(t *testing.T, db *store.DB)) {
	t.Helper()
	onBothEnginesWith(t, options, test)
}

func onBothEnginesWith(t *testing.T, opts store.Options, test func(t *testing.T, db *store.DB)) {
	t.Helper()
	t.Run("SQLite", func(t *testing.T) {
		test(t, mustOpen(t, filepath.Join(t.TempDir(), "a.book"), opts))
	})
	t.Run("PostgreSQL", func(t *testing.T) {
		test(t, mustOpen(t, storetest.PostgreSQL(t), opts))
	})
}

func TestSQLiteConforms(t *testing.T) {
	storetest.Run(t, func(t *testing.T) store.Store {
		db := mustOpen(t, filepath.Join(t.TempDir(), "a?b #c%20 d.book"), options)
		t.Cleanup(func() { mustCheck(t, db) })
		return db
	})
}

func TestPostgreSQLConforms(t *testing.T) {
	storetest.PostgreSQL(t) // skips here, not in each case
	storetest.Run(t, func(t *testing.T) store.Store {
		db := mustOpen(t, storetest.PostgreSQL(t), options)
		t.Cleanup(func() { mustCheck(t, db) })
		return db
	})
}
