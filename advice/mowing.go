package advice

import (
	"haywarden/agronomy/unit"
	"haywarden/outlook"
)

// MowingDay is the best day of a cut judged by feed value whose window is open or opens within a week,
// and which is near enough for the weather to speak of; not ok where no such cut is near.
func MowingDay(s *outlook.Stand) (unit.Day, bool) {
	if s.Judged() != outlook.PureAlfalfa || s.SeedingYear() || s.Standing == nil || s.Sky == nil || s.Stale() > 0 {
		return 0, false
	}
	ahead := s.Ahead()
	if ahead == nil {
		return 0, false
	}
	w, ok := ahead.Reaches(s.Target.CutRFV).Window()
	if !ok || w.Early > s.Date+readyDays || s.Date > w.Late+overDays {
		return 0, false
	}
	best, _ := ahead.BestDay(max(w.Early, s.Date), max(w.Late, s.Date+2), s.Target.DryDays, s.Target.CutRFV)
	return best, best < s.Date+outlook.MowAhead
}
