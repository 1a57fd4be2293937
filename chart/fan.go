package chart

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

	left := 0.0
	for _, v := range marks {
		left = max(left, Width(number(v), textSize, false))
	}
	left += 10
	ends := f.ends(y)
	right := 14.0
	room := fr.Width * 0.34
	for _, e := range ends {
		right = max(right, min(Width(e.words, textSize, e.bold), room)+10)
	}
	d := days{f.First, max(f.Last, f.First+1), left, fr.Width - right}

	spells := f.drawDry(on, d, top, base)
	for _, v := range marks {
		on.Line(Grid, Stroke{Width: 1}, Point{d.x0, y.at(v)}, Point{d.x1, y.at(v)})
		on.Text(Muted, Text{At: Point{left - 8, y.at(v) + 4.5}, Anchor: End, Size: textSize, Words: number(v)})
	}
	on.Text(Muted, held(Text{At: Point{0, textSize - 2}, Size: textSize, Words: f.Unit}, 0, fr.Width))
	drawDates(on, d, base, fr.Width)

	f.drawAhead(on, d, y)
	for _, l := range f.Levels {
		if finite(l.Value) {
			on.Line(Target, Stroke{Width: 1.25}, Point{d.x0, y.at(l.Value)}, Point{d.x1, y.at(l.Value)})
		}
	}
	f.drawReadings(on, d, y)
	for _, t := range spells {
		on.Text(Label, t)
	}
	if d.holds(f.Today) {
		x := d.at(f.Today)
		on.Line(Today, Stroke{Width: 1.25, Dotted: true}, Point{x, top - 4}, Point{x, base})
		on.Text(Label, held(Text{At: Point{x, top - 8}, Anchor: Middle, Size: textSize, Words: "today"}, 0, fr.Width))
	}
	want := make([]float64, len(ends))
	for i, e := range ends {
		want[i] = e.at
	}
	for i, at := range apart(want, textSize+3, top, base) {
		t := Text{At: Point{d.x1 + 8, at + 4.5}, Size: textSize, Bold: ends[i].bold, Words: ends[i].words}
		t.Words = Shorten(t.Words, t.Size, t.Bold, fr.Width-t.At.X)
		on.Text(ends[i].role, t)
		if math.Abs(at-ends[i].at) > 4 {
			on.Line(Axis, Stroke{Width: 0.75}, Point{d.x1, ends[i].at}, Point{d.x1 + 6, at})
		}
	}
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
	for i := len(f.Ahead) - 1; i >= 0; i-- {
		c := f.Ahead[i]
		if c.Day <= f.Last && finite(c.P10, c.P25, c.P50, c.P75, c.P90) {
			return c, true
		}
	}
	return Chance{}, false
}

// drawDry shades the dry spells and gives their names, to be written over all else.
func (f Fan) drawDry(on Surface, d days, top, base float64) (names []Text) {
	sh := shelf{rows: []float64{base - 6, base - 6 - textSize - 3}}
	for _, s := range f.Dry {
		sp, ok := d.clip(s)
		if !ok {
			continue
		}
		x0, x1 := d.dawn(sp.From), d.dawn(sp.To+1)
		on.Rect(Dry, x0, top, x1-x0, base-top)
		// A bar along the foot, so that the spell shows without its colour.
		on.Rect(Rest, x0, base-3, x1-x0, 3)
		t := Text{At: Point{X: (x0 + x1) / 2}, Anchor: Middle, Size: textSize, Halo: true, Words: "dry spell"}
		if t, ok := sh.put(t, d.x0, d.x1); ok {
			names = append(names, t)
		}
	}
	return names
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
	for i := len(down) - 1; i >= 0; i-- {
		out = append(out, down[i])
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

// drawDates draws the axis of days beneath a drawing.
func drawDates(on Surface, d days, base, width float64) {
	on.Line(Axis, Stroke{Width: 1}, Point{d.x0, base}, Point{d.x1, base})
	for _, t := range d.dates(textSize) {
		w := Width(t.words, textSize, false)
		if t.at-w/2 < 0 || t.at+w/2 > width {
			continue
		}
		on.Line(Axis, Stroke{Width: 1}, Point{t.at, base}, Point{t.at, base + 4})
		on.Text(Muted, Text{At: Point{t.at, base + 6 + textSize}, Anchor: Middle, Size: textSize, Words: t.words})
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
