package web

import (
	"context"
	"fmt"
	"math"
	"net/http"
	"slices"
	"strings"
	"time"

	"github.com/a-h/templ"

	"haywarden/advice"
	"haywarden/agronomy/unit"
	"haywarden/chart"
	"haywarden/outlook"
	"haywarden/paper"
)

type roundView struct {
	Heading, Lede string
	Notices       []notice
	Empty         bool
	Sections      []sectionView
	Calls         []callView // whom to ring, by farm
	CallsTitle    string
	Strips        []stripView // in the round's order
	MoreStrips    []stripView
	Months        string
	Legend        string
	Week          weekView
	Stations      []linkTo // whose weather the round rests on
	Map           drawn
	MapNarrow     drawn
	RouteSay      string // empty where no field wants a look
	AfterWinter   bool   // first growth stands somewhere that was through a winter and is not counted
}

type sectionView struct {
	Key, Title string
	Count      int
	Short      bool // a sentence and the fields it is said of
	Calls      bool // the list of whom to ring stands above
	Pieces     []pieceView
	More       []pieceView // folded away
	MoreTitle  string
}

// callView is one farm to ring and what about.
type callView struct {
	Farm, Href string
	Who        phoneView
	About      []linkTo
}

const (
	// shownAtOnce is how many pieces of a section stand open; the rest are folded, so that a busy week
	// does not bury its first lines. A fold of fewer than leastFold hides nothing worth hiding.
	shownAtOnce = 10
	leastFold   = 3
	// stripsAtOnce is how many stands' years stand beside the round; the rest are folded.
	stripsAtOnce = 16
	// leastCalls is from how many calls on a list of them by farm is given.
	leastCalls = 3
)

func (s *Server) round(ctx context.Context, _ *http.Request, p frame) (templ.Component, error) {
	r, err := s.office.Round(ctx, s.actor, p.ask)
	if err != nil {
		return nil, err
	}
	p.Title = "Round of " + advice.Short(p.ask.Date)
	p.Region = r.Outlook.View.Place.Region
	next, err := s.office.NextDays(ctx, s.actor, p.ask)
	if err != nil {
		return nil, err
	}
	v := p.roundView(r)
	v.Week = week(next)
	return roundPage(p, v), nil
}

func (p frame) roundView(r *advice.Round) roundView {
	o := r.Outlook
	v := roundView{Heading: advice.Weekday(o.Date), Empty: len(r.Pieces) == 0, Lede: lede(r), Legend: legend(), Months: months(o.Date.Year())}
	v.Notices = weatherNotices(o)
	v.Stations = p.stationLinks(o)
	v.Calls = p.calls(append(r.LinesOf(advice.Safety), r.LinesOf(advice.Today)...))
	v.CallsTitle = fmt.Sprintf("Whom to ring: %s %s", advice.Count(len(v.Calls)), advice.Plural(len(v.Calls), "farm"))
	for _, u := range advice.Urgencies() {
		lines := r.LinesOf(u)
		feed := r.FeedBy(u)
		if len(lines)+len(feed) == 0 {
			continue
		}
		sec := sectionView{Key: u.Key(), Title: u.Title(), Count: len(lines) + len(feed), Short: u >= advice.Unjudged, Calls: u == advice.Today && len(v.Calls) >= leastCalls}
		if sec.Short {
			sec.Pieces = p.said(lines)
		} else if sec.Pieces = append(p.feedLines(feed), p.lines(lines)...); len(sec.Pieces) >= shownAtOnce+leastFold {
			sec.Pieces, sec.More = sec.Pieces[:shownAtOnce], sec.Pieces[shownAtOnce:]
			sec.MoreTitle = fmt.Sprintf("%d more", len(sec.More))
		}
		v.Sections = append(v.Sections, sec)
	}
	for i, l := range r.Lines() {
		strip := p.strip(l.Stand, append([]*advice.Piece{l.Piece}, l.Also...))
		if i < stripsAtOnce {
			v.Strips = append(v.Strips, strip)
			continue
		}
		v.MoreStrips = append(v.MoreStrips, strip)
	}
	v.Map, v.MapNarrow = districtMap(r, 480, "wide-only"), districtMap(r, phoneWide, "narrow-only")
	if way := r.Route(); len(way.Stops)+len(way.Lost) > 0 {
		n := len(way.Stops) + len(way.Lost)
		v.RouteSay = fmt.Sprintf("The way past the %s %s that want a look", advice.Count(n), advice.Plural(n, "field"))
	}
	v.AfterWinter = slices.ContainsFunc(r.Outlook.Stands, func(s *outlook.Stand) bool {
		return s.Wintered != nil && !s.Wintered.Counted && s.Growth.Number == 1
	})
	return v
}

// feedLines shows advice on feed in the round.
func (p frame) feedLines(pieces []*advice.Piece) (out []pieceView) {
	for _, a := range pieces {
		v := p.view(a, false)
		if a.Urgency <= advice.Today {
			v.Call = callOf(a.Feed.FarmView)
		}
		out = append(out, v)
	}
	return out
}

// said gives the sentences of stands with nothing to do, each with the fields it is said of.
func (p frame) said(lines []advice.Line) []pieceView {
	var out []pieceView
	for _, l := range lines {
		i := slices.IndexFunc(out, func(v pieceView) bool { return v.Sentence == l.Sentence && slices.Equal(v.Cautions, l.Cautions) })
		if i < 0 {
			i = len(out)
			v := p.view(l.Piece, true)
			out = append(out, pieceView{Sentence: v.Sentence, Measure: v.Measure, Cautions: v.Cautions, Grounds: v.Grounds, Rules: v.Rules})
		}
		out[i].Fields = p.join(out[i].Fields, l.Stand)
		out[i].Who, out[i].Href = l.Stand.Named(), p.standHref(l.Stand)
		if !out[i].one() || l.Urgency == advice.Rest {
			out[i].Grounds, out[i].Rules = nil, nil // each stand's page gives its own
		}
	}
	return out
}

// one reports whether a sentence is said of a single stand.
func (v pieceView) one() bool { return len(v.Fields) == 1 && len(v.Fields[0].Fields) == 1 }

// calls lists the farms to ring in the order of their most pressing line, and what about.
func (p frame) calls(lines []advice.Line) []callView {
	var out []callView
	for _, l := range lines {
		href := string(p.link("/farms/" + l.Stand.Farm.ID))
		i := slices.IndexFunc(out, func(c callView) bool { return c.Href == href })
		if i < 0 {
			i = len(out)
			out = append(out, callView{Farm: l.Stand.Farm.Name, Href: href, Who: callOf(l.Stand.Farm)})
		}
		out[i].About = append(out[i].About, linkTo{l.Stand.InField.Name + ": " + lower(l.Title), p.standHref(l.Stand)})
	}
	return out
}

func (p frame) strip(s *outlook.Stand, pieces []*advice.Piece) stripView {
	return stripView{Href: p.standHref(s), Farm: s.Farm.Name, Field: s.InField.Name, SVG: chart.SVG(paper.Strip(s, pieces))}
}

func months(year int) string {
	return chart.SVG(chart.Months{First: chart.Date(year, time.March, 1), Last: chart.Date(year, time.November, 30)})
}

// lede says in one sentence how much there is to do.
func lede(r *advice.Round) string {
	o := r.Outlook
	farms := map[string]bool{}
	for _, s := range o.Stands {
		farms[s.Farm.ID] = true
	}
	where := ""
	if o.View.Place.Region != "" {
		where = " in " + o.View.Place.Region
	}
	now := len(r.LinesOf(advice.Safety)) + len(r.LinesOf(advice.Today))
	week := len(r.LinesOf(advice.Week))
	var todo string
	switch {
	case now == 0 && week == 0:
		todo = "nothing to call today or this week"
	case now == 0:
		todo = fmt.Sprintf("%s to see to this week", advice.Count(week))
	case week == 0:
		todo = fmt.Sprintf("%s to call today; the rest can wait", advice.Count(now))
	default:
		todo = fmt.Sprintf("%s to call today, %s this week; the rest can wait", advice.Count(now), advice.Count(week))
	}
	return fmt.Sprintf("%s %s, %d %s%s: %s. Weather through %s.", capitalCount(len(farms)), advice.Plural(len(farms), "farm"), len(o.Stands), advice.Plural(len(o.Stands), "stand"), where, todo, through(o))
}

func capitalCount(n int) string {
	w := advice.Count(n)
	return strings.ToUpper(w[:1]) + w[1:]
}

func through(o *outlook.Outlook) string {
	var last unit.Day
	for _, s := range o.Skies {
		if s.Observed {
			last = max(last, s.Through)
		}
	}
	switch last {
	case 0:
		return "none yet"
	case o.Date - 1:
		return "yesterday"
	}
	return advice.Short(last)
}

// weatherNotices names the stations whose weather is old or missing.
func weatherNotices(o *outlook.Outlook) []notice {
	var out []notice
	var old []string
	for _, s := range o.Skies {
		if s.Observed && o.Date-1-s.Through > 4 {
			old = append(old, fmt.Sprintf("%s ends on %s", s.Station.Name, advice.Short(s.Through)))
		}
	}
	slices.Sort(old)
	if len(old) > 0 {
		out = append(out, notice{"Old weather.", "Station " + strings.Join(old, "; ") + ". Dates below rest on it."})
	}
	return out
}

// districtMap shows the farms, each with the most pressing of what is to be done there; those to call
// today are ringed.
func districtMap(r *advice.Round, width float64, class string) drawn {
	m := chart.Map{}
	m.Title, m.Width, m.Height = "Where the farms lie", width, math.Round(width*0.78)
	at := map[string]int{}
	fields := map[string]float64{}
	today := 0
	for _, l := range r.Lines() { // most pressing first
		lat, lon := l.Stand.InField.Latitude, l.Stand.InField.Longitude
		if lat == 0 && lon == 0 {
			continue
		}
		f := l.Stand.Farm
		if i, ok := at[f.ID]; ok {
			// The farm stands in the middle of its fields.
			n := fields[f.ID]
			site := &m.Sites[i]
			site.At.Lat, site.At.Lon = (site.At.Lat*n+lat)/(n+1), (site.At.Lon*n+lon)/(n+1)
			fields[f.ID]++
			continue
		}
		site := chart.Site{Name: f.Name, At: chart.LonLat{Lon: lon, Lat: lat}, Role: chart.Growing}
		switch {
		case l.Urgency <= advice.Today:
			today++
			site.Role, site.Rank = chart.Best, today
		case l.Urgency == advice.Week:
			site.Role = chart.Fan50
		}
		at[f.ID], fields[f.ID] = len(m.Sites), 1
		m.Sites = append(m.Sites, site)
	}
	if len(m.Sites) == 0 {
		return drawn{}
	}
	m.Desc = fmt.Sprintf("%d farms, %d of them to call today", len(m.Sites), today)
	return drawn{SVG: chart.SVG(m), Class: class}
}

// mapLegend is the key of the district's map.
func mapLegend() string {
	return keys([]chart.Key{
		{Role: chart.Best, Shape: chart.Dot, Words: "ringed: call today"},
		{Role: chart.Fan50, Shape: chart.Dot, Words: "this week"}, {Role: chart.Growing, Shape: chart.Dot, Words: "nothing due yet"},
	})
}

func moreStrips(n int) string { return fmt.Sprintf("%d more %s", n, advice.Plural(n, "stand")) }
