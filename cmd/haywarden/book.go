package main

import (
	"crypto/rand"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"

	"haywarden/book"
	"haywarden/book/store"
	"haywarden/office"
)

func newBookCommand(m *Main) *cobra.Command {
	c := &cobra.Command{
		Use:     "book",
		Short:   "Make and look at a book of records",
		Long:    "A book holds all records of one adviser or office: a file on this machine, or a PostgreSQL database.",
		Example: "  haywarden book new --region \"North counties\" --guide Wisconsin\n  haywarden book show",
		Args:    cobra.NoArgs,
		RunE:    func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	c.AddCommand(newBookNewCommand(m), newBookShowCommand(m))
	return c
}

func newBookNewCommand(m *Main) *cobra.Command {
	var location, region, guide string
	c := &cobra.Command{
		Use:     "new",
		Short:   "Make a new, empty book",
		Example: "  haywarden book new --region \"North counties\" --guide Wisconsin",
		Args:    cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			first, err := placeOf(region, guide)
			if err != nil {
				return usage("book new: %v", err)
			}
			if !store.IsAddress(location) {
				if err := os.MkdirAll(filepath.Dir(location), 0o700); err != nil {
					return fmt.Errorf("make the folder of the book: %w", err)
				}
			}
			db, err := store.Create(c.Context(), location, store.Options{Program: version(), First: []book.Fact{first}})
			if err != nil {
				return err
			}
			if err := db.Close(); err != nil {
				return err
			}
			fmt.Fprintf(m.Stdout, "A new book is at %s.\nNext: bring weather with `haywarden weather import FILE`, stands with `haywarden import stands FILE.csv`.\n", db.Info().Location)
			return nil
		},
	}
	bookFlag(c, &location)
	c.Flags().StringVar(&region, "region", "My counties", "what the area is called")
	c.Flags().StringVar(&guide, "guide", "Wisconsin", "state whose published tables are used")
	return c
}

// placeOf is the fact that says where a book is kept. It holds for every day that can be asked for.
func placeOf(region, guide string) (book.Fact, error) {
	now := time.Now()
	id, err := book.NewID(now, rand.Reader)
	if err != nil {
		return book.Fact{}, err
	}
	f, err := book.New(id, "", "place", book.EarliestSeeding, adviser().Name, book.Place{Region: region, Guide: guide})
	f.Received = now.UTC()
	return f, err
}

func newBookShowCommand(m *Main) *cobra.Command {
	var location string
	c := &cobra.Command{
		Use:     "show",
		Short:   "Say what a book holds",
		Example: "  haywarden book show",
		Args:    cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			o, done, err := openOffice(c.Context(), m, location)
			if err != nil {
				return err
			}
			v, err := o.View(c.Context(), adviser(), office.Ask{})
			if err != nil {
				return closed(err, done)
			}
			stations, err := o.Stations(c.Context(), adviser())
			if err := closed(err, done); err != nil {
				return err
			}
			fmt.Fprintf(m.Stdout, "%s\n%s, guide of %s\n%s, %s growing, %s with weather\n", store.Shown(location), v.Place.Region, v.Place.Guide, counted(len(v.Farms), "farm"), counted(len(v.Stands()), "stand"), counted(len(stations), "station"))
			return nil
		},
	}
	bookFlag(c, &location)
	return c
}
