package main

import (
	"fmt"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"haywarden/book"
	"haywarden/office"
)

func newSoilCommand(m *Main) *cobra.Command {
	var location string
	var when askFlags
	var asJSON bool
	c := &cobra.Command{
		Use:   "soil FARM/FIELD",
		Short: "What is known of a field's soil: tests, guides, what left and what was spread",
		Long: `Shows the newest values of a field's soil tests with unit and extractant, what the chosen guides say of
them, what the cuts took and what was spread since the stand was seeded, and the tissue test. A value by
another extractant is another value: none is turned into another here. Whose tables are asked is chosen
with soil guides.`,
		Example: "  haywarden soil Ottermoss/Long Meadow\n  haywarden soil \"Upper Ley\" --date 2026-05-19 --json\n  haywarden soil guides --lime ohio --fertility tri-state-2020",
		Args:    cobra.ExactArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			return answer(c, m, location, when, asJSON, func(o *office.Office, ask office.Ask) (*office.FieldSoil, error) {
				return o.Soil(c.Context(), adviser(), args[0], ask)
			}, soilText)
		},
	}
	bookFlag(c, &location)
	when.add(c)
	c.Flags().BoolVar(&asJSON, "json", false, "print as JSON")
	c.AddCommand(newSoilGuidesCommand(m))
	return c
}

func newSoilGuidesCommand(m *Main) *cobra.Command {
	var location, farm string
	var g book.SoilGuides
	c := &cobra.Command{
		Use:     "guides",
		Short:   "Choose whose soil tables a farm or the whole book goes by",
		Long:    "Chooses whose tables of lime, of phosphorus and potassium, and of removal are asked. Guides of different\nstates do not agree and are never averaged. What is not named stays as it was; a farm's own goes before the\nbook's.",
		Example: "  haywarden soil guides --lime ohio --fertility tri-state-2020\n  haywarden soil guides --farm Ottermoss --lime iowa",
		Args:    cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			o, done, err := openOffice(c.Context(), m, location)
			if err != nil {
				return err
			}
			saved, err := o.ChooseSoilGuides(c.Context(), adviser(), office.Ask{}, farm, g)
			if err := closed(err, done); err != nil {
				return fmt.Errorf("soil guides: %w", err)
			}
			said := "Chosen.\n"
			if saved.Fact == "" {
				said = "Nothing changed: it was chosen already.\n"
			}
			_, err = fmt.Fprint(m.Stdout, said)
			return err
		},
	}
	bookFlag(c, &location)
	c.Flags().StringVar(&farm, "farm", "", "a farm; without it the whole book")
	c.Flags().StringVar(&g.Lime, "lime", "", "lime guide: ohio, iowa, penn-state, north-carolina, kansas, wisconsin, illinois, minnesota, capacity")
	c.Flags().StringVar(&g.Fertility, "fertility", "", "guide of phosphorus and potassium: illinois, tri-state-2020, tri-state-1995, minnesota, wisconsin")
	c.Flags().StringVar(&g.Removal, "removal", "", "table of removal")
	c.Flags().StringVar(&g.Supply, "supply", "", "phosphorus supply of the subsoil, for Illinois: low, medium, high")
	return c
}

func soilText(s *office.FieldSoil) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s · %s, %g acres, on %s\n", s.Farm, s.Field, s.Acres, s.Date)
	if len(s.Values) == 0 {
		b.WriteString("\nNo soil test is in the book. Measure next: pH with buffer, P and K, 15 to 20 cores of one depth.\n")
	} else {
		b.WriteString("\n")
		w := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
		for _, v := range s.Values {
			unit := v.Unit
			if v.By != "" {
				unit += " by " + v.By
			}
			fmt.Fprintf(w, "  %s\t%s %s\tof %s\t%s\n", v.Name, office.SoilNumber(v), unit, v.Day, strings.Trim(v.Class+"; "+v.Moved, "; "))
		}
		_ = w.Flush() // a string cannot fail to be written to
	}
	for _, g := range []struct {
		what string
		says office.GuideSays
	}{{"Lime", s.Lime}, {"Phosphate and potash", s.Feed}} {
		fmt.Fprintf(&b, "\n%s", g.what)
		if g.says.Guide != "" {
			fmt.Fprintf(&b, ", by the %s guide", g.says.Named())
		}
		if g.says.Why != "" {
			fmt.Fprintf(&b, ": cannot be said: %s.\n", g.says.Why)
			continue
		}
		fmt.Fprintf(&b, ": %s.\n", g.says.Says)
		for _, n := range g.says.Notes {
			fmt.Fprintf(&b, "  Note: %s.\n", n)
		}
	}
	b.WriteString("\n" + ledgerText(s))
	if len(s.Spread) > 0 {
		b.WriteString("\nSpread, lb of P2O5 and K2O an acre:\n")
		for _, a := range s.Spread {
			fmt.Fprintf(&b, "  %s  %s: %s\n", a.Day, a.Says, office.SpreadBrought(a))
		}
	}
	for i, t := range s.Tissue {
		if i == 0 {
			fmt.Fprintf(&b, "\nTissue of %s:\n", t.Day)
		}
		fmt.Fprintf(&b, "  %s %g %s: %s", t.Element, t.Value, t.Unit, t.Class)
		if t.Remedy != "" {
			fmt.Fprintf(&b, "; %s", t.Remedy)
		}
		b.WriteString("\n")
	}
	for _, l := range s.Sown {
		fmt.Fprintf(&b, "\nSown %s.\n", l)
	}
	return b.String()
}

func ledgerText(s *office.FieldSoil) string {
	if s.Ledger == nil {
		return "What left and came: cannot be said: " + s.Without + ".\n"
	}
	var b strings.Builder
	b.WriteString(s.Ledger.Says + "\n")
	w := tabwriter.NewWriter(&b, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(w, "  lb an acre\ttons\ttaken P2O5\tK2O\tgiven P2O5\tK2O\tleft P2O5\tK2O\t")
	for _, y := range s.Ledger.Years {
		fmt.Fprintf(w, "  %d\t%.1f\t%.0f\t%.0f\t%.0f\t%.0f\t%+.0f\t%+.0f\t\n", y.Year, y.Tons, y.TakenP2O5, y.TakenK2O, y.GivenP2O5, y.GivenK2O, y.BalanceP2O5, y.BalanceK2O)
	}
	_ = w.Flush() // a string cannot fail to be written to
	return b.String()
}
