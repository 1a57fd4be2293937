package nws

import (
	"context"
	"encoding/json"
	"errors"
	"io"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"sync"
	"testing"
	"time"

	"haywarden/weather"
)

// asked is a request that came to the service.
type asked struct {
	path, since string
	at          time.Time
}

// service answers as the public one does, in the shapes it documents, and errs on demand.
type service struct {
	*httptest.Server
	world *world

	mu     sync.Mutex
	log    []asked
	faults []http.HandlerFunc // of the next requests, one each
	grid   string             // path of the point's grid
	// modified is the grid's Last-Modified, empty where it has none.
	modified string
	edit     func(string) string // of answers
}

func newService(t *testing.T) *service {
	t.Helper()
	s := &service{
		world: &world{now: time.Date(2026, 6, 10, 14, 30, 0, 0, time.UTC)}, grid: "/gridpoints/MKX/37,63",
		modified: "Wed, 10 Jun 2026 09:14:31 GMT", edit: func(s string) string { return s },
	}
	s.Server = httptest.NewServer(http.HandlerFunc(s.answer))
	t.Cleanup(s.Close)
	return s
}

func (s *service) answer(w http.ResponseWriter, r *http.Request) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.log = append(s.log, asked{r.URL.Path, r.Header.Get("If-Modified-Since"), s.world.Now()})
	if len(s.faults) > 0 {
		fault := s.faults[0]
		s.faults = s.faults[1:]
		fault(w, r)
		return
	}
	// The header's name is User-Agent: one that sends it under another is turned away.
	if !strings.Contains(r.Header.Get("User-Agent"), "ida@example.org") {
		problem(w, http.StatusForbidden, "Forbidden", "Access Denied")
		return
	}
	if r.Header.Get("Accept") != "application/geo+json" {
		problem(w, http.StatusNotAcceptable, "NotAcceptable", "another form was asked for")
		return
	}
	switch r.URL.Path {
	case "/points/43.07,-89.4":
		s.send(w, "testdata/point.json")
	case s.grid:
		if since, err := http.ParseTime(r.Header.Get("If-Modified-Since")); err == nil && s.modified != "" {
			if last, err := http.ParseTime(s.modified); err == nil && !last.After(since) {
				w.WriteHeader(http.StatusNotModified)
				return
			}
		}
		if s.modified != "" {
			w.Header().Set("Last-Modified", s.modified)
		}
		s.send(w, "testdata/grid.json")
	default:
		problem(w, http.StatusNotFound, "InvalidPoint", "Unable to provide data for requested point "+r.URL.Path)
	}
}

// send answers with a file, in which the service's own address stands as {{base}}.
func (s *service) send(w http.ResponseWriter, file string) {
	text, err := os.ReadFile(file)
	if err != nil {
		panic(err)
	}
	body := strings.ReplaceAll(string(text), "{{base}}", s.URL)
	w.Header().Set("Content-Type", "application/geo+json")
	_, _ = io.WriteString(w, s.edit(strings.ReplaceAll(body, "/gridpoints/MKX/37,63", s.grid)))
}

// problem answers as the service does when it cannot, by RFC 9457.
func problem(w http.ResponseWriter, status int, kind, detail string) {
	w.Header().Set("Content-Type", "application/problem+json")
	w.WriteHeader(status)
	_ = json.NewEncoder(w).Encode(map[string]any{
		"correlationId": "3ed8bace", "title": kind, "type": "https://api.weather.gov/problems/" + kind, "status": status,
		"detail": detail, "instance": "https://api.weather.gov/requests/3ed8bace",
	})
}

// failing is a fault with a status and the name of a problem.
func failing(status int, kind, detail string) http.HandlerFunc {
	return func(w http.ResponseWriter, _ *http.Request) { problem(w, status, kind, detail) }
}

// next sets the faults of the next requests.
func (s *service) next(faults ...http.HandlerFunc) {
	s.mu.Lock()
	s.faults = faults
	s.mu.Unlock()
}

// since returns the requests that came since the last call.
func (s *service) since() []asked {
	s.mu.Lock()
	defer s.mu.Unlock()
	log := s.log
	s.log = nil
	return log
}

func (s *service) paths() (paths []string) {
	for _, a := range s.since() {
		paths = append(paths, a.path)
	}
	return paths
}

// world is a clock that stands still but for waiting, which takes no time.
type world struct {
	mu     sync.Mutex
	now    time.Time
	waited []time.Duration
}

func (w *world) Now() time.Time {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.now
}

func (w *world) pass(d time.Duration) {
	w.mu.Lock()
	w.now = w.now.Add(d)
	w.mu.Unlock()
}

func (w *world) Wait(ctx context.Context, d time.Duration) error {
	w.mu.Lock()
	w.waited = append(w.waited, d)
	w.mu.Unlock()
	w.pass(d)
	return ctx.Err()
}

// waits returns what was waited since the last call.
func (w *world) waits() []time.Duration {
	w.mu.Lock()
	defer w.mu.Unlock()
	waited := w.waited
	w.waited = nil
	return waited
}

func (s *service) client(t *testing.T) *Client {
	t.Helper()
	return s.clientWith(t, s.Client(), "Haywarden (ida@example.org)")
}

func (s *service) clientWith(t *testing.T, client *http.Client, agent string) *Client {
	t.Helper()
	c, err := New(client, s.URL, agent, World{Now: s.world.Now, Wait: s.world.Wait, Zone: time.LoadLocation, Random: rand.New(rand.NewPCG(1, 2))})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// must asks for Madison's forecast and demands it.
func must(t *testing.T, c *Client, kept *weather.Forecast) (weather.Forecast, bool) {
	t.Helper()
	f, changed, err := c.Forecast(t.Context(), 43.0731, -89.4012, kept)
	if err != nil {
		t.Fatal(err)
	}
	return f, changed
}

// fails demands an error of a kind that says all the words, and no forecast.
func fails(t *testing.T, c *Client, kind error, words ...string) {
	t.Helper()
	f, changed, err := c.Forecast(t.Context(), 43.0731, -89.4012, nil)
	if !errors.Is(err, kind) || changed || f.Place != "" {
		t.Errorf("forecast %+v, changed %t, error %v; want nothing but %v", f, changed, err, kind)
		return
	}
	for _, w := range append(words, "forecast for 43.07,-89.40") {
		if !strings.Contains(err.Error(), w) {
			t.Errorf("%q does not say %q", err, w)
		}
	}
}
