package web

import (
	"fmt"
	"net/http"
	"net/url"
	"strings"
	"time"

	"github.com/a-h/templ"

	"haywarden/advice"
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
	asked  bool      // a date was asked for: links keep it
	steps  []dayStep // to the days around
	today  string    // the same page on today's date; empty where it is shown
}

// dayStep leads to the same page on a day nearby.
type dayStep struct {
	Sign, Say, Href string
	Far             bool // a week off: left out where room is short
	After           bool
}

// firstDay is the earliest date that can be asked for, and yearAhead how far past today one may look.
var firstDay = unit.DateOf(1950, time.January, 1)

const yearAhead = 400

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
		if d < firstDay || d > today+yearAhead {
			p.Date = p.ask.Date.String()
			return p, badDate{fmt.Errorf("date %s: accepted %s to %s", d, firstDay, today+yearAhead)}
		}
		p.ask.Date, p.asked = d, true
	}
	p.Date = p.ask.Date.String()
	p.stepsAround(today)
	if s.demo {
		// The demo shows each day as it was known that morning.
		p.ask.Known = Morning(p.ask.Date)
	}
	return p, nil
}

// stepsAround sets the links to the days around the one shown.
func (p *frame) stepsAround(today unit.Day) {
	for _, d := range []struct {
		sign, name string
		off        unit.Day
	}{{"«", "a week before", -7}, {"‹", "the day before", -1}, {"›", "the day after", 1}, {"»", "a week after", 7}} {
		to := p.ask.Date + d.off
		if to < firstDay || to > today+yearAhead {
			continue
		}
		p.steps = append(p.steps, dayStep{
			Sign: d.sign, Say: d.name + ", " + advice.Short(to), Href: p.Path + "?date=" + to.String(),
			Far: d.off == -7 || d.off == 7, After: d.off > 0,
		})
	}
	if !p.Demo && p.ask.Date != today {
		p.today = p.Path
	}
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
	items := []navItem{{Name: "Round", Href: p.link("/round")}, {Name: "Farms", Href: p.link("/farms")}, {Name: "Weather", Href: p.link("/weather")}, {Name: "Prices", Href: p.link("/prices")}, {Name: "Trials", Href: p.link("/trials")}}
	items[0].Here = p.Path == "/round"
	items[1].Here = p.Path == "/farms"
	items[2].Here = p.Path == "/weather"
	items[3].Here = p.Path == "/prices"
	items[4].Here = p.Path == "/trials"
	return items
}

// Morning is the time at which a day's round is made: seven o'clock.
func Morning(d unit.Day) time.Time { return d.Time().Add(7 * time.Hour) }
