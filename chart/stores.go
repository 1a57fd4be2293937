package chart

import (
	"fmt"
	"math"
)

// StoreShape is the form of a store as it is drawn.
type StoreShape string

// The shapes.
const (
	TowerStore  StoreShape = "tower"
	BunkerStore StoreShape = "bunker"
	PileStore   StoreShape = "pile"
	BagStore    StoreShape = "bag"
	BaleStore   StoreShape = "bales"
)

// A Store is feed in store: how full it is, as parts of what was put in, and two short lines about it.
type Store struct {
	Name            string
	Shape           StoreShape
	Low, Full, High float64 // 0 to 1
	Amount          string  // `46 of 172 tons`
	Says            string  // `11 weeks`
	Good            bool    // its line is no warning
}

// Stores shows stores in their own shapes, filled as far as they are full: a tower from the floor, a
// bunker, pile or bag from its back wall to its face, bales by the dozen. The line beneath or beside the
// shape is the range in which the truth lies. A warning is written bold.
type Stores struct {
	Frame
	All []Store
}

const (
	storeWide = 148.0 // room of one store
	storeTall = 148.0 // of one row of them
	storeBody = 68.0  // height of the tallest shape
)

func (s Stores) frame() Frame {
	f := s.or(632, 0)
	if !(f.Height > 0) {
		n := s.perRow(f.Width)
		f.Height = storeTall * max(1, math.Ceil(float64(len(s.All))/float64(n)))
	}
	return f
}

func (s Stores) perRow(width float64) int { return int(max(1, math.Floor(width/storeWide))) }

// Draw implements [Drawing].
func (s Stores) Draw(on Surface) {
	f := s.frame()
	n := s.perRow(f.Width)
	each := f.Width / float64(n)
	l := letters{width: f.Width, height: f.Height}
	for i, st := range s.All {
		x, y := each*float64(i%n), storeTall*float64(i/n)
		if y+storeTall > f.Height+1 {
			break
		}
		base := y + storeBody + 6
		st.draw(on, x+2, base, each-18)
		words := func(row float64, r Role, bold bool, text string) {
			size := textSize
			if row > 1 {
				size = smallSize
			}
			l.addIn(r, Text{At: Point{x + 2, base + 12 + 17*row}, Size: size, Bold: bold, Words: Shorten(text, size, bold, each-12)}, x, x+each-6)
		}
		words(1, Label, false, st.Name)
		words(2, Muted, false, st.Amount)
		words(3, Label, !st.Good, st.Says)
	}
	l.draw(on)
}

// part holds a share to 0 to 1; one that is no number is none.
func part(v float64) float64 {
	if !finite(v) {
		return 0
	}
	return min(max(v, 0), 1)
}

// draw puts one store on a base line, with so much room to its right.
func (s Store) draw(on Surface, x, base, room float64) {
	outline, upright := s.outline(x, base, room)
	full, low, high := part(s.Full), part(min(s.Low, s.Full)), part(max(s.High, s.Full))
	x0, x1, y0, y1 := bounds(outline)
	if s.Shape == BaleStore {
		s.bales(on, x0, base, x1-x0)
	} else {
		cut := clipped(outline, func(p Point) float64 { return x0 + full*(x1-x0) - p.X })
		if upright {
			cut = clipped(outline, func(p Point) float64 { return p.Y - (y1 - full*(y1-y0)) })
		}
		if len(cut) > 2 && full > 0 {
			on.Area(Grown, cut...)
		}
		on.Line(Axis, Stroke{Width: 1.5}, append(append([]Point(nil), outline...), outline[0])...)
	}
	if !finite(s.Low, s.High) || high <= low {
		return
	}
	if upright {
		whisker(on, x1+6, 3, y1-low*(y1-y0), y1-high*(y1-y0))
		return
	}
	thin, at := Stroke{Width: 1.25}, base+6
	on.Line(Best, thin, Point{x0 + low*(x1-x0), at}, Point{x0 + high*(x1-x0), at})
	for _, end := range []float64{low, high} {
		on.Line(Best, thin, Point{x0 + end*(x1-x0), at - 3}, Point{x0 + end*(x1-x0), at + 3})
	}
}

// outline is the shape's edge; upright says that it is filled from the floor.
func (s Store) outline(x, base, room float64) (edge []Point, upright bool) {
	wide := min(room, 128)
	switch s.Shape {
	case TowerStore:
		wide = min(wide, 34)
		top := base - storeBody
		return []Point{{x, base}, {x, top + 8}, {x + wide*0.2, top + 2}, {x + wide*0.5, top}, {x + wide*0.8, top + 2}, {x + wide, top + 8}, {x + wide, base}}, true
	case PileStore:
		top := base - storeBody*0.45
		return []Point{{x, base}, {x + wide*0.25, top}, {x + wide*0.7, top}, {x + wide, base}}, false
	case BagStore:
		tall := 24.0
		return []Point{{x, base - tall*0.25}, {x, base - tall*0.75}, {x + 5, base - tall}, {x + wide - 5, base - tall}, {x + wide, base - tall*0.75}, {x + wide, base - tall*0.25}, {x + wide - 5, base}, {x + 5, base}}, false
	case BaleStore:
		return []Point{{x, base}, {x, base - 3*baleSize}, {x + baleColumns(wide)*baleSize, base - 3*baleSize}, {x + baleColumns(wide)*baleSize, base}}, false
	case BunkerStore:
	}
	top := base - storeBody*0.5
	return []Point{{x, base}, {x, top}, {x + wide*0.12, top - 6}, {x + wide*0.8, top - 6}, {x + wide, base}}, false
}

const baleSize = 15.0

func baleColumns(wide float64) float64 { return max(1, math.Floor(min(wide, 8*baleSize)/baleSize)) }

// bales draws three layers of bales, those that are gone as open boxes: the last to go stand at the left.
func (s Store) bales(on Surface, x, base, wide float64) {
	columns := int(math.Round(wide / baleSize))
	there := int(math.Round(part(s.Full) * float64(3*columns)))
	if part(s.Full) > 0 {
		there = max(there, 1)
	}
	for i := range 3 * columns {
		left, foot := x+baleSize*float64(i/3), base-baleSize*float64(i%3)
		if i < there {
			on.Rect(Grown, left+1, foot-baleSize+1, baleSize-2, baleSize-2)
			continue
		}
		a, b := Point{left + 1.5, foot - 1.5}, Point{left + baleSize - 1.5, foot - baleSize + 1.5}
		on.Line(Axis, Stroke{Width: 0.75, Dotted: true}, a, Point{a.X, b.Y}, b, Point{b.X, a.Y}, a)
	}
}

func bounds(edge []Point) (x0, x1, y0, y1 float64) {
	x0, x1, y0, y1 = edge[0].X, edge[0].X, edge[0].Y, edge[0].Y
	for _, p := range edge {
		x0, x1, y0, y1 = min(x0, p.X), max(x1, p.X), min(y0, p.Y), max(y1, p.Y)
	}
	return x0, x1, y0, y1
}

// clipped is the part of a convex edge on the side where in is not negative.
func clipped(edge []Point, in func(Point) float64) (out []Point) {
	for i, p := range edge {
		next := edge[(i+1)%len(edge)]
		a, b := in(p), in(next)
		if a >= 0 {
			out = append(out, p)
		}
		if (a >= 0) != (b >= 0) {
			t := a / (a - b)
			out = append(out, Point{p.X + t*(next.X-p.X), p.Y + t*(next.Y-p.Y)})
		}
	}
	return out
}

// Rows implements [Drawing].
func (s Stores) Rows() [][]string {
	rows := [][]string{{"Store", "Kind", "Full", "Between", "Amount", "Lasts"}}
	percent := func(v float64) string {
		if !finite(v) {
			return "–"
		}
		return fmt.Sprintf("%.0f %%", 100*part(v))
	}
	for _, st := range s.All {
		between := ""
		if finite(st.Low, st.High) {
			between = percent(st.Low) + " to " + percent(st.High)
		}
		rows = append(rows, []string{st.Name, string(st.Shape), percent(st.Full), between, st.Amount, st.Says})
	}
	return rows
}
