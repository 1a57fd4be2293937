package chart

import "strconv"

// A LifePoint is one value of a life: measured, or reckoned where Guessed.
type LifePoint struct {
	Day     Day
	Value   float64
	Guessed bool
}

// A LifeTrack is one thing followed through the years, on a scale of its own.
type LifeTrack struct {
	Name, Unit string
	Bars       bool // sums of a year, each standing on its year; else values joined by a line
	Points     []LifePoint
	Target     float64 // a value to reach or stay above; none where it is zero
}

// A LifeMark is a day that parts a life: seeded, turned under, limed.
type LifeMark struct {
	Day   Day
	Words string
}

// A LifeLine shows years of a stand or a field, one track above another on one axis of years.
type LifeLine struct {
	Frame
	First, Last, Today Day
	Marks              []LifeMark
	Tracks             []LifeTrack
}

const (
	lifeTrack = 74.0 // the usual height of a track
	lifeHead  = textSize + 9
)

func (v LifeLine) frame() Frame {
	return v.or(640, lifeHead+lifeTrack*float64(len(v.Tracks))+textSize+12)
}

// Draw implements [Drawing].
func (v LifeLine) Draw(on Surface) {
	f := v.frame()
	d := days{v.First, max(v.Last, v.First+1), 10, f.Width - 10}
	base := f.Height - textSize - 10
	l := letters{width: f.Width, height: f.Height}
	if d.holds(v.Today) {
		on.Line(Today, Stroke{Width: 1.25, Dotted: true}, Point{d.at(v.Today), lifeHead - 4}, Point{d.at(v.Today), base})
	}
	for _, m := range v.Marks {
		if !d.holds(m.Day) {
			continue
		}
		on.Line(Cut, Stroke{Width: 1.5}, Point{d.at(m.Day), lifeHead - 4}, Point{d.at(m.Day), base})
		l.addIn(Label, Text{At: Point{d.at(m.Day), textSize - 2}, Anchor: Middle, Size: textSize, Bold: true, Words: m.Words}, 0, f.Width)
	}
	each := (base - lifeHead) / float64(max(1, len(v.Tracks)))
	for i, t := range v.Tracks {
		t.draw(on, &l, d, lifeHead+each*float64(i), each)
	}
	v.years(on, &l, d, base)
	l.draw(on)
}

// years names the years that begin in the drawing.
func (v LifeLine) years(on Surface, l *letters, d days, base float64) {
	on.Line(Axis, Stroke{Width: 1}, Point{d.x0, base}, Point{d.x1, base})
	var all []tick
	for y := v.First.time().Year(); y <= v.Last.time().Year(); y++ {
		from, to := max(Date(y, 1, 1), d.first), min(Date(y, 12, 31), d.last)
		if from <= to {
			all = append(all, tick{(d.dawn(from) + d.dawn(to+1)) / 2, strconv.Itoa(y)})
		}
		if from > d.first && from <= d.last {
			on.Line(Axis, Stroke{Width: 1}, Point{d.dawn(from), base}, Point{d.dawn(from), base + 4})
		}
	}
	for _, t := range thin(all, textSize, 0, l.width) {
		l.add(Muted, Text{At: Point{t.at, base + 6 + textSize}, Anchor: Middle, Size: textSize, Words: t.words})
	}
}

// extent is the scale of a track: bars from none, values with a little room.
func (t LifeTrack) extent() (lo, hi float64, ok bool) {
	for _, p := range t.Points {
		if !finite(p.Value) {
			continue
		}
		if !ok {
			lo, hi, ok = p.Value, p.Value, true
		}
		lo, hi = min(lo, p.Value), max(hi, p.Value)
	}
	if !ok {
		return 0, 1, false
	}
	if t.Target != 0 {
		lo, hi = min(lo, t.Target), max(hi, t.Target)
	}
	if t.Bars {
		lo = min(0, lo)
	}
	if hi-lo < 1e-9 {
		lo, hi = lo-0.5, hi+0.5
	}
	return lo, hi, true
}

// draw puts a track into the room between top and top+high: its name above, its values beneath.
func (t LifeTrack) draw(on Surface, l *letters, d days, top, high float64) {
	foot := top + high - 4
	on.Line(Grid, Stroke{Width: 1}, Point{d.x0, foot}, Point{d.x1, foot})
	name := t.Name
	if t.Unit != "" {
		name += ", " + t.Unit
	}
	l.add(Muted, Text{At: Point{d.x0, top + smallSize}, Size: smallSize, Halo: true, Words: Shorten(name, smallSize, false, d.x1-d.x0)})
	lo, hi, ok := t.extent()
	roof := top + 2*smallSize + 8
	if !ok || roof >= foot-6 {
		return
	}
	y := linear{lo, hi, foot - 6, roof}
	if t.Bars {
		y.y0 = foot
	}
	if t.Target != 0 {
		on.Line(Target, Stroke{Width: 1.25, Dotted: true}, Point{d.x0, y.at(t.Target)}, Point{d.x1, y.at(t.Target)})
	}
	var line []Point
	for _, p := range t.Points {
		if d.holds(p.Day) && finite(p.Value) {
			line = append(line, Point{d.at(p.Day), y.in(p.Value)})
		}
	}
	if !t.Bars && len(line) > 1 {
		on.Line(Best, Stroke{Width: 1.5}, line...)
	}
	for _, p := range t.Points {
		if !d.holds(p.Day) || !finite(p.Value) {
			continue
		}
		at := Point{d.at(p.Day), y.in(p.Value)}
		switch {
		case t.Bars:
			t.bar(on, d, p, at.Y, foot)
			if s, ok := d.clip(yearOf(p.Day)); ok {
				at.X = (d.dawn(s.From) + d.dawn(s.To+1)) / 2
			}
		case p.Guessed:
			on.Circle(Best, at, 3.5, 1.5)
		default:
			on.Circle(Seen, at, 3.5, 0)
		}
		l.addIn(Label, Text{At: Point{at.X, at.Y - 6}, Anchor: Middle, Size: smallSize, Halo: true, Words: number(p.Value)}, 0, l.width)
	}
}

// yearOf is the calendar year of a day.
func yearOf(d Day) Span {
	y := d.time().Year()
	return Span{Date(y, 1, 1), Date(y, 12, 31)}
}

// bar is a year's sum: wide where all of it was measured, half as wide where some was reckoned.
func (t LifeTrack) bar(on Surface, d days, p LifePoint, top, foot float64) {
	s, ok := d.clip(yearOf(p.Day))
	if !ok || !(foot-top > 0.5) {
		return
	}
	x0, x1 := d.dawn(s.From), d.dawn(s.To+1)
	inset := min(6, (x1-x0)/5)
	if p.Guessed {
		inset = (x1 - x0) / 3
		on.Rect(Growing, x0+inset, top, x1-x0-2*inset, foot-top)
		return
	}
	on.Rect(Grown, x0+inset, top, x1-x0-2*inset, foot-top)
}

// Rows implements [Drawing].
func (v LifeLine) Rows() [][]string {
	rows := [][]string{{"Day", "What", "Value", "How"}}
	for _, m := range v.Marks {
		rows = append(rows, []string{m.Day.iso(), m.Words, "", ""})
	}
	for _, t := range v.Tracks {
		for _, p := range t.Points {
			day, how := p.Day.iso(), "measured"
			if t.Bars {
				day = strconv.Itoa(p.Day.time().Year())
			}
			if p.Guessed {
				how = "reckoned"
			}
			rows = append(rows, []string{day, t.Name, number(p.Value) + " " + t.Unit, how})
		}
	}
	return rows
}
