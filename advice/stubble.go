package advice

import (
	"fmt"

	"haywarden/agronomy/pest"
	"haywarden/agronomy/source"
	"haywarden/outlook"
)

// hinted is the share of stems with feeding, %, or larvae a stem, that make stubble worth a look (choice:
// half of what the guides act at).
const hintedTips, hintedLarvae = pest.TipFeeding / 2, 0.5

// Stubble sends someone to look whether weevil holds back the regrowth after the first cut, where it was
// seen before it.
func Stubble(s *outlook.Stand, _ *outlook.Outlook) *Piece {
	days := s.Growth.Days(s.Date)
	if s.Growth.Number != 2 || !s.Growth.After || s.SeedingYear() || s.Judged() == outlook.Clover || days < pest.StubbleFrom-1 || days > pest.StubbleTo || s.Scouted("weevil-stubble") != nil {
		return nil
	}
	what := weevilBefore(s)
	if what == "" {
		return nil
	}
	from := s.Growth.Since + pest.StubbleFrom
	p := &Piece{
		Decision: "weevil-stubble", Stand: s, Errand: true, Urgency: Week, Title: "Look at the stubble for weevil " + When(s.Date, max(s.Date, from)),
		Window:  &Window{Early: from, Middle: from, Late: s.Growth.Since + pest.StubbleTo, Best: max(s.Date, from), Means: "regrowth held back shows", Firm: true},
		Measure: "larvae on 20 looks of a square foot of stubble, windrow strips too, and whether shoots green up",
	}
	if s.Date < from {
		p.Urgency = Watch
	}
	p.Sentence = fmt.Sprintf("Weevil was in the first growth (%s) and what the cut left may hold back the second: %g larvae a square foot, or no green 4 to 5 days after the cut, is where guides act.", what, pest.StubbleLarvae)
	p.Worth.Text = "Large larvae will pupate and are left alone; a small one has its feeding ahead."
	p.warn(pest.BeforeYouEnter)
	p.Grounds = []Ground{{What: "Stubble", Value: fmt.Sprintf("day %d after the first cut", days), How: "printed counts after the cut, the lower one", Sources: []source.ID{source.StubbleLarvae}}}
	return p
}

// weevilBefore says what of weevil was seen this year before the cut, where it was worth a word.
func weevilBefore(s *outlook.Stand) string {
	w := s.WeevilSeen()
	switch {
	case w.Larvae >= hintedLarvae:
		return fmt.Sprintf("%.2g larvae a stem, %s", w.Larvae, Short(w.LarvaeOn))
	case w.Tips >= hintedTips:
		return fmt.Sprintf("%.0f %% of tips fed on, %s", w.Tips, Short(w.TipsOn))
	}
	return ""
}
