package main

import (
	"crypto/rand"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"haywarden/agronomy/unit"
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
		RunE: func(c *cobra.Command, _ []string) (err error) {
			if !strings.HasPrefix(location, "postgres") {
				if err := os.MkdirAll(filepath.Dir(location), 0o700); err != nil {
					return fmt.Errorf("make the folder of the book: %w", err)
				}
			}
			db, err := store.Create(c.Context(), location, store.Options{Program: version()})
			if err != nil {
				return err
			}
			o := office.New(db, time.Now, rand.Reader)
			_, err = o.Record(c.Context(), adviser(), office.Entry{Subject: "place", Day: unit.DayOf(time.Now()), Body: book.Place{Region: region, Guide: guide}})
			if err := closed(err, db.Close); err != nil {
				return err
			}
			fmt.Fprintf(m.Stdout, "A new book is at %s.\nNext: bring weather with `haywarden weather import FILE`, stands with `haywarden import stands FILE.csv`.\n", location)
			return nil
		},
	}
	bookFlag(c, &location)
	c.Flags().StringVar(&region, "region", "My counties", "what the area is called")
	c.Flags().StringVar(&guide, "guide", "Wisconsin", "state whose published tables are used")
	return c
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
			if err == nil {
				stations, serr := o.Stations(c.Context(), adviser())
				err = serr
				fmt.Fprintf(m.Stdout, "%s\n%s, guide of %s\n%s, %s growing, %s with weather\n", location, v.Place.Region, v.Place.Guide, counted(len(v.Farms), "farm"), counted(len(v.Stands()), "stand"), counted(len(stations), "station"))
			}
			return closed(err, done)
		},
	}
	bookFlag(c, &location)
	return c
}
