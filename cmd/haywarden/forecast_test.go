package main

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"haywarden/office"
	"haywarden/weather"
)

// forecastService answers as the public one does for any place in Wisconsin, with a grid issued three
// hours ago.
type forecastService struct {
	*httptest.Server
	issued time.Time
	asked  atomic.Int64
	agent  atomic.Value
}

func newForecastService(t *testing.T) *forecastService {
	t.Helper()
	s := &forecastService{issued: time.Now().UTC().Add(-3 * time.Hour).Truncate(time.Second)}
	s.Server = httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		s.asked.Add(1)
		s.agent.Store(r.Header.Get("User-Agent"))
		w.Header().Set("Content-Type", "application/geo+json")
		if strings.HasPrefix(r.URL.Path, "/points/") {
			fmt.Fprintf(w, `{"properties":{"gridId":"MKX","gridX":37,"gridY":63,"forecastGridData":"%s/gridpoints/MKX/37,63","timeZone":"America/Chicago"}}`, s.URL)
			return
		}
		if since, err := http.ParseTime(r.Header.Get("If-Modified-Since")); err == nil && !s.issued.After(since) {
			w.WriteHeader(http.StatusNotModified)
			return
		}
		w.Header().Set("Last-Modified", s.issued.Format(http.TimeFormat))
		fmt.Fprintf(w, `{"properties":{"updateTime":%q,"maxTemperature":{"uom":"wmoUnit:degC","values":[{"validTime":"%s/PT6H","value":26.67}]}}}`,
			s.issued.Format(time.RFC3339), s.issued.Add(2*24*time.Hour).Format(time.RFC3339))
	}))
	t.Cleanup(s.Close)
	return s
}

// fieldAt is a table of one stand at a position in Wisconsin.
const fieldAt = "farm,field,acres,latitude,longitude,crop,seeded\nAlder Run,Home Forty,40,43.0731,-89.4012,alfalfa,2022-04-20\n"

func TestForecastsAreFetchedOnceAndKept(t *testing.T) {
	t.Parallel()
	d, s := newDesk(t), newForecastService(t)
	d.must("import", "stands", d.file("stands.csv", fieldAt))
	fetch := []string{"weather", "fetch", "--contact", "ida@example.org", "--service", s.URL}
	out := d.must(fetch...)
	for _, want := range []string{"43.07,-89.40 (Alder Run · Home Forty): issued ", ", 3 hours old; 1 day from ", "; new\n"} {
		if !strings.Contains(out, want) {
			t.Errorf("the first time it says %q, want %q", out, want)
		}
	}
	if got := s.agent.Load(); got != "Haywarden (ida@example.org)" {
		t.Errorf("the service was told %q", got)
	}
	revision := d.revision()
	if out := d.must(fetch...); strings.Contains(out, "new") || !strings.Contains(out, "3 hours old; 1 day from ") {
		t.Errorf("the second time it says %q", out)
	}
	if n := d.revision(); n != revision {
		t.Errorf("revision %d after the second time, want %d", n, revision)
	}
	d.sound()
	asked := s.asked.Load()
	var places []office.PlaceForecast
	if err := json.Unmarshal([]byte(d.must("weather", "fetch", "--offline", "--json")), &places); err != nil {
		t.Fatal(err)
	}
	if len(places) != 1 || places[0].Latest == nil || !places[0].Latest.Issued.Equal(s.issued) || places[0].Latest.Source != s.URL+"/gridpoints/MKX/37,63" {
		t.Errorf("kept: %+v", places)
	}
	if s.asked.Load() != asked {
		t.Error("offline, the service was asked")
	}
	s.Close()
	if out := d.must(fetch...); !strings.Contains(out, "3 hours old") || !strings.Contains(out, "; no newer one came: the forecast service cannot be reached") {
		t.Errorf("without a connection it says %q", out)
	}
}

func TestFetchingFailsOnlyWhereThereIsNothingAtAll(t *testing.T) {
	t.Parallel()
	d, s := newDesk(t), newForecastService(t)
	s.Close()
	fetch := []string{"weather", "fetch", "--contact", "ida@example.org", "--service", s.URL}
	d.fails(exitFailure, []string{"says where it lies", "latitude and longitude"}, fetch...)
	d.must("import", "stands", d.file("stands.csv", fieldAt))
	d.fails(exitFailure, []string{"no forecast is kept for any of 1 place", "cannot be reached"}, fetch...)
	d.fails(exitFailure, []string{"no forecast is kept", "--contact"}, "weather", "fetch", "--offline")
	if n := s.asked.Load(); n != 0 {
		t.Errorf("asked %d times", n)
	}
}

func TestAContactIsDemanded(t *testing.T) {
	t.Setenv("HAYWARDEN_CONTACT", "")
	d := newDesk(t)
	d.must("import", "stands", d.file("stands.csv", fieldAt))
	d.fails(exitUsage, []string{"--contact you@example.org", "--offline"}, "weather", "fetch")
	for _, contact := range []string{"ida", "@", "ida@", "a (b) c@example.org", "ida@example.org x"} {
		d.fails(exitUsage, []string{"--contact", "you@example.org"}, "weather", "fetch", "--contact", contact)
	}
	d.fails(exitUsage, []string{"plain ASCII"}, "weather", "fetch", "--contact", "idá@example.org")
	d.fails(exitUsage, []string{"address of the forecast service"}, "weather", "fetch", "--contact", "ida@example.org", "--service", "weather")
	d.fails(exitUsage, []string{`unknown command "madison"`}, "weather", "fetch", "madison")
}

func TestProgressIsSaidOfEachPlaceOnOneLine(t *testing.T) {
	var said strings.Builder
	s := &shownForecaster{Forecaster: silent{}, out: &said, of: 2}
	for _, lat := range []float64{43.0731, 43.12} {
		if _, _, err := s.Forecast(t.Context(), lat, -89.4012, nil); err != nil {
			t.Fatal(err)
		}
	}
	if want := clearLine + "forecast 1 of 2, 43.07,-89.40" + clearLine + "forecast 2 of 2, 43.12,-89.40"; said.String() != want {
		t.Errorf("%q, want %q", said.String(), want)
	}
	file, err := os.Create(filepath.Join(t.TempDir(), "log"))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	if onTerminal(&said) || onTerminal(file) {
		t.Error("a file is taken for a terminal")
	}
}

// silent is a service that has nothing new.
type silent struct{}

func (silent) Forecast(context.Context, float64, float64, *weather.Forecast) (weather.Forecast, bool, error) {
	return weather.Forecast{}, false, nil
}
