package advice

import (
	"fmt"

	"haywarden/agronomy/forage"
	"haywarden/agronomy/source"
	"haywarden/outlook"
)

const mixtureMeasure = "height of the tallest alfalfa, and the share of grass"

// MixtureCut starts the first cut of alfalfa with grass by the height of the tallest alfalfa, which
// the share of grass brings forward. No feed value is said: the stick's table holds for pure alfalfa.
func MixtureCut(s *outlook.Stand, _ *outlook.Outlook) *Piece {
	if !heatKnown(s) || s.Judged() != outlook.Mixture || s.Growth.Number != 1 || s.SeedingYear() || !s.Frosted.Lifted() {
		return nil
	}
	grass := s.Grass()
	trigger, ndf, perDay := forage.MixTrigger(grass)
	height, spread, how := standingHeight(s)
	if how == "" && s.Frosted != nil {
		p := unjudged(s, "first-cut", fmt.Sprintf("after the frost of %s heat does not say how tall it stands, and no height was read since", Short(s.Frosted.Day)))
		p.Measure = mixtureMeasure
		return p
	}
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
		p.Measure = mixtureMeasure
		how = "no height read: by heat"
	}
	if why := s.Doubt(); why != "" {
		p.Measure = "height of the tallest alfalfa again: the last looks wrong (" + why + ") and was set aside"
	}
	p.Grounds = []Ground{
		{What: "Height", Value: fmt.Sprintf("%.0f in ± %.0f", height, spread), How: how, Sources: []source.ID{source.HeightCurve}},
		{What: "Trigger", Value: fmt.Sprintf("%.0f in for %.0f %% NDF at cutting", trigger, ndf), How: "published for all alfalfa, half grass and all grass; a straight line between", Reckon: fmt.Sprintf("mix-trigger grass_share=%.2f", grass), Sources: []source.ID{source.MixTrigger}},
		heat41Ground(s),
	}
	return p
}
