package outlook

import (
	"time"

	"haywarden/agronomy/unit"
)

// fall is how one past year's fall went, a place a day from 31 July to 30 November.
type fall struct {
	heat    []float64 // C-days above restBaseC from 1 August through the day
	missing []int     // days from 1 August through it that were not observed
	last    []int     // place of the last day before the next killing freeze, or of 30 November
}

// restBaseC is the base of the heat that refills roots after a fall cut, C. [source.FallRestHeat]
const restBaseC = 5

// gatherFalls sums up the falls of past years.
func (s *Sky) gatherFalls() {
	first, _ := s.series.Years()
	for y := first; y < s.Date.Year(); y++ {
		from := unit.DateOf(y, time.July, 31)
		if from < s.series.First {
			continue
		}
		n := int(unit.DateOf(y, time.November, 30)-from) + 1
		f := fall{heat: make([]float64, n), missing: make([]int, n), last: make([]int, n)}
		freezes := make([]bool, n)
		for i := 1; i < n; i++ {
			maxF, minF, filled := s.temperatures(from + unit.Day(i))
			f.heat[i], f.missing[i] = f.heat[i-1], f.missing[i-1]
			if mean := meanC(maxF, minF); mean > restBaseC {
				f.heat[i] += mean - restBaseC
			}
			if filled {
				f.missing[i]++
			}
			freezes[i] = !filled && minF <= frostF
		}
		f.last[n-1] = n - 1
		for i := n - 2; i >= 0; i-- {
			if f.last[i] = f.last[i+1]; freezes[i+1] {
				f.last[i] = i
			}
		}
		s.falls = append(s.falls, f)
	}
}

// HeatUntilFreeze gives, for each past year, the heat in C-days above 5 C that was left after a day of
// the calendar from 31 July on, to the next killing freeze or 30 November.
func (s *Sky) HeatUntilFreeze(after unit.Day) []float64 {
	i := max(0, int(after-unit.DateOf(after.Year(), time.July, 31)))
	out := make([]float64, 0, len(s.falls))
	for _, f := range s.falls {
		if i >= len(f.heat) {
			out = append(out, 0)
			continue
		}
		if end := f.last[i]; float64(f.missing[end]-f.missing[i]) <= mostMissing*float64(len(f.heat)-1-i) {
			out = append(out, f.heat[end]-f.heat[i])
		}
	}
	return out
}
