package chart

// drawDates draws the axis of days beneath a drawing.
func drawDates(on Surface, l *letters, d days, base float64) {
	on.Line(Axis, Stroke{Width: 1}, Point{d.x0, base}, Point{d.x1, base})
	for _, t := range d.dates(textSize) {
		words := Text{At: Point{t.at, base + 6 + textSize}, Anchor: Middle, Size: textSize, Words: t.words}
		if b := words.room(); b.x0 < 0 || b.x1 > l.width {
			continue
		}
		if l.add(Muted, words) {
			on.Line(Axis, Stroke{Width: 1}, Point{t.at, base}, Point{t.at, base + 4})
		}
	}
}

// valueRoom gives the room that the values of an axis take at the left.
func valueRoom(marks []float64) float64 {
	room := 0.0
	for _, v := range marks {
		room = max(room, Width(number(v), textSize, false))
	}
	return room + 10
}

// drawValues draws a faint line for each value of an axis, the value at its left, and the unit above.
func drawValues(on Surface, l *letters, marks []float64, d days, y linear, unit string) {
	for _, v := range marks {
		on.Line(Grid, Stroke{Width: 1}, Point{d.x0, y.at(v)}, Point{d.x1, y.at(v)})
		l.add(Muted, Text{At: Point{d.x0 - 8, y.at(v) + 4.5}, Anchor: End, Size: textSize, Words: number(v)})
	}
	l.add(Muted, Text{At: Point{0, textSize - 2}, Size: textSize, Words: unit})
}

// drawToday draws the dotted line of today and its name above.
func drawToday(on Surface, l *letters, today Day, d days, top, base float64) {
	if !d.holds(today) {
		return
	}
	x := d.at(today)
	on.Line(Today, Stroke{Width: 1.25, Dotted: true}, Point{x, top - 4}, Point{x, base})
	l.add(Label, Text{At: Point{x, top - 8}, Anchor: Middle, Size: textSize, Words: "today"})
}
