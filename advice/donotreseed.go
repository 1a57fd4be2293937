package advice

import (
	"fmt"
	"math"
	"strings"

	"haywarden/agronomy/seeding"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
	"haywarden/outlook"
)

// DoNotReseed speaks against sowing alfalfa where alfalfa stood or stands, by the age of the old stand and the
// gap alone.
func DoNotReseed(s *outlook.Stand, _ *outlook.Outlook) *Piece {
	for i := range s.Plans {
		p := &s.Plans[i]
		class := p.Before.Class()
		if !p.SowsAlfalfa() || class != seeding.AfterGrown && class != seeding.AfterAlive {
			continue
		}
		return refuseAlfalfa(s, p, class)
	}
	return nil
}

func refuseAlfalfa(s *outlook.Stand, p *outlook.Planned, class seeding.AfterAlfalfa) *Piece {
	plan := p.Plan.Body
	out := &Piece{Decision: "do-not-reseed", Stand: s, Urgency: Week, Title: "Do not sow alfalfa here in " + Season(plan.Season, plan.Year)}
	out.Sentence = class.Sentence()
	age := fmt.Sprintf("%.0f years old", math.Floor(p.Before.Age))
	if p.Before.Age < 2 {
		age = "in its second year"
	}
	gap := fmt.Sprintf("gone %.0f months by %s", math.Floor(p.Before.Gone), Short(p.Window.Best))
	if class == seeding.AfterAlive {
		gap = "standing when it is sown into"
	} else if p.Before.Gone < 1 {
		gap = "gone less than a month by then"
	}
	out.Worth.Text = "Sown all the same, 8 to 29 % of the yield are lost for as long as the stand lives."
	out.Worth.Text += " Instead: " + strings.Join(seeding.Interseed(), "; ") + "."
	if s.Date-p.Plan.Day > planNews && s.Date < p.Window.Early-planAhead {
		out.Urgency = Watch
	}
	out.Window = &Window{Early: s.Date, Middle: max(s.Date, p.Window.Early), Late: max(s.Date, p.Window.Late), Best: max(s.Date, p.Window.Early), Means: "the plan can be changed", Firm: true}
	out.Grounds = []Ground{{
		What: "Old alfalfa", Value: age + ", " + gap, How: "by the book: seeded, and turned under or killed now", Sources: []source.ID{source.ReseedingGap, source.OldPlantLoss},
	}, {
		What: "Ground within reach of old plants", Value: fmt.Sprintf("%.0f %% where one plant a square foot is left", 100*seeding.Poisoned(1, reachCM)),
		How: "plants at random, each reaching 20 cm", Reckon: "autotoxic-ground plants=1 radius=20", Sources: []source.ID{source.OldPlantZone},
	}}
	if class == seeding.AfterGrown {
		until := p.Window.Best + unit.Day(math.Ceil((12-p.Before.Gone)*365.25/12))
		out.Grounds = append(out.Grounds, Ground{What: "Free of old alfalfa for a year", Value: until.Time().Format("January 2006"), How: "twelve months after it died", Sources: []source.ID{source.ReseedingGap}})
	}
	return out
}

const (
	reachCM   = 20
	planNews  = 21 // days for which a plan that was told is news (choice)
	planAhead = 45 // days before the seeding from which it is this week's business (choice)
)
