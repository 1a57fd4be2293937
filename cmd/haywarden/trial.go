package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"haywarden/agronomy/source"
	"haywarden/exchange"
	"haywarden/office"
	"haywarden/tabular"
)

func newTrialCommand(m *Main) *cobra.Command {
	c := &cobra.Command{
		Use:   "trial",
		Short: "Judge variety trials, choose from them, and lay one out",
		Long: `Reads tables of variety trials (CSV or XLSX): plots, or means of an entry in a place and year, under any
column names, unbalanced as they come. Nothing is kept; the book is not touched.`,
		Example: "  haywarden trial analyse trials.csv --trait yield\n  haywarden trial shortlist trials.csv --weight yield=1 --limit \"winter<=3\"\n  haywarden trial design --entries A,B,C,D --difference 12",
		Args:    cobra.NoArgs,
		RunE:    func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	c.AddCommand(newTrialAnalyse(m), newTrialShortlist(m), newTrialDesign(m))
	return c
}

// columnFlags name the columns that hold names.
func columnFlags(c *cobra.Command, called *exchange.TrialColumns) {
	for i, f := range []struct {
		at   *string
		name string
		what string
	}{{&called.Entry, "entry", "entries"}, {&called.Place, "place", "places or environments"}, {&called.Year, "year", "years"}, {&called.Block, "block", "blocks"}} {
		c.Flags().StringVar(f.at, f.name, "", "column of "+f.what+" (default: the one called "+strings.Join(exchange.TrialNames()[i][:3], ", ")+" ...)")
	}
}

func readTrial(path string, called exchange.TrialColumns) (t exchange.Trial, err error) {
	f, err := os.Open(path)
	if err != nil {
		return exchange.Trial{}, fmt.Errorf("trial: %w", err)
	}
	defer func() { _ = f.Close() }() // it was only read
	return office.ReadTrial(adviser(), f, filepath.Base(path), called)
}

func newTrialAnalyse(m *Main) *cobra.Command {
	var ask office.TrialAsk
	var asJSON bool
	c := &cobra.Command{
		Use:   "analyse FILE",
		Short: "One trait: analysis of variance, shrunken means, stability",
		Long: `Works out one trait: analysis of variance with the least difference that counts and the coefficient of
variation, entry means over places and years shrunken by REML with the chance of being best and of beating
the check, and stability.`,
		Example: "  haywarden trial analyse trials.csv --trait yield --check Aster --level 0.1",
		Args:    cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			t, err := readTrial(args[0], ask.Columns)
			if err != nil {
				return err
			}
			s, err := office.AnalyseTrial(adviser(), t, ask)
			return showTrial(m, s, err, asJSON)
		},
	}
	columnFlags(c, &ask.Columns)
	c.Flags().StringVar(&ask.Trait, "trait", "", "column of what was measured (default: the first of numbers)")
	c.Flags().Float64Var(&ask.Level, "level", 0.05, "chance of calling a difference where there is none")
	c.Flags().StringVar(&ask.Check, "check", "", "entry to beat")
	c.Flags().BoolVar(&ask.Lower, "lower", false, "low values are wanted")
	c.Flags().Uint64Var(&ask.Seed, "seed", 1, "start of the draws for the chance of being best")
	c.Flags().BoolVar(&asJSON, "json", false, "print as JSON")
	return c
}

func newTrialShortlist(m *Main) *cobra.Command {
	var ask office.TrialChoice
	var asJSON bool
	var out string
	c := &cobra.Command{
		Use:   "shortlist FILE",
		Short: "Entries ranked by your weights, within the site's limits",
		Long: `Leaves out what the site cannot take, and ranks the rest by the sum of your weights times the shrunken means,
counted in standard deviations of the entries. With a hay price, a seed price column and a check, what the
seed costs is set against what the yield is expected to bring.`,
		Example: "  haywarden trial shortlist trials.csv --weight yield=1 --weight rfq=0.5 --weight winter=0.3:lower --limit \"winter<=3\" --limit \"dri>=27\" --check Aster",
		Args:    cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			t, err := readTrial(args[0], ask.Columns)
			if err != nil {
				return err
			}
			s, err := office.ShortenTrial(adviser(), t, ask)
			if err != nil || out == "" {
				return showTrial(m, s, err, asJSON)
			}
			return writeShortlist(m, s, out)
		},
	}
	columnFlags(c, &ask.Columns)
	c.Flags().StringArrayVar(&ask.Weights, "weight", nil, "a trait with its weight, yield=1; winter=0.5:lower where low values are better; give it again for each trait")
	c.Flags().StringArrayVar(&ask.Limits, "limit", nil, "what the site needs, winter<=3 or dri>=27; give it again for each limit")
	c.Flags().StringVar(&ask.Check, "check", "", "entry to beat")
	c.Flags().IntVar(&ask.Keep, "keep", 8, "how many to list")
	c.Flags().Float64Var(&ask.Level, "level", 0.1, "chance of calling a difference where there is none")
	c.Flags().Uint64Var(&ask.Seed, "seed", 1, "start of the draws")
	c.Flags().StringVar(&ask.Price, "price", "", "column of seed prices, $/lb")
	c.Flags().Float64Var(&ask.Hay, "hay", 0, "what a further ton of the first weighted trait is worth, $ less its harvest")
	c.Flags().Float64Var(&ask.Rate, "rate", 15, "seed, lb/ac")
	c.Flags().Float64Var(&ask.Years, "years", 4, "years that the stand is kept")
	c.Flags().StringVar(&out, "out", "", "write the shortlist as a PDF")
	c.Flags().BoolVar(&asJSON, "json", false, "print as JSON")
	return c
}

func newTrialDesign(m *Main) *cobra.Command {
	var g office.TrialGoal
	var asJSON bool
	var out string
	c := &cobra.Command{
		Use:     "design",
		Short:   "A randomised plan with blocks enough for the difference worth seeing",
		Long:    "Lays out randomised complete blocks. The same seed gives the same plan.",
		Example: "  haywarden trial design --entries Aster,Briar,Clary,Dill --cv 8 --difference 12 --out plan.csv",
		Args:    cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			s, err := office.DesignTrial(adviser(), g)
			if err != nil || out == "" {
				return showTrial(m, s, err, asJSON)
			}
			return writePlan(m, s, out)
		},
	}
	c.Flags().StringSliceVar(&g.Entries, "entries", nil, "names of the entries, the check among them")
	c.Flags().Float64Var(&g.CV, "cv", 8, "error of a plot, % of the mean, as past trials of the place had it")
	c.Flags().Float64Var(&g.Difference, "difference", 10, "difference worth seeing, % of the mean")
	c.Flags().Float64Var(&g.Level, "level", 0.05, "chance of seeing one that is not there")
	c.Flags().Float64Var(&g.Power, "power", 0.8, "chance of seeing the one that is")
	c.Flags().IntVar(&g.Blocks, "blocks", 0, "blocks (default: as many as the difference wants)")
	c.Flags().Uint64Var(&g.Seed, "seed", 1, "start of the draws")
	c.Flags().StringVar(&out, "out", "", "write the plots as CSV")
	c.Flags().BoolVar(&asJSON, "json", false, "print as JSON")
	return c
}

func showTrial(m *Main, s *office.TrialSheet, err error, asJSON bool) error {
	if err != nil {
		return err
	}
	if asJSON {
		return writeJSON(m.Stdout, s)
	}
	_, err = io.WriteString(m.Stdout, trialText(s))
	return err
}

// trialText writes the tables with columns under each other.
func trialText(s *office.TrialSheet) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n%s\n", s.Title, s.Says)
	for _, t := range s.Tables {
		fmt.Fprintf(&b, "\n%s\n", t.Title)
		width := make([]int, len(t.Columns))
		head := make([]string, len(t.Columns))
		for j, c := range t.Columns {
			head[j] = c.Head()
			width[j] = len([]rune(head[j]))
			for i := range t.Rows {
				width[j] = max(width[j], len([]rune(t.Text(i, j))))
			}
		}
		line := func(cell func(j int) string) {
			var row strings.Builder
			for j := range t.Columns {
				format := "  %-*s"
				if t.Number(j) {
					format = "  %*s"
				}
				fmt.Fprintf(&row, format, width[j], cell(j))
			}
			b.WriteString(strings.TrimRight(row.String(), " ") + "\n")
		}
		line(func(j int) string { return head[j] })
		for i := range t.Rows {
			line(func(j int) string { return t.Text(i, j) })
		}
	}
	if len(s.Notes) > 0 {
		b.WriteString("\nTo mind\n")
		for _, n := range s.Notes {
			fmt.Fprintf(&b, "  %s\n", n)
		}
	}
	b.WriteString("\nFrom\n")
	for _, id := range s.Sources {
		if from, ok := source.Find(id); ok {
			fmt.Fprintf(&b, "  %s [%s]\n", from.Cite, from.Grade)
		}
	}
	return b.String()
}

func writePlan(m *Main, s *office.TrialSheet, path string) error {
	var b strings.Builder
	w := tabular.NewWriter(&b)
	t := s.Tables[0]
	if err := w.Row("plot", "block", "entry"); err != nil {
		return err
	}
	for i := range t.Rows {
		if err := w.Row(t.Text(i, 0), t.Text(i, 1), tabular.Safe(t.Text(i, 2))); err != nil {
			return err
		}
	}
	if err := w.Close(); err != nil {
		return err
	}
	if err := os.WriteFile(path, []byte(b.String()), 0o644); err != nil {
		return fmt.Errorf("write plan: %w", err)
	}
	fmt.Fprintf(m.Stdout, "%s\nWritten: %s\n", s.Says, path)
	return nil
}
