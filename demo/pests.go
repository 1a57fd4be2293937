package demo

import (
	"math"
	"math/rand/v2"
	"time"

	"gonum.org/v1/gonum/stat/distuv"

	"haywarden/agronomy/unit"
	"haywarden/book"
)

// The pests of 2026, invented: weevil in a few first growths, leafhoppers from 24 May, their numbers
// doubling every ten days and beginning anew after each cut. The product is no product at all.
const (
	sampleSpray = "Sample product 1"
	scout       = "Lark Penhallow" // hired for the summer
	hoppersCame = 24               // of May
	doubling    = 10.0
)

// pests records what was counted of them, the one product the office may speak of, and the one field
// that was sprayed.
func (l *ledger) pests(seed uint64, all []*holding) {
	read := unit.DateOf(2026, time.April, 14)
	l.add(entry{subject: "spray " + sampleSpray, day: read, author: adviser, wait: atOnce}, book.SprayProduct{
		Name: sampleSpray, Against: []string{"weevil", "leafhopper"}, PHIDays: 7, REIHours: 24, Cost: 14, Crops: []book.Crop{book.Alfalfa}, LabelRead: &read,
	})
	r := stream(seed, "pests")
	n, sprayed := 0, false
	for _, h := range all {
		for _, st := range h.tracts {
			if st.plot.crop != alf || st.plot.turned != "" || st.plot.tells&(sentinel|readOnce) == 0 {
				continue
			}
			l.weevil(h, st, r, n)
			sprayed = l.hoppers(h, st, r, n, sprayed) || sprayed
			n++
		}
	}
}

// weevil is counted in buckets in mid May: many in one field, some in the next, few in most.
func (l *ledger) weevil(h *holding, st *tract, r *rand.Rand, n int) {
	d := weekday(unit.DateOf(2026, time.May, 14) + unit.Day(n%3))
	s := st.on(d)
	if s.growth != 1 || n > 5 || day(st.plot.seeded).Year() == 2026 {
		return
	}
	perStem := []float64{3.4, 1.5, 0.3}[min(n, 2)]
	l.sampled(h, st, d, r, book.Pests{Pest: "weevil", Size: 30}, perStem, 3)
}

// hoppers are swept for each week of each growth, from eight days after the cut until a week before the
// next; the first field with very many is sprayed.
func (l *ledger) hoppers(h *holding, st *tract, r *rand.Rand, n int, done bool) (sprayed bool) {
	cuts := st.years[2026].cuts
	for i, cut := range cuts {
		until := unit.DateOf(2026, time.August, 31)
		if i+1 < len(cuts) {
			until = cuts[i+1].day
		}
		crowd := 0.05 + 0.22*r.Float64()*float64(1+n%3)
		for d := cut.day + 8; d+7 < until; d += 7 {
			here := float64(d - max(cut.day, unit.DateOf(2026, time.May, hoppersCame)))
			if here < 0 {
				continue
			}
			on := weekday(d)
			l.sampled(h, st, on, r, book.Pests{Pest: "leafhopper", Size: 20}, crowd*math.Exp2(here/doubling), 5)
			if !done && crowd*math.Exp2(here/doubling) > 0.8 && on+9 < until {
				l.add(entry{farm: h.id, subject: h.ids[st], day: on + 1, author: h.people[len(h.people)-1].Name, wait: soon}, book.Sprayed{Product: sampleSpray, PHIDays: 7, REIHours: 24, By: h.people[len(h.people)-1].Name})
				return true
			}
		}
	}
	return false
}

// sampled records samples of a pest as clumped as pests are, with the height of growth.
func (l *ledger) sampled(h *holding, st *tract, d unit.Day, r *rand.Rand, p book.Pests, perUnit float64, samples int) {
	const clumped = 2 // of a negative binomial
	for range samples {
		mean := distuv.Gamma{Alpha: clumped, Beta: clumped / (perUnit * p.Size), Src: r}.Rand()
		p.Counts = append(p.Counts, distuv.Poisson{Lambda: max(mean, 1e-6), Src: r}.Rand())
	}
	l.add(entry{farm: h.id, subject: h.ids[st], day: d, author: scout, wait: soon}, book.Visit{Pests: []book.Pests{p}, GrowthIn: halfInches(st.on(d).inches())})
}
