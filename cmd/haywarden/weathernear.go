package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"haywarden/agronomy/unit"
	"haywarden/weather/places"
)

// nearStation is a station near a place, as it is printed.
type nearStation struct {
	ID          string                  `json:"id"`
	Name        string                  `json:"name"`
	State       string                  `json:"state,omitempty"`
	Latitude    float64                 `json:"latitude"`
	Longitude   float64                 `json:"longitude"`
	Miles       float64                 `json:"miles"`
	ElevationFt *float64                `json:"elevation_ft,omitempty"` // nil: not known
	AboveFt     *float64                `json:"above_ft,omitempty"`     // above the place
	Years       map[string]places.Years `json:"years,omitempty"`        // by element; nil without an inventory
}

func newWeatherNearCommand(m *Main) *cobra.Command {
	var stations, inventory, elevation string
	var most int
	var asJSON bool
	c := &cobra.Command{
		Use:   "near LAT,LON --stations FILE",
		Short: "The archive's stations nearest to a place",
		Long: `Lists the stations of GHCN-Daily nearest to a place, from the archive's own list (ghcnd-stations.txt),
with the years of which its inventory (ghcnd-inventory.txt) has temperatures and rain. With an inventory
only stations that have any of these are listed.`,
		Example: "  haywarden weather near 43.07,-89.40 --stations ghcnd-stations.txt --inventory ghcnd-inventory.txt --elevation \"860 ft\"",
		Args:    cobra.RangeArgs(1, 2),
		RunE: func(_ *cobra.Command, args []string) error {
			lat, lon, err := parsePlace(strings.Join(args, ","))
			if err != nil {
				return usage("weather near %v", err)
			}
			if stations == "" {
				return usage("weather near: --stations FILE is wanted, the archive's ghcnd-stations.txt")
			}
			if most < 1 {
				return usage("--most %d: accepted from 1", most)
			}
			var own *float64
			if elevation != "" {
				m, err := parseElevation(elevation)
				if err != nil {
					return err
				}
				own = &m
			}
			near, err := nearestStations(stations, inventory, lat, lon, own, most)
			if err != nil {
				return err
			}
			if asJSON {
				return writeJSON(m.Stdout, near)
			}
			return writeNear(m.Stdout, near, own != nil, inventory != "")
		},
	}
	c.Flags().StringVar(&stations, "stations", "", "the archive's list of stations, ghcnd-stations.txt")
	c.Flags().StringVar(&inventory, "inventory", "", "the archive's inventory, ghcnd-inventory.txt")
	c.Flags().StringVar(&elevation, "elevation", "", "elevation of the place with its unit, as in \"860 ft\"")
	c.Flags().IntVar(&most, "most", 10, "how many stations to list")
	c.Flags().BoolVar(&asJSON, "json", false, "print as JSON")
	return c
}

// opened reads a file with a reader of lists.
func opened[T any](name string, read func(io.Reader, string) (T, error)) (out T, err error) {
	f, err := os.Open(name)
	if err != nil {
		return out, fmt.Errorf("read stations: %w", err)
	}
	defer func() { _ = f.Close() }() // it was only read
	return read(f, filepath.Base(name))
}

// measured are the elements whose years are told.
var measured = []string{"TMAX", "TMIN", "PRCP"}

func nearestStations(stations, inventory string, lat, lon float64, own *float64, most int) ([]nearStation, error) {
	all, err := opened(stations, places.Stations)
	if err != nil {
		return nil, err
	}
	var inv places.Inventory
	var keep func(places.Place) bool
	if inventory != "" {
		if inv, err = opened(inventory, places.ReadInventory); err != nil {
			return nil, err
		}
		keep = func(p places.Place) bool { return len(yearsOf(inv, p.ID)) > 0 }
	}
	out := []nearStation{}
	for _, n := range places.Nearest(all, lat, lon, most, keep) {
		s := nearStation{ID: n.ID, Name: n.Name, State: n.State, Latitude: n.Latitude, Longitude: n.Longitude, Miles: n.Miles, Years: yearsOf(inv, n.ID)}
		if n.ElevationKnown {
			ft := n.Elevation / feet
			s.ElevationFt = &ft
			if own != nil {
				above := (n.Elevation - *own) / feet
				s.AboveFt = &above
			}
		}
		out = append(out, s)
	}
	return out, nil
}

var feet = unit.Must("ft").Scale // metres

// yearsOf are the years of what is told of a station; nil where there are none.
func yearsOf(inv places.Inventory, id string) map[string]places.Years {
	var out map[string]places.Years
	for _, e := range measured {
		if y, ok := inv[id][e]; ok {
			if out == nil {
				out = map[string]places.Years{}
			}
			out[e] = y
		}
	}
	return out
}

func writeNear(w io.Writer, near []nearStation, above, years bool) error {
	if len(near) == 0 {
		_, err := fmt.Fprintln(w, "No station of the list has temperatures or rain in the inventory.")
		return err
	}
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	head := "STATION\tMILES\tELEVATION FT"
	if above {
		head += "\tABOVE FT"
	}
	if years {
		head += "\t" + strings.Join(measured, "\t")
	}
	fmt.Fprintln(t, head+"\tNAME")
	for _, s := range near {
		fmt.Fprintf(t, "%s\t%.1f\t%s", s.ID, s.Miles, wholeFeet(s.ElevationFt, "%.0f"))
		if above {
			fmt.Fprintf(t, "\t%s", wholeFeet(s.AboveFt, "%+.0f"))
		}
		for _, e := range measured {
			if y, ok := s.Years[e]; ok && years {
				fmt.Fprintf(t, "\t%d-%d", y.First, y.Last)
			} else if years {
				fmt.Fprint(t, "\tnone")
			}
		}
		fmt.Fprintf(t, "\t%s\n", strings.TrimSpace(s.Name+", "+s.State))
	}
	return t.Flush()
}

func wholeFeet(v *float64, format string) string {
	if v == nil {
		return "not known"
	}
	return fmt.Sprintf(format, *v)
}

// negative begins with a minus and a digit: a number, where a flag begins with a letter.
func negative(s string) bool {
	_, err := strconv.ParseFloat(s, 64)
	return err == nil && strings.HasPrefix(s, "-")
}

// asArguments keeps a longitude in the west, as in "near 43.07 -89.40", from being taken for a flag: it is
// joined to the number before it.
func asArguments(args []string) (out []string) {
	for _, a := range args {
		if n := len(out); n > 0 && negative(a) {
			if _, err := strconv.ParseFloat(out[n-1], 64); err == nil {
				out[n-1] += "," + a
				continue
			}
		}
		out = append(out, a)
	}
	return out
}
