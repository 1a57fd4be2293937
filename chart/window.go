package chart

// A Window is the tiny drawing in a line of a round: the days in which to act as a band, the middle half of
// the chances as a darker one, the best day as an upright bar, today as a dotted line, weeks as ticks.
// Bars with the same First and Last compare by place.
type Window struct {
	Frame
	First, Last       Day // the axis
	Early, Best, Late Day
	Likely            Span // where one chance in two lies; none is not drawn
	Today             Day
}

func (w Window) frame() Frame { return w.or(150, 20) }

// Draw implements [Drawing].
func (w Window) Draw(on Surface) {
	f := w.frame()
	d := days{w.First, max(w.Last, w.First+1), 4, f.Width - 6}
	base := f.Height - 5
	on.Line(Axis, Stroke{Width: 1}, Point{d.x0, base}, Point{d.x1, base})
	for day := d.first; day <= d.last; day += 7 {
		on.Line(Axis, Stroke{Width: 1}, Point{d.dawn(day), base}, Point{d.dawn(day), base + 3})
	}
	if sp, ok := d.clip(Span{w.Early, w.Late}); ok {
		on.Rect(InWindow, d.dawn(sp.From), 3, d.dawn(sp.To+1)-d.dawn(sp.From), base-3)
	}
	if sp, ok := d.clip(w.Likely); ok {
		on.Rect(Fan50, d.dawn(sp.From), base-(base-3)/2, d.dawn(sp.To+1)-d.dawn(sp.From), (base-3)/2)
	}
	if d.holds(w.Best) {
		on.Rect(Best, d.at(w.Best)-1.5, 1, 3, base-0.5)
	}
	// What lies beyond the axis is pointed at.
	mid := (base + 2) / 2
	if w.Late > d.last {
		on.Area(Best, Point{d.x1 + 1, mid - 4}, Point{d.x1 + 5, mid}, Point{d.x1 + 1, mid + 4})
	}
	if w.Early != 0 && w.Early < d.first {
		on.Area(Best, Point{d.x0 - 0.5, mid - 4}, Point{d.x0 - 4, mid}, Point{d.x0 - 0.5, mid + 4})
	}
	if d.holds(w.Today) {
		x := d.at(w.Today)
		on.Line(Today, Stroke{Width: 1.5, Dotted: true}, Point{x, 0}, Point{x, f.Height})
	}
}

// Rows implements [Drawing].
func (w Window) Rows() [][]string {
	row := []string{w.Early.iso(), w.Best.iso(), w.Late.iso(), "", ""}
	if !w.Likely.none() {
		row[3], row[4] = w.Likely.From.iso(), w.Likely.To.iso()
	}
	return [][]string{{"Earliest", "Best", "Latest", "Likely from", "Likely to"}, row}
}
