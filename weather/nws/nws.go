// Package nws asks the National Weather Service's public JSON API for forecasts: a point's grid cell,
// then the cell's raw grid, which is made into days of the point's own time zone. [source.ForecastGrid]
//
// The client that talks, the clock, waiting, time zones and chance are passed in. Being offline is a
// normal state: [ErrOffline]. Whatever goes wrong, the last forecast kept stays good for what it is.
package nws

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"net/http"
	"net/url"
	"strings"
	"sync"
	"time"

	"haywarden/weather"
)

// Base is the address of the service.
const Base = "https://api.weather.gov"

// What can come instead of a forecast. Test with [errors.Is]; the text is meant for people.
var (
	ErrOffline     = errors.New("the forecast service cannot be reached; there may be no connection here")
	ErrExpired     = errors.New("the service has no newer forecast: the office's last one has run out; keep the last and ask again later")
	ErrForbidden   = errors.New("the service turned the request away (403): it wants a User-Agent that says which program asks and whom to write to; see that the contact is right and that nothing on the way takes it out")
	ErrOutside     = errors.New("the service has no forecast for this place; it covers the United States and their waters")
	ErrUnavailable = errors.New("the service has a fault of its own; ask again later")
	ErrAnswer      = errors.New("the answer is not what the service promises")
)

const (
	// pause is the least time between the starts of two requests (choice).
	pause = time.Second
	// pointAge is how long a point's grid cell is taken to stay the same (choice): they do change.
	pointAge = 24 * time.Hour
	// ahead is how far after now, by this machine's clock, a forecast may say it was issued (choice).
	ahead = 24 * time.Hour
)

// World is what the client touches beside the service.
type World struct {
	Now    func() time.Time
	Wait   func(ctx context.Context, d time.Duration) error // returns early, with its error, when ctx ends
	Zone   func(name string) (*time.Location, error)        // finds a time zone, as time.LoadLocation does
	Random *rand.Rand                                       // spreads retries, so that many programs do not come back at once
}

// Client asks the service. It is safe for use by several goroutines; all of them together ask once a
// second at most.
type Client struct {
	http  *http.Client
	base  *url.URL
	agent string
	world World

	mu     sync.Mutex
	next   time.Time                // when the next request may start
	points map[string]point         // by place
	grids  map[string]gridValidator // by address
}

// gridValidator is what the service said of the grid that a forecast was made of.
type gridValidator struct {
	issued   time.Time
	modified string // its Last-Modified, as written
}

// New makes a client of the service at base, the empty string standing for [Base]. userAgent says who
// asks and how to reach them: the service demands it.
func New(client *http.Client, base, userAgent string, w World) (*Client, error) {
	if base == "" {
		base = Base
	}
	u, err := url.Parse(base)
	if err != nil || (u.Scheme != "https" && u.Scheme != "http") || u.Host == "" || u.RawQuery != "" || u.Fragment != "" {
		return nil, fmt.Errorf("address of the forecast service %q: want one such as %s", base, Base)
	}
	u.Path = strings.TrimSuffix(u.Path, "/")
	if strings.TrimSpace(userAgent) == "" || strings.ContainsFunc(userAgent, func(r rune) bool { return r < ' ' || r > '~' }) {
		return nil, fmt.Errorf("user agent %q: want the program and a contact in plain ASCII, such as Haywarden (you@example.org)", userAgent)
	}
	return &Client{http: client, base: u, agent: userAgent, world: w, points: map[string]point{}, grids: map[string]gridValidator{}}, nil
}

// decimals of a degree are as many as places are told apart by: about 1 km, less than a grid cell of
// 2.5 km (choice).
const decimals = 2

// PlaceOf names the place that a position lies in: both degrees rounded to two decimals, so that
// fields near each other share a forecast.
func PlaceOf(latitude, longitude float64) string {
	return fmt.Sprintf("%.*f,%.*f", decimals, rounded(latitude), decimals, rounded(longitude))
}

// rounded also turns a negative zero into zero.
func rounded(degrees float64) float64 {
	scale := math.Pow10(decimals)
	return math.Round(degrees*scale)/scale + 0
}

// Forecast asks for the forecast of a position's place. kept is the last one had for it, nil where there
// is none: where the service has nothing newer, that is returned and changed is false.
func (c *Client) Forecast(ctx context.Context, latitude, longitude float64, kept *weather.Forecast) (f weather.Forecast, changed bool, err error) {
	if !(latitude >= -90 && latitude <= 90 && longitude >= -180 && longitude <= 180) { // a NaN is in no range
		return f, false, fmt.Errorf("forecast for %g,%g: accepted are latitudes of -90 to 90 and longitudes of -180 to 180", latitude, longitude)
	}
	place := PlaceOf(latitude, longitude)
	f, changed, err = c.forecast(ctx, place, kept)
	if err != nil {
		return weather.Forecast{}, false, fmt.Errorf("forecast for %s: %w", place, err)
	}
	return f, changed, nil
}

func (c *Client) forecast(ctx context.Context, place string, kept *weather.Forecast) (weather.Forecast, bool, error) {
	p, fresh, err := c.point(ctx, place)
	if err != nil {
		return weather.Forecast{}, false, err
	}
	f, changed, err := c.ofGrid(ctx, place, p, kept)
	if errors.Is(err, errNotThere) && !fresh { // the place may belong to another cell by now
		c.forget(place)
		if p, _, err = c.point(ctx, place); err != nil {
			return weather.Forecast{}, false, err
		}
		f, changed, err = c.ofGrid(ctx, place, p, kept)
	}
	switch {
	case errors.Is(err, errNotThere):
		c.forget(place)
		return f, false, fmt.Errorf("%w: it names a grid cell that it does not have: %w", ErrAnswer, err)
	case errors.Is(err, ErrExpired):
		c.forget(place) // perhaps another office has the place by the next time
	}
	return f, changed, err
}

// ofGrid asks for a grid and makes it into a forecast.
func (c *Client) ofGrid(ctx context.Context, place string, p point, kept *weather.Forecast) (f weather.Forecast, changed bool, err error) {
	got, err := c.get(ctx, p.grid, c.since(p.grid, kept))
	if err != nil {
		return f, false, err
	}
	if got.unchanged {
		return *kept, false, nil
	}
	g, err := ParseGrid(got.body)
	if err != nil {
		return f, false, fmt.Errorf("%w: %w", ErrAnswer, err)
	}
	if now := c.world.Now(); g.Updated.After(now.Add(ahead)) {
		return f, false, fmt.Errorf("%w: it was issued %s and it is %s here; see that the clock of this computer is right",
			ErrAnswer, g.Updated.Format(time.RFC3339), now.UTC().Format(time.RFC3339))
	}
	f = weather.Forecast{Place: place, Source: p.grid, Issued: g.Updated.In(p.zone), Days: g.Days(p.zone)}
	if len(f.Days) == 0 {
		return f, false, fmt.Errorf("%w: nothing of the grid issued %s is ahead of it", ErrAnswer, g.Updated.Format(time.RFC3339))
	}
	c.mu.Lock()
	c.grids[p.grid] = gridValidator{issued: g.Updated, modified: got.modified}
	c.mu.Unlock()
	return f, true, nil
}

// since is the time after which a grid must have changed to be sent again, empty where it must be sent:
// nothing is kept, or what is kept was made of another grid. It is the service's own last word on what is
// kept where this client heard it, else the time of issue, before which the grid cannot have been made.
func (c *Client) since(grid string, kept *weather.Forecast) string {
	if kept == nil || kept.Source != grid {
		return ""
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	if v := c.grids[grid]; v.modified != "" && v.issued.Equal(kept.Issued) {
		return v.modified
	}
	return kept.Issued.UTC().Format(http.TimeFormat)
}
