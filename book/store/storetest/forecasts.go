package storetest

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"sync"
	"testing"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/book/store"
	"haywarden/weather"
)

// Forecast makes a forecast for a place that a number determines. It knows nothing of the rain of its
// second day, and that is not a dry day.
func Forecast(place string, issued time.Time, n int) weather.Forecast {
	day := unit.DayOf(issued)
	return weather.Forecast{Place: place, Source: "https://example.org/grid", Issued: issued, Days: []weather.ForecastDay{
		{Day: day, TMaxC: new(20 + float64(n)/3), TMinC: new(-0.1), PoP: new(0.52), RainMM: new(0.0)},
		{Day: day + 1, TMaxC: new(21.0)},
	}}
}

const (
	here  = "43.07,-89.40"
	there = "43.10,-89.22"
)

var forecastCases = []suiteCase{
	{"a forecast comes back as it was issued, once", func(t *testing.T, s store.Store) {
		f := Forecast(here, noon, 1)
		same(t, "added", true, putForecast(t, s, f, noon.Add(time.Hour)))
		same(t, "revision", int64(1), revision(t, s))
		same(t, "added again", false, putForecast(t, s, f, noon.Add(2*time.Hour)))
		same(t, "revision after the same again", int64(1), revision(t, s))
		same(t, "forecasts", []weather.Forecast{f}, forecastsOf(t, s, here, time.Time{}))
		same(t, "latest", &f, latest(t, s, here, 0, time.Time{}))
		same(t, "day of issue", may1, unit.DayOf(latest(t, s, here, 0, time.Time{}).Issued))
		same(t, "elsewhere", []weather.Forecast{}, forecastsOf(t, s, there, time.Time{}))
		same(t, "latest elsewhere", (*weather.Forecast)(nil), latest(t, s, there, 0, time.Time{}))
	}},
	{"the weather's revision moves with weather and forecasts alone", func(t *testing.T, s store.Store) {
		at := func() int64 {
			n, err := s.WeatherRevision(context.Background())
			if err != nil {
				t.Fatal(err)
			}
			return n
		}
		same(t, "of an empty book", int64(0), at())
		add(t, s, Ridge(t)...)
		same(t, "after facts", int64(0), at())
		put(t, s, File(1, noon, Block("A", 2025, 1)))
		same(t, "after weather", revision(t, s), at())
		putForecast(t, s, Forecast(here, noon, 1), noon)
		same(t, "after a forecast", revision(t, s), at())
		before := at()
		putForecast(t, s, Forecast(here, noon, 1), noon.Add(time.Hour))
		add(t, s, Fact(t, 4, "", "e", book.Event{Title: "x"}))
		same(t, "after the same again and another fact", before, at())
	}},
	{"forecasts are listed newest issue first, in whatever order they came", func(t *testing.T, s store.Store) {
		var want []weather.Forecast
		for i, hour := range []int{7, 1, 24, 3} {
			f := Forecast(here, noon.Add(time.Duration(hour)*time.Hour), hour)
			want = append(want, f)
			putForecast(t, s, f, noon.Add(time.Duration(30+i)*time.Hour))
		}
		putForecast(t, s, Forecast(there, noon.Add(90*time.Hour), 1), noon)
		slices.SortFunc(want, func(a, b weather.Forecast) int { return b.Issued.Compare(a.Issued) })
		same(t, "forecasts", want, forecastsOf(t, s, here, time.Time{}))
		same(t, "latest", &want[0], latest(t, s, here, 0, time.Time{}))
	}},
	{"what was received later is not known before", func(t *testing.T, s store.Store) {
		older, newer := Forecast(here, noon, 1), Forecast(here, noon.Add(time.Hour), 2)
		putForecast(t, s, older, noon.Add(5*time.Hour))
		putForecast(t, s, newer, noon.Add(6*time.Hour))
		before := noon.Add(6*time.Hour - time.Nanosecond)
		same(t, "before", []weather.Forecast{older}, forecastsOf(t, s, here, before))
		same(t, "latest before", &older, latest(t, s, here, 0, before))
		same(t, "latest then", &newer, latest(t, s, here, 0, noon.Add(6*time.Hour)))
		same(t, "before the first", (*weather.Forecast)(nil), latest(t, s, here, 0, noon))
	}},
	{"a day knows what was issued by its own midnight at the place", func(t *testing.T, s store.Store) {
		// 23:30 on 1 May in Wisconsin, which is 2 May in UTC.
		late := Forecast(here, time.Date(2026, time.May, 1, 23, 30, 0, 0, noon.Location()), 1)
		next := Forecast(here, late.Issued.Add(time.Hour), 2)
		putForecast(t, s, late, noon.Add(20*time.Hour))
		putForecast(t, s, next, noon.Add(20*time.Hour))
		same(t, "by 1 May", &late, latest(t, s, here, may1, time.Time{}))
		same(t, "by 2 May", &next, latest(t, s, here, may1+1, time.Time{}))
		same(t, "by 30 April", (*weather.Forecast)(nil), latest(t, s, here, may1-1, time.Time{}))
	}},
	{"a corrected issue is kept beside the one it replaces", func(t *testing.T, s store.Store) {
		first, second := Forecast(here, noon, 1), Forecast(here, noon, 2)
		putForecast(t, s, first, noon.Add(time.Hour))
		same(t, "added", true, putForecast(t, s, second, noon.Add(2*time.Hour)))
		same(t, "now", []weather.Forecast{second}, forecastsOf(t, s, here, time.Time{}))
		same(t, "latest", &second, latest(t, s, here, 0, time.Time{}))
		same(t, "as known before", []weather.Forecast{first}, forecastsOf(t, s, here, noon.Add(time.Hour)))
		same(t, "latest as known before", &first, latest(t, s, here, 0, noon.Add(time.Hour)))
		same(t, "the first once more", true, putForecast(t, s, first, noon.Add(3*time.Hour)))
		same(t, "and now", []weather.Forecast{first}, forecastsOf(t, s, here, time.Time{}))
	}},
	{"a forecast that cannot be is refused", func(t *testing.T, s store.Store) {
		for _, c := range []struct {
			says string
			edit func(*weather.Forecast)
		}{
			{"which place the forecast is for", func(f *weather.Forecast) { f.Place = "" }},
			{"where the forecast came from", func(f *weather.Forecast) { f.Source = "" }},
			{"the time of its issue is missing", func(f *weather.Forecast) { f.Issued = time.Time{} }},
			{"issued in the year 1066", func(f *weather.Forecast) { f.Issued = f.Issued.AddDate(1066-2026, 0, 0) }},
			{"-21003 s off UTC", func(f *weather.Forecast) { f.Issued = f.Issued.In(time.FixedZone("LMT", -21003)) }},
			{"there is no day in it", func(f *weather.Forecast) { f.Days = nil }},
			{"day 2026-05-01 comes after 2026-05-01", func(f *weather.Forecast) { f.Days[1].Day = may1 }},
			{"chance of rain 40; accepted are 0 to 1", func(f *weather.Forecast) { f.Days[0].PoP = new(40.0) }},
			{"rain -1", func(f *weather.Forecast) { f.Days[0].RainMM = new(-1.0) }},
			{"rain +Inf", func(f *weather.Forecast) { f.Days[0].RainMM = new(math.Inf(1)) }},
			{"highest temperature NaN", func(f *weather.Forecast) { f.Days[1].TMaxC = new(math.NaN()) }},
			{"lowest temperature 80", func(f *weather.Forecast) { f.Days[1].TMinC = new(80.0) }},
			{"zero character", func(f *weather.Forecast) { f.Source = "a\x00" }},
		} {
			f := Forecast(here, noon, 1)
			c.edit(&f)
			_, err := s.PutForecast(context.Background(), f, noon)
			refused(t, err, store.ErrRefused, c.says)
		}
		_, err := s.PutForecast(context.Background(), Forecast(here, noon, 1), time.Time{})
		refused(t, err, store.ErrRefused, "the time it was received is missing")
		same(t, "forecasts", 0, len(forecastsOf(t, s, here, time.Time{})))
		same(t, "revision", int64(0), revision(t, s))
	}},
	{"forecasts that come at once are all kept, each once", func(t *testing.T, s store.Store) {
		const hands, issues = 6, 5
		var group sync.WaitGroup
		errs, news := make([]error, hands), make([]int, hands)
		for h := range hands {
			group.Go(func() {
				for i := range issues {
					added, err := s.PutForecast(context.Background(), Forecast(here, noon.Add(time.Duration(i)*time.Hour), i), noon)
					if err != nil {
						errs[h] = err
						return
					}
					if added {
						news[h]++
					}
				}
			})
		}
		group.Wait()
		total := 0
		for h := range hands {
			if errs[h] != nil {
				t.Fatal(errs[h])
			}
			total += news[h]
		}
		same(t, "added", issues, total)
		same(t, "forecasts", issues, len(forecastsOf(t, s, here, time.Time{})))
		same(t, "revision", int64(issues), revision(t, s))
	}},
	{"forecasts are those that a plain list would hold", func(t *testing.T, s store.Store) {
		random := rand.New(rand.NewPCG(2026, 6))
		var list []weather.Forecast // oldest first as received: one a minute
		for i := range 60 {
			f := Forecast(here, noon.Add(time.Duration(random.IntN(60))*time.Hour), random.IntN(3))
			putForecast(t, s, f, noon.Add(time.Duration(i)*time.Minute))
			list = append(list, f)
			known := random.IntN(len(list))
			at := noon.Add(time.Duration(known) * time.Minute)
			by := may1 + unit.Day(random.IntN(4))
			byIssue := map[time.Time]weather.Forecast{}
			for _, f := range list[:known+1] {
				byIssue[f.Issued] = f
			}
			want := []weather.Forecast{}
			var newest *weather.Forecast
			for _, f := range byIssue {
				want = append(want, f)
				if unit.DayOf(f.Issued) <= by && (newest == nil || f.Issued.After(newest.Issued)) {
					newest = &f
				}
			}
			slices.SortFunc(want, func(a, b weather.Forecast) int { return -cmp.Compare(a.Issued.UnixNano(), b.Issued.UnixNano()) })
			same(t, fmt.Sprintf("forecasts known by receipt %d", known), want, forecastsOf(t, s, here, at))
			same(t, fmt.Sprintf("latest issued by %s and known by receipt %d", by, known), newest, latest(t, s, here, by, at))
		}
	}},
}

func putForecast(t *testing.T, s store.Store, f weather.Forecast, received time.Time) bool {
	t.Helper()
	added, err := s.PutForecast(context.Background(), f, received)
	if err != nil {
		t.Fatal(err)
	}
	return added
}

func forecastsOf(t *testing.T, s store.Store, place string, known time.Time) []weather.Forecast {
	t.Helper()
	forecasts, err := s.Forecasts(context.Background(), place, known)
	if err != nil {
		t.Fatal(err)
	}
	return forecasts
}

func latest(t *testing.T, s store.Store, place string, by unit.Day, known time.Time) *weather.Forecast {
	t.Helper()
	f, err := s.LatestForecast(context.Background(), place, by, known)
	if err != nil {
		t.Fatal(err)
	}
	return f
}
