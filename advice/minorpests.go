package advice

import (
	"fmt"
	"math"
	"strings"

	"haywarden/agronomy/pest"
	"haywarden/agronomy/source"
	"haywarden/outlook"
)

// MinorPests says what a count of another pest means where it comes to its printed limit or near it.
func MinorPests(s *outlook.Stand, _ *outlook.Outlook) *Piece {
	for _, m := range pest.Minors() {
		c := s.Scouted(m.Name)
		if c == nil || s.Date-c.Day > countLasts {
			continue
		}
		high := c.Growth
		if math.IsNaN(high) {
			high = 0
		}
		n, at := c.Mean, m.Threshold(high)
		if strings.HasPrefix(m.Unit, "%") {
			n *= 100
		}
		stands := pest.Judge(n, at)
		if stands == pest.Under {
			continue
		}
		name := strings.ReplaceAll(m.Name, "-", " ")
		p := &Piece{
			Decision: "minor-pest", Stand: s, Errand: true, Urgency: Week, Title: Capital(name) + " is near its limit: look again",
			Window:  &Window{Early: s.Date, Middle: c.Day + lookAgainIn, Late: c.Day + countLasts, Best: max(s.Date, c.Day+lookAgainIn), Means: "next look", Firm: true},
			Measure: "the same count again, and what eats it",
		}
		p.Sentence = fmt.Sprintf("%s: %.3g counted as %s on %s, where a guide's limit is %.3g. %s.", Capital(name), n, m.Unit, Short(c.Day), at, Capital(m.Says))
		p.warn(pest.BeforeYouEnter)
		if stands == pest.Over {
			p.Title = Capital(name) + " has come to its limit"
			p.tell(pest.TellSpray("If the cut is within a week, cut; else treating may pay where the label allows it."))
		}
		p.Grounds = []Ground{{
			What: "Limit", Value: fmt.Sprintf("%.3g, %s", at, m.Unit), How: "printed, without a price", Reckon: fmt.Sprintf("minor-pest pest=%s count=%.4g height=%.3g", m.Name, n, high), Sources: []source.ID{m.Source},
		}}
		return p
	}
	return nil
}
