package outlook

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Follows says what the days ahead go by: "34 past years, weighed by how like this season they were, and
// the forecast of 18 May".
func (s *Sky) Follows() string {
	var b strings.Builder
	switch {
	case s.Made:
		fmt.Fprintf(&b, "%d ways the year may go, made after the station's short record", len(s.Members))
	case s.alike():
		fmt.Fprintf(&b, "%d past years", len(s.Members))
	default:
		fmt.Fprintf(&b, "%d past years, weighed by how like this season they were", len(s.Members))
	}
	if s.Forecast != nil {
		fmt.Fprintf(&b, ", and the forecast of %s", s.Forecast.Issued.Format("2 January"))
	}
	return b.String()
}

// alike reports whether all members weigh the same, as they do before a season has told anything.
func (s *Sky) alike() bool {
	for _, m := range s.Members {
		if m.Weight < 0.999*s.Members[0].Weight || m.Weight > 1.001*s.Members[0].Weight {
			return false
		}
	}
	return true
}

// Likest gives the past years most like this season so far, the likest first; none where that cannot be
// told.
func (s *Sky) Likest(n int) []int {
	if s.Made || s.alike() {
		return nil
	}
	by := slices.Clone(s.Members)
	slices.SortStableFunc(by, func(a, b *Member) int { return cmp.Or(-cmp.Compare(a.Weight, b.Weight), cmp.Compare(a.Year, b.Year)) })
	var years []int
	for _, m := range by[:min(n, len(by))] {
		years = append(years, m.Year)
	}
	return years
}
