package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"haywarden/husbandry"
	"haywarden/office"
)

func newPricesCommand(m *Main) *cobra.Command {
	var location, farm string
	var when askFlags
	var asJSON, all bool
	of := husbandry.Reference()
	c := &cobra.Command{
		Use:   "prices",
		Short: "What prices hold, from which deck, and a ton by several of them",
		Long: `Shows each price line that holds on a date with its deck, day and who entered it, the old ones said to be
old, and a ton of forage priced by several lines side by side. A farm's own deck goes before the book's.
No price is built in: what is not entered is not used.`,
		Example: "  haywarden prices\n  haywarden prices --farm Ottermoss --rfv 160 --cp 21\n  haywarden prices --lines",
		Args:    cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			if err := of.Check(); err != nil {
				return usage("%v", err)
			}
			return answer(c, m, location, when, asJSON, func(o *office.Office, ask office.Ask) (*office.PriceBook, error) {
				return o.Prices(c.Context(), adviser(), farm, of, ask)
			}, func(b *office.PriceBook) string { return pricesText(b, all) })
		},
	}
	bookFlag(c, &location)
	when.add(c)
	c.Flags().StringVar(&farm, "farm", "", "a farm, whose own prices go first")
	c.Flags().BoolVar(&all, "lines", false, "list the lines without a price too, with unit and accepted range")
	c.Flags().Float64Var(&of.RFV, "rfv", of.RFV, "RFV of the forage priced by several lines")
	c.Flags().Float64Var(&of.CP, "cp", of.CP, "its protein, % of dry matter")
	c.Flags().Float64Var(&of.NEL, "nel", of.NEL, "its energy, Mcal/lb of dry matter")
	c.Flags().Float64Var(&of.NDF, "ndf", of.NDF, "its NDF, % of dry matter")
	c.Flags().BoolVar(&asJSON, "json", false, "print as JSON")
	return c
}

func newHerdCommand(m *Main) *cobra.Command {
	var location string
	var when askFlags
	var asJSON bool
	c := &cobra.Command{
		Use:     "herd FARM",
		Short:   "What a farm's herd needs in a year, and how fast its crew cuts",
		Long:    "Reckons intake of each group by both editions of the feeding standard, tons of each quality a year and the\nacres that grow them, and the pace of the farm's machines.",
		Example: "  haywarden herd Ottermoss\n  haywarden herd Ottermoss --date 2026-05-19 --json",
		Args:    cobra.ExactArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			return answer(c, m, location, when, asJSON, func(o *office.Office, ask office.Ask) (*office.FarmNeed, error) {
				return o.HerdNeed(c.Context(), adviser(), args[0], ask)
			}, herdText)
		},
	}
	bookFlag(c, &location)
	when.add(c)
	c.Flags().BoolVar(&asJSON, "json", false, "print as JSON")
	return c
}

func newBudgetCommand(m *Main) *cobra.Command {
	var location string
	var when askFlags
	var asJSON bool
	var of office.BudgetFor
	c := &cobra.Command{
		Use:   "budget FARM",
		Short: "What an acre and a ton cost a farm, and what they are worth",
		Long: `Makes the budget of a farm's legume, or of one field: cost of an acre and a ton, what pays for it, the
standing crop, bid and walk-away prices, rent, one more cut, own or hire. Each part names the prices it
took, or says which are missing.`,
		Example: "  haywarden budget Ottermoss\n  haywarden budget Ottermoss --field \"Long Meadow\" --cuts 3",
		Args:    cobra.ExactArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			return answer(c, m, location, when, asJSON, func(o *office.Office, ask office.Ask) (*office.FarmBudget, error) {
				return o.Budget(c.Context(), adviser(), args[0], of, ask)
			}, budgetText)
		},
	}
	bookFlag(c, &location)
	when.add(c)
	c.Flags().StringVar(&of.Field, "field", "", "a field of the farm (default: all its legume)")
	c.Flags().Float64Var(&of.Yield, "yield", 0, "tons of dry matter an acre a year (default: as the book judges)")
	c.Flags().Float64Var(&of.RFV, "rfv", 0, "RFV as fed or sold (default: as wanted of the stand)")
	c.Flags().IntVar(&of.Cuts, "cuts", husbandry.UsualCuts, "cuts a year")
	c.Flags().IntVar(&of.Years, "years", husbandry.UsualYears, "years a stand is kept after seeding")
	c.Flags().BoolVar(&asJSON, "json", false, "print as JSON")
	return c
}

func newWeighCommand(m *Main) *cobra.Command {
	var location, how string
	var when askFlags
	var asJSON bool
	var rain []float64
	c := &cobra.Command{
		Use:   "weigh STAND",
		Short: "Cut a stand now or wait, for how careful the farm is",
		Long: `Lays cutting today beside cutting on the next days, in dollars an acre: dry, rained on, on average and
in the worst 2 years in 10, weighed by how careful the farm is. Chances of rain come from the station's
record unless you give them.`,
		Example: "  haywarden weigh \"Long Meadow\"\n  haywarden weigh \"Long Meadow\" --rain 0.6,0.5,0.1 --careful \"very careful\"",
		Args:    cobra.ExactArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			return answer(c, m, location, when, asJSON, func(o *office.Office, ask office.Ask) (*office.Weighed, error) {
				return o.Weigh(c.Context(), adviser(), args[0], rain, how, ask)
			}, func(w *office.Weighed) string {
				return fmt.Sprintf("%s, %s (%s)\n", w.Named, w.How, w.Why) + partText(w.Part) + partText(w.Waiting)
			})
		},
	}
	bookFlag(c, &location)
	when.add(c)
	c.Flags().Float64SliceVar(&rain, "rain", nil, "chances of rain on hay cut today, tomorrow ..., 0 to 1")
	c.Flags().StringVar(&how, "careful", "", `how careful: "by the average", "a little careful", "careful", "very careful", "safest only" (default: as the farm has said)`)
	c.Flags().BoolVar(&asJSON, "json", false, "print as JSON")
	return c
}

// answer asks the office and prints what it says, as text or as JSON.
func answer[T any](c *cobra.Command, m *Main, location string, when askFlags, asJSON bool, ask func(*office.Office, office.Ask) (T, error), text func(T) string) error {
	a, err := when.ask()
	if err != nil {
		return err
	}
	o, done, err := openOffice(c.Context(), m, location)
	if err != nil {
		return err
	}
	got, err := ask(o, a)
	if err := closed(err, done); err != nil {
		return err
	}
	if asJSON {
		return writeJSON(m.Stdout, got)
	}
	_, err = io.WriteString(m.Stdout, text(got))
	return err
}

func pricesText(b *office.PriceBook, all bool) string {
	var w strings.Builder
	whose := "of the book"
	if b.Farm != "" {
		whose = "for " + b.Farm
	}
	fmt.Fprintf(&w, "Prices %s on %s\n", whose, b.Date)
	group, entered := "", 0
	for _, r := range b.Rows {
		if r.Value == nil && !all {
			continue
		}
		if r.Group != group {
			group = r.Group
			fmt.Fprintf(&w, "\n%s\n", group)
		}
		if r.Value == nil {
			fmt.Fprintf(&w, "  %-22s not entered; %g to %g %s (%s)\n", r.Line, r.Low, r.High, r.Unit, r.Title)
			continue
		}
		entered++
		old := ""
		if r.Old {
			old = fmt.Sprintf(" OLD: %d days", r.Age)
		}
		own := ""
		if r.Own {
			own = "own "
		}
		fmt.Fprintf(&w, "  %-22s %9.4g %-7s %s%s, %s, by %s%s\n", r.Line, *r.Value, r.Unit, own, r.Deck, r.Day, r.Author, old)
	}
	if entered == 0 {
		w.WriteString("No price is entered: worth is said in tons and points. Bring them with `haywarden import prices FILE.csv`.\n")
	}
	w.WriteString("\n" + partText(b.Lines))
	return w.String()
}

// partText writes one answer with its figures, what it lacks and the prices it took.
func partText(p husbandry.Part) string {
	var w strings.Builder
	fmt.Fprintf(&w, "%s\n", p.Title)
	if p.Says != "" {
		fmt.Fprintf(&w, "  %s\n", p.Says)
	}
	for _, r := range p.Rows {
		from := ""
		if r.From != "" {
			from = "  (" + r.From + ")"
		}
		fmt.Fprintf(&w, "    %-52s %12s%s\n", r.What, r.Said(), from)
	}
	if len(p.Lacks) > 0 {
		fmt.Fprintf(&w, "  Missing: %s.\n", strings.Join(p.Lacks, "; "))
	}
	for _, n := range p.Notes {
		fmt.Fprintf(&w, "  %s\n", n)
	}
	for _, n := range p.Prices {
		fmt.Fprintf(&w, "    price: %s\n", n)
	}
	return w.String()
}

func herdText(n *office.FarmNeed) string {
	var w strings.Builder
	fmt.Fprintf(&w, "%s on %s\n", n.Need.Farm, n.Date)
	if n.Need.None != "" {
		fmt.Fprintf(&w, "%s\n", n.Need.None)
	} else {
		fmt.Fprintf(&w, "Herd of %s: %d animals eat %.0f tons of forage dry matter a year (%.0f to %.0f between the equations); answers go by edition %s, quality by the table %s.\n\n",
			n.Need.Told, n.Need.Head, n.Need.Forage, n.Need.Low, n.Need.High, n.Need.Edition, n.Need.Table)
		for _, g := range n.Need.Groups {
			fmt.Fprintf(&w, "  %-16s %4d head  %5.1f lb a day by %s (%.1f to %.1f)  forage %.0f tons, legume %.0f; wants %s\n", g.Name, g.Head, g.IntakeLb, g.By, g.Low, g.High, g.Tons, g.Legume, g.Wanted)
			if g.NEL > 0 {
				fmt.Fprintf(&w, "  %16s needs %.1f Mcal NEL a day (%.1f by the other edition)\n", "", g.NEL, g.NELOther)
			}
			for _, f := range g.Flags {
				fmt.Fprintf(&w, "  %16s %s\n", "", f)
			}
		}
		w.WriteString("\n")
		for _, q := range n.Need.Quality {
			fmt.Fprintf(&w, "  %-16s %7.0f tons of forage, %.0f of it legume; %s\n", q.Target, q.Forage, q.Legume, q.Wanted)
		}
		w.WriteString("\n")
		for _, c := range n.Need.Crops {
			acres := "no acres"
			if c.Acres > 0 {
				acres = fmt.Sprintf("%.0f acres at %.1f tons", c.Acres, c.Yield)
			}
			if c.Have > 0 {
				acres += fmt.Sprintf(", %.0f growing", c.Have)
			}
			fmt.Fprintf(&w, "  %-12s %.0f tons fed, %.0f stored, %s (%s)\n", c.Forage, c.Fed, c.Stored, acres, c.Why)
		}
	}
	w.WriteString("\n" + partText(n.Pace))
	return w.String()
}

func budgetText(b *office.FarmBudget) string {
	var w strings.Builder
	fmt.Fprintf(&w, "%s, %s on %s: %.0f acres, %.1f tons of dry matter an acre, RFV %.0f\n", b.Farm, b.Sheet.Field.Name, b.Date, b.Sheet.Field.Acres, b.Sheet.Field.Yield, b.Sheet.Field.RFV)
	if len(b.Parts) == 0 {
		w.WriteString("No legume stand grows on this farm on this day; give --yield and --rfv for a budget all the same.\n")
	}
	for _, p := range b.Parts {
		w.WriteString("\n" + partText(p))
	}
	return w.String()
}
