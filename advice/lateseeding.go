package advice

import (
	"fmt"
	"time"

	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
	"haywarden/outlook"
)

const (
	seedingRule = 45 // days before the killing frost, [source.RuleLateSeeding]
	lateFrom    = time.July
)

// LateSeeding says how much time this year's late-summer seeding has before its station's killing
// freeze, and what to look at where that is little.
func LateSeeding(s *outlook.Stand, _ *outlook.Outlook) *Piece {
	if s.Sky == nil || !s.SeedingYear() || s.Seeded.Month() <= lateFrom || s.Date > s.Seeded+120 {
		return nil
	}
	median, ok := s.Sky.Fall24.On(0.5, s.Seeded.Year())
	early, ok2 := s.Sky.Fall24.On(0.1, s.Seeded.Year())
	if !ok || !ok2 {
		return unjudged(s, "late-seeding", noRest(s))
	}
	has, least := int(median-s.Seeded), int(early-s.Seeded)
	p := &Piece{
		Decision: "late-seeding", Stand: s, Urgency: Watch, Errand: true, Title: "Late seeding: in time",
		Sentence: fmt.Sprintf("Seeded %s, %d days before the median killing freeze of %s and %d before the earliest in ten years.", Short(s.Seeded), has, Short(median), least),
		Measure:  "seedlings a square foot, and whether they have five leaves or more before growth stops",
	}
	if least < seedingRule {
		p.Title = "Late seeding: tight"
	}
	if has < seedingRule {
		p.Title = "Late seeding: too late in most years"
		p.Worth.Text = "Seedlings that enter winter small heave and thin: plan to count in April before anything is spent on the stand."
	}
	look := s.Seeded + unit.Day(28)
	p.Window = &Window{Early: s.Seeded + 21, Middle: look, Late: s.Seeded + 42, Best: max(s.Date, look), Means: "seedlings can be counted", Firm: true}
	p.Grounds = []Ground{{
		What: "Killing freeze", Value: fmt.Sprintf("24 °F: median %s, 1 year in 10 by %s", Short(median), Short(early)),
		How: fmt.Sprintf("first day at 24 °F or less from 1 August in %d years of station %s, Weibull positions", s.Sky.Fall24.Years, s.Sky.Station.Name), Sources: []source.ID{source.KillingFreeze, source.FreezeFormula, source.SeedlingRest},
	}}
	rule := Rule{Says: "a late-summer seeding at least 45 days before the first killing frost", Here: fmt.Sprintf("by %s, by %s in the earliest year of ten", Short(median-seedingRule), Short(early-seedingRule)), Source: source.RuleLateSeeding}
	if has >= seedingRule && least < seedingRule {
		rule.Differs = "the rule counts from the usual frost; one year in ten comes sooner"
	}
	p.Rules = []Rule{rule}
	return p
}
