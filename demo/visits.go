package demo

import (
	"math"
	"math/rand/v2"
	"time"

	"gonum.org/v1/gonum/stat/distuv"

	"haywarden/agronomy/unit"
	"haywarden/book"
)

// counts records what was counted and dug in a stand: stems in spring, plants in the first year,
// roots in the fall.
func (l *ledger) counts(h *holding, st *tract, order int) {
	p := st.plot
	for _, year := range []int{2025, 2026} {
		age := year - day(p.seeded).Year()
		old := p.crop == alf && age >= 3
		switch {
		case p.turned != "" && day(p.turned).Year() < year, age < 1, p.crop == red:
			continue
		case year == 2025 && !old, year == 2026 && p.tells&uncounted != 0:
			continue
		}
		d := st.countingDay(year, order)
		young := age == 1
		v := book.Visit{Frames: st.frames(d, young), GrowthIn: halfInches(st.on(d).inches())}
		if year == 2026 && p.tells&dug != 0 {
			v.Crowns = rated(st.roots(0.07*float64(age) + 0.35*math.Max(0, 1-st.nature.stems/45)))
			v.Note = "Dug along the diagonal, split lengthwise."
		}
		l.add(entry{farm: h.id, subject: h.ids[st], day: d, author: seer(order), wait: soon}, v)
	}
	if p.tells&dug != 0 && (p.turned == "" || day(p.turned).Year() > 2025) {
		d := weekday(unit.DateOf(2025, time.October, 13) + unit.Day(order))
		l.add(entry{farm: h.id, subject: h.ids[st], day: d, author: adviser, wait: soon}, book.Visit{
			Crowns: rated(st.roots(0.06 * float64(2025-day(p.seeded).Year()))), Winter: goesIntoWinter(order), Note: "Fall dig.",
		})
	}
}

// rated lays a dig out over the ratings: the bad ones mostly at 3, the others mostly sound.
func rated(r *book.Roots) *book.Crowns {
	sound := r.Dug - r.Bad
	return &book.Crowns{sound - sound/2, sound/2 - sound/5, sound / 5, r.Bad - r.Bad/3, r.Bad / 3}
}

// goesIntoWinter is what the fall's visit learnt, another thing on each farm.
func goesIntoWinter(order int) *book.WinterSeen {
	left := order%4 != 3
	return &book.WinterSeen{
		Hardiness: []string{"hardy", "very", "moderate"}[order%3], Resistance: []string{"moderate", "high", "", "none"}[order%4],
		Drainage: []string{"good", "medium", "poor", "medium"}[order%4], Moisture: []string{"medium", "wet", "dry"}[order%3], Stubble: &left,
	}
}

// harms records a look at hail in two stands, one of them near its cut, and at one where water stood.
func (l *ledger) harms(h *holding, st *tract) {
	share := func(v float64) *float64 { return &v }
	look := func(d string, wait int, harm book.Harm) {
		harm.Day = day(d)
		l.add(entry{farm: h.id, subject: h.ids[st], day: weekday(harm.Day + unit.Day(wait)), author: adviser, wait: soon}, book.Visit{Harm: &harm})
	}
	switch st.plot.name {
	case "Anvil Lot":
		look("2026-07-08", 2, book.Harm{Kind: book.Hail, Tips: share(60), Leaves: share(30)})
	case "Bell Field":
		look("2026-07-08", 2, book.Harm{Kind: book.Hail, Tips: share(20), Leaves: share(10)})
	case "Mill Lot":
		look("2026-06-29", 8, book.Harm{Kind: book.Ponding, Under: share(5)})
	}
}

// countingDay is a working day on which growth is 4-6 in; the office sees a few farms a day.
func (st *tract) countingDay(year, order int) unit.Day {
	d := unit.DateOf(year, time.April, 8)
	for st.on(d).inches() < 4.3 && d < unit.DateOf(year, time.May, 8) {
		d++
	}
	return weekday(d + unit.Day(order%3))
}

// weekday moves a day off the weekend.
func weekday(d unit.Day) unit.Day {
	for d.Weekday() == time.Saturday || d.Weekday() == time.Sunday {
		d++
	}
	return d
}

// seer says which of the two goes to a farm.
func seer(order int) string {
	if order%3 == 1 {
		return helper
	}
	return adviser
}

// frames counts 5 to 8 frames of 2 square feet: five, and one more for each ten acres over twenty.
func (st *tract) frames(d unit.Day, young bool) []book.Frame {
	n := 5 + min(3, int(math.Max(0, st.plot.acres-20)/10))
	stems := st.stemsIn(d)
	if st.plot.crop == mix {
		stems *= 1 - 0.6*st.plot.grass
	}
	out := make([]book.Frame, n)
	for i := range out {
		out[i].Ft2 = 2
		count := frameCount(stems, st.r)
		out[i].Stems = &count
		if young {
			plants := frameCount(stems/4.2, st.r) // young plants carry few stems (choice)
			out[i].Plants = &plants
		}
	}
	return out
}

// frameCount draws the stems in a frame of 2 square feet: Poisson counts whose mean is itself patchy.
func frameCount(stems float64, r *rand.Rand) int {
	const shape = 16 // of the patches: a CV of 25 % between places (choice)
	local := distuv.Gamma{Alpha: shape, Beta: shape / (2 * stems), Src: r}.Rand()
	return int(distuv.Poisson{Lambda: local, Src: r}.Rand())
}

// roots digs twenty roots, so many of a hundred of them bad.
func (st *tract) roots(bad float64) *book.Roots {
	n := book.Roots{Dug: 20}
	for range n.Dug {
		if st.r.Float64() < bad {
			n.Bad++
		}
	}
	return &n
}

// readings records what the stick said: in the sentinels on Mondays and Thursdays from about 16 in
// until the first cut and weekly in the second growth, in a few others once.
func (l *ledger) readings(h *holding, st *tract) {
	switch {
	case st.plot.tells&readOnce != 0:
		d := weekday(unit.DateOf(2026, time.May, 13) + unit.Day(st.r.IntN(5)))
		if s := st.on(d); s.growth == 1 {
			l.visit(h, st, d, book.Visit{Spots: st.spots(s, 5)}, soon)
		}
	case st.plot.tells&sentinel != 0:
		for d := unit.DateOf(2026, time.April, 20); d < unit.DateOf(2026, time.August, 1); d++ {
			if st.readingDay(d) {
				l.visit(h, st, d, st.reading(d), atOnce) // the bulletin waits for it
			}
		}
	}
}

// visit records what one of the two saw.
func (l *ledger) visit(h *holding, st *tract, d unit.Day, v book.Visit, w wait) {
	author := adviser
	if st.r.IntN(3) == 0 {
		author = helper
	}
	l.add(entry{farm: h.id, subject: h.ids[st], day: d, author: author, wait: w}, v)
}

// readingDay says whether a sentinel was read. Nobody went out in the week of 22 June, and one field
// was left out in the week of 4 May.
func (st *tract) readingDay(d unit.Day) bool {
	s := st.on(d)
	may4, june22 := unit.DateOf(2026, time.May, 4), unit.DateOf(2026, time.June, 22)
	switch {
	case s.growth == 0, s.growth > 2, s.inches() < 15.4:
		return false
	case st.plot.tells&away != 0 && d >= may4 && d < may4+7, d >= june22 && d < june22+7:
		return false
	case s.growth == 2, st.plot.crop == mix:
		return d.Weekday() == time.Monday
	}
	return d.Weekday() == time.Monday || d.Weekday() == time.Thursday
}

// reading is one visit to a sentinel, with the two that went wrong: a height written in centimetres,
// and a bud taken for a flower all over the field.
func (st *tract) reading(d unit.Day) book.Visit {
	s := st.on(d)
	v := book.Visit{Spots: st.spots(s, 5)}
	if st.plot.crop == mix {
		v.Grass = st.grassSeen()
	}
	switch {
	case st.plot.name == "The Hundred" && d == st.lastUnder(59):
		v.Spots[2].HeightIn = math.Min(60, math.Round(v.Spots[2].HeightIn*2.54))
	case st.plot.name == "Saltlick" && d == unit.DateOf(2026, time.May, 11):
		for i := range v.Spots {
			v.Spots[i].Stage = book.Flower
		}
	}
	return v
}

// lastUnder is the last first-crop reading with stems under so many centimetres.
func (st *tract) lastUnder(cm float64) unit.Day {
	last := unit.Day(0)
	for d := unit.DateOf(2026, time.April, 20); d <= springMark; d++ {
		if s := st.on(d); s.growth == 1 && s.height < cm && st.readingDay(d) {
			last = d
		}
	}
	return last
}

// spots reads so many spots: each is a little taller and further on, or less, than the field, and the
// observer reads to half an inch and now and then takes one stage for its neighbour.
func (st *tract) spots(s standing, n int) []book.Spot {
	out := make([]book.Spot, n)
	stages := book.Stages()
	for i := range out {
		inches := s.inches()*(1+0.05*st.r.NormFloat64()) + 0.6*st.r.NormFloat64()
		inches = math.Max(4, math.Min(60, math.Round(inches*2)/2))
		stage := s.stage(st.nature, 22*st.r.NormFloat64())
		if chance := st.r.Float64(); chance < 0.05 {
			at := map[book.Stage]int{book.Vegetative: 0, book.Bud: 1, book.Flower: 2}[stage]
			stage = stages[min(2, max(0, at+1-2*st.r.IntN(2)))]
		}
		out[i] = book.Spot{HeightIn: inches, Stage: stage}
	}
	return out
}

// grassSeen is the share of grass as judged by eye.
func (st *tract) grassSeen() *float64 {
	share := math.Round((st.plot.grass+0.06*st.r.NormFloat64())*20) / 20
	share = math.Max(0.05, math.Min(0.95, share))
	return &share
}

func halfInches(v float64) *float64 {
	v = math.Round(v*2) / 2
	return &v
}
