package advice

import (
	"fmt"
	"time"

	"haywarden/outlook"
)

// lastGrowing is the last month in which a stand that was not cut is still spoken of as growing.
const lastGrowing = time.October

// unjudged says plainly that a decision cannot be made here, and why.
func unjudged(s *outlook.Stand, decision, why string) *Piece {
	return &Piece{Decision: decision, Stand: s, Urgency: Unjudged, Title: "Cannot be judged", Sentence: Capital(why) + "."}
}

// blind is why a stand's weather says nothing of today; empty where it does.
func blind(s *outlook.Stand) string {
	switch {
	case s.Sky == nil:
		return s.NoSky
	case s.Stale() > 0:
		return fmt.Sprintf("the weather of station %s ends on %s, %d days ago; import the days since", s.Sky.Station.Name, Short(s.Sky.Through), s.Stale()+1)
	case s.Date.Month() >= time.April && s.Sky.Heat41.Filled > 0 && !s.Sky.Heat41.Trusted():
		return fmt.Sprintf("station %s reported nothing on %d of the %d days since 1 March: too many to sum up heat", s.Sky.Station.Name, s.Sky.Heat41.Filled, len(s.Sky.Heat41.Sum))
	case len(s.Sky.Members) == 0:
		return fmt.Sprintf("station %s has no past year to follow", s.Sky.Station.Name)
	}
	return ""
}

// heatKnown reports whether the season's heat, and past years to carry it on through, can be used: a
// few missing days are taken at their usual value and said, more are not.
func heatKnown(s *outlook.Stand) bool {
	return s.Sky != nil && s.Sky.Heat41.Trusted() && len(s.Sky.Members) > 0
}

// resting is the piece of a stand with nothing due: it says what comes next, or why nothing can be said.
func resting(s *outlook.Stand) *Piece {
	if why := blind(s); why != "" {
		return unjudged(s, "nothing-due", why)
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
	case month < 4 || month > lastGrowing:
		return "Dormant; count stems in spring when plants stand 4 to 6 inches tall."
	case s.Growth.After:
		return fmt.Sprintf("Day %d of its %s growth.", s.Growth.Days(s.Date), Ordinal(s.Growth.Number))
	}
	return fmt.Sprintf("First growth, %.0f F-days above 41 °F since 1 March.", s.Sky.Heat41.Now())
}
