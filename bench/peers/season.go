package main

import (
	"fmt"
	"strings"

	"haywarden/agronomy/regrowth"
)

// The season kernel: each field through each year's 210 days from 31 March with soil water and four
// cuts. What a day's weather offers is worked out once and read by everybody.
const (
	seasonFrom = 90
	seasonDays = 210
)

// mown are the days of the season after which it is cut.
var mown = [...]int{56, 89, 121, 154}

// seasonBase is the offers of all seasons' days, as the peers read them too.
type seasonBase struct {
	m    regrowth.Model
	days []regrowth.Day
	text string
}

func newSeasonBase(b *base) *seasonBase {
	s := &seasonBase{m: regrowth.Published()}
	place := s.m.NewPlace(latitude, false)
	var text strings.Builder
	text.WriteString("light,shoots,leaf,warm,eto,rain\n")
	for t, doy := range b.doy {
		if doy < seasonFrom || doy >= seasonFrom+seasonDays {
			continue
		}
		d := place.Day(doy, b.maxC[t], b.minC[t], b.rainMM[t])
		s.days = append(s.days, d)
		fmt.Fprintf(&text, "%.17g,%.17g,%.17g,%.17g,%.17g,%.17g\n", d.LightKg, d.Shoots, d.LeafC, d.WarmC, d.EToMM, d.RainMM)
	}
	s.text = text.String()
	return s
}

// grow runs the kernel: what was cut above the stubble and what was grown, kg/ha, heights at cutting, cm,
// and the reserves and lacking water of all
// falls.
func (s *seasonBase) grow() []float64 {
	var cut, grown, tall, roots, lacks float64
	for i := range fields {
		soil := s.m.SoilOf(100 + float64((29*i)%151))
		first := 0.4 + 0.6*float64((53*i)%97)/96
		for y := range years {
			c := s.m.Start(regrowth.First, first, 0)
			days := s.days[y*seasonDays:][:seasonDays]
			next := 0
			for d := range days {
				s.m.Grow(&c, &soil, &days[d])
				if next < len(mown) && d == mown[next] {
					grown += c.KgHa
					tall += c.Height
					cut += s.m.Cut(&c)
					next++
				}
			}
			roots += c.Reserve
			lacks += c.LacksMM
		}
	}
	return []float64{cut, grown, tall, roots, lacks}
}
