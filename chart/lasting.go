package chart

// A Lasts is how long one thing lasts: the days on which it runs out in the low, middle and high case.
type Lasts struct {
	Label             string
	Low, Middle, High Day
}

// Lasting shows until when stocks last against the day by which they are wanted: a bar from today to the
// day on which each runs out, lighter from the low case on, with the range as a whisker; the day by which
// stands as an upright stroke over each. A bar that goes beyond the axis ends in a point.
type Lasting struct {
	Frame
	Today, Until Day
	UntilSays    string // what comes on that day
	All          []Lasts
}

const lastsTall = 44.0

func (c Lasting) frame() Frame {
	f := c.or(560, 0)
	if !(f.Height > 0) {
		f.Height = lastsTall*float64(max(1, len(c.All))) + 2*textSize + 34
	}
	return f
}

// Draw implements [Drawing].
func (c Lasting) Draw(on Surface) {
	f := c.frame()
	if len(c.All) == 0 || c.Today == 0 {
		return
	}
	const least, most = 42, 400 // days shown
	last := c.Today + least
	for _, a := range c.All {
		last = max(last, a.Middle+7)
	}
	last = min(max(last, c.Until+14), c.Today+most)
	d := days{c.Today, last, 4, f.Width - 12}
	top, base := textSize+12, f.Height-textSize-12
	l := letters{width: f.Width, height: f.Height}
	if c.Until > c.Today && c.Until <= last {
		x := d.dawn(c.Until)
		l.add(Label, Text{At: Point{x, textSize - 1}, Anchor: Middle, Size: textSize, Words: c.UntilSays})
	}
	x := func(day Day) float64 { return min(d.dawn(max(day, c.Today)), d.x1) }
	each := (base - top) / float64(len(c.All))
	for i, a := range c.All {
		foot := top + each*float64(i)
		l.add(Label, Text{At: Point{d.x0, foot + textSize}, Size: textSize, Halo: true, Words: a.Label})
		y, tall := foot+textSize+6, min(12, each-textSize-10)
		low, middle, high := max(a.Low, c.Today), max(a.Middle, c.Today), max(a.High, c.Today)
		if tall < 3 {
			continue
		}
		if low > c.Today {
			on.Rect(Grown, d.x0, y, x(min(low, middle))-d.x0, tall)
		}
		if middle > low {
			on.Rect(Growing, x(low), y, x(middle)-x(low), tall)
		}
		if a.Low != 0 && a.High > a.Low && high > c.Today {
			mid, thin := y+tall/2, Stroke{Width: 1.25}
			on.Line(Best, thin, Point{x(low), mid}, Point{x(high), mid})
			on.Line(Best, thin, Point{x(low), mid - 4}, Point{x(low), mid + 4})
			if high <= last {
				on.Line(Best, thin, Point{x(high), mid - 4}, Point{x(high), mid + 4})
			}
		}
		if c.Until > c.Today && c.Until <= last {
			on.Line(Target, Stroke{Width: 2}, Point{d.dawn(c.Until), y - 4}, Point{d.dawn(c.Until), y + tall + 4})
		}
		if high > last {
			mid := y + tall/2
			on.Area(Best, Point{d.x1 + 2, mid - 5}, Point{d.x1 + 8, mid}, Point{d.x1 + 2, mid + 5})
		}
	}
	drawDates(on, &l, d, base)
	l.draw(on)
}

// Rows implements [Drawing].
func (c Lasting) Rows() [][]string {
	rows := [][]string{{"What", "Runs out", "In the low case", "In the high case", "Wanted until"}}
	for _, a := range c.All {
		rows = append(rows, []string{a.Label, a.Middle.iso(), a.Low.iso(), a.High.iso(), c.Until.iso()})
	}
	return rows
}
