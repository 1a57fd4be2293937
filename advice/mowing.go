package advice

import (
	"haywarden/agronomy/unit"
	"haywarden/outlook"
)

// MowingDay is the best day of the cut that a stand's advice calls for, where its standing quality is
// known, its window opens within a week, and the day is near enough for the weather to speak of it; not
// ok where no such cut is near.
func MowingDay(pieces []*Piece) (unit.Day, bool) {
	for _, p := range pieces {
		if p.Window == nil || !Cuts(p.Decision) || p.Stand.Standing == nil || p.Stand.Stale() > 0 {
			continue
		}
		today, best := p.Stand.Date, max(p.Stand.Date, p.Window.Best)
		if p.Urgency < Watch && p.Window.Early <= today+readyDays && best < today+outlook.MowAhead {
			return best, true
		}
	}
	return 0, false
}
