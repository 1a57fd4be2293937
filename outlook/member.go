package outlook

import (
	"math"
	"time"

	"haywarden/agronomy/heat"
	"haywarden/agronomy/unit"
)

// Member is how the rest of the year went in one past year, from the date's calendar day on. The past
// years together are the ensemble: each is one way this year may go on.
type Member struct {
	Year  int
	TMean []float64 // C, index 0 is the date itself
	TMaxF []float64
	TMinF []float64
	Rain  []float64 // mm; NaN where not reported
	dry   []bool
}

// dryMM is the rain below which a day counts as dry. [source.DryDay]
const dryMM = 0.25

// gatherMembers takes every past year whose rest of the year is complete enough.
func (s *Sky) gatherMembers() {
	first, _ := s.series.Years()
	for y := first; y < s.Date.Year(); y++ {
		if m, ok := s.member(y); ok {
			s.Members = append(s.Members, m)
		}
	}
}

func (s *Sky) member(y int) (*Member, bool) {
	from, to := s.Date.InYear(y), unit.DateOf(y, memberLastsTil, 31)
	if from < s.series.First {
		return nil, false
	}
	n := int(to-from) + 1
	m := &Member{Year: y, TMean: make([]float64, n), TMaxF: make([]float64, n), TMinF: make([]float64, n), Rain: make([]float64, n), dry: make([]bool, n)}
	missing := 0
	for i := range n {
		d := from + unit.Day(i)
		maxF, minF, filled := s.temperatures(d)
		if filled {
			missing++
		}
		m.TMaxF[i], m.TMinF[i] = maxF, minF
		m.TMean[i] = (float64(unit.Fahrenheit(maxF).Celsius()) + float64(unit.Fahrenheit(minF).Celsius())) / 2
		m.Rain[i] = math.NaN()
		if j, ok := s.series.Index(d); ok {
			m.Rain[i] = s.series.RainMM[j]
		}
		m.dry[i] = m.Rain[i] < dryMM
	}
	return m, float64(missing) <= mostMissing*float64(n) && !math.IsNaN(m.TMean[0])
}

// DryFrom reports whether n dry days in a row begin on the ith day from the date. A day without a
// rain report is not counted on.
func (m *Member) DryFrom(i, n int) bool {
	if i+n > len(m.dry) {
		return false
	}
	for _, d := range m.dry[i : i+n] {
		if !d {
			return false
		}
	}
	return true
}

// DryChance is the share of past years in which n dry days in a row began on a calendar day, smoothed
// over that day and its two neighbours on either side.
func (s *Sky) DryChance(i, n int) float64 {
	hits, looks := 0, 0
	for _, m := range s.Members {
		for j := max(0, i-2); j <= i+2 && j+n <= len(m.dry); j++ {
			looks++
			if m.DryFrom(j, n) {
				hits++
			}
		}
	}
	if looks == 0 {
		return math.NaN()
	}
	return float64(hits) / float64(looks)
}

// Reaches gives, for each member, the day on which a heat sum that stands at now this morning reaches
// target, and counts the members that do not reach it this year.
func (s *Sky) Reaches(spec heat.Spec, now, target float64) (days []float64, never int) {
	for _, m := range s.Members {
		sum, at := now, -1
		for i := range m.TMinF {
			if sum >= target {
				at = i
				break
			}
			sum += spec.Day(m.TMinF[i], m.TMaxF[i])
		}
		if at < 0 {
			never++
			continue
		}
		days = append(days, float64(s.Date)+float64(at))
	}
	return days, never
}

// HeatUntilFreeze gives, for each past year, the heat in C-days above base that was left after a day
// of the calendar, to the first fall day at or below the threshold or 30 November.
func (s *Sky) HeatUntilFreeze(after unit.Day, baseC, thresholdF float64) []float64 {
	var out []float64
	first, _ := s.series.Years()
	for y := first; y < s.Date.Year(); y++ {
		if sum, ok := s.heatLeft(after.InYear(y), baseC, thresholdF); ok {
			out = append(out, sum)
		}
	}
	return out
}

func (s *Sky) heatLeft(after unit.Day, baseC, thresholdF float64) (float64, bool) {
	last := unit.DateOf(after.Year(), time.November, 30)
	if after < s.series.First || after >= last {
		return 0, after >= last && after >= s.series.First
	}
	var sum float64
	missing := 0
	for d := after + 1; d <= last; d++ {
		maxF, minF, filled := s.temperatures(d)
		if filled {
			missing++
		}
		if !filled && minF <= thresholdF {
			break
		}
		mean := (float64(unit.Fahrenheit(maxF).Celsius()) + float64(unit.Fahrenheit(minF).Celsius())) / 2
		sum += max(0, mean-baseC)
	}
	return sum, float64(missing) <= mostMissing*float64(last-after)
}
