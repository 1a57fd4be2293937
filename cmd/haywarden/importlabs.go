package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"haywarden/book"
	"haywarden/exchange"
	"haywarden/office"
)

func newImportLabs(m *Main) *cobra.Command {
	var location string
	var asJSON bool
	var maps, says []string
	var how office.LabImport
	c := &cobra.Command{
		Use:   "labs FILE",
		Short: "Laboratory results, a row a sample",
		Long: `Laboratory results, a row a sample, as CSV or a workbook (.xlsx).
A laboratory's own table may have any headings: the first time, what each column would be is printed and
nothing is taken in. Put it right with --map, --basis and --say, and say --confirm with the laboratory's
name; from then on the book reads that laboratory's tables so. Values as fed are turned into dry matter.
Values that cannot be true are refused by row and column, and the file with them; with --keep-rest
those rows are left out and listed. The sample belongs to the stand that grew in the field that day. A
result that is brought again changes nothing, a corrected one takes the place of the old.

` + columnText(exchange.LabColumns()) + "\nTables with these names need no confirming; numbers in them are of dry matter unless the column basis says as-fed.",
		Example: "  haywarden import labs labs.csv\n" +
			"  haywarden import labs valley.xlsx\n" +
			"  haywarden import labs valley.xlsx --lab Valley --basis dm --map 'NEL=nel:Mcal/lb' --say sample=haylage --confirm",
		Args: cobra.ExactArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			var err error
			if how.Map, how.Say, err = labSayings(maps, says, sayable); err != nil {
				return fmt.Errorf("import labs: %w", err)
			}
			if how.Basis != "" && !slices.Contains([]string{book.DryBasis, book.FedBasis, book.RowBasis}, how.Basis) {
				return fmt.Errorf("import labs: --basis %s: accepted dm, as-fed, row", how.Basis)
			}
			f, err := os.Open(args[0])
			if err != nil {
				return fmt.Errorf("import labs: %w", err)
			}
			defer func() { _ = f.Close() }() // it was only read
			o, done, err := openOffice(c.Context(), m, location)
			if err != nil {
				return err
			}
			got, err := o.BringLabs(c.Context(), adviser(), f, filepath.Base(args[0]), how)
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
			_, err = io.WriteString(m.Stdout, labsText(got))
			return err
		},
	}
	bookFlag(c, &location)
	c.Flags().StringVar(&how.Lab, "lab", "", "whose table it is")
	c.Flags().StringVar(&how.Basis, "basis", "", "what shares are of: dm, as-fed, or row where a column says it")
	c.Flags().StringArrayVar(&maps, "map", nil, "what a column says: 'COLUMN=code', 'COLUMN=code:unit', or 'COLUMN=-' to leave it out")
	c.Flags().StringArrayVar(&says, "say", nil, "what all rows say where no column does: farm=NAME, field=NAME, sampled=DATE, sample=hay ...")
	c.Flags().BoolVar(&how.Confirm, "confirm", false, "the form is right: take the table in and remember the form")
	c.Flags().BoolVar(&how.KeepRest, "keep-rest", false, "leave bad rows out and take the rest")
	c.Flags().BoolVar(&how.Dry, "dry-run", false, "check the table, say what would change and store nothing")
	c.Flags().BoolVar(&asJSON, "json", false, "print what was done as JSON")
	return c
}

// sayable are the columns that may be said of a whole table.
var sayable = []string{"farm", "field", "sampled", "sample", "lab", "lot", "cutting", "method"}

func labSayings(maps, says, sayable []string) (changes []exchange.Change, said map[string]string, err error) {
	for _, s := range maps {
		c, err := exchange.ParseChange(s)
		if err != nil {
			return nil, nil, fmt.Errorf("--map %w", err)
		}
		changes = append(changes, c)
	}
	said = map[string]string{}
	for _, s := range says {
		code, text, ok := strings.Cut(s, "=")
		if code = strings.ToLower(strings.TrimSpace(code)); !ok || strings.TrimSpace(text) == "" || !slices.Contains(sayable, code) {
			return nil, nil, fmt.Errorf("--say %q: want one of %s, then = and what it is", s, strings.Join(sayable, ", "))
		}
		said[code] = strings.TrimSpace(text)
	}
	return changes, said, nil
}

// proposalText lists what each column would be.
func proposalText(p exchange.Proposal) string {
	var b strings.Builder
	from := p.Form.From
	if from == "" {
		from = "a laboratory not known yet"
	}
	fmt.Fprintf(&b, "%s, a table of %s, would be read so:\n\n", p.File, from)
	w := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "  COLUMN\tIS\tIN\tMEANING")
	for _, c := range p.Form.Columns {
		if c.Code == "" {
			continue
		}
		in := c.Unit
		switch c.Basis {
		case book.FedBasis:
			in += " as fed"
		case book.DryBasis:
			in += " of dry matter"
		}
		fmt.Fprintf(w, "  %s\t%s\t%s\t%s\n", c.Column, c.Code, in, p.Meanings[c.Code])
	}
	_ = w.Flush() // a string cannot fail to be written to
	if len(p.Unknown) > 0 {
		fmt.Fprintf(&b, "\nNot used: %s.\n", strings.Join(p.Unknown, ", "))
	}
	for _, d := range p.Doubts {
		fmt.Fprintf(&b, "\nLook at: %s.", d)
	}
	b.WriteString("\n")
	switch {
	case p.Form.Of != book.OfForage: // its numbers have no basis
	case p.NoBasis:
		b.WriteString("Shares are of: not told by the headings; say --basis dm, --basis as-fed, or map a column to basis.\n")
	case p.Form.Basis == book.RowBasis:
		b.WriteString("Shares are of: what the column basis says in each row.\n")
	case p.Form.Basis == book.FedBasis:
		b.WriteString("Shares are of: feed as fed, and are turned into dry matter.\n")
	default:
		b.WriteString("Shares are of: dry matter.\n")
	}
	if len(p.Lacking) > 0 {
		fmt.Fprintf(&b, "No column says: %s. Map one with --map 'COLUMN=code', or say it of all rows with --say code=...\n", strings.Join(p.Lacking, ", "))
	}
	b.WriteString("Where it is right, run the same again with --confirm --lab NAME; the book then remembers it for that laboratory.\n")
	return b.String()
}

// formText says by which form a table was read.
func formText(f office.FormFound) string {
	switch f.Form {
	case "remembered":
		return fmt.Sprintf("Read by the form of %s that the book remembers.\n", f.Lab)
	case "confirmed":
		return fmt.Sprintf("The form of %s is confirmed.\n", f.Lab)
	}
	return ""
}

// labsText says what a table of results brought.
func labsText(r office.LabsBrought) string {
	var b strings.Builder
	b.WriteString(importText(r.ImportedRecords) + formText(r.FormFound))
	if r.Fed > 0 {
		fmt.Fprintf(&b, "%s as fed turned into dry matter.\n", counted(r.Fed, "row"))
	}
	for _, f := range r.LeftOut {
		fmt.Fprintf(&b, "Left out: %s.\n", f)
	}
	for _, w := range r.Warnings {
		fmt.Fprintf(&b, "Warning: %s", w.Fault)
		if w.Rows > 1 {
			fmt.Fprintf(&b, " (and %s more)", counted(w.Rows-1, "row"))
		}
		b.WriteString(".\n")
	}
	for _, t := range r.Told {
		b.WriteString(t + "\n")
	}
	return b.String()
}
