package advice

import (
	"fmt"

	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
	"haywarden/outlook"
)

const (
	sentinelDays   = 3 // a sentinel is read twice a week
	otherDays      = 6 // another stand once its window is near
	leastNarrowing = 3 // days of window below which a trip is not worth making
	nearWindow     = 8 // days before the window at which an unread stand is worth a reading
)

// StickReading says where a reading narrows a window that is near: sentinels twice a week, other
// stands when their cut comes up.
func StickReading(s *outlook.Stand, _ *outlook.Outlook) *Piece {
	again := s.Doubt() != "" || s.Disputed()
	if s.Sky == nil || s.Judged() != outlook.PureAlfalfa || s.Year < 1 || !s.Frosted.Lifted() || s.Growth.Number > 2 || s.Growth.Number == 2 && !again {
		return nil
	}
	r, read := s.LastReading()
	if s.Sky.Heat41.Now() < stickHeat && !read {
		return nil
	}
	early, late, known := nearCut(s)
	if known && s.Date > late && !s.Disputed() || !again && !s.Sentinel && (!known || early > s.Date+nearWindow) {
		return nil
	}
	wait := unit.Day(otherDays)
	if s.Sentinel {
		wait = sentinelDays
	}
	due := s.Date
	if read && !again {
		due = max(s.Date, r.Day+wait)
	}
	now, then, narrows := s.Narrowed()
	worthIt := s.Sentinel || narrows && now-then >= leastNarrowing
	if !again && (due > s.Date+1 || !worthIt) {
		return nil
	}
	p := &Piece{
		Decision: "stick-reading", Stand: s, Errand: true, Urgency: Week, Title: "Take a stick reading",
		Window:  &Window{Early: s.Date, Middle: due, Late: due + wait, Best: due, Means: "reading due", Firm: true},
		Measure: "five spots: tallest stem, and stage of the most mature one",
	}
	p.Sentence = readingSentence(s, r, read)
	switch {
	case narrows && then < now:
		p.Worth.Text = fmt.Sprintf("It narrows the cut window from %d days to %d.", now, then)
	case s.Sentinel:
		p.Worth.Text = "It keeps the windows of the fields it speaks for narrow."
	}
	p.Grounds = []Ground{heat41Ground(s), {What: "When to read", Value: "from 16 in, sentinels twice a week", How: "published protocol", Sources: []source.ID{source.StickStart, source.StickTable}}}
	return p
}

// nearCut is when the stand's cut window opens and closes.
func nearCut(s *outlook.Stand) (early, late unit.Day, ok bool) {
	a := s.Ahead()
	if a == nil {
		return 0, 0, false
	}
	w, ok := a.Reaches(s.Target.CutRFV).Window()
	return w.Early, w.Late, ok
}

func readingSentence(s *outlook.Stand, r outlook.Reading, read bool) string {
	switch why := s.Doubt(); {
	case why != "":
		last := s.Readings[len(s.Readings)-1]
		return fmt.Sprintf("The reading of %s looks wrong (%s) and was set aside: read it again.", Short(last.Day), why)
	case s.Disputed():
		return fmt.Sprintf("The reading of %s and the heat differ by more than their errors explain: read it again.", Short(r.Day))
	case !read && s.Sentinel:
		return "A sentinel field, tall enough for the stick and not read yet in this growth."
	case !read:
		return "Its cut is near and no reading was taken in this field."
	case s.Sentinel:
		return fmt.Sprintf("A sentinel field, last read on %s: it speaks for its neighbours twice a week.", Short(r.Day))
	}
	return fmt.Sprintf("Its cut is near and the last reading is %d days old.", s.Date-r.Day)
}
