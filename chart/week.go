package chart

import "math"

// A Forecast is one day ahead; what was not forecast is NaN.
type Forecast struct {
	Day       Day
	High, Low float64 // F
	RainIn    float64 // inches
	Dry       bool    // part of a run of drying days
	Chance    float64 // of rain, 0-1
}

// A Week shows the days ahead: rain as bars with their inches, highs over lows over the chance of rain,
// drying days shaded and with a bar above.
type Week struct {
	Frame
	Days []Forecast
}

func (w Week) frame() Frame { return w.or(364, 112) }

// Draw implements [Drawing].
func (w Week) Draw(on Surface) {
	f := w.frame()
	if len(w.Days) == 0 {
		return
	}
	each := f.Width / float64(len(w.Days))
	size := min(textSize, textSize*each/Width("Wed 28 ", textSize, false))
	base := f.Height - 3*size - 12
	l := letters{width: f.Width, height: f.Height}
	for i, d := range w.Days {
		x := each * (float64(i) + 0.5)
		if d.Dry {
			on.Rect(Dry, x-each/2+1, 0, each-2, f.Height)
			on.Rect(Rest, x-each/2+1, 0, each-2, 3)
		}
		l.add(Muted, Text{At: Point{x, size + 5}, Anchor: Middle, Size: size, Words: d.Day.weekday()})
		top := size + 9
		if finite(d.RainIn) && d.RainIn > 0 {
			// An inch or more fills the column.
			h := max(1.5, min(d.RainIn, 1)*(base-top-size))
			on.Rect(Rain, x-5, base-h, 10, h)
			if d.RainIn >= 0.05 {
				l.add(Label, Text{At: Point{x, base - h - 3}, Anchor: Middle, Size: size - 1, Words: number(math.Round(d.RainIn*10)/10) + "″"})
			}
		}
		l.add(Label, Text{At: Point{x, base + size + 1}, Anchor: Middle, Size: size, Bold: true, Words: number(math.Round(d.High))})
		l.add(Muted, Text{At: Point{x, base + 2*size + 3}, Anchor: Middle, Size: size, Words: number(math.Round(d.Low))})
		l.add(Rain, Text{At: Point{x, base + 3*size + 6}, Anchor: Middle, Size: size - 1, Words: percent(d.Chance)})
	}
	on.Line(Axis, Stroke{Width: 1}, Point{0, base}, Point{f.Width, base})
	l.draw(on)
}

// percent writes a share in whole percent.
func percent(share float64) string {
	if !finite(share) {
		return "–"
	}
	return number(math.Round(100*share)) + " %"
}

// Rows implements [Drawing].
func (w Week) Rows() [][]string {
	rows := [][]string{{"Day", "High, °F", "Low, °F", "Chance of rain", "Rain, in", "Drying"}}
	for _, d := range w.Days {
		dry := ""
		if d.Dry {
			dry = "yes"
		}
		rows = append(rows, []string{d.Day.iso(), number(d.High), number(d.Low), percent(d.Chance), number(d.RainIn), dry})
	}
	return rows
}
