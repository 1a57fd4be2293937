package outlook

import (
	"math"
	"slices"
	"sync"

	"haywarden/agronomy/curing"
	"haywarden/agronomy/losses"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/weather"
)

// MowAhead is on how many days from the date on mowing is looked at.
const MowAhead = 10

// cureDays is how long a swath is followed, the day of mowing being the first: a crop that is not made
// by then has been rained on through (choice).
const cureDays = 12

// Lay is how a swath lies and is turned.
type Lay int

// The lays that are set beside each other. The crop is that of [curing.UsualSwath], 4 t/ha, conditioned.
const (
	Wide   Lay = iota // over 70 % of the ground
	Narrow            // over 30 %
	Tedded            // wide, and spread over all of it four hours after mowing (choice)
	lays
)

// SwathYieldTHa is the yield that curing is reckoned with. [source.CuringCrop]
const SwathYieldTHa = 4

func (l Lay) swath() curing.Swath {
	s := curing.UsualSwath()
	const groundGM2 = 100 * SwathYieldTHa
	if l == Narrow {
		s.GM2 = groundGM2 / 0.3
	}
	if l == Tedded {
		s.Turnings = []curing.Turning{curing.Tedding(s.MowHour+4, groundGM2)}
	}
	return s
}

// CuredAs is what a product is cured to: haylage for a bunker, hay in round bales.
func CuredAs(p book.Product) curing.Product {
	if p == book.Hay {
		return curing.RoundBale
	}
	if p == book.Baleage {
		return curing.Baleage
	}
	return curing.BunkerHaylage
}

// MadeWithin is within how many days a product wants to be made, the day of mowing being the first
// (choice, within the one to five days that they are said to want).
func MadeWithin(p book.Product) int {
	if p == book.Hay {
		return 4
	}
	if p == book.Baleage {
		return 3
	}
	return 2
}

// Cured is how one member's weather cures a swath.
type Cured struct {
	curing.Harvest
	Breathed float64 // share of the dry matter that it breathed away until made, or until it is no more followed
	Weight   float64
	Known    bool // the member's weather is known to the end
}

// Clean reports whether the crop was made within so many days without harmful rain.
func (c Cured) Clean(days int) bool {
	return c.Made < float64(24*days) && !(c.RainMM > curing.UsualHarmMM)
}

// swaths holds what does not hang on a stand: how each member's weather cures a swath mown on a day. It
// is reckoned when first asked for, since most mornings of a year ask for none of it, and always gives
// the same.
type swaths struct {
	ensemble *weather.Ensemble
	once     sync.Once
	hours    [][]curing.Hour // by member
	days     [lays][MowAhead]struct {
		once  sync.Once
		cured [][3]Cured // by member, in the order of [book.Products]
	}
}

func (w *swaths) prepare(past *weather.Series) {
	w.once.Do(func() {
		if past.Station.Latitude == 0 && past.Station.Longitude == 0 {
			return // where the sun stands is not known
		}
		members, at, err := w.ensemble.Swathing(past, curing.Place{}, MowAhead+cureDays)
		if err != nil {
			return // the place is none that swaths cure at: nothing is said of it
		}
		maker, err := curing.NewMaker(at)
		if err != nil {
			return
		}
		w.hours = make([][]curing.Hour, len(members))
		for i, m := range members {
			w.hours[i] = make([]curing.Hour, 24*len(m.Days))
			maker.Fill(w.hours[i], m.Days)
		}
	})
}

// Cures is how a swath mown on the ith day from the date is cured to a product, by member in the order
// of [Sky.Members]. Nothing is returned where the station cannot say.
func (s *Sky) Cures(i int, p book.Product, l Lay) []Cured {
	k := productIndex(p)
	if s.swaths == nil || i < 0 || i >= MowAhead || k < 0 {
		return nil
	}
	s.swaths.prepare(s.series)
	on := &s.swaths.days[l][i]
	on.once.Do(func() { on.cured = s.swaths.cure(i, l, s.Members) })
	if len(on.cured) == 0 {
		return nil
	}
	out := make([]Cured, len(on.cured))
	for m, c := range on.cured {
		out[m] = c[k]
	}
	return out
}

func productIndex(p book.Product) int {
	for i, q := range book.Products() {
		if p == q {
			return i
		}
	}
	return -1
}

func (w *swaths) cure(i int, l Lay, members []*Member) [][3]Cured {
	c, err := curing.NewCuring(l.swath())
	if err != nil || len(w.hours) != len(members) {
		return nil
	}
	var targets [3]curing.Target
	for k, p := range book.Products() {
		targets[k] = CuredAs(p).Target()
	}
	out := make([][3]Cured, len(members))
	var got [3]curing.Harvest
	moisture, left := make([]float64, 24*cureDays), make([]float64, 24*cureDays+1)
	for m, hours := range w.hours {
		hours = hours[min(24*i, len(hours)):min(24*(i+cureDays), len(hours))]
		known := len(hours) == 24*cureDays && allKnown(hours)
		if known {
			c.Run(hours, targets[:], moisture, got[:])
			breathe(left, hours, moisture, curing.UsualSwath().MowHour)
		}
		for k := range targets {
			out[m][k] = Cured{Harvest: got[k], Weight: members[m].Weight, Known: known}
			if known {
				out[m][k].Breathed = breathedBy(left, got[k].Made)
			}
		}
	}
	return out
}

// breathe writes what is left of the dry matter as each hour begins, the crop having breathed since it was
// mown at an hour, each hour by the moisture with which it begins. The last of left is as the hours end.
func breathe(left []float64, hours []curing.Hour, moisture []float64, mown int) {
	k := losses.PublishedRespiration()
	left[0] = 1
	db := moisture[0]
	for h := range hours {
		left[h+1] = left[h]
		if h >= mown {
			left[h+1] *= k.Left(losses.Hour{TempC: hours[h].TempC, Moisture: db / (1 + db)})
		}
		db = moisture[h]
	}
}

// breathedBy is the share gone at a time in hours; where that is not known, at the end.
func breathedBy(left []float64, made float64) float64 {
	last := len(left) - 1
	if !(made < float64(last)) {
		return 1 - left[last]
	}
	h := int(made)
	return 1 - (left[h] + (made-float64(h))*(left[h+1]-left[h]))
}

func allKnown(hours []curing.Hour) bool {
	for h := range hours {
		if math.IsNaN(hours[h].TempC) || math.IsNaN(hours[h].RainMM) || math.IsNaN(hours[h].SoilPct) {
			return false
		}
	}
	return true
}

// CleanChance is the chance that a swath mown on the ith day is made within the product's days and
// without harmful rain, and the mean hours until it is; NaN where nothing is known.
func (s *Sky) CleanChance(i int, p book.Product, l Lay) (chance, hours float64) {
	var all, clean, sum float64
	mown := float64(curing.UsualSwath().MowHour)
	for _, c := range s.Cures(i, p, l) {
		if !c.Known {
			continue
		}
		all += c.Weight
		if c.Clean(MadeWithin(p)) {
			clean += c.Weight
			sum += c.Weight * (c.Made - mown)
		}
	}
	return clean / all, sum / clean
}

// Lying is a swath that was mown before the date and not yet taken up, as far as the book knows.
type Lying struct {
	Mown    unit.Day
	Now     unit.PercentWet // moisture as the date begins
	RainMM  float64         // on it so far
	Members []Cured         // how each way the weather may go takes it on; hours are from midnight of the date
}

// Lies follows a swath mown on a day through the weather observed and then through each member's.
// Not ok where a day since then is not known, or nothing is of those ahead.
func (s *Sky) Lies(mown unit.Day, to curing.Target) (Lying, bool) {
	if s.swaths == nil || mown >= s.Date {
		return Lying{}, false
	}
	s.swaths.prepare(s.series)
	seen, at, err := weather.SwathDays(s.series, mown, s.Date-1)
	if err != nil || len(seen) != int(s.Date-mown) {
		return Lying{}, false
	}
	before, err := curing.HoursOf(at, seen)
	if err != nil || !allKnown(before) {
		return Lying{}, false
	}
	c, err := curing.NewCuring(Wide.swath())
	if err != nil {
		return Lying{}, false
	}
	got := make([]curing.Harvest, 1)
	never := []curing.Target{{DB: 0}}
	c.Run(before, never, nil, got)
	l := Lying{Mown: mown, Now: unit.PercentWet(100 * got[0].DB / (1 + got[0].DB)), RainMM: got[0].RainMM}
	// A target that was passed before today is waited for anew: whether it was taken up then is not known.
	lead := float64(len(before))
	for m, hours := range s.swaths.hours {
		hours = hours[:min(len(hours), 24*cureDays)]
		cured := Cured{Weight: s.Members[m].Weight, Known: allKnown(hours)}
		if cured.Known {
			next := to
			next.NotBefore = len(before)
			c.Run(append(slices.Clip(before), hours...), []curing.Target{next}, nil, got)
			cured.Harvest = got[0]
			cured.Ready -= lead
			cured.Made -= lead
		}
		l.Members = append(l.Members, cured)
	}
	return l, slices.ContainsFunc(l.Members, func(c Cured) bool { return c.Known })
}

// By is the chance that the swath is fit before an hour from midnight of the date.
func (l Lying) By(hour float64) float64 {
	var all, fit float64
	for _, c := range l.Members {
		if c.Known {
			all += c.Weight
			if c.Made < hour {
				fit += c.Weight
			}
		}
	}
	return fit / all
}
