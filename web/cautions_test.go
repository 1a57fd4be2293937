package web_test

import (
	"html"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"haywarden/advice"
	"haywarden/agronomy/unit"
	"haywarden/office"
	"haywarden/web"
)

var tags = regexp.MustCompile(`<[^>]*>`)

// unguarded lists the cautions that a text lacks though it says a piece's title, in a sentence or alone.
func unguarded(text string, pieces []*advice.Piece) (lacks []string, spoken int) {
	text = strings.ReplaceAll(text, "\u00a0", " ") // units do not leave their numbers
	folded := strings.ToLower(text)
	for _, p := range pieces {
		if len(p.Cautions) == 0 || !strings.Contains(folded, strings.ToLower(p.Title)) {
			continue
		}
		spoken++
		for _, c := range p.Cautions {
			if !strings.Contains(text, c) {
				lacks = append(lacks, p.Title+" on "+p.Named()+": "+c)
			}
		}
	}
	return lacks, spoken
}

// Wherever a page speaks of work that can hurt someone, were it by a title in a list, it shows what goes
// with it: on the round, the route, farms and stands, on every fourth day from mowing to the last stack.
func TestNoPageSpeaksOfDangerousWorkWithoutItsCautions(t *testing.T) {
	srv, o := district(t)
	spoken := map[string]int{}
	for d := unit.DateOf(2026, time.May, 20); d < unit.DateOf(2026, time.July, 20); d += 4 {
		r, err := o.Round(t.Context(), reader, office.Ask{Date: d, Known: web.Morning(d)})
		if err != nil {
			t.Fatal(err)
		}
		ofFarm, ofStand, ofFeed := map[string][]*advice.Piece{}, map[string][]*advice.Piece{}, map[string][]*advice.Piece{}
		for _, p := range r.Pieces {
			ofFarm["/farms/"+p.Stand.Farm.ID] = append(ofFarm["/farms/"+p.Stand.Farm.ID], p)
			if len(p.Cautions) > 0 {
				ofStand["/stands/"+p.Stand.ID] = append(ofStand["/stands/"+p.Stand.ID], p)
			}
		}
		look := func(kind, path string, pieces []*advice.Piece) {
			_, body := fetch(t, srv.URL+path+"?date="+d.String())
			lacks, n := unguarded(html.UnescapeString(tags.ReplaceAllString(body, " ")), pieces)
			spoken[kind] += n
			for _, l := range lacks {
				t.Errorf("%s on %s lacks: %s", path, d, l)
			}
		}
		for _, p := range r.Feed {
			ofFarm["/farms/"+p.Feed.ID] = append(ofFarm["/farms/"+p.Feed.ID], p)
			ofFeed["/farms/"+p.Feed.ID+"/feed"] = append(ofFeed["/farms/"+p.Feed.ID+"/feed"], p)
		}
		look("round", "/round", append(slices.Clone(r.Pieces), r.Feed...))
		look("route", "/route", r.Pieces)
		for path, pieces := range ofFarm {
			look("farm", path, pieces)
		}
		for path, pieces := range ofFeed {
			look("feed", path, pieces)
		}
		for path, pieces := range ofStand {
			look("stand", path, pieces)
		}
	}
	for _, kind := range []string{"round", "route", "farm", "feed", "stand"} {
		if spoken[kind] == 0 {
			t.Errorf("no %s of these days speaks of anything dangerous: nothing was tried", kind)
		}
	}
}
