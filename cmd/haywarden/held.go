package main

import (
	"fmt"
	"math"
	"strings"

	"github.com/spf13/cobra"

	"haywarden/office"
	"haywarden/outlook"
)

func newHeldCommand(m *Main) *cobra.Command {
	var location string
	var when askFlags
	var asJSON bool
	c := &cobra.Command{
		Use:   "held",
		Short: "How well windows and forecasts held that were given before",
		Long: `Holds what was said beforehand against what came: windows of heat, given for each past year from the
years before it; forecasts that were kept; and stands that were read again, or sampled standing.`,
		Example: "  haywarden held\n  haywarden held --date 2026-06-30",
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
			h, err := o.Held(c.Context(), adviser(), ask)
			if err := closed(err, done); err != nil {
				return err
			}
			if asJSON {
				return writeJSON(m.Stdout, h)
			}
			_, err = fmt.Fprint(m.Stdout, heldText(h))
			return err
		},
	}
	bookFlag(c, &location)
	when.add(c)
	c.Flags().BoolVar(&asJSON, "json", false, "print as JSON")
	return c
}

func heldText(h *office.Held) string {
	var b strings.Builder
	b.WriteString("Windows of 10 to 90 % should hold 8 times in 10.\n")
	for _, s := range h.Stations {
		fmt.Fprintf(&b, "\nStation %s\n", s.Name)
		if len(s.Heat) == 0 {
			b.WriteString("  too few years to try windows on\n")
		}
		event := ""
		for _, e := range s.Heat {
			if e.Event != event {
				event = e.Event
				fmt.Fprintf(&b, "  %s\n", event)
			}
			fmt.Fprintf(&b, "    given %-7s held %d of %d (%.0f–%.0f %%), %.0f days wide; off by %.1f days, past years alone %.1f\n",
				e.Given.Time().Format("2 Jan"), e.Inside, e.Held.Given, 100*e.Low, 100*e.High, e.Width, e.CRPS, e.PlainCRPS)
		}
		for _, l := range s.Forecasts {
			if l.Days+l.RainDays > 0 {
				fmt.Fprintf(&b, "  forecasts %d ahead: %s\n", l.Lead, leadText(l))
			}
		}
	}
	if len(h.LeftOut) > 0 {
		b.WriteString("\nRead stands judged from the others alone, as unread ones are (NDF)\n")
	}
	for _, l := range h.LeftOut {
		fmt.Fprintf(&b, "  %-7s %2d stands: off by %.1f, %.1f claimed; %d of %d within 8 chances in 10\n", l.Day.Time().Format("2 Jan"), l.Stands, l.RMSE, l.Claimed, l.Inside, l.Stands)
	}
	if len(h.Labs) > 0 {
		fmt.Fprintf(&b, "\nThe stick against the laboratory, samples of the standing crop (NDF); stick and heat: %s\n", h.Shared)
	}
	for _, l := range h.Labs {
		fmt.Fprintf(&b, "  %-28s cut %d: %s, laboratory %+.1f; readings corrected by %+.1f (± %.1f)", l.Farm, l.Cutting, counted(l.Samples, "sample"), l.Mean, l.Bias, l.SD)
		if l.SetAside > 0 {
			fmt.Fprintf(&b, "; %d set aside", l.SetAside)
		}
		b.WriteString("\n")
	}
	b.WriteString("\nStands\n")
	if h.Stands.Looked == 0 {
		b.WriteString("  none was read twice in one growth yet this year\n")
		return b.String()
	}
	fmt.Fprintf(&b, "  %d of %d readings fell between the 10 and 90 %% expected (%.0f–%.0f %%); on average %.0f RFV %s\n",
		h.Stands.Inside, h.Stands.Looked, 100*h.Stands.Low, 100*h.Stands.High, math.Abs(h.Stands.Bias), overUnder(h.Stands.Bias))
	for _, f := range h.Found {
		mark := ""
		if !f.Inside() {
			mark = "  outside"
		}
		fmt.Fprintf(&b, "  %-40s %s: %.0f RFV by %s, %.0f expected on %s (%.0f–%.0f)%s\n", f.Stand.Named(), f.On.Time().Format("2 Jan"), f.RFV, f.How,
			f.Expected.Middle, f.Given.Time().Format("2 Jan"), f.Expected.Low, f.Expected.High, mark)
	}
	return b.String()
}

func leadText(l outlook.LeadScore) string {
	var parts []string
	if l.Days > 0 {
		parts = append(parts, fmt.Sprintf("high off by %.1f °F, low by %.1f °F on %s", l.HighErr, l.LowErr, counted(l.Days, "day")))
	}
	if l.RainDays > 0 {
		parts = append(parts, fmt.Sprintf("rain score %.2f, the usual share alone %.2f", l.Brier, l.UsualBrier))
	}
	return strings.Join(parts, "; ")
}

func overUnder(bias float64) string {
	if bias < 0 {
		return "under what was expected"
	}
	return "over what was expected"
}
