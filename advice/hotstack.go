package advice

import (
	"fmt"

	"haywarden/agronomy/source"
	"haywarden/agronomy/storage"
	"haywarden/agronomy/unit"
	"haywarden/outlook"
)

const (
	callF      = 140 // from which the stack is taken apart and the fire service told, [source.HayHeat]
	dailyF     = 120
	freshReads = 3 // days after which a reading of a stack under watch is due again (choice)
	damperThan = 20
)

// HotStack asks for the core of a stack that may heat, and says what a reading means.
func HotStack(s *outlook.Stand, _ *outlook.Outlook) *Piece {
	k := s.Stack()
	if k == nil {
		return nil
	}
	p := &Piece{Decision: "hot-stack", Stand: s, Urgency: Watch, Errand: true, Title: "Hay of " + Short(k.Baled) + ": go on reading the stack", Measure: "the core temperature of the stack, in several places"}
	damp := k.Moisture != nil && *k.Moisture > damperThan
	notInside := k.Moisture != nil && *k.Moisture > storage.PublishedBaling().Inside && k.Place == string(storage.Inside) && !k.Treated
	what := fmt.Sprintf("Hay was baled here on %s%s", Short(k.Baled), baledHow(k))
	if !k.Read {
		p.Urgency, p.Title = Week, "Check that stack: hay of "+Short(k.Baled)
		if damp {
			p.Urgency = Today
		}
		p.Sentence = what + "; no core temperature is in the book."
		if notInside {
			p.Urgency, p.Title, p.Errand = Safety, "Too wet for a building: hay of "+Short(k.Baled), false
			p.Sentence += " Untreated hay so wet is not stored inside. Read its core now; if it is hot, nobody moves it before the fire service is called."
		}
		p.warn(storage.ProbeRight, storage.KeepLooking, storage.SmellIsFire, storage.NeverAlone, storage.CallFirst)
	} else {
		h, err := storage.Hay(unit.Fahrenheit(k.CoreF))
		if err != nil {
			return unjudged(s, "hot-stack", err.Error())
		}
		p.Sentence = fmt.Sprintf("%s; its core read %.0f °F %s.", what, k.CoreF, When(s.Date, k.ReadOn))
		p.tell(h.Told)
		switch {
		case h.From >= callF:
			p.Urgency, p.Title, p.Errand = Safety, fmt.Sprintf("Hot hay: %.0f °F in the stack", k.CoreF), false
		case h.From >= dailyF:
			p.Urgency, p.Title = Today, fmt.Sprintf("Read that stack again: %.0f °F", k.CoreF)
		case s.Date-k.ReadOn > freshReads:
			p.Urgency, p.Title = Week, "Read that stack again: hay of "+Short(k.Baled)
		}
	}
	if notInside {
		p.warn(storage.NotInside)
	}
	if k.Treated {
		p.warn(storage.ToxicSmoke)
	}
	p.Grounds = []Ground{{
		What: "Stack", Value: Capital(what[len("Hay was "):]), How: "as recorded; most fires come within 6 weeks of stacking", Sources: []source.ID{source.HayHeat},
	}}
	if k.Read {
		p.Grounds = append(p.Grounds, Ground{
			What: "Core", Value: fmt.Sprintf("%.0f °F on %s, the hottest of the day", k.CoreF, Short(k.ReadOn)),
			How: "table of core temperatures; where sources differ the lower temperature stands", Sources: []source.ID{source.HayHeat},
		})
	}
	return p
}

func baledHow(k *outlook.Stacked) string {
	how := ""
	if k.Moisture != nil {
		how = fmt.Sprintf(" at %.0f %% moisture", *k.Moisture)
	}
	if k.Place == string(storage.Inside) {
		how += " and stacked inside"
	}
	return how
}
