package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"net/http"
	"os"
	"strings"
	"time"
	_ "time/tzdata" // a place's zone is found on every machine

	"github.com/spf13/cobra"

	"haywarden/office"
	"haywarden/weather"
	"haywarden/weather/nws"
)

// patience is how long one answer of the forecast service is waited for (choice).
const patience = 30 * time.Second

func newWeatherFetchCommand(m *Main) *cobra.Command {
	var location, contact, service string
	var offline, asJSON bool
	c := &cobra.Command{
		Use:   "fetch",
		Short: "Fetch forecasts for the places of the fields",
		Long: `Asks the National Weather Service for the forecast of each place where fields lie (fields within
about a kilometre share one), and keeps each forecast by the time it was issued. The service wants to
know who asks: give an address it can write to. Without a connection what is kept is shown with its
age; the command fails only where there is nothing at all.`,
		Example: "  haywarden weather fetch --contact you@example.org\n  haywarden weather fetch --offline",
		Args:    cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			var client *nws.Client
			if !offline {
				var err error
				if client, err = forecaster(contact, service); err != nil {
					return err
				}
			}
			o, done, err := openOffice(c.Context(), m, location)
			if err != nil {
				return err
			}
			var places []office.PlaceForecast
			if offline {
				places, err = o.Forecasts(c.Context(), adviser(), office.Ask{})
			} else {
				places, err = fetchShown(c.Context(), m, o, client)
			}
			if err := closed(err, done); err != nil {
				return err
			}
			if err := anyForecast(places); err != nil {
				return err
			}
			if asJSON {
				return writeJSON(m.Stdout, places)
			}
			for _, p := range places {
				fmt.Fprintln(m.Stdout, forecastLine(p, o.Now()))
			}
			return nil
		},
	}
	bookFlag(c, &location)
	c.Flags().StringVar(&contact, "contact", os.Getenv("HAYWARDEN_CONTACT"), "address at which the service can reach you: an e-mail or a web page (HAYWARDEN_CONTACT sets it too)")
	c.Flags().StringVar(&service, "service", nws.Base, "address of the forecast service")
	c.Flags().BoolVar(&offline, "offline", false, "ask nobody; show what is kept and how old it is")
	c.Flags().BoolVar(&asJSON, "json", false, "print as JSON")
	return c
}

// forecaster makes the client of the forecast service.
func forecaster(contact, service string) (*nws.Client, error) {
	if contact == "" {
		return nil, usage("weather fetch: the forecast service turns away whoever does not say how to reach them: give --contact you@example.org, or --offline to see what is kept")
	}
	mail := strings.Contains(strings.Trim(contact, "@"), "@")
	page := strings.HasPrefix(contact, "https://") || strings.HasPrefix(contact, "http://")
	if !mail && !page || strings.ContainsAny(contact, " ()\t") {
		return nil, usage("--contact %q: want an e-mail address such as you@example.org, or a web page such as https://example.org", contact)
	}
	client, err := nws.New(&http.Client{Timeout: patience}, service, "Haywarden ("+contact+")", nws.World{
		Now: time.Now, Wait: wait, Zone: time.LoadLocation, Random: rand.New(rand.NewPCG(rand.Uint64(), rand.Uint64())),
	})
	if err != nil {
		return nil, usage("weather fetch: %v", err)
	}
	return client, nil
}

// fetchShown fetches the forecasts of all places, and on a terminal shows how far it has come: each place
// waits for its turn, so that many take a minute.
func fetchShown(ctx context.Context, m *Main, o *office.Office, client office.Forecaster) ([]office.PlaceForecast, error) {
	if !onTerminal(m.Stderr) {
		return o.FetchForecasts(ctx, adviser(), client)
	}
	kept, err := o.Forecasts(ctx, adviser(), office.Ask{})
	if err != nil {
		return nil, err
	}
	p := &shownForecaster{Forecaster: client, out: m.Stderr, of: len(kept)}
	places, err := o.FetchForecasts(ctx, adviser(), p)
	fmt.Fprint(m.Stderr, clearLine)
	return places, err
}

// clearLine goes back to the start of a terminal's line and empties it.
const clearLine = "\r\x1b[K"

// shownForecaster says on one line which place is being asked for.
type shownForecaster struct {
	office.Forecaster
	out       io.Writer
	asked, of int
}

// Forecast implements [office.Forecaster].
func (s *shownForecaster) Forecast(ctx context.Context, latitude, longitude float64, kept *weather.Forecast) (weather.Forecast, bool, error) {
	s.asked++
	fmt.Fprintf(s.out, "%sforecast %d of %d, %s", clearLine, s.asked, s.of, nws.PlaceOf(latitude, longitude))
	return s.Forecaster.Forecast(ctx, latitude, longitude, kept)
}

// onTerminal reports whether what is written is seen by a person as it comes.
func onTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// wait lets time pass, or ends early with ctx.
func wait(ctx context.Context, d time.Duration) error {
	t := time.NewTimer(d)
	defer t.Stop()
	select {
	case <-t.C:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

// anyForecast fails where no place has a forecast.
func anyForecast(places []office.PlaceForecast) error {
	if len(places) == 0 {
		return errors.New("no field or farm of the book says where it lies: give latitude and longitude, such as in the table of `haywarden import stands`")
	}
	problem := "`haywarden weather fetch --contact you@example.org` asks for them"
	for _, p := range places {
		if p.Latest != nil {
			return nil
		}
		if p.Problem != "" {
			problem = p.Problem
		}
	}
	return fmt.Errorf("no forecast is kept for any of %s: %s", counted(len(places), "place"), problem)
}

// forecastLine says what came for a place and how old it is.
func forecastLine(p office.PlaceForecast, now time.Time) string {
	line := p.Place + " (" + fieldsShort(p.Fields) + "): "
	switch f := p.Latest; {
	case f == nil && p.Problem == "":
		return line + "none is kept"
	case f == nil:
		return line + "none came and none is kept: " + p.Problem
	default:
		line += fmt.Sprintf("issued %s, %s; %s from %s", f.Issued.Format("Mon 2 Jan 15:04 -0700"), office.AgeOf(f.Age(now)), counted(len(f.Days), "day"), f.Days[0].Day.Time().Format("2 Jan"))
	}
	switch {
	case p.Problem != "":
		line += "; no newer one came: " + p.Problem
	case p.Added:
		line += "; new"
	}
	return line
}

// fieldsShort names the first field of a place and counts the others.
func fieldsShort(fields []string) string {
	if n := len(fields) - 1; n > 0 {
		return fmt.Sprintf("%s and %s", fields[0], counted(n, "other"))
	}
	return fields[0]
}
