package store_test

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"haywarden/book/store"
	"haywarden/book/store/storetest"
)

// copyMark is what the name of a copy made before an upgrade has between the book's and the time.
var copyMark = fmt.Sprintf(".before-v%d-", store.SchemaVersion)

// firstLayout makes a book as the first version of the program did, with Ridge farm and two years of
// weather, written in SQL since nothing else writes that layout any more.
func firstLayout(tb testing.TB, path string) {
	tb.Helper()
	if err := os.WriteFile(path, nil, 0o600); err != nil {
		tb.Fatal(err)
	}
	if err := store.LayOutFile(tb.Context(), path, 1, store.Options{Program: "1.0.0", Now: func() time.Time { return clock().AddDate(-1, 0, 0) }}); err != nil {
		tb.Fatal(err)
	}
	db, err := sql.Open("sqlite", path)
	if err != nil {
		tb.Fatal(err)
	}
	defer db.Close()
	fillFirstLayout(tb, db)
}

func fillFirstLayout(tb testing.TB, db *sql.DB) {
	tb.Helper()
	const layout = "2006-01-02T15:04:05.000000000Z"
	do := func(query string, args ...any) {
		if _, err := db.ExecContext(tb.Context(), query, args...); err != nil {
			tb.Fatal(err)
		}
	}
	for _, f := range storetest.Ridge(tb) {
		do("insert into facts (id, home, farm, subject, kind, day, received, author, supersedes, body) values ($1, $2, $3, $4, $5, $6, $7, $8, null, $9)",
			f.ID, "farm-1", f.Farm, f.Subject, string(f.Kind), f.Day.String(), f.Received.UTC().Format(layout), f.Author, string(f.Body))
	}
	for _, b := range storetest.Years("A", 2024, 2, 5) {
		do("insert into weather_blocks (station, year, revision, received, days) values ($1, $2, 1, $3, $4)", b.Station, b.Year, clock().Format(layout), b.Encode())
	}
	do("insert into stations (id, revision, received, name, latitude, longitude, elevation, whole_f) values ('A', 1, $1, 'Airport', 42.95, -87.9, 204.2, true)", clock().Format(layout))
	do("update book set revision = 4")
}

// holdsFirstLayoutsContent demands that nothing of what firstLayout wrote is lost.
func holdsFirstLayoutsContent(t *testing.T, db *store.DB) {
	t.Helper()
	facts, err := db.Facts(t.Context(), store.Filter{})
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(storetest.Ridge(t), facts, cmp.Comparer(func(a, b time.Time) bool { return a.Equal(b) })); diff != "" {
		t.Errorf("facts (-want +got):\n%s", diff)
	}
	blocks, err := db.Weather(t.Context(), "A", time.Time{})
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(storetest.Years("A", 2024, 2, 5), blocks); diff != "" {
		t.Errorf("weather (-want +got):\n%s", diff)
	}
	if n, err := db.Revision(t.Context()); err != nil || n != 4 {
		t.Errorf("revision %d, %v; want 4", n, err)
	}
}

func TestAnOlderBookIsUpgradedAfterACopyWasMade(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "farm book.book")
	firstLayout(t, path)
	for _, suffix := range []string{"", "-journal"} { // what is left of a copy that was cut short another day
		if err := os.WriteFile(path+copyMark+"20260518-070000.part"+suffix, []byte("x"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	db := mustOpen(t, path, store.Options{Now: clock, Program: "1.2.3"})
	saved := path + copyMark + "20260519-083005"
	want := []string{fmt.Sprintf("Upgraded the book from layout 1 to %d; a copy from before is kept in %s.", store.SchemaVersion, saved)}
	if diff := cmp.Diff(want, db.Notices()); diff != "" {
		t.Errorf("notices (-want +got):\n%s", diff)
	}
	mustCheck(t, db)
	holdsFirstLayoutsContent(t, db)
	if got := db.Info(); got.Program != "1.2.3" || got.Schema != store.SchemaVersion || !got.Created.Equal(clock().AddDate(-1, 0, 0)) {
		t.Errorf("info %+v", got)
	}
	if err := store.SoundFile(t.Context(), saved); err != nil {
		t.Error(err)
	}
	if v, err := store.SchemaOfFile(t.Context(), saved); err != nil || v != 1 {
		t.Errorf("layout of the copy: %d, %v; want 1", v, err)
	}
	if _, err := db.PutWeather(t.Context(), storetest.File(1, clock(), storetest.Block("A", 2026, 1))); err != nil {
		t.Errorf("what came with the second layout: %v", err)
	}
	if _, err := db.PutForecast(t.Context(), storetest.Forecast("43.07,-89.40", clock(), 1), clock()); err != nil {
		t.Errorf("what came with the third: %v", err)
	}
	parts, err := filepath.Glob(filepath.Join(dir, "*.part*"))
	if err != nil || len(parts) > 0 {
		t.Errorf("left behind: %q, %v", parts, err)
	}
}

func TestTheCopyMadeBeforeAnUpgradeOpens(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.book")
	firstLayout(t, path)
	if err := mustOpen(t, path, store.Options{Now: clock}).Close(); err != nil {
		t.Fatal(err)
	}
	db := mustOpen(t, path+copyMark+"20260519-083005", store.Options{Now: clock})
	holdsFirstLayoutsContent(t, db)
}

func TestTwoCopiesOfOneSecondAreBothKept(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.book")
	taken := path + copyMark + "20260519-083005"
	if err := os.WriteFile(taken, []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	firstLayout(t, path)
	db := mustOpen(t, path, store.Options{Now: clock})
	if got := db.Notices(); len(got) != 1 || !strings.Contains(got[0], taken+"-2") {
		t.Errorf("notices %q, want one that names %s-2", got, taken)
	}
	if data, err := os.ReadFile(taken); err != nil || string(data) != "mine" {
		t.Errorf("the file that had the name: %q, %v", data, err)
	}
}

func TestABookThatAnotherProcessHasOpenIsNotUpgraded(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.book")
	firstLayout(t, path)
	other, err := sql.Open("sqlite", path)
	if err != nil {
		t.Fatal(err)
	}
	defer other.Close()
	var n int
	if err := other.QueryRowContext(t.Context(), "select count(*) from facts").Scan(&n); err != nil {
		t.Fatal(err)
	}
	refuses(t, path, store.Options{Now: clock, Wait: 50 * time.Millisecond}, store.ErrBusy, "another Haywarden has this book open")
	if v, err := store.SchemaOfFile(t.Context(), path); err != nil || v != 1 {
		t.Errorf("layout %d, %v; want 1", v, err)
	}
	if copies, err := filepath.Glob(path + ".before*"); err != nil || len(copies) > 0 {
		t.Errorf("copies %q, %v; want none", copies, err)
	}
}

func TestAnUpgradeThatFailsLeavesTheBookWholeAndSaysWhere(t *testing.T) {
	for name, c := range map[string]struct {
		taken  string // the name that a step's last statement would take
		layout int
		left   string
	}{
		"in the first step": {"weather_imports_of_station", 1, "left the book as it was"},
		"in a later one":    {"forecasts", 2, "left the book whole and at layout 2"},
	} {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "a.book")
			firstLayout(t, path)
			otherProgram(t, path, "create table "+c.taken+" (a)")
			refuses(t, path, store.Options{Now: clock}, nil, fmt.Sprintf("upgrade from layout 1 to %d, which %s", store.SchemaVersion, c.left), path+copyMark+"20260519-083005")
			if v, err := store.SchemaOfFile(t.Context(), path); err != nil || v != c.layout {
				t.Errorf("layout %d, %v; want %d", v, err, c.layout)
			}
			if v, err := store.SchemaOfFile(t.Context(), path+copyMark+"20260519-083005"); err != nil || v != 1 {
				t.Errorf("layout of the copy: %d, %v; want 1", v, err)
			}
			otherProgram(t, path, "drop table "+c.taken)
			db := mustOpen(t, path, store.Options{Now: func() time.Time { return clock().Add(time.Minute) }})
			holdsFirstLayoutsContent(t, db)
			mustCheck(t, db)
		})
	}
}

func TestAnOlderPostgreSQLBookIsUpgraded(t *testing.T) {
	storetest.PostgreSQL(t) // skips here, not in each case
	old := func(t *testing.T) (address string, pool *sql.DB) {
		address = storetest.PostgreSQL(t)
		pool, err := sql.Open("pgx", address)
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() {
			if err := pool.Close(); err != nil {
				t.Error(err)
			}
		})
		return address, pool
	}
	t.Run("and says that no copy was made", func(t *testing.T) {
		address, pool := old(t)
		if err := store.LayOutDatabase(t.Context(), pool, 1, options); err != nil {
			t.Fatal(err)
		}
		fillFirstLayout(t, pool)
		db := mustOpen(t, address, store.Options{Now: clock, Program: "1.2.3"})
		holdsFirstLayoutsContent(t, db)
		if got := db.Notices(); len(got) != 1 || !strings.Contains(got[0], fmt.Sprintf("from layout 1 to %d. No copy was made", store.SchemaVersion)) {
			t.Errorf("notices %q", got)
		}
		if again := mustOpen(t, address, store.Options{}); len(again.Notices()) != 0 || again.Info().Schema != store.SchemaVersion {
			t.Errorf("opening again: notices %q, info %+v", again.Notices(), again.Info())
		}
	})
	t.Run("unless it is newer", func(t *testing.T) {
		address, pool := old(t)
		mustOpen(t, address, options)
		if _, err := pool.ExecContext(t.Context(), "insert into book_schema (version_id, is_applied) values (7, true)"); err != nil {
			t.Fatal(err)
		}
		_, err := store.Open(t.Context(), address, options)
		if !errors.Is(err, store.ErrNewer) || !strings.Contains(err.Error(), "its layout is version 7") {
			t.Errorf("error %v, want %v", err, store.ErrNewer)
		}
	})
	t.Run("unless it is another program's", func(t *testing.T) {
		address, pool := old(t)
		if _, err := pool.ExecContext(t.Context(), "create table cows (id text primary key)"); err != nil {
			t.Fatal(err)
		}
		_, err := store.Open(t.Context(), address, options)
		if !errors.Is(err, store.ErrForeign) || !strings.Contains(err.Error(), "tables of another program (cows)") {
			t.Errorf("error %v, want %v", err, store.ErrForeign)
		}
		if _, err := store.Create(t.Context(), address, options); !errors.Is(err, store.ErrExists) {
			t.Errorf("error %v, want %v", err, store.ErrExists)
		}
	})
	t.Run("and made only when asked", func(t *testing.T) {
		address, _ := old(t)
		if _, err := store.Open(t.Context(), address, store.Options{}); !errors.Is(err, store.ErrMissing) {
			t.Errorf("error %v, want %v", err, store.ErrMissing)
		}
		if db := mustOpen(t, address, options); !db.Info().Created.Equal(clock()) || db.Info().Engine != store.PostgreSQL {
			t.Errorf("info %+v", db.Info())
		}
	})
	t.Run("by many processes at once, once", func(t *testing.T) {
		address, _ := old(t)
		const hands = 4
		opened := make(chan error, hands)
		for range hands {
			go func() {
				db, err := store.Open(context.Background(), address, options)
				if err == nil {
					err = db.Close()
				}
				opened <- err
			}()
		}
		for range hands {
			if err := <-opened; err != nil {
				t.Error(err)
			}
		}
	})
}
