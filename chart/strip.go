package chart

import (
	"fmt"
	"time"
)

// A Cycle is one growth of a stand, from green-up or a cut to the next cut: height on days, as a share
// of the tallest the drawing should show (0 to 1).
type Cycle []Height

// A Height is how tall a stand is on a day, 0 to 1.
type Height struct {
	Day   Day
	Share float64
}

// A Strip is one stand's year: humps of growth, dark up to today and pale after; windows for cuts with
// their best day; the rest before frost along the base; dots for visits, ticks for cuts, a star for
// frost and a dotted line for today. Small it is a row among others; with Labels it stands alone.
type Strip struct {
	Frame
	First, Last Day // zero for 1 March to 30 November of Today's year
	Today       Day
	Cycles      []Cycle
	Windows     []CutWindow
	Rest        Span
	Frost       Day
	Visits      []Day
	Cuts        []Day
	Months      bool // names of the months above; always with Labels
	Labels      bool // dates beneath
}

func (s Strip) frame() Frame {
	if s.Labels {
		if s.Width > 0 && s.Width < narrow {
			return s.or(350, 165)
		}
		return s.or(1100, 150)
	}
	return s.or(270, 40)
}

func (s Strip) scale(x0, x1 float64) days {
	first, last := s.First, s.Last
	y := s.Today.time().Year()
	if first == 0 {
		first = Date(y, time.March, 1)
	}
	if last <= first {
		last = Date(first.time().Year(), time.November, 30)
	}
	return days{first, max(last, first+1), x0, x1}
}

// Draw implements [Drawing].
func (s Strip) Draw(on Surface) {
	f := s.frame()
	d := s.scale(1, f.Width-1)
	top, base := 2.0, f.Height-8
	if s.Months || s.Labels {
		top = smallSize + 6
	}
	if s.Labels {
		base = f.Height - 17*s.labelRows() - 14
	}
	words := letters{width: f.Width, height: f.Height}
	if s.Months || s.Labels {
		drawMonths(on, &words, d, top, base)
	}
	y := linear{0, 1, base, top + (base-top)*0.12}

	for _, w := range s.Windows {
		if sp, ok := d.clip(Span{w.Early, w.Late}); ok {
			on.Rect(InWindow, d.dawn(sp.From), top, d.dawn(sp.To+1)-d.dawn(sp.From), base-top)
		}
	}
	for _, c := range s.Cycles {
		past, ahead := c.split(s.Today)
		on.Area(Growing, ahead.outline(d, y)...)
		on.Area(Grown, past.outline(d, y)...)
	}
	on.Line(Rest, Stroke{Width: 1.5}, Point{d.x0, base}, Point{d.x1, base})
	if sp, ok := d.clip(s.Rest); ok {
		h := max(4, (base-top)*0.09)
		on.Rect(Rest, d.dawn(sp.From), base-h, d.dawn(sp.To+1)-d.dawn(sp.From), h+0.75)
	}
	for _, w := range s.Windows {
		if d.holds(w.Best) {
			wide := min(max(2.5, d.width()), 4)
			on.Rect(Best, d.at(w.Best)-wide/2, top, wide, base-top)
		}
	}
	size := 1.0
	if s.Labels {
		size = 1.45
	}
	for _, c := range s.Cuts {
		if d.holds(c) {
			x := held1(d.at(c), d.x0+3*size, d.x1-3*size)
			on.Line(Cut, Stroke{Width: 1.5 * size}, Point{x - 2.5*size, base + 4.5*size}, Point{x + 2.5*size, base - 5*size})
		}
	}
	for _, v := range s.Visits {
		if d.holds(v) {
			on.Circle(Seen, Point{held1(d.at(v), d.x0+2*size, d.x1-2*size), base + 4*size}, 2.2*size, 0)
		}
	}
	if d.holds(s.Frost) {
		at := Point{held1(d.at(s.Frost), d.x0+5*size, d.x1-5*size), base - 8*size - 4}
		on.Circle(Paper, at, 5.5*size, 0) // so that it is seen on the growth it hit
		star(on, Frost, at, 4*size)
	}
	if d.holds(s.Today) {
		x := d.at(s.Today)
		on.Line(Today, Stroke{Width: 1.25, Dotted: true}, Point{x, top - 2}, Point{x, base})
	}
	if s.Labels {
		s.label(&words, d, base)
	}
	words.draw(on)
}

// narrow is the width below which dates take three rows in place of two.
const narrow = 600

func (s Strip) labelRows() float64 {
	if s.Width > 0 && s.Width < narrow {
		return 3
	}
	return 2
}

// label puts dates beneath the base: the next window, today, later windows, the rest, frost, and what
// has been cut, as far as there is room.
func (s Strip) label(l *letters, d days, base float64) {
	var rows []float64
	for i := range int(s.labelRows()) {
		rows = append(rows, base+24+17*float64(i))
	}
	put := func(r Role, day Day, bold bool, words string) {
		if d.holds(day) {
			l.addOn(r, Text{At: Point{X: d.at(day)}, Anchor: Middle, Size: textSize, Bold: bold, Words: words}, rows...)
		}
	}
	for i, w := range s.Windows {
		words := w.Best.String()
		if w.Label != "" {
			words = w.Label + " " + words
		}
		put(Label, w.Best, true, words)
		if i == 0 {
			put(Label, s.Today, false, "today")
		}
	}
	if len(s.Windows) == 0 {
		put(Label, s.Today, false, "today")
	}
	if sp, ok := d.clip(s.Rest); ok {
		put(Label, (sp.From+sp.To)/2, false, "rest "+s.Rest.words())
	}
	put(Label, s.Frost, false, "frost "+s.Frost.String())
	for _, c := range s.Cuts {
		put(Muted, c, false, "cut "+c.String())
	}
}

// split cuts a cycle at the noon of a day.
func (c Cycle) split(today Day) (past, ahead Cycle) {
	for i, h := range c {
		if h.Day <= today {
			past = append(past, h)
			continue
		}
		if i > 0 && len(ahead) == 0 && c[i-1].Day < today {
			before := c[i-1]
			share := float64(today-before.Day) / float64(h.Day-before.Day)
			at := Height{today, before.Share + share*(h.Share-before.Share)}
			past = append(past, at)
			ahead = append(ahead, at)
		} else if i > 0 && len(ahead) == 0 {
			ahead = append(ahead, c[i-1])
		}
		ahead = append(ahead, h)
	}
	return past, ahead
}

// outline gives the hump of a cycle, cut at the edges of the drawing.
func (c Cycle) outline(d days, y linear) []Point {
	var pts []Point
	var before Point
	started := false
	for _, h := range c {
		if !finite(h.Share) {
			continue
		}
		p := Point{d.at(h.Day), y.in(h.Share)}
		if started && p.X > before.X {
			from := before
			at := func(x float64) Point {
				x = held1(x, d.x0, d.x1)
				return Point{x, from.Y + (p.Y-from.Y)*(x-from.X)/(p.X-from.X)}
			}
			if p.X >= d.x0 && before.X <= d.x1 {
				if len(pts) == 0 {
					pts = append(pts, at(before.X))
				}
				pts = append(pts, at(p.X))
			}
		}
		before, started = p, true
	}
	if len(pts) < 2 {
		return nil
	}
	return append(append([]Point{{pts[0].X, y.y0}}, pts...), Point{pts[len(pts)-1].X, y.y0})
}

// held1 keeps a coordinate between lo and hi.
func held1(x, lo, hi float64) float64 { return min(max(x, lo), hi) }

// star draws six short rays, the mark of frost.
func star(on Surface, r Role, at Point, size float64) {
	for _, v := range [][2]float64{{0, 1}, {0.87, 0.5}, {0.87, -0.5}} {
		on.Line(r, Stroke{Width: 1.5}, Point{at.X - v[0]*size, at.Y - v[1]*size}, Point{at.X + v[0]*size, at.Y + v[1]*size})
	}
}

// drawMonths writes the months above top and faint lines where they start.
func drawMonths(on Surface, l *letters, d days, top, base float64) {
	middle, starts := d.months()
	for _, x := range starts {
		on.Line(Grid, Stroke{Width: 1}, Point{x, top - 4}, Point{x, base})
	}
	for _, m := range middle {
		l.add(Muted, Text{At: Point{m.at, smallSize - 1}, Anchor: Middle, Size: smallSize, Words: m.words})
	}
}

// Rows implements [Drawing].
func (s Strip) Rows() [][]string {
	rows := [][]string{{"What", "From", "Best", "To"}}
	for _, c := range s.Cuts {
		rows = append(rows, []string{"cut", c.iso(), "", c.iso()})
	}
	for i, w := range s.Windows {
		name := w.Label
		if name == "" {
			name = fmt.Sprintf("window %d", i+1)
		}
		rows = append(rows, []string{name, w.Early.iso(), w.Best.iso(), w.Late.iso()})
	}
	if !s.Rest.none() {
		rows = append(rows, []string{"rest before frost", s.Rest.From.iso(), "", s.Rest.To.iso()})
	}
	if s.Frost != 0 {
		rows = append(rows, []string{"frost", s.Frost.iso(), "", s.Frost.iso()})
	}
	for _, v := range s.Visits {
		rows = append(rows, []string{"visit", v.iso(), "", v.iso()})
	}
	return rows
}

// Months is the row of months that stands above a list of strips of the same width.
type Months struct {
	Frame
	First, Last Day
}

func (m Months) frame() Frame { return m.or(270, 16) }

// Draw implements [Drawing].
func (m Months) Draw(on Surface) {
	f := m.frame()
	words := letters{width: f.Width, height: f.Height}
	drawMonths(on, &words, days{m.First, max(m.Last, m.First+1), 1, f.Width - 1}, f.Height, f.Height)
	words.draw(on)
}

// Rows implements [Drawing].
func (m Months) Rows() [][]string {
	return [][]string{{"From", "To"}, {m.First.iso(), m.Last.iso()}}
}
