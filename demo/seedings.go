package demo

import (
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
)

// sowing is a seeding that the story plans.
type sowing struct {
	farm, field string
	told        unit.Day
	plan        book.SeedingPlan
}

// sowings are what is planned to be sown, with the lots on offer. Varieties, tags and prices are invented.
func sowings() []sowing {
	return []sowing{
		{"Marrowby", "Upper Ley", unit.DateOf(2026, time.February, 17), book.SeedingPlan{
			Year: 2026, Season: book.LateSummerSeeding, Crop: book.Alfalfa, Offers: []book.SeedOffer{
				{Species: "alfalfa", Variety: "Larkspur Gold", PureLb: 14, Purity: new(0.99), Germination: new(0.86), Hard: new(0.05), PriceLb: 5.6, BagLb: 50},
			},
		}},
		{"Lanternfield", "Candle Strip", unit.DateOf(2026, time.April, 20), book.SeedingPlan{
			Year: 2026, Season: book.LateSummerSeeding, Crop: book.AlfalfaGrass, Offers: []book.SeedOffer{
				{Species: "alfalfa", Variety: "Larkspur Gold", PureLb: 12, Purity: new(0.99), Germination: new(0.86), Hard: new(0.05), PriceLb: 5.6, BagLb: 50},
				{Species: "alfalfa", Variety: "Moorhen, coated", PureLb: 12, Purity: new(0.66), Germination: new(0.9), PriceLb: 4.3, BagLb: 50},
				{Species: "orchardgrass", Variety: "Heron", PureLb: 3, Purity: new(0.93), Germination: new(0.88), PriceLb: 3.9, BagLb: 50},
			},
		}},
		{"Thrushgate", "Kiln Forty", unit.DateOf(2026, time.July, 14), book.SeedingPlan{
			Year: 2027, Season: book.SpringSeeding, Crop: book.Alfalfa, Offers: []book.SeedOffer{{Species: "alfalfa", PureLb: 15}},
		}},
	}
}

// sowings records what is planned.
func (l *ledger) sowings(all []*holding) {
	for _, s := range sowings() {
		for _, h := range all {
			if h.name == s.farm {
				l.add(entry{farm: h.id, subject: h.fields[s.field], day: s.told, author: adviser, wait: atOnce}, s.plan)
			}
		}
	}
}
