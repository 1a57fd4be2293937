package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"haywarden/agronomy/unit"
	"haywarden/office"
)

func newWeatherCommand(m *Main) *cobra.Command {
	c := &cobra.Command{
		Use:     "weather",
		Short:   "Bring and look at station weather",
		Long:    "Station weather is what every date rests on. It comes from the public daily archive (GHCN-Daily) in any of its forms.",
		Example: "  haywarden weather import USW00014839.dly\n  haywarden weather show USW00014839",
		Args:    cobra.NoArgs,
		RunE:    func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	c.AddCommand(newWeatherImportCommand(m), newWeatherNearCommand(m), newWeatherShowCommand(m), newWeatherFetchCommand(m), newWeatherPlaceCommand(m))
	return c
}

// brought says what an import changed in the book.
func brought(w office.WeatherImported) string {
	if w.Nothing() {
		return fmt.Sprintf("Nothing changed: all of %s was in the book already.", counted(len(w.Years.Unchanged), "year"))
	}
	return fmt.Sprintf("Stored: %s new, %d changed, %d unchanged.", counted(len(w.Years.Added), "year"), len(w.Years.Changed), len(w.Years.Unchanged))
}

func newWeatherShowCommand(m *Main) *cobra.Command {
	var location string
	var when askFlags
	var asJSON bool
	var from, to int
	c := &cobra.Command{
		Use:   "show [STATION]",
		Short: "A station's freeze dates, heat sums, season, chances and days ahead",
		Long: `Without a station lists the stations in the book: how far their records reach, how whole they are, how
old their forecasts. With one prints its freeze chances and its yearly heat sums over the years asked
for, and from its whole record, as of the date: the days ahead, this season against past years, freeze
chances by four methods, runs of dry days, and how whole the record is.`,
		Example: "  haywarden weather show\n  haywarden weather show USW00014839 --from 1991 --to 2020",
		Args:    cobra.MaximumNArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			ask, err := when.ask()
			if err != nil {
				return err
			}
			o, done, err := openOffice(c.Context(), m, location)
			if err != nil {
				return err
			}
			if len(args) == 0 {
				rows, _, err := o.StationRows(c.Context(), adviser(), ask)
				if err := closed(err, done); err != nil {
					return err
				}
				if asJSON {
					return writeJSON(m.Stdout, rows)
				}
				writeStations(m.Stdout, rows)
				return nil
			}
			shown, err := o.Station(c.Context(), adviser(), args[0], ask)
			var page *office.StationPage
			if err == nil {
				page, err = o.StationPage(c.Context(), adviser(), args[0], ask)
			}
			if err := closed(err, done); err != nil {
				return err
			}
			sum, err := office.Summarise(shown.Series, from, to)
			if err != nil {
				return usage("weather show: %v", err)
			}
			if asJSON {
				return writeJSON(m.Stdout, struct {
					office.StationSummary
					Page *office.StationPage `json:"page"`
				}{sum, page})
			}
			writeStation(m, sum, shown)
			writeStationPage(m.Stdout, page)
			return nil
		},
	}
	bookFlag(c, &location)
	when.add(c)
	c.Flags().IntVar(&from, "from", 0, "first year (default all)")
	c.Flags().IntVar(&to, "to", 0, "last year (default all)")
	c.Flags().BoolVar(&asJSON, "json", false, "print as JSON")
	return c
}

func writeStation(m *Main, s office.StationSummary, shown *office.StationShown) {
	name := s.ID
	if s.Name != "" && s.Name != s.ID {
		name = s.Name + ", " + s.ID
	}
	fmt.Fprintf(m.Stdout, "Station %s: %d to %d\n\nFreeze dates (day of the year; chance of having come, fall, or of one still to come, spring; Weibull)\n", name, s.FirstYear, s.LastYear)
	fmt.Fprintf(m.Stdout, "  %-18s %6s %8s %6s %7s %7s %7s\n", "", "years", "mean", "sd", "10 %", "50 %", "90 %")
	for _, f := range s.Freezes {
		fmt.Fprintf(m.Stdout, "  %-18s %6d %8s %6s %7s %7s %7s\n", f.Name, f.Years, hundredths(f.Mean), hundredths(f.SD), f.P10, f.P50, f.P90)
	}
	fmt.Fprintf(m.Stdout, "\nHeat by year; the days on which 300 F-days by sine over 48 °F (from 1 January) and 700 over 41 °F (from 1 March) were reached\n"+
		"  %4s %12s %12s %12s %8s %8s\n  %4s %12s %12s %12s\n", "", "avg 41 °F", "sine 48 °F", "sine 5 °C", "48: 300", "41: 700", "", "F-days", "F-days", "C-days")
	for _, y := range s.Heat {
		fmt.Fprintf(m.Stdout, "  %4d %12.1f %12.1f %12.1f %8s %8s%s\n", y.Year, y.Average41F, y.Sine48F, y.Sine5C, reached(y.Weevil), reached(y.Bud), heatNote(y))
	}
	if len(shown.Imports) > 0 {
		fmt.Fprintln(m.Stdout, "\nImported")
		for _, i := range shown.Imports {
			fmt.Fprintf(m.Stdout, "  %s  %s: %d new, %d changed, %d unchanged years\n", i.Received.Format("2006-01-02 15:04"), i.Source, i.Added, i.Changed, i.Unchanged)
		}
	}
}

// hundredths writes a number that there may not be.
func hundredths(v *float64) string {
	if v == nil {
		return "none"
	}
	return fmt.Sprintf("%.2f", *v)
}

func reached(d unit.Day) string {
	if d == 0 {
		return "–"
	}
	return d.Time().Format("2 Jan")
}

// heatNote says why a year's sum is short.
func heatNote(y office.HeatYear) string {
	var note string
	if y.Missing > 0 {
		note = "  " + counted(y.Missing, "day") + " missing"
	}
	if y.Through != 0 {
		note += "  through " + y.Through.Time().Format("2 Jan")
	}
	return note
}
