package weather

import (
	"math"
	"slices"
	"time"

	"haywarden/agronomy/unit"
)

// copies drops months whose first 28 days equal those of another month of the record.
func (c *control) copies() {
	for _, e := range []Element{TMax, TMin, Rain} {
		c.copiesOf(e)
	}
}

func (c *control) copiesOf(e Element) {
	type month struct{ at, days int }
	seen := make(map[uint64]month, 12*len(c.blocks))
	copied := map[int]bool{} // months dropped, by place
	var hit []struct{ a, b month }
	for bi, b := range c.blocks {
		at := c.start[bi]
		for m := time.January; m <= time.December; m++ {
			days := DaysInMonth(b.Year, m)
			v := c.col[e][at : at+copiedDays]
			if tellable(v, e) {
				key := hashOf(v)
				old, ok := seen[key]
				if !ok {
					seen[key] = month{at, days}
				} else if slices.Equal(v, c.col[e][old.at:old.at+copiedDays]) {
					hit = append(hit, struct{ a, b month }{old, month{at, days}})
				}
			}
			at += days
		}
	}
	for _, h := range hit {
		for _, p := range [2][2]month{{h.a, h.b}, {h.b, h.a}} {
			if copied[p[0].at] {
				continue
			}
			copied[p[0].at] = true
			for i := p[0].at; i < p[0].at+p[0].days; i++ {
				if c.col[e][i] != Missing {
					c.drop(i, e, Duplicate, Rejected{Copied: true, Other: c.first + unit.Day(p[1].at)})
				}
			}
		}
	}
}

// tellable reports whether a month has enough of its own to be known again.
func tellable(v []int16, e Element) bool {
	reported, wet, differing := 0, 0, false
	first := Missing
	for _, x := range v {
		if x == Missing {
			continue
		}
		reported++
		if x > 0 {
			wet++
		}
		if first == Missing {
			first = x
		}
		differing = differing || x != first
	}
	return reported >= copiedReported && differing && (e != Rain || wet >= copiedWet)
}

// hashOf is FNV-1a over pairs of values; a hit is compared in full before it counts.
func hashOf(v []int16) uint64 {
	h := uint64(14695981039346656037)
	for i := 0; i+1 < len(v); i += 2 {
		h = (h ^ uint64(uint16(v[i]))<<16 ^ uint64(uint16(v[i+1]))) * 1099511628211
	}
	return h
}

// outliers holds each value against the 15 days of the year around it in all years. Sums are whole
// numbers of tenths, so that they do not depend on the order of adding.
func (c *control) outliers(e Element) {
	var day, window [366]moments
	c.eachHalf(e, func(v []int16, first, _ int) {
		for i, v := range v {
			if v != Missing {
				day[first+i].add(v)
			}
		}
	})
	// What lies within 4 standard deviations of a window with the value in it is within 6 of one
	// without it (4.3 for leastValues), so that few values have to be looked at closely.
	var low, high [len(day)]int
	var w moments
	for k := -outlierWindow; k < outlierWindow; k++ {
		w.join(day[(k+len(day))%len(day)])
	}
	for d := range window {
		w.join(day[(d+outlierWindow)%len(day)])
		window[d] = w
		low[d], high[d] = math.MinInt, math.MaxInt
		if w.n > leastValues {
			mean, sd := w.meanSD()
			low[d], high[d] = int(math.Ceil(mean-4*sd)), int(math.Floor(mean+4*sd))
		}
		w.leave(day[(d-outlierWindow+len(day))%len(day)])
	}
	var out []Rejected
	var at []int
	c.eachHalf(e, func(v []int16, first, place int) {
		for i, v := range v {
			d := first + i
			if v == Missing || int(v) >= low[d] && int(v) <= high[d] {
				continue
			}
			mean, sd := window[d].without(v).meanSD()
			if off := math.Abs(float64(v)-mean) / sd; off >= outlierSDs {
				at = append(at, place+i)
				out = append(out, Rejected{By: off, Than: int32(math.Round(mean))})
			}
		}
	})
	for k, i := range at {
		c.drop(i, e, Outlier, out[k])
	}
}

// moments are the number, sum and sum of squares of values.
type moments struct{ n, sum, squares int64 }

func (m *moments) add(v int16) { m.join(moments{1, int64(v), int64(v) * int64(v)}) }

func (m *moments) join(o moments) {
	m.n, m.sum, m.squares = m.n+o.n, m.sum+o.sum, m.squares+o.squares
}

func (m *moments) leave(o moments) {
	m.n, m.sum, m.squares = m.n-o.n, m.sum-o.sum, m.squares-o.squares
}

func (m moments) without(v int16) moments {
	return moments{m.n - 1, m.sum - int64(v), m.squares - int64(v)*int64(v)}
}

// meanSD gives the mean and the standard deviation, which is never less than leastSD.
func (m moments) meanSD() (mean, sd float64) {
	mean = float64(m.sum) / float64(m.n)
	variance := (float64(m.squares) - mean*float64(m.sum)) / float64(m.n-1)
	return mean, max(leastSD, math.Sqrt(max(0, variance)))
}

// eachHalf calls f with the values of every year up to 28 or 29 February and with those after, the day
// of the first of them in a year of 366 days, from 0, and its place.
func (c *control) eachHalf(e Element, f func(v []int16, first, place int)) {
	const march1 = 60
	for bi, b := range c.blocks {
		at, feb := c.start[bi], MonthStart(b.Year, time.March)
		v := c.col[e][at : at+len(b.Days)]
		f(v[:feb], 0, at)
		f(v[feb:], march1, at+feb)
	}
}

// gaps drops values that stand alone in their calendar month over all years. Bounds have been checked,
// so a table of all possible values serves in place of sorting.
func (c *control) gaps(e Element) {
	var alone [12][]int16
	low, count, n := c.byMonth(e)
	for m := range alone {
		if n[m] > leastValues {
			c.screen[e][m] = usualSpan(count[m], low)
			alone[m] = lonely(count[m], low)
		}
	}
	c.eachMonth(func(m time.Month, from, to int) {
		if len(alone[m-1]) == 0 {
			return
		}
		for i := from; i < to; i++ {
			if v := c.col[e][i]; v != Missing && slices.Contains(alone[m-1], v) {
				c.drop(i, e, Gap, Rejected{})
			}
		}
	})
}

// byMonth counts how often each value low+k was met in a calendar month, and how many there are.
func (c *control) byMonth(e Element) (low int16, count [12][]int32, n [12]int) {
	low, high := bounds(e)
	width := int(high) - int(low) + 1
	all := make([]int32, 12*width)
	for m := range count {
		count[m] = all[m*width : (m+1)*width]
	}
	c.eachMonth(func(m time.Month, from, to int) {
		row, known := count[m-1], 0
		for _, v := range c.col[e][from:to] {
			if v != Missing {
				row[v-low]++
				known++
			}
		}
		n[m-1] += known
	})
	return low, count, n
}

// lonely lists the values met once and gapTenths or more from every other. count[k] is how often the
// value low+k was met.
func lonely(count []int32, low int16) []int16 {
	var out []int16
	last := -gapTenths // the value before the one being looked at
	at := -1           // a value met once, with nothing near it so far
	for k, n := range count {
		if n == 0 {
			continue
		}
		if at >= 0 && k-at >= gapTenths {
			out = append(out, low+int16(at))
		}
		at = -1
		if n == 1 && k-last >= gapTenths {
			at = k
		}
		last = k
	}
	if at >= 0 {
		out = append(out, low+int16(at))
	}
	return out
}

func (c *control) eachMonth(f func(m time.Month, from, to int)) {
	for bi, b := range c.blocks {
		at := c.start[bi]
		for m := time.January; m <= time.December; m++ {
			to := at + DaysInMonth(b.Year, m)
			f(m, at, to)
			at = to
		}
	}
}
