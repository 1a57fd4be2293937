package advice

import (
	"fmt"

	"haywarden/agronomy/source"
	"haywarden/outlook"
)

// GrowingTips sends someone to look at the growing tips on the third day after a spring frost that was
// cold and long enough to kill tops. Until then heat and stick say nothing.
func GrowingTips(s *outlook.Stand, _ *outlook.Outlook) *Piece {
	f := s.Frosted
	if f.Lifted() {
		return nil
	}
	p := &Piece{
		Decision: "growing-tips", Stand: s, Urgency: Week, Title: "Look at the growing tips " + When(s.Date, max(s.Date, f.LookFrom)),
		Window: &Window{Early: f.LookFrom, Middle: f.LookFrom, Late: f.LookFrom + 2, Best: max(s.Date, f.LookFrom), Means: "damage shows", Firm: true},
	}
	p.Sentence = fmt.Sprintf("%.0f °F on %s, %.0f hours at 24 or less, met plants tall enough to lose their tops. Heat and stick windows rest until the tips are seen.", f.MinF, Weekday(f.Day), f.Hours)
	if s.Date >= f.LookFrom {
		p.Urgency = Today
	}
	p.Worth.Text = "If the tips are killed the stem is finished: tall enough, it is cut for regrowth; short, it is left alone."
	p.Measure = "whether the growing tips of 20 stems are sound or killed"
	if f.Seen != "" {
		p.Urgency, p.Title = Watch, "Tops killed: judge this growth by eye"
		p.Sentence = fmt.Sprintf("The growing tips were found killed on %s after %.0f °F on %s. New shoots start from the crown: cut the old growth only where it is tall enough to pay, and do not call the next cut by heat.", Short(f.SeenOn), f.MinF, Short(f.Day))
		p.Measure = "height of the new shoots in two weeks"
	}
	p.Grounds = []Ground{{
		What: "Frost", Value: fmt.Sprintf("lowest %.0f °F on %s, %.1f hours at or below 24 °F", f.MinF, Short(f.Day), f.Hours),
		How: fmt.Sprintf("sine of the day at station %s; growth by the last height read, else %.0f F-days against %d for 6 in", s.Sky.Station.Name, f.Heat41, outlook.TopsHeat), Reckon: "", Sources: []source.ID{source.FrostTops, source.FrostHours},
	}}
	return p
}
