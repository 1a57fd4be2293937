package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"haywarden/agronomy/unit"
	"haywarden/book/store"
)

// desk runs commands on a book of its own.
type desk struct {
	t    *testing.T
	book string
}

func newDesk(t *testing.T) *desk {
	t.Helper()
	d := &desk{t: t, book: filepath.Join(t.TempDir(), "desk.book")}
	d.must("book", "new", "--region", "Test counties", "--guide", "Kentucky")
	return d
}

// run carries out a command and gives its exit code and what it said.
func (d *desk) run(args ...string) (code int, out, complaint string) {
	d.t.Helper()
	var stdout, stderr bytes.Buffer
	m := &Main{Stdin: strings.NewReader(""), Stdout: &stdout, Stderr: &stderr}
	code = m.Run(d.t.Context(), append(args, "--book", d.book))
	return code, stdout.String(), stderr.String()
}

func (d *desk) must(args ...string) string {
	d.t.Helper()
	code, out, complaint := d.run(args...)
	if code != exitOK {
		d.t.Fatalf("%v: exit %d: %s", args, code, complaint)
	}
	return out
}

func (d *desk) file(name, text string) string {
	d.t.Helper()
	path := filepath.Join(d.t.TempDir(), name)
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		d.t.Fatal(err)
	}
	return path
}

// fails demands that a command ends with an exit code, says nothing but a complaint that holds all the
// words, and leaves the book as it was, to the byte.
func (d *desk) fails(code int, words []string, args ...string) {
	d.t.Helper()
	before := d.digest()
	got, out, complaint := d.run(args...)
	if got != code || out != "" {
		d.t.Errorf("%v: exit %d and out %q, want exit %d and nothing; complaint %q", args, got, out, code, complaint)
	}
	for _, w := range words {
		if !strings.Contains(complaint, w) {
			d.t.Errorf("%v: %q does not say %q", args, complaint, w)
		}
	}
	if after := d.digest(); after != before {
		d.t.Errorf("%v: the book was changed by what failed", args)
	}
}

// digest is the sum of the book's file, empty where there is none.
func (d *desk) digest() string {
	d.t.Helper()
	text, err := os.ReadFile(d.book)
	if os.IsNotExist(err) {
		return ""
	}
	if err != nil {
		d.t.Fatal(err)
	}
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:])
}

// revision is the number of changes the book has seen.
func (d *desk) revision() int64 {
	d.t.Helper()
	db, err := store.Open(d.t.Context(), d.book, store.Options{})
	if err != nil {
		d.t.Fatal(err)
	}
	defer db.Close()
	n, err := db.Revision(d.t.Context())
	if err != nil {
		d.t.Fatal(err)
	}
	return n
}

func unitDay(t *testing.T, s string) unit.Day {
	t.Helper()
	d, err := unit.ParseDay(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}
