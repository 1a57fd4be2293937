package outlook

import (
	"cmp"
	"math"
	"slices"

	"haywarden/agronomy/unit"
)

// Days is a distribution of days: when an event comes, path by path, each with its weight. On a path
// where it does not come in time its day is +Inf.
type Days struct {
	at []chanced // by day
}

type chanced struct{ day, weight float64 }

// OnDay is the distribution of an event whose day is known.
func OnDay(d unit.Day) Days { return Days{[]chanced{{float64(d), 1}}} }

// DaysOf is a distribution of days that are equally likely.
func DaysOf(days ...float64) Days {
	d := Days{make([]chanced, 0, len(days))}
	for _, v := range days {
		d.Add(v, 1/float64(len(days)))
	}
	return d.sorted()
}

// Add puts a day in; call [Days.Sort] when all are in.
func (d *Days) Add(day, weight float64) { d.at = append(d.at, chanced{day, weight}) }

// Sort puts the days in order.
func (d *Days) Sort() { *d = d.sorted() }

func (d Days) sorted() Days {
	slices.SortFunc(d.at, func(a, b chanced) int { return cmp.Compare(a.day, b.day) })
	return d
}

// Paths is how many paths there are.
func (d Days) Paths() int { return len(d.at) }

// roundingRoom keeps a share that sums of weights miss by their rounding alone.
const roundingRoom = 1e-9

// Quantile returns the day by which more than share p of the paths have come to the event; not ok where
// they have not within the time looked ahead.
func (d Days) Quantile(p float64) (unit.Day, bool) {
	if len(d.at) == 0 {
		return 0, false
	}
	v := d.at[len(d.at)-1].day
	var sum float64
	for _, c := range d.at {
		if sum += c.weight; sum > p+roundingRoom {
			v = c.day
			break
		}
	}
	if math.IsInf(v, 1) {
		return 0, false
	}
	return unit.Day(math.Floor(v)), true
}

// By is the share of paths that have come to the event by a day.
func (d Days) By(day unit.Day) float64 {
	var sum float64
	for _, c := range d.at {
		if c.day > float64(day) {
			break
		}
		sum += c.weight
	}
	return min(1, sum)
}

// Window is a span of days with its middle.
type Window struct{ Early, Middle, Late unit.Day }

// Window returns the 10, 50 and 90 % days.
func (d Days) Window() (Window, bool) {
	e, ok1 := d.Quantile(0.1)
	m, ok2 := d.Quantile(0.5)
	l, ok3 := d.Quantile(0.9)
	return Window{e, m, l}, ok1 && ok2 && ok3
}

// Sample is a sample of values with weights.
type Sample []Weighed

// Weighed is a value and its weight.
type Weighed struct{ Value, Weight float64 }

// Add puts a value in.
func (w *Sample) Add(value, weight float64) { *w = append(*w, Weighed{value, weight}) }

// Quantiles puts the sample in order and gives the values at shares of the weight, which must rise. Each value stands at the middle of
// its own weight, and between two the line is straight; with equal weights this is type 5 (Hazen).
func (w Sample) Quantiles(shares ...float64) []float64 {
	slices.SortFunc(w, func(a, b Weighed) int { return cmp.Compare(a.Value, b.Value) })
	var total float64
	for _, v := range w {
		total += v.Weight
	}
	out := make([]float64, 0, len(shares))
	i, before := 0, 0.0
	for _, p := range shares {
		goal := p * total
		for i < len(w)-1 && before+w[i].Weight/2 < goal {
			before += w[i].Weight
			i++
		}
		here := before + w[i].Weight/2
		if i == 0 || here <= goal {
			out = append(out, w[i].Value)
			continue
		}
		last := before - w[i-1].Weight/2
		out = append(out, w[i-1].Value+(w[i].Value-w[i-1].Value)*(goal-last)/(here-last))
	}
	return out
}
