package storage

import (
	"fmt"
	"math"

	"haywarden/agronomy/losses"
	"haywarden/agronomy/source"
)

// Place is where hay is stored.
type Place string

// The places.
const (
	Inside        Place = "inside"
	Covered       Place = "covered" // outside, under a tarpaulin or caps
	OutsideGround Place = "outside-ground"
	OutsideRaised Place = "outside-raised" // on pallets, stone or another drained bed
)

// Places lists them.
func Places() []string {
	return []string{string(Inside), string(Covered), string(OutsideGround), string(OutsideRaised)}
}

// Wrap is what holds a bale and sheds the rain; it counts outside only.
type Wrap string

// The wraps.
const (
	Bare  Wrap = "none"
	Twine Wrap = "twine"
	Net   Wrap = "net"
)

// Wraps lists them.
func Wraps() []string { return []string{string(Bare), string(Twine), string(Net)} }

// HayStore holds the losses of hay over a storage season.
//
// Inside, the loss follows moisture: Intercept + Slope*w % of dry matter, at least Least, a line through
// the class means of Rotz & Abrams 1988 ([source.HayInside]); its ends are the line times InsideLow and
// InsideHigh ([source.HayEnds]). Outside, weather adds to it: the larger of the loss inside and of the
// printed loss of the place and wrap ([source.HayOutside], [source.HayOutsideEnds]).
type HayStore struct {
	Intercept, Slope, Least float64
	InsideLow, InsideHigh   float64
	Covered                 losses.Range // %
	Bare, Twine, Net        losses.Range // %, on the ground
	Raised                  float64      // points saved off the ground
	ProteinShare            float64      // of dry matter: up to here a loss takes protein too
}

// PublishedHayStore returns the losses. Twine is plastic, between the 10.6 and 11.3 % that two
// summaries of one paper print; sisal, which rots, is its high end.
func PublishedHayStore() HayStore {
	return HayStore{
		Intercept: -3.10119, Slope: 0.478571, Least: 2, InsideLow: 0.6, InsideHigh: 1.8,
		Covered: losses.Range{Low: 1.9, Mid: 4.5, High: 8},
		Bare:    losses.Range{Low: 15, Mid: 20, High: 40},
		Twine:   losses.Range{Low: 5, Mid: 10.95, High: 19.5},
		Net:     losses.Range{Low: 5, Mid: 7.25, High: 19},
		Raised:  4, ProteinShare: 0.02,
	}
}

// Loss is what storage takes of hay of a moisture, % of fresh weight.
//
// What heat and mould breathe away inside is sugar, with the same little protein whatever the moisture
// (Rotz & Abrams 1988). Of what weather adds half is leached and half is rotten hay left behind, a
// choice: washing alone would raise the fibre of the whole bale more than trials show.
func (k HayStore) Loss(moisture float64, place Place, wrap Wrap) (losses.Loss, error) {
	if !(moisture >= 5 && moisture <= 40) {
		return losses.Loss{}, fmt.Errorf("moisture %g %%; accepted 5 to 40: wetter than that it is no hay", moisture)
	}
	mid := max(k.Least, k.Intercept+k.Slope*moisture)
	inside := losses.Range{Low: mid * k.InsideLow, Mid: mid, High: mid * k.InsideHigh}
	pct := inside
	if place != Inside {
		printed, err := k.outside(place, wrap)
		if err != nil {
			return losses.Loss{}, err
		}
		pct = losses.Range{Low: max(inside.Low, printed.Low), Mid: max(inside.Mid, printed.Mid), High: max(inside.High, printed.High)}
	} else if !known(wrap) {
		return losses.Loss{}, fmt.Errorf("wrap %q; accepted none, twine or net", wrap)
	}
	share := losses.Range{Low: pct.Low / 100, Mid: pct.Mid / 100, High: pct.High / 100}
	weather := max(0, pct.Mid-inside.Mid) / pct.Mid
	keeping := 1 - weather
	protein := min(keeping, k.ProteinShare/share.Mid)
	return losses.Loss{
		Name: "storage", Share: share,
		Made:    losses.Made{Protein: protein, Breathed: keeping - protein, Leached: weather / 2, Whole: weather / 2},
		Sources: []source.ID{source.HayInside, source.HayEnds, source.HayOutside, source.HayOutsideEnds},
	}, nil
}

func known(w Wrap) bool { return w == Bare || w == Twine || w == Net }

func (k HayStore) outside(place Place, wrap Wrap) (losses.Range, error) {
	var r losses.Range
	switch wrap {
	case Bare:
		r = k.Bare
	case Twine:
		r = k.Twine
	case Net:
		r = k.Net
	default:
		return r, fmt.Errorf("wrap %q; accepted none, twine or net", wrap)
	}
	switch place {
	case Inside:
		return losses.Range{}, nil
	case Covered:
		return k.Covered, nil
	case OutsideGround:
		return r, nil
	case OutsideRaised:
		return losses.Range{Low: max(0, r.Low-k.Raised), Mid: max(0, r.Mid-k.Raised), High: max(0, r.High-k.Raised)}, nil
	}
	return r, fmt.Errorf("place %q; accepted inside, covered, outside-ground or outside-raised", place)
}

// Rind is the share of a round bale that a spoiled ring of a depth in inches holds, the bale having a
// diameter in feet. Source: [source.BaleRind].
func Rind(diameterFt, depthIn float64) float64 {
	core := max(0, diameterFt-2*depthIn/12) / diameterFt
	return 1 - math.Pow(core, 2)
}
