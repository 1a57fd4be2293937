package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"haywarden/office"
)

// bring takes one kind of table into the book.
type bring func(o *office.Office, ctx context.Context, a office.Actor, r io.Reader, name string, dry bool) (office.ImportedRecords, error)

func newImportCommand(m *Main) *cobra.Command {
	c := &cobra.Command{
		Use:   "import",
		Short: "Bring tables of stands, visits or prices into the book",
		Long: `Reads a CSV or tab-separated table and takes all of it or nothing: every fault is listed with row
and field. The same table again changes nothing.`,
		Example: "  haywarden import stands stands.csv\n  haywarden import visits visits.csv --dry-run",
		Args:    cobra.NoArgs,
		RunE:    func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	c.AddCommand(
		importOf(m, "stands", "Farms, fields and stands: farm, field, acres, crop, seeded and more", (*office.Office).ImportStands),
		importOf(m, "visits", "Visits: farm, field, date, then height and stage, stems, roots and more", (*office.Office).ImportVisits),
		importOf(m, "prices", "Price decks: deck, date, line, unit, value", (*office.Office).ImportPrices),
	)
	return c
}

func importOf(m *Main, what, short string, do bring) *cobra.Command {
	var location string
	var dry, asJSON bool
	c := &cobra.Command{
		Use:     what + " FILE",
		Short:   short,
		Example: fmt.Sprintf("  haywarden import %s %s.csv", what, what),
		Args:    cobra.ExactArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			f, err := os.Open(args[0])
			if err != nil {
				return fmt.Errorf("import %s: %w", what, err)
			}
			defer func() { _ = f.Close() }() // it was only read
			o, done, err := openOffice(c.Context(), m, location)
			if err != nil {
				return err
			}
			r, err := do(o, c.Context(), adviser(), f, filepath.Base(args[0]), dry)
			if err := closed(err, done); err != nil {
				return err
			}
			if asJSON {
				return writeJSON(m.Stdout, r)
			}
			switch {
			case dry:
				fmt.Fprintf(m.Stdout, "%s read, nothing wrong; %d would be new, %d are in the book already. Nothing was stored.\n", counted(r.Rows, "row"), r.Added, r.Already)
			case r.Added == 0:
				fmt.Fprintf(m.Stdout, "%s read. Nothing changed: all of it was in the book already.\n", counted(r.Rows, "row"))
			default:
				fmt.Fprintf(m.Stdout, "%s read: %d added, %d in the book already.\n", counted(r.Rows, "row"), r.Added, r.Already)
			}
			return nil
		},
	}
	bookFlag(c, &location)
	c.Flags().BoolVar(&dry, "dry-run", false, "check the table and store nothing")
	c.Flags().BoolVar(&asJSON, "json", false, "print what was done as JSON")
	return c
}
