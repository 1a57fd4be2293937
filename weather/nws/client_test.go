package nws

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"haywarden/agronomy/unit"
	"haywarden/weather"
)

const gridPath = "/gridpoints/MKX/37,63"

func TestAPlacesForecastIsThatOfItsCell(t *testing.T) {
	s := newService(t)
	f, changed := must(t, s.client(t), nil)
	if !changed || f.Place != "43.07,-89.40" || f.Source != s.URL+gridPath || len(f.Days) != 4 {
		t.Errorf("got %+v, changed %t", f, changed)
	}
	if want := time.Date(2026, 6, 10, 9, 12, 0, 0, time.UTC); !f.Issued.Equal(want) || f.Issued.Format("15:04") != "04:12" {
		t.Errorf("issued %s, want %s, written in the place's own zone", f.Issued, want)
	}
	if got, want := s.paths(), []string{"/points/43.07,-89.4", gridPath}; !slices.Equal(got, want) {
		t.Errorf("asked for %v, want %v", got, want)
	}
	if got := f.Age(s.world.Now()); got < 5*time.Hour || got > 6*time.Hour {
		t.Errorf("age %s", got)
	}
}

func TestPlaces(t *testing.T) {
	for _, c := range []struct {
		lat, lon    float64
		place, path string
	}{
		{43.0731, -89.4012, "43.07,-89.40", "43.07,-89.4"},
		{43.0749, -89.3951, "43.07,-89.40", "43.07,-89.4"},
		{43.5, -90, "43.50,-90.00", "43.5,-90"},
		{-0.001, -0.004, "0.00,0.00", "0,0"},
		{61.2181, -149.9003, "61.22,-149.90", "61.22,-149.9"},
	} {
		if got := PlaceOf(c.lat, c.lon); got != c.place || asPath(got) != c.path {
			t.Errorf("%g,%g: %s, asked as %s; want %s as %s", c.lat, c.lon, got, asPath(got), c.place, c.path)
		}
	}
	s := newService(t)
	for _, p := range [][2]float64{{91, 0}, {0, 181}, {nan(), 0}, {0, nan()}} {
		if _, _, err := s.client(t).Forecast(t.Context(), p[0], p[1], nil); err == nil || !strings.Contains(err.Error(), "-90 to 90") {
			t.Errorf("%v: error %v", p, err)
		}
	}
	if got := s.paths(); len(got) != 0 {
		t.Errorf("asked for %v", got)
	}
}

func nan() float64 { var zero float64; return zero / zero }

func TestTheServiceIsToldWhoAsks(t *testing.T) {
	s := newService(t)
	fails(t, s.clientWith(t, s.Client(), "Haywarden"), ErrForbidden, "403", "User-Agent", "contact")
	if got := s.paths(); len(got) != 1 {
		t.Errorf("asked again after being turned away: %v", got)
	}
	for base, agent := range map[string]string{"": "", "https://a.example": "a\r\nX: b", "http://b.example": "é (x@example.org)", "ftp://c.example": "h (x@example.org)", "d.example": "h (x@example.org)", "https://e.example?x=1": "h (x@example.org)"} {
		if _, err := New(http.DefaultClient, base, agent, World{}); err == nil {
			t.Errorf("base %q and agent %q are taken", base, agent)
		}
	}
	if c, err := New(http.DefaultClient, "", "h (x@example.org)", World{}); err != nil || c.base.String() != Base {
		t.Errorf("default base: %v, %v", c, err)
	}
}

func TestWhatHasNotChangedIsNotSentAgain(t *testing.T) {
	s := newService(t)
	c := s.client(t)
	first, _ := must(t, c, nil)
	s.since()
	s.world.pass(time.Hour)
	f, changed := must(t, c, &first)
	if diff := cmp.Diff(first, f); changed || diff != "" {
		t.Errorf("changed %t (-first +again):\n%s", changed, diff)
	}
	if got, want := s.since(), []asked{{gridPath, s.modified, s.world.Now()}}; !slices.Equal(got, want) {
		t.Errorf("asked %v, want %v", got, want)
	}
	// A program started anew asks by the time of issue, and has it sent again at worst.
	if f, changed = must(t, s.client(t), &first); !changed || !f.Issued.Equal(first.Issued) {
		t.Errorf("changed %t, %+v", changed, f)
	}
	if log := s.since(); log[1].since != "Wed, 10 Jun 2026 09:12:00 GMT" {
		t.Errorf("asked %+v", log)
	}
	s.modified = "Wed, 10 Jun 2026 09:12:00 GMT"
	if _, changed = must(t, s.client(t), &first); changed {
		t.Error("sent again though it is as old as what is kept")
	}
	// What is kept of another cell says nothing of this one.
	s.since()
	other := first
	other.Source = s.URL + "/gridpoints/MKX/1,1"
	if _, changed = must(t, c, &other); !changed || s.since()[0].since != "" {
		t.Error("a forecast of another cell made the request conditional")
	}
	// A new issue is sent.
	s.modified = "Wed, 10 Jun 2026 15:40:00 GMT"
	s.edit = func(body string) string {
		return strings.Replace(body, "2026-06-10T09:12:00+00:00", "2026-06-10T15:39:00+00:00", 1)
	}
	s.world.pass(2 * time.Hour)
	if f, changed = must(t, c, &first); !changed || !f.Issued.After(first.Issued) {
		t.Errorf("changed %t, issued %s", changed, f.Issued)
	}
}

func TestAnAnswerThatNobodyAskedForIsRefused(t *testing.T) {
	s := newService(t)
	s.next(func(w http.ResponseWriter, _ *http.Request) { w.WriteHeader(http.StatusNotModified) })
	fails(t, s.client(t), ErrAnswer, "304")
}

func TestAPointIsAskedAnewNowAndThen(t *testing.T) {
	s := newService(t)
	c := s.client(t)
	must(t, c, nil)
	s.world.pass(pointAge - time.Minute)
	must(t, c, nil)
	if got, want := s.paths(), []string{"/points/43.07,-89.4", gridPath, gridPath}; !slices.Equal(got, want) {
		t.Errorf("asked for %v, want %v", got, want)
	}
	s.world.pass(time.Minute)
	must(t, c, nil)
	if got, want := s.paths(), []string{"/points/43.07,-89.4", gridPath}; !slices.Equal(got, want) {
		t.Errorf("asked for %v, want %v", got, want)
	}
}

func TestAPointThatMovedToAnotherCellIsFollowed(t *testing.T) {
	s := newService(t)
	c := s.client(t)
	must(t, c, nil)
	s.since()
	s.grid = "/gridpoints/ARX/110,7"
	f, changed := must(t, c, nil)
	if !changed || f.Source != s.URL+s.grid {
		t.Errorf("%+v", f)
	}
	if got, want := s.paths(), []string{gridPath, "/points/43.07,-89.4", s.grid}; !slices.Equal(got, want) {
		t.Errorf("asked for %v, want %v", got, want)
	}
	// Where a point just asked names a cell that is not there, asking once more would not help.
	c = s.client(t)
	s.edit = func(body string) string { return strings.ReplaceAll(body, "ARX/110,7", "ARX/0,0") }
	fails(t, c, ErrAnswer, "a grid cell that it does not have")
	if got := s.paths(); len(got) != 2 {
		t.Errorf("asked for %v", got)
	}
}

func TestAnExpiredGridLeavesTheLastForecastInPlace(t *testing.T) {
	s := newService(t)
	c := s.client(t)
	must(t, c, nil)
	s.since()
	s.next(failing(503, "ForecastGridExpired", "The requested forecast grid was issued 2026-06-09T02:50:40+00:00 and has expired."))
	fails(t, c, ErrExpired, "keep the last", "has expired")
	if got := s.since(); len(got) != 1 {
		t.Errorf("asked %v, want once", got)
	}
	must(t, c, nil)
	if got := s.paths(); !slices.Contains(got, "/points/43.07,-89.4") {
		t.Errorf("asked for %v; another office may have the place by now", got)
	}
}

func TestAPlaceOutsideIsSaidToBe(t *testing.T) {
	s := newService(t)
	_, _, err := s.client(t).Forecast(t.Context(), 51.48, -0.01, nil)
	if !errors.Is(err, ErrOutside) || !strings.Contains(err.Error(), "United States") {
		t.Errorf("error %v", err)
	}
	if got := s.paths(); len(got) != 1 {
		t.Errorf("asked for %v, want once", got)
	}
}

func TestAFaultOfTheServiceIsTriedAgainMoreAndMoreSlowly(t *testing.T) {
	fault := failing(500, "UnexpectedProblem", "An unexpected problem has occurred.")
	t.Run("until it passes", func(t *testing.T) {
		s := newService(t)
		s.next(fault, failing(502, "x", ""), failing(429, "x", ""))
		must(t, s.client(t), nil)
		waits := slices.DeleteFunc(s.world.waits(), func(d time.Duration) bool { return d <= pause }) // which is for a turn
		if len(waits) != 3 {
			t.Fatalf("waited %v, want three times", waits)
		}
		for i, d := range waits {
			if about := firstDelay << i; d < about/2 || d > about*3/2 {
				t.Errorf("wait %d is %s, want %s, half of it off at most", i+1, d, about)
			}
		}
	})
	t.Run("or to the fourth time", func(t *testing.T) {
		s := newService(t)
		s.next(fault, fault, fault, fault, fault)
		fails(t, s.client(t), ErrUnavailable, "ask again later", "500", "An unexpected problem")
		if got := s.since(); len(got) != tries {
			t.Errorf("asked %d times, want %d", len(got), tries)
		}
	})
	t.Run("each client at its own times", func(t *testing.T) {
		a := &Client{world: World{Random: rand.New(rand.NewPCG(1, 1))}}
		b := &Client{world: World{Random: rand.New(rand.NewPCG(1, 2))}}
		if a.delay(1) == b.delay(1) {
			t.Error("two clients come back at once")
		}
	})
	t.Run("not sooner than it asks for", func(t *testing.T) {
		for after, most := range map[string]time.Duration{"20": 20 * time.Second, "Wed, 10 Jun 2026 14:30:21 GMT": 22 * time.Second} {
			s := newService(t)
			s.next(func(w http.ResponseWriter, r *http.Request) {
				w.Header().Set("Retry-After", after)
				problem(w, 429, "RateLimit", "too many")
			})
			must(t, s.client(t), nil)
			if waits := s.world.waits(); waits[0] < 20*time.Second || waits[0] > most {
				t.Errorf("Retry-After %s: waited %v", after, waits)
			}
		}
	})
	t.Run("nor for longer than is sensible", func(t *testing.T) {
		s := newService(t)
		s.next(func(w http.ResponseWriter, r *http.Request) {
			w.Header().Set("Retry-After", "3600")
			problem(w, 503, "Maintenance", "back soon")
		})
		fails(t, s.client(t), ErrUnavailable, "left alone for 1h0m0s")
		if got := s.since(); len(got) != 1 {
			t.Errorf("asked %d times, want once", len(got))
		}
	})
	t.Run("and no fault of ours is", func(t *testing.T) {
		s := newService(t)
		s.next(failing(400, "BadRequest", "the parameter is\x1b[31m wrong"))
		fails(t, s.client(t), ErrAnswer, "400", `the parameter is\x1b[31m wrong`)
		if got := s.since(); len(got) != 1 {
			t.Errorf("asked %d times, want once", len(got))
		}
	})
}

func TestOfflineIsAStateOfItsOwn(t *testing.T) {
	t.Run("nobody listens", func(t *testing.T) {
		s := newService(t)
		s.Close()
		fails(t, s.client(t), ErrOffline, "no connection")
		if waits := s.world.waits(); len(waits) > 2 {
			t.Errorf("waited %v: one more try is enough", waits)
		}
	})
	t.Run("the service is too slow", func(t *testing.T) {
		s := newService(t)
		held := make(chan struct{})
		defer close(held)
		hold := func(http.ResponseWriter, *http.Request) { <-held }
		slow := httptest.NewServer(http.HandlerFunc(hold))
		t.Cleanup(slow.CloseClientConnections)
		s.URL = slow.URL
		fails(t, s.clientWith(t, &http.Client{Timeout: 30 * time.Millisecond}, "Haywarden (ida@example.org)"), ErrOffline)
	})
	t.Run("an answer is cut off, once", func(t *testing.T) {
		s := newService(t)
		s.next(func(w http.ResponseWriter, _ *http.Request) {
			w.Header().Set("Content-Type", "application/geo+json")
			w.Header().Set("Content-Length", "5000")
			fmt.Fprint(w, `{"properties":{"gridId"`)
		})
		must(t, s.client(t), nil)
	})
}

func TestAskingEndsWithItsContext(t *testing.T) {
	t.Run("before the first request", func(t *testing.T) {
		s := newService(t)
		ctx, cancel := context.WithCancel(t.Context())
		cancel()
		_, _, err := s.client(t).Forecast(ctx, 43, -89, nil)
		if !errors.Is(err, context.Canceled) || errors.Is(err, ErrOffline) || len(s.since()) != 0 {
			t.Errorf("error %v", err)
		}
	})
	t.Run("in the middle of an answer", func(t *testing.T) {
		s := newService(t)
		ctx, cancel := context.WithCancel(t.Context())
		s.next(func(_ http.ResponseWriter, r *http.Request) { cancel(); <-r.Context().Done() })
		_, _, err := s.client(t).Forecast(ctx, 43, -89, nil)
		if !errors.Is(err, context.Canceled) || errors.Is(err, ErrOffline) || len(s.since()) != 1 {
			t.Errorf("error %v", err)
		}
	})
	t.Run("while it waits to try again", func(t *testing.T) {
		s := newService(t)
		ctx, cancel := context.WithCancel(t.Context())
		s.next(func(w http.ResponseWriter, r *http.Request) { problem(w, 500, "x", ""); cancel() })
		_, _, err := s.client(t).Forecast(ctx, 43, -89, nil)
		if !errors.Is(err, context.Canceled) || len(s.since()) != 1 {
			t.Errorf("error %v", err)
		}
	})
}

func TestOneRequestASecondIsAllThatIsAsked(t *testing.T) {
	s := newService(t)
	c := s.client(t)
	begun := s.world.Now() // before any request waits: waiting moves this clock
	var group sync.WaitGroup
	var mu sync.Mutex
	for range 8 {
		group.Go(func() {
			if _, _, err := c.Forecast(t.Context(), 43.0731, -89.4012, nil); err != nil {
				mu.Lock()
				defer mu.Unlock()
				t.Error(err)
			}
		})
	}
	group.Wait()
	n := len(s.since())
	c.mu.Lock()
	defer c.mu.Unlock()
	if took := c.next.Sub(begun); n < 9 || took < time.Duration(n)*pause {
		t.Errorf("%d requests have their turns within %s, want one a second", n, took)
	}
}

func TestTurnsAreASecondApart(t *testing.T) {
	s := newService(t)
	c := s.client(t)
	for range 5 {
		must(t, c, nil)
	}
	log := s.since()
	for i := 1; i < len(log); i++ {
		if apart := log[i].at.Sub(log[i-1].at); apart < pause {
			t.Errorf("request %d came %s after the one before", i+1, apart)
		}
	}
	s.world.waits()
	s.world.pass(time.Hour)
	must(t, c, nil)
	if waits := s.world.waits(); len(waits) != 0 {
		t.Errorf("waited %v after a quiet hour", waits)
	}
}

func TestAnAnswerThatIsNoForecastIsNotTaken(t *testing.T) {
	replaced := func(old, with string) func(*service) {
		return func(s *service) {
			s.edit = func(body string) string {
				return strings.ReplaceAll(body, strings.ReplaceAll(old, "{{base}}", s.URL), with)
			}
		}
	}
	for name, c := range map[string]struct {
		bend func(*service)
		want string
	}{
		"a sign-in page": {func(s *service) {
			s.next(func(w http.ResponseWriter, _ *http.Request) {
				w.Header().Set("Content-Type", "text/html; charset=utf-8")
				fmt.Fprint(w, "<html>Welcome to our network")
			})
		}, "sign-in"},
		"a way to another host": {func(s *service) {
			other := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
				w.Header().Set("Content-Type", "application/json")
				fmt.Fprint(w, "{}")
			}))
			t.Cleanup(other.Close)
			s.next(func(w http.ResponseWriter, r *http.Request) { http.Redirect(w, r, other.URL, http.StatusFound) })
		}, "it came from"},
		"no JSON":             {func(s *service) { s.edit = func(string) string { return "{" } }, "point"},
		"no point":            {func(s *service) { s.edit = func(string) string { return "{}" } }, "no properties"},
		"a grid elsewhere":    {replaced("{{base}}/gridpoints", "http://elsewhere.example/gridpoints"), "elsewhere.example"},
		"a grid nowhere":      {replaced("{{base}}/gridpoints", "::"), "forecastGridData"},
		"a grid of a user":    {replaced("http://", "http://me:secret@"), "forecastGridData"},
		"an unknown zone":     {replaced("America/Chicago", "Mars/Olympus"), "Mars/Olympus"},
		"no zone":             {replaced("America/Chicago", ""), "timeZone"},
		"this machine's zone": {replaced("America/Chicago", "Local"), "timeZone"},
		"an issue to come":    {replaced("2026-06-10T09:12:00", "2026-06-12T09:12:00"), "clock of this computer"},
		"a grid of inches":    {replaced("wmoUnit:mm", "wmoUnit:in"), "quantitativePrecipitation"},
		"no end of it": {func(s *service) {
			s.edit = func(body string) string {
				if strings.Contains(body, "updateTime") {
					return body + strings.Repeat(" ", mostBody)
				}
				return body
			}
		}, "longer than 8 MB"},
	} {
		t.Run(name, func(t *testing.T) {
			s := newService(t)
			c.bend(s)
			fails(t, s.client(t), ErrAnswer, c.want)
		})
	}
}

func TestAGridWithNothingAheadIsNoForecast(t *testing.T) {
	s := newService(t)
	s.edit = func(body string) string {
		return strings.ReplaceAll(body, `"validTime": "2026-06`, `"validTime": "2026-05`)
	}
	fails(t, s.client(t), ErrAnswer, "nothing of the grid issued 2026-06-10T09:12:00Z is ahead of it")
}

func TestAForecastHasTheDayOfItsIssueAtThePlace(t *testing.T) {
	s := newService(t)
	s.edit = func(body string) string {
		return strings.ReplaceAll(body, "2026-06-10T09:12:00", "2026-06-11T03:00:00")
	}
	f, _ := must(t, s.client(t), nil)
	if got := unit.DayOf(f.Issued); got.String() != "2026-06-10" {
		t.Errorf("issued on %s, want the evening of 10 June", got)
	}
	var empty weather.ForecastDay
	if d, ok := f.On(unit.DayOf(f.Issued)); ok && d == empty {
		t.Errorf("a day of nothing: %+v", d)
	}
}
