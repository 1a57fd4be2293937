package paper

import (
	"cmp"
	"fmt"
	"slices"

	"haywarden/advice"
	"haywarden/agronomy/unit"
	"haywarden/outlook"
)

// Due is something that comes up on a stand.
type Due struct {
	Day unit.Day
	Say string
}

// Coming lists what the rest of the year holds for a stand as its strip draws it: what advice names a
// day for, later cuts by the usual days between them, and the rest before frost.
func Coming(s *outlook.Stand, pieces []*advice.Piece) []Due {
	var out []Due
	for _, p := range pieces {
		if w := p.Window; w != nil && w.Best > s.Date {
			out = append(out, Due{w.Best, p.Title})
		}
	}
	plan := planOf(s, pieces)
	if s.Frosted.Lifted() {
		for i, growth := range plan.growths[:max(0, len(plan.growths)-1)] {
			cut := growth[len(growth)-1].Day
			if cut <= s.Date || cut == plan.cutOn {
				continue
			}
			out = append(out, Due{cut, advice.Capital(advice.Ordinal(i+1)) + " cut, roughly"})
		}
	}
	if plan.rests {
		_, reopen, _ := advice.RestPeriod(s)
		if from := plan.lastBy + 1; from > s.Date {
			out = append(out, Due{from, fmt.Sprintf("Leave the last growth for the roots, until %s", advice.Short(reopen))})
		}
		if frost, ok := s.Sky.Fall24.On(0.5, s.Date.Year()); ok && frost > s.Date {
			out = append(out, Due{frost, "Killing freeze (24 °F) in half of years by now"})
		}
	}
	slices.SortStableFunc(out, func(a, b Due) int { return cmp.Compare(a.Day, b.Day) })
	return out
}
