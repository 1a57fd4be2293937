package demo

import (
	"math"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
)

// soilLab tests the district's soil by Mehlich 3 and the Sikora buffer.
const soilLab = "Loamwright Soil Laboratory"

// soilGuides are farms that go by another state's soil tables than the district's.
var soilGuides = map[string]book.SoilGuides{
	"Ottermoss":    {Lime: "ohio", Fertility: "tri-state-2020", Removal: "tri-state-2020"},
	"Marrowby":     {Lime: "iowa"},
	"Lanternfield": {Lime: "iowa"},
	"Quillfeather": {Lime: "iowa", Fertility: "minnesota"},
}

// soils are fields whose soil the story tells; others are drawn. A field of neverSampled has no test.
var soils = map[string]struct {
	on            string
	ph, buffer, k float64
}{
	"Upper Ley":    {"2025-10-14", 6.1, 6.5, 118},
	"Candle Strip": {"2025-10-09", 6.2, 6.6, 126},
	"Withy Corner": {"2024-10-22", 6.7, 6.9, 84},
	"Long Meadow":  {"2025-10-07", 6.9, 7.0, 112},
	"Rosin Lot":    {"2021-10-19", 6.4, 6.7, 131},
}

var neverSampled = map[string]bool{"New Ground": true, "Bridge Piece": true, "Moon Piece": true}

// spread is what producers told of fertilizer and manure.
var spreads = []struct {
	farm, field, on string
	body            book.Application
}{
	{"Ottermoss", "Long Meadow", "2026-05-30", book.Application{Class: book.FertilizerSpread, Material: "mop", Rate: 250, Unit: book.PoundsAcre, Cut: 1}},
	{"Foxglove", "Hay Barn Forty", "2025-09-18", book.Application{Class: book.ManureSpread, Material: "dairy-liquid", Rate: 3000, Unit: book.GallonsAcre, Cut: 4}},
	{"Lanternfield", "Lamp Meadow", "2025-11-04", book.Application{Class: book.LimeSpread, Material: "aglime", Rate: 2.5, Unit: book.TonsAcre, Analysis: map[string]float64{"effective": 1320}}},
}

// tissues are tops that were sent in at bud.
var tissues = []struct {
	farm, field string
	on          unit.Day
	values      map[string]float64
}{
	{"Quillfeather", "The Hundred", unit.DateOf(2026, time.May, 18), map[string]float64{"n": 3.6, "p": 0.31, "k": 2.4, "ca": 1.9, "mg": 0.33, "s": 0.22, "b": 34}},
	{"Candlewick", "Tallow Field", unit.DateOf(2026, time.May, 20), map[string]float64{"n": 3.8, "p": 0.30, "k": 2.1, "s": 0.28, "b": 17}},
	{"Pennywhistle", "Below the Elms", unit.DateOf(2026, time.May, 18), map[string]float64{"n": 3.9, "p": 0.33, "k": 2.6, "s": 0.29, "b": 38}},
}

// soil records whose tables farms go by, what was found in soils and tops, and what was spread.
func (l *ledger) soil(seed uint64, all []*holding) {
	for _, h := range all {
		if g, ok := soilGuides[h.name]; ok {
			l.add(entry{farm: h.id, subject: h.id, day: kitDay, author: adviser, wait: soon}, g)
		}
		seen := map[string]bool{}
		for _, st := range h.tracts {
			if name := st.plot.name; !seen[name] && !neverSampled[name] {
				seen[name] = true
				l.sampleSoil(seed, h, name)
			}
		}
		for _, s := range spreads {
			if s.farm == h.name {
				l.add(entry{farm: h.id, subject: h.fields[s.field], day: day(s.on), author: h.people[len(h.people)-1].Name, wait: byPhone}, s.body)
			}
		}
		for _, t := range tissues {
			for _, st := range h.tracts {
				if t.farm == h.name && t.field == st.plot.name {
					l.add(entry{farm: h.id, subject: h.ids[st], day: t.on, author: adviser, wait: byPost}, book.TissueTest{Lab: soilLab, Part: "top-6in", Stage: "bud", Values: t.values})
				}
			}
		}
	}
}

// sampleSoil records the newest soil test of a field: sampled in the fall of 2021 to 2025.
func (l *ledger) sampleSoil(seed uint64, h *holding, field string) {
	r := stream(seed, "soil "+h.name+" "+field)
	on := weekday(unit.DateOf(2022+r.IntN(4), time.October, 4) + unit.Day(r.IntN(24)))
	ph := round(math.Min(7.3, 6.75+0.3*r.NormFloat64()), 1)
	buffer := round(math.Min(7.2, 7.0-0.55*math.Max(0, 6.9-ph)+0.06*r.NormFloat64()), 1)
	p, k := math.Round(32*math.Exp(0.4*r.NormFloat64())), math.Round(125*math.Exp(0.28*r.NormFloat64()))
	cec, om := round(12+2.5*r.NormFloat64(), 1), round(3+0.6*r.NormFloat64(), 1)
	if s, told := soils[field]; told {
		on, ph, buffer, k = day(s.on), s.ph, s.buffer, s.k
	}
	turn := byPost
	if on <= opened { // entered when the book was begun, with the day on which it was true
		since := time.Duration(opened+1-on) * 24 * time.Hour
		turn = wait{since, since + 3*time.Hour}
	}
	l.add(entry{farm: h.id, subject: h.fields[field], day: on, author: adviser, wait: turn}, book.SoilTest{
		Lab: soilLab, DepthIn: 7, PH: ph, Buffer: buffer, BufferBy: book.Sikora,
		P:    &book.Extracted{Value: p, Unit: book.PPM, By: book.Mehlich3},
		K:    &book.Extracted{Value: k, Unit: book.PPM, By: book.Mehlich3},
		More: map[string]float64{"cec": math.Max(5, cec), "om": math.Max(1.2, om), "mg": math.Round(180 + 60*r.NormFloat64()*0.8)},
	})
}
