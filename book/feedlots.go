package book

import (
	"errors"
	"fmt"
)

// FeedLot is feed put into store, on the day the store was filled. Its subject is the lot. What is 0 or
// empty was not said. Quality may be told here; else it is looked for among the laboratory's results of
// the stands that the lot came from.
type FeedLot struct {
	Name    string    `json:"name"`
	Forage  string    `json:"forage"`            // as [Forages]
	Store   string    `json:"store"`             // as [FeedStores]
	Stands  []string  `json:"stands,omitempty"`  // subjects of the stands it was cut from
	Cutting int       `json:"cutting,omitempty"` // of the year, 1 the first
	TonsDM  float64   `json:"tons_dm,omitempty"` // put in; 0: by its size, its bales or the cuts it came from
	Size    *LotSize  `json:"size,omitempty"`
	Bales   *LotBales `json:"bales,omitempty"`
	RFQ     float64   `json:"rfq,omitempty"`
	NDF     float64   `json:"ndf,omitempty"`          // % of dry matter
	Wet     float64   `json:"moisture_pct,omitempty"` // when put in, % of fresh weight
}

// LotSize is a silo as it was measured, feet.
type LotSize struct {
	Diameter float64 `json:"diameter_ft,omitempty"` // tower, bag
	Height   float64 `json:"height_ft,omitempty"`   // tower: settled depth
	Width    float64 `json:"width_ft,omitempty"`    // bunker
	Length   float64 `json:"length_ft,omitempty"`   // bunker, pile, bag
	Wall     float64 `json:"wall_ft,omitempty"`     // bunker
	Crown    float64 `json:"crown_ft,omitempty"`
	Ramp     float64 `json:"ramp_ft,omitempty"`
	Area1    float64 `json:"area1_ft2,omitempty"` // pile
	Area2    float64 `json:"area2_ft2,omitempty"`
	Density  float64 `json:"density_lb_ft3,omitempty"` // dry matter
	By       string  `json:"density_by,omitempty"`     // as [DensityWays]
}

// LotBales are bales of a lot.
type LotBales struct {
	Number  int     `json:"number"`
	WeighLb float64 `json:"weight_lb,omitempty"` // of one, as it is
	Weighed bool    `json:"weighed,omitempty"`   // three or more went over a scale
}

// LotLeft is what was found left of a lot on a day. Its subject is the lot.
type LotLeft struct {
	TonsDM *float64 `json:"tons_dm,omitempty"`
	Bales  *int     `json:"bales,omitempty"`
	// Removed is how far a silo was fed: feet off the top of a tower, off the length of the others.
	Removed *float64 `json:"removed_ft,omitempty"`
}

// LotFed says how much of a lot is fed a day from a day on, until it is said anew. Its subject is the lot.
type LotFed struct {
	LbDay float64 `json:"lb_day"` // dry matter; 0: it is closed
	Group string  `json:"group,omitempty"`
}

// FeedStores are what feed is kept in.
func FeedStores() []string {
	return []string{"sealed-tower", "stave-tower", "bunker", "pile", "bag", "wrapped-bale", "inside", "covered", "outside-ground", "outside-raised"}
}

// Baled reports whether a store holds bales.
func Baled(store string) bool {
	switch store {
	case "wrapped-bale", "inside", "covered", "outside-ground", "outside-raised":
		return true
	}
	return false
}

// DensityWays are how a density was found.
func DensityWays() []string { return []string{"cores", "packing", "table"} }

func (FeedLot) Kind() Kind { return KindFeedLot } // Kind says what the body is
func (LotLeft) Kind() Kind { return KindLotLeft } // see FeedLot
func (LotFed) Kind() Kind  { return KindLotFed }  // see FeedLot

// Check implements [Body].
func (b FeedLot) Check() error {
	errs := []error{named("lot", b.Name), oneOf("forage", b.Forage, Forages()), oneOf("store", b.Store, FeedStores())}
	maybe := func(what string, v, low, high float64, unitName string) {
		if v != 0 {
			errs = append(errs, within(what, v, low, high, unitName))
		}
	}
	maybe("tons", b.TonsDM, 0.1, 100000, "tons of dry matter")
	maybe("RFQ", b.RFQ, 40, 350, "points")
	maybe("NDF", b.NDF, 18, 80, ofDM)
	maybe("moisture", b.Wet, 5, 85, "% of fresh weight")
	maybe("cutting", float64(b.Cutting), 1, 9, "(of the year)")
	if s := b.Size; s != nil {
		for _, x := range []struct {
			what string
			v    float64
			most float64
		}{
			{"diameter", s.Diameter, 100}, {"height", s.Height, 150}, {"width", s.Width, 2000}, {"length", s.Length, 2000}, {"wall", s.Wall, 60},
			{"crown", s.Crown, 60}, {"ramp", s.Ramp, 2000}, {"area1", s.Area1, 50000}, {"area2", s.Area2, 50000},
		} {
			errs = append(errs, within(x.what, x.v, 0, x.most, "ft"))
		}
		maybe("density", s.Density, 2, 40, "lb of dry matter/ft3")
		if s.By != "" {
			errs = append(errs, oneOf("density by", s.By, DensityWays()))
		}
		if Baled(b.Store) {
			errs = append(errs, fmt.Errorf("length: %s holds bales: give their number and weight", b.Store))
		}
	}
	if k := b.Bales; k != nil {
		errs = append(errs, within("bales", float64(k.Number), 1, 100000, "bales"))
		maybe("bale weight", k.WeighLb, 20, 4000, "lb")
		if !Baled(b.Store) {
			errs = append(errs, fmt.Errorf("bales %d: a %s holds none: give its size, or tons", k.Number, b.Store))
		}
	}
	return errors.Join(errs...)
}

// Check implements [Body].
func (b LotLeft) Check() error {
	said := 0
	errs := []error{}
	if b.TonsDM != nil {
		said++
		errs = append(errs, within("tons left", *b.TonsDM, 0, 100000, "tons of dry matter"))
	}
	if b.Bales != nil {
		said++
		errs = append(errs, within("bales left", float64(*b.Bales), 0, 100000, "bales"))
	}
	if b.Removed != nil {
		said++
		errs = append(errs, within("removed", *b.Removed, 0, 2000, "ft"))
	}
	if said != 1 {
		errs = append(errs, errors.New("what is left of a lot is told in one way: tons, bales, or feet removed"))
	}
	return errors.Join(errs...)
}

// Check implements [Body].
func (b LotFed) Check() error {
	return within("fed", b.LbDay, 0, 200000, "lb of dry matter a day")
}
