package chart

import "slices"

import "math"

// A Reading is a value found on a day, with the ends of its 8-in-10 interval.
type Reading struct {
	Day              Day
	Value, Low, High float64
}

// A Chance is a value expected on a day, by the shares of chances that lie below it.
type Chance struct {
	Day                     Day
	P10, P25, P50, P75, P90 float64
}

// A Level is a value to reach or stay above, and what to call it.
type Level struct {
	Value float64
	Label string
}

// A Fan is a value over days: readings with their error joined by a line, then what is expected with
// its chances, levels named at the right, dry spells shaded and named.
type Fan struct {
	Frame
	First, Last Day
	Today       Day
	Readings    []Reading
	Ahead       []Chance
	Levels      []Level
	Dry         []Span
	Unit        string // what is measured, above the axis, such as "RFV"
}

func (f Fan) frame() Frame { return f.or(640, 300) }

// The words at the right end of the fan.
const (
	words80 = "8 in 10"
	words50 = "1 in 2"
)

// Draw implements [Drawing].
func (f Fan) Draw(on Surface) {
	fr := f.frame()
	lo, hi := f.extent()
	top, base := 2*textSize+8, fr.Height-textSize-10
	step := nice(lo, hi, int(max(2, (base-top)/28)), 10)
	lo, hi = spread(lo, hi, step)
	y := linear{lo, hi, base, top}
	marks := ticks(lo, hi, step)

	left := valueRoom(marks)
	ends := f.ends(y)
	right := 14.0
	room := fr.Width * 0.34
	for _, e := range ends {
		right = max(right, min(Width(e.words, textSize, e.bold), room)+10)
	}
	d := days{f.First, max(f.Last, f.First+1), left, fr.Width - right}

	l := letters{width: fr.Width, height: fr.Height}
	spells := f.drawDry(on, d, top, base)
	drawValues(on, &l, marks, d, y, f.Unit)
	drawDates(on, &l, d, base)

	f.drawAhead(on, d, y)
	for _, l := range f.Levels {
		if finite(l.Value) {
			on.Line(Target, Stroke{Width: 1.25}, Point{d.x0, y.at(l.Value)}, Point{d.x1, y.at(l.Value)})
		}
	}
	f.drawReadings(on, d, y)
	drawToday(on, &l, f.Today, d, top, base)
	want := make([]float64, len(ends))
	for i, e := range ends {
		want[i] = e.at
	}
	for i, at := range apart(want, textSize+3, top, base) {
		t := Text{At: Point{d.x1 + 8, at + 4.5}, Size: textSize, Bold: ends[i].bold, Words: ends[i].words}
		t.Words = Shorten(t.Words, t.Size, t.Bold, fr.Width-t.At.X)
		if l.add(ends[i].role, t) && math.Abs(at-ends[i].at) > 4 {
			on.Line(Axis, Stroke{Width: 0.75}, Point{d.x1, ends[i].at}, Point{d.x1 + 6, at})
		}
	}
	for _, x := range spells {
		l.addOn(Label, Text{At: Point{X: x}, Anchor: Middle, Size: textSize, Halo: true, Words: "dry spell"}, base-9, base-9-textSize-3)
	}
	l.draw(on)
}

// extent gives the least and greatest value drawn.
func (f Fan) extent() (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	see := func(vs ...float64) {
		for _, v := range vs {
			if finite(v) {
				lo, hi = min(lo, v), max(hi, v)
			}
		}
	}
	for _, r := range f.Readings {
		see(r.Value, r.Low, r.High)
	}
	for _, c := range f.Ahead {
		if c.Day <= f.Last {
			see(c.P10, c.P50, c.P90)
		}
	}
	for _, l := range f.Levels {
		see(l.Value)
	}
	if lo > hi {
		return 0, 100
	}
	if lo == hi {
		return lo - 10, hi + 10
	}
	return lo, hi
}

type ending struct {
	at    float64
	words string
	role  Role
	bold  bool
}

// ends lists what is named at the right margin.
func (f Fan) ends(y linear) []ending {
	var out []ending
	for _, l := range f.Levels {
		if finite(l.Value) && l.Label != "" {
			out = append(out, ending{y.at(l.Value), l.Label, Label, true})
		}
	}
	if c, ok := f.lastAhead(); ok {
		out = append(out, ending{y.in((c.P10 + c.P25) / 2), words80, Muted, false}, ending{y.in((c.P25 + c.P50) / 2), words50, Muted, false})
	}
	return out
}

func (f Fan) lastAhead() (Chance, bool) {
	for _, c := range slices.Backward(f.Ahead) {

		if c.Day <= f.Last && finite(c.P10, c.P25, c.P50, c.P75, c.P90) {
			return c, true
		}
	}
	return Chance{}, false
}

// drawDry shades the dry spells and gives the middles of their names.
func (f Fan) drawDry(on Surface, d days, top, base float64) (middles []float64) {
	for _, s := range f.Dry {
		sp, ok := d.clip(s)
		if !ok {
			continue
		}
		x0, x1 := d.dawn(sp.From), d.dawn(sp.To+1)
		on.Rect(Dry, x0, top, x1-x0, base-top)
		// A bar along the foot, so that the spell shows without its colour.
		on.Rect(Rest, x0, base-3, x1-x0, 3)
		middles = append(middles, (x0+x1)/2)
	}
	return middles
}

func (f Fan) drawAhead(on Surface, d days, y linear) {
	var up, down, up50, down50, mid []Point
	for _, c := range f.Ahead {
		if !d.holds(c.Day) || !finite(c.P10, c.P25, c.P50, c.P75, c.P90) {
			continue
		}
		x := d.at(c.Day)
		up, down = append(up, Point{x, y.in(c.P90)}), append(down, Point{x, y.in(c.P10)})
		up50, down50 = append(up50, Point{x, y.in(c.P75)}), append(down50, Point{x, y.in(c.P25)})
		mid = append(mid, Point{x, y.in(c.P50)})
	}
	on.Area(Fan80, ribbon(up, down)...)
	on.Area(Fan50, ribbon(up50, down50)...)
	on.Line(Best, Stroke{Width: 2.25}, mid...)
}

// ribbon joins an upper and a lower edge into one outline.
func ribbon(up, down []Point) []Point {
	out := append([]Point(nil), up...)
	for _, d := range slices.Backward(down) {
		out = append(out, d)
	}
	return out
}

func (f Fan) drawReadings(on Surface, d days, y linear) {
	var line []Point
	for _, r := range f.Readings {
		if d.holds(r.Day) && finite(r.Value) {
			line = append(line, Point{d.at(r.Day), y.in(r.Value)})
		}
	}
	on.Line(Grown, Stroke{Width: 2}, line...)
	for _, r := range f.Readings {
		if !d.holds(r.Day) || !finite(r.Value) {
			continue
		}
		x := d.at(r.Day)
		if finite(r.Low, r.High) {
			on.Line(Grown, Stroke{Width: 1.5}, Point{x, y.in(r.Low)}, Point{x, y.in(r.High)})
			for _, e := range [2]float64{r.Low, r.High} {
				on.Line(Grown, Stroke{Width: 1.5}, Point{x - 3, y.in(e)}, Point{x + 3, y.in(e)})
			}
		}
		on.Circle(Grown, Point{x, y.in(r.Value)}, 4, 2)
	}
}

// Rows implements [Drawing].
func (f Fan) Rows() [][]string {
	unit := f.Unit
	if unit == "" {
		unit = "Value"
	}
	rows := [][]string{{"Day", "Kind", unit, "Low", "High"}}
	whole := func(v float64) string {
		if !finite(v) {
			return ""
		}
		return number(math.Round(v))
	}
	for _, r := range f.Readings {
		rows = append(rows, []string{r.Day.iso(), "read", whole(r.Value), whole(r.Low), whole(r.High)})
	}
	for _, c := range f.Ahead {
		rows = append(rows, []string{c.Day.iso(), "expected, " + words80, whole(c.P50), whole(c.P10), whole(c.P90)})
	}
	for _, l := range f.Levels {
		rows = append(rows, []string{"", l.Label, whole(l.Value), "", ""})
	}
	for _, s := range f.Dry {
		rows = append(rows, []string{s.words(), "dry spell", "", "", ""})
	}
	return rows
}
