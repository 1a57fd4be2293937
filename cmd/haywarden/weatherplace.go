package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"haywarden/agronomy/unit"
	"haywarden/exchange"
	"haywarden/office"
)

func newWeatherPlaceCommand(m *Main) *cobra.Command {
	var location, readings, height string
	var stations []string
	var maxF, minF float64
	var clearAll, asJSON bool
	c := &cobra.Command{
		Use:   "place FIELD",
		Short: "Say how a field's weather is made from its stations",
		Long: `A field takes the weather of its station. Where that is not enough it can take several stations,
weighed by distance and height, and an offset of its own: a number of degrees F for the day's highest
and lowest, or a table of a thermometer's days in the field, from which both are worked out. Without
a flag it tells what holds.

The table of --readings. ` + columnText(exchange.FieldReadingColumns()),
		Example: "  haywarden weather place \"Ottermoss Long Meadow\" --station USC00470516 --station USW00014839 --height 910ft\n" +
			"  haywarden weather place \"Long Meadow\" --readings hollow.csv\n  haywarden weather place \"Long Meadow\" --min -2.5\n  haywarden weather place \"Long Meadow\" --clear",
		Args: cobra.ExactArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			say := office.LocalWeather{Stations: stations, Clear: clearAll}
			if c.Flags().Changed("max") {
				say.MaxF = &maxF
			}
			if c.Flags().Changed("min") {
				say.MinF = &minF
			}
			if height != "" {
				metres, err := metresOf(height)
				if err != nil {
					return usage("--height %s: %v", height, err)
				}
				say.HeightM = &metres
			}
			if readings != "" {
				f, err := os.Open(readings)
				if err != nil {
					return fmt.Errorf("weather place: %w", err)
				}
				defer func() { _ = f.Close() }() // it was only read
				say.Readings, say.File = f, filepath.Base(readings)
			}
			if readings != "" && (say.MaxF != nil || say.MinF != nil) {
				return usage("weather place: --readings works out --max and --min; give the one or the others")
			}
			o, done, err := openOffice(c.Context(), m, location)
			if err != nil {
				return err
			}
			var told *office.FieldWeather
			if c.Flags().NFlag() == flagsThatAsk(c) {
				told, err = o.FieldWeather(c.Context(), adviser(), args[0])
			} else {
				told, err = o.SetFieldWeather(c.Context(), adviser(), args[0], say)
			}
			if err := closed(err, done); err != nil {
				return err
			}
			if asJSON {
				return writeJSON(m.Stdout, told)
			}
			_, err = fmt.Fprint(m.Stdout, fieldWeatherText(told))
			return err
		},
	}
	bookFlag(c, &location)
	c.Flags().StringArrayVar(&stations, "station", nil, "id or name of a station; give it again for several")
	c.Flags().Float64Var(&maxF, "max", 0, "degrees F added to each day's highest temperature")
	c.Flags().Float64Var(&minF, "min", 0, "degrees F added to each day's lowest: -3 for a frost hollow")
	c.Flags().StringVar(&height, "height", "", "height of the field above the sea: 910ft, 277m")
	c.Flags().StringVar(&readings, "readings", "", "table of a thermometer's days in the field: date, tmax_f, tmin_f")
	c.Flags().BoolVar(&clearAll, "clear", false, "forget all of it: the field takes its station's weather again")
	c.Flags().BoolVar(&asJSON, "json", false, "print as JSON")
	return c
}

// flagsThatAsk counts the flags given that say nothing of the field.
func flagsThatAsk(c *cobra.Command) (n int) {
	for _, name := range []string{"json", "book"} {
		if c.Flags().Changed(name) {
			n++
		}
	}
	return n
}

// metresOf reads a height with its unit, feet where it has none.
func metresOf(s string) (float64, error) {
	feet, err := unit.Parse(s, unit.Must("ft"))
	if err != nil {
		return 0, err
	}
	return feet * metresAFoot, nil
}

const metresAFoot = 0.3048

func fieldWeatherText(f *office.FieldWeather) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s · %s takes its weather ", f.Farm, f.Field)
	switch len(f.Stations) {
	case 0:
		b.WriteString("from no station: give --station.\n")
		return b.String()
	case 1:
		b.WriteString("from one station.\n")
	default:
		b.WriteString("from several stations, the nearer weighing more; rain from the nearest that reported.\n")
	}
	for _, s := range f.Stations {
		fmt.Fprintf(&b, "  %-14s %s", s.ID, s.Name)
		if s.Miles != nil {
			fmt.Fprintf(&b, ", %.1f miles away", *s.Miles)
		}
		b.WriteString("\n")
	}
	if h := f.Said.Height; h != nil {
		fmt.Fprintf(&b, "Height of the field: %.0f ft; temperatures are moved to it.\n", *h/metresAFoot)
	}
	if f.Said.MaxF == 0 && f.Said.MinF == 0 && f.Said.Days == 0 {
		b.WriteString("No offset of its own.\n")
		return b.String()
	}
	fmt.Fprintf(&b, "Offset: %+.1f °F on each day's highest, %+.1f °F on its lowest", f.Said.MaxF, f.Said.MinF)
	if f.Said.Days > 0 {
		fmt.Fprintf(&b, ", from %s of readings (standard error %.1f and %.1f °F)", counted(f.Said.Days, "day"), f.Said.MaxSE, f.Said.MinSE)
	}
	b.WriteString(".\n")
	if d := f.Differs; d != nil {
		fmt.Fprintf(&b, "Compared: %s of highest and %s of lowest temperatures.\n", counted(d.MaxDays, "day"), counted(d.MinDays, "day"))
	}
	return b.String()
}
