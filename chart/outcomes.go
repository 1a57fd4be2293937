package chart

// An Outcome is what was found on a day, and the span in which 8 chances in 10 had lain beforehand.
type Outcome struct {
	Label             string
	Day               Day
	Low, Middle, High float64 // expected
	Found             float64
}

// Inside reports whether it was found within the span.
func (o Outcome) Inside() bool { return o.Low <= o.Found && o.Found <= o.High }

// Outcomes shows what was found against what had been expected, oldest first: a bar for each span with its
// middle marked, and a dot for what was found; a ring where it fell outside.
type Outcomes struct {
	Frame
	Unit string
	All  []Outcome
}

func (c Outcomes) frame() Frame { return c.or(560, 230) }

// Draw implements [Drawing].
func (c Outcomes) Draw(on Surface) {
	f := c.frame()
	if len(c.All) == 0 {
		return
	}
	lo, hi := c.All[0].Low, c.All[0].High
	for _, o := range c.All {
		lo, hi = min(lo, o.Low, o.Found), max(hi, o.High, o.Found)
	}
	step := nice(lo, hi, int(max(2, f.Height/56)), 0)
	lo, hi = spread(lo, hi, step)
	marks := ticks(lo, hi, step)
	top, base := textSize+10, f.Height-textSize-10
	left := valueRoom(marks)
	y := linear{lo, hi, base, top}
	l := letters{width: f.Width, height: f.Height}
	drawValues(on, &l, marks, days{x0: left, x1: f.Width}, y, c.Unit)
	on.Line(Axis, Stroke{Width: 1}, Point{left, base}, Point{f.Width, base})
	each := (f.Width - left) / float64(len(c.All))
	bar := min(12, each*0.6)
	var last Day
	for i, o := range c.All {
		x := left + each*(float64(i)+0.5)
		on.Rect(Fan80, x-bar/2, y.at(o.High), bar, y.at(o.Low)-y.at(o.High))
		on.Line(Best, Stroke{Width: 1.5}, Point{x - bar/2, y.at(o.Middle)}, Point{x + bar/2, y.at(o.Middle)})
		at := Point{x, y.in(o.Found)}
		if o.Inside() {
			on.Circle(Seen, at, min(3.5, bar/2), 0)
		} else {
			on.Circle(Seen, at, min(4, bar/2+1), 2)
		}
		if i == 0 || o.Day != last {
			l.add(Muted, Text{At: Point{x, base + textSize + 6}, Anchor: Middle, Size: textSize, Words: o.Day.String()})
		}
		last = o.Day
	}
	l.draw(on)
}

// Rows implements [Drawing].
func (c Outcomes) Rows() [][]string {
	rows := [][]string{{"Day", "What", "Found, " + c.Unit, "Expected", "1 in 10 under", "1 in 10 over", "Within"}}
	for _, o := range c.All {
		within := "yes"
		if !o.Inside() {
			within = "no"
		}
		rows = append(rows, []string{o.Day.iso(), o.Label, number(o.Found), number(o.Middle), number(o.Low), number(o.High), within})
	}
	return rows
}
