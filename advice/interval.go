package advice

import (
	"fmt"

	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
	"haywarden/outlook"
)

// The days between later cuts; below the least reserves suffer. [source.RuleInterval]
const leastInterval, mostInterval = 25, 30

// intervalRule sets the trade's interval beside the day that a method finds for a later cut; because
// says what the method found there.
func intervalRule(s *outlook.Stand, day unit.Day, because string) Rule {
	from, to := s.Growth.Since+leastInterval, s.Growth.Since+mostInterval
	r := Rule{Says: "later cuts 25 to 30 days apart", Here: Span(from, to), Source: source.RuleInterval}
	if day < from || day > to {
		r.Differs = fmt.Sprintf("%s at day %d", because, int(day-s.Growth.Since))
	}
	return r
}
