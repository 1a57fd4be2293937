package water

import (
	"math"

	"haywarden/agronomy/climate"
	"haywarden/agronomy/unit"
)

// DryBelowMM is the rain from which a day counts as wet: 0.01 in, the limit of the forecast's chance
// of rain. Another limit used for hay is 0.05 in, 1.27 mm. Source: [source.DryDay].
const DryBelowMM = 0.25

// Chain is the weather as a chain of dry and wet days: the chance of a wet day after a dry one and
// after a wet one. It gives too few long dry spells: where years can be counted ([Rain.Spells]), count.
// Source: [source.DrySpellChain].
type Chain struct{ P01, P11 float64 }

// Wet is the share of days that are wet in the long run: p01/(1 + p01 - p11).
func (c Chain) Wet() float64 { return c.P01 / (1 + c.P01 - c.P11) }

// MeanDry is the mean length of a dry spell, days.
func (c Chain) MeanDry() unit.Days { return unit.Days(1 / c.P01) }

// MeanWet is the mean length of a wet spell, days.
func (c Chain) MeanWet() unit.Days { return unit.Days(1 / (1 - c.P11)) }

// NextDry is the chance that the next n days are all dry: (1 - p01)^n after a dry day, (1 - p11)(1 -
// p01)^(n-1) after a wet one.
func (c Chain) NextDry(n int, wetToday bool) float64 {
	first := 1 - c.P01
	if wetToday {
		first = 1 - c.P11
	}
	return first * math.Pow(1-c.P01, float64(n-1))
}

// AnyDry is the chance that n days in a row are all dry, nothing being known of the day before.
func (c Chain) AnyDry(n int) float64 { return (1 - c.Wet()) * math.Pow(1-c.P01, float64(n-1)) }

// Within is the chance of at least one run of n dry days inside the next horizon days, counting from
// tomorrow: whatever is dry until today does not count.
func (c Chain) Within(n, horizon int, wetToday bool) float64 {
	if n < 1 {
		return math.NaN()
	}
	run := make([]float64, n) // chance that the days so far end in i dry ones, and no run of n has come
	run[0] = 1
	wetNext := c.P11
	if !wetToday {
		wetNext = c.P01
	}
	var came float64
	for range horizon {
		wet, dry := run[0]*wetNext, run[0]*(1-wetNext)
		for i := 1; i < n; i++ {
			wet += run[i] * c.P01
			dry, run[i] = run[i]*(1-c.P01), dry
		}
		came += dry
		run[0], wetNext = wet, c.P11
	}
	return min(1, came)
}

// Transitions counts days by what the day before was: DW is a wet day after a dry one.
type Transitions struct{ DD, DW, WD, WW int }

// Chain estimates the chain from counts, with laplace pretended days of each kind: 1 keeps a short
// record from saying never; 0 is the plain share, NaN where a kind of day was not seen.
func (t Transitions) Chain(laplace float64) Chain {
	wetShare := func(wet, dry int) float64 { return (float64(wet) + laplace) / (float64(wet+dry) + 2*laplace) }
	return Chain{P01: wetShare(t.DW, t.DD), P11: wetShare(t.WW, t.WD)}
}

func (t *Transitions) add(before, day float64, limitMM float64) {
	switch {
	case math.IsNaN(before) || math.IsNaN(day):
	case before < limitMM && day < limitMM:
		t.DD++
	case before < limitMM:
		t.DW++
	case day < limitMM:
		t.WD++
	default:
		t.WW++
	}
}

// CountTransitions counts the days of a run of rain that follow one another, mm; a day not known is
// NaN and joins no pair.
func CountTransitions(rainMM []float64, limitMM float64) (t Transitions) {
	for i := 1; i < len(rainMM); i++ {
		t.add(rainMM[i-1], rainMM[i], limitMM)
	}
	return t
}

// ChainYear is a chain that changes smoothly through the year.
type ChainYear struct{ dry, wet climate.Harmonics }

// SmoothYear lays a mean and waves of the year through the half-months' chains, on the scale of log
// odds so that no chance leaves 0 to 1: two waves are usual. A half-month in which no day followed a dry
// (or a wet) one is left out of that course, and a course through few of them has fewer waves. No days
// at all, and a chance of 0 or 1 where laplace is 0, give NaN. Source: [source.DrySpellChain].
func SmoothYear(halves [24]Transitions, laplace float64, waves int) ChainYear {
	var afterDry, afterWet course
	for i, t := range halves {
		c, day := t.Chain(laplace), (float64(i)+0.5)*365.25/24
		if t.DD+t.DW > 0 {
			afterDry.add(day, c.P01)
		}
		if t.WD+t.WW > 0 {
			afterWet.add(day, c.P11)
		}
	}
	return ChainYear{afterDry.smooth(waves), afterWet.smooth(waves)}
}

// course is a chance by day of the year, as log odds.
type course struct{ day, odds []float64 }

func (c *course) add(day, p float64) {
	c.day, c.odds = append(c.day, day), append(c.odds, math.Log(p/(1-p)))
}

func (c *course) smooth(waves int) climate.Harmonics {
	return climate.FitHarmonics(c.day, c.odds, max(0, min(waves, (len(c.day)-1)/2)))
}

// At is the chain on a day of the year.
func (y ChainYear) At(yearDay int) Chain {
	return Chain{P01: share(y.dry.At(float64(yearDay))), P11: share(y.wet.At(float64(yearDay)))}
}

// share turns log odds back into a chance.
func share(odds float64) float64 { return 1 / (1 + math.Exp(-odds)) }

// AllDry is the chance that none of several days has rain, from each day's chance of rain: if the days
// were independent, and the lowest and highest it can be whatever ties them. Plan by the first, show
// the others. Source: [source.RainTogether].
func AllDry(rain []unit.Share) (independent, low, high unit.Share) {
	independent, low, high = 1, 1, 1
	for _, p := range rain {
		independent *= 1 - p
		low -= p
		high = min(high, 1-p)
	}
	return independent, max(0, low), high
}
