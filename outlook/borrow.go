package outlook

import (
	"cmp"
	"math"
	"slices"

	"haywarden/agronomy/forage"
	"haywarden/agronomy/stick"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/weather"
)

const (
	freshReading = 8   // days: an older sentinel reading is not lent out (choice)
	leastSpread  = 2.2 // NDF between fields, the least that is believed
	fadeMiles    = 25  // distance at which a neighbour's between-field variance has doubled (choice)
	fadeYears    = 4   // difference in age at which it has (choice: older stands run thinner and earlier)
	mostLenders  = 10
	// sharedMethod is the part of the stick's error variance that all fields of a day have in common,
	// and that no number of them averages away (choice).
	sharedMethod = 0.5
)

// borrow gives stands of first growth without a reading an estimate from fields of their own kind that
// were read: an inverse-variance mean, shifted by the heat between the stations, with the spread
// between fields added.
func (o *Outlook) borrow() {
	lenders := o.lenders()
	if len(lenders) < leastLenders {
		return
	}
	spread := betweenFields(lenders)
	for _, s := range o.Stands {
		if s.Judged() == PureAlfalfa && s.Growth.Number == 1 && !s.SeedingYear() && s.Frosted == nil && !s.known() {
			s.borrowFrom(lenders, spread, o.Shared)
		}
	}
}

// leastLenders is how many read stands a pooled estimate wants (choice).
const leastLenders = 2

// lenders are the stands whose readings speak for others.
func (o *Outlook) lenders() []*Stand {
	var out []*Stand
	for _, s := range o.Stands {
		if r, ok := s.LastReading(); ok && s.lends(r) {
			out = append(out, s)
		}
	}
	return out
}

func (s *Stand) lends(r Reading) bool {
	return s.Judged() == PureAlfalfa && s.Growth.Number == 1 && s.Date-r.Day <= freshReading && s.Frosted == nil && s.lastStick() != nil
}

// known reports whether the stand was read or sampled itself.
func (s *Stand) known() bool { return s.Standing != nil && !s.Standing.Borrowed }

// lastStick is the stick's part in the standing quality, nil where it has none.
func (s *Stand) lastStick() *Basis {
	if s.Standing == nil || s.Standing.From[0].Name != BasisStick {
		return nil
	}
	return &s.Standing.From[0]
}

// betweenFields is the standard deviation between fields that the readings show beyond their own
// error, never less than the least believed.
func betweenFields(lenders []*Stand) float64 {
	var sum, sq, own float64
	n := float64(len(lenders))
	for _, l := range lenders {
		b := l.lastStick()
		level := b.NDF - l.heatLevel()
		sum += level
		sq += level * level
		// Only the spot error differs from field to field; the method's error is shared.
		r, _ := l.LastReading()
		own += r.Field.SpotSENDF * r.Field.SpotSENDF
	}
	if n < 3 {
		return leastSpread
	}
	variance := (sq-sum*sum/n)/(n-1) - own/n
	return math.Sqrt(max(variance, leastSpread*leastSpread))
}

// heatLevel is the fibre that heat alone gives at the stand's station, to compare stations by.
func (s *Stand) heatLevel() float64 {
	if s.Sky == nil {
		return 0
	}
	ndf, _, _ := forage.HeatNDF(s.Sky.Heat41.Now())
	return ndf
}

func (s *Stand) borrowFrom(lenders []*Stand, spread float64, shared forage.SharedErrors) {
	type loan struct{ ndf, variance float64 }
	var loans []loan
	method := stick.Published().SDNDF
	common := sharedMethod * method * method
	for _, l := range nearest(s, lenders) {
		b := l.lastStick()
		shift := 0.0
		if s.Sky != nil && l.Sky != nil {
			shift = s.heatLevel() - l.heatLevel()
		}
		far := 1 + apart(s, l)
		loans = append(loans, loan{b.NDF + shift, b.SD*b.SD - common + spread*spread*far})
	}
	var weight, sum float64
	for _, l := range loans {
		weight += 1 / l.variance
		sum += l.ndf / l.variance
	}
	basis := Basis{Name: BasisNeighbours, Day: s.Date - 1, NDF: sum / weight, SD: math.Sqrt(spread*spread + common + 1/weight), N: len(loans)}
	st := &Standing{Season: forage.Spring, HeatAgrees: true, Shared: shared, From: []Basis{basis}}
	if b, ok := s.fromHeat(); ok {
		st.From = append(st.From, b)
	}
	// Combine cannot fail here: both spreads are positive.
	if err := s.settle(st, forage.Quality{}); err != nil {
		s.Standing, s.NotStanding = nil, err.Error()
	}
}

// nearest orders lenders by distance and age, nearest first, and keeps a handful.
func nearest(s *Stand, lenders []*Stand) []*Stand {
	out := slices.Clone(lenders)
	slices.SortStableFunc(out, func(a, b *Stand) int { return cmp.Compare(apart(s, a), apart(s, b)) })
	return out[:min(len(out), mostLenders)]
}

// apart is how much less one stand says of another for their distance and difference in age.
func apart(a, b *Stand) float64 {
	return miles(a, b)/fadeMiles + math.Abs(float64(a.Year-b.Year))/fadeYears
}

// Placed reports whether the field's place is known, or its farm's.
func (s *Stand) Placed() bool { return placeOf(s) != place{} }

// MilesTo is the distance to another field in a straight line; it means nothing where a place is not known.
func (s *Stand) MilesTo(o *Stand) float64 { return miles(s, o) }

// miles is the distance between two fields; unknown places are taken as far.
func miles(a, b *Stand) float64 {
	p, q := placeOf(a), placeOf(b)
	if p == (place{}) || q == (place{}) {
		return 2 * fadeMiles
	}
	return weather.Miles(p.lat, p.lon, q.lat, q.lon)
}

type place struct{ lat, lon float64 }

func placeOf(s *Stand) place {
	if s.InField.Latitude != 0 || s.InField.Longitude != 0 {
		return place{s.InField.Latitude, s.InField.Longitude}
	}
	return place{s.Farm.Latitude, s.Farm.Longitude}
}

// Lent lists the fields a borrowed estimate comes from, nearest first.
func (o *Outlook) Lent(s *Stand) []*Stand {
	return nearest(s, o.lenders())
}

// Price is what a ton of hay is worth at a feed value, by the deck's own hay line.
type Price struct {
	Deck               string
	Day                unit.Day
	Base, BaseRFV, Per float64 // $/ton as fed at 12 % moisture, RFV, $/ton a point
	Floor              float64
	Old                int // days since, where it is past the days such a price is taken for the going one
}

// HayPrice returns the stand's hay price line; not ok where none was entered.
func (s *Stand) HayPrice() (Price, bool) {
	if s.Deck == nil {
		return Price{}, false
	}
	d := s.Deck.Body
	base, ok1 := d.Line(book.HayBase)
	ref, ok2 := d.Line(book.HayBaseRFV)
	per, ok3 := d.Line(book.HayPerPoint)
	floor, _ := d.Line(book.HayFloor)
	p := Price{Deck: d.Name, Day: s.Deck.Day, Base: base.Value, BaseRFV: ref.Value, Per: per.Value, Floor: floor.Value}
	if k, known := book.PriceKindOf(book.HayBase); known && k.OldOn(p.Day, s.Date) {
		p.Old = int(s.Date - p.Day)
	}
	return p, ok1 && ok2 && ok3
}

// Ton is the price of a ton as fed at a feed value.
func (p Price) Ton(rfv float64) float64 { return max(p.Floor, p.Base+p.Per*(rfv-p.BaseRFV)) }
