package advice

import (
	"fmt"
	"math"
	"strings"

	"haywarden/agronomy/forage"
	"haywarden/agronomy/regrowth"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
	"haywarden/outlook"
)

const (
	fieldHeightSD = 3.0 // in, between a field's height and the curve by heat (choice)
	readHeightSD  = 1.5 // in, of a height read in the field (choice)
)

// MixtureCut starts the first cut of alfalfa with grass by the height of the tallest alfalfa, which
// the share of grass brings forward. No feed value is said: the stick's table holds for pure alfalfa.
func MixtureCut(s *outlook.Stand, _ *outlook.Outlook) *Piece {
	if s.Sky == nil || s.Judged() != outlook.Mixture || s.Growth.Number != 1 || s.SeedingYear() || !s.Frosted.Lifted() || len(s.Sky.Members) == 0 {
		return nil
	}
	grass := s.Grass()
	trigger, ndf, perDay := forage.MixTrigger(grass)
	height, spread, how := standingHeight(s)
	days := heightReached(s, height, spread, trigger)
	w, ok := days.Window()
	if !ok || w.Early > s.Date+earlyWatch {
		return nil
	}
	p := &Piece{
		Decision: "first-cut", Stand: s,
		Window: &Window{Early: w.Early, Middle: w.Middle, Late: w.Late, Best: max(s.Date, w.Middle), Means: fmt.Sprintf("tallest alfalfa at %.0f in", trigger)},
	}
	p.callFor(w, p.Window.Best)
	p.Sentence = fmt.Sprintf("With %.0f %% grass the cut starts when the tallest alfalfa stands %.0f inches; it stands about %.0f and gets there about %s (%s, 8 chances in 10).", 100*grass, trigger, height, Weekday(w.Middle), Span(w.Early, w.Late))
	if w.Middle < s.Date {
		p.Sentence = fmt.Sprintf("With %.0f %% grass the cut starts when the tallest alfalfa stands %.0f inches; it passed that about %s.", 100*grass, trigger, Short(w.Middle))
	}
	p.Worth.Text = fmt.Sprintf("Each day later adds about %.1f %% NDF, faster than pure alfalfa: cut the grassiest fields first.", perDay)
	if how == "" {
		p.Measure = "height of the tallest alfalfa, and the share of grass"
		how = "no height read: by heat"
	}
	p.Grounds = []Ground{
		{What: "Height", Value: fmt.Sprintf("%.0f in ± %.0f", height, spread), How: how, Sources: []source.ID{source.HeightCurve}},
		{What: "Trigger", Value: fmt.Sprintf("%.0f in for %.0f %% NDF at cutting", trigger, ndf), How: "published for all alfalfa, half grass and all grass; a straight line between", Reckon: fmt.Sprintf("mix-trigger grass_share=%.2f", grass), Sources: []source.ID{source.MixTrigger}},
		heat41Ground(s),
	}
	return p
}

// standingHeight is the height of the tallest alfalfa this morning: the last one read, carried on by
// heat, else the height that heat alone gives.
func standingHeight(s *outlook.Stand) (inches, spread float64, how string) {
	byHeat := regrowth.HeightByHeat(s.Sky.Heat41.Now())
	for i := len(s.Visits) - 1; i >= 0; i-- {
		v := s.Visits[i]
		if v.Day < s.Growth.Since {
			break
		}
		tall := math.NaN()
		if v.Body.GrowthIn != nil {
			tall = *v.Body.GrowthIn
		}
		for _, sp := range v.Body.Spots {
			tall = max(sp.HeightIn, orZero(tall))
		}
		if math.IsNaN(tall) || tall == 0 {
			continue
		}
		grown := byHeat - regrowth.HeightByHeat(s.Sky.Heat41.On(v.Day))
		return tall + grown, readHeightSD, fmt.Sprintf("%.0f in read on %s, carried on by heat", tall, Short(v.Day))
	}
	return byHeat, fieldHeightSD, ""
}

func orZero(v float64) float64 {
	if math.IsNaN(v) {
		return 0
	}
	return v
}

// heightReached gives the days on which the height is reached, over the past years and the error of
// today's height.
func heightReached(s *outlook.Stand, height, spread, target float64) outlook.Days {
	var out []float64
	now := s.Sky.Heat41.Now()
	for _, z := range []float64{-1.6, -1, -0.6, -0.3, 0, 0.3, 0.6, 1, 1.6} {
		start := height + z*spread
		base := regrowth.HeightByHeat(now)
		for _, m := range s.Sky.Members {
			sum, day := now, math.Inf(1)
			if start >= target {
				day = float64(s.Date) - math.Ceil(start-target) // about an inch a day
			}
			for i := 0; i < len(m.TMinF) && math.IsInf(day, 1) && i < 90; i++ {
				if start+regrowth.HeightByHeat(sum)-base >= target {
					day = float64(s.Date) + float64(i)
				}
				sum += s.Sky.Heat41.Spec.Day(m.TMinF[i], m.TMaxF[i])
			}
			out = append(out, day)
		}
	}
	return outlook.Days(sorted(out))
}

// CloverCut leads red clover by stage: bud to 20 % bloom, from the heat of alfalfa, with low
// confidence and never with a feed value.
func CloverCut(s *outlook.Stand, _ *outlook.Outlook) *Piece {
	if s.Sky == nil || s.Judged() != outlook.Clover || s.SeedingYear() || len(s.Sky.Members) == 0 || s.Growth.Number > 3 {
		return nil
	}
	w, how, ok := cloverWindow(s)
	if !ok || w.Early > s.Date+14 {
		return nil
	}
	p := &Piece{
		Decision: "clover-cut", Stand: s,
		Window: &Window{Early: w.Early, Middle: w.Middle, Late: w.Late, Best: max(s.Date, w.Middle), Means: "bud to 20 % bloom"},
	}
	p.callFor(w, p.Window.Best)
	var b strings.Builder
	fmt.Fprintf(&b, "Red clover is cut from bud to 20 %% bloom, about %s here; low confidence, so look at it.", Span(w.Early, w.Late))
	if bloom, on, ok := lastBloom(s); ok {
		fmt.Fprintf(&b, " %.0f %% of stems were in bloom on %s.", bloom, Short(on))
		if bloom >= 20 && p.Urgency != Today {
			p.Urgency, p.Title = Today, "Cut now: bloom is past 20 %"
		}
	}
	p.Sentence = b.String()
	p.Worth.Text = "Protein and digestibility fall with bloom; no daily rate is published for red clover."
	p.Measure = "share of stems in bloom"
	p.Grounds = []Ground{{What: "Stage", Value: fmt.Sprintf("%s – %s", Short(w.Early), Short(w.Late)), How: how, Sources: []source.ID{source.CloverCut, source.BloomHeat}}, heat41Ground(s)}
	return p
}

// cloverWindow is when red clover stands between bud and 20 % bloom: first growth by alfalfa's heat to
// bud and first flower, later growths by days.
func cloverWindow(s *outlook.Stand) (outlook.Window, string, bool) {
	const bud, flower = 700, 950 // F-days above 41 F: alfalfa's bud, and a little past its first flower (choice)
	if s.Growth.Number > 1 {
		w := outlook.Window{Early: s.Growth.Since + 30, Middle: s.Growth.Since + 35, Late: s.Growth.Since + 42}
		return w, "30 to 42 days after the last cut (choice, after two summer cuts at 20 % bloom)", w.Middle.Month() < 9
	}
	from, ok1 := windowOf(s, bud)
	to, ok2 := windowOf(s, flower)
	mid, ok3 := windowOf(s, (bud+flower)/2)
	return outlook.Window{Early: from.Early, Middle: mid.Middle, Late: to.Late}, "alfalfa's heat to bud and just past first flower, as no heat for red clover is published", ok1 && ok2 && ok3
}

func lastBloom(s *outlook.Stand) (pct float64, on unit.Day, ok bool) {
	for _, v := range s.Visits {
		if v.Day >= s.Growth.Since && v.Body.Bloom != nil {
			pct, on, ok = *v.Body.Bloom, v.Day, true
		}
	}
	return pct, on, ok
}
