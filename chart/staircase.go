package chart

import "math"

// A Step is a stage on the way down and the value left there.
type Step struct {
	Label string
	Value float64
}

// A Staircase shows what is left at each stage, from standing to stored: bars from zero, each topped by
// an open box for what was lost on the way to it, with both in figures.
type Staircase struct {
	Frame
	Steps []Step
	Unit  string
}

func (s Staircase) frame() Frame { return s.or(460, 220) }

// Draw implements [Drawing].
func (s Staircase) Draw(on Surface) {
	f := s.frame()
	if len(s.Steps) == 0 {
		return
	}
	hi := 0.0
	for _, st := range s.Steps {
		if finite(st.Value) {
			hi = max(hi, st.Value)
		}
	}
	top, base := 2*textSize+8, f.Height-textSize-11
	if s.Unit == "" {
		top = textSize + 6
	}
	y := linear{0, hi, base, top}
	each := f.Width / float64(len(s.Steps))
	wide := min(each-6, 64)
	before := math.NaN()
	l := letters{width: f.Width, height: f.Height}
	l.add(Muted, Text{At: Point{0, textSize - 2}, Size: smallSize, Words: s.Unit})
	for i, st := range s.Steps {
		x := each * (float64(i) + 0.5)
		if finite(st.Value) && st.Value >= 0 {
			at := y.in(st.Value)
			role, over := Growing, Label
			if i == len(s.Steps)-1 {
				role, over = Grown, Paper
			}
			on.Rect(role, x-wide/2, at, wide, base-at)
			lost := before - st.Value
			if finite(lost) && lost > 0 {
				was := y.in(before)
				on.Line(Rest, Stroke{Width: 1.25, Dotted: true}, Point{x - wide/2, at}, Point{x - wide/2, was}, Point{x + wide/2, was}, Point{x + wide/2, at})
				loss := Text{At: Point{x, at + textSize + 6}, Anchor: Middle, Size: smallSize, Words: "−" + number(lost)}
				if base-at > textSize+12 && Width(loss.Words, loss.Size, false) < wide {
					l.add(over, loss)
				}
				at = was
			}
			l.add(Label, Text{At: Point{x, at - 6}, Anchor: Middle, Size: textSize + 2, Bold: true, Words: number(st.Value)})
			before = st.Value
		}
		name := Text{At: Point{x, base + textSize + 6}, Anchor: Middle, Size: textSize}
		name.Words = Shorten(st.Label, textSize, false, each-4)
		l.add(Muted, name)
	}
	on.Line(Axis, Stroke{Width: 1}, Point{0, base}, Point{f.Width, base})
	l.draw(on)
}

// Rows implements [Drawing].
func (s Staircase) Rows() [][]string {
	unit := s.Unit
	if unit == "" {
		unit = "Left"
	}
	rows := [][]string{{"Stage", unit, "Lost"}}
	for i, st := range s.Steps {
		lost := ""
		if i > 0 && finite(st.Value, s.Steps[i-1].Value) {
			lost = number(s.Steps[i-1].Value - st.Value)
		}
		rows = append(rows, []string{st.Label, number(st.Value), lost})
	}
	return rows
}
