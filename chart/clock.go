package chart

import "math"

// A Sum is a heat sum reached at the end of a day.
type Sum struct {
	Day   Day
	Value float64
}

// A Usual is the heat sum of past years on a day: the 1st, 5th and 9th of ten.
type Usual struct {
	Day           Day
	P10, P50, P90 float64
}

// An Event is something that comes at a heat sum, and the day it came or is expected.
type Event struct {
	Day   Day
	Value float64
	Label string
}

// A Clock is this season's heat sum against that of past years, with what comes at which sum: filled
// where it has come by Today, open where it is expected.
type Clock struct {
	Frame
	First, Last Day
	Today       Day
	Season      []Sum
	Past        []Usual
	Events      []Event
	Unit        string
}

func (c Clock) frame() Frame { return c.or(640, 300) }

// Draw implements [Drawing].
func (c Clock) Draw(on Surface) {
	f := c.frame()
	hi := c.greatest()
	top, base := 2*textSize+8, f.Height-textSize-10
	step := nice(0, hi, int(max(2, (base-top)/40)), 0)
	_, hi = spread(0, hi, step)
	y := linear{0, hi, base, top}
	marks := ticks(0, hi, step)
	left := valueRoom(marks)
	const past, usual = "8 years in 10", "usual"
	right := Width(past, textSize, false) + 12
	if len(c.Past) == 0 {
		right = 24
	}
	d := days{c.First, max(c.Last, c.First+1), left, f.Width - right}

	l := letters{width: f.Width, height: f.Height}
	drawValues(on, &l, marks, d, y, c.Unit)
	drawDates(on, &l, d, base)

	var up, down, mid, now []Point
	for _, u := range c.Past {
		if d.holds(u.Day) && finite(u.P10, u.P50, u.P90) {
			x := d.at(u.Day)
			up, down, mid = append(up, Point{x, y.in(u.P90)}), append(down, Point{x, y.in(u.P10)}), append(mid, Point{x, y.in(u.P50)})
		}
	}
	for _, s := range c.Season {
		if d.holds(s.Day) && finite(s.Value) {
			now = append(now, Point{d.at(s.Day), y.in(s.Value)})
		}
	}
	on.Area(Past80, ribbon(up, down)...)
	on.Line(Axis, Stroke{Width: 1.5}, mid...)
	on.Line(Grown, Stroke{Width: 2.75}, now...)
	drawToday(on, &l, c.Today, d, top, base)
	if n := len(mid); n > 0 {
		at := apart([]float64{mid[n-1].Y, (mid[n-1].Y + up[n-1].Y) / 2}, textSize+3, top, base)
		for i, words := range []string{usual, past} {
			l.add(Muted, Text{At: Point{mid[n-1].X + 8, at[i] + 4.5}, Size: textSize, Words: words})
		}
	}
	c.drawEvents(on, &l, d, y)
	l.draw(on)
}

func (c Clock) greatest() float64 {
	hi := 1.0
	see := func(d Day, v float64) {
		if d <= c.Last && finite(v) {
			hi = max(hi, v)
		}
	}
	for _, u := range c.Past {
		see(u.Day, u.P90)
	}
	for _, s := range c.Season {
		see(s.Day, s.Value)
	}
	for _, e := range c.Events {
		see(e.Day, e.Value)
	}
	return hi
}

// drawEvents marks events and names them: to the left of the rising line where there is room, else to
// the right beneath it.
func (c Clock) drawEvents(on Surface, l *letters, d days, y linear) {
	type name struct {
		text Text
		dot  Point
	}
	var sides [2][]name
	for _, e := range c.Events {
		if !d.holds(e.Day) || !finite(e.Value) {
			continue
		}
		dot := Point{d.at(e.Day), y.in(e.Value)}
		if e.Day <= c.Today {
			on.Circle(Seen, dot, 4.5, 0)
		} else {
			on.Circle(Seen, dot, 4, 2)
		}
		t := Text{At: Point{dot.X - 9, dot.Y - 6}, Anchor: End, Size: textSize, Halo: true, Words: e.Label + ", " + e.Day.String()}
		w := Width(t.Words, t.Size, false)
		side := 0
		if dot.X-10-w < d.x0+2 && l.width-dot.X > dot.X-d.x0 {
			t.At.X, t.At.Y, t.Anchor, side = dot.X+9, dot.Y+7, Start, 1
			t.Words = Shorten(t.Words, t.Size, false, l.width-t.At.X)
		} else {
			t.Words = Shorten(t.Words, t.Size, false, t.At.X-d.x0-2)
		}
		sides[side] = append(sides[side], name{t, dot})
	}
	for _, names := range sides {
		want := make([]float64, len(names))
		for i, n := range names {
			want[i] = n.text.At.Y
		}
		for i, at := range apart(want, textSize+4, y.y1+8, y.y0-8) {
			t := names[i].text
			t.At.Y = at + 4.5
			if l.add(Label, t) && math.Abs(at-want[i]) > 6 {
				edge := t.room().x1 + 1
				if t.Anchor == Start {
					edge = t.room().x0 - 1
				}
				on.Line(Axis, Stroke{Width: 0.75}, Point{edge, at}, names[i].dot)
			}
		}
	}
}

// smallSum is the sum below which tenths are told: inches of rain, not degree-days.
const smallSum = 100

// Rows implements [Drawing].
func (c Clock) Rows() [][]string {
	rows := [][]string{{"Day", "This season", "1 year in 10 below", "Usual", "1 year in 10 above", "What comes"}}
	sums := map[Day]float64{}
	for _, s := range c.Season {
		sums[s.Day] = s.Value
	}
	places := 1.
	if c.greatest() < smallSum {
		places = 10
	}
	whole := func(v float64) string { return number(math.Round(v*places) / places) }
	// Weeks are enough to read; events stand on their own days.
	for i, u := range c.Past {
		if i%7 != 0 {
			continue
		}
		now := ""
		if v, ok := sums[u.Day]; ok {
			now = whole(v)
		}
		rows = append(rows, []string{u.Day.iso(), now, whole(u.P10), whole(u.P50), whole(u.P90), ""})
	}
	for _, e := range c.Events {
		rows = append(rows, []string{e.Day.iso(), whole(e.Value), "", "", "", e.Label})
	}
	return rows
}
