package husbandry

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"haywarden/agronomy/forage"
	"haywarden/agronomy/losses"
	"haywarden/agronomy/storage"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/outlook"
)

// lotOf works a lot out.
func lotOf(date unit.Day, f *book.FarmView, l *book.LotView) (*outlook.FeedLot, error) {
	lot := &outlook.FeedLot{LotView: l, RFQ: math.NaN(), NDF: math.NaN(), Weeks: math.NaN()}
	p := putIn(f, l)
	lot.Put, lot.How = p.tons, p.how
	var err error
	if lot.Loss, err = lossOf(l); err != nil {
		return nil, err
	}
	p.leftOf(date, lot)
	quality(f, lot)
	if !book.Baled(l.Store) {
		lot.Opens = storage.Opens(l.Filled)
		gas, err := storage.PublishedGas().Filled(l.Filled, date)
		if err != nil {
			return nil, err
		}
		if gas.Stage != "guarded" {
			lot.Gas = &gas
		}
	} else if l.Store == string(storage.WrappedBale) {
		lot.Opens = storage.Opens(l.Filled)
	}
	if n := len(l.Fed); n > 0 && l.Fed[n-1].Body.LbDay > 0 {
		lot.LbDay, lot.Group = l.Fed[n-1].Body.LbDay, l.Fed[n-1].Body.Group
		return lot, p.feedOut(date, lot)
	}
	return lot, nil
}

// feedOut says how fast the face moves, what it loses if that is too slow, and how long the lot lasts.
func (p filling) feedOut(date unit.Day, lot *outlook.FeedLot) (err error) {
	if p.density > 0 && p.face > 0 {
		if lot.Inches, err = storage.FaceInches(lot.LbDay, p.face, p.density); err != nil {
			return err
		}
		warm := date.Month() >= time.May && date.Month() <= time.September
		lot.FaceSays = storage.PublishedFaceRules().Of(p.shape).Judge(lot.Inches, warm)
		if p.shape != storage.TowerShape {
			slow, err := storage.PublishedFeedOut().Loss(min(max(lot.Inches, 0.1), 200), warm)
			if err != nil {
				return err
			}
			lot.Loss = 1 - (1-lot.Loss)*(1-slow.Share.Mid)
		}
	}
	if lot.Weeks, err = storage.Weeks(lot.Tons.Mid, lot.Loss, lot.LbDay); err != nil {
		return err
	}
	lot.RunsOut = after(date, 7*lot.Weeks)
	return nil
}

// lossOf is the share that a store still takes of what is in it: of a season's loss all where nothing was
// measured since it was filled, half where it was, since no one says how it spreads over the months (a
// choice).
func lossOf(l *book.LotView) (float64, error) {
	var loss losses.Loss
	var err error
	density := 0.0
	if l.Size != nil {
		density = l.Size.Density
	}
	switch {
	case l.Store == string(storage.WrappedBale):
		loss, err = storage.PublishedSilageStore().Loss(storage.WrappedBale, within(l.Wet, usualBaleage, 25, 85), 0)
	case book.Baled(l.Store):
		loss, err = storage.PublishedHayStore().Loss(within(l.Wet, usualHay, 5, 40), storage.Place(l.Store), storage.Twine)
	default:
		loss, err = storage.PublishedSilageStore().Loss(storage.Structure(l.Store), within(l.Wet, usualHaylage, 25, 85), density)
	}
	if err != nil {
		return 0, err
	}
	if len(l.Left) > 0 {
		return loss.Share.Mid / 2, nil
	}
	return loss.Share.Mid, nil
}

// Moistures taken where none was told, % of fresh weight (choice).
const usualHay, usualBaleage, usualHaylage = 15, 48, 60

func within(v, usual, low, high float64) float64 {
	if v == 0 {
		return usual
	}
	return min(max(v, low), high)
}

// filling is what was put in and how it is measured again.
type filling struct {
	tons    losses.Range
	how     string
	around  float64 // share either way
	lot     *book.LotView
	shape   storage.Shape
	body    storage.Body
	volume  float64 // ft3
	density float64 // lb of dry matter/ft3; 0: not by volume
	face    float64
	each    float64 // tons of dry matter a bale
}

// Errors of a stock, a share of it. By cores or loads weighed: the low case of [source.LowCase] on both
// sides; by packing: [storage.Packing]; weighed bales: the same list; guessed ones: [source.BaleGuess],
// 100 lb of some 1000; a field's weighed cut: as a volume (choice).
const (
	byCores, byTable, byWeight, byGuess, byCut = storage.LowByVolume, 0.20, storage.LowWeighed, 0.10, 0.10
)

func putIn(f *book.FarmView, l *book.LotView) filling {
	p := filling{lot: l}
	var mid float64
	switch {
	case l.Size != nil:
		p.bySize()
		mid = p.volume * p.density / poundsATon
		if p.shape == storage.TowerShape && l.Size.Density == 0 {
			mid = storage.PublishedTowers().Of(fillOf(l)).Tons(p.body)
		}
	case l.Bales != nil:
		weight := l.Bales.WeighLb
		p.how, p.around = fmt.Sprintf("%d bales of %.0f lb, weighed", l.Bales.Number, weight), byWeight
		if !l.Bales.Weighed {
			p.how, p.around = fmt.Sprintf("%d bales of %.0f lb, guessed: weigh three", l.Bales.Number, weight), byGuess
		}
		usual := float64(usualHay)
		if l.Store == string(storage.WrappedBale) {
			usual = usualBaleage
		}
		p.each = weight * (1 - within(l.Wet, usual, 5, 85)/100) / poundsATon
		mid = p.each * float64(l.Bales.Number)
	}
	if l.TonsDM > 0 {
		mid, p.how, p.around = l.TonsDM, "tons as told", byCores
	}
	if mid == 0 {
		if mid = weighedCuts(f, l); mid > 0 {
			p.how, p.around = "the weighed cuts it was made from", byCut
		}
	}
	p.tons = spread(mid, p.around)
	return p
}

func fillOf(l *book.LotView) storage.Fill {
	if l.Forage == cornForage {
		return storage.CornSilageFill
	}
	return storage.HaylageFill
}

// bySize measures a silo: its shape, its face and its density.
func (p *filling) bySize() {
	s := p.lot.Size
	p.shape = map[string]storage.Shape{"sealed-tower": storage.TowerShape, "stave-tower": storage.TowerShape, "bunker": storage.BunkerShape, "pile": storage.PileShape, "bag": storage.BagShape}[p.lot.Store]
	p.body = storage.Body{Shape: p.shape, Diameter: s.Diameter, Height: s.Height, Width: s.Width, Length: s.Length, Wall: s.Wall, Crown: s.Crown, Ramp: s.Ramp, Area1: s.Area1, Area2: s.Area2}
	volume, err := p.body.Volume()
	if err != nil {
		p.how, p.body = err.Error(), storage.Body{} // not measured whole: it says what is missing and holds no tons
		return
	}
	p.volume, p.face, p.density, p.around = volume, p.body.Face(), s.Density, byTable
	switch {
	case s.Density > 0 && s.By == "cores":
		p.around, p.how = byCores, fmt.Sprintf("volume by tape, %.1f lb/ft3 by cores", s.Density)
	case s.Density > 0 && s.By == "packing":
		p.how = fmt.Sprintf("volume by tape, %.1f lb/ft3 reckoned from packing", s.Density)
	case s.Density > 0:
		p.how = fmt.Sprintf("volume by tape, %.1f lb/ft3 as told", s.Density)
	case p.shape == storage.TowerShape:
		p.density, p.around = storage.PublishedTowers().Of(fillOf(p.lot)).Mean(s.Height), byCores
		p.how = fmt.Sprintf("settled depth by tape, %.1f lb/ft3 by the table of towers", p.density)
	case p.shape == storage.BagShape:
		p.density = usualBag
		p.how = fmt.Sprintf("length by tape, a usual bag's %.1f lb/ft3", p.density)
	default:
		p.density = storage.LeastDensity
		p.how = fmt.Sprintf("volume by tape, %.0f lb/ft3 taken: core it", p.density)
	}
}

// usualBag is the density of a bag of which nothing is known ([source.BagDensity]).
const usualBag = 12.5

func spread(mid, around float64) losses.Range {
	return losses.Range{Low: mid * (1 - around), Mid: mid, High: mid * (1 + around)}
}

// weighedCuts adds up the weighed cuts that a lot was made from, tons of dry matter.
func weighedCuts(f *book.FarmView, l *book.LotView) (tons float64) {
	for _, fd := range f.Fields {
		for _, s := range fd.Stands {
			if !slices.Contains(l.Stands, s.ID) {
				continue
			}
			for _, c := range s.Cuts {
				if c.Day <= l.Filled && c.Day.Year() == l.Filled.Year() && c.Body.TonsDM != nil && (l.Cutting == 0 || c.Body.Number == l.Cutting) {
					tons += *c.Body.TonsDM * fd.Acres
				}
			}
		}
	}
	return tons
}

// leftOf is what is left today: what was last found, or what was put in, less what was fed since.
func (p filling) leftOf(date unit.Day, lot *outlook.FeedLot) {
	mid, since := p.tons.Mid, p.lot.Filled
	if n := len(p.lot.Left); n > 0 {
		seen := p.lot.Left[n-1]
		since = seen.Day
		switch b := seen.Body; {
		case b.TonsDM != nil:
			mid = *b.TonsDM
		case b.Bales != nil:
			mid = p.each * float64(*b.Bales)
		case p.body.Shape == storage.TowerShape:
			left := p.body
			left.Removed = min(*b.Removed, left.Height)
			mid = p.tons.Mid * storage.PublishedTowers().Of(fillOf(p.lot)).Tons(left) / storage.PublishedTowers().Of(fillOf(p.lot)).Tons(p.body)
		case p.body.Length > 0:
			mid = p.tons.Mid * max(0, 1-*b.Removed/p.body.Length)
		}
		lot.How += fmt.Sprintf("; looked at on %s", seen.Day.Time().Format("2 January 2006"))
	}
	var fed float64
	for i, x := range p.lot.Fed {
		from, to := max(x.Day, since), date
		if i+1 < len(p.lot.Fed) {
			to = p.lot.Fed[i+1].Day
		}
		fed += float64(max(0, to-from)) * x.Body.LbDay / poundsATon
	}
	// What was fed had come through the store: that much more was taken out of it.
	left := max(0, mid-fed/(1-lot.Loss))
	if fed == 0 {
		left = mid
	}
	// The error is that of the whole: a stock half fed is known half as well.
	lot.Tons = losses.Range{Low: max(0, left-p.tons.Mid*p.around), Mid: left, High: left + p.tons.Mid*p.around}
}

// testedWithin is how long after filling a result without a cutting is still taken for the lot, days
// (choice).
const testedWithin = 90

// quality finds what a lot is worth feeding: as told, else by the laboratory: the newest result of each of
// its stands that names the lot or its cutting, or that was sampled of such feed soon after the filling;
// of several stands their mean.
func quality(f *book.FarmView, lot *outlook.FeedLot) {
	l := lot.LotView
	if l.RFQ > 0 || l.NDF > 0 {
		lot.RFQ, lot.NDF, lot.From = orNaN(l.RFQ), orNaN(l.NDF), "as told"
	}
	var of []book.Dated[book.Lab]
	for _, fd := range f.Fields {
		for _, s := range fd.Stands {
			for _, r := range slices.Backward(s.Labs) {
				named := r.Body.Lot != "" && strings.EqualFold(r.Body.Lot, l.Name)
				own := slices.Contains(l.Stands, s.ID) && r.Body.Sample != "standing" && r.Body.Lot == ""
				cut := own && l.Cutting != 0 && r.Body.Cutting == l.Cutting && r.Day.Year() == l.Filled.Year()
				soon := own && r.Body.Cutting == 0 && r.Day >= l.Filled && r.Day <= l.Filled+testedWithin
				if named || cut || soon {
					of = append(of, r)
					break
				}
			}
		}
	}
	if len(of) == 0 {
		return
	}
	lot.RFQ, lot.NDF, lot.From = 0, 0, "laboratory"
	for _, r := range of {
		v, ok := r.Body.More["rfq"]
		if !ok {
			v = forage.PublishedFeedValue().Of(r.Body.ADF, r.Body.NDF)
			lot.From = "laboratory, RFV in the place of RFQ"
		}
		lot.RFQ += v / float64(len(of))
		lot.NDF += r.Body.NDF / float64(len(of))
	}
	if len(of) > 1 {
		lot.From += fmt.Sprintf(", mean of %d fields", len(of))
	}
}

func orNaN(v float64) float64 {
	if v == 0 {
		return math.NaN()
	}
	return v
}

// match says what is wrong with the group that eats a lot.
func match(l *outlook.FeedLot, groups []outlook.Eaters) {
	i := slices.IndexFunc(groups, func(g outlook.Eaters) bool { return strings.EqualFold(g.Name, l.Group) })
	if l.Group == "" || i < 0 || math.IsNaN(l.RFQ) {
		return
	}
	switch g, rfq := groups[i], math.Round(l.RFQ); {
	case rfq < asked(g.Floor):
		l.Unmatched = fmt.Sprintf("RFQ %.0f is under the %.0f that %s wants", rfq, g.Floor, g.Name)
	case rfq > g.Fat:
		l.Unmatched = fmt.Sprintf("RFQ %.0f is more than %s can use: over %.0f they get fat on it", rfq, g.Name, g.Fat)
	}
}
