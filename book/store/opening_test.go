package store_test

import (
	"crypto/sha256"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"haywarden/book"
	"haywarden/book/store"
	"haywarden/book/store/storetest"
)

// refuses demands that opening fails with an error of a kind (nil: of no kind of ours) that says something.
func refuses(t *testing.T, location string, opts store.Options, kind error, says ...string) {
	t.Helper()
	db, err := store.Open(t.Context(), location, opts)
	if err == nil {
		t.Errorf("opened, notices %q", db.Notices())
		if err := db.Close(); err != nil {
			t.Error(err)
		}
		return
	}
	for _, s := range append(says, filepath.Base(location)) {
		if kind != nil && !errors.Is(err, kind) || !strings.Contains(err.Error(), s) {
			t.Errorf("error %v\nwant one that is %v and says %q", err, kind, s)
		}
	}
}

// contents is the names and contents of the files in a folder.
func contents(t *testing.T, dir string) map[string][32]byte {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	sums := map[string][32]byte{}
	for _, e := range entries {
		data, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		sums[e.Name()] = sha256.Sum256(data)
	}
	return sums
}

// unchanged demands that a folder is as it was.
func unchanged(t *testing.T, dir string, before map[string][32]byte) {
	t.Helper()
	after := contents(t, dir)
	for name, sum := range before {
		if after[name] != sum {
			t.Errorf("%s was changed", name)
		}
	}
	for name := range after {
		if _, ok := before[name]; !ok {
			t.Errorf("%s was left behind", name)
		}
	}
}

// otherProgram runs statements on an SQLite file, as another program might.
func otherProgram(t *testing.T, path string, statements ...string) {
	t.Helper()
	db, err := sql.Open("sqlite", path)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range statements {
		if _, err := db.ExecContext(t.Context(), s); err != nil {
			t.Fatalf("%s: %v", s, err)
		}
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
}

// closed makes a book with Ridge farm in it and closes it.
func closed(t *testing.T, path string) {
	t.Helper()
	db, err := store.Create(t.Context(), path, options)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := db.Append(t.Context(), storetest.Ridge(t)); err != nil {
		t.Fatal(err)
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
}

func TestABookIsMadeOnlyWhenAsked(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.book")
	refuses(t, path, store.Options{}, store.ErrMissing, "there is no book here")
	unchanged(t, dir, nil)

	db := mustOpen(t, path, options)
	info := db.Info()
	if info.Location != path || info.Engine != store.SQLite || info.Schema != store.SchemaVersion || info.Program != "1.2.3" || !info.Created.Equal(clock()) {
		t.Errorf("info %+v", info)
	}
	if got := db.Notices(); len(got) != 1 || !strings.Contains(got[0], "Made a new book") {
		t.Errorf("notices %q, want one that says a book was made", got)
	}
	if st, err := os.Stat(path); err != nil || st.Mode().Perm() != 0o600 {
		t.Errorf("mode of the book: %v, %v; it holds people's records and should be its owner's alone", st.Mode(), err)
	}
	if again := mustOpen(t, path, options); len(again.Notices()) != 0 {
		t.Errorf("opening again: notices %q", again.Notices())
	}
}

func TestCreateLeavesAloneWhatIsThere(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.book")
	closed(t, path)
	before := contents(t, dir)
	if _, err := store.Create(t.Context(), path, options); !errors.Is(err, store.ErrExists) {
		t.Errorf("error %v, want %v", err, store.ErrExists)
	}
	unchanged(t, dir, before)

	old := filepath.Join(t.TempDir(), "old.book")
	firstLayout(t, old)
	before = contents(t, filepath.Dir(old))
	if _, err := store.Create(t.Context(), old, options); !errors.Is(err, store.ErrExists) {
		t.Errorf("an older book: error %v, want %v", err, store.ErrExists)
	}
	unchanged(t, filepath.Dir(old), before)
}

func TestWhatIsNotABookIsRefusedAndLeftAlone(t *testing.T) {
	dir := t.TempDir()
	file := func(name, content string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(content), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	database := func(name string, statements ...string) string {
		path := filepath.Join(dir, name)
		otherProgram(t, path, append(statements, "create table t (a)", "insert into t values (1)")...)
		return path
	}
	for path, says := range map[string]string{
		file("empty.book", ""):                                     "it is an empty file",
		file("notes.txt", "stems 55, 48, 61\n"):                    "it is not an SQLite file",
		file("long.txt", strings.Repeat("stems 55, 48\n", 9000)):   "it is not an SQLite file",
		database("other.db"):                                       "an SQLite file of another program",
		database("named.db", "pragma application_id = 0x4d504258"): `(application id "MPBX")`,
		database("odd.db", "pragma application_id = 258"):          "(application id 0x102)",
		database("wal.db", "pragma journal_mode = wal"):            "an SQLite file of another program",
	} {
		t.Run(filepath.Base(path), func(t *testing.T) {
			before := contents(t, dir)
			refuses(t, path, options, store.ErrForeign, says, "left alone")
			unchanged(t, dir, before)
		})
	}
	refuses(t, dir, options, store.ErrForeign, "it is a folder")
}

func TestAnAddressOfAnotherKindIsRefused(t *testing.T) {
	for location, says := range map[string]string{
		"":                                       "no location",
		"mysql://localhost/book":                 "accepted are the path of a file and postgres://",
		"postgres://localhost:x/b":               "is not written postgres://",
		"postgres://localhost/b?sslmode=perhaps": "it is not one that PostgreSQL knows",
	} {
		if _, err := store.Open(t.Context(), location, options); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: error %v, want one that says %q", location, err, says)
		}
	}
}

func TestADamagedBookIsRefusedClearly(t *testing.T) {
	dir := t.TempDir()
	whole := filepath.Join(dir, "whole.book")
	closed(t, whole)
	data, err := os.ReadFile(whole)
	if err != nil {
		t.Fatal(err)
	}
	damaged := func(name string, edit func([]byte) []byte) string {
		path := filepath.Join(t.TempDir(), name)
		if err := os.WriteFile(path, edit(slices.Clone(data)), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	const page = 4096
	refuses(t, damaged("short.book", func(b []byte) []byte { return b[:3*page] }), options, store.ErrDamaged, "go on with the newest sound copy")
	refuses(t, damaged("schema.book", func(b []byte) []byte { clear(b[100:page]); return b }), options, store.ErrDamaged)
	refuses(t, damaged("noise.book", func(b []byte) []byte {
		for i := page; i < len(b); i++ {
			b[i] = byte(i * 7)
		}
		return b
	}), options, store.ErrDamaged)
	bare := filepath.Join(t.TempDir(), "bare.book")
	otherProgram(t, bare, "pragma application_id = 1214347639", "create table t (a)")
	refuses(t, bare, options, store.ErrDamaged, "the mark of a book but not its tables")
}

func TestDamageDeepInTheBookIsFoundByCheck(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.book")
	closed(t, path)
	db := mustOpen(t, path, options)
	mustCheck(t, db)
	if _, err := db.PutWeather(t.Context(), storetest.File(1, clock(), storetest.Years("A", 2000, 3, 1)...)); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ says, statement string }{
		{"stored block is damaged", "update weather_blocks set days = substr(days, 2) where year = 2001"},
		{"acres 0", `update facts set body = '{"name":"North"}' where kind = 'field'`},
	} {
		if _, err := db.Writer().ExecContext(t.Context(), c.statement); err != nil {
			t.Fatal(err)
		}
		if err := db.Check(t.Context()); !errors.Is(err, store.ErrDamaged) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("error %v, want one that says %q", err, c.says)
		}
	}
	if _, err := db.Weather(t.Context(), "A", time.Time{}); !errors.Is(err, store.ErrDamaged) {
		t.Errorf("weather: error %v, want %v", err, store.ErrDamaged)
	}
}

func TestANewerBookIsRefusedAndLeftAlone(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.book")
	closed(t, path)
	otherProgram(t, path, "insert into book_schema (version_id, is_applied) values (7, 1)", "update book set program = '9.1.0'")
	before := contents(t, dir)
	refuses(t, path, options, store.ErrNewer, "nothing in it was changed", "its layout is version 7, written by Haywarden 9.1.0",
		fmt.Sprintf("this is Haywarden 1.2.3, which reads up to version %d; open it with Haywarden 9.1.0 or later", store.SchemaVersion))
	unchanged(t, dir, before)
}

func TestBackupIsAWholeBook(t *testing.T) {
	dir := t.TempDir()
	db := mustOpen(t, filepath.Join(dir, "a.book"), options)
	if _, err := db.Append(t.Context(), storetest.Ridge(t)); err != nil {
		t.Fatal(err)
	}
	saved, err := db.Backup(t.Context(), filepath.Join(dir, "b.book"))
	if err != nil {
		t.Fatal(err)
	}
	second, err := db.Backup(t.Context(), filepath.Join(dir, "b.book"))
	if err != nil || second != saved+"-2" {
		t.Errorf("a second backup to the same name: %s, %v; want %s-2", second, err, saved)
	}
	opened := mustOpen(t, saved, store.Options{})
	mustCheck(t, opened)
	facts, err := opened.Facts(t.Context(), store.Filter{})
	if err != nil || len(facts) != 3 {
		t.Errorf("%d facts, %v; want 3", len(facts), err)
	}
	if _, err := db.Backup(t.Context(), filepath.Join(dir, "nowhere", "b.book")); err == nil || !strings.Contains(err.Error(), "there is no folder") {
		t.Errorf("backup into a folder that is not there: error %v", err)
	}
}

// A process that is killed while SQLite folds the log into the file leaves a file that makes sense only
// with its log: here its first page, which names the size of the whole, is newer than the rest.
func TestABookWhoseFileIsBehindItsLogOpens(t *testing.T) {
	dir := t.TempDir()
	path, cut := filepath.Join(dir, "a.book"), filepath.Join(dir, "cut.book")
	closed(t, path)
	db, err := store.Open(t.Context(), path, options)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := db.PutWeather(t.Context(), storetest.File(1, clock(), storetest.Years("A", 1980, 40, 1)...)); err != nil {
		t.Fatal(err)
	}
	read := func(name string) []byte {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		return data
	}
	before, log := read(path), read(path+"-wal")
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	const page = 4096
	after := read(path)
	if len(after) <= len(before) || len(log) == 0 {
		t.Fatalf("the file went from %d to %d bytes with a log of %d: nothing was folded in", len(before), len(after), len(log))
	}
	for name, data := range map[string][]byte{cut: slices.Concat(after[:page], before[page:]), cut + "-wal": log} {
		if err := os.WriteFile(name, data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	opened := mustOpen(t, cut, store.Options{})
	mustCheck(t, opened)
	blocks, err := opened.Weather(t.Context(), "A", time.Time{})
	if err != nil || len(blocks) != 40 {
		t.Errorf("%d years, %v; want 40", len(blocks), err)
	}
}

func TestAnotherProgramsDatabaseInUseIsLeftAlone(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "other.db")
	other, err := sql.Open("sqlite", "file:"+path+"?_journal_mode=WAL")
	if err != nil {
		t.Fatal(err)
	}
	defer other.Close()
	if _, err := other.ExecContext(t.Context(), "create table t (a); insert into t values (1)"); err != nil {
		t.Fatal(err)
	}
	before := contents(t, dir)
	refuses(t, path, options, nil, "other.db")
	delete(before, "other.db-shm") // locks
	after := contents(t, dir)
	for name, sum := range before {
		if after[name] != sum {
			t.Errorf("%s was changed", name)
		}
	}
}

func TestALayoutThatStandsOnlyInTheLogIsSeen(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.book")
	db := mustOpen(t, path, options)
	// As a newer program would, that has the book open now.
	if _, err := db.Writer().ExecContext(t.Context(), "insert into book_schema (version_id, is_applied) values (7, 1)"); err != nil {
		t.Fatal(err)
	}
	refuses(t, path, options, store.ErrNewer, "its layout is version 7")
}

func TestABookWithAReferenceToNothingIsDamagedAndSoIsItsCopy(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.book")
	closed(t, path)
	otherProgram(t, path, "update facts set supersedes = '"+storetest.ID(99)+"' where kind = 'stand'")
	db := mustOpen(t, path, options)
	if err := db.Check(t.Context()); !errors.Is(err, store.ErrDamaged) || !strings.Contains(err.Error(), "references to nothing: facts row") {
		t.Errorf("checking: error %v, want %v", err, store.ErrDamaged)
	}
	if _, err := db.Backup(t.Context(), path+".copy"); !errors.Is(err, store.ErrDamaged) {
		t.Errorf("backing up: error %v, want %v", err, store.ErrDamaged)
	}
	if left, err := filepath.Glob(path + ".copy*"); err != nil || len(left) > 0 {
		t.Errorf("left behind: %q, %v", left, err)
	}
}

func TestANewBookBeginsWithItsFirstFacts(t *testing.T) {
	first := options
	first.First = storetest.Ridge(t)
	holds := func(t *testing.T, db *store.DB, revision int64) {
		t.Helper()
		facts, err := db.Facts(t.Context(), store.Filter{})
		if err != nil || len(facts) != len(first.First) {
			t.Errorf("%d facts, %v; want %d", len(facts), err, len(first.First))
		}
		if n, err := db.Revision(t.Context()); err != nil || n != revision {
			t.Errorf("revision %d, %v; want %d", n, err, revision)
		}
		mustCheck(t, db)
	}
	bad := first
	bad.First = []book.Fact{{ID: "x"}}
	t.Run("in a file, which is there with them or not at all", func(t *testing.T) {
		dir := t.TempDir()
		path := filepath.Join(dir, "a.book")
		if _, err := store.Create(t.Context(), path, bad); !errors.Is(err, store.ErrRefused) {
			t.Errorf("error %v, want %v", err, store.ErrRefused)
		}
		if left, err := os.ReadDir(dir); err != nil || len(left) != 0 {
			t.Errorf("left behind: %v, %v", left, err)
		}
		db, err := store.Create(t.Context(), path, first)
		if err != nil {
			t.Fatal(err)
		}
		holds(t, db, 1)
		if err := db.Close(); err != nil {
			t.Error(err)
		}
		holds(t, mustOpen(t, path, first), 1) // opening adds nothing
	})
	t.Run("in a database, also where its making was cut short before", func(t *testing.T) {
		address := storetest.PostgreSQL(t)
		if _, err := store.Create(t.Context(), address, bad); !errors.Is(err, store.ErrRefused) {
			t.Errorf("error %v, want %v", err, store.ErrRefused)
		}
		db, err := store.Create(t.Context(), address, first)
		if err != nil {
			t.Fatal(err)
		}
		holds(t, db, 1)
		if err := db.Close(); err != nil {
			t.Error(err)
		}
		if _, err := store.Create(t.Context(), address, first); !errors.Is(err, store.ErrExists) {
			t.Errorf("error %v, want %v", err, store.ErrExists)
		}
		holds(t, mustOpen(t, address, first), 1)
	})
}
