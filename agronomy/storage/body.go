package storage

import (
	"fmt"
	"math"
)

// Body is the room that silage takes up, measured in feet. Which numbers a shape wants stands with
// [Body.Volume]; the others are 0.
type Body struct {
	Shape        Shape
	Diameter     float64 // tower, bag
	Height       float64 // tower: settled depth of silage
	Removed      float64 // tower: feet taken off the top of it
	Width        float64 // bunker
	Length       float64 // bunker, pile, bag: filled length at full section
	Wall, Crown  float64 // bunker: depth at the wall and in the middle
	Ramp         float64 // bunker: length of the sloping front
	Area1, Area2 float64 // pile: cross-sections at the ends of the section, ft2
}

// Shape is the form of a silo.
type Shape string

// The shapes.
const (
	TowerShape  Shape = "tower"
	BunkerShape Shape = "bunker"
	PileShape   Shape = "pile"
	BagShape    Shape = "bag"
)

// Shapes lists them.
func Shapes() []Shape { return []Shape{TowerShape, BunkerShape, PileShape, BagShape} }

// mostFeet is longer than any silo; what is longer was not entered in feet.
const mostFeet = 2000

// Volume is the room in cubic feet. Source: geometry ([source.SiloGeometry]).
//
//	tower   pi/4 Diameter^2 (Height - Removed)
//	bunker  (Width*Wall + 2/3 Width (Crown - Wall)) * (Length - Ramp/2): the crown a flat arch, the ramp
//	        of the front counted by half
//	pile    Length/3 (A1 + A2 + sqrt(A1 A2)) for one section between two cross-sections
//	bag     pi/4 Diameter^2 Length, the tapered ends left out
func (b Body) Volume() (float64, error) {
	if err := b.check(); err != nil {
		return 0, err
	}
	switch b.Shape {
	case TowerShape:
		return round(b.Diameter) * (b.Height - b.Removed), nil
	case BunkerShape:
		return b.Face() * (b.Length - b.Ramp/2), nil
	case PileShape:
		return b.Length / 3 * (b.Area1 + b.Area2 + math.Sqrt(b.Area1*b.Area2)), nil
	case BagShape:
	}
	return round(b.Diameter) * b.Length, nil
}

// Face is the area that is fed from, ft2: the cross-section, of a pile the larger one.
func (b Body) Face() float64 {
	switch b.Shape {
	case BunkerShape:
		return b.Width*b.Wall + 2./3*b.Width*(b.top()-b.Wall)
	case PileShape:
		return max(b.Area1, b.Area2)
	case TowerShape, BagShape:
	}
	return round(b.Diameter)
}

// Depth is the mean depth of silage in a bunker, ft: its section over its width.
func (b Body) Depth() float64 { return b.Face() / b.Width }

// top is the depth in the middle; a bunker filled level has none of its own.
func (b Body) top() float64 {
	if b.Crown == 0 {
		return b.Wall
	}
	return b.Crown
}

// round is the area of a circle.
func round(diameter float64) float64 { return math.Pi / 4 * diameter * diameter }

func (b Body) check() error {
	type part struct {
		name string
		v    float64
		most float64
		zero bool // may be 0
	}
	var parts []part
	switch b.Shape {
	case TowerShape:
		parts = []part{{"diameter", b.Diameter, 100, false}, {"height", b.Height, 150, false}, {"removed", b.Removed, 150, true}}
	case BunkerShape:
		parts = []part{{"width", b.Width, mostFeet, false}, {"length", b.Length, mostFeet, false}, {"wall", b.Wall, 60, false}, {"crown", b.Crown, 60, true}, {"ramp", b.Ramp, mostFeet, true}}
	case PileShape:
		parts = []part{{"area1", b.Area1, 50000, true}, {"area2", b.Area2, 50000, true}, {"length", b.Length, mostFeet, false}}
	case BagShape:
		parts = []part{{"diameter", b.Diameter, 20, false}, {"length", b.Length, mostFeet, false}}
	default:
		return fmt.Errorf("shape %q; accepted tower, bunker, pile or bag", b.Shape)
	}
	for _, p := range parts {
		low := "over 0"
		if p.zero {
			low = "0"
		}
		if !(p.v > 0 && p.v <= p.most) && !(p.zero && p.v == 0) {
			return fmt.Errorf("%s of the %s %g: accepted %s to %g ft", p.name, b.Shape, p.v, low, p.most)
		}
	}
	switch {
	case b.Shape == TowerShape && b.Removed > b.Height:
		return fmt.Errorf("removed %g ft of a tower filled %g ft: accepted up to its height", b.Removed, b.Height)
	case b.Shape == BunkerShape && b.Crown != 0 && b.Crown < b.Wall/2:
		return fmt.Errorf("crown %g ft over a wall of %g ft: the crown is the depth in the middle from the floor, accepted half the wall's and over, or 0 where it is level", b.Crown, b.Wall)
	case b.Shape == BunkerShape && b.Ramp > b.Length:
		return fmt.Errorf("ramp %g ft in a bunker %g ft long: accepted up to its length", b.Ramp, b.Length)
	case b.Shape == PileShape && b.Area1+b.Area2 == 0:
		return fmt.Errorf("area1 and area2 are both 0: want one cross-section over 0 ft2")
	}
	return nil
}

// RoundBale is the volume of a round bale, ft3, by its diameter and width in feet.
func RoundBale(diameter, width float64) float64 { return round(diameter) * width }

// SquareBale is that of a square one.
func SquareBale(width, height, length float64) float64 { return width * height * length }

func errDensity(s Shape) error {
	return fmt.Errorf("density is missing: a %s packs as it is packed; take cores, or reckon packing, and give lb of dry matter/ft3, 2 to 40", s)
}

func errBale(p, key string) error {
	return fmt.Errorf("%s is missing: a %s bale wants it, in feet", key, p)
}
