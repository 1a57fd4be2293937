package demo

import (
	"math/rand/v2"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
)

// habit is how a farm cuts.
type habit struct {
	first   float64    // heat at which the first crop is wanted, C-days
	every   int        // least days between cuts
	cuts    int        // a year
	last    time.Month // the last summer cut is made before the given day of this month
	lastDay int
}

// The habits met in the district.
var (
	keen   = habit{first: 425, every: 27, cuts: 4, last: time.September, lastDay: 3}
	steady = habit{first: 450, every: 29, cuts: 4, last: time.September, lastDay: 5}
	seller = habit{first: 505, every: 35, cuts: 3, last: time.September, lastDay: 18}
	herder = habit{first: 610, every: 42, cuts: 3, last: time.September, lastDay: 1}
)

// tract is a stand in the ground, with the weather over it.
type tract struct {
	plot   plot
	farm   *steading
	air    *air
	nature nature
	r      *rand.Rand
	years  map[int]*growingYear
}

// growingYear is what happened in a stand in a year.
type growingYear struct {
	days []standing // by day of the year; growth 0 where nothing grows
	cuts []harvest
}

// harvest is a cut as it truly was.
type harvest struct {
	day     unit.Day
	number  int
	product book.Product
	tons    float64
	feed    feed // of the crop as it stood
}

// on returns the crop as it stood in the evening of a day, before it was cut.
func (st *tract) on(d unit.Day) standing { return st.years[d.Year()].days[d.YearDay()-1] }

// live carries the stand through a year.
func (st *tract) live(year int) {
	y := &growingYear{days: make([]standing, unit.DaysIn(year))}
	st.years[year] = y
	seeded := day(st.plot.seeded)
	if seeded.Year() > year {
		return
	}
	from, seedling := waking(year), seeded.Year() == year
	if seedling {
		from = max(from, seeded+12) // emergence (choice)
	}
	crop := standing{growth: 1}
	asleep, since := false, unit.Day(0)
	slack := unit.Day(st.r.IntN(3))
	for d := from; d.Year() == year; d++ {
		if st.plot.turned != "" && d >= day(st.plot.turned) || asleep {
			break
		}
		crop.grow(st, d, seedling)
		y.days[d.YearDay()-1] = crop
		if st.cutOn(d, crop, since, slack, seedling, len(y.cuts)) {
			tired := since == 0 && crop.heat > st.farm.habit.first+110 || since > 0 && d > since+unit.Day(st.farm.habit.every)+12
			if product, ok := st.dryEnough(d, tired); ok {
				y.cuts = append(y.cuts, harvest{d, crop.growth, product, crop.tons(st, d, seedling), crop.quality(st.plot, st.nature)})
				crop = standing{growth: crop.growth + 1}
				since, slack = d, unit.Day(st.r.IntN(3))
			}
		}
		asleep = d.Month() > time.August && st.air.minF[at(d)] <= 24
	}
}

// cutOn says whether the farm wants to cut on a day.
func (st *tract) cutOn(d unit.Day, s standing, since, slack unit.Day, seedling bool, done int) bool {
	h := st.farm.habit
	if st.plot.crop == book.RedClover {
		h.cuts, h.every, h.first = 3, h.every+8, h.first+90
	}
	if st.plot.crop == book.AlfalfaGrass {
		h.first -= 45 * st.plot.grass // grass is cut earlier
	}
	late := d >= unit.DateOf(d.Year(), h.last, h.lastDay)
	switch {
	case seedling && d < day(st.plot.seeded)+75, seedling && done >= 2, done >= h.cuts, late, s.inches() < 11:
		return false
	case done == 0 && !seedling:
		return s.heat >= h.first+float64(12*slack)
	case done == 0:
		return s.heat >= 560
	}
	return d >= since+unit.Day(h.every)+slack
}

// dryEnough finds what the weather of the coming days allows: haylage and baleage want a dry day and
// the next, hay four. A producer who has waited long takes a crop meant for hay as baleage.
func (st *tract) dryEnough(d unit.Day, tired bool) (book.Product, bool) {
	dry := func(days unit.Day) bool {
		for i := range days {
			if d+i <= lastDay && st.air.rainIn[at(d+i)] > 0.03 {
				return false
			}
		}
		return true
	}
	switch {
	case st.plot.product != book.Hay:
		return st.plot.product, dry(2)
	case dry(4):
		return book.Hay, true
	case tired:
		return book.Baleage, dry(2)
	}
	return "", false
}

// stored is the composition of a harvest in the store: leaves are lost on the way, most in dry hay.
func (h harvest) stored() feed {
	more := map[book.Product]float64{book.Haylage: 1.8, book.Baleage: 2.4, book.Hay: 4.0}[h.product]
	return feedOf(h.feed.ndf + more)
}
