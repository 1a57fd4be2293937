package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"haywarden/exchange"
	"haywarden/office"
)

// soilSayable are the columns that may be said of a whole table of soil tests.
var soilSayable = []string{"farm", "field", "sampled", "lab", "part", "depth", "extractant", "extractant-p", "extractant-k", "buffer-by"}

func newImportSoil(m *Main) *cobra.Command {
	var location string
	var asJSON bool
	var maps, says []string
	var how office.LabImport
	c := &cobra.Command{
		Use:   "soil FILE",
		Short: "Soil tests, a row a sample",
		Long: `Soil tests of fields, a row a sample, as CSV or a workbook (.xlsx).
A laboratory's own table may have any headings: the first time, what each column would be is printed and
nothing is taken in. Put it right with --map and --say, and say --confirm with the laboratory's name; from
then on the book reads that laboratory's tables so. P and K want their extractant and their unit (ppm or
lb/ac), and a buffer pH its buffer: in the heading, in a column, or said of all rows. They are kept as they
were printed. Rows that cannot be right are refused by row and column, and the file with them; with
--keep-rest those rows are left out and listed. A test that is brought again changes nothing, a corrected
one takes the place of the old.

` + columnText(exchange.SoilColumns()),
		Example: "  haywarden import soil soil.csv\n" +
			"  haywarden import soil valley.xlsx\n" +
			"  haywarden import soil valley.xlsx --lab Valley --map 'Avail K=k-acetate:ppm' --say buffer-by=sikora --confirm",
		Args: cobra.ExactArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			var err error
			if how.Map, how.Say, err = labSayings(maps, says, soilSayable); err != nil {
				return fmt.Errorf("import soil: %w", err)
			}
			f, err := os.Open(args[0])
			if err != nil {
				return fmt.Errorf("import soil: %w", err)
			}
			defer func() { _ = f.Close() }() // it was only read
			o, done, err := openOffice(c.Context(), m, location)
			if err != nil {
				return err
			}
			got, err := o.BringSoil(c.Context(), adviser(), f, filepath.Base(args[0]), how)
			err = closed(err, done)
			switch {
			case err != nil && !errors.Is(err, office.ErrUnconfirmed):
				return err
			case asJSON:
				return errors.Join(writeJSON(m.Stdout, got), err)
			case got.Proposal != nil:
				_, wrote := io.WriteString(m.Stdout, proposalText(*got.Proposal))
				return errors.Join(wrote, err)
			}
			_, err = io.WriteString(m.Stdout, soilBroughtText(got))
			return err
		},
	}
	bookFlag(c, &location)
	c.Flags().StringVar(&how.Lab, "lab", "", "whose table it is")
	c.Flags().StringArrayVar(&maps, "map", nil, "what a column says: 'COLUMN=code', 'COLUMN=code:unit', or 'COLUMN=-' to leave it out")
	c.Flags().StringArrayVar(&says, "say", nil, "what all rows say where no column does: farm=NAME, sampled=DATE, extractant=mehlich-3, buffer-by=sikora ...")
	c.Flags().BoolVar(&how.Confirm, "confirm", false, "the form is right: take the table in and remember the form")
	c.Flags().BoolVar(&how.KeepRest, "keep-rest", false, "leave bad rows out and take the rest")
	c.Flags().BoolVar(&how.Dry, "dry-run", false, "check the table, say what would change and store nothing")
	c.Flags().BoolVar(&asJSON, "json", false, "print what was done as JSON")
	return c
}

// soilBroughtText says what a table of soil tests brought.
func soilBroughtText(r office.SoilBrought) string {
	var b strings.Builder
	b.WriteString(importText(r.ImportedRecords) + formText(r.FormFound))
	for _, f := range r.LeftOut {
		fmt.Fprintf(&b, "Left out: %s.\n", f)
	}
	for _, t := range r.Told {
		b.WriteString(t + "\n")
	}
	return b.String()
}
