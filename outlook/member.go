package outlook

import (
	"math"
	"slices"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/weather"
)

// Member is how the rest of the year went in one past year, from the date's calendar day on. The past
// years together are the ensemble: each is one way this year may go on.
type Member struct {
	Year  int
	TMean []float64 // C, index 0 is the date itself
	TMaxF []float64
	TMinF []float64
	Rain  []float64 // mm; NaN where not reported
	dry   []bool    // under [weather.DryBelowMM]; no report is not dry
}

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
	from, to := s.Date.InYear(y), unit.DateOf(y, time.December, 31)
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
		m.TMean[i] = meanC(maxF, minF)
		m.Rain[i] = math.NaN()
		if j, ok := s.series.Index(d); ok {
			m.Rain[i] = s.series.RainMM[j]
		}
		m.dry[i] = m.Rain[i] < weather.DryBelowMM
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

// Reaches gives the days on which a heat sum comes to a target: the day it did where that has passed,
// else one a past year, +Inf where it does not come this year.
func (s *Sky) Reaches(c Clock, target float64) Days {
	if d, ok := c.Reached(target); ok {
		return Days{float64(d)}
	}
	days := make(Days, len(s.Members))
	for i, m := range s.Members {
		days[i] = math.Inf(1)
		sum := c.Now()
		for j := max(0, int(c.From-s.Date)); j < len(m.TMinF); j++ {
			if sum >= target {
				days[i] = float64(s.Date) + float64(j)
				break
			}
			sum += c.Spec.Day(m.TMinF[j], m.TMaxF[j])
		}
	}
	slices.Sort(days)
	return days
}
