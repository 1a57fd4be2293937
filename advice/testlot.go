package advice

import (
	"fmt"
	"math"

	"haywarden/agronomy/source"
	"haywarden/agronomy/storage"
	"haywarden/outlook"
)

// TestLot asks for a sample of feed that nobody knows the quality of.
func TestLot(f *outlook.Farm) *Piece {
	var of *outlook.FeedLot
	for _, l := range f.Lots {
		if l.Forage == "legume" && math.IsNaN(l.RFQ) && l.Put.Mid > 0 && f.Date >= l.Opens && (of == nil || l.Tons.Mid > of.Tons.Mid) {
			of = l
		}
	}
	if of == nil {
		return nil
	}
	p := &Piece{Decision: "test-lot", Feed: f, Urgency: Week, Errand: true, Title: "Test " + of.Name, Measure: "the quality of " + of.Name}
	p.Sentence = fmt.Sprintf("Nobody knows what %s of %s are worth: without a test they go to no group that asks for a quality.", shortTons(of.Tons.Mid), of.Name)
	stored := storage.SilageStock
	if of.DryHay() {
		stored = storage.BaledHay
	}
	from := source.HayProbe
	if how, err := storage.ProtocolFor(stored); err == nil {
		p.Sentence += fmt.Sprintf(" Take %d %ss.", how.Usual, how.What)
		from = how.Source
		if action, cautions := how.Told.Say(); action != "" {
			p.Sentence += " " + action
			p.warn(cautions...)
		}
	}
	p.Grounds = []Ground{{What: "In store", Value: fmt.Sprintf("%.0f tons of dry matter", of.Tons.Mid), How: of.How, Sources: []source.ID{from}}}
	return p
}
