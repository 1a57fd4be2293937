package advice

import (
	"fmt"

	"haywarden/agronomy/pest"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
	"haywarden/outlook"
)

// standIn is the state whose start is taken where none is known (choice).
const standIn = "Wisconsin"

// Weevil says from when to walk for alfalfa weevil, by the state guide's heat.
func Weevil(s *outlook.Stand, o *outlook.Outlook) *Piece {
	if s.Sky == nil || s.Judged() == outlook.Clover || s.Year < 1 || s.Growth.Number != 1 || !s.Sky.Heat48.Trusted() {
		return nil
	}
	_, cut, _, cutKnown := cutAhead(s)
	if cutKnown && cut <= s.Date+pest.RecheckDays {
		return nil // the cut comes first, and takes the larvae with it
	}
	now := s.Sky.Heat48.Now()
	if now > pest.PeakTo {
		return nil
	}
	guide := o.Guide
	from, ok := pest.ScoutFrom(guide)
	if !ok {
		from, _ = pest.ScoutFrom(standIn)
		guide = standIn + ", for want of a start printed for " + guide
	}
	w, ok := s.Sky.Reaches(s.Sky.Heat48, from).Window()
	if !ok || w.Early > s.Date+7 || cutKnown && cut <= w.Middle {
		return nil
	}
	walked, seen := lastWeevilWalk(s)
	end, ok := s.Sky.Reaches(s.Sky.Heat48, pest.PeakTo).Window()
	if !ok {
		end = w
	}
	p := &Piece{
		Decision: "weevil-walk", Stand: s, Errand: true, Urgency: Watch, Title: "Weevil from about " + Short(w.Middle),
		Window:  &Window{Early: w.Early, Middle: w.Middle, Late: end.Middle, Best: max(s.Date, w.Middle), Means: fmt.Sprintf("%.0f F-days above 48 °F", from)},
		Measure: fmt.Sprintf("tip feeding on %d stems across the field; where it is common, larvae of 30 stems shaken into a bucket, and height", pest.StemsToLook),
	}
	p.warn(pest.BeforeYouEnter, pest.LabelIsLaw)
	p.Sentence = fmt.Sprintf("Weevil larvae are looked for from %.0f degree days (%s); this station stands at %.0f and gets there about %s.", from, guide, now, Short(w.Middle))
	if now >= from {
		p.Sentence = fmt.Sprintf("%.0f degree days: larvae are feeding, most heavily from %.0f to %.0f. Look at %d stems every week until the cut.", now, pest.PeakFrom, pest.PeakTo, pest.StemsToLook)
		p.Urgency, p.Title = Week, "Start walking for weevil"
		if seen {
			again := walked + pest.RecheckDays
			if again > s.Date {
				p.Urgency = Watch
			}
			p.Title = "Weevil: look again " + When(s.Date, max(s.Date, again))
			p.Window.Best = max(s.Date, again)
		}
	}
	p.Worth.Text = fmt.Sprintf("Feeding on %.0f %% of tips with over a week to the cut is where it pays to act; cutting early often does as well.", pest.TipFeeding)
	p.Grounds = []Ground{{
		What: "Heat since 1 January", Value: fmt.Sprintf("%.0f F-days above 48 °F through %s", now, Short(s.Sky.Through)),
		How: "single sine of each day, no upper limit, station " + s.Sky.Station.Name + filledNote(s.Sky.Heat48), Sources: []source.ID{source.SineHeat},
	}, {
		What: "Scouting starts", Value: fmt.Sprintf("%.0f F-days (%s guide)", from, guide), How: "published start of scouting by state; the first crop is the one at risk", Sources: []source.ID{source.WeevilScouting, source.WeevilTips},
	}}
	if low, middle, high, ok := s.Sky.Heat48.Usual(len(s.Sky.Heat48.Sum) - 1); ok {
		p.Grounds = append(p.Grounds, Ground{
			What: "Usual by this day", Value: fmt.Sprintf("%.0f F-days; 8 years in 10 between %.0f and %.0f", middle, low, high),
			How: fmt.Sprintf("the same sum in %d past years of the station", len(s.Sky.Heat48.Past)), Sources: []source.ID{source.SineHeat},
		})
	}
	return p
}

func lastWeevilWalk(s *outlook.Stand) (day unit.Day, ok bool) {
	for _, v := range s.Visits {
		if v.Day.Year() == s.Date.Year() && v.Body.WeevilTips != nil {
			day, ok = v.Day, true
		}
	}
	return day, ok
}
