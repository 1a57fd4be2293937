package advice

import (
	"haywarden/outlook"
)

// FirstCut says cut or wait for the first cut of pure alfalfa, from stick readings and heat carried
// through the past years. The second cut takes the same way where it was read with the stick.
func FirstCut(s *outlook.Stand, o *outlook.Outlook) *Piece {
	if s.Judged() != outlook.PureAlfalfa || s.Growth.Number != 1 {
		return nil
	}
	if s.Standing == nil {
		return unread(s)
	}
	return qualityCut(s, o, "first-cut")
}

// unread says that a first growth which must be near its cut, or past it, cannot be judged without a
// reading: heat tells too little of it.
func unread(s *outlook.Stand) *Piece {
	if !heatKnown(s) || s.SeedingYear() || !s.Frosted.Lifted() || s.Date.Month() > lastGrowing {
		return nil
	}
	if now := s.Sky.Heat41.Now(); now <= outlook.LateHeat && (s.Frosted == nil || now < stickHeat) {
		return nil
	}
	p := unjudged(s, "first-cut", s.NotStanding)
	p.Measure = "a stick reading of five spots"
	p.Grounds = []Ground{heat41Ground(s)}
	return p
}
