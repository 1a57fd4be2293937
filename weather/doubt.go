package weather

import (
	"fmt"
	"math"
	"time"

	"haywarden/agronomy/unit"
)

// The gross screen: what lies outside is kept, and somebody should look at the sheet it came from.
// [source.GrossScreen]
const (
	screenSDs    = 5
	screenTenths = 2540 // rain of a day, tenths mm
)

// doubt is a value that is kept and is worth a look.
type doubt struct {
	Day          unit.Day
	Element      Element
	Value        int32
	rule, reason string
}

// span is what lies within the screen of a month; mean and sd say why. The zero span screens nothing.
type span struct {
	low, high int16
	mean, sd  float64
}

// usualSpan finds the screen of a month from how often each value, low+k, was met.
func usualSpan(count []int32, low int16) span {
	var m moments
	for k, n := range count {
		v := int64(low) + int64(k)
		m.join(moments{int64(n), int64(n) * v, int64(n) * v * v})
	}
	mean, sd := m.meanSD()
	return span{int16(math.Ceil(mean - screenSDs*sd)), int16(math.Floor(mean + screenSDs*sd)), mean, sd}
}

// doubts lists what outlasted the checks but not the screen, in the order of days within an element.
func (c *control) doubts() (out []doubt) {
	for e := TMax; e <= TMin; e++ {
		c.eachMonth(func(m time.Month, from, to int) {
			s := c.screen[e][m-1]
			if s == (span{}) {
				return
			}
			for i := from; i < to; i++ {
				if v := c.col[e][i]; v != Missing && (v < s.low || v > s.high) {
					out = append(out, doubt{c.first + unit.Day(i), e, int32(v), "5 standard deviations from the month's mean",
						fmt.Sprintf("%.1f standard deviations from the mean of %s, %s", math.Abs(float64(v)-s.mean)/s.sd, m, e.Written(int32(math.Round(s.mean))))})
				}
			}
		})
	}
	for i, v := range c.col[Rain] {
		if v > screenTenths {
			out = append(out, doubt{c.first + unit.Day(i), Rain, int32(v), "over 254 mm in a day", "so much rain in a day is seldom seen"})
		}
	}
	return out
}

// doubtsOf lists what is worth a look in blocks that were checked before.
func doubtsOf(blocks []*Block) []doubt {
	if len(blocks) == 0 {
		return nil
	}
	c := newControl(blocks)
	for _, e := range []Element{TMax, TMin} {
		low, count, n := c.byMonth(e)
		for m := range count {
			if n[m] > leastValues {
				c.screen[e][m] = usualSpan(count[m], low)
			}
		}
	}
	return c.doubts()
}
