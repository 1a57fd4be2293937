package advice

import (
	"fmt"

	"haywarden/agronomy/source"
	"haywarden/outlook"
)

// SiloGas keeps people out of a silo for the weeks after it was filled.
func SiloGas(f *outlook.Farm) *Piece {
	var of *outlook.FeedLot
	for _, l := range f.Lots {
		if l.Gas != nil && (of == nil || l.Filled > of.Filled) {
			of = l
		}
	}
	if of == nil {
		return nil
	}
	p := &Piece{Decision: "silo-gas", Feed: f, Urgency: Safety, Title: "Silo gas: keep out of " + of.Name}
	p.Sentence = fmt.Sprintf("%s was filled on %s.", Capital(of.Name), Short(of.Filled))
	p.tell(of.Gas.Told)
	p.Grounds = []Ground{{
		What: "Filled", Value: Short(of.Filled), How: "as recorded; the longest days that any source prints", Sources: []source.ID{source.SiloGas},
		Reckon: fmt.Sprintf("silo-gas filled=%s on=%s", of.Filled, f.Date),
	}}
	return p
}
