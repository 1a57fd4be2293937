package advice

import (
	"fmt"

	"haywarden/agronomy/source"
	"haywarden/outlook"
)

// WrongLot says that a lot should not go to the group that eats it, and what should.
func WrongLot(f *outlook.Farm) *Piece {
	for _, l := range f.Lots {
		if l.Unmatched == "" {
			continue
		}
		p := &Piece{Decision: "wrong-lot", Feed: f, Urgency: Week, Title: fmt.Sprintf("%s should not go to %s", Capital(l.Name), l.Group)}
		p.Sentence = fmt.Sprintf("%s is fed to %s: %s.", Capital(l.Name), l.Group, l.Unmatched)
		if other := f.LotFor(l.Group); other != "" && other != l.Name {
			p.Sentence += fmt.Sprintf(" %s would do for them.", Capital(other))
		}
		if eater := f.EaterOf(l.Name); eater != "" && eater != l.Group {
			p.Sentence += fmt.Sprintf(" It is worth most to the group %s.", eater)
		}
		p.Grounds = []Ground{{What: "Quality", Value: fmt.Sprintf("RFQ %.0f", l.RFQ), How: l.From, Sources: []source.ID{source.QualityMinnesota, source.QualityBands, source.TooGood}}}
		return p
	}
	return nil
}
