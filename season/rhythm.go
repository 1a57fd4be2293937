package season

import "haywarden/agronomy/regrowth"

// Rhythm is a fixed way of cutting: the first at a stage, the others so many days after the one before.
type Rhythm struct {
	FirstStage float64
	Intervals  []int // days between the cuts
	October    int   // day of the year of an extra cut in fall, or the end of growth before it; 0 none
}

// Taken is one cut of a season.
type Taken struct {
	YearDay int
	KgHa    float64 // weighed off, with the usual loss
	Stage   float64
	Reserve float64 // as it was cut
}

// KillC ends growth: 25 F. [source.KillingFreeze]
const KillC = -3.9

// follow carries a stand through a year in a rhythm, and returns the cuts and the reserve it goes into
// winter with. The soil is full on 1 January.
func follow(m *regrowth.Model, r Rhythm, days []regrowth.Day, reserve float64) (cuts []Taken, winter float64) {
	c, soil := m.Start(regrowth.First, reserve, 0), m.SoilOf(m.UsualTAWMM)
	spring, fall := m.Spring(days), regrowth.Fall(days, KillC)
	october := 0
	if r.October > 0 {
		october = min(r.October-1, fall-1)
	}
	last := 0
	for i := range days[:max(spring, fall)] {
		if i < spring {
			m.Rest(&c, &soil, &days[i])
			continue
		}
		m.Grow(&c, &soil, &days[i])
		due := len(cuts) == 0 && m.StageOf(&c) >= r.FirstStage ||
			len(cuts) > 0 && len(cuts) <= len(r.Intervals) && i-last == r.Intervals[len(cuts)-1] ||
			october > 0 && i == october && len(cuts) > len(r.Intervals)
		if due {
			t := Taken{YearDay: i + 1, Stage: m.StageOf(&c), Reserve: c.Reserve}
			t.KgHa = m.Cut(&c) * (1 - m.UsualLoss)
			cuts, last = append(cuts, t), i
		}
	}
	return cuts, c.Reserve
}

// Systems of cutting that the published yields are of.
func threeCuts() Rhythm { return Rhythm{FirstStage: 4.5, Intervals: []int{42, 45}} }
func fourCuts() Rhythm  { return Rhythm{FirstStage: 3.2, Intervals: []int{33, 32, 33}} }
func fiveCuts() Rhythm  { return Rhythm{FirstStage: 2.05, Intervals: []int{28, 28, 28, 30}} }

// every cuts first in bud and then so many times every so many days.
func every(days, cuts int) Rhythm {
	r := Rhythm{FirstStage: 3.2}
	for range cuts - 1 {
		r.Intervals = append(r.Intervals, days)
	}
	return r
}
