package main

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"os"
	"os/user"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"

	"haywarden/agronomy/unit"
	"haywarden/book/store"
	"haywarden/office"
)

// bookFlag adds the flag that says where the book is.
func bookFlag(c *cobra.Command, location *string) {
	c.Flags().StringVar(location, "book", defaultBook(), "the book: a file, or a postgres:// address (HAYWARDEN_BOOK sets it too)")
	f := c.Flags().Lookup("book")
	f.DefValue = store.Shown(f.DefValue) // as the help writes it
}

// defaultBook is HAYWARDEN_BOOK, else a file in the user's own configuration folder.
func defaultBook() string {
	if b := os.Getenv("HAYWARDEN_BOOK"); b != "" {
		return b
	}
	dir, err := os.UserConfigDir()
	if err != nil {
		return "haywarden.book"
	}
	return filepath.Join(dir, "haywarden", "haywarden.book")
}

// openOffice opens the office over the book at a location. The second result closes it.
func openOffice(ctx context.Context, m *Main, location string) (*office.Office, func() error, error) {
	db, err := store.Open(ctx, location, store.Options{Program: version()})
	if errors.Is(err, store.ErrMissing) {
		return nil, nil, fmt.Errorf("%w; `haywarden book new` makes one, `haywarden demo` shows an invented one", err)
	}
	if err != nil {
		return nil, nil, err
	}
	for _, n := range db.Notices() {
		fmt.Fprintln(m.Stderr, n)
	}
	return office.New(db, time.Now, rand.Reader), db.Close, nil
}

// adviser is who acts from the command line: the person whose book it is.
func adviser() office.Actor {
	name := "adviser"
	if u, err := user.Current(); err == nil && u.Username != "" {
		name = u.Username
	}
	return office.Actor{Name: name, Role: office.Adviser}
}

// askFlags adds --date and --known.
type askFlags struct{ date, known string }

func (a *askFlags) add(c *cobra.Command) {
	c.Flags().StringVar(&a.date, "date", "", "the date to ask for, YYYY-MM-DD (default today); nothing seen after it is used")
	c.Flags().StringVar(&a.known, "known", "", "the book as it was known at this time, YYYY-MM-DD or RFC 3339 (default now)")
}

func (a *askFlags) ask() (office.Ask, error) {
	var ask office.Ask
	if a.date != "" {
		d, err := unit.ParseDay(a.date)
		if err != nil {
			return ask, usage("--date: %v", err)
		}
		ask.Date = d
	}
	if a.known != "" {
		t, err := time.Parse(time.RFC3339, a.known)
		if err != nil {
			d, dayErr := unit.ParseDay(a.known)
			if dayErr != nil {
				return ask, usage("--known %q: want YYYY-MM-DD or a time such as 2026-05-19T07:00:00Z", a.known)
			}
			t = d.Time().Add(24*time.Hour - time.Nanosecond)
		}
		ask.Known = t
	}
	return ask, nil
}
