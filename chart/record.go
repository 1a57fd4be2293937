package chart

import (
	"strconv"
	"time"
)

// A RecordMonth is how much of one month's days is known: observed, and besides filled, as shares.
type RecordMonth struct {
	Days             int // none: the month is not part of the record
	Observed, Filled float64
	Failed           int // days with a value that failed a check
}

// A RecordYear is one year of a record.
type RecordYear struct {
	Year   int
	Months [12]RecordMonth
}

// A Record shows how whole a record is, a year a column and a month a row. The bar of a month is as high
// as its days were observed: whole, three quarters from nine days in ten, half from one in two, a quarter
// for fewer. A narrow cap on it stands for days that were filled, a dot for values that failed a check.
type Record struct {
	Frame
	Years []RecordYear
}

func (r Record) frame() Frame { return r.or(640, 212) }

// widestYear keeps the columns of a short record from growing out of proportion.
const widestYear = 40.0

// quarters is the height of a bar in quarters of its row.
func quarters(share float64) float64 {
	switch {
	case !(share > 0):
		return 0
	case share > 0.9999:
		return 4
	case share >= 0.9:
		return 3
	case share >= 0.5:
		return 2
	}
	return 1
}

// Draw implements [Drawing].
func (r Record) Draw(on Surface) {
	f := r.frame()
	left := Width("May", smallSize, false) + 8
	base := f.Height - textSize - 10
	row := base / 12
	l := letters{width: f.Width, height: f.Height}
	for m := time.January; m <= time.December; m++ {
		foot := row * float64(m)
		l.add(Muted, Text{At: Point{0, foot - (row-smallSize*rise)/2 + 0.5}, Size: smallSize, Words: m.String()[:3]})
	}
	n := len(r.Years)
	if n == 0 {
		l.draw(on)
		return
	}
	each := min(widestYear, (f.Width-left-2)/float64(n))
	x := func(i int) float64 { return left + each*float64(i) }
	gap := 0.
	if each >= 6 {
		gap = 1
	}
	for m := range 12 {
		foot := row * float64(m+1)
		full := row - 3
		on.Line(Grid, Stroke{Width: 1}, Point{left, foot}, Point{x(n), foot})
		for i := 0; i < n; {
			high := quarters(r.Years[i].Months[m].Observed)
			run := i + 1
			for run < n && quarters(r.Years[run].Months[m].Observed) == high {
				run++
			}
			if high > 0 {
				on.Rect(Growing, x(i), foot-full*high/4, x(run)-x(i)-gap, full*high/4)
			}
			i = run
		}
		for i, y := range r.Years {
			month := y.Months[m]
			low, high := quarters(month.Observed), quarters(month.Observed+month.Filled)
			if high > low {
				on.Rect(Rest, x(i)+each/4, foot-full*high/4, each/2, full*(high-low)/4)
			}
			if month.Failed > 0 {
				on.Circle(Seen, Point{x(i) + each/2, foot - full/2}, max(0.75, min(2, each/4)), 0)
			}
		}
	}
	r.drawYears(on, &l, x, base)
	l.draw(on)
}

// drawYears names years at an even step.
func (r Record) drawYears(on Surface, l *letters, x func(int) float64, base float64) {
	need := Width("2000", textSize, false) + 12
	step := 1
	for _, s := range []int{1, 2, 5, 10, 20, 50, 100} {
		step = s
		if (x(1)-x(0))*float64(s) >= need {
			break
		}
	}
	for i, y := range r.Years {
		if y.Year%step != 0 {
			continue
		}
		at := (x(i) + x(i+1)) / 2
		if l.add(Muted, Text{At: Point{at, base + 6 + textSize}, Anchor: Middle, Size: textSize, Words: strconv.Itoa(y.Year)}) {
			on.Line(Axis, Stroke{Width: 1}, Point{at, base}, Point{at, base + 4})
		}
	}
}

// Rows implements [Drawing].
func (r Record) Rows() [][]string {
	head := []string{"Year"}
	for m := time.January; m <= time.December; m++ {
		head = append(head, m.String()[:3])
	}
	rows := [][]string{head}
	for _, y := range r.Years {
		row := []string{strconv.Itoa(y.Year)}
		for _, m := range y.Months {
			cell := ""
			if m.Days > 0 && finite(m.Observed) {
				cell = strconv.Itoa(int(100*m.Observed)) + " %" // rounded down: 100 means every day
			}
			row = append(row, cell)
		}
		rows = append(rows, row)
	}
	return rows
}
