package web

import (
	"context"
	"fmt"
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
	Strips        []stripView // in the round's order
	MoreStrips    []stripView
	Days          []linkTo
	Months        string
	Legend        string
	Map           string
}

type sectionView struct {
	Key, Title string
	Short      bool
	Pieces     []pieceView
	More       []pieceView // folded away
	MoreTitle  string
}

// shownAtOnce is how many pieces of a section stand open; the rest are folded, so that a busy week
// does not bury its first lines.
const shownAtOnce = 10

// stripsAtOnce is how many stands' years stand beside the round; the rest are folded.
const stripsAtOnce = 16

func (s *Server) round(ctx context.Context, _ *http.Request, p frame) (templ.Component, error) {
	r, err := s.office.Round(ctx, s.actor, p.ask)
	if err != nil {
		return nil, err
	}
	p.Title = "Round of " + advice.Short(p.ask.Date)
	p.Region = r.Outlook.View.Place.Region
	return roundPage(p, p.roundView(r)), nil
}

func (p frame) roundView(r *advice.Round) roundView {
	o := r.Outlook
	v := roundView{Heading: advice.Weekday(o.Date), Empty: len(o.Stands) == 0, Lede: lede(r), Legend: legend(), Months: months(o.Date.Year())}
	v.Notices = weatherNotices(o)
	for _, d := range []struct {
		name string
		day  unit.Day
	}{{"a week before", -7}, {"the day before", -1}, {"the day after", 1}, {"a week after", 7}} {
		v.Days = append(v.Days, linkTo{d.name, "/round?date=" + (o.Date + d.day).String()})
	}
	for _, u := range advice.Urgencies() {
		lines := r.LinesOf(u)
		if len(lines) == 0 {
			continue
		}
		sec := sectionView{Key: u.Key(), Title: u.Title(), Short: u == advice.Rest, Pieces: p.lines(lines)}
		if len(sec.Pieces) > shownAtOnce && !sec.Short {
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
	v.Map = districtMap(r)
	return v
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

// districtMap shows where the stands with something to do lie.
func districtMap(r *advice.Round) string {
	m := chart.Map{}
	m.Title, m.Width, m.Height = "Where the stands lie", 460, 340
	first := map[*outlook.Stand]*advice.Piece{}
	for _, p := range r.Pieces {
		if first[p.Stand] == nil {
			first[p.Stand] = p
		}
	}
	for _, s := range r.Outlook.Stands {
		lat, lon := s.InField.Latitude, s.InField.Longitude
		if lat == 0 && lon == 0 {
			continue
		}
		site := chart.Site{Name: s.InField.Name, At: chart.LonLat{Lon: lon, Lat: lat}, Role: chart.Growing}
		switch first[s].Urgency {
		case advice.Safety, advice.Today:
			site.Role = chart.Best
		case advice.Week:
			site.Role = chart.InWindow
		default: // nothing to do there yet
		}
		m.Sites = append(m.Sites, site)
	}
	if len(m.Sites) == 0 {
		return ""
	}
	m.Desc = fmt.Sprintf("%d fields", len(m.Sites))
	return chart.SVG(m)
}

func moreStrips(n int) string { return fmt.Sprintf("%d more %s", n, advice.Plural(n, "stand")) }
