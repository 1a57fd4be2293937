package advice

import (
	"fmt"
	"strings"
	"time"

	"haywarden/agronomy/stand"
	"haywarden/outlook"
)

// winterSeason reports whether the winter behind is still news: until the first cut is past.
func winterSeason(s *outlook.Stand) bool {
	return s.Date.Month() >= time.March && s.Date.Month() <= time.June && s.Growth.Number == 1
}

const (
	lookLoss  = 0.15 // share of the year's yield from which an uncounted stand is dug early (choice)
	greenHeat = 120  // F-days above 41 F from which it is green enough to look (choice)
)

// WinterLook sends someone to dig where a hard winter met a tender stand, before stems can be counted.
func WinterLook(s *outlook.Stand, _ *outlook.Outlook) *Piece {
	w := s.Wintered
	if w == nil || w.Counted || w.Winter == nil || w.Loss < lookLoss || !winterSeason(s) || !heatKnown(s) {
		return nil
	}
	heat := s.Sky.Heat41.Now()
	if heat < greenHeat || heat >= countHeat {
		return nil
	}
	p := &Piece{
		Decision: "winter-look", Stand: s, Errand: true, Urgency: Week, Title: "Dig roots: a hard winter",
		Measure: "20 to 30 roots split lengthwise and rated 0 to 5, and how evenly it greens up",
	}
	if c := w.Winter.Stress.Class; c != stand.StressHard && c != stand.StressSevere {
		p.Title = "Dig roots: what the winter did"
	}
	p.Sentence = fmt.Sprintf("The winter was %s on crowns (%s). Dig now; stems are counted at 4 to 6 inches.", w.Winter.Stress.Class, strings.Join(w.Winter.Stress.Because, "; "))
	p.Worth.Text = fmt.Sprintf("%.0f to %.0f %% of the year's yield may be lost: what is lost can be sown anew while there is time.", 100*w.Low, 100*w.High)
	p.Grounds = WinterGrounds(w)
	return p
}
