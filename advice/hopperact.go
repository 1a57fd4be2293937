package advice

import (
	"haywarden/agronomy/pest"
	"haywarden/agronomy/source"
	"haywarden/outlook"
)

// HopperAct says what sweeps for leafhopper mean.
func HopperAct(s *outlook.Stand, o *outlook.Outlook) *Piece {
	if _, _, _, ok := s.HopperSeason(o.Guide); !ok || s.Sky == nil {
		return nil
	}
	p := pestAct(s, o, pest.Leafhopper, "hopper-act", "leafhopper")
	if p != nil && s.Hairy {
		r := Rule{Says: "a resistant variety carries about three times the threshold, and is scouted and under heavy pressure sprayed all the same", Here: "three times is reckoned", Source: source.RuleHopper3}
		if s.SeedingYear() {
			r.Here, r.Differs = "the plain threshold is reckoned", "in the year of seeding its hairs are not fully there"
		}
		p.Rules = append(p.Rules, r)
	}
	return p
}
