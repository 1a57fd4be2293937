package main

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"haywarden/office"
)

func newFeedCommand(m *Main) *cobra.Command {
	var location string
	var when askFlags
	var asJSON bool
	c := &cobra.Command{
		Use:   "feed FARM",
		Short: "What a farm has in store, how long it lasts, and who eats what",
		Long: `Works out each lot in store with its range, the weeks it lasts as it is fed, need against supply by quality
until the next crop is opened, and the cheapest way to share the hay crop among the groups. Quality and
tons are told apart: a farm can be short of the one with enough of the other.`,
		Example: "  haywarden feed Ottermoss\n  haywarden feed Ottermoss --date 2026-05-19 --json",
		Args:    cobra.ExactArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			return answer(c, m, location, when, asJSON, func(o *office.Office, ask office.Ask) (*office.FarmFeed, error) {
				return o.Feed(c.Context(), adviser(), args[0], ask)
			}, feedText)
		},
	}
	bookFlag(c, &location)
	when.add(c)
	c.Flags().BoolVar(&asJSON, "json", false, "print as JSON")
	return c
}

func newAllocateCommand(m *Main) *cobra.Command {
	var location, rule string
	var when askFlags
	var asJSON, whole bool
	c := &cobra.Command{
		Use:   "allocate FARM",
		Short: "Which lot of hay crop to which group, what to buy, and what a ton is worth",
		Long: `Shares a farm's hay crop among its groups until the next crop is opened, at the least cost by the prices that
hold for it; without a price of hay the least tons are bought. By floor each lot reaches the group's RFQ;
by blend all that a group eats keeps under its NDF. ` + "`haywarden reckon allocate`" + ` does the same for any lots.`,
		Example: "  haywarden allocate Ottermoss\n  haywarden allocate Ottermoss --whole --date 2026-05-19 --json",
		Args:    cobra.ExactArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			return answer(c, m, location, when, asJSON, func(o *office.Office, ask office.Ask) (*office.FarmFeed, error) {
				return o.Allocate(c.Context(), adviser(), args[0], rule, whole, ask)
			}, func(a *office.FarmFeed) string {
				if a.None != "" {
					return feedText(a)
				}
				return fmt.Sprintf("%s on %s, until the next crop is opened on %s (%s)\n", a.Farm, a.Date, a.Opens, a.Why) + sharedText(a) + cautionText(a.Caution)
			})
		},
	}
	bookFlag(c, &location)
	when.add(c)
	c.Flags().StringVar(&rule, "rule", "floor", "floor: each lot reaches the group's RFQ; blend: all it eats keeps under its NDF")
	c.Flags().BoolVar(&whole, "whole", false, "give each lot to one group only")
	c.Flags().BoolVar(&asJSON, "json", false, "print as JSON")
	return c
}

func feedText(a *office.FarmFeed) string {
	var w strings.Builder
	fmt.Fprintf(&w, "%s on %s\n", a.Farm, a.Date)
	if a.None != "" {
		return w.String() + a.None + "\n"
	}
	fmt.Fprintf(&w, "Next crop about %s, opened about %s (%s).\n\nIn store, tons of dry matter\n", a.Next, a.Opens, a.Why)
	for _, l := range a.Lots {
		quality := "no test"
		if l.RFQ != nil {
			quality = fmt.Sprintf("RFQ %.0f", *l.RFQ)
		}
		fmt.Fprintf(&w, "  %-26s %-13s %6.0f (%.0f to %.0f) of %.0f  %s", l.Name, l.Store, l.Tons[1], l.Tons[0], l.Tons[2], l.Put, quality)
		if l.Weeks != nil {
			to := ""
			if l.Group != "" {
				to = " to " + l.Group
			}
			fmt.Fprintf(&w, "; %.0f lb a day%s, %.1f weeks, until %s", l.LbDay, to, *l.Weeks, l.RunsOut)
		}
		fmt.Fprintf(&w, "\n  %26s %s; %.0f %% still to be lost", "", l.How, 100*l.Loss)
		if l.Face != "" {
			fmt.Fprintf(&w, "; face %.1f in a day: %s", l.Inches, l.Face)
		}
		w.WriteString("\n")
		if l.Unmatched != "" {
			fmt.Fprintf(&w, "  %26s %s\n", "", l.Unmatched)
		}
	}
	w.WriteString("\nNeed against supply\n")
	rows := slices.Clone(a.Classes)
	if a.Corn != nil {
		rows = append(rows, *a.Corn)
	}
	for _, c := range rows {
		gap := "enough"
		if c.Gap > 0 {
			gap = fmt.Sprintf("%.0f tons short by then", c.Gap)
		}
		fmt.Fprintf(&w, "  %-16s %6.0f lb a day; %.0f tons (%.0f to %.0f) last until %s, in the low case %s; %s\n", c.Name, c.LbDay, c.Supply[1], c.Supply[0], c.Supply[2], c.RunsOut, c.LowOut, gap)
	}
	return w.String() + "\n" + sharedText(a) + cautionText(a.Caution)
}

// sharedText writes who eats what, or why nothing can be said.
func sharedText(a *office.FarmFeed) string {
	var w strings.Builder
	switch s := a.Shared; {
	case s == nil:
		fmt.Fprintf(&w, "Who eats what: %s\n", a.NoPlan)
	default:
		fmt.Fprintf(&w, "Who eats what, tons of dry matter\n")
		for _, r := range s.Rows {
			fmt.Fprintf(&w, "  %-26s %-20s %6.1f\n", r.Lot, r.Group, r.Tons)
		}
		for _, g := range slices.Sorted(maps.Keys(s.Buy)) {
			fmt.Fprintf(&w, "  %-26s %-20s %6.1f\n", "to buy", g, s.Buy[g])
		}
		if s.Priced {
			fmt.Fprintf(&w, "  cost of what is fed and bought $%.0f\n", s.Cost)
		}
		for _, x := range s.Words {
			fmt.Fprintf(&w, "  - %s\n", x)
		}
	}
	if len(a.Lacks) > 0 {
		fmt.Fprintf(&w, "Missing: %s.\n", strings.Join(a.Lacks, "; "))
	}
	for _, p := range a.Prices {
		fmt.Fprintf(&w, "    price: %s\n", p)
	}
	return w.String()
}

// cautionText writes cautions under what they belong to.
func cautionText(list []string) string {
	if len(list) == 0 {
		return ""
	}
	return "\nCautions\n  " + strings.Join(list, "\n  ") + "\n"
}
