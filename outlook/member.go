package outlook

import (
	"math"

	"haywarden/agronomy/forage"
	"haywarden/agronomy/unit"
	"haywarden/weather"
)

// Member is one way the rest of the year may go: as it did in one past year from the date's calendar day
// on, drawn to the forecast over the days it speaks of. All members together are the ensemble.
type Member struct {
	Year   int
	Weight float64   // by how like this season that year was to date; all add up to 1
	TMean  []float64 // C, index 0 is the date itself
	TMaxF  []float64
	TMinF  []float64
	Rain   []float64 // mm; NaN where not reported
	scale  []float64 // [forage.RateScale] of each day's mean
	dry    []bool    // under [weather.DryBelowMM]; no report is not dry
}

// gatherMembers makes the ensemble.
func (s *Sky) gatherMembers(f *weather.Forecast) {
	e := weather.NewEnsemble(s.series, s.Date, weather.EnsembleOptions{Forecast: f})
	s.Forecast, s.Made, s.swaths = e.Forecast, e.Made, &swaths{ensemble: e}
	for _, m := range e.Members {
		n := len(m.TMaxC)
		to := &Member{Year: m.Year, Weight: m.Weight, TMean: make([]float64, n), TMaxF: make([]float64, n), TMinF: make([]float64, n), Rain: m.RainMM, scale: make([]float64, n), dry: make([]bool, n)}
		for i := range n {
			to.TMean[i] = (m.TMaxC[i] + m.TMinC[i]) / 2
			to.scale[i] = forage.RateScale(to.TMean[i])
			to.TMaxF[i], to.TMinF[i] = m.TMaxC[i]*1.8+32, m.TMinC[i]*1.8+32
			to.dry[i] = m.RainMM[i] < weather.DryBelowMM
		}
		s.Members = append(s.Members, to)
	}
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

// smoothedBy is over how many days on either side the chance of a dry spell is smoothed, where it rests
// on past years: the calendar day itself means nothing. What a forecast says of a day is not smoothed.
const smoothedBy = 2

// dryNear is the share of the days around i from which n dry days run.
func (m *Member) dryNear(i, n, around int) (share float64, known bool) {
	hits, looks := 0, 0
	for j := max(0, i-around); j <= i+around && j+n <= len(m.dry); j++ {
		looks++
		if m.DryFrom(j, n) {
			hits++
		}
	}
	return float64(hits) / float64(max(1, looks)), looks > 0
}

// DryChance is the chance that n dry days in a row begin on the ith day from the date.
func (s *Sky) DryChance(i, n int) float64 {
	var hits, looks float64
	for _, m := range s.Members {
		if share, known := m.dryNear(i, n, s.around(i)); known {
			hits += m.Weight * share
			looks += m.Weight
		}
	}
	if looks == 0 {
		return math.NaN()
	}
	return hits / looks
}

// around is over how many days on either side the ith day from the date is smoothed: none where the
// forecast speaks of its rain.
func (s *Sky) around(i int) int {
	if fd, ok := s.Forecast.On(s.Date + unit.Day(i)); ok && fd.PoP != nil {
		return 0
	}
	return smoothedBy
}

// Reaches gives the days on which a heat sum comes to a target: the day it did where that has passed,
// else one a member, +Inf where it does not come this year.
func (s *Sky) Reaches(c Clock, target float64) Days {
	if d, ok := c.Reached(target); ok {
		return OnDay(d)
	}
	var days Days
	for _, m := range s.Members {
		on := math.Inf(1)
		sum := c.Now()
		for j := max(0, int(c.From-s.Date)); j < len(m.TMinF); j++ {
			if sum >= target {
				on = float64(s.Date) + float64(j)
				break
			}
			sum += c.Spec.Day(m.TMinF[j], m.TMaxF[j])
		}
		days.Add(on, m.Weight)
	}
	days.Sort()
	return days
}
