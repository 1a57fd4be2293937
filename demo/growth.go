package demo

import (
	"math"
	"math/rand/v2"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
)

// nature is what sets one stand apart in the truth behind the records. That truth is ours and invented,
// drawn so that its levels are those of the published tables, and shaped otherwise than the equations
// the program judges with:
//
//   - Heat is counted in C-days over 4 C, the day's mean held at 26 C, from 10 March, and anew after
//     each cut.
//   - The tallest stems follow a logistic curve of the heat, held back by a dry month; each stand has
//     a warmth, an earliness and a tallness of its own.
//   - Fibre comes from leaves and stems: the share of leaf falls with the heat, the stems harden, and
//     a stand's own offset of about one NDF point is added. Height does not enter it.
//   - Bud and flower come at heats of their own, a little different at each spot.
//   - Killed growing tips stop the height for nine days, slow it for two months and set the bud back.
//   - Tons follow from height and from the stems a square foot.
//
// So a stick reading, a heat sum and a laboratory each tell part of the truth, and disagree.
type nature struct {
	warm   float64 // C warmer than the station
	early  float64 // factor on the heat counted
	tall   float64 // factor on the height
	fibre  float64 // NDF points
	rich   float64 // factor on the tons
	stems  float64 // a square foot in spring 2026
	killed bool    // the freeze of May 2026 killed the growing tips
}

// natureOf draws what makes a stand unlike the next.
func natureOf(p plot, r *rand.Rand) nature {
	n := nature{
		warm: 0.4 * r.NormFloat64(), early: 1 + 0.03*r.NormFloat64(), tall: 1 + 0.05*r.NormFloat64(),
		fibre: 1.1 * r.NormFloat64(), rich: 1 + 0.08*r.NormFloat64(),
	}
	age := 2026 - day(p.seeded).Year()
	n.stems = 78 * math.Exp(-0.13*float64(max(age, 0))) * math.Exp(0.08*r.NormFloat64())
	if p.stems > 0 {
		n.stems = p.stems
	}
	return n
}

// day reads a date of the roster.
func day(s string) unit.Day {
	d, err := unit.ParseDay(s)
	if err != nil {
		panic("demo: " + err.Error())
	}
	return d
}

// standing is a crop on its way: the heat since it began, and the height of its tallest stems.
type standing struct {
	growth int // 1 before the year's first cut
	heat   float64
	height float64 // cm
}

// form is the curve of height against heat: full height, heat at the bend, width.
type form struct{ full, bend, width float64 }

func formOf(c book.Crop, growth int, seedling bool) form {
	f := form{113, 326, 150}
	switch {
	case growth == 2:
		f = form{73, 260, 110}
	case growth > 2:
		f = form{62, 255, 110}
	}
	if c == book.RedClover {
		f = form{0.78 * f.full, 1.06 * f.bend, f.width}
	}
	if seedling && growth == 1 {
		f = form{0.72 * f.full, 1.3 * f.bend, f.width}
	}
	return f
}

// share is the part of its full height reached at a heat, 0 at none.
func (f form) share(heat float64) float64 {
	logistic := func(x float64) float64 { return 1 / (1 + math.Exp((f.bend-x)/f.width)) }
	start := logistic(0)
	return (logistic(heat) - start) / (1 - start)
}

// grow takes a crop through one day.
func (s *standing) grow(st *tract, d unit.Day, seedling bool) {
	n := st.nature
	warmth := math.Max(0, math.Min(26, st.air.meanC(d)+n.warm)-4) * n.early
	f := formOf(st.plot.crop, s.growth, seedling)
	gain := f.full * n.tall * (f.share(s.heat+warmth) - f.share(s.heat)) * st.air.moisture(d, s.growth)
	if since := d - freezeNight; n.killed && s.growth == 1 && since >= 0 && since < 60 {
		gain *= 0.6 // side shoots
		if since < 9 {
			gain = 0
		}
	}
	s.heat += warmth
	s.height += gain
}

// moisture is how far the last thirty days' rain carries growth (choice): all of it from 3.4 in; the
// first growth of the year lives on what the winter left.
func (a *air) moisture(d unit.Day, growth int) float64 {
	sum := 0.0
	for i := max(0, at(d)-29); i <= at(d); i++ {
		sum += a.rainIn[i]
	}
	carried := 0.5
	if growth == 1 {
		carried = 0.93
	}
	return math.Min(1.05, carried+(1-carried)*sum/3.4)
}

// feed is the composition of a crop, % of dry matter.
type feed struct{ ndf, adf, cp float64 }

// quality is the true composition of the standing crop.
func (s standing) quality(p plot, n nature) feed {
	clock := s.heat
	if s.growth > 1 {
		clock *= 0.94 // summer stems stay finer at equal heat (choice)
	}
	leaf := 0.34 + 0.46*math.Exp(-math.Pow(clock/480, 1.4))
	ndf := leaf*(20+0.004*clock) + (1-leaf)*(68.5-40*math.Exp(-clock/420)) + n.fibre
	switch p.crop {
	case book.RedClover:
		ndf -= 2.5
	case book.AlfalfaGrass:
		ndf = (1-p.grass)*ndf + p.grass*(42+0.032*(clock-150))
	default: // both alfalfas
	}
	return feedOf(ndf)
}

// feedOf adds the acid fibre and the protein that go with an NDF (choice).
func feedOf(ndf float64) feed { return feed{ndf: ndf, adf: 0.70*ndf + 1.8, cp: 41.5 - 0.54*ndf} }

// Heats, C-days since the growth began (choice).
const (
	budHeat, flowerHeat      = 405, 545 // most mature stem, first growth
	summerBud, summerFlower  = 345, 465 // the same, later growths
	frostSetback             = 95       // of stems whose tips were killed
	cloverBloom, summerBloom = 640, 520 // half of the red clover stems in bloom
	cloverBloomWidth         = 48
)

// stage is the true stage of the most mature stem where the crop is so many C-days ahead.
func (s standing) stage(n nature, ahead float64) book.Stage {
	bud, flower := float64(budHeat), float64(flowerHeat)
	if s.growth > 1 {
		bud, flower = summerBud, summerFlower
	}
	heat := s.heat + ahead
	if n.killed && s.growth == 1 {
		heat -= frostSetback
	}
	switch {
	case heat >= flower:
		return book.Flower
	case heat >= bud:
		return book.Bud
	}
	return book.Vegetative
}

// bloom is the true share of red clover stems in bloom, %.
func (s standing) bloom() float64 {
	half := float64(cloverBloom)
	if s.growth > 1 {
		half = summerBloom
	}
	return 100 / (1 + math.Exp((half-s.heat)/cloverBloomWidth))
}

// tons is the dry matter that reaches the store, tons an acre.
func (s standing) tons(st *tract, d unit.Day, seedling bool) float64 {
	rate := [3]float64{0.0245, 0.0205, 0.0195}[min(s.growth, 3)-1] // tons an acre for each cm (choice)
	stems := math.Min(1, st.stemsIn(d)/55)
	if st.plot.crop == book.AlfalfaGrass {
		stems = math.Min(1, stems+st.plot.grass*0.6) // grass fills thin places
	}
	t := rate * s.height * math.Pow(stems, 0.8) * st.nature.rich
	if seedling {
		t *= 0.85
	}
	return t
}

// stemsIn is the true number of stems a square foot in a year; a stand loses about an eighth a year.
func (st *tract) stemsIn(d unit.Day) float64 {
	return st.nature.stems * math.Pow(0.88, float64(d.Year()-2026))
}

// inches of the tallest stems.
func (s standing) inches() float64 { return s.height / 2.54 }

// waking is the day from which a year's heat is counted.
func waking(year int) unit.Day { return unit.DateOf(year, time.March, 10) }
