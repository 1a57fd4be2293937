package main

import (
	"context"
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"haywarden/office"
	"haywarden/paper"
)

func newPaperCommand(m *Main) *cobra.Command {
	c := &cobra.Command{
		Use:     "paper",
		Short:   "Documents to print for a farm",
		Long:    "Makes documents for a farm as PDF: its report, labels for the samples of its lots, its list of seed to order, and its\nfeed in store with who eats what.",
		Example: "  haywarden paper report Ottermoss\n  haywarden paper labels Ottermoss --out labels.pdf",
		Args:    cobra.NoArgs,
		RunE:    func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	c.AddCommand(
		paperOf(m, "report", "What to do first, each stand, and what the advice rests on", "", func(f *office.FarmAdvice) ([]byte, error) {
			return paper.FarmReport(f.Farm, f.Outlook, f.Stands, false)
		}),
		paperOf(m, "labels", "Labels for sample bags, one a lot that may still be in store", "labels-", func(f *office.FarmAdvice) ([]byte, error) {
			return paper.SampleLabels(f.Farm, f.Outlook.Date, false)
		}),
		paperOf(m, "seed-order", "Seed to order for the seedings planned, in whole bags", "seed-order-", func(f *office.FarmAdvice) ([]byte, error) {
			return paper.SeedOrder(f.Farm, f.Outlook, f.Stands, false)
		}),
		paperOf(m, "feed", "What is in store, how long it lasts, who eats what and what to buy", "feed-", func(f *office.FarmAdvice) ([]byte, error) {
			return paper.FeedReport(f.Feed, false)
		}),
	)
	return c
}

func paperOf(m *Main, what, short, prefix string, write func(*office.FarmAdvice) ([]byte, error)) *cobra.Command {
	var location, out string
	var when askFlags
	c := &cobra.Command{
		Use:     what + " FARM",
		Short:   short,
		Long:    short + ". The file is named after farm and day unless --out names it.",
		Example: "  haywarden paper " + what + " Ottermoss",
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
			name, err := printed(c.Context(), o, args[0], ask, out, prefix, write)
			if err := closed(err, done); err != nil {
				return err
			}
			fmt.Fprintf(m.Stdout, "Written: %s\n", name)
			return nil
		},
	}
	bookFlag(c, &location)
	when.add(c)
	c.Flags().StringVar(&out, "out", "", "file to write (default: named after farm and day)")
	return c
}

func printed(ctx context.Context, o *office.Office, farm string, ask office.Ask, out, prefix string, write func(*office.FarmAdvice) ([]byte, error)) (string, error) {
	f, err := o.Farm(ctx, adviser(), farm, ask)
	if err != nil {
		return "", err
	}
	data, err := write(f)
	if err != nil {
		return "", err
	}
	if out == "" {
		out = prefix + paper.FileName(f.Farm.Name, f.Outlook.Date)
	}
	if err := os.WriteFile(out, data, 0o644); err != nil {
		return "", fmt.Errorf("write document: %w", err)
	}
	return out, nil
}
