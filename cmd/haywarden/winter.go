package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"haywarden/advice"
	"haywarden/agronomy/unit"
)

func newWinterCommand(m *Main) *cobra.Command {
	var location string
	var when askFlags
	var asJSON, message bool
	c := &cobra.Command{
		Use:   "winter",
		Short: "Who to visit first after a winter, and until when a lost stand can be sown anew",
		Long: `Orders all stands by what a visit would settle: the yield that the winter may have cost, times the
doubt about it. The winter is read from each field's station (cold at the crown under the snow, thaw,
ice that may have lain), the stand's own risk from its age, cuts and what is known of it. Stands counted
this spring stand at the end with what the count says. Lists the last days to sow, and words for many
producers at once.`,
		Example: "  haywarden winter\n  haywarden winter --date 2026-04-10\n  haywarden winter --message",
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
			t, err := o.Winter(c.Context(), adviser(), ask)
			if err := closed(err, done); err != nil {
				return err
			}
			switch {
			case asJSON:
				return writeJSON(m.Stdout, winterFile(t))
			case message:
				_, err = fmt.Fprint(m.Stdout, t.Message)
			default:
				_, err = fmt.Fprint(m.Stdout, winterText(t))
			}
			return err
		},
	}
	bookFlag(c, &location)
	when.add(c)
	c.Flags().BoolVar(&asJSON, "json", false, "print as JSON")
	c.Flags().BoolVar(&message, "message", false, "print only the words for many producers")
	return c
}

type winterStandFile struct {
	Stand    string  `json:"stand"`
	Farm     string  `json:"farm"`
	Field    string  `json:"field"`
	Acres    float64 `json:"acres"`
	Counted  bool    `json:"counted"`
	Stress   string  `json:"stress,omitempty"`
	RiskLow  string  `json:"risk_low"`
	RiskHigh string  `json:"risk_high"`
	LossLow  float64 `json:"loss_low"`
	LossHigh float64 `json:"loss_high"`
	Tons     float64 `json:"tons_at_stake"`
	Change   string  `json:"would_change"`
}

type deadlineFile struct {
	Day unit.Day `json:"day"`
	Say string   `json:"say"`
}

type winterStationFile struct {
	Station string         `json:"station"`
	Stress  string         `json:"stress,omitempty"`
	Because []string       `json:"because,omitempty"`
	Coldest *float64       `json:"coldest_crown_f,omitempty"`
	Replant []deadlineFile `json:"sow_by"`
}

type triageFile struct {
	Date     unit.Day            `json:"date"`
	Stands   []winterStandFile   `json:"stands"`
	Skipped  int                 `json:"not_judged"`
	Stations []winterStationFile `json:"stations"`
	Message  string              `json:"message"`
}

func winterFile(t advice.Triage) triageFile {
	out := triageFile{Date: t.Date, Skipped: t.Skipped, Message: t.Message, Stands: []winterStandFile{}, Stations: []winterStationFile{}}
	for _, s := range t.Stands {
		f := winterStandFile{
			Stand: s.Stand.ID, Farm: s.Stand.Farm.Name, Field: s.Stand.InField.Name, Acres: s.Stand.InField.Acres, Counted: s.Counted,
			RiskLow: string(s.Risk.LowClass), RiskHigh: string(s.Risk.HighClass), LossLow: s.Low, LossHigh: s.High, Tons: s.Tons, Change: s.Change,
		}
		if s.Winter != nil {
			f.Stress = string(s.Winter.Stress.Class)
		}
		out.Stands = append(out.Stands, f)
	}
	for _, s := range t.Stations {
		f := winterStationFile{Station: s.Name, Replant: []deadlineFile{}}
		if s.Winter != nil {
			f.Stress, f.Because, f.Coldest = string(s.Winter.Stress.Class), s.Winter.Stress.Because, &s.Winter.Stress.Coldest
		}
		for _, d := range s.Replant {
			f.Replant = append(f.Replant, deadlineFile{d.Day, d.Say})
		}
		out.Stations = append(out.Stations, f)
	}
	return out
}

func winterText(t advice.Triage) string {
	var b strings.Builder
	fmt.Fprintf(&b, "After the winter, %s\n", t.Date)
	for _, s := range t.Stations {
		fmt.Fprintf(&b, "\n%s", s.Name)
		if s.Winter == nil {
			b.WriteString(": too few days reported to judge the winter\n")
			continue
		}
		fmt.Fprintf(&b, ": %s\n", s.Winter.Stress.Class)
		for _, g := range advice.StationWinter(s.Winter) {
			fmt.Fprintf(&b, "  %-22s %s\n", g.What, g.Value)
		}
	}
	b.WriteString("\nVisit first\n")
	counted := false
	for i, s := range t.Stands {
		if s.Counted && !counted {
			counted = true
			b.WriteString("\nCounted this spring\n")
		}
		fmt.Fprintf(&b, "%3d. %s: %s of the year's yield, about %.0f tons; %s\n", i+1, s.Stand.Named(), advice.LossSpan(s.Wintered), s.Tons, s.Change)
	}
	if len(t.Stands) == 0 {
		b.WriteString("  no stand that stood through a winter\n")
	}
	if t.Skipped > 0 {
		fmt.Fprintf(&b, "Not judged: %d of red clover, or seeded since\n", t.Skipped)
	}
	if len(t.Stations) > 0 && len(t.Stations[0].Replant) > 0 {
		fmt.Fprintf(&b, "\nLast days to sow, by %s; the state's own guide goes before these\n", t.Stations[0].Name)
		for _, d := range t.Stations[0].Replant {
			fmt.Fprintf(&b, "  %s  %s\n", d.Day, d.Say)
		}
	}
	fmt.Fprintf(&b, "\nFor many producers\n%s", t.Message)
	return b.String()
}
