package advice

import (
	"fmt"
	"math"
	"time"

	"haywarden/agronomy/frost"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
	"haywarden/outlook"
)

// LastCut says whether to take the last growth or to leave it for the roots, from the station's own
// freezes and the heat that its years had left.
func LastCut(s *outlook.Stand, _ *outlook.Outlook) *Piece {
	year := s.Date.Year()
	if s.Judged() == outlook.Clover || s.Growth.Number < 2 || s.Date < unit.DateOf(year, time.August, lastCutFrom) || s.Date > unit.DateOf(year, time.November, 20) {
		return nil
	}
	if s.Sky == nil {
		return unjudged(s, "last-cut", s.NoSky)
	}
	median, ok := s.Sky.Fall24.On(0.5, year)
	early, ok2 := s.Sky.Fall24.On(0.1, year)
	r := restOf(s)
	if r == nil || !ok || !ok2 {
		return unjudged(s, "last-cut", noRest(s))
	}
	p := &Piece{Decision: "last-cut", Stand: s, Urgency: Rest, Window: &Window{Early: r.takeBy - 10, Middle: r.takeBy, Late: r.takeBy, Best: r.takeBy, Means: "at most 3 years in 10 land between 500 and 200 degree days", Firm: true}}
	today := riskOf(s, s.Date)
	grown := s.Growth.Since + leastInterval
	chance := fmt.Sprintf("Cut today, %s would leave regrowth caught by frost with empty roots", Years(today.Between))
	switch {
	case frozen(s):
		p.Title, p.Window = "Growth has stopped", nil
		p.Sentence = "A killing freeze has come: what stands may be taken as a dormant cut on well-drained ground, 6 inches high, where feed is short; as snow catch it is worth more."
	case s.Date <= r.takeBy && grown <= r.takeBy:
		p.Urgency, p.Title = Watch, "Last cut by "+Short(r.takeBy)
		if s.Date >= r.takeBy-10 {
			p.Urgency, p.Title = Week, "Take the last cut by "+Short(r.takeBy)
		}
		p.Sentence = fmt.Sprintf("Take it by %s or leave it: until then at most 3 years in 10 leave too little heat to refill the roots before 24 °F (median %s).", Short(r.takeBy), Short(median))
		p.Window.Early = max(grown, r.takeBy-20)
	case s.Date < r.reopen:
		p.Urgency, p.Title = Watch, "Leave the last growth"
		p.Sentence = chance + fmt.Sprintf("; leave it until %s at least, then only a dormant cut.", Short(r.reopen))
		p.Window = &Window{Early: s.Date, Middle: r.reopen, Late: r.reopen, Best: r.reopen, Means: "no cut before", Firm: true}
	default:
		p.Title = "Leave it, or a dormant cut"
		p.Sentence = fmt.Sprintf("Too little heat is left to start regrowth (%s over 200 degree days): a dormant cut harms only on wet ground or bare crowns; 6 inches of stubble catch snow.", Years(1-today.Under))
		p.Window = nil
	}
	if p.Urgency == Rest && p.Window != nil {
		p.Urgency = Watch
	}
	p.Worth.Text = "A cut inside the rest period costs yield and stand next spring: 0.44 ton an acre in the old Iowa trial for a cut on 1 September, almost nothing on 7 October."
	p.Measure = "height of the growth, and potash in the soil test"
	p.Grounds = lastCutGrounds(s, today, median, early)
	p.Rules = []Rule{fallRule(r, median, early)}
	return p
}

func fallRule(r *rest, median, early unit.Day) Rule {
	by := median - restRuleDays
	rule := Rule{
		Says: "the last cut at least 35 days before dormancy", Source: source.RuleFallRest35,
		Here: fmt.Sprintf("by %s, counted back from %s; by %s in the earliest year of ten", Short(by), Short(median), Short(early-restRuleDays)),
	}
	if gap := int(by - r.takeBy); math.Abs(float64(gap)) > 3 {
		rule.Differs = "heat, not days, refills the roots: the station's years with warm and cold falls are counted one by one"
	}
	return rule
}

func lastCutGrounds(s *outlook.Stand, today frost.Rest, median, early unit.Day) []Ground {
	g := []Ground{{
		What: "Killing freeze", Value: fmt.Sprintf("24 °F: median %s, 1 year in 10 by %s", Short(median), Short(early)),
		How: fmt.Sprintf("first day at 24 °F or less from 1 August in %d years of station %s, Weibull positions", s.Sky.Fall24.Years, s.Sky.Station.Name), Sources: []source.ID{source.KillingFreeze, source.FreezeFormula},
	}}
	if m, ok := s.Sky.Fall28.On(0.5, s.Date.Year()); ok {
		g = append(g, Ground{What: "Beside it, 28 °F", Value: "median " + Short(m), How: "sources differ between 24 and 28 °F", Sources: []source.ID{source.KillingFreeze}})
	}
	return append(g, Ground{
		What: "Heat left after a cut today", Value: fmt.Sprintf("%s over 500, %s between, %s under 200 C-days", Years(today.Over), Years(today.Between), Years(today.Under)),
		How: "daily mean above 5 °C from tomorrow to the first 24 °F or 30 November, every past year", Sources: []source.ID{source.FallRestHeat, source.FallRestRisk},
	})
}
