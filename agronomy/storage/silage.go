package storage

import (
	"fmt"

	"haywarden/agronomy/losses"
	"haywarden/agronomy/source"
)

// Structure is what silage is stored in.
type Structure string

// The structures.
const (
	SealedTower Structure = "sealed-tower"
	StaveTower  Structure = "stave-tower"
	Bunker      Structure = "bunker"
	Pile        Structure = "pile"
	Bag         Structure = "bag"
	WrappedBale Structure = "wrapped-bale"
)

// Structures lists them.
func Structures() []string {
	return []string{string(SealedTower), string(StaveTower), string(Bunker), string(Pile), string(Bag), string(WrappedBale)}
}

// SilageStore holds the losses of silage, % of the dry matter put in.
//
//	loss = Intercept - Slope*density    bunkers and piles, density in lb of dry matter/ft3
//
// held to Loosest and Densest, a line through the six printed points of Ruppel 1992 ([source.BunkerLine]).
type SilageStore struct {
	Intercept, Slope, Loosest, Densest float64
	Sealed, Bunker, Bag                losses.Range // [source.SiloTypes], ends [source.SiloEnds]
	Stave                              losses.Range // [source.SiloEnds]
	WrappedWet, WrappedDry             losses.Range // [source.WrappedBales]; over and under WrappedAt %
	WrappedAt                          float64
	Wet, WetLoss                       float64 // over this moisture at least this is lost: [source.WetSilage]
	Tight                              float64 // share that fermenting takes in a tight silo
	Around                             float64 // points either side of the line by density, a choice
}

// PublishedSilageStore returns the losses.
func PublishedSilageStore() SilageStore {
	return SilageStore{
		Intercept: 28.7, Slope: 0.85, Loosest: 10, Densest: 22,
		Sealed: losses.Range{Low: 4, Mid: 4, High: 14}, Bunker: losses.Range{Low: 10, Mid: 17, High: 18},
		Bag: losses.Range{Low: 8, Mid: 11, High: 15}, Stave: losses.Range{Low: 7, Mid: 10, High: 17},
		WrappedWet: losses.Range{Low: 2.3, Mid: 3.5, High: 10}, WrappedDry: losses.Range{Low: 2.3, Mid: 2.3, High: 10}, WrappedAt: 40,
		Wet: 75, WetLoss: 20, Tight: 0.04, Around: 3,
	}
}

// ByDensity is the loss of a bunker or pile, %.
func (k SilageStore) ByDensity(density float64) float64 {
	return k.Intercept - k.Slope*min(max(density, k.Loosest), k.Densest)
}

// Loss is what a structure takes of silage of a moisture, % of fresh weight, packed to a density in lb
// of dry matter/ft3, 0 where it is not known; bunkers and piles alone are told apart by it.
//
// What fermenting takes in a tight silo is sugar, so that fibre and protein rise. What air takes beyond
// that is half sugar and half spoiled silage as it stands, a choice: fibre hardly differed between
// silos that lost 4 to 17 % (Muck, Brink & Broderick 2015, first year).
func (k SilageStore) Loss(s Structure, moisture, density float64) (losses.Loss, error) {
	if !(moisture >= 25 && moisture <= 85) {
		return losses.Loss{}, fmt.Errorf("moisture %g %%; accepted 25 to 85 for silage", moisture)
	}
	if !(density >= 0 && density <= 40) {
		return losses.Loss{}, fmt.Errorf("density %g lb/ft3; accepted 0 (not known) to 40", density)
	}
	var pct losses.Range
	from := source.SiloTypes
	switch s {
	case SealedTower:
		pct = k.Sealed
	case StaveTower:
		pct, from = k.Stave, source.SiloEnds
	case Bag:
		pct = k.Bag
	case Bunker, Pile:
		pct = k.Bunker
		if density > 0 {
			mid := k.ByDensity(density)
			pct, from = losses.Range{Low: max(0, mid-k.Around), Mid: mid, High: mid + k.Around}, source.BunkerLine
		}
	case WrappedBale:
		pct, from = k.WrappedWet, source.WrappedBales
		if moisture < k.WrappedAt {
			pct = k.WrappedDry
		}
	default:
		return losses.Loss{}, fmt.Errorf("structure %q; accepted sealed-tower, stave-tower, bunker, pile, bag or wrapped-bale", s)
	}
	if moisture > k.Wet {
		pct.Mid = max(pct.Mid, k.WetLoss)
		pct.High = max(pct.High, k.WetLoss)
	}
	share := losses.Range{Low: pct.Low / 100, Mid: pct.Mid / 100, High: pct.High / 100}
	air := max(0, share.Mid-k.Tight) / share.Mid
	return losses.Loss{
		Name: "storage", Share: share, Made: losses.Made{Breathed: 1 - air/2, Whole: air / 2},
		Sources: []source.ID{from, source.SiloTypes, source.WetSilage},
	}, nil
}

// FeedOut is what spoils behind the face of a bunker, pile or bag that is fed too slowly, % of dry
// matter: PerTurn * max(0, Enough/rate - 1), times Warm in the warm season, at most Most. Air reaches 2
// to 3 ft behind the face, so that half the rate is twice the days in it. Source: [source.FeedOutRule].
type FeedOut struct{ PerTurn, Enough, Warm, Most float64 }

// PublishedFeedOut returns the rule, Enough being 12 in a day ([source.FaceRate]).
func PublishedFeedOut() FeedOut { return FeedOut{PerTurn: 1.5, Enough: 12, Warm: 1.5, Most: 15} }

// Loss is the loss at a rate in inches a day. Its ends are half and twice of it, a choice.
func (k FeedOut) Loss(inchesDay float64, warm bool) (losses.Loss, error) {
	if !(inchesDay >= 0.1 && inchesDay <= 200) {
		return losses.Loss{}, fmt.Errorf("face fed at %g in/day; accepted 0.1 to 200", inchesDay)
	}
	pct := k.PerTurn * max(0, k.Enough/inchesDay-1)
	if warm {
		pct *= k.Warm
	}
	pct = min(pct, k.Most)
	return losses.Loss{
		Name: "feed-out", Share: losses.Range{Low: pct / 200, Mid: pct / 100, High: pct / 50},
		Made: losses.Made{Breathed: 0.5, Whole: 0.5}, Sources: []source.ID{source.FeedOutRule, source.FaceRate},
	}, nil
}

// Feeder is how forage is offered.
type Feeder string

// The feeders.
const (
	FeedBunk   Feeder = "bunk"
	RingFeeder Feeder = "ring"
	OnGround   Feeder = "ground"
)

// Feeders lists them.
func Feeders() []string { return []string{string(FeedBunk), string(RingFeeder), string(OnGround)} }

// Feeding is what animals waste, % of dry matter offered. Bunk and ring: [source.FeedingLoss]; on the
// ground without limit: [source.GroundLoss]. Middles are half way between the ends.
func Feeding(f Feeder) (losses.Loss, error) {
	l := losses.Loss{Name: "feeding", Made: losses.Made{Whole: 1}, Sources: []source.ID{source.FeedingLoss}}
	switch f {
	case FeedBunk:
		l.Share = losses.Range{Low: 0.03, Mid: 0.04, High: 0.05}
	case RingFeeder:
		l.Share = losses.Range{Low: 0.05, Mid: 0.125, High: 0.20}
	case OnGround:
		l.Share, l.Sources = losses.Range{Low: 0.25, Mid: 0.35, High: 0.45}, []source.ID{source.GroundLoss}
	default:
		return losses.Loss{}, fmt.Errorf("feeder %q; accepted bunk, ring or ground", f)
	}
	return l, nil
}
