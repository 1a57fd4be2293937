package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"haywarden/exchange"
	"haywarden/office"
)

// bring takes one kind of table into the book.
type bring func(o *office.Office, ctx context.Context, a office.Actor, r io.Reader, name string, dry bool) (office.ImportedRecords, error)

func newImportCommand(m *Main) *cobra.Command {
	c := &cobra.Command{
		Use:   "import",
		Short: "Bring tables of stands, visits, prices, herds, machines, stacks, laboratory results, soil tests and what was spread, sown and planned into the book",
		Long: `Reads a table as spreadsheet programs write it (CSV, or parted by semicolons, tabs or bars) and takes
all of it or nothing: every fault is listed with row, column and what is accepted. Columns may stand
in any order; an empty cell says nothing. The same table again changes nothing.`,
		Example: "  haywarden import stands stands.csv\n  haywarden import visits visits.csv --dry-run",
		Args:    cobra.NoArgs,
		RunE:    func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	c.AddCommand(
		importOf(m, "stands", "Farms, fields and stands, a row a stand",
			"Acres may carry ha or stand under hectares; the share of grass is 0.3 or 30%. Farms and fields are known by\nname, the stands of a field by the day they were seeded; what differs is recorded anew.",
			exchange.StandColumns(), (*office.Office).ImportStands),
		importOf(m, "visits", "Visits, a row a stick spot or a counted frame",
			"Heights are inches, or cm where they say so (71cm, or under height_cm). Rows of one farm, field, date and\nobserver are one visit, to a stand that the book holds.",
			exchange.VisitColumns(), (*office.Office).ImportVisits),
		importOf(m, "prices", "Price decks, a row a line",
			"Rows of one deck and date are one deck; where the column farm says one, the deck is that farm's own. A line\nholds until a newer deck has it; `haywarden prices --lines` lists the lines with unit and range.",
			exchange.PriceColumns(), (*office.Office).ImportPrices),
		importOf(m, "herd", "Herds, a row a group of animals",
			"Rows of one farm and date are one herd, which takes the place of an older one whole; without a date it is\ntoday's. Weights and milk are pounds, or kg where they say so; shares are 0.3 or 30%. A row of kind forage\nnames legume, corn silage or other under group and tells its yield, losses and reserve.",
			exchange.HerdColumns(), (*office.Office).ImportHerds),
		importOf(m, "machines", "Machines and crews, a row a machine",
			"Rows of one farm and date are one list, which takes the place of an older one whole. A row of kind crew\ntells the hours of work a day under crew_hours; one of kind busy what takes the crew elsewhere, from and\nto which day. Speed and efficiency are the kind's own unless they are told.",
			exchange.MachineColumns(), (*office.Office).ImportMachines),
		importOf(m, "stacks", "Hay stacks and their core temperatures, a row each",
			"A row with a package is a stack put up that day: small-square, round or large-square, its moisture in % where it\nis known, its place inside, covered, outside-ground or outside-raised. A row with core_f is the hottest core\ntemperature, F, read that day in the field's newest stack.",
			exchange.StackColumns(), (*office.Office).ImportStacks),
		importOf(m, "seedings", "Planned seedings, a row a lot of seed",
			"Rows of one farm, field, season and year are one plan, which takes the place of an older one; rows of one species\nare lots that compete. pure_lb is pounds of pure live seed an acre; purity, germination and hard are the tag's, 99%\nor 0.99. ordered says that the seed is bought; into_stand that it is sown into a stand that stays.",
			exchange.SeedingColumns(), (*office.Office).ImportSeedings),
		importOf(m, "sprays", "Spray products as their labels read, and fields sprayed",
			"Every figure is the label's own; the program knows no products and gives no rates. A row with a field says that\nit was sprayed that day. One without is a product that may be: against which pests (apart by ;), its cost in $/ac\nwith the trip, and for which crops and on which day somebody read the label. A label counts for the year in which\nit was read.",
			exchange.SprayColumns(), (*office.Office).ImportSprays),
		importOf(m, "feed", "Feed in store, what is left of it and what is fed, a row each",
			"A row with a store puts a lot up on that day: sealed-tower, stave-tower, bunker, pile, bag, wrapped-bale, or hay\ninside, covered, outside-ground or outside-raised; its size in feet, its bales with their weight, or its tons of dry\nmatter; the fields and cutting it came from. A row with left_tons, left_bales or removed tells what was left on that\nday; one with fed the lb of dry matter fed a day from then on, and to which group.",
			exchange.FeedLotColumns(), (*office.Office).ImportFeed),
		newImportLabs(m),
		newImportSoil(m),
		importOf(m, "tissue", "Tissue tests, a row a sample",
			"N, P, K, Ca, Mg and S are % of dry matter, the others ppm. The sample belongs to the stand that grew in the\nfield that day; part is top-6in, top-4in or whole, stage is bud, first-bloom or bloom.",
			exchange.TissueColumns(), (*office.Office).ImportTissues),
		importOf(m, "applications", "Lime, fertilizer and manure that was spread, a row each",
			"The rate is an acre's, with its unit: 250 lb/ac, 3 ton/ac, 3000 gal/ac. Materials go by their usual names\n(mop, map, dap, gyp, aglime, dairy-liquid, 0-0-60 ...); any other wants its class (lime, fertilizer, manure) and its\nanalysis: % of fertilizer, lb in a ton or in 1,000 gal of manure, of lime its effective lb a ton.",
			exchange.SpreadColumns(), (*office.Office).ImportApplications),
		importOf(m, "sown", "How stands were sown, a row a seed",
			"The rate is lb/ac out of the bag; purity, germination and coating are % by the tag. Rows of one field and day\nare one seeding of the stand that the book holds.",
			exchange.SownColumns(), (*office.Office).ImportSown),
		importOf(m, "guides", "Tables of a printed guide that the program does not hold, typed in by you",
			"A row with target, a, b and c is a line of lime: tons an acre = a - b x buffer pH - c x water pH. One with\nclass, ph and tons is a cell of a lime chart. One with crop, nutrient, extractant, class, from and to is a class of\na soil test, ppm. Edition says which print it was typed from.",
			exchange.GuideColumns(), (*office.Office).ImportGuides),
	)
	return c
}

func importOf(m *Main, what, short, long string, columns []exchange.Column, do bring) *cobra.Command {
	var location string
	var dry, asJSON bool
	c := &cobra.Command{
		Use:     what + " FILE",
		Short:   short,
		Long:    short + ".\n" + long + "\n\n" + columnText(columns),
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
			_, err = io.WriteString(m.Stdout, importText(r))
			return err
		},
	}
	bookFlag(c, &location)
	c.Flags().BoolVar(&dry, "dry-run", false, "check the table, say what would change and store nothing")
	c.Flags().BoolVar(&asJSON, "json", false, "print what was done as JSON")
	return c
}

// columnText lists the columns that a table must and may have.
func columnText(columns []exchange.Column) string {
	var needed, others []string
	for _, c := range columns {
		if c.Needed {
			needed = append(needed, c.Name)
		} else {
			others = append(others, c.Name)
		}
	}
	return "Needed columns: " + strings.Join(needed, ", ") + "\nOther columns:  " + strings.Join(others, ", ")
}

// importText says what a table brought.
func importText(r office.ImportedRecords) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s read", counted(r.Rows, "row"))
	added := kindText(r.Kinds, func(k office.ImportedKind) int { return k.Added })
	changed := kindText(r.Kinds, func(k office.ImportedKind) int { return k.Changed })
	switch {
	case r.DryRun:
		fmt.Fprintf(&b, ", nothing wrong: %d would be new%s, %d would change%s, %d are in the book already. Nothing was stored.\n", r.Added, added, r.Changed, changed, r.Unchanged)
	case r.Nothing():
		b.WriteString(". Nothing changed: all of it was in the book already.\n")
	default:
		fmt.Fprintf(&b, ": %d added%s, %d changed%s, %d in the book already.\n", r.Added, added, r.Changed, changed, r.Unchanged)
	}
	if len(r.Unused) > 0 {
		fmt.Fprintf(&b, "Columns not used: %s.\n", strings.Join(r.Unused, ", "))
	}
	return b.String()
}

// kindText says in brackets how many there are of each kind; nothing where there is none.
func kindText(kinds []office.ImportedKind, number func(office.ImportedKind) int) string {
	var parts []string
	for _, k := range kinds {
		if n := number(k); n > 0 {
			parts = append(parts, counted(n, strings.ReplaceAll(string(k.Kind), "-", " ")))
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return " (" + strings.Join(parts, ", ") + ")"
}
