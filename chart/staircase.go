package chart

import (
	"fmt"
	"math"
)

// A Step is a stage on the way down and the value left there, with the ends between which it may lie;
// a range without a High is not known.
type Step struct {
	Label     string
	Value     float64
	Low, High float64
}

func (s Step) ranged() bool {
	return finite(s.Value, s.Low, s.High) && s.High > 0 && s.Low >= 0 && s.Low <= s.Value && s.Value <= s.High
}

// between writes the range; empty where there is none.
func (s Step) between() string {
	if !s.ranged() {
		return ""
	}
	return number(s.Low) + "–" + number(s.High)
}

// A Staircase shows what is left at each stage, from standing to stored: bars from zero, each topped by
// an open box for what was lost on the way to it, both in figures. A bar's range is a whisker on its
// right edge, clear of the figures, and stands under its name; with Shares each bar also says what part of the first it is.
type Staircase struct {
	Frame
	Steps  []Step
	Unit   string
	Shares bool
}

func (s Staircase) frame() Frame { return s.or(460, 220) }

// share writes a value as a part of the first; empty where it is none.
func (s Staircase) share(i int) string {
	first := s.Steps[0].Value
	if i == 0 || !finite(first, s.Steps[i].Value) || first <= 0 || s.Steps[i].Value < 0 {
		return ""
	}
	return fmt.Sprintf("%.0f %%", 100*s.Steps[i].Value/first)
}

// Draw implements [Drawing].
func (s Staircase) Draw(on Surface) {
	f := s.frame()
	if len(s.Steps) == 0 {
		return
	}
	each := f.Width / float64(len(s.Steps))
	wide := min(each-6, 64)
	fits := func(words string) bool { return words != "" && Width(words, smallSize, false) < each-4 }
	hi, ranges := 0.0, false
	for _, st := range s.Steps {
		if finite(st.Value) {
			hi = max(hi, st.Value)
		}
		if st.ranged() {
			hi, ranges = max(hi, st.High), ranges || fits(st.between())
		}
	}
	top, base := 2*textSize+8, f.Height-textSize-11
	if s.Unit == "" {
		top = textSize + 6
	}
	if ranges {
		base -= smallSize + 3
	}
	y := linear{0, hi, base, top}
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
			topOfBar := at
			inBar := func(foot float64, words string) {
				if foot < base-3 && foot-textSize > topOfBar && Width(words, smallSize, false) < wide {
					l.add(over, Text{At: Point{x, foot}, Anchor: Middle, Size: smallSize, Words: words})
				}
			}
			if s.Shares {
				inBar(base-6, s.share(i))
			}
			if finite(lost) && lost > 0 {
				was := y.in(before)
				on.Line(Rest, Stroke{Width: 1.25, Dotted: true}, Point{x - wide/2, at}, Point{x - wide/2, was}, Point{x + wide/2, was}, Point{x + wide/2, at})
				inBar(at+textSize+6, "−"+number(lost))
				at = was
			}
			if st.ranged() {
				whisker(on, x+wide/2, min(4, (each-wide)/2), y.in(st.Low), y.in(st.High))
				at = min(at, y.in(st.High))
			}
			l.add(Label, Text{At: Point{x, at - 6}, Anchor: Middle, Size: textSize + 2, Bold: true, Words: number(st.Value)})
			before = st.Value
		}
		name := Text{At: Point{x, base + textSize + 6}, Anchor: Middle, Size: textSize}
		name.Words = Shorten(st.Label, textSize, false, each-4)
		l.add(Muted, name)
		if ends := st.between(); fits(ends) {
			l.add(Muted, Text{At: Point{x, base + textSize + smallSize + 9}, Anchor: Middle, Size: smallSize, Words: ends})
		}
	}
	on.Line(Axis, Stroke{Width: 1}, Point{0, base}, Point{f.Width, base})
	l.draw(on)
}

// whisker draws a range with end strokes reaching half to either side.
func whisker(on Surface, x, half, low, high float64) {
	thin := Stroke{Width: 1.25}
	on.Line(Best, thin, Point{x, low}, Point{x, high})
	for _, end := range []float64{low, high} {
		on.Line(Best, thin, Point{x - half, end}, Point{x + half, end})
	}
}

// Rows implements [Drawing].
func (s Staircase) Rows() [][]string {
	unit := s.Unit
	if unit == "" {
		unit = "Left"
	}
	rows := [][]string{{"Stage", unit, "Between", "Lost", "Of the first"}}
	for i, st := range s.Steps {
		lost := ""
		if i > 0 && finite(st.Value, s.Steps[i-1].Value) {
			lost = number(s.Steps[i-1].Value - st.Value)
		}
		rows = append(rows, []string{st.Label, number(st.Value), st.between(), lost, s.share(i)})
	}
	return rows
}
