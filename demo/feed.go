package demo

import (
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
)

// larder is feed in store as the story has it.
type larder struct {
	farm   string
	filled unit.Day
	put    book.FeedLot
	seen   unit.Day // day on which it was looked at; 0: never
	left   book.LotLeft
	begun  unit.Day // day from which it is fed
	fed    book.LotFed
}

var lookedOver = unit.DateOf(2026, time.May, 4)

// larders are the invented stores: a dairy that is short of good haylage and holds rained-on bales that
// nobody there can be fed, a tower fed from the top, and hay that nobody has tested.
var larders = []larder{
	{
		farm: "Ottermoss", filled: unit.DateOf(2025, time.July, 3),
		put:  book.FeedLot{Name: "second crop bunker 2025", Forage: "legume", Store: "bunker", Cutting: 2, RFQ: 147, NDF: 42, Wet: 61, Size: &book.LotSize{Width: 30, Length: 90, Wall: 8, Crown: 9.5, Ramp: 12, Density: 15.2, By: "cores"}},
		seen: lookedOver, left: book.LotLeft{Removed: new(74.0)}, begun: unit.DateOf(2025, time.October, 6), fed: book.LotFed{LbDay: 980, Group: "low"},
	},
	{
		farm: "Ottermoss", filled: unit.DateOf(2025, time.August, 9),
		put:  book.FeedLot{Name: "third crop bag 2025", Forage: "legume", Store: "bag", Cutting: 3, RFQ: 168, NDF: 38, Wet: 58, Size: &book.LotSize{Diameter: 9, Length: 190, Density: 13, By: "cores"}},
		seen: lookedOver, left: book.LotLeft{Removed: new(150.0)}, begun: unit.DateOf(2026, time.January, 12), fed: book.LotFed{LbDay: 830, Group: "yearlings"},
	},
	{
		farm: "Ottermoss", filled: unit.DateOf(2025, time.August, 2),
		put:  book.FeedLot{Name: "heifer hay 2025", Forage: "legume", Store: "covered", RFQ: 116, NDF: 48, Wet: 15, Bales: &book.LotBales{Number: 120, WeighLb: 1150}},
		seen: lookedOver, left: book.LotLeft{Bales: new(54)}, begun: unit.DateOf(2025, time.November, 3), fed: book.LotFed{LbDay: 320, Group: "bred heifers"},
	},
	{
		farm: "Ottermoss", filled: unit.DateOf(2025, time.June, 21),
		put: book.FeedLot{Name: "rained-on bales 2025", Forage: "legume", Store: "wrapped-bale", Cutting: 1, RFQ: 94, NDF: 53, Wet: 46, Bales: &book.LotBales{Number: 44, WeighLb: 1480, Weighed: true}},
	},
	{
		farm: "Ottermoss", filled: unit.DateOf(2025, time.September, 19),
		put:  book.FeedLot{Name: "corn silage 2025", Forage: "corn silage", Store: "bunker", Wet: 65, Size: &book.LotSize{Width: 24, Length: 150, Wall: 10, Crown: 12, Ramp: 15, Density: 16.5, By: "cores"}},
		seen: lookedOver, left: book.LotLeft{Removed: new(78.0)}, begun: unit.DateOf(2025, time.November, 1), fed: book.LotFed{LbDay: 2300},
	},
	{
		farm: "Foxglove", filled: unit.DateOf(2025, time.July, 12),
		put:  book.FeedLot{Name: "north tower 2025", Forage: "legume", Store: "stave-tower", RFQ: 139, NDF: 43, Size: &book.LotSize{Diameter: 20, Height: 62}},
		seen: unit.DateOf(2026, time.April, 29), left: book.LotLeft{Removed: new(41.0)}, begun: unit.DateOf(2025, time.October, 20), fed: book.LotFed{LbDay: 1250, Group: "milking"},
	},
	{
		farm: "Moonpenny", filled: unit.DateOf(2025, time.July, 22),
		put:  book.FeedLot{Name: "round bales 2025", Forage: "legume", Store: "outside-ground", Bales: &book.LotBales{Number: 160, WeighLb: 1050}},
		seen: unit.DateOf(2026, time.May, 6), left: book.LotLeft{Bales: new(31)},
	},
}

// stores records the feed of last year and, where a farm chops, the bunker of this year's first cut.
func (l *ledger) stores(all []*holding) {
	for _, h := range all {
		for _, k := range larders {
			if k.farm == h.name {
				l.larder(h, k)
			}
		}
		if h.name == "Ottermoss" {
			l.firstCrop(h)
		}
	}
}

func (l *ledger) larder(h *holding, k larder) {
	e := entry{farm: h.id, subject: l.subject(k.filled), day: k.filled, author: h.people[len(h.people)-1].Name, wait: byPhone}
	l.add(e, k.put)
	if k.begun != 0 {
		e.day = k.begun
		l.add(e, k.fed)
	}
	if k.seen != 0 {
		e.day, e.author, e.wait = k.seen, adviser, soon
		l.add(e, k.left)
	}
}

// firstCrop fills a bunker with the first cut of 2026, from the day after the last field was chopped.
func (l *ledger) firstCrop(h *holding) {
	put := book.FeedLot{Name: "first crop bunker 2026", Forage: "legume", Store: "bunker", Cutting: 1, Wet: 62, Size: &book.LotSize{Width: 30, Length: 100, Wall: 8, Crown: 10, Ramp: 12, Density: 14.6, By: "packing"}}
	var filled unit.Day
	for _, st := range h.tracts {
		for _, cut := range st.years[2026].cuts {
			if cut.number == 1 && cut.product == book.Haylage {
				put.Stands = append(put.Stands, h.ids[st])
				filled = max(filled, cut.day+1)
			}
		}
	}
	l.add(entry{farm: h.id, subject: l.subject(filled), day: filled, author: h.people[len(h.people)-1].Name, wait: atOnce}, put)
}
