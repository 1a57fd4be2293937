package demo

import (
	"math/rand/v2"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
)

// holding is a farm on its way into the book.
type holding struct {
	*steading
	id     string
	r      *rand.Rand
	fields map[string]string // id by name
	tracts []*tract
	ids    map[*tract]string // of the stands
}

// roster records every farm and all that was seen and done there.
func (l *ledger) roster(seed uint64, sky sky) {
	list := steadings()
	var all []*holding
	for i := range list {
		h := &holding{steading: &list[i], r: stream(seed, "farm "+list[i].name), fields: map[string]string{}, ids: map[*tract]string{}}
		l.open(h)
		for _, p := range h.plots {
			l.plant(h, seed, sky, p)
		}
		for _, st := range h.tracts {
			l.history(h, st)
			l.counts(h, st, i)
			l.readings(h, st)
			l.looks(h, st)
			l.laboratory(h, st)
		}
		l.talk(h)
		all = append(all, h)
	}
	// Last, so that what was there before keeps its ids.
	l.add(entry{subject: "feed prices", day: feedDay, author: adviser, wait: atOnce}, feedDeck)
	for _, h := range all {
		l.kit(h)
	}
	l.stacks(all)
	l.sowings(all)
	l.soil(seed, all)
	l.stores(all)
	for _, h := range all {
		for _, st := range h.tracts {
			l.harms(h, st)
		}
	}
	l.soilOlder(all)
	l.pests(seed, all)
}

// open records the farm, its people, what it allows, and its prices.
func (l *ledger) open(h *holding) {
	h.id = l.subject(opened)
	lat, long := miles(h.east, h.north)
	l.add(entry{farm: h.id, subject: h.id, day: opened, author: adviser}, book.Farm{Name: h.name, County: h.county, Latitude: lat, Longitude: long})
	for _, c := range h.people {
		l.add(entry{farm: h.id, subject: l.subject(opened), day: opened, author: adviser}, c)
	}
	until := unit.DateOf(2028, time.December, 31)
	for _, use := range []string{"service", "contact", "aggregate", "bulletin", "research"} {
		given := true
		switch use {
		case "bulletin":
			given = h.name != "Wimberry" && h.name != "Moonpenny"
		case "research":
			given = h.r.Float64() < 0.6
		}
		l.add(entry{farm: h.id, subject: h.id, day: opened + 1, author: adviser}, book.Consent{Use: use, Given: given, Until: &until})
	}
	if own, ok := ownDecks[h.name]; ok {
		l.add(entry{farm: h.id, subject: h.id, day: own.day, author: adviser, wait: soon}, own.deck)
	}
}

// plant records a field and its stand, and lets the stand live.
func (l *ledger) plant(h *holding, seed uint64, sky sky, p plot) {
	station := h.station
	if p.station != "" {
		station = p.station
	}
	field, known := h.fields[p.name]
	if !known {
		field = l.subject(opened)
		h.fields[p.name] = field
		lat, long := h.site(len(h.fields) - 1)
		l.add(entry{farm: h.id, subject: field, day: opened + 1, author: adviser}, book.Field{
			Name: p.name, Acres: p.acres, Latitude: lat, Longitude: long, Station: station,
		})
	}
	r := stream(seed, "stand "+h.name+" "+p.name+" "+p.seeded)
	st := &tract{plot: p, farm: h.steading, air: sky.over(station), nature: natureOf(p, r), r: r, years: map[int]*growingYear{}}
	st.nature.killed = station == hollow && p.name != "Hollow Close"
	for y := 2025; y <= 2026; y++ {
		st.live(y)
	}
	seeded := day(p.seeded)
	body := book.Stand{
		Field: field, Crop: p.crop, Seeded: seeded, GrassShare: p.grass, Variety: variety(p, r), Product: p.product,
		FeedRFV: p.feed, Sentinel: p.tells&sentinel != 0,
	}
	e := entry{farm: h.id, subject: l.subject(max(opened, seeded)), day: max(opened+1, seeded), author: adviser, wait: soon}
	l.add(e, body)
	if p.turned != "" {
		gone := day(p.turned)
		body.TurnedUnder = &gone
		e.day, e.wait = gone, byPhone
		l.add(e, body)
	}
	h.tracts = append(h.tracts, st)
	h.ids[st] = e.subject
	l.truth[e.subject] = st
}

// site lays the fields of a farm out around its yard, each in a quarter-mile square of its own.
func (h *holding) site(n int) (lat, long float64) {
	squares := [][2]float64{{0, 1}, {1, 0}, {-1, 0}, {0, -1}, {1, 1}, {-1, -1}, {-1, 1}, {1, -1}}
	at := squares[n%len(squares)]
	jitter := func() float64 { return 0.04 * (2*h.r.Float64() - 1) }
	return miles(h.east+0.34*at[0]+jitter(), h.north+0.34*at[1]+jitter())
}

// variety gives a stand an invented variety.
func variety(p plot, r *rand.Rand) string {
	names := map[book.Crop][]string{
		book.Alfalfa:       {"Wendle 4", "Tarnlight", "Marlow Fen", "Oxlip 32"},
		book.ReducedLignin: {"Softwand", "Willowease"},
		book.RedClover:     {"Roselip", "Dunmallow"},
		book.AlfalfaGrass:  {"Wendle 4 with orchardgrass", "Tarnlight with meadow fescue"},
	}[p.crop]
	return names[r.IntN(len(names))]
}

// talk records the calls with a farm.
func (l *ledger) talk(h *holding) {
	for _, c := range calls {
		if c.farm != h.name {
			continue
		}
		about := ""
		for _, st := range h.tracts {
			if st.plot.name == c.field && day(st.plot.seeded) <= day(c.date) {
				about = h.ids[st]
			}
		}
		l.add(entry{farm: h.id, subject: h.id, day: day(c.date), author: adviser, wait: atOnce}, book.Call{
			Contact: h.people[0].Name, About: about, Said: c.said, Came: c.came,
		})
	}
}
