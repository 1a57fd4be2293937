package main

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"net"
	"os"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"

	"haywarden/agronomy/unit"
	"haywarden/book/store"
	"haywarden/demo"
	"haywarden/office"
	"haywarden/weather/nws"
	"haywarden/web"
)

// demoDay is the day shown when nobody asks for another: first cut is near.
var demoDay = unit.DateOf(2026, time.May, 19)

func newDemoCommand(m *Main) *cobra.Command {
	var date, listen string
	var once, asJSON, grounds bool
	c := &cobra.Command{
		Use:   "demo",
		Short: "Show the main job on invented farms",
		Long: `Makes an invented district in a temporary book, prints its round and serves its pages on this
machine until you press Ctrl-C. Nothing is kept and nothing outside the temporary folder is touched.`,
		Example: "  haywarden demo\n  haywarden demo --date 2026-09-08\n  haywarden demo --once --json",
		Args:    cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			day := demoDay
			if date != "" {
				d, err := unit.ParseDay(date)
				if err != nil {
					return usage("--date: %v", err)
				}
				if from, to := unit.DateOf(2025, 1, 1), unit.DateOf(2027, 12, 31); d < from || d > to {
					return usage("--date %s: the invented district is known from %s to %s", d, from, to)
				}
				day = d
			}
			address, err := loopback(listen)
			if err != nil {
				return err
			}
			return runDemo(c.Context(), m, day, demoShow{address: address, once: once, json: asJSON, grounds: grounds})
		},
	}
	c.Flags().StringVar(&date, "date", "", "the day to show, 2025-01-01 to 2027-12-31 (default 2026-05-19)")
	c.Flags().StringVar(&listen, "listen", defaultListen, "address to serve on; only this machine until accounts exist")
	c.Flags().BoolVar(&once, "once", false, "print the round and end")
	c.Flags().BoolVar(&asJSON, "json", false, "print the round as JSON")
	c.Flags().BoolVar(&grounds, "grounds", false, "print what each answer rests on")
	return c
}

type demoShow struct {
	address             string
	once, json, grounds bool
}

func runDemo(ctx context.Context, m *Main, day unit.Day, show demoShow) (err error) {
	var listener net.Listener
	if !show.once {
		// The port is taken first: a taken one is said before any work is done.
		if listener, err = listenOn(ctx, show.address); err != nil {
			return err
		}
		defer func() { err = errors.Join(err, ignoreClosed(listener.Close())) }()
	}
	folder, err := os.MkdirTemp("", "haywarden-demo-")
	if err != nil {
		return fmt.Errorf("make the demo: %w", err)
	}
	defer func() { err = errors.Join(err, os.RemoveAll(folder)) }()
	o, done, err := makeDemo(ctx, filepath.Join(folder, "larkmoor.book"), day)
	if err != nil {
		return fmt.Errorf("make the demo: %w", err)
	}
	defer func() { err = errors.Join(err, done()) }()

	r, err := o.Round(ctx, adviser(), demoAsk(day))
	if err != nil {
		return err
	}
	if show.json {
		if err := writeJSON(m.Stdout, r.File()); err != nil {
			return err
		}
	} else {
		writeRound(m.Stdout, r, show.grounds)
	}
	if show.once {
		return nil
	}
	fmt.Fprintf(m.Stdout, "\nThe pages are at http://%s/round — press Ctrl-C to end.\n", listener.Addr())
	site := web.New(o, adviser(), web.Options{Demo: true, Start: day, Log: m.Log})
	return serve(ctx, listener, site.Handler())
}

// demoAsk asks for a day as the book was known that morning.
func demoAsk(day unit.Day) office.Ask {
	return office.Ask{Date: day, Known: web.Morning(day)}
}

// makeDemo fills a new book with the invented district. All its weather stands in the book from the
// start of each year, so that the pages can show any day; what lies after a day is never used for it. The
// forecasts are those of the mornings around the day shown.
func makeDemo(ctx context.Context, path string, day unit.Day) (*office.Office, func() error, error) {
	d, err := demo.Make(demo.Seed)
	if err != nil {
		return nil, nil, err
	}
	end := unit.DateOf(2027, time.December, 31).Time().Add(20 * time.Hour)
	clock := func() time.Time { return end }
	db, err := store.Create(ctx, path, store.Options{Now: clock, Program: version()})
	if err != nil {
		return nil, nil, err
	}
	o := office.New(db, clock, rand.Reader)
	if _, err := o.Receive(ctx, adviser(), d.Facts); err != nil {
		return nil, nil, errors.Join(err, db.Close())
	}
	if err := o.ReceiveWeather(ctx, adviser(), d.Stations, deliveries(d)); err != nil {
		return nil, nil, errors.Join(err, db.Close())
	}
	if err := o.ReceiveForecasts(ctx, adviser(), forecastsAround(d, day)); err != nil {
		return nil, nil, errors.Join(err, db.Close())
	}
	return o, db.Close, nil
}

// The mornings around the day shown whose forecasts the demo's book holds: days beyond show a forecast that
// grows old, as in a book whose keeper had no connection.
const forecastsBefore, forecastsAfter = 14, 13

// forecastsAround are the forecasts of the mornings around a day for where the stations lie, each received
// an hour later.
func forecastsAround(d demo.District, day unit.Day) []office.ForecastDelivery {
	station := map[string]string{}
	for _, s := range d.Stations {
		station[nws.PlaceOf(s.Latitude, s.Longitude)] = s.ID
	}
	var out []office.ForecastDelivery
	for _, f := range demo.Forecasts(demo.Seed, day-forecastsBefore, day+forecastsAfter, station) {
		out = append(out, office.ForecastDelivery{Forecast: f, Received: f.Issued.Add(time.Hour)})
	}
	return out
}

// deliveries dates each first delivery of a year at the year's beginning; corrections keep their day.
func deliveries(d demo.District) []office.Delivery {
	type stationYear struct {
		station string
		year    int
	}
	seen := map[stationYear]bool{}
	out := make([]office.Delivery, len(d.Weather))
	for i, w := range d.Weather {
		key := stationYear{w.Block.Station, w.Block.Year}
		received := w.Received
		if !seen[key] {
			received = unit.DateOf(key.year, time.January, 1).Time()
		}
		seen[key] = true
		out[i] = office.Delivery{Block: w.Block, Received: received}
	}
	return out
}
