// Package web serves the pages of a book on the adviser's own machine. Pages are read without
// JavaScript and without a network; handlers turn the office's answers into view structs of formatted
// strings, and templates set them.
package web

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"strings"
	"time"

	"github.com/a-h/templ"

	"haywarden/agronomy/unit"
	"haywarden/office"
)

// Server answers for one book.
type Server struct {
	office *office.Office
	intake *office.Office // into which tables are brought
	actor  office.Actor
	demo   bool
	log    *slog.Logger
	start  unit.Day // the date shown when none is asked for; zero: today
}

// Options of a server.
type Options struct {
	Demo  bool         // say on each page that all is invented
	Start unit.Day     // date shown when none is asked for; zero: today
	Log   *slog.Logger // nil: the default
}

// New makes the server of a book for its adviser.
func New(o *office.Office, actor office.Actor, opts Options) *Server {
	if opts.Log == nil {
		opts.Log = slog.Default()
	}
	s := &Server{office: o, intake: o, actor: actor, demo: opts.Demo, log: opts.Log, start: opts.Start}
	if s.demo && s.start != 0 {
		// The demo shows each day as it was known that morning, and so takes in what its reader brings.
		s.intake = o.At(Morning(s.start))
	}
	return s
}

// Handler is the whole site.
func (s *Server) Handler() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", func(w http.ResponseWriter, r *http.Request) { http.Redirect(w, r, "/round", http.StatusSeeOther) })
	mux.HandleFunc("GET /round", s.page(s.round))
	mux.HandleFunc("GET /route", s.page(s.route))
	mux.HandleFunc("GET /winter", s.page(s.winter))
	mux.HandleFunc("GET /stands/{id}", s.page(s.stand))
	mux.HandleFunc("GET /farms", s.page(s.farms))
	mux.HandleFunc("GET /farms/{id}", s.page(s.farm))
	mux.HandleFunc("GET /farms/{id}/report.pdf", s.report)
	mux.HandleFunc("GET /farms/{id}/labels.pdf", s.labels)
	mux.HandleFunc("GET /farms/{id}/seed-order.pdf", s.seedOrder)
	mux.HandleFunc("GET /weather", s.page(s.stations))
	mux.HandleFunc("GET /weather/held", s.page(s.held))
	mux.HandleFunc("GET /diagnose", s.page(s.diagnose))
	mux.HandleFunc("GET /safety", s.page(s.safety))
	mux.HandleFunc("GET /weather/{station}", s.page(s.station))
	mux.HandleFunc("GET /favicon.ico", func(w http.ResponseWriter, r *http.Request) {
		http.Redirect(w, r, string(asset("mark.svg")), http.StatusSeeOther)
	})
	mux.Handle("GET /static/", http.StripPrefix("/static/", assets()))
	mux.HandleFunc("GET /", s.page(func(context.Context, *http.Request, frame) (templ.Component, error) {
		return nil, office.ErrNotFound
	}))
	mux.HandleFunc("GET /trials", s.page(s.trials))
	mux.HandleFunc("POST /trials", s.page(s.askTrial))
	mux.HandleFunc("GET /prices", s.page(s.prices))
	mux.HandleFunc("POST /prices", s.record(s.enterPrice, s.pricesAgain))
	mux.HandleFunc("GET /farms/{id}/herd", s.page(s.herd))
	mux.HandleFunc("POST /farms/{id}/herd", s.record(s.changeHerd, s.herdAgain))
	mux.HandleFunc("GET /farms/{id}/feed", s.page(s.feed))
	mux.HandleFunc("POST /farms/{id}/feed", s.record(s.changeFeed, s.feedAgain))
	mux.HandleFunc("GET /farms/{id}/feed.pdf", s.feedReport)
	mux.HandleFunc("GET /farms/{id}/budget", s.page(s.budget))
	mux.HandleFunc("GET /farms/{id}/fertilizer", s.page(s.fertilizer))
	mux.HandleFunc("GET /stands/{id}/weigh", s.page(s.weigh))
	mux.HandleFunc("POST /stands/{id}/weigh", s.record(s.setCaution, s.weighAgain))
	mux.HandleFunc("GET /bring", s.page(s.bring))
	mux.HandleFunc("POST /bring", s.bringTable)
	mux.HandleFunc("GET /stands/{id}/samples", s.page(s.samples))
	mux.HandleFunc("POST /stands/{id}/samples", s.record(s.changeSamples, s.samplesAgain))
	mux.HandleFunc("POST /undo", s.record(s.undo, s.undoAgain))
	return guard(packed(http.NewCrossOriginProtection().Handler(mux)))
}

// policy allows nothing from elsewhere and no script or style written into a page.
const policy = "default-src 'none'; style-src 'self'; img-src 'self' data:; font-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'"

// guard sets the headers that every answer carries.
func guard(h http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		head := w.Header()
		head.Set("Content-Security-Policy", policy)
		head.Set("X-Content-Type-Options", "nosniff")
		head.Set("Referrer-Policy", "no-referrer")
		h.ServeHTTP(w, r)
	})
}

// show makes the content of a page.
type show func(ctx context.Context, r *http.Request, p frame) (templ.Component, error)

// answerTime bounds how long a page may take.
const answerTime = 20 * time.Second

// page answers a request with a page, or with a page that says what went wrong.
func (s *Server) page(fill show) http.HandlerFunc { return s.pageWith(http.StatusOK, fill) }

// pageWith is page with a status of its own where all goes well.
func (s *Server) pageWith(status int, fill show) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		ctx, cancel := context.WithTimeout(r.Context(), answerTime)
		defer cancel()
		p, err := s.frame(r)
		var c templ.Component
		if err == nil {
			c, err = fill(ctx, r, p)
		}
		status := status
		if err != nil {
			status, c = s.trouble(r, p, err)
		}
		var b bytes.Buffer
		if err := c.Render(ctx, &b); err != nil {
			s.log.ErrorContext(ctx, "render page", "path", r.URL.Path, "error", err)
			http.Error(w, "the page could not be made", http.StatusInternalServerError)
			return
		}
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		w.WriteHeader(status)
		if _, err := bound.WriteString(w, b.String()); err != nil {
			s.log.DebugContext(ctx, "send page", "path", r.URL.Path, "error", err)
		}
	}
}

// bound keeps numbers on a line with their sign of unit, and days with their month.
var bound = func() *strings.Replacer {
	const fixed = "\u00a0" // a space that does not break
	pairs := []string{" %", fixed + "%", " °", fixed + "°"}
	for m := time.January; m <= time.December; m++ {
		for n := range 10 {
			pairs = append(pairs, fmt.Sprintf("%d %s", n, m), fmt.Sprintf("%d%s%s", n, fixed, m))
		}
	}
	return strings.NewReplacer(pairs...)
}()

// trouble turns an error into a page: the user's own slips are said in full, others go to the log.
func (s *Server) trouble(r *http.Request, p frame, err error) (int, templ.Component) {
	var bad badDate
	p.Title = "Not found"
	switch {
	case errors.As(err, &bad):
		p.Title = "Date not understood"
		return http.StatusBadRequest, wrong(p, p.Title, err.Error())
	case errors.Is(err, office.ErrNotFound):
		return http.StatusNotFound, wrong(p, p.Title, "Nothing is kept under this address on this date.")
	case errors.Is(err, office.ErrForbidden):
		p.Title = "Not permitted"
		return http.StatusForbidden, wrong(p, p.Title, err.Error())
	}
	s.log.ErrorContext(r.Context(), "make page", "path", r.URL.Path, "error", err)
	p.Title = "Something went wrong"
	return http.StatusInternalServerError, wrong(p, p.Title, "The page could not be made; the log says why. Nothing in the book was changed.")
}

// badDate is a date in the address that cannot be used.
type badDate struct{ error }
