package chart

// A Spread is a day of the year as past years have it: 8 of 10 between Early and Late, the middle, and
// the days Low to High between which the middle itself is known. An end that is none is open: in a tenth
// of the years or more the day does not come.
type Spread struct {
	Label               string
	Early, Middle, Late Day
	Low, High           Day
}

// Spreads shows days of the year with their chances, a row each, on one axis of days.
type Spreads struct {
	Frame
	First, Last Day
	Today       Day
	Days        []Spread
}

const spreadRow = 40.0

func (s Spreads) frame() Frame {
	return s.or(480, spreadRow*float64(len(s.Days))+textSize+20)
}

// Draw implements [Drawing].
func (s Spreads) Draw(on Surface) {
	f := s.frame()
	left := 0.
	for _, d := range s.Days {
		left = max(left, min(Width(d.Label, textSize, true), f.Width/4))
	}
	d := days{s.First, max(s.Last, s.First+1), left + 14, f.Width - 16}
	base := f.Height - textSize - 10
	l := letters{width: f.Width, height: f.Height}
	if d.holds(s.Today) {
		on.Line(Today, Stroke{Width: 1.25, Dotted: true}, Point{d.at(s.Today), 2}, Point{d.at(s.Today), base})
	}
	each := (base - 4) / float64(max(1, len(s.Days)))
	for i, sp := range s.Days {
		foot := 4 + each*float64(i+1) - 6
		sp.draw(on, &l, d, foot, min(14, each-textSize-8))
	}
	drawDates(on, &l, d, base)
	l.draw(on)
}

// draw puts one row, its bar standing on a foot.
func (s Spread) draw(on Surface, l *letters, d days, foot, high float64) {
	if !(high > 2) {
		return
	}
	words := foot - high/2 + textSize*0.34
	l.add(Label, Text{At: Point{0, words}, Size: textSize, Bold: true, Words: Shorten(s.Label, textSize, true, d.x0-6)})
	from, to := s.Early, s.Late
	if from == 0 {
		from = d.first
	}
	if to == 0 {
		to = d.last
	}
	if s.Early == 0 && s.Late == 0 {
		l.add(Muted, Text{At: Point{d.x0, words}, Size: textSize, Words: "too few years with one to tell"})
		return
	}
	sp, ok := d.clip(Span{from, to})
	if !ok {
		return
	}
	x0, x1 := d.dawn(sp.From), d.dawn(sp.To+1)
	on.Rect(InWindow, x0, foot-high, x1-x0, high)
	if band, ok := d.clip(Span{s.Low, s.High}); ok {
		on.Rect(Fan50, d.dawn(band.From), foot-high/2, d.dawn(band.To+1)-d.dawn(band.From), high/2)
	}
	mid := foot - high/2
	if s.Late == 0 || s.Late > d.last {
		on.Area(Best, Point{x1 + 2, mid - 5}, Point{x1 + 8, mid}, Point{x1 + 2, mid + 5})
	}
	if s.Early == 0 || s.Early < d.first {
		on.Area(Best, Point{x0 - 2, mid - 5}, Point{x0 - 8, mid}, Point{x0 - 2, mid + 5})
	}
	if s.Middle != 0 && d.holds(s.Middle) {
		at := d.at(s.Middle)
		on.Rect(Best, at-1.5, foot-high-2, 3, high+4)
		l.add(Label, Text{At: Point{at, foot - high - 5}, Anchor: Middle, Size: textSize, Bold: true, Words: s.Middle.String()})
	}
	if s.Early >= d.first {
		l.addIn(Muted, Text{At: Point{x0 - 6, words}, Anchor: End, Size: smallSize, Halo: true, Words: s.Early.String()}, 0, x0-2)
	}
	if s.Late != 0 && s.Late <= d.last {
		l.addIn(Muted, Text{At: Point{x1 + 6, words}, Size: smallSize, Halo: true, Words: s.Late.String()}, x1+2, l.width)
	}
}

// Rows implements [Drawing].
func (s Spreads) Rows() [][]string {
	rows := [][]string{{"What", "1 year in 10 before", "Middle", "1 year in 10 after", "Middle at the earliest", "Middle at the latest"}}
	say := func(d Day) string {
		if d == 0 {
			return "none"
		}
		return d.String()
	}
	for _, d := range s.Days {
		rows = append(rows, []string{d.Label, say(d.Early), say(d.Middle), say(d.Late), say(d.Low), say(d.High)})
	}
	return rows
}
