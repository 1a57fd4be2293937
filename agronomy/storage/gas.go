package storage

import (
	"fmt"

	"haywarden/agronomy/unit"
)

// Gas holds how many days after filling each danger of silo gas lasts: the longest that any source
// prints. Source: [source.SiloGas].
type Gas struct{ Peak, Visitors, Closed unit.Day }

// PublishedGas returns the days: gas is at its worst for 5, children, visitors and animals are kept off
// for 21, and nobody goes in for 42 (others print 14 to 21).
func PublishedGas() Gas { return Gas{Peak: 5, Visitors: 21, Closed: 42} }

// Silo is the state of a filled silo on a day.
type Silo struct {
	Stage                       string // `peak`, `closed` or `guarded`; never safe
	PeakUntil, OffUntil, Closed unit.Day
	Told                        Told
}

// Filled is the state of a silo on a day, filling having ended on another. It never clears a silo.
func (k Gas) Filled(ended, on unit.Day) (Silo, error) {
	if on < ended {
		return Silo{}, fmt.Errorf("%s lies before the end of filling, %s: give a day from then on", on, ended)
	}
	s := Silo{PeakUntil: ended + k.Peak, OffUntil: ended + k.Visitors, Closed: ended + k.Closed}
	all := []Caution{GasKills, GasSpreads, NoRescue, GasThenDoctor, GasMeterFirst}
	switch {
	case on <= s.PeakUntil:
		s.Stage, s.Told = "peak", tell(fmt.Sprintf("Deadly peak until %s. Nobody goes in or near; nobody goes in until %s is over.", told(s.PeakUntil), told(s.Closed)), all...)
	case on <= s.Closed:
		s.Stage, s.Told = "closed", tell(fmt.Sprintf("Nobody goes in until %s is over. Children, visitors and animals stay off through %s.", told(s.Closed), told(s.OffUntil)), all...)
	default:
		s.Stage, s.Told = "guarded", tell("The closed weeks are over; treat every entry as dangerous still.", all...)
	}
	return s, nil
}

// told is a day as it is spoken of: 13 July 2026.
func told(d unit.Day) string { return d.Time().Format("2 January 2006") }
