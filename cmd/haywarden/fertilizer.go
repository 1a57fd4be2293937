package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"haywarden/husbandry"
	"haywarden/office"
)

func newFertilizerCommand(m *Main) *cobra.Command {
	var location string
	var when askFlags
	var asJSON bool
	nitrogen := float64(husbandry.UsualNitrogen)
	c := &cobra.Command{
		Use:   "fertilizer FARM",
		Short: "What a farm's fields need in a year, and the least costly order for it",
		Long: `Puts what each field needs of phosphate, potash, sulfur and boron together: by its soil test and the guide
the farm goes by, else by what its crops take away. Where products have a price in a deck it finds the
least costly order in whole hundreds of pounds, and what goes where; where none has, it says pounds.`,
		Example: "  haywarden fertilizer Ottermoss\n  haywarden fertilizer Ottermoss --nitrogen 0 --json",
		Args:    cobra.ExactArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			return answer(c, m, location, when, asJSON, func(o *office.Office, ask office.Ask) (*office.FarmFertilizer, error) {
				return o.Fertilizer(c.Context(), adviser(), args[0], nitrogen, ask)
			}, fertilizerText)
		},
	}
	bookFlag(c, &location)
	when.add(c)
	c.Flags().Float64Var(&nitrogen, "nitrogen", nitrogen, "pounds of nitrogen an acre that may come along")
	c.Flags().BoolVar(&asJSON, "json", false, "print as JSON")
	return c
}

func fertilizerText(o *office.FarmFertilizer) string {
	var w strings.Builder
	fmt.Fprintf(&w, "%s, fertilizer for a year, on %s\n\n%s", o.Farm, o.Date, partText(o.Buy))
	for _, c := range o.Cautions {
		fmt.Fprintf(&w, "  Mind: %s.\n", c)
	}
	for _, f := range o.Fields {
		fmt.Fprintf(&w, "\n%s, %g acres\n", f.Field, f.Acres)
		var needs []string
		for _, a := range f.Amounts() {
			needs = append(needs, a.Pounds+" lb of "+a.Word)
		}
		if len(needs) > 0 {
			fmt.Fprintf(&w, "  needs %s an acre: %s\n", strings.Join(needs, ", "), strings.Join(f.From, "; "))
		} else {
			fmt.Fprintf(&w, "  needs nothing: %s\n", strings.Join(f.From, "; "))
		}
		for _, s := range f.Spread {
			fmt.Fprintf(&w, "    %-46s %7.0f lb/ac %9.0f lb\n", s.Name, s.PerAcre, s.Pounds)
		}
		for _, p := range f.Parts {
			fmt.Fprintf(&w, "  potash: %s\n", p)
		}
		for _, c := range f.Cautions {
			fmt.Fprintf(&w, "  Mind: %s.\n", c)
		}
		if len(f.Lacks) > 0 {
			fmt.Fprintf(&w, "  Missing: %s.\n", strings.Join(f.Lacks, "; "))
		}
	}
	return w.String()
}
