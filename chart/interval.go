package chart

import (
	"fmt"
	"math"
)

// An Interval is a mean with its interval on a line, against thresholds whose sides are named; single
// counts may stand beneath as rings.
type Interval struct {
	Frame
	Mean, Low, High float64
	Thresholds      []float64 // rising
	Zones           []string  // one more than thresholds, from the left; may be empty
	Spots           []float64 // single counts
	Unit            string
}

func (v Interval) frame() Frame { return v.or(520, 124) }

// extent widens what is drawn to whole ticks, and so far that the outer zones have room.
func (v Interval) extent(step float64) (lo, hi float64) {
	all := append([]float64{v.Mean, v.Low, v.High}, v.Thresholds...)
	all = append(all, v.Spots...)
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, x := range all {
		if finite(x) {
			lo, hi = min(lo, x), max(hi, x)
		}
	}
	if lo > hi {
		return 0, 1
	}
	if n := len(v.Thresholds); n > 0 {
		room := max(v.Thresholds[n-1]-v.Thresholds[0], (hi-lo)/3, 1)
		lo, hi = min(lo, v.Thresholds[0]-room), max(hi, v.Thresholds[n-1]+room)
	}
	if lo < 0 && v.Low >= 0 {
		lo = 0
	}
	if step > 0 {
		lo, hi = spread(lo, hi, step)
	}
	if hi <= lo {
		hi = lo + 1
	}
	return lo, hi
}

// Draw implements [Drawing].
func (v Interval) Draw(on Surface) {
	f := v.frame()
	lo, hi := v.extent(0)
	step := nice(lo, hi, int(max(2, f.Width/64)), 0)
	lo, hi = v.extent(step)
	x := linear{lo, hi, 14, f.Width - 14}
	top, base := textSize+8, f.Height-textSize-10
	mid := base - (base-top)*0.38

	l := letters{width: f.Width, height: f.Height}
	edges := append(append([]float64{lo}, v.Thresholds...), hi)
	for i, name := range v.Zones {
		if i+1 >= len(edges) || !finite(edges[i], edges[i+1]) {
			continue
		}
		x0, x1 := x.in(edges[i]), x.in(edges[i+1])
		words := Shorten(name, textSize, false, x1-x0-8)
		l.add(Muted, Text{At: Point{(x0 + x1) / 2, textSize - 1}, Anchor: Middle, Size: textSize, Words: words})
	}
	if finite(v.Low, v.High) {
		on.Rect(InWindow, x.in(v.Low), mid-9, x.in(v.High)-x.in(v.Low), 18)
	}
	on.Line(Axis, Stroke{Width: 1}, Point{x.y0, base}, Point{x.y1, base})
	for _, t := range v.Thresholds {
		if finite(t) {
			on.Line(Target, Stroke{Width: 1.5}, Point{x.in(t), 2}, Point{x.in(t), base + 5})
			l.add(Label, Text{At: Point{x.in(t), base + textSize + 6}, Anchor: Middle, Size: textSize, Bold: true, Words: number(t)})
		}
	}
	for _, t := range ticks(lo, hi, step) {
		if l.add(Muted, Text{At: Point{x.at(t), base + textSize + 6}, Anchor: Middle, Size: textSize, Words: number(t)}) {
			on.Line(Axis, Stroke{Width: 1}, Point{x.at(t), base}, Point{x.at(t), base + 4})
		}
	}
	for _, s := range v.Spots {
		if finite(s) {
			on.Circle(Seen, Point{x.in(s), base - 6}, 3, 1.25)
		}
	}
	if finite(v.Low, v.High) {
		on.Line(Best, Stroke{Width: 2.5}, Point{x.in(v.Low), mid}, Point{x.in(v.High), mid})
		for _, e := range [2]float64{v.Low, v.High} {
			on.Line(Best, Stroke{Width: 2.5}, Point{x.in(e), mid - 6}, Point{x.in(e), mid + 6})
		}
	}
	if finite(v.Mean) {
		on.Circle(Best, Point{x.in(v.Mean), mid}, 5.5, 0)
		t := Text{At: Point{x.in(v.Mean), mid - 15}, Anchor: Middle, Size: textSize + 2, Bold: true, Halo: true, Words: v.words()}
		// Clear of the thresholds where the mean's zone has room.
		x0, x1 := 2.0, f.Width-2
		for _, th := range v.Thresholds {
			if at := x.in(th); th <= v.Mean {
				x0 = max(x0, at+6)
			} else {
				x1 = min(x1, at-6)
			}
		}
		if b := t.room(); b.x1-b.x0 > x1-x0 {
			x0, x1 = 2, f.Width-2
		}
		l.addIn(Label, t, x0, x1)
	}
	l.draw(on)
}

func (v Interval) words() string {
	if !finite(v.Low, v.High) {
		return number(v.Mean)
	}
	return fmt.Sprintf("%s (%s to %s)", number(v.Mean), number(v.Low), number(v.High))
}

// Rows implements [Drawing].
func (v Interval) Rows() [][]string {
	rows := [][]string{{"What", v.Unit}, {"mean", number(v.Mean)}, {"low", number(v.Low)}, {"high", number(v.High)}}
	for i, t := range v.Thresholds {
		name := "threshold"
		if i+1 < len(v.Zones) {
			name = v.Zones[i+1] + " from"
		}
		rows = append(rows, []string{name, number(t)})
	}
	for i, s := range v.Spots {
		rows = append(rows, []string{fmt.Sprintf("spot %d", i+1), number(s)})
	}
	return rows
}
