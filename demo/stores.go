package demo

import (
	"math"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
)

// history records the cuts of 2025 and 2026. Producers tell them at the next call; one was told a
// week wrong and put right.
func (l *ledger) history(h *holding, st *tract) {
	for _, year := range []int{2025, 2026} {
		for _, cut := range st.years[year].cuts {
			body := book.Cut{Number: cut.number, Product: cut.product}
			e := entry{farm: h.id, subject: h.ids[st], day: cut.day, author: h.people[len(h.people)-1].Name, wait: byPhone}
			if st.plot.tells&weighed != 0 || st.r.Float64() < 0.2 {
				tons := round(cut.tons*(1+0.06*st.r.NormFloat64()), 2)
				body.TonsDM = &tons
			}
			if st.plot.name == "Lamp Meadow" && year == 2025 && cut.number == 2 {
				wrong := e
				wrong.day -= 7
				e.supersedes = l.add(wrong, body)
				e.wait, e.author = wait{20 * 24 * time.Hour, 24 * 24 * time.Hour}, adviser
			}
			l.add(e, body)
		}
	}
}

// laboratory records the tests: standing samples of the sentinels twice before the first cut, and
// cores or grabs of what was stored.
func (l *ledger) laboratory(h *holding, st *tract) {
	if st.plot.tells&sentinel != 0 {
		for _, d := range []unit.Day{unit.DateOf(2026, time.May, 11), unit.DateOf(2026, time.May, 18)} {
			if s := st.on(d); s.growth == 1 {
				l.test(h, st, d, "standing", s.quality(st.plot, st.nature), byPost)
			}
		}
	}
	for _, year := range []int{2025, 2026} {
		for _, cut := range st.years[year].cuts {
			if st.plot.tells&tested == 0 || cut.number > 2 {
				continue
			}
			d := weekday(cut.day + 21 + unit.Day(st.r.IntN(12))) // haylage has fermented by then
			l.test(h, st, d, string(cut.product), cut.stored(), longPost)
		}
	}
}

// test records a result: the sample differs from the field, and the laboratory from the sample.
func (l *ledger) test(h *holding, st *tract, d unit.Day, sample string, truth feed, turn wait) {
	sampling, reading := 1.0*st.r.NormFloat64(), 0.5*st.r.NormFloat64()
	ndf := truth.ndf + sampling + reading
	if h.lab == highLab {
		ndf += highLabNDF
	}
	body := book.Lab{
		Lab: h.lab, Sample: sample, NDF: round(ndf, 1), ADF: round(truth.adf+0.7*sampling+0.5*st.r.NormFloat64(), 1),
		CP: round(math.Max(8, truth.cp-0.5*sampling+0.4*st.r.NormFloat64()), 1),
	}
	l.add(entry{farm: h.id, subject: h.ids[st], day: d, author: adviser, wait: turn}, body)
}
