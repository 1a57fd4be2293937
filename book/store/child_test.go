package store_test

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/book/store"
	"haywarden/book/store/storetest"
	"haywarden/weather"
)

// childEnv turns this test into a process that works on a book until it is killed.
const childEnv = "HAYWARDEN_STORE_CHILD"

func TestMain(m *testing.M) {
	kind := os.Getenv(childEnv)
	if kind == "" {
		os.Exit(m.Run())
	}
	work, ok := children[kind]
	if !ok {
		fmt.Fprintf(os.Stderr, "no child of kind %q\n", kind)
		os.Exit(2)
	}
	if err := work(context.Background(), os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	os.Exit(0)
}

// children do one kind of work for ever, and print a line after each piece that was acknowledged.
var children = map[string]func(ctx context.Context, place string) error{
	"append":  appendForEver,
	"weather": importForEver,
	"upgrade": upgradeForEver,
	"create":  createForEver,
	"open":    openOnce,
}

// batchOf makes the facts of a batch, 1 to 20 of them. Nothing else decides what they are, so that the
// one who checks knows them too.
func batchOf(n int) []book.Fact {
	facts := make([]book.Fact, 1+n*7%20)
	for i := range facts {
		f, err := book.New(storetest.ID(100*n+i), "", fmt.Sprintf("batch-%d", n), unit.DateOf(2026, 5, 1), "ada", book.Event{Title: "x", People: len(facts)})
		if err != nil {
			panic(err)
		}
		f.Received = clock().Add(time.Duration(n) * time.Second)
		facts[i] = f
	}
	return facts
}

func appendForEver(ctx context.Context, place string) error {
	db, err := store.Open(ctx, place, options)
	if err != nil {
		return err
	}
	last, err := db.Revision(ctx)
	if err != nil {
		return err
	}
	for n := int(last); ; n++ {
		if _, err := db.Append(ctx, batchOf(n)); err != nil {
			return err
		}
		fmt.Println("done", n)
	}
}

// importOf makes an import that changes every year of its station and adds some.
func importOf(n int) store.Import {
	station := fmt.Sprintf("S%d", n%3)
	return storetest.File(n, clock().Add(time.Duration(n)*time.Second), storetest.Years(station, 1980, 5+n%30, n)...)
}

func importForEver(ctx context.Context, place string) error {
	db, err := store.Open(ctx, place, options)
	if err != nil {
		return err
	}
	last, err := db.Revision(ctx)
	if err != nil {
		return err
	}
	for n := int(last); ; n++ {
		if _, err := db.PutWeather(ctx, importOf(n)); err != nil {
			return err
		}
		fmt.Println("done", n)
	}
}

// upgradeForEver takes one copy after another of the old book in a folder, and upgrades it.
func upgradeForEver(ctx context.Context, dir string) error {
	old, err := os.ReadFile(filepath.Join(dir, "old.book"))
	if err != nil {
		return err
	}
	n, err := nextOf(dir)
	if err != nil {
		return err
	}
	for ; ; n++ {
		path := numbered(dir, n)
		if err := os.WriteFile(path, old, 0o600); err != nil {
			return err
		}
		fmt.Println("copied", n)
		db, err := store.Open(ctx, path, options)
		if err != nil {
			return err
		}
		fmt.Println("done", n)
		if err := db.Close(); err != nil {
			return err
		}
	}
}

func createForEver(ctx context.Context, dir string) error {
	n, err := nextOf(dir)
	if err != nil {
		return err
	}
	for ; ; n++ {
		db, err := store.Create(ctx, numbered(dir, n), options)
		if err != nil {
			return err
		}
		fmt.Println("done", n)
		if err := db.Close(); err != nil {
			return err
		}
	}
}

// openOnce opens a book, as a user who may not do everything, and prints what came of it.
func openOnce(ctx context.Context, path string) error {
	db, err := store.Open(ctx, path, options)
	for name, kind := range map[string]error{"read-only": store.ErrReadOnly, "missing": store.ErrMissing} {
		if errors.Is(err, kind) {
			fmt.Println(name, err)
			return nil
		}
	}
	if err != nil {
		return err
	}
	fmt.Println("opened")
	return db.Close()
}

func numbered(dir string, n int) string { return filepath.Join(dir, fmt.Sprintf("n%06d.book", n)) }

// nextOf is the first number that no file in the folder has.
func nextOf(dir string) (int, error) {
	for n := 0; ; n++ {
		if _, err := os.Stat(numbered(dir, n)); errors.Is(err, os.ErrNotExist) {
			return n, nil
		} else if err != nil {
			return 0, err
		}
	}
}

// expectedWeather is what a station holds after the imports up to and including one.
func expectedWeather(station, last int) []*weather.Block {
	var blocks []*weather.Block
	for n := station; n <= last; n += 3 {
		for i, b := range importOf(n).Blocks {
			if i < len(blocks) {
				blocks[i] = b
			} else {
				blocks = append(blocks, b)
			}
		}
	}
	return blocks
}
