package storage

import (
	"fmt"
	"math"

	"haywarden/agronomy/unit"
)

// FaceRule is the least that is fed off a face, in/day.
type FaceRule struct {
	Enough   float64 // from here on nothing is added to the loss
	Middling float64 // the usual middle rule where it is cool
	Floor    float64 // under it every source calls it too slow, cool weather
	FloorHot float64 // the same in warm weather
}

// FaceRules are the rules of a bunker, pile and bag, and of a tower fed from the top.
type FaceRules struct{ Horizontal, Tower FaceRule }

// PublishedFaceRules returns them. Bunker, pile, bag: [source.FaceRate], [source.FaceFloor]; the middle
// and towers from memory ([source.FaceMiddle]).
func PublishedFaceRules() FaceRules {
	return FaceRules{Horizontal: FaceRule{12, 6, 3, 4}, Tower: FaceRule{3, 3, 2, 3}}
}

// Of returns the rule of a shape.
func (r FaceRules) Of(s Shape) FaceRule {
	if s == TowerShape {
		return r.Tower
	}
	return r.Horizontal
}

// Feeding verdicts by the rate at a face.
const (
	FaceEnough  = "enough"
	FaceSlow    = "slow: it heats behind the face in warm weather"
	FaceTooSlow = "too slow: it spoils behind the face"
	FaceFloored = "far too slow: under the least of any rule"
)

// Judge says what a rate in inches a day means.
func (r FaceRule) Judge(inchesDay float64, warm bool) string {
	floor := r.Floor
	if warm {
		floor = r.FloorHot
	}
	switch v := math.Round(inchesDay*10) / 10; {
	case v < floor:
		return FaceFloored
	case v >= r.Enough:
		return FaceEnough
	case v >= r.Middling:
		return FaceSlow
	}
	return FaceTooSlow
}

// FaceInches is how far a face moves a day: 12 lbDay/(face*density), lb of dry matter, ft2, lb/ft3.
func FaceInches(lbDay, face, density float64) (float64, error) {
	for _, x := range []struct {
		name string
		v    float64
	}{{"lb_day", lbDay}, {"face", face}, {"density", density}} {
		if !(x.v > 0) || math.IsInf(x.v, 0) {
			return 0, fmt.Errorf("%s %g: accepted over 0", x.name, x.v)
		}
	}
	return 12 * lbDay / (face * density), nil
}

// FaceMost is the largest face that so much feed keeps moving at so many inches a day, ft2.
func FaceMost(lbDay, density, inchesDay float64) float64 { return lbDay / (density * inchesDay / 12) }

// Weeks is how long a stock lasts: tons of dry matter in store, the share still to be lost, lb of dry
// matter fed a day.
func Weeks(tons, loss, lbDay float64) (float64, error) {
	switch {
	case !(tons >= 0 && tons <= 1e6):
		return 0, fmt.Errorf("tons %g: accepted 0 to 1000000 tons of dry matter", tons)
	case !(loss >= 0 && loss <= 0.95):
		return 0, fmt.Errorf("loss %g: accepted 0 to 0.95, a share of what is in store", loss)
	case !(lbDay > 0 && lbDay <= 1e7):
		return 0, fmt.Errorf("lb_day %g: accepted over 0 to 10000000 lb of dry matter a day", lbDay)
	}
	return tons * poundsATon * (1 - loss) / (7 * lbDay), nil
}

// Low cases of a stock: what is taken off tons that were measured by volume and density, and off weighed
// bales. From memory ([source.LowCase]).
const (
	LowByVolume = 0.10
	LowWeighed  = 0.05
)

// FermentDays is how long silage stands closed before it is fed, days. From memory
// ([source.FermentTime]).
const FermentDays = 21

// Opens is the first day on which a silo filled on a day is fed from.
func Opens(filled unit.Day) unit.Day { return filled + FermentDays }
