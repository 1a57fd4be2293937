package chart

import "math"

// A ChanceRow is the chances of one thing by day, 0 to 1.
type ChanceRow struct {
	Label string
	By    []float64
}

// Chances shows the chances of several things by day: a row each, a column a day, a bar in each cell as
// tall as the chance, with its percentage above.
type Chances struct {
	Frame
	Days   []Day
	Things []ChanceRow
}

const chanceRow = 72.0

func (c Chances) frame() Frame {
	return c.or(560, chanceRow*float64(len(c.Things))+textSize+14)
}

// Draw implements [Drawing].
func (c Chances) Draw(on Surface) {
	f := c.frame()
	if len(c.Days) == 0 {
		return
	}
	each := f.Width / float64(len(c.Days))
	size := min(textSize, textSize*each/Width("Wed 28 ", textSize, false))
	head := size + 8
	l := letters{width: f.Width, height: f.Height}
	for i, d := range c.Days {
		l.add(Muted, Text{At: Point{each * (float64(i) + 0.5), size}, Anchor: Middle, Size: size, Words: d.weekday()})
	}
	height := (f.Height - head - 6) / float64(max(1, len(c.Things)))
	for k, row := range c.Things {
		top := head + height*float64(k)
		base := top + height - 4
		room := base - top - 2*textSize - 4
		l.add(Label, Text{At: Point{0, top + textSize}, Size: textSize, Bold: true, Words: Shorten(row.Label, textSize, true, f.Width)})
		on.Line(Axis, Stroke{Width: 1}, Point{0, base}, Point{f.Width, base})
		for i, p := range row.By {
			if i >= len(c.Days) || !finite(p) {
				continue
			}
			x := each * (float64(i) + 0.5)
			bar := max(1.5, min(1, p)*room)
			on.Rect(Dry, x-each*0.3, base-bar, each*0.6, bar)
			on.Line(Rest, Stroke{Width: 2}, Point{x - each*0.3, base - bar}, Point{x + each*0.3, base - bar})
			l.add(Label, Text{At: Point{x, base - bar - 4}, Anchor: Middle, Size: size, Words: number(math.Round(100 * p))})
		}
	}
	l.draw(on)
}

// Rows implements [Drawing].
func (c Chances) Rows() [][]string {
	head := []string{"Day"}
	for _, t := range c.Things {
		head = append(head, t.Label+", in 100")
	}
	rows := [][]string{head}
	for i, d := range c.Days {
		row := []string{d.iso()}
		for _, t := range c.Things {
			cell := ""
			if i < len(t.By) && finite(t.By[i]) {
				cell = number(math.Round(100 * t.By[i]))
			}
			row = append(row, cell)
		}
		rows = append(rows, row)
	}
	return rows
}
