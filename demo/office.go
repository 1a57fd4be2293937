package demo

import (
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
)

// office records what belongs to the whole book.
func (l *ledger) office(d District) {
	l.add(entry{subject: "place", day: opened, author: adviser}, d.Place)
	for _, s := range d.Stations {
		l.add(entry{subject: s.ID, day: opened, author: adviser}, book.Station{
			ID: s.ID, Name: s.Name, Latitude: s.Latitude, Longitude: s.Longitude, Elevation: s.Elevation, WholeF: s.WholeF,
		})
	}
	l.add(entry{subject: "prices", day: unit.DateOf(2026, time.March, 1), author: adviser}, marketDeck)
	for _, e := range []struct {
		day  unit.Day
		body book.Event
	}{
		{unit.DateOf(2025, time.August, 5), book.Event{Title: "Late-summer seeding evening", Place: "Quillfeather machine shed", People: 21}},
		{unit.DateOf(2026, time.April, 9), book.Event{Title: "Stand clinic: count, dig, decide", Place: "Larkmoor grange hall", People: 34}},
	} {
		l.add(entry{subject: l.subject(e.day), day: e.day, author: adviser, wait: soon}, e.body)
	}
}

// The price decks. All prices are invented; the slope by RFV lies in the band of Midwest auctions.
var (
	marketDeck = book.Prices{Name: "Larkmoor prices, March 2026", Lines: []book.PriceLine{
		{Name: "hay-base", Unit: "$/ton", Value: 188},
		{Name: "hay-base-rfv", Unit: "RFV", Value: 150},
		{Name: "hay-per-point", Unit: "$/ton", Value: 1.25},
		{Name: "hay-floor", Unit: "$/ton", Value: 105},
		{Name: "harvest-cost", Unit: "$/ac", Value: 46},
		{Name: "stand-fixed-cost", Unit: "$/ac", Value: 172},
		{Name: "establishment-cost", Unit: "$/ac", Value: 318},
		{Name: "spray-cost", Unit: "$/ac", Value: 15},
		{Name: "potash", Unit: "$/ton", Value: 430},
		{Name: "lime", Unit: "$/ton", Value: 34},
		{Name: "nitrogen", Unit: "$/lb", Value: 0.58},
		{Name: "alfalfa-seed", Unit: "$/lb", Value: 5.4},
	}}
	// sellerDeck is the farm's own, from its own buyers.
	sellerDeck = book.Prices{Name: "Candlewick, horse hay contracts 2026", Lines: []book.PriceLine{
		{Name: "hay-base", Unit: "$/ton", Value: 236},
		{Name: "hay-base-rfv", Unit: "RFV", Value: 150},
		{Name: "hay-per-point", Unit: "$/ton", Value: 1.4},
		{Name: "hay-floor", Unit: "$/ton", Value: 130},
		{Name: "harvest-cost", Unit: "$/ac", Value: 58},
	}}
	// silentDeck is the deck of a farm that has told what cutting costs it, and no price of hay.
	silentDeck = book.Prices{Name: "Moonpenny, custom cutting 2026", Lines: []book.PriceLine{
		{Name: "harvest-cost", Unit: "$/ac", Value: 64},
	}}
)

// ownDecks are the decks of single farms.
var ownDecks = map[string]struct {
	day  unit.Day
	deck book.Prices
}{
	"Candlewick": {unit.DateOf(2026, time.March, 12), sellerDeck},
	"Moonpenny":  {unit.DateOf(2026, time.April, 2), silentDeck},
}

// call is a talk with a producer about one of their fields.
type call struct {
	date        string
	farm, field string
	said, came  string
}

// calls are the talks that were written down.
var calls = []call{
	{"2025-06-12", "Ottermoss", "Long Meadow", "First crop is in the bunker, a little riper than wanted.", ""},
	{"2025-09-02", "Marrowby", "Upper Ley", "Not worth another winter; asked what to put there.", "Turned under in October, to be seeded next August."},
	{"2026-01-14", "Foxglove", "Saltlick", "Asked how the stand came through last fall's late cut.", "Count it in April."},
	{"2026-04-28", "Thrushgate", "Kiln Forty", "Stems are few and the roots are poor. Wants one cut before corn.", "Will decide after the first crop."},
	{"2026-05-05", "Candlewick", "Tallow Field", "Horse hay customers want it fine and green; will wait for four dry days.", ""},
	{"2026-05-13", "Tansy Hollow", "Long Bottom", "White with frost until eight; asked whether to mow now.", "Look at the growing tips on Friday, then decide."},
	{"2026-05-18", "Quillfeather", "The Hundred", "Two chopper crews are booked for the week; wants to know which field first.", ""},
	{"2026-06-03", "Moonpenny", "Moon Piece", "Clover is slow; beef cows do not mind it stemmy.", "Leave it until it blooms."},
	{"2026-06-09", "Thrushgate", "Kiln Forty", "Turned under yesterday, corn planted this morning.", "Nitrogen credit sent."},
	{"2026-08-25", "Wimberry", "Bilberry Bank", "Wants a third cut in mid-September.", "Warned about the rest before frost."},
	{"2026-10-20", "Foxglove", "Bee Field", "Gone under; wheat is up.", ""},
}
