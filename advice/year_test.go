package advice_test

import (
	"strings"
	"testing"
	"time"

	"haywarden/advice"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/weather"
)

func TestTheLastCutIsTakenOrLeftByTheStationsYears(t *testing.T) {
	series := sky(nil)
	s := alfalfa("Alder")
	s.cuts = []string{"05-28", "06-28", "07-28"}
	takeBy, reopen, ok := advice.RestPeriod(round(t, day("08-12"), series, s).Outlook.Stands[0])
	if !ok || takeBy >= reopen || takeBy.Month() < time.August || reopen.Month() > time.October {
		t.Fatalf("rest from %s to %s, %v", takeBy, reopen, ok)
	}
	p := find(round(t, takeBy-5, series, s), "Alder", "last-cut")
	says(t, p, "Take the last cut by", "24 °F", "28 °F", "35 days", "1 year in 10")
	inside := find(round(t, (takeBy+reopen)/2, series, s), "Alder", "last-cut")
	says(t, inside, "Leave the last growth", "empty roots")
	if inside.Rules[0].Here == "" {
		t.Error("the rule of 35 days is not shown")
	}
	if late := find(round(t, reopen+10, series, s), "Alder", "last-cut"); late != nil && late.Urgency == advice.Today {
		t.Errorf("after the rest: %q", late.Title)
	}
	if r := round(t, takeBy+3, series, s); find(r, "Alder", "later-cut") != nil {
		t.Error("a later cut is advised inside the rest")
	}
}

func TestKeepOrTurnCountsUntilItIsSure(t *testing.T) {
	for name, c := range map[string]struct {
		visit book.Visit
		grass float64
		want  []string
	}{
		"full":      {stems(124, 130, 118, 126, 134), 0, []string{"Keep", "55"}},
		"thin":      {stems(60, 52, 56, 58, 50, 54), 0, []string{"Turn under"}},
		"uncertain": {stems(84, 70, 96, 64, 88), 0, []string{"more frames and dig 20 roots", "under 40"}},
		"marginal": {stems(78, 70, 92, 66, 90, 84, 74, 80, 86, 72, 78, 70, 92, 66, 90, 84, 74, 80, 86, 72), 0,
			[]string{"Marginal: roots, grass and money decide", "20 frames"}},
		"thin with grass": {stems(60, 52, 56, 58, 50, 54), 0.5, []string{"Keep if the feed is needed"}},
	} {
		s := alfalfa("Alder")
		s.GrassShare = c.grass
		if c.grass > 0 {
			s.Crop = book.AlfalfaGrass
		}
		s.visits["04-20"] = c.visit
		p := find(round(t, day("04-22"), sky(nil), s), "Alder", "keep-or-turn")
		t.Run(name, func(t *testing.T) { says(t, p, c.want...) })
	}
	bad := alfalfa("Alder")
	v := stems(124, 130, 118, 126, 134)
	v.Roots = &book.Roots{Dug: 20, Bad: 13}
	bad.visits["04-20"] = v
	p := find(round(t, day("04-22"), sky(nil), bad), "Alder", "keep-or-turn")
	says(t, p, "first cut, then turn under")
	if p != nil && p.Rules[0].Differs == "" {
		t.Error("stems say keep and roots say turn: why they differ is not said")
	}
}

func TestStandsAreWalkedAtFourToSixInchesAndWeevilFollowsTheGuide(t *testing.T) {
	series := sky(nil)
	var counted, weevil bool
	for d := day("03-20"); d <= day("06-10"); d++ {
		s := alfalfa("Alder")
		s.FeedRFV = 90 // dry cows: the cut comes late, so that weevil comes first
		r := round(t, d, series, s)
		if p := find(r, "Alder", "walk-and-count"); p != nil && p.Urgency == advice.Week && !counted {
			counted = true
			if h := p.Stand.Sky.Heat41.Now(); h < 250 || h > 300 {
				t.Errorf("counting is called for on %s at %.0f F-days", d, h)
			}
		}
		if p := find(r, "Alder", "weevil-walk"); p != nil && p.Urgency == advice.Week && !weevil {
			weevil = true
			if h := p.Stand.Sky.Heat48.Now(); h < 300 || h > 345 {
				t.Errorf("weevil is called for on %s at %.0f F-days, Wisconsin says 300", d, h)
			}
			if len(p.Cautions) == 0 {
				t.Error("weevil without its caution")
			}
		}
	}
	if !counted || !weevil {
		t.Errorf("called for a count %v, for weevil %v", counted, weevil)
	}
	s := alfalfa("Alder")
	s.visits["05-26"] = stick(29, book.Bud)
	if find(round(t, day("05-27"), series, s), "Alder", "weevil-walk") != nil {
		t.Error("weevil is walked for though the cut comes first")
	}
}

func TestAReadingThatLooksWrongIsSetAsideAndAskedAgain(t *testing.T) {
	s := alfalfa("Alder")
	s.Sentinel = true
	s.visits["05-18"] = stick(20, book.Vegetative)
	s.visits["05-21"] = stick(58, book.Bud)
	r := round(t, day("05-22"), sky(nil), s)
	says(t, find(r, "Alder", "stick-reading"), "looks wrong", "read it again")
	if last, _ := find(r, "Alder", "stick-reading").Stand.LastReading(); last.Day != day("05-18") {
		t.Errorf("the reading used is of %s", last.Day)
	}
}

func TestNoStandIsLeftOutAndWhyIsSaid(t *testing.T) {
	old := sky(func(d unit.Day, o *weather.Obs) {
		if d > day("05-10") {
			*o = weather.NoObs()
		}
	})
	for name, c := range map[string]struct {
		series *weather.Series
		date   unit.Day
		want   string
	}{
		"no weather at all": {nil, day("05-20"), "No weather of station"},
		"old weather":       {old, day("07-20"), "ends on 10 May"},
	} {
		r := round(t, c.date, c.series, alfalfa("Alder"))
		if len(r.Pieces) == 0 {
			t.Errorf("%s: the stand is left out", name)
			continue
		}
		found := false
		for _, p := range r.Pieces {
			found = found || strings.Contains(p.Sentence, c.want) || strings.Contains(p.Sentence+grounds(p), c.want)
		}
		if !found {
			t.Errorf("%s: %q, want it to say %q", name, r.Pieces[0].Sentence, c.want)
		}
	}
	series := sky(nil)
	kinds := []*stand{alfalfa("Pure"), alfalfa("Clover"), alfalfa("Mixed"), alfalfa("New")}
	kinds[1].Crop, kinds[2].Crop, kinds[2].GrassShare = book.RedClover, book.AlfalfaGrass, 0.4
	kinds[3].Seeded = day("04-25")
	for d := day("01-05"); d <= day("12-20"); d += 6 {
		r := round(t, d, series, kinds...)
		for _, s := range r.Outlook.Stands {
			said := false
			for _, p := range r.Pieces {
				said = said || p.Stand == s
			}
			if !said {
				t.Errorf("%s: nothing is said of %s", d, s.Named())
			}
		}
	}
}

func grounds(p *advice.Piece) string {
	var b strings.Builder
	for _, g := range p.Grounds {
		b.WriteString(" " + g.Value + " " + g.How)
	}
	return b.String()
}

func TestTheRoundIsRankedByUrgencyThenLoss(t *testing.T) {
	var stands []*stand
	for i, n := range []string{"A", "B", "C", "D"} {
		s := alfalfa(n)
		s.prices = i%2 == 0
		s.visits["05-27"] = stick(24+float64(i)*2, book.Bud)
		stands = append(stands, s)
	}
	r := round(t, day("05-29"), sky(nil), stands...)
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
