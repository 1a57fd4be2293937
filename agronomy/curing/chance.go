package curing

import (
	"fmt"
	"math"

	"haywarden/agronomy/climate"
	"haywarden/agronomy/unit"
	"haywarden/agronomy/water"
)

// Member is one way the weather may go, or one year as it went, with its weight.
type Member struct {
	Weight float64
	Days   []Day // the first is the first day on which may be mown
}

// Haymaking asks for the chance that a product is made in time and without harm.
type Haymaking struct {
	Swath   Swath
	Product Product
	At      unit.PercentWet // moisture at which it is taken up, 0: [Product.Moisture]
	Days    int             // that it may take, the day of mowing being the first
	HarmMM  float64         // rain on the swath that it may not pass
	Place   Place
}

// UsualHarmMM is 0.05 in. Source: [source.HarmfulRain].
const UsualHarmMM = 1.27

// UsualHaymaking asks for a product within days on [UsualSwath].
func UsualHaymaking(p Product, days int, place Place) Haymaking {
	return Haymaking{Swath: UsualSwath(), Product: p, Days: days, HarmMM: UsualHarmMM, Place: place}
}

// Chance is the answer for one day of mowing.
type Chance struct {
	Start  int // index of the day of mowing in the members' days
	Years  int // members whose weather is known
	Made   int // of them, made in time and without harmful rain
	Rained int // rained on beyond harm before it was made
	Slow   int // neither: not dry enough in time

	Share     unit.Share // of made, by the members' weights; NaN without years
	Low, High unit.Share // 95 % interval of Share
	Hours     float64    // mean from mowing until made, among those made; NaN without

	// The simple rule stands beside it: the share of members whose days from mowing are all dry, as many
	// as the product wants but no more than it may take.
	DryDays int
	Dry     unit.Share
	Word    Word // of Share
}

// Chances runs the swath over every member from each start and counts. Members are weighed; the
// interval is Wilson's with their effective number, the square of the weights' sum over the sum of
// their squares. A member whose weather from a start is not known to the end is left out of that
// start's count. Source: [source.WilsonInterval], [source.HarmfulRain], [source.DryDay].
func (a Haymaking) Chances(members []Member, starts []int) ([]Chance, error) {
	c, target, err := a.ready()
	if err != nil {
		return nil, err
	}
	maker, err := NewMaker(a.Place)
	if err != nil {
		return nil, err
	}
	longest := 0
	for i, m := range members {
		if !(m.Weight >= 0) {
			return nil, fmt.Errorf("member %d: weight %g: accepted 0 or more", i+1, m.Weight)
		}
		for k := range m.Days {
			if d := m.Days[k].YearDay; d < 1 || d > 366 {
				return nil, fmt.Errorf("member %d, day %d is day %d of the year: accepted 1 to 366", i+1, k+1, d)
			}
		}
		longest = max(longest, len(m.Days))
	}
	for _, s := range starts {
		if s < 0 {
			return nil, fmt.Errorf("start %d: accepted 0 or more", s)
		}
	}
	tallies := make([]tally, len(starts))
	hours := make([]Hour, 24*longest)
	for i := range members {
		m := &members[i]
		maker.Fill(hours, m.Days)
		for k, s := range starts {
			if s+a.Days > len(m.Days) || !allKnown(m.Days[s:s+a.Days]) {
				continue
			}
			v, harmed := c.first(hours[24*s:24*(s+a.Days)], &target, a.HarmMM)
			tallies[k].add(m.Weight, &v, harmed, float64(a.Swath.MowHour), allDry(m.Days[s:s+a.dryDays()]))
		}
	}
	chances := make([]Chance, len(starts))
	for k, s := range starts {
		chances[k] = tallies[k].chance(s, a.dryDays())
	}
	return chances, nil
}

func (a Haymaking) ready() (*Curing, Target, error) {
	if err := a.Product.Check(); err != nil {
		return nil, Target{}, err
	}
	target := a.Product.Target()
	switch {
	case a.At < 0 || a.At >= 100:
		return nil, target, fmt.Errorf("taken up at %g %%: accepted over 0 to under 100 %%, or 0 for the usual %g %%", a.At, a.Product.Moisture())
	case a.At > 0:
		target.DB = float64(a.At.OfDM())
	}
	switch {
	case a.Days < 1 || a.Days > 30:
		return nil, target, fmt.Errorf("within %d days: accepted 1 to 30, the day of mowing being the first", a.Days)
	case !(a.HarmMM >= 0):
		return nil, target, fmt.Errorf("harmful rain over %g mm: accepted 0 or more", a.HarmMM)
	}
	c, err := NewCuring(a.Swath)
	return c, target, err
}

// dryDays is how many days the simple rule wants dry.
func (a Haymaking) dryDays() int { return min(a.Days, a.Product.DryDays()) }

func allKnown(days []Day) bool {
	for i := range days {
		if !days[i].known() {
			return false
		}
	}
	return true
}

func allDry(days []Day) bool {
	for i := range days {
		if days[i].RainMM >= water.DryBelowMM {
			return false
		}
	}
	return true
}

// tally adds members up for one start.
type tally struct {
	years, made, rained              int
	weight, square, madeW, dryW, hrs float64
}

func (t *tally) add(weight float64, v *Harvest, harmed bool, mown float64, dry bool) {
	t.years++
	t.weight += weight
	t.square += weight * weight
	switch {
	case harmed:
		t.rained++
	case !math.IsNaN(v.Made):
		t.made++
		t.madeW += weight
		t.hrs += weight * (v.Made - mown)
	}
	if dry {
		t.dryW += weight
	}
}

func (t *tally) chance(start, dryDays int) Chance {
	c := Chance{Start: start, Years: t.years, Made: t.made, Rained: t.rained, Slow: t.years - t.made - t.rained, DryDays: dryDays}
	share := t.madeW / t.weight
	var effective float64
	if t.weight > 0 {
		effective = t.weight * t.weight / t.square
	}
	low, high := climate.WilsonShare(share, effective)
	c.Share, c.Low, c.High = unit.Share(share), unit.Share(low), unit.Share(high)
	c.Hours, c.Dry = t.hrs/t.madeW, unit.Share(t.dryW/t.weight)
	c.Word = WordOf(c.Share)
	return c
}
