package risk

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// Day is a day on which the crop can be cut, with a chance of rain known today. The crop is worth Dry
// if it then dries, and Loss less if it is rained on.
type Day struct{ Dry, Loss, Rain float64 }

// Mean is the worth to expect of cutting on the day.
func (d Day) Mean() float64 { return d.Dry - d.Rain*d.Loss }

func (d Day) check(i int) error {
	if !finite(d.Dry, d.Loss) || d.Loss < 0 {
		return fmt.Errorf("day %d: worth %g and loss to rain %g; accepted: numbers, the loss 0 and over", i, d.Dry, d.Loss)
	}
	if !isChance(d.Rain) {
		return chance(d.Rain, fmt.Sprintf("day %d: chance of rain", i))
	}
	return nil
}

var errNoDays = errors.New("no day is given: want today at least")

// BestDay picks the day to cut where nothing more will be learnt: the one worth most, the earliest of
// equals. Day 0 is today. Source: [source.OptimalStopping].
func BestDay(days []Day) (value float64, day int, err error) {
	if len(days) == 0 {
		return 0, 0, errNoDays
	}
	for i, d := range days {
		if err := d.check(i); err != nil {
			return 0, 0, err
		}
		if m := d.Mean(); i == 0 || m > value {
			value, day = m, i
		}
	}
	return value, day, nil
}

// Forecast is one that may be issued on the morning of a day: the chance that it is, and the chance
// of rain on hay cut that day that it gives.
type Forecast struct{ Chance, Rain float64 }

// Morning is a day on which the forecast is looked at again before choosing.
type Morning struct {
	Dry, Loss float64 // as in [Day]
	Forecasts []Forecast
	// Follow, where forecasts persist, holds the chance of each forecast after each of the morning
	// before: Follow[i][j] is of j after i. Nil: by Forecast.Chance whatever stood the day before.
	Follow [][]float64
}

// Plan is the best way to wait and watch.
type Plan struct {
	Value     float64   // to expect of cutting on the first morning that is good enough
	Blind     float64   // to expect of the best day fixed today
	BlindDay  int       // that day
	Updates   float64   // Value - Blind, never below 0: what looking again is worth
	Now, Wait float64   // of cutting today, by today's forecasts, and of waiting; Wait is NaN on a last day
	CutNow    bool      // today is as good as waiting, or better
	Threshold []float64 // chance of rain below which to cut, by day: 0 never, 1 whatever is forecast; NaN where it hangs on today's forecast
}

// WithUpdates works back from the last morning, on which the crop must be cut:
//
//	V_T = E[C_T],  V_t = E[max(C_t, V_t+1 given the forecast)],  C = Dry - Rain*Loss
//
// Source: [source.OptimalStopping].
func WithUpdates(days []Morning) (Plan, error) {
	chances, err := standing(days)
	if err != nil {
		return Plan{}, err
	}
	p := Plan{Threshold: make([]float64, len(days)), Wait: math.NaN(), Blind: math.Inf(-1)}
	var next []float64 // worth of being at tomorrow's morning, by tomorrow's forecast
	for t, d := range slices.Backward(days) {
		here := make([]float64, len(d.Forecasts))
		var cut, wait float64
		var later float64 // of waiting, where it does not hang on today's forecast
		hangs := false
		if t+1 < len(days) {
			if hangs = days[t+1].Follow != nil; !hangs {
				later = weighed(next, chancesOf(days[t+1].Forecasts))
			}
		}
		for i, f := range d.Forecasts {
			c := Day{d.Dry, d.Loss, f.Rain}.Mean()
			if hangs {
				later = weighed(next, days[t+1].Follow[i])
			}
			cut += chances[t][i] * c
			wait += chances[t][i] * later
			if here[i] = c; t+1 < len(days) {
				here[i] = max(c, later)
			}
		}
		p.Threshold[t] = threshold(d, later, t+1 == len(days), hangs)
		if cut >= p.Blind {
			p.Blind, p.BlindDay = cut, t
		}
		if t == 0 {
			p.Value, p.Now = weighed(here, chances[0]), cut
			if len(days) > 1 {
				p.Wait = wait
			}
			p.CutNow = len(days) == 1 || cut >= wait
		}
		next = here
	}
	p.Updates = max(0, p.Value-p.Blind)
	return p, nil
}

// threshold is the chance of rain below which the day is cut rather than let pass.
func threshold(d Morning, later float64, last, hangs bool) float64 {
	switch {
	case last:
		return 1
	case hangs:
		return math.NaN()
	case d.Loss == 0 && d.Dry >= later:
		return 1
	case d.Loss == 0:
		return 0
	}
	return min(max((d.Dry-later)/d.Loss, 0), 1)
}

// standing checks the mornings and returns the chance, seen from today, of each forecast of each.
func standing(days []Morning) ([][]float64, error) {
	if len(days) == 0 {
		return nil, errNoDays
	}
	all := make([][]float64, len(days))
	for t, d := range days {
		if len(d.Forecasts) == 0 {
			return nil, fmt.Errorf("day %d has no forecast: want one at least, with its chance of rain", t)
		}
		for _, f := range d.Forecasts {
			if err := (Day{d.Dry, d.Loss, f.Rain}).check(t); err != nil {
				return nil, err
			}
		}
		own := chancesOf(d.Forecasts)
		if t > 0 && d.Follow != nil {
			if len(d.Follow) != len(all[t-1]) {
				return nil, fmt.Errorf("day %d: %d rows of what follows what; want %d, one for each forecast of the day before", t, len(d.Follow), len(all[t-1]))
			}
			own = make([]float64, len(d.Forecasts))
			for i, row := range d.Follow {
				if len(row) != len(own) {
					return nil, fmt.Errorf("day %d: row %d of what follows what has %d chances; want %d, one for each forecast", t, i+1, len(row), len(own))
				}
				if err := whole(row); err != nil {
					return nil, fmt.Errorf("day %d, after forecast %d: %w", t, i+1, err)
				}
				for j, q := range row {
					own[j] += all[t-1][i] * q
				}
			}
		} else if err := whole(own); err != nil {
			return nil, fmt.Errorf("day %d: %w", t, err)
		}
		all[t] = own
	}
	return all, nil
}

func chancesOf(forecasts []Forecast) []float64 {
	chances := make([]float64, len(forecasts))
	for i, f := range forecasts {
		chances[i] = f.Chance
	}
	return chances
}

func weighed(values, weights []float64) float64 {
	sum := 0.0
	for i, v := range values {
		sum += v * weights[i]
	}
	return sum
}
