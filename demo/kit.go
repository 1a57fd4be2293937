package demo

import (
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
)

// kitDay is the day on which farms told of their animals and machines.
var kitDay = unit.DateOf(2026, time.February, 24)

// feedDay is the day of the deck of feed and inputs.
var feedDay = unit.DateOf(2026, time.May, 4)

// kit records the herd, the machines and the caution of the farms that told them.
func (l *ledger) kit(h *holding) {
	e := entry{farm: h.id, subject: h.id, day: kitDay, author: adviser, wait: soon}
	if herd, ok := herds[h.name]; ok {
		l.add(e, herd)
	}
	if m, ok := kits[h.name]; ok {
		l.add(e, m)
	}
	if how, ok := cautions[h.name]; ok {
		l.add(e, book.Caution{How: how})
	}
}

func milking(name string, head int, milk, fat, days, legume float64) book.Group {
	return book.Group{Name: name, Kind: book.Lactating, Head: head, WeightLb: 1500, MilkLb: milk, Fat: fat, DaysInMilk: days, ForageNDF: 42, ForageShare: 0.54, LegumeShare: legume, SilageShare: 0.95 - legume}
}

func young(name string, head int, weight float64) book.Group {
	return book.Group{Name: name, Kind: book.Heifer, Head: head, WeightLb: weight, MatureLb: 1540, DietNDF: 44, ForageShare: 0.8, LegumeShare: 0.55, SilageShare: 0.3}
}

// herds are the invented animals: a large dairy, a small one, and beef heifers on clover.
var herds = map[string]book.Herd{
	"Ottermoss": {
		Groups: []book.Group{
			milking("fresh and high", 44, 98, 3.9, 75, 0.45), milking("low", 34, 68, 4.2, 230, 0.5),
			{Name: "dry", Kind: book.DryCows, Head: 12, WeightLb: 1600, DaysPregnant: 250, DietNDF: 48, ForageShare: 0.85, LegumeShare: 0.2, SilageShare: 0.45},
			young("weaned calves", 20, 330), young("yearlings", 26, 780), young("bred heifers", 20, 1180),
		},
		Crops: []book.ForageCrop{
			{Forage: "legume", Field: 0.12, Storage: 0.12, Feeding: 0.04, Reserve: 0.15},
			{Forage: "corn silage", Yield: 7.4, Field: 0.03, Storage: 0.1, Feeding: 0.04, Reserve: 0.2},
		},
	},
	"Foxglove": {Edition: "2001", Groups: []book.Group{
		milking("milking", 64, 74, 4.0, 160, 0.6),
		{Name: "dry", Kind: book.DryCows, Head: 10, WeightLb: 1550, ForageShare: 0.9, LegumeShare: 0.3, SilageShare: 0.3}, young("heifers", 48, 700),
	}},
	"Moonpenny": {Groups: []book.Group{{Name: "beef heifers", Kind: book.Heifer, Head: 70, WeightLb: 850, MatureLb: 1350, ForageShare: 0.97, LegumeShare: 0.6}}},
}

// kits are the invented machines and crews.
var kits = map[string]book.Machines{
	"Ottermoss": {
		Machines: []book.Machine{
			{Name: "wide mower", Kind: "rotary-mower-conditioner", WidthFt: 26, Price: 118000, Salvage: 42000, Years: 8, HoursYear: 150, PowerHP: 220, Tractor: 38},
			{Name: "merger", Kind: "rake", WidthFt: 30, Price: 64000, Salvage: 20000, Years: 10, HoursYear: 130, PowerHP: 110, Tractor: 24},
			{Name: "chopper", Kind: "pull-chopper", WidthFt: 15, Price: 72000, Salvage: 18000, Years: 10, HoursYear: 190, PowerHP: 240, Tractor: 42},
		},
		CrewHours: 10,
		Busy: []book.Busy{
			{What: "corn planting", From: unit.DateOf(2026, time.May, 4), To: unit.DateOf(2026, time.May, 14)},
			{What: "corn silage", From: unit.DateOf(2026, time.September, 8), To: unit.DateOf(2026, time.September, 24)},
		},
	},
	"Candlewick": {
		Machines:  []book.Machine{{Name: "mower", Kind: "mower-conditioner", WidthFt: 12}, {Name: "rake", Kind: "rake", WidthFt: 19}, {Name: "square baler", Kind: "small-square-baler", WidthFt: 19}},
		CrewHours: 8,
	},
}

// cautions are how careful farms said they are.
var cautions = map[string]string{"Candlewick": "very careful", "Foxglove": "a little careful"}

// feedDeck is the district's deck of what is bought and sold beside hay.
var feedDeck = book.Prices{Name: "Larkmoor feed and inputs, May 2026", Lines: []book.PriceLine{
	{Name: book.Corn, Unit: "$/bu", Value: 4.35}, {Name: book.Meal, Unit: "$/ton", Value: 372}, {Name: book.Milk, Unit: "$/cwt", Value: 19.4},
	{Name: book.Diesel, Unit: "$/gal", Value: 3.45}, {Name: book.Wage, Unit: "$/h", Value: 24}, {Name: book.Interest, Unit: "%", Value: 6.5},
	{Name: book.Phosphate, Unit: "$/lb", Value: 0.71}, {Name: book.LandRent, Unit: "$/ac", Value: 168}, {Name: book.LandOwner, Unit: "$/ac", Value: 46},
	{Name: book.MAP, Unit: "$/ton", Value: 795}, {Name: book.AmmoniumSulfate, Unit: "$/ton", Value: 410},
	{Name: book.Gypsum, Unit: "$/ton", Value: 96}, {Name: book.Borate, Unit: "$/ton", Value: 1380},
	{Name: book.HayHauling, Unit: "$/ton", Value: 14}, {Name: book.CustomMow, Unit: "$/ac", Value: 15.5}, {Name: book.CustomRake, Unit: "$/ac", Value: 8.5},
}}
