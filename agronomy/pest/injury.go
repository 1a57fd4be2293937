package pest

import (
	"fmt"
	"math"
)

// Injury is what a pest costs and what stopping it costs. Source: [source.InjuryLevel].
type Injury struct {
	Money
	TonsPerPest float64 // tons/ac lost for each pest a sample unit
	Kill        float64 // share of the loss that the treatment prevents, over 0 to 1
}

// Level is the count at which the loss prevented equals the cost: cost/(hay tons kill).
func (i Injury) Level() (float64, error) {
	for _, v := range []struct {
		name  string
		value float64
	}{{"cost", i.Cost}, {"value", i.Hay}, {"loss per pest", i.TonsPerPest}, {"kill", i.Kill}} {
		if !(v.value > 0) || math.IsInf(v.value, 1) {
			return 0, fmt.Errorf("%s %g: it must be over 0", v.name, v.value)
		}
	}
	if i.Kill > 1 {
		return 0, fmt.Errorf("kill %g: a share, 1 at most", i.Kill)
	}
	return i.Cost / (i.Hay * i.TonsPerPest * i.Kill), nil
}

// ActAt is the share of the injury level at which to act, so that a treatment can be brought before the
// level is reached. Source: [source.InjuryLevel].
const ActAt = 0.8

// ActBefore is that share where numbers double in so many days and a treatment takes so many days to
// come: 1/2^(delay/doubling) (choice).
func ActBefore(delayDays, doublingDays float64) float64 {
	return math.Exp2(-delayDays / doublingDays)
}

// Net is what treating is worth at a count, $/ac: the loss prevented less the cost.
func (i Injury) Net(count float64) float64 {
	return count*i.TonsPerPest*i.Hay*i.Kill - i.Cost
}
