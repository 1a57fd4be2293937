package nws

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"strconv"
	"strings"
	"time"
)

// How often and how long is asked again (choices).
const (
	tries        = 4 // of a service that has a fault or is overrun
	triesOffline = 2 // of one that cannot be reached
	firstDelay   = 2 * time.Second
	mostDelay    = time.Minute // that the service may ask for
)

// The most that is read of an answer (choices); a grid of a week has some 300 kB.
const (
	mostBody    = 8 << 20
	mostProblem = 64 << 10
)

// errNotThere says that the service has nothing at an address.
var errNotThere = errors.New("not found (404)")

// got is an answer.
type got struct {
	body      []byte
	modified  string // its Last-Modified
	unchanged bool   // since the time that was given
}

// again is a failure that may pass.
type again struct {
	err   error
	tries int           // in all
	after time.Duration // that the service asks to be left alone
}

func (a *again) Error() string { return a.err.Error() }
func (a *again) Unwrap() error { return a.err }

// get asks for an address, and again where the failure may pass. since, where it is not empty, makes the
// request conditional.
func (c *Client) get(ctx context.Context, address, since string) (got, error) {
	for n := 1; ; n++ {
		if err := c.turn(ctx); err != nil {
			return got{}, err
		}
		g, err := c.once(ctx, address, since)
		passing, ok := errors.AsType[*again](err)
		switch {
		case !ok:
			return g, err
		case n >= passing.tries:
			return got{}, passing.err
		case passing.after > mostDelay:
			return got{}, fmt.Errorf("%w; it asks to be left alone for %s", passing.err, passing.after.Round(time.Second))
		}
		if err := c.world.Wait(ctx, max(passing.after, c.delay(n))); err != nil {
			return got{}, err
		}
	}
}

// turn waits until the next request may start.
func (c *Client) turn(ctx context.Context) error {
	c.mu.Lock()
	now := c.world.Now()
	start := now // or later, when the requests before this one have had their turns
	if c.next.After(now) {
		start = c.next
	}
	c.next = start.Add(pause)
	c.mu.Unlock()
	if wait := start.Sub(now); wait > 0 {
		return c.world.Wait(ctx, wait)
	}
	return ctx.Err()
}

// delay doubles with each try, and is spread by half of it either way.
func (c *Client) delay(n int) time.Duration {
	c.mu.Lock()
	spread := 0.5 + c.world.Random.Float64()
	c.mu.Unlock()
	return time.Duration(spread * float64(firstDelay<<(n-1)))
}

// once makes one request.
func (c *Client) once(ctx context.Context, address, since string) (got, error) {
	r, err := http.NewRequestWithContext(ctx, http.MethodGet, address, nil)
	if err != nil {
		return got{}, fmt.Errorf("ask %s: %w", address, err)
	}
	r.Header.Set("User-Agent", c.agent)
	r.Header.Set("Accept", "application/geo+json")
	if since != "" {
		r.Header.Set("If-Modified-Since", since)
	}
	resp, err := c.http.Do(r)
	if err != nil {
		return got{}, unreached(ctx, err)
	}
	defer resp.Body.Close()
	if from := resp.Request.URL.Host; from != c.base.Host {
		return got{}, fmt.Errorf("%w: it came from %.100q, not from %s; does this network want a sign-in first?", ErrAnswer, from, c.base.Host)
	}
	switch resp.StatusCode {
	case http.StatusNotModified:
		if since == "" {
			return got{}, fmt.Errorf("%w: not modified (304), though it was not asked whether it is", ErrAnswer)
		}
		return got{unchanged: true}, nil
	case http.StatusOK:
	default:
		return got{}, c.refusal(ctx, resp)
	}
	if kind := resp.Header.Get("Content-Type"); !strings.Contains(kind, "json") {
		return got{}, fmt.Errorf("%w: it is %.100q; does this network want a sign-in first?", ErrAnswer, kind)
	}
	body, err := io.ReadAll(io.LimitReader(resp.Body, mostBody+1))
	if err != nil {
		return got{}, unreached(ctx, err)
	}
	if len(body) > mostBody {
		return got{}, fmt.Errorf("%w: it is longer than %d MB", ErrAnswer, mostBody>>20)
	}
	return got{body: body, modified: resp.Header.Get("Last-Modified")}, nil
}

// unreached is the error for a request that was not, or not wholly, answered.
func unreached(ctx context.Context, err error) error {
	if cause := ctx.Err(); cause != nil {
		return cause
	}
	return &again{err: fmt.Errorf("%w (%w)", ErrOffline, err), tries: triesOffline}
}

// refusal reads an answer that holds no forecast.
func (c *Client) refusal(ctx context.Context, resp *http.Response) error {
	body, err := io.ReadAll(io.LimitReader(resp.Body, mostProblem))
	if err != nil && ctx.Err() != nil {
		return ctx.Err()
	}
	var problem struct{ Type, Title, Detail string }
	_ = json.Unmarshal(body, &problem) // what is cut off or no JSON only says less
	said := strconv.Itoa(resp.StatusCode)
	if problem.Title != "" || problem.Detail != "" {
		said += fmt.Sprintf(", %.100q: %.200q", problem.Title, problem.Detail)
	}
	kind := problem.Type[strings.LastIndexByte(problem.Type, '/')+1:]
	switch status := resp.StatusCode; {
	case kind == "ForecastGridExpired":
		return fmt.Errorf("%w (%s)", ErrExpired, said)
	case status == http.StatusForbidden:
		return ErrForbidden
	case status == http.StatusNotFound:
		return fmt.Errorf("%w: %s", errNotThere, said)
	case status == http.StatusRequestTimeout, status == http.StatusTooManyRequests, status >= 500:
		return &again{err: fmt.Errorf("%w (%s)", ErrUnavailable, said), tries: tries, after: c.retryAfter(resp)}
	default:
		return fmt.Errorf("%w: %s", ErrAnswer, said)
	}
}

// retryAfter is how long the service asks to be left alone, written as seconds or as a date.
func (c *Client) retryAfter(resp *http.Response) time.Duration {
	s := resp.Header.Get("Retry-After")
	if n, err := strconv.Atoi(s); err == nil {
		return max(0, time.Duration(min(n, 1e6))*time.Second)
	}
	if t, err := http.ParseTime(s); err == nil {
		return max(0, t.Sub(c.world.Now()))
	}
	return 0
}
