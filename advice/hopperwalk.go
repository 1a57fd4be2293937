package advice

import (
	"fmt"

	"haywarden/agronomy/pest"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
	"haywarden/outlook"
)

// hopperLead is how many days before it is due a walk is spoken of (choice).
const hopperLead = 3

// tallGrowth is as tall as growth is taken to stand where nobody read it, in (choice).
const tallGrowth = 30.0

// hopperSets is how many sets of sweeps are made. [source.HopperSweeps]
const hopperSets = 5

// HopperWalk sends someone to sweep for leafhopper: from a week after a cut, weekly, while they are about.
func HopperWalk(s *outlook.Stand, o *outlook.Outlook) *Piece {
	from, arrives, of, ok := s.HopperSeason(o.Guide)
	if !ok || s.Sky == nil || s.Date+hopperLead < from {
		return nil
	}
	due := from
	seen := s.Scouted(string(pest.Leafhopper))
	if seen != nil {
		due = max(due, seen.Day+pest.HopperEvery)
	}
	if s.Date+hopperLead < due {
		return nil
	}
	cut, _, ok := cutComing(s)
	if !ok || cut <= max(s.Date, due)+pest.CutInstead || tooLateInYear(s, cut) {
		return nil // the mower comes first and takes the nymphs with it, or none comes any more
	}
	best := max(s.Date, due)
	p := &Piece{
		Decision: "hopper-walk", Stand: s, Errand: true, Urgency: Watch, Title: "Sweep for leafhopper " + When(s.Date, best),
		Window:  &Window{Early: due, Middle: due, Late: max(best, due+pest.HopperEvery), Best: best, Means: "sweeps due", Firm: true},
		Measure: fmt.Sprintf("%d sets of %d sweeps across the field, edges left out, and the height of 20 stems", hopperSets, pest.SweepsASet),
	}
	if due <= s.Date {
		p.Urgency = Week
	}
	p.Sentence = hopperSentence(s, seen, arrives[0])
	p.Worth.Text = "Yellow tips come after the loss: only sweeps tell in time."
	p.warn(pest.BeforeYouEnter)
	high := min(tallGrowth, max(1, float64(s.Growth.Days(s.Date)))) // an inch a day
	w, plain := pest.PublishedWeights(), pest.Case{Pest: pest.Leafhopper, HeightIn: high, Stand: pest.Stand{Resistant: s.Hairy, SeedingYear: s.SeedingYear()}}
	at, _, _ := w.Threshold(plain)
	p.Grounds = []Ground{{
		What: "Season", Value: "from " + Span(arrives[0], arrives[1]), How: "leafhoppers are blown in from the south: arrival as printed for " + of + "; from a week after each cut", Sources: []source.ID{source.HopperArrival, source.HopperSweeps},
	}, {
		What: "Threshold", Value: fmt.Sprintf("about %.2g a sweep at %.0f in", at, high), How: "height told by days, an inch a day; the printed count without a price. " + stopEarly(at, pest.SweepsASet), Sources: []source.ID{source.HopperCounts, source.WalkDesign, source.ClumpPlaceholder},
	}}
	return p
}

func hopperSentence(s *outlook.Stand, seen *outlook.Scouted, arrived unit.Day) string {
	switch {
	case seen != nil:
		return fmt.Sprintf("Last swept on %s: numbers can double in ten days, so sweep again every week until the cut.", Short(seen.Day))
	case s.SeedingYear() && !s.Growth.After:
		return fmt.Sprintf("A new seeding has little growth to lose and leafhoppers have been about since %s: none were swept here yet.", Short(arrived))
	}
	return fmt.Sprintf("Day %d after the cut: leafhopper harms young regrowth most, and none were swept in this growth.", s.Growth.Days(s.Date))
}
