package demo

import (
	"time"

	"haywarden/book"
)

// soilPast are the tests of earlier years, as producers had them in their drawers: entered when the book was
// begun. Potassium of Withy Corner was drawn down by hauling haylage off for years; Upper Ley turned sour.
var soilPast = []struct {
	farm, field, on string
	ph, buffer, p   float64
	k, om           float64
}{
	{"Ottermoss", "Withy Corner", "2018-10-16", 6.8, 6.9, 38, 172, 3.4},
	{"Ottermoss", "Withy Corner", "2021-10-12", 6.8, 6.9, 36, 128, 3.3},
	{"Ottermoss", "Long Meadow", "2019-10-08", 6.6, 6.8, 30, 150, 3.1},
	{"Ottermoss", "Long Meadow", "2022-10-11", 6.8, 6.9, 32, 131, 3.2},
	{"Marrowby", "Upper Ley", "2017-10-18", 6.7, 6.8, 34, 160, 2.9},
	{"Marrowby", "Upper Ley", "2021-10-20", 6.4, 6.6, 31, 139, 2.9},
	{"Quillfeather", "The Hundred", "2019-10-15", 6.9, 7.0, 44, 181, 3.8},
}

// spreadPast is what was spread before.
var spreadPast = []struct {
	farm, field, on string
	body            book.Application
}{
	{"Ottermoss", "Long Meadow", "2022-11-08", book.Application{Class: book.LimeSpread, Material: "aglime", Rate: 2, Unit: book.TonsAcre, Analysis: map[string]float64{"effective": 1320}, Incorporated: true}},
	{"Ottermoss", "Long Meadow", "2025-06-02", book.Application{Class: book.FertilizerSpread, Material: "mop", Rate: 200, Unit: book.PoundsAcre, Cut: 1}},
	{"Quillfeather", "The Hundred", "2025-06-05", book.Application{Class: book.FertilizerSpread, Material: "mop", Rate: 150, Unit: book.PoundsAcre, Cut: 1}},
}

// soilOlder records tests and applications of earlier years, and how one stand was sown.
func (l *ledger) soilOlder(all []*holding) {
	for _, h := range all {
		enter := func(field, on string, body book.Body) {
			e := entry{farm: h.id, subject: h.fields[field], day: day(on), author: adviser, wait: byPost}
			if e.day <= opened {
				since := time.Duration(opened+1-e.day) * 24 * time.Hour
				e.wait = wait{since, since + 3*time.Hour}
			}
			l.add(e, body)
		}
		for _, t := range soilPast {
			if t.farm == h.name {
				enter(t.field, t.on, book.SoilTest{
					Lab: soilLab, DepthIn: 7, PH: t.ph, Buffer: t.buffer, BufferBy: book.Sikora,
					P: &book.Extracted{Value: t.p, Unit: book.PPM, By: book.Mehlich3}, K: &book.Extracted{Value: t.k, Unit: book.PPM, By: book.Mehlich3},
					More: map[string]float64{"om": t.om},
				})
			}
		}
		for _, s := range spreadPast {
			if s.farm == h.name {
				enter(s.field, s.on, s.body)
			}
		}
		for _, st := range h.tracts {
			if h.name == "Thrushgate" && st.plot.name == "Anvil Lot" {
				l.add(entry{farm: h.id, subject: h.ids[st], day: day(st.plot.seeded), author: h.people[0].Name, wait: byPhone}, book.Seeding{
					Lots: []book.SeedLot{{Species: "alfalfa", Variety: "Willowease", RateLb: 15, Purity: 99, Germination: 90}}, Method: "drilled", DepthIn: 0.5,
				})
			}
		}
	}
}
