package office_test

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/office"
	"haywarden/weather"
	"haywarden/weather/nws"
)

// skyReader is a service of forecasts that a test tells what to say.
type skyReader struct {
	asked []string
	kept  []*weather.Forecast
	say   func(place string) (weather.Forecast, bool, error)
}

func (s *skyReader) Forecast(_ context.Context, lat, lon float64, kept *weather.Forecast) (weather.Forecast, bool, error) {
	place := nws.PlaceOf(lat, lon)
	s.asked, s.kept = append(s.asked, place), append(s.kept, kept)
	return s.say(place)
}

// issue makes a forecast for a place at a time in Wisconsin's summer.
func issue(t *testing.T, place, at string) weather.Forecast {
	t.Helper()
	issued, err := time.ParseInLocation("2006-01-02 15:04", at, time.FixedZone("CDT", -5*3600))
	if err != nil {
		t.Fatal(err)
	}
	d := unit.DayOf(issued)
	return weather.Forecast{Place: place, Source: "https://example.org/" + place, Issued: issued, Days: []weather.ForecastDay{{Day: d, TMaxC: new(24.0)}, {Day: d + 1, TMinC: new(9.0)}}}
}

// giving makes a service that issues at a time for every place.
func giving(t *testing.T, at string) *skyReader {
	return &skyReader{say: func(place string) (weather.Forecast, bool, error) { return issue(t, place, at), true, nil }}
}

// spread records a farm with fields at positions; the position of nowhere leaves it to the farm.
func spread(t *testing.T, o *office.Office, positions ...[2]float64) {
	t.Helper()
	d := unit.DateOf(2022, 4, 20)
	farm := record(t, o, office.Entry{Day: d, Body: book.Farm{Name: "Alder Run", Latitude: 44.5, Longitude: -91.25}})
	for i, p := range positions {
		record(t, o, office.Entry{Farm: farm, Day: d, Body: book.Field{Name: fmt.Sprintf("F%d", i+1), Acres: 10, Latitude: p[0], Longitude: p[1]}})
	}
}

func fetch(t *testing.T, o *office.Office, from office.Forecaster) []office.PlaceForecast {
	t.Helper()
	places, err := o.FetchForecasts(t.Context(), ida, from)
	if err != nil {
		t.Fatal(err)
	}
	return places
}

func TestFieldsNearEachOtherShareAForecast(t *testing.T) {
	o, _ := newOffice(t, "2026-06-10 14:00")
	spread(t, o, [2]float64{43.0731, -89.4012}, [2]float64{43.0749, -89.3951}, [2]float64{43.12, -89.4}, [2]float64{})
	record(t, o, office.Entry{Farm: record(t, o, office.Entry{Day: unit.DateOf(2022, 4, 20), Body: book.Farm{Name: "Nowhere"}}), Day: unit.DateOf(2022, 4, 20), Body: book.Field{Name: "Lost", Acres: 3}})
	s := giving(t, "2026-06-10 04:00")
	var got []string
	for _, p := range fetch(t, o, s) {
		if !p.Added || p.Problem != "" || p.Latest == nil || p.Latest.Place != p.Place {
			t.Errorf("%+v", p)
		}
		got = append(got, p.Place+": "+strings.Join(p.Fields, ", "))
	}
	want := []string{"43.07,-89.40: Alder Run · F1, Alder Run · F2", "43.12,-89.40: Alder Run · F3", "44.50,-91.25: Alder Run · F4"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("places (-want +got):\n%s", diff)
	}
	slices.Sort(s.asked)
	if want := []string{"43.07,-89.40", "43.12,-89.40", "44.50,-91.25"}; !slices.Equal(s.asked, want) {
		t.Errorf("asked for %v, want each once", s.asked)
	}
}

func TestTheSameForecastAgainAddsNothing(t *testing.T) {
	o, c := newOffice(t, "2026-06-10 14:00")
	spread(t, o, [2]float64{43.07, -89.4})
	s := giving(t, "2026-06-10 04:00")
	first := fetch(t, o, s)[0]
	c.set("2026-06-10 15:00")
	again := fetch(t, o, s)[0]
	if again.Added || again.Problem != "" || !again.Latest.Issued.Equal(first.Latest.Issued) {
		t.Errorf("sent again: %+v", again)
	}
	if s.kept[0] != nil || s.kept[1] == nil || !s.kept[1].Issued.Equal(first.Latest.Issued) {
		t.Errorf("the service was told of %v", s.kept)
	}
	s.say = func(string) (weather.Forecast, bool, error) { return *again.Latest, false, nil }
	if p := fetch(t, o, s)[0]; p.Added || p.Problem != "" || p.Latest == nil {
		t.Errorf("unchanged: %+v", p)
	}
	// An older one handed out by mistake is kept, and is not the newest.
	older := giving(t, "2026-06-09 04:00")
	if p := fetch(t, o, older)[0]; p.Added || !p.Latest.Issued.Equal(first.Latest.Issued) {
		t.Errorf("an older one: %+v", p)
	}
	if p := fetch(t, o, giving(t, "2026-06-10 09:00"))[0]; !p.Added || p.Latest.Issued.Hour() != 9 {
		t.Errorf("a newer one: %+v", p)
	}
}

func TestWhatFailsForOnePlaceIsToldBesideWhatIsKept(t *testing.T) {
	o, _ := newOffice(t, "2026-06-10 14:00")
	spread(t, o, [2]float64{43.07, -89.4}, [2]float64{43.12, -89.4})
	fetch(t, o, giving(t, "2026-06-09 04:00"))
	s := giving(t, "2026-06-10 04:00")
	good := s.say
	s.say = func(place string) (weather.Forecast, bool, error) {
		if place == "43.07,-89.40" {
			return weather.Forecast{}, false, fmt.Errorf("forecast for %s: %w (503)", place, nws.ErrExpired)
		}
		return good(place)
	}
	places := fetch(t, o, s)
	if p := places[0]; p.Added || p.Latest == nil || !strings.HasPrefix(p.Problem, "the service has no newer forecast") {
		t.Errorf("the one that failed: %+v", p)
	}
	if p := places[1]; !p.Added || p.Problem != "" {
		t.Errorf("the other: %+v", p)
	}
	// What the book does not take is a problem of that place, too.
	s.say = func(place string) (weather.Forecast, bool, error) {
		f := issue(t, place, "2026-06-10 05:00")
		f.Days[0].PoP = new(4.0)
		return f, true, nil
	}
	if p := fetch(t, o, s)[0]; p.Added || p.Latest == nil || !strings.Contains(p.Problem, "chance of rain 4") {
		t.Errorf("one that cannot be: %+v", p)
	}
}

func TestOfflineNobodyIsAskedTwice(t *testing.T) {
	o, _ := newOffice(t, "2026-06-10 14:00")
	spread(t, o, [2]float64{43.07, -89.4}, [2]float64{43.12, -89.4}, [2]float64{43.2, -89.4})
	fetch(t, o, giving(t, "2026-06-09 04:00"))
	s := &skyReader{say: func(place string) (weather.Forecast, bool, error) {
		return weather.Forecast{}, false, fmt.Errorf("forecast for %s: %w (dial)", place, nws.ErrOffline)
	}}
	for _, p := range fetch(t, o, s) {
		if p.Latest == nil || p.Added || !strings.Contains(p.Problem, "cannot be reached") {
			t.Errorf("%+v", p)
		}
	}
	if len(s.asked) != 1 {
		t.Errorf("asked for %v", s.asked)
	}
}

func TestTheOldestAreAskedForFirstAndNoneIsLeftOutTwice(t *testing.T) {
	o, _ := newOffice(t, "2026-06-10 14:00")
	positions := make([][2]float64, 45)
	for i := range positions {
		positions[i] = [2]float64{40 + float64(i)/10, -89.4}
	}
	spread(t, o, positions...)
	count := func(places []office.PlaceForecast) (added, left int) {
		for _, p := range places {
			if p.Added {
				added++
			}
			if strings.Contains(p.Problem, "its turn comes the next time") {
				left++
			}
		}
		return added, left
	}
	first := fetch(t, o, giving(t, "2026-06-10 04:00"))
	if added, left := count(first); added != 40 || left != 5 {
		t.Errorf("%d added and %d left out, want 40 and 5", added, left)
	}
	if !slices.IsSortedFunc(first, func(a, b office.PlaceForecast) int { return strings.Compare(a.Place, b.Place) }) {
		t.Error("not by place")
	}
	s := giving(t, "2026-06-10 05:00")
	second := fetch(t, o, s)
	for _, p := range second {
		if p.Latest == nil {
			t.Errorf("%s was left out twice", p.Place)
		}
	}
	if added, left := count(second); added != 40 || left != 5 || slices.Contains(s.asked[5:], s.asked[0]) {
		t.Errorf("%d added and %d left out of %v", added, left, s.asked)
	}
}

func TestAForecastIsUsedFromItsIssueAndItsReceiptOn(t *testing.T) {
	o, c := newOffice(t, "2026-06-09 14:00")
	spread(t, o, [2]float64{43.07, -89.4})
	const place = "43.07,-89.40"
	fetch(t, o, giving(t, "2026-06-09 08:00"))
	known := o.Now()
	c.set("2026-06-11 04:00") // 23:00 of 10 June there
	fetch(t, o, giving(t, "2026-06-10 22:30"))
	for name, k := range map[string]struct {
		ask  office.Ask
		want string
	}{
		"now":                            {office.Ask{}, "2026-06-10 22:30"},
		"that day":                       {office.Ask{Date: unit.DateOf(2026, 6, 10)}, "2026-06-10 22:30"},
		"the day before, whatever came":  {office.Ask{Date: unit.DateOf(2026, 6, 9)}, "2026-06-09 08:00"},
		"now, as known before":           {office.Ask{Known: known}, "2026-06-09 08:00"},
		"before any was issued":          {office.Ask{Date: unit.DateOf(2026, 6, 8)}, ""},
		"before any was received":        {office.Ask{Known: known.Add(-time.Second)}, ""},
		"as known at a time yet to come": {office.Ask{Known: known.AddDate(1, 0, 0)}, "2026-06-10 22:30"},
	} {
		f, err := o.Forecast(t.Context(), ida, place, k.ask)
		if err != nil {
			t.Fatal(err)
		}
		got := ""
		if f != nil {
			got = f.Issued.Format("2006-01-02 15:04")
		}
		if got != k.want {
			t.Errorf("%s: issued %q, want %q", name, got, k.want)
		}
		all, err := o.Forecasts(t.Context(), ida, k.ask)
		if err != nil {
			t.Fatal(err)
		}
		// The field was recorded when the clock stood at the earlier time.
		if k.ask.Known.IsZero() || !k.ask.Known.Before(known) {
			if len(all) != 1 || (all[0].Latest == nil) != (f == nil) || f != nil && !all[0].Latest.Issued.Equal(f.Issued) {
				t.Errorf("%s: of all places %+v", name, all)
			}
		} else if len(all) != 0 {
			t.Errorf("%s: places that were not known: %+v", name, all)
		}
	}
}

func TestForecastsAreForThoseWhoMayHaveThem(t *testing.T) {
	o, _ := newOffice(t, "2026-06-10 14:00")
	spread(t, o, [2]float64{43.07, -89.4})
	s := giving(t, "2026-06-10 04:00")
	for _, a := range []office.Actor{{}, {Name: "eve"}, {Name: "eve", Role: "guest"}} {
		for name, do := range map[string]func() error{
			"fetch": func() error { _, err := o.FetchForecasts(t.Context(), a, s); return err },
			"one":   func() error { _, err := o.Forecast(t.Context(), a, "43.07,-89.40", office.Ask{}); return err },
			"all":   func() error { _, err := o.Forecasts(t.Context(), a, office.Ask{}); return err },
		} {
			if err := do(); !errors.Is(err, office.ErrForbidden) {
				t.Errorf("%s by %+v: error %v", name, a, err)
			}
		}
	}
	if len(s.asked) != 0 {
		t.Errorf("asked for %v", s.asked)
	}
}

func TestFetchingEndsWithItsContext(t *testing.T) {
	o, _ := newOffice(t, "2026-06-10 14:00")
	spread(t, o, [2]float64{43.07, -89.4}, [2]float64{43.12, -89.4})
	ctx, cancel := context.WithCancel(t.Context())
	s := giving(t, "2026-06-10 04:00")
	good := s.say
	s.say = func(place string) (weather.Forecast, bool, error) {
		if len(s.asked) == 2 {
			cancel()
			return weather.Forecast{}, false, ctx.Err()
		}
		return good(place)
	}
	if _, err := o.FetchForecasts(ctx, ida, s); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v", err)
	}
	all, err := o.Forecasts(t.Context(), ida, office.Ask{})
	if err != nil || all[0].Latest == nil || all[1].Latest != nil {
		t.Errorf("kept of what came before: %+v, %v", all, err)
	}
}
