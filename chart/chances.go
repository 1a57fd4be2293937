package chart

import (
	"math"
	"strings"
)

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
	const wide = 560
	return c.or(wide, chanceRow*float64(len(c.Things))+c.head(c.or(wide, 0).Width)+6)
}

// stacked reports whether columns are too narrow for a weekday beside its date: the date then stands under
// it, as letters made smaller could not be read on a phone.
func (c Chances) stacked(width float64) bool {
	return width/float64(max(1, len(c.Days))) < Width("Wed 28 ", textSize, false)
}

// head is the height of the days' names.
func (c Chances) head(width float64) float64 {
	if c.stacked(width) {
		return 2*textSize + 10
	}
	return textSize + 8
}

// Draw implements [Drawing].
func (c Chances) Draw(on Surface) {
	f := c.frame()
	if len(c.Days) == 0 {
		return
	}
	each := f.Width / float64(len(c.Days))
	head := c.head(f.Width)
	l := letters{width: f.Width, height: f.Height}
	for i, d := range c.Days {
		words := []string{d.weekday()}
		if c.stacked(f.Width) {
			words = strings.Fields(words[0])
		}
		for k, w := range words {
			l.add(Muted, Text{At: Point{each * (float64(i) + 0.5), textSize + float64(k)*(textSize+2)}, Anchor: Middle, Size: textSize, Words: w})
		}
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
			l.add(Label, Text{At: Point{x, base - bar - 4}, Anchor: Middle, Size: textSize, Words: number(math.Round(100 * p))})
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
