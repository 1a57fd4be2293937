package advice

import (
	"fmt"

	"haywarden/agronomy/hazard"
	"haywarden/agronomy/pest"
	"haywarden/agronomy/source"
	"haywarden/outlook"
)

// KeepOut says of a stand that was sprayed until when it is neither cut, grazed nor fed.
func KeepOut(s *outlook.Stand, _ *outlook.Outlook) *Piece {
	r := s.SprayedStill()
	if r == nil {
		return nil
	}
	p := &Piece{
		Decision: "keep-out", Stand: s, Urgency: Safety, Title: "Sprayed: neither cut, graze nor feed before " + Short(r.CutFrom),
		Window: &Window{Early: s.Date, Middle: r.CutFrom, Late: r.CutFrom, Best: r.CutFrom, Means: "days to harvest on the label end", Firm: true},
	}
	p.Sentence = fmt.Sprintf("%s was sprayed on %s; its label, as entered, wants %g days to cutting or grazing and %g hours before anybody goes back in.", Capital(r.Body.Product), Short(r.Day), r.Body.PHIDays, r.Body.REIHours)
	p.warn(hazard.SprayedNoFeed, pest.WaitToHarvest, pest.StayOut, pest.LabelIsLaw)
	p.Grounds = []Ground{{What: "Spraying", Value: Short(r.Day) + ", " + r.Body.Product, How: "as recorded from the label; the label itself decides", Sources: []source.ID{source.SpraySafety}}}
	return p
}

// waitForLabel keeps every cut that is advised behind the days to harvest of what was sprayed.
func waitForLabel(s *outlook.Stand, pieces []*Piece) {
	r := s.SprayedStill()
	if r == nil {
		return
	}
	for _, p := range pieces {
		if !Cuts(p.Decision) {
			continue
		}
		p.warn(hazard.SprayedNoFeed, pest.WaitToHarvest)
		if w := p.Window; w != nil && w.Best < r.CutFrom {
			w.Best, w.BestWhy = r.CutFrom, "the days to harvest of what was sprayed end"
		}
	}
}
