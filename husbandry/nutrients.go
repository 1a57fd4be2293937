package husbandry

import (
	"fmt"

	"haywarden/agronomy/budget"
	"haywarden/agronomy/forage"
	"haywarden/book"
)

// HayLine is the price of hay by feed value, as fed at 12 % moisture.
type HayLine struct {
	Line  forage.PriceLine
	Floor float64
}

// At is $ a ton as fed at a feed value.
func (h HayLine) At(rfv float64) float64 { return budget.HayPrice(h.Line, h.Floor, rfv) }

// hay is the farm's price line of hay.
func (u purse) hay(p *Part) (HayLine, bool) {
	base, ok1 := u.take(p, book.HayBase)
	ref, ok2 := u.take(p, book.HayBaseRFV)
	per, ok3 := u.take(p, book.HayPerPoint)
	floor, _ := u.look(p, book.HayFloor)
	return HayLine{forage.PriceLine{Base: base, BaseRFV: ref, PerPoint: per}, floor}, ok1 && ok2 && ok3
}

// What fertilizer materials hold by their grade (the trade's own names: 46-0-0, 18-46-0, 0-46-0, 0-0-60).
const (
	ureaN, dapN, dapP, tspP, muriateK = 0.46, 0.18, 0.46, 0.46, 0.60
	poundsATon                        = 2000
)

// nutrients are $ a lb of N, P2O5 and K2O: as entered, else by the material that holds it.
func (u purse) phosphate(p *Part) (float64, bool) {
	if v, ok := u.look(p, book.Phosphate); ok {
		return v, true
	}
	if v, ok := u.look(p, book.TripleSuper); ok {
		return v / poundsATon / tspP, true
	}
	if v, ok := u.look(p, book.DAP); ok {
		if n, ok := u.nitrogen(p); ok {
			return max(0, v/poundsATon-dapN*n) / dapP, true
		}
	}
	p.lack("a price of phosphate (line %s in $/lb, or %s, or %s with %s)", book.Phosphate, book.TripleSuper, book.DAP, book.Nitrogen)
	return 0, false
}

func (u purse) nitrogen(p *Part) (float64, bool) {
	if v, ok := u.look(p, book.Nitrogen); ok {
		return v, true
	}
	v, ok := u.look(p, book.Urea)
	return v / poundsATon / ureaN, ok
}

func (u purse) potash(p *Part) (float64, bool) {
	if v, ok := u.look(p, book.PotashK2O); ok {
		return v, true
	}
	if v, ok := u.look(p, book.Potash); ok {
		return v / poundsATon / muriateK, true
	}
	p.lack("a price of potash (line %s in $/lb, or %s in $/ton)", book.PotashK2O, book.Potash)
	return 0, false
}

// removal is what replacing the potash and phosphate in a ton of dry matter costs, with the lowest and
// highest of the sources.
func (u purse) removal(p *Part) (low, middle, high float64, ok bool) {
	p2o5, ok1 := u.phosphate(p)
	k2o, ok2 := u.potash(p)
	if !ok1 || !ok2 {
		return 0, 0, 0, false
	}
	guide, costs, usual := budget.PublishedRemoval()
	a, b, c := guide.Ton(p2o5, k2o), costs.Ton(p2o5, k2o), usual.Ton(p2o5, k2o)
	low, high = min(a, b, c), max(a, b, c)
	return low, a + b + c - low - high, high, true
}

func span(low, high float64, unitName string) string {
	return fmt.Sprintf("%s to %s", Figure(low, unitName), Figure(high, unitName))
}
