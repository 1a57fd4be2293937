package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"haywarden/agronomy/regrowth"
	"haywarden/agronomy/unit"
	"haywarden/season"
	"haywarden/weather"
	"haywarden/weather/intake"
)

func newBacktestCommand(m *Main) *cobra.Command {
	var from, to int
	var lat float64
	var agreement, asJSON bool
	c := &cobra.Command{
		Use:   "backtest FILE",
		Short: "Try the growth model on a station's past years",
		Long: `Grows alfalfa through the past years of a station's daily file, in any form that ` + "`haywarden weather import`" + `
takes, and sets what is published of yields and cutting intervals beside it: what agrees, what does not,
and to which rows the model was fitted.`,
		Example: "  haywarden backtest USW00014839.dly --lat 42.955 --agreement\n  haywarden backtest USW00014839.dly --lat 42.955 --agreement --json",
		Args:    cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			if !agreement {
				return usage("backtest has one trial so far: give --agreement")
			}
			model := regrowth.Published()
			years, err := pastYears(&model, args[0], lat, from, to)
			if err != nil {
				return err
			}
			rows := season.Agreement(&model, years)
			if asJSON {
				return writeJSON(m.Stdout, rows)
			}
			_, err = fmt.Fprint(m.Stdout, agreementText(rows, years))
			return err
		},
	}
	c.Flags().BoolVar(&agreement, "agreement", false, "print the table of published results beside the model's")
	c.Flags().IntVar(&from, "from", 1971, "first year")
	c.Flags().IntVar(&to, "to", 2020, "last year")
	c.Flags().Float64Var(&lat, "lat", 0, "latitude, where the file does not tell it")
	c.Flags().BoolVar(&asJSON, "json", false, "print as JSON")
	return c
}

// pastYears reads the whole years of a station's file.
func pastYears(model *regrowth.Model, name string, lat float64, from, to int) ([]season.Year, error) {
	if from > to {
		return nil, usage("--from %d is after --to %d", from, to)
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, fmt.Errorf("read weather: %w", err)
	}
	defer func() { _ = f.Close() }() // it was only read
	last := unit.DateOf(to, time.December, 31)
	readings, err := intake.Read(f, filepath.Base(name), unit.DayOf(time.Now()), intake.Options{})
	if err != nil {
		return nil, err
	}
	if len(readings) != 1 {
		return nil, fmt.Errorf("%s: %s; want a file of one", name, counted(len(readings), "station"))
	}
	r := readings[0]
	if lat != 0 {
		r.Station.Latitude = lat
	}
	if !(r.Station.Latitude > 0 && r.Station.Latitude < 66) {
		return nil, usage("%s does not tell where the station is, or it lies outside 0 to 66 N: give --lat in degrees north", name)
	}
	all := weather.NewSeries(r.Station, r.Blocks, last)
	years := season.YearsOf(model, all.Between(unit.DateOf(from, time.January, 1), last))
	if len(years) < season.LeastYears {
		return nil, fmt.Errorf("%s: %s from %d to %d with every day's temperatures; want %d at least", name, counted(len(years), "year"), from, to, season.LeastYears)
	}
	return years, nil
}

func agreementText(rows []season.Agreed, years []season.Year) string {
	var b strings.Builder
	fmt.Fprintf(&b, "Published results beside the model, %d to %d (%s). Rows marked fit were used to set its\nconstants and are weak evidence.\n\n", years[0].Year, years[len(years)-1].Year, counted(len(years), "year"))
	target, published, model := len("Result"), len("Published"), len("Model")
	for _, r := range rows {
		target, published, model = max(target, len(r.Target)), max(published, len(r.Published)), max(model, len(r.Model))
	}
	fmt.Fprintf(&b, "%-*s  %-*s  %-*s\n", target, "Result", published, "Published", model, "Model")
	met := 0
	for _, r := range rows {
		verdict := "missed"
		if r.Met {
			verdict = "met"
			met++
		}
		if r.Fitted {
			verdict += ", fit"
		}
		fmt.Fprintf(&b, "%-*s  %-*s  %-*s  %s\n", target, r.Target, published, r.Published, model, r.Model, verdict)
	}
	fmt.Fprintf(&b, "\n%d of %d met. Sources of the published rows disagree among themselves: a Kansas trial found 28 days\nbetter than 35, another worse.\n", met, len(rows))
	return b.String()
}
