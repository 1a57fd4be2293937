package advice_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"haywarden/advice"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/outlook"
	"haywarden/weather"
)

func TestTheRoundIsRankedByUrgencyThenLoss(t *testing.T) {
	var stands []*stand
	for i, n := range []string{"A", "B", "C", "D"} {
		s := alfalfa(n)
		if i%2 == 0 {
			s.deck = hayPrices(0)
		}
		s.visits["05-27"] = stick(24+float64(i)*2, book.Bud)
		stands = append(stands, s)
	}
	r := round(t, day("05-29"), plain(), stands...)
	for i := 1; i < len(r.Pieces); i++ {
		a, b := r.Pieces[i-1], r.Pieces[i]
		if a.Urgency > b.Urgency || a.Urgency == b.Urgency && a.Errand == b.Errand && a.LossShare < b.LossShare {
			t.Errorf("%q (%s, %.4f) stands before %q (%s, %.4f)", a.Title, a.Urgency.Key(), a.LossShare, b.Title, b.Urgency.Key(), b.LossShare)
		}
	}
	if n := len(r.Lines()); n != len(stands) {
		t.Errorf("%d lines for %d stands", n, len(stands))
	}
}

// anyStand is a stand as a book might hold it.
func anyStand(t *rapid.T, name string, date unit.Day) *stand {
	s := alfalfa(name)
	s.Crop = rapid.SampledFrom(book.Crops()).Draw(t, name+" crop")
	s.Seeded = date - unit.Day(rapid.IntRange(0, 3000).Draw(t, name+" age"))
	s.Product = rapid.SampledFrom(append(book.Products(), "")).Draw(t, name+" product")
	s.FeedRFV = rapid.SampledFrom([]float64{0, 90, 125, 150, 180}).Draw(t, name+" target")
	s.Sentinel = rapid.Bool().Draw(t, name+" sentinel")
	s.GrassShare = rapid.SampledFrom([]float64{0, 0, 0.1, 0.3, 0.8}).Draw(t, name+" grass")
	s.station = rapid.SampledFrom([]string{station, station, station, "", "ZZT00000009"}).Draw(t, name+" station")
	if rapid.Bool().Draw(t, name+" priced") {
		s.deck = hayPrices(rapid.SampledFrom([]float64{0, 150, 900}).Draw(t, name+" floor"))
	}
	at := unit.DateOf(2026, 1, 1)
	for i := range rapid.IntRange(0, 5).Draw(t, name+" cuts") {
		at += unit.Day(rapid.IntRange(20, 80).Draw(t, fmt.Sprintf("%s cut %d", name, i)))
		s.cuts = append(s.cuts, at.String()[5:])
	}
	for i := range rapid.IntRange(0, 6).Draw(t, name+" visits") {
		on := date - unit.Day(rapid.IntRange(0, 60).Draw(t, fmt.Sprintf("%s visit %d", name, i)))
		s.visits[on.String()[5:]] = anyVisit(t, fmt.Sprintf("%s visit %d", name, i))
	}
	return s
}

func anyVisit(t *rapid.T, name string) book.Visit {
	var v book.Visit
	for i := range rapid.IntRange(0, 6).Draw(t, name+" spots") {
		v.Spots = append(v.Spots, book.Spot{
			HeightIn: rapid.Float64Range(4, 60).Draw(t, fmt.Sprintf("%s height %d", name, i)),
			Stage:    rapid.SampledFrom(book.Stages()).Draw(t, fmt.Sprintf("%s stage %d", name, i)),
		})
	}
	for i := range rapid.IntRange(0, 5).Draw(t, name+" frames") {
		n := rapid.IntRange(0, 300).Draw(t, fmt.Sprintf("%s frame %d", name, i))
		v.Frames = append(v.Frames, book.Frame{Stems: &n, Ft2: 2})
	}
	if rapid.Bool().Draw(t, name+" dug") {
		v.Roots = &book.Roots{Dug: 20, Bad: rapid.IntRange(0, 20).Draw(t, name+" bad")}
	}
	if rapid.Bool().Draw(t, name+" looked") {
		v.Tips = rapid.SampledFrom([]book.Tips{book.TipsSound, book.TipsKilled}).Draw(t, name+" tips")
	}
	share := rapid.Float64Range(0, 1).Draw(t, name+" share")
	bloom, fed, tall := 100*share, 100*share, 60*share
	switch rapid.IntRange(0, 4).Draw(t, name+" also") {
	case 1:
		v.Bloom = &bloom
	case 2:
		v.WeevilTips = &fed
	case 3:
		v.Grass = &share
	case 4:
		v.GrowthIn = &tall
	}
	return v
}

// faulty says what is wrong with a piece by the laws that every piece keeps.
func faulty(p *advice.Piece) string {
	all := words(p)
	switch d := p.Worth.Dollars; {
	case p.Title == "" || p.Sentence == "":
		return "says nothing"
	case strings.Contains(all, "NaN") || strings.Contains(all, "Inf") || strings.Contains(all, "%!"):
		return "speaks in tongues"
	case p.Stand.Deck == nil && (d != nil || strings.Contains(all, "$")):
		return "has dollars without a deck"
	case d != nil && !(d.Low <= d.Middle && d.Middle <= d.High && d.NoDifference == (d.Low <= 0)):
		return "has dollars out of order"
	case d != nil && !strings.Contains(d.Line, p.Stand.Deck.Body.Name):
		return "has dollars of no deck"
	case p.Stand.Judged() != outlook.PureAlfalfa && strings.Contains(all, "RFV"):
		return "gives a feed value where no method holds"
	case p.Stand.Growth.Number >= 3 && strings.Contains(all, "RFV"):
		return "gives a feed value to a late growth"
	case !(p.LossShare >= 0 && p.LossShare <= 0.2):
		return "loses an odd share of the year a day"
	}
	if w := p.Window; w != nil && (w.Early > w.Middle || w.Middle > w.Late || w.Means == "") {
		return fmt.Sprintf("has a window %s, %s, %s", w.Early, w.Middle, w.Late)
	}
	for _, g := range p.Grounds {
		for _, id := range g.Sources {
			if _, ok := source.Find(id); !ok {
				return "rests on a source that is not listed: " + string(id)
			}
		}
	}
	return ""
}

func TestAnyBookGivesARoundThatKeepsTheLaws(t *testing.T) {
	young := plain().Between(unit.DateOf(2021, 1, 1), unit.DateOf(2026, 12, 31))
	records := []*weather.Series{plain(), plain(), sky(frostOn(day("05-12"))), ends("05-18"), young, nil}
	rapid.Check(t, func(rt *rapid.T) {
		date := day("01-01") + unit.Day(rapid.IntRange(0, 364).Draw(rt, "day"))
		series := records[rapid.IntRange(0, len(records)-1).Draw(rt, "record")]
		var stands []*stand
		for i := range rapid.IntRange(1, 5).Draw(rt, "stands") {
			stands = append(stands, anyStand(rt, string(rune('A'+i)), date))
		}
		r := round(rt, date, series, stands...)
		spoken := map[string]bool{}
		for _, p := range r.Pieces {
			spoken[p.Stand.ID] = true
			if why := faulty(p); why != "" {
				rt.Fatalf("%s, %s: %q %s: %s", date, p.Decision, p.Title, why, words(p))
			}
		}
		for _, s := range r.Outlook.Stands {
			if !spoken[s.ID] {
				rt.Fatalf("%s: nothing is said of %s", date, s.Named())
			}
		}
	})
}

func TestTheYearsLastDaysKnowNoFortnightOfWeather(t *testing.T) {
	s := alfalfa("A")
	s.visits["12-15"] = stick(33, book.Flower)
	for d := day("12-16"); d <= day("12-31"); d++ {
		for _, p := range round(t, d, plain(), s).Pieces {
			if why := faulty(p); why != "" {
				t.Errorf("%s, %s: %q %s", d, p.Decision, p.Title, why)
			}
		}
	}
}
