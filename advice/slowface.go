package advice

import (
	"fmt"

	"haywarden/agronomy/source"
	"haywarden/agronomy/storage"
	"haywarden/outlook"
)

// SlowFace says that a silo is fed too slowly to keep ahead of spoilage.
func SlowFace(f *outlook.Farm) *Piece {
	var slow *outlook.FeedLot
	for _, l := range f.Lots {
		if l.FaceSays != "" && l.FaceSays != storage.FaceEnough && (slow == nil || l.Inches < slow.Inches) {
			slow = l
		}
	}
	if slow == nil {
		return nil
	}
	p := &Piece{Decision: "slow-face", Feed: f, Urgency: Watch, Title: fmt.Sprintf("The face of %s moves %.1f in a day", slow.Name, slow.Inches)}
	if slow.FaceSays != storage.FaceSlow {
		p.Urgency = Week
	}
	p.Sentence = fmt.Sprintf("%s is fed %.0f lb a day, %.1f in off its face; that is %s. Feed more of it and less of another, open a smaller face, or take it before the weather warms.", Capital(slow.Name), slow.LbDay, slow.Inches, slow.FaceSays)
	p.warn(storage.FaceCanCollapse)
	p.Grounds = []Ground{{
		What: "Face", Value: fmt.Sprintf("%.1f in a day", slow.Inches), How: "what is fed over face and density; 12 in a day keeps ahead of air, sources differ below that",
		Sources: []source.ID{source.FaceArithmetic, source.FaceRate, source.FaceFloor, source.FaceMiddle},
	}}
	return p
}
