// Package risk weighs choices whose worth hangs on the weather: cut now or wait, on which of several
// days, how many acres to lay down, and how much of a good average to give for a better worst case.
// Worth is in $ an acre throughout, or in any other unit used alike on both sides. Chances are taken
// as right: a forecast that is wrong by habit makes every answer here wrong with it.
package risk

import (
	"fmt"
	"math"
)

// Cut is one time of cutting: its worth if it dries without rain, its worth if it is rained on, and
// the chance of that rain.
type Cut struct{ Dry, Wet, Rain float64 }

// Mean is the worth to expect.
func (c Cut) Mean() float64 { return (1-c.Rain)*c.Dry + c.Rain*c.Wet }

func (c Cut) check(when string) error {
	switch {
	case !finite(c.Dry, c.Wet):
		return fmt.Errorf("worth %s %g dry and %g wet: want two numbers", when, c.Dry, c.Wet)
	case c.Wet > c.Dry:
		return fmt.Errorf("worth %s is %g wet and %g dry: rain on cut hay adds nothing; accepted wet: up to %g", when, c.Wet, c.Dry, c.Dry)
	}
	return chance(c.Rain, "chance of rain "+when)
}

// Wait compares cutting now with cutting later.
type Wait struct {
	Now, Later float64 // worth to expect
	Break      float64 // cut now while the chance of rain now is no higher than this
}

// CutOrWait compares cutting now with cutting once later:
//
//	Break = (Dry_now - E[later]) / (Dry_now - Wet_now), held to 0..1
//
// 0 is wait whatever is forecast, 1 is cut whatever is forecast. Source: [source.WaitOneStep].
func CutOrWait(now, later Cut) (Wait, error) {
	if err := now.check("now"); err != nil {
		return Wait{}, err
	}
	if err := later.check("later"); err != nil {
		return Wait{}, err
	}
	w := Wait{Now: now.Mean(), Later: later.Mean()}
	switch gain := now.Dry - w.Later; {
	case now.Dry > now.Wet:
		w.Break = min(max(gain/(now.Dry-now.Wet), 0), 1)
	case gain >= 0: // rain takes nothing: only the average counts
		w.Break = 1
	}
	return w, nil
}

// Protect is the chance of harm above which a protection that costs cost and saves loss pays: baling
// wet with a preservative, chopping instead of baling. Source: [source.CostLoss].
func Protect(cost, loss float64) (float64, error) {
	if !(cost >= 0) || math.IsInf(cost, 1) {
		return 0, fmt.Errorf("cost of protecting %g: accepted 0 and over", cost)
	}
	if !(loss > 0) || math.IsInf(loss, 1) {
		return 0, fmt.Errorf("loss without protection %g: accepted over 0", loss)
	}
	return min(cost/loss, 1), nil
}

// chance refuses what is no chance.
func chance(p float64, name string) error {
	if !isChance(p) {
		return fmt.Errorf("%s %g: accepted 0 to 1", name, p)
	}
	return nil
}

func isChance(p float64) bool { return p >= 0 && p <= 1 }

func finite(values ...float64) bool {
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

// rounding is the most that sums of chances are off by the way computers add, and the most that chances
// written in decimals may fail to add to 1.
const rounding = 1e-6

// whole refuses chances that do not add to 1.
func whole(chances []float64) error {
	sum := 0.0
	for i, p := range chances {
		if !isChance(p) { // asked first: a name for each of a hundred thousand costs more than the sum
			return chance(p, fmt.Sprintf("chance %d", i+1))
		}
		sum += p
	}
	if math.Abs(sum-1) > rounding {
		return fmt.Errorf("the chances add to %.6g: want a list that adds to 1", sum)
	}
	return nil
}
