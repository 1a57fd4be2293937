package weather

import (
	"cmp"
	"slices"
	"sort"
	"strings"

	"haywarden/agronomy/unit"
)

// The limits of the checks. [source.GHCNQuality], numbers as marked.
const (
	streakLength   = 15  // equal values in a row; the archive takes 15 to 20
	spikeTenths    = 250 // there and back, 25 C (from memory)
	outlierSDs     = 6
	outlierWindow  = 7 // days on either side: 15 in all
	gapTenths      = 100
	leastValues    = 150 // for an outlier or a gap: ten years of 15 days (choice)
	leastSD        = 10. // tenths C; keeps a record without scatter from failing on nothing (choice)
	naughtTenths   = -178
	copiedDays     = 28 // a month is a copy where its first 28 days equal those of another (choice)
	copiedReported = 20 // and at least so many of them are reported (choice)
	copiedWet      = 5  // and, for rain, so many are wet: dry months are all alike (choice)
)

// bounds are the lowest and highest value believed, in the element's unit: for temperature and rain
// the practical range of the Midwest (derived), for snow what no station passes (choice).
func bounds(e Element) (low, high int16) {
	switch e {
	case TMax, TMin:
		return -450, 480
	case Rain:
		return 0, 4000
	case Snow:
		return 0, 2000
	default:
		return 0, 5000
	}
}

// Quality checks the blocks of one station, all its years together since most checks need neighbours
// in time, and drops in place what fails, each value with its mark. It returns what was dropped in
// the order of days. A value dropped by one check is missing for those after it. The order is
// (choice, near that of [source.GHCNQuality]):
//
//   - bounds: outside what the region has seen
//   - naught: at a US station both temperatures are 0 F
//   - duplicate: a month that copies another, either of which may be the right one: both go
//   - streak: 15 or more equal temperatures in a row, days without a value left out of account
//   - gap: a temperature 10 C or more from every other of the station and calendar month
//   - outlier: 6 standard deviations or more from the mean of the 15 days of the year around it
//     over all years, the value itself left out of both
//   - spike: 25 C or more off the day before and the day after, both to the same side
//   - inconsistent: the highest temperature below the lowest: both go
//
// Checks on single values run before those on pairs, so that one wrong value does not take a right
// one with it. A value that the archive flagged, or that was reported twice with different values,
// is dropped already when it is gathered.
func Quality(st Station, blocks []*Block) []Rejected {
	dropped, _ := check(st, blocks)
	return dropped
}

// check is [Quality], which also tells what was kept and is worth a look.
func check(st Station, blocks []*Block) ([]Rejected, []doubt) {
	if len(blocks) == 0 {
		return nil, nil
	}
	c := newControl(blocks)
	c.bounds()
	if strings.HasPrefix(st.ID, "US") {
		c.naught()
	}
	c.copies()
	for _, e := range []Element{TMax, TMin} {
		c.streaks(e)
		c.gaps(e)
		c.outliers(e)
		c.spikes(e)
	}
	c.inconsistent()
	slices.SortFunc(c.out, func(a, b Rejected) int {
		return cmp.Or(cmp.Compare(a.Day, b.Day), cmp.Compare(a.Element, b.Element))
	})
	return c.out, c.doubts()
}

// control is a station's record laid out by element as runs of days, for checks that look at
// neighbours. Days of years without a block are missing.
type control struct {
	blocks []*Block
	start  []int // place of each block's first day
	first  unit.Day
	col    [Rain + 1][]int16
	out    []Rejected
	screen [2][12]span // by temperature and month: what is not far from the month's mean
}

func newControl(blocks []*Block) *control {
	c := &control{blocks: slices.Clone(blocks)}
	slices.SortFunc(c.blocks, func(a, b *Block) int { return a.Year - b.Year })
	c.first = unit.DateOf(c.blocks[0].Year, 1, 1)
	n := 0
	for _, b := range c.blocks {
		at := int(unit.DateOf(b.Year, 1, 1) - c.first)
		c.start = append(c.start, at)
		n = at + len(b.Days)
	}
	for e := range c.col {
		c.col[e] = make([]int16, n)
		if n > 366*len(blocks) { // years without a block lie between
			for i := range c.col[e] {
				c.col[e][i] = Missing
			}
		}
	}
	for bi, b := range c.blocks {
		at := c.start[bi]
		hi, lo, wet := c.col[TMax][at:], c.col[TMin][at:], c.col[Rain][at:]
		for i := range b.Days {
			v := &b.Days[i].Value
			hi[i], lo[i], wet[i] = v[TMax], v[TMin], v[Rain]
		}
	}
	return c
}

// drop marks the value at place i as failed. The rest of r is filled in.
func (c *control) drop(i int, e Element, why Mark, r Rejected) {
	bi := sort.SearchInts(c.start, i+1) - 1
	o := &c.blocks[bi].Days[i-c.start[bi]]
	r.Day, r.Element, r.Mark, r.Value = c.first+unit.Day(i), e, why, int32(o.Value[e])
	o.Reject(e, why)
	if int(e) < len(c.col) {
		c.col[e][i] = Missing
	}
	c.out = append(c.out, r)
}

func (c *control) bounds() {
	var low [elements]int16
	var span [elements]uint16
	for _, e := range Elements() {
		l, h := bounds(e)
		low[e], span[e] = l, uint16(h-l)
	}
	for bi, b := range c.blocks {
		for i := range b.Days {
			for e, v := range &b.Days[i].Value {
				if uint16(v-low[e]) > span[e] && v != Missing { // below low wraps round to far above
					c.drop(c.start[bi]+i, Element(e), OutOfBounds, Rejected{})
				}
			}
		}
	}
}

func (c *control) naught() {
	for i, v := range c.col[TMax] {
		if v == naughtTenths && c.col[TMin][i] == naughtTenths {
			c.drop(i, TMax, Naught, Rejected{})
			c.drop(i, TMin, Naught, Rejected{})
		}
	}
}

func (c *control) streaks(e Element) {
	v := c.col[e]
	value, from, length := Missing, 0, 0 // of the run being followed
	end := func(to int) {
		for i := from; i < to && length >= streakLength; i++ {
			if v[i] != Missing {
				c.drop(i, e, Streak, Rejected{By: float64(length)})
			}
		}
	}
	for i, x := range v {
		switch x {
		case Missing:
		case value:
			length++
		default:
			end(i)
			value, from, length = x, i, 1
		}
	}
	end(len(v))
}

func (c *control) spikes(e Element) {
	v := c.col[e]
	var at []int
	for i := 1; i+1 < len(v); i++ {
		if v[i] == Missing || v[i-1] == Missing || v[i+1] == Missing {
			continue
		}
		up, down := int(v[i])-int(v[i-1]), int(v[i])-int(v[i+1])
		if min(up, down) >= spikeTenths || max(up, down) <= -spikeTenths {
			at = append(at, i)
		}
	}
	before := make([]int16, len(at))
	for k, i := range at {
		before[k] = v[i-1]
	}
	for k, i := range at {
		c.drop(i, e, Spike, Rejected{Than: int32(before[k])})
	}
}

func (c *control) inconsistent() {
	for i, hi := range c.col[TMax] {
		lo := c.col[TMin][i]
		if hi != Missing && lo != Missing && hi < lo {
			c.drop(i, TMax, Inconsistent, Rejected{Than: int32(lo)})
			c.drop(i, TMin, Inconsistent, Rejected{Than: int32(hi)})
		}
	}
}
