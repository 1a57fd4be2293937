package advice

import (
	"fmt"
	"haywarden/agronomy/frost"
	"haywarden/agronomy/unit"
	"haywarden/outlook"
	"time"
)

const (
	enoughHeat   = 500 // C-days base 5 C left after the last cut, [source.FallRestHeat]
	littleHeat   = 200
	mostRisk     = 0.3 // more years in ten than this between the two: leave it
	leastYears   = 10  // on record for freeze dates, [source.FreezeYears]
	restRuleDays = 35  // [source.RuleFallRest35]
	lastCutFrom  = 10  // of August: from when the last cut is spoken of
)

// rest is when the last cut may be taken and when it must be left, from the station's own years.
type rest struct {
	takeBy unit.Day // last day of the early span in which at most 3 years in 10 land between
	reopen unit.Day // first day after which again at most 3 years in 10 do
}

// restOf works the rest period out; nil where the station has too few years.
func restOf(s *outlook.Stand) *rest {
	if s.Sky == nil || s.Sky.Fall24.Years < leastYears {
		return nil
	}
	year := s.Date.Year()
	r := &rest{}
	inside := false
	for d := unit.DateOf(year, time.August, 1); d <= unit.DateOf(year, time.November, 30); d++ {
		risk := riskOf(s, d).Between
		if risk > mostRisk && !inside && r.reopen == 0 {
			inside, r.takeBy = true, d-1
		}
		if risk <= mostRisk && inside {
			inside, r.reopen = false, d
		}
	}
	if r.takeBy == 0 || r.reopen == 0 {
		return nil
	}
	return r
}

// riskOf is how past years would have treated a cut on a day from 31 July on.
func riskOf(s *outlook.Stand, d unit.Day) frost.Rest {
	return frost.RestRisk(s.Sky.HeatUntilFreeze(d), enoughHeat, littleHeat)
}

// frozen reports whether a killing freeze has come this fall.
func frozen(s *outlook.Stand) bool {
	return s.Sky.ColdestSince(unit.DateOf(s.Date.Year(), time.August, 1)) <= s.Sky.Fall24.ThresholdF
}

// noRest is why a station's years give no rest period.
func noRest(s *outlook.Stand) string {
	if n := s.Sky.Fall24.Years; n < leastYears {
		return fmt.Sprintf("station %s has %d whole falls on record, and freeze dates want %d", s.Sky.Station.Name, n, leastYears)
	}
	return fmt.Sprintf("the falls of station %s bring no killing freeze in most years, or leave heat enough after any cut: no rest follows from them", s.Sky.Station.Name)
}

// RestPeriod is the station's rest before frost for a stand: the last day to cut and the first on
// which a late cut is safe again; not ok where the station cannot say.
func RestPeriod(s *outlook.Stand) (takeBy, reopen unit.Day, ok bool) {
	r := restOf(s)
	if r == nil {
		return 0, 0, false
	}
	return r.takeBy, r.reopen, true
}

// tooLateInYear reports whether a day falls after the growing season of later cuts, when the last-cut
// decision takes over.
func tooLateInYear(s *outlook.Stand, d unit.Day) bool {
	rest := restOf(s)
	return rest != nil && d > rest.takeBy
}
