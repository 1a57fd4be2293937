package web

import (
	"fmt"
	"net/http"
	"net/url"
	"strings"
	"time"

	"github.com/a-h/templ"

	"haywarden/agronomy/unit"
	"haywarden/office"
)

// frame is what every page has around its content.
type frame struct {
	Title  string
	Path   string
	Date   string // shown in the date field; empty leaves the field out
	Region string
	Demo   bool
	ask    office.Ask
	asked  bool // a date was asked for: links keep it
}

func (s *Server) frame(r *http.Request) (frame, error) {
	p := frame{Path: r.URL.Path, Demo: s.demo, Title: "Haywarden"}
	today := s.office.Today()
	p.ask.Date = today
	if s.start != 0 {
		p.ask.Date = s.start
	}
	if text := r.URL.Query().Get("date"); text != "" {
		d, err := unit.ParseDay(strings.TrimSpace(text))
		if err != nil {
			p.Date = p.ask.Date.String()
			return p, badDate{err}
		}
		if d < unit.DateOf(1950, 1, 1) || d > today+400 {
			p.Date = p.ask.Date.String()
			return p, badDate{fmt.Errorf("date %s: accepted 1950-01-01 to %s", d, today+400)}
		}
		p.ask.Date, p.asked = d, true
	}
	p.Date = p.ask.Date.String()
	if s.demo {
		// The demo shows each day as it was known that morning.
		p.ask.Known = Morning(p.ask.Date)
	}
	return p, nil
}

// link is an address inside the site that keeps the date asked for.
func (p frame) link(path string) templ.SafeURL {
	if p.asked {
		path += "?date=" + url.QueryEscape(p.Date)
	}
	return templ.SafeURL(path)
}

type navItem struct {
	Name string
	Href templ.SafeURL
	Here bool
}

func (p frame) nav() []navItem {
	items := []navItem{{Name: "Round", Href: p.link("/round")}, {Name: "Farms", Href: p.link("/farms")}}
	items[0].Here = p.Path == "/round"
	items[1].Here = p.Path == "/farms"
	return items
}

// Morning is the time at which a day's round is made: seven o'clock.
func Morning(d unit.Day) time.Time { return d.Time().Add(7 * time.Hour) }
