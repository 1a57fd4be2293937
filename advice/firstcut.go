package advice

import (
	"haywarden/outlook"
)

// FirstCut says cut or wait for the first cut of pure alfalfa, from stick readings and heat carried
// through the past years. The second cut takes the same way where it was read with the stick.
func FirstCut(s *outlook.Stand, o *outlook.Outlook) *Piece {
	if s.Judged() != outlook.PureAlfalfa || s.Growth.Number != 1 || s.Standing == nil {
		return nil
	}
	return qualityCut(s, o, "first-cut")
}
