package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"haywarden/advice"
)

func newRouteCommand(m *Main) *cobra.Command {
	var location string
	var when askFlags
	var asJSON bool
	c := &cobra.Command{
		Use:   "route",
		Short: "The shortest way past the fields that want a look this week",
		Long: `Lays the round's errands of today and this week out as one way: which field next, what to look at
there, and how far it is in a straight line. Fields whose place is not known stand at the end.`,
		Example: "  haywarden route\n  haywarden route --date 2026-05-12",
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
			r, err := o.Round(c.Context(), adviser(), ask)
			if err := closed(err, done); err != nil {
				return err
			}
			way := r.Route()
			if asJSON {
				return writeJSON(m.Stdout, routeFile(way))
			}
			_, err = fmt.Fprint(m.Stdout, routeText(way))
			return err
		},
	}
	bookFlag(c, &location)
	when.add(c)
	c.Flags().BoolVar(&asJSON, "json", false, "print as JSON")
	return c
}

// stopFile is a stop as a file.
type stopFile struct {
	Stand string   `json:"stand"`
	Farm  string   `json:"farm"`
	Field string   `json:"field"`
	Miles float64  `json:"miles_from_last"`
	Look  []string `json:"look"`
}

type wayFile struct {
	Miles float64    `json:"miles"`
	Stops []stopFile `json:"stops"`
	Lost  []stopFile `json:"place_not_known"`
	// Cautions are those of all that is to be looked at.
	Cautions []string `json:"cautions,omitempty"`
}

func routeFile(way advice.Route) wayFile {
	return wayFile{way.Miles, stopFiles(way.Stops), stopFiles(way.Lost), routeCautions(way)}
}

func stopFiles(stops []advice.Stop) []stopFile {
	out := []stopFile{}
	for _, s := range stops {
		f := stopFile{Stand: s.Stand.ID, Farm: s.Stand.Farm.Name, Field: s.Stand.InField.Name, Miles: s.Miles}
		for _, p := range s.Pieces {
			f.Look = append(f.Look, p.Title)
		}
		out = append(out, f)
	}
	return out
}

func routeText(way advice.Route) string {
	var b strings.Builder
	if len(way.Stops)+len(way.Lost) == 0 {
		return "No field wants a look this week.\n"
	}
	if n := len(way.Stops); n > 0 {
		fmt.Fprintf(&b, "%s, %.0f miles in straight lines; roads are longer.\n", counted(n, "field"), way.Miles)
	}
	for i, s := range way.Stops {
		fmt.Fprintf(&b, "%3d. %-42s %5.1f mi  %s\n", i+1, s.Stand.Named(), s.Miles, looks(s))
	}
	if len(way.Lost) > 0 {
		b.WriteString("Place not known (give latitude and longitude in the table of stands):\n")
		for _, s := range way.Lost {
			fmt.Fprintf(&b, "     %-42s           %s\n", s.Stand.Named(), looks(s))
		}
	}
	for _, c := range routeCautions(way) {
		wrap(&b, "", "Caution: "+c)
	}
	return b.String()
}

func routeCautions(way advice.Route) []string {
	var looks []*advice.Piece
	for _, s := range slices.Concat(way.Stops, way.Lost) {
		looks = append(looks, s.Pieces...)
	}
	return advice.CautionsOf(looks...)
}

// looks says what is to be looked at.
func looks(s advice.Stop) string {
	var what []string
	for _, p := range s.Pieces {
		what = append(what, p.Title)
	}
	return strings.Join(what, "; ")
}
