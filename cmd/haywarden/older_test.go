package main

import (
	"database/sql"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"haywarden/book/store"
)

// layOutOlder makes a book as the first version of the program left it.
func layOutOlder(t *testing.T, path string) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", "first_layout.sql"))
	if err != nil {
		t.Fatal(err)
	}
	db, err := sql.Open("sqlite", path)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	if _, err := db.ExecContext(t.Context(), string(text)); err != nil {
		t.Fatal(err)
	}
}

func olderDesk(t *testing.T) *desk {
	t.Helper()
	d := &desk{t: t, book: filepath.Join(t.TempDir(), "older.book")}
	layOutOlder(t, d.book)
	return d
}

// holdsOlder demands that nothing of what the first version left is lost, and that the book is sound.
func (d *desk) holdsOlder() {
	d.t.Helper()
	for command, want := range map[string]string{
		"book show":                         "Test counties, guide of Kentucky\n1 farm, 1 stand growing, 1 station with weather\n",
		"stand HomeForty --date 2024-05-19": "read 2024-05-18: 1 spots, tallest 27.0 in",
		"weather show USC00999999":          "ALDER 1 N, USC00999999: 2024 to 2024",
	} {
		if out := d.must(strings.Fields(command)...); !strings.Contains(out, want) {
			d.t.Errorf("%s says\n%s\nwant %q", command, out, want)
		}
	}
	d.sound()
}

// sound reads the whole book: the database's own check of its file, every fact and every year of weather.
func (d *desk) sound() {
	d.t.Helper()
	db, err := store.Open(d.t.Context(), d.book, store.Options{})
	if err != nil {
		d.t.Fatal(err)
	}
	defer db.Close()
	if err := db.Check(d.t.Context()); err != nil {
		d.t.Error(err)
	}
}
