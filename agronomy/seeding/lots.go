package seeding

import (
	"fmt"
	"math"

	"haywarden/agronomy/unit"
)

// Offer is a lot of seed at a price.
type Offer struct {
	Name  string
	Lot   Lot
	Price float64 // $/lb of what is in the bag; 0 where none was told
	BagLb float64 // pounds in a bag
}

// Bought is what an offer means for a field.
type Bought struct {
	Offer
	PureLive unit.Share
	Rate     unit.PoundAcre // of bagged seed
	Pounds   float64        // for the field
	Bags     int            // whole bags, rounded up
	Million  float64        // $ a million live seeds; NaN without a price
	Cost     float64        // $ of the whole bags; NaN without a price
}

// lotsApart is what two prices of a live seed must be apart, relative. [source.SeedLotsApart]
const lotsApart = 0.03

// Need is what a field wants of seed: live seeds a square foot, on so many acres.
type Need struct {
	Live  unit.PerFt2
	Acres float64
}

// Buy reckons each offer for one need, in the order given. Lots are set beside each other by their live
// seeds, as pounds of one lot hold more of them than pounds of another.
func Buy(n Need, offers []Offer) ([]Bought, error) {
	if !(n.Live > 0) || !(n.Acres > 0) || math.IsInf(n.Acres, 0) || math.IsInf(float64(n.Live), 0) {
		return nil, fmt.Errorf("%g live seeds a square foot on %g acres: want more than 0 of both", n.Live, n.Acres)
	}
	var list []Bought
	for _, o := range offers {
		rate, err := o.Lot.ForLive(n.Live)
		switch {
		case err != nil:
			return nil, fmt.Errorf("lot %s: %w", o.Name, err)
		case !(o.BagLb > 0):
			return nil, fmt.Errorf("lot %s: bag of %g lb; want more than 0", o.Name, o.BagLb)
		case !(o.Price >= 0):
			return nil, fmt.Errorf("lot %s: price %g $/lb; want 0 or more", o.Name, o.Price)
		}
		b := Bought{Offer: o, PureLive: o.Lot.PureLive(), Rate: rate, Pounds: float64(rate) * n.Acres, Million: math.NaN(), Cost: math.NaN()}
		b.Bags = int(math.Ceil(b.Pounds/o.BagLb - 1e-9))
		if o.Price > 0 {
			b.Million = o.Price / (float64(o.Lot.SeedsPerLb) * float64(b.PureLive)) * 1e6
			b.Cost = float64(b.Bags) * o.BagLb * o.Price
		}
		list = append(list, b)
	}
	return list, nil
}

// Cheapest lists the lots whose live seed costs least: the cheapest, and those no different from it.
// None where no lot has a price.
func Cheapest(list []Bought) []Bought {
	least := math.Inf(1)
	for _, b := range list {
		if b.Million < least {
			least = b.Million
		}
	}
	var out []Bought
	for _, b := range list {
		if b.Million <= least*(1+lotsApart) {
			out = append(out, b)
		}
	}
	return out
}
