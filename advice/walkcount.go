package advice

import (
	"fmt"

	"haywarden/agronomy/regrowth"
	"haywarden/agronomy/source"
	"haywarden/agronomy/stand"
	"haywarden/outlook"
)

// WalkAndCount sends someone to count stems when plants stand 4 to 6 inches tall.
func WalkAndCount(s *outlook.Stand, _ *outlook.Outlook) *Piece {
	if !heatKnown(s) || s.Stems != nil || s.Year < 1 || s.Growth.Number != 1 {
		return nil
	}
	clock := s.Sky.Heat41
	if clock.Now() > countLate {
		return nil
	}
	now := clock.Now()
	if height, _, read := standingHeight(s); read != "" {
		now = regrowth.HeatForHeight(height) // the stand's own height leads where it was read
	}
	if now > countLate {
		return nil
	}
	ahead := now - clock.Now() // how far on the stand is of what heat alone says
	from, ok := windowOf(s, countHeat-ahead)
	until, ok2 := windowOf(s, outlook.TopsHeat-ahead)
	if !ok || !ok2 || from.Early > s.Date+10 {
		return nil
	}
	frames := stand.PublishedStems().Frames(s.InField.Acres)
	p := &Piece{
		Decision: "walk-and-count", Stand: s, Errand: true, Urgency: Watch, Title: "Walk and count about " + Short(from.Middle),
		Window:  &Window{Early: from.Early, Middle: from.Middle, Late: until.Late, Best: max(s.Date, from.Middle), Means: "plants 4 to 6 inches tall"},
		Measure: fmt.Sprintf("%d frames of 2 square feet", frames),
	}
	p.Sentence = fmt.Sprintf("Plants stand 4 to 6 inches tall about %s: count the stems of %d frames and dig where they are few.", Span(max(s.Date, from.Middle), max(s.Date, until.Middle)), frames)
	if now >= countHeat {
		p.Urgency, p.Title = Week, "Walk and count"
		p.Sentence = fmt.Sprintf("Plants stand about 4 to 6 inches tall until %s: count the stems of %d frames and dig where they are few.", Short(max(s.Date, until.Middle)), frames)
		if now > outlook.TopsHeat {
			p.Sentence = fmt.Sprintf("No stems counted this year and plants are past 6 inches: a count of %d frames still tells, counting only stems the mower would take.", frames)
		}
	}
	p.Worth.Text = "Whether the stand is kept or turned under hangs on it."
	p.Grounds = []Ground{heat41Ground(s), {
		What: "Frames", Value: fmt.Sprintf("%d of 2 ft²", frames), How: fmt.Sprintf("five at least, one for every 5 of %.0f acres, a W across the field, no edges", s.InField.Acres),
		Sources: []source.ID{source.StemProtocol},
	}}
	return p
}
