package web_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"net/http/httptest"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/book/store"
	"haywarden/demo"
	"haywarden/office"
	"haywarden/weather/intake"
	"haywarden/web"
)

var reader = office.Actor{Name: "reader", Role: office.Adviser}

// newBook is an empty book whose clock stands at a time.
func newBook(tb testing.TB, at time.Time) *office.Office {
	tb.Helper()
	clock := func() time.Time { return at }
	db, err := store.Create(context.Background(), filepath.Join(tb.TempDir(), "d.book"), store.Options{Now: clock})
	if err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() {
		if err := db.Close(); err != nil {
			tb.Error(err)
		}
	})
	return office.New(db, clock, rand.NewChaCha8([32]byte{}))
}

func serve(tb testing.TB, o *office.Office, opts web.Options) *httptest.Server {
	tb.Helper()
	srv := httptest.NewServer(web.New(o, reader, opts).Handler())
	tb.Cleanup(srv.Close)
	return srv
}

// district serves the invented district.
func district(tb testing.TB) (*httptest.Server, *office.Office) {
	tb.Helper()
	d, err := demo.Make(demo.Seed)
	if err != nil {
		tb.Fatal(err)
	}
	o := newBook(tb, unit.DateOf(2027, time.December, 31).Time())
	ctx := context.Background()
	if _, err := o.Receive(ctx, reader, d.Facts); err != nil {
		tb.Fatal(err)
	}
	seen := map[string]bool{}
	var in []office.Delivery
	for _, w := range d.Weather {
		key := w.Block.Station + w.Received.Format("2006")
		received := w.Received
		if !seen[key] {
			received = unit.DateOf(w.Block.Year, time.January, 1).Time()
		}
		seen[key] = true
		in = append(in, office.Delivery{Block: w.Block, Received: received})
	}
	if err := o.ReceiveWeather(ctx, reader, d.Stations, in); err != nil {
		tb.Fatal(err)
	}
	var ahead []office.ForecastDelivery
	station := map[string]string{}
	for _, s := range d.Stations {
		station[fmt.Sprintf("%.2f,%.2f", s.Latitude, s.Longitude)] = s.ID
	}
	shown := unit.DateOf(2026, time.May, 19)
	for _, f := range demo.Forecasts(demo.Seed, shown, shown, station) {
		ahead = append(ahead, office.ForecastDelivery{Forecast: f, Received: f.Issued.Add(time.Hour)})
	}
	if err := o.ReceiveForecasts(ctx, reader, ahead); err != nil {
		tb.Fatal(err)
	}
	return serve(tb, o, web.Options{Demo: true, Start: unit.DateOf(2026, time.May, 19)}), o
}

const (
	longFarm  = "Upper Nether Wallop and Sons Dairy, Heifer and Cash Crop Partnership of the Third Generation"
	longField = "TheFieldBehindTheOldSchoolhouseBetweenTheTwoCreeksThatTheNeighboursCallTheLongNarrowOne"
)

// hardBook holds what pages stumble over: very long names, with and without spaces, a stand without a
// station, one whose station has no weather, and names that look like markup.
func hardBook(tb testing.TB) (*httptest.Server, []string) {
	tb.Helper()
	o := newBook(tb, unit.DateOf(2026, time.May, 19).Time().Add(7*time.Hour))
	day := unit.DateOf(2023, time.April, 20)
	record := func(farm string, body book.Body) string {
		r, err := o.Record(context.Background(), reader, office.Entry{Farm: farm, Day: day, Body: body})
		if err != nil {
			tb.Fatal(err)
		}
		return r.Subjects[0]
	}
	var stands []string
	for _, f := range []struct{ farm, field, station string }{
		{longFarm, longField, ""}, {"A & B <b>Brothers</b>", "O'Hara's \"Forty\"", "ZZT00000009"},
	} {
		farm := record("", book.Farm{Name: f.farm})
		record(farm, book.Contact{Name: "Somebody Withaverylongnameindeed-Andahyphen", Phone: "call the shop"})
		field := record(farm, book.Field{Name: f.field, Acres: 12.5, Station: f.station})
		stands = append(stands, record(farm, book.Stand{Field: field, Crop: book.Alfalfa, Seeded: day}))
	}
	const short = "STATION,NAME,DATE,PRCP,TMAX,TMIN\nZZT00000001,\"A & B <i>Mill</i>, the one with the name that goes on and on\",2026-05-17,0.2,20.0,9.0\n" +
		"ZZT00000001,,2026-05-18,,21.0,10.0\n"
	if _, err := o.ImportWeather(context.Background(), reader, strings.NewReader(short), "short.csv", intake.Options{Units: "metric"}); err != nil {
		tb.Fatal(err)
	}
	return serve(tb, o, web.Options{}), stands
}
