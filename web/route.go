package web

import (
	"context"
	"fmt"
	"math"
	"net/http"

	"github.com/a-h/templ"

	"haywarden/advice"
	"haywarden/chart"
)

// routeView is the way past the fields that want a look.
type routeView struct {
	Lede  string
	Stops []stopView
	Lost  []stopView
	Map   []drawn
}

type stopView struct {
	Name, Href, Miles string
	Call              phoneView
	Looks             []pieceView
}

func (s *Server) route(ctx context.Context, _ *http.Request, p frame) (templ.Component, error) {
	r, err := s.office.Round(ctx, s.actor, p.ask)
	if err != nil {
		return nil, err
	}
	p.Title, p.Region = "Route of "+advice.Short(p.ask.Date), r.Outlook.View.Place.Region
	way := r.Route()
	v := routeView{Lede: routeLede(way), Stops: p.stops(way.Stops), Lost: p.stops(way.Lost)}
	if len(way.Stops) > 1 {
		v.Map = append(v.Map, routeMap(way, 480, "wide-only"), routeMap(way, phoneWide, "narrow-only"))
	}
	return routePage(p, v), nil
}

func routeLede(way advice.Route) string {
	n := len(way.Stops) + len(way.Lost)
	if n == 0 {
		return "No field wants a look today or this week."
	}
	lede := fmt.Sprintf("%s %s want a look today or this week", capitalCount(n), advice.Plural(n, "field"))
	if n == 1 {
		lede = "One field wants a look today or this week"
	}
	if len(way.Stops) > 1 {
		lede += fmt.Sprintf(": %.0f miles from the first to the last in straight lines; roads are longer", math.Round(way.Miles))
	}
	return lede + "."
}

func (p frame) stops(all []advice.Stop) []stopView {
	var out []stopView
	for i, s := range all {
		v := stopView{Name: fmt.Sprintf("%d · %s", i+1, s.Stand.Named()), Href: p.standHref(s.Stand)}
		if i > 0 && s.Miles > 0 {
			v.Miles = fmt.Sprintf("%.1f miles on", s.Miles)
		}
		if i == 0 || s.Stand.Farm.ID != all[i-1].Stand.Farm.ID {
			v.Call = callOf(s.Stand.Farm) // once a farm
		}
		for _, q := range s.Pieces {
			v.Looks = append(v.Looks, p.view(q, true))
		}
		out = append(out, v)
	}
	return out
}

// routeMap draws the way, its stops in their order.
func routeMap(way advice.Route, width float64, class string) drawn {
	m := chart.Map{}
	m.Title, m.Width, m.Height = "The way past the fields", width, math.Round(width*0.85)
	for i, s := range way.Stops {
		lat, lon, _ := s.Stand.InField.Position()
		at := chart.LonLat{Lon: lon, Lat: lat}
		m.Way = append(m.Way, at)
		m.Sites = append(m.Sites, chart.Site{Name: s.Stand.InField.Name, At: at, Role: chart.Best, Rank: i + 1})
	}
	m.Desc = fmt.Sprintf("%d fields, from %s to %s", len(way.Stops), way.Stops[0].Stand.Named(), way.Stops[len(way.Stops)-1].Stand.Named())
	return drawn{SVG: chart.SVG(m), Class: class}
}
