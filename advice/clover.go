package advice

import (
	"fmt"
	"strings"

	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
	"haywarden/outlook"
)

// CloverCut leads red clover by stage: bud to 20 % bloom, from the heat of alfalfa, with low
// confidence and never with a feed value.
func CloverCut(s *outlook.Stand, _ *outlook.Outlook) *Piece {
	if !heatKnown(s) || s.Judged() != outlook.Clover || s.SeedingYear() || !s.Frosted.Lifted() || s.Growth.Number > 3 {
		return nil
	}
	w, how, ok := cloverWindow(s)
	if !ok || w.Early > s.Date+14 || s.Growth.Number > 1 && s.Date > w.Late+overDays {
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
		if bloom >= 20 && (p.Urgency != Today || s.Date <= w.Late) {
			p.Urgency, p.Title = Today, "Cut now: bloom is past 20 %"
		}
	}
	p.Sentence = b.String()
	p.Worth.Text = "Protein and digestibility fall with bloom; no daily rate is published for red clover."
	p.Measure = "share of stems in bloom"
	p.Grounds = []Ground{{What: "Stage", Value: fmt.Sprintf("%s – %s", Short(w.Early), Short(w.Late)), How: how, Sources: []source.ID{source.CloverCut, source.BloomHeat}}, heat41Ground(s)}
	return p
}

func lastBloom(s *outlook.Stand) (pct float64, on unit.Day, ok bool) {
	for _, v := range s.Visits {
		if s.Growth.Holds(v.Day) && v.Body.Bloom != nil {
			pct, on, ok = *v.Body.Bloom, v.Day, true
		}
	}
	return pct, on, ok
}
