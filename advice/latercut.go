package advice

import (
	"fmt"

	"haywarden/agronomy/heat"
	"haywarden/agronomy/regrowth"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
	"haywarden/outlook"
)

// laterLead is how many days before the window opens a later cut is spoken of.
const laterLead = 9

// LaterCut leads second and later growths by days and stage: bud to one-tenth bloom by the heat of the
// growth, never under 25 days. A second growth that was read with the stick goes by feed value instead.
func LaterCut(s *outlook.Stand, o *outlook.Outlook) *Piece {
	if !heatKnown(s) || s.Growth.Number < 2 || s.Judged() == outlook.Clover || s.SeedingYear() {
		return nil
	}
	if s.Growth.Number == 2 && s.Standing != nil && !s.Standing.Borrowed {
		return qualityCut(s, o, "later-cut")
	}
	bloom := regrowth.ToBloom(s.Growth.Number)
	spec := heat.Spec{Method: heat.Average, Base: float64(unit.Celsius(bloom.BaseC).Fahrenheit()), Upper: heat.NoUpper()}
	need := float64(unit.CDay(bloom.CDays).FDays())
	clock := s.Sky.HeatSince(s.Growth.Since, spec)
	b, ok1 := s.Sky.Reaches(clock, need*regrowth.BudShare).Window()
	f, ok2 := s.Sky.Reaches(clock, need).Window()
	if !ok1 {
		return nil
	}
	if !ok2 {
		f = outlook.Window{Early: b.Late, Middle: b.Late, Late: b.Late}
	}
	least := s.Growth.Since + leastInterval
	w := outlook.Window{Early: max(least, b.Early), Middle: max(least, b.Middle), Late: max(least+3, f.Late)}
	if w.Early > s.Date+laterLead || tooLateInYear(s, max(s.Date, w.Middle)) {
		return nil
	}
	p := &Piece{
		Decision: "later-cut", Stand: s,
		Window: &Window{Early: w.Early, Middle: w.Middle, Late: w.Late, Best: max(s.Date, w.Middle), Means: "bud to one-tenth bloom"},
	}
	p.callFor(w, p.Window.Best)
	p.Sentence = fmt.Sprintf("Day %d of its %s growth; bud about %s, one-tenth bloom about %s by the heat since the cut.", s.Growth.Days(s.Date), Ordinal(s.Growth.Number), Short(b.Middle), Short(f.Middle))
	if s.Growth.Number >= 3 {
		p.Sentence += " Days and stage lead this cut, not a feed value."
	}
	p.Worth.Text = "Cutting before bud every time runs the roots down; after one-tenth bloom the feed value falls 1 to 3 points a day."
	p.Measure = "stage and height in the field"
	p.Grounds = []Ground{{
		What: "Heat since the cut of " + Short(s.Growth.Since), Value: fmt.Sprintf("%.0f of %.0f C-days above %g °C", float64(unit.FDay(clock.Now()).CDays()), bloom.CDays, bloom.BaseC),
		How: fmt.Sprintf("daily mean; mid-bud at %.0f %% of the heat to one-tenth bloom; carried through %s", 100*regrowth.BudShare, s.Sky.Follows()), Sources: aheadSources(s.Sky, source.BloomHeat, source.BudShare),
	}, yieldGround(s)}
	p.Rules = []Rule{intervalRule(s, w.Middle, "heat since the cut puts bud")}
	return p
}
