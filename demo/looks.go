package demo

import (
	"math"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
)

// looks records what the eye alone saw: the growing tips after the freeze, clover in bloom, the share
// of grass.
func (l *ledger) looks(h *holding, st *tract) {
	switch {
	case st.plot.tells&lookedAt != 0:
		l.tips(h, st)
	case st.plot.crop == red:
		l.blooms(h, st)
	case st.plot.crop == mix && st.plot.tells&sentinel == 0:
		l.grasses(h, st)
	}
}

// tips are looked at three days after the freeze, when it shows what became of them.
func (l *ledger) tips(h *holding, st *tract) {
	d := freezeNight + 3
	v := book.Visit{Tips: book.TipsSound, GrowthIn: halfInches(st.on(d).inches()), Note: "Edges of the top leaves burnt, the tips are green inside."}
	if st.nature.killed {
		v.Tips, v.Note = book.TipsKilled, "Tops wilted and brown on nearly every stem; buds low on the stems are alive."
	}
	l.visit(h, st, d, v, soon)
}

// blooms judges red clover: weekly where it is watched, else once, from when the first heads open.
func (l *ledger) blooms(h *holding, st *tract) {
	for d := unit.DateOf(2026, time.May, 25); d < unit.DateOf(2026, time.August, 15); d += 7 {
		s := st.on(d)
		if s.growth == 0 || s.growth > 2 || s.bloom() < 2 {
			continue
		}
		seen := math.Max(0, math.Min(100, 5*math.Round((s.bloom()+4*st.r.NormFloat64())/5)))
		l.visit(h, st, d, book.Visit{Bloom: &seen, GrowthIn: halfInches(s.inches())}, soon)
		if st.plot.tells&watched == 0 {
			return
		}
	}
}

// grasses judges a mixture in midsummer, when the grass has slackened, and before the first cut.
func (l *ledger) grasses(h *holding, st *tract) {
	for _, d := range []unit.Day{
		unit.DateOf(2025, time.July, 8) + unit.Day(st.r.IntN(10)),
		unit.DateOf(2026, time.May, 11) + unit.Day(st.r.IntN(8)),
		unit.DateOf(2026, time.July, 7) + unit.Day(st.r.IntN(10)),
	} {
		d = weekday(d)
		s := st.on(d)
		if s.growth == 0 {
			continue
		}
		v := book.Visit{Grass: st.grassSeen(), GrowthIn: halfInches(s.inches())}
		if s.growth == 1 && s.inches() >= 14 {
			v = book.Visit{Grass: v.Grass, Spots: st.spots(s, 3), Note: "Tallest alfalfa; orchardgrass in the boot."}
		}
		l.visit(h, st, d, v, soon)
	}
}
