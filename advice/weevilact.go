package advice

import (
	"haywarden/agronomy/pest"
	"haywarden/agronomy/source"
	"haywarden/outlook"
)

// WeevilAct says what a count of weevil larvae in first growth means.
func WeevilAct(s *outlook.Stand, o *outlook.Outlook) *Piece {
	if s.Growth.Number != 1 || s.SeedingYear() || s.Judged() == outlook.Clover || s.Sky == nil {
		return nil
	}
	p := pestAct(s, o, pest.AlfalfaWeevil, "weevil-act", "weevil")
	if p != nil {
		p.Rules = append(p.Rules, Rule{Says: "weevil is a pest of the first cut", Here: "this is first growth", Source: source.RuleFirstCutBug})
	}
	return p
}
