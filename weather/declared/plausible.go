package declared

import (
	"fmt"
	"slices"
	"time"

	"haywarden/weather"
)

// What summers and years of rain can be, wide enough for any place with crops and narrow enough to
// tell units apart: F taken for C, C for F, inches for mm and mm for inches fall outside (choice).
const (
	leastSummer     = 10 // days of June to August
	lowSummerC      = 2
	highSummerC     = 48
	leastRainyYear  = 330 // days with rain reported, for a year's total
	lowYearMM       = 100
	highYearMM      = 5000
	mostCrossedOver = 2 // one pair in so many with the highest below the lowest
)

// Plausible holds daily values against the units declared for them. It is an error where they do not fit.
func (t *Table) Plausible() error {
	for _, c := range []struct {
		e weather.Element
		q weather.Quantity
	}{{weather.TMax, weather.HighQ}, {weather.TMin, weather.LowQ}} {
		var v []float64
		for i := range t.Rows {
			r := &t.Rows[i]
			if m := r.Day.Month(); m >= time.June && m <= time.August && r.Value[c.e].Mark == weather.Reported {
				v = append(v, r.Value[c.e].Base)
			}
		}
		if len(v) < leastSummer {
			continue
		}
		slices.Sort(v)
		low := float64(lowSummerC)
		if c.e == weather.TMin {
			low -= 10
		}
		if median := v[len(v)/2]; median < low || median > highSummerC {
			return t.Refuse("column %s is declared in %s, but half of its %d values of June to August are above %.0f C (%.0f F), which no summer is: is the unit right?",
				t.names[t.at[c.q]], t.measure(c.q), len(v), median, median*1.8+32)
		}
	}
	if err := t.crossed(); err != nil {
		return err
	}
	return t.rain()
}

// crossed finds the two temperatures taken for each other.
func (t *Table) crossed() error {
	pairs, crossed := 0, 0
	for i := range t.Rows {
		hi, lo := t.Rows[i].Value[weather.TMax], t.Rows[i].Value[weather.TMin]
		if hi.Mark == weather.Reported && lo.Mark == weather.Reported {
			pairs++
			if hi.Base < lo.Base {
				crossed++
			}
		}
	}
	if pairs >= leastSummer && crossed*mostCrossedOver > pairs {
		return t.Refuse("on %d of %d days the highest temperature (column %s) is below the lowest (column %s): the columns are crossed, or one is in another unit or unpacked with the other's offset",
			crossed, pairs, t.names[t.at[weather.HighQ]], t.names[t.at[weather.LowQ]])
	}
	return nil
}

func (t *Table) rain() error {
	type year struct{ station, year int }
	sum, days := map[year]float64{}, map[year]int{}
	for i := range t.Rows {
		r := &t.Rows[i]
		if v := r.Value[weather.Rain]; v.Mark != weather.Absent {
			y := year{r.Station, r.Day.Year()}
			sum[y] += v.Base
			days[y]++
		}
	}
	var totals []float64
	for y, n := range days {
		if n >= leastRainyYear {
			totals = append(totals, sum[y])
		}
	}
	if len(totals) == 0 {
		return nil
	}
	slices.Sort(totals) // so that the median does not depend on the order of a map
	if median := totals[len(totals)/2]; median < lowYearMM || median > highYearMM {
		return t.Refuse("column %s is declared in %s, but the year's rain is then about %s, accepted %d to %d mm: is the unit right?",
			t.names[t.at[weather.RainQ]], t.measure(weather.RainQ), fmt.Sprintf("%.0f mm (%.1f in)", median, median/25.4), lowYearMM, highYearMM)
	}
	return nil
}
