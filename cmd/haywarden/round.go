package main

import (
	"encoding/json"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"haywarden/advice"
	"haywarden/agronomy/source"
)

func newRoundCommand(m *Main) *cobra.Command {
	var location string
	var when askFlags
	var asJSON, grounds bool
	c := &cobra.Command{
		Use:     "round",
		Short:   "What to do for which stand today, and why",
		Long:    "Makes the round of a date: which stands need a call, a walk or a cut, most pressing first.",
		Example: "  haywarden round\n  haywarden round --date 2026-05-19 --grounds",
		Args:    cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			ask, err := when.ask()
			if err != nil {
				return err
			}
			o, done, err := openOffice(c.Context(), m, location)
			if err != nil {
				return err
			}
			r, err := o.Round(c.Context(), adviser(), ask)
			if err := closed(err, done); err != nil {
				return err
			}
			if asJSON {
				return writeJSON(m.Stdout, r.File())
			}
			writeRound(m.Stdout, r, grounds)
			return nil
		},
	}
	bookFlag(c, &location)
	when.add(c)
	c.Flags().BoolVar(&asJSON, "json", false, "print the round as JSON")
	c.Flags().BoolVar(&grounds, "grounds", false, "print what each answer rests on")
	return c
}

func newStandCommand(m *Main) *cobra.Command {
	var location string
	var when askFlags
	var asJSON bool
	c := &cobra.Command{
		Use:     "stand NAME",
		Short:   "One stand: how it stands, what to do, and the grounds",
		Long:    "Looks up one growing stand by its field's name, or by farm and field where the name is not the only one.",
		Example: "  haywarden stand \"Long Meadow\"\n  haywarden stand \"Ottermoss Long Meadow\" --date 2026-05-19",
		Args:    cobra.ExactArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			ask, err := when.ask()
			if err != nil {
				return err
			}
			o, done, err := openOffice(c.Context(), m, location)
			if err != nil {
				return err
			}
			a, err := o.Stand(c.Context(), adviser(), args[0], ask)
			if err := closed(err, done); err != nil {
				return err
			}
			if asJSON {
				return writeJSON(m.Stdout, advice.FileStand(a.Stand, a.Pieces))
			}
			writeStand(m.Stdout, a.Stand, a.Pieces)
			return nil
		},
	}
	bookFlag(c, &location)
	when.add(c)
	c.Flags().BoolVar(&asJSON, "json", false, "print the stand as JSON")
	return c
}

// closed closes a book and keeps the first error.
func closed(err error, done func() error) error {
	if shut := done(); err == nil {
		return shut
	}
	return err
}

func writeJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}

// cite writes a source with its grade where that is not plainly published.
func cite(id source.ID) string {
	s, ok := source.Find(id)
	if !ok {
		return string(id)
	}
	if s.Grade == source.Published {
		return s.Cite
	}
	return fmt.Sprintf("%s (%s)", s.Cite, s.Grade)
}
