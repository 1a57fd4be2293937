package advice

import (
	"fmt"

	"haywarden/outlook"
)

// unjudged says plainly that a decision cannot be made here, and why.
func unjudged(s *outlook.Stand, decision, why string) *Piece {
	return &Piece{Decision: decision, Stand: s, Urgency: Unjudged, Title: "Cannot be judged", Sentence: capital(why) + "."}
}

// resting is the piece of a stand with nothing due: it says what comes next, or why nothing can be said.
func resting(s *outlook.Stand) *Piece {
	if s.Sky == nil {
		return unjudged(s, "nothing-due", s.NoSky)
	}
	if gap := s.Stale(); gap > 0 {
		return unjudged(s, "nothing-due", fmt.Sprintf("the weather of station %s ends on %s, %d days ago; import the days since", s.Sky.Station.Name, Short(s.Sky.Through), gap+1))
	}
	p := &Piece{Decision: "nothing-due", Stand: s, Urgency: Rest, Title: "Nothing due"}
	p.Sentence = restingSentence(s)
	if s.NotStanding != "" {
		p.Grounds = append(p.Grounds, Ground{What: "Quality", Value: "not said", How: s.NotStanding})
	}
	return p
}

func restingSentence(s *outlook.Stand) string {
	month := s.Date.Month()
	switch {
	case s.SeedingYear():
		return "In its seeding year: judged by age from 60 days after emergence."
	case month < 4 || month > 10:
		return "Dormant; count stems in spring when plants stand 4 to 6 inches tall."
	case s.Growth.After:
		return fmt.Sprintf("Day %d of its %s growth.", s.Growth.Days(s.Date), ordinal(s.Growth.Number))
	}
	return fmt.Sprintf("First growth, %.0f F-days above 41 °F since 1 March.", s.Sky.Heat41.Now())
}
