package storage

import (
	"fmt"

	"haywarden/agronomy/source"
)

// Package is how hay is baled.
type Package string

// The packages.
const (
	SmallSquare Package = "small-square"
	Round       Package = "round"
	LargeSquare Package = "large-square"
)

// Packages lists them.
func Packages() []string { return []string{string(SmallSquare), string(Round), string(LargeSquare)} }

// Printed is a baling moisture as a table prints it, % of fresh weight.
type Printed struct {
	Low, High float64 // equal where one figure is printed
	Source    source.ID
}

// Limits are the moistures at which a package keeps without a preservative.
type Limits struct {
	Max     float64 // the most any table lets through that the lowest table also lets through
	Target  float64 // advice stops here: tables differ, and the lower is taken
	Treated float64 // the most that is kept with a preservative; Target where that is not reliable
	Tables  []Printed
}

// Baling holds the limits by package.
type Baling struct {
	SmallSquare, Round, LargeSquare Limits
	Inside                          float64 // over it untreated hay is not stored inside
}

// PublishedBaling returns the limits with the tables they come from. Max is the lowest of the upper
// ends of [source.BaleLimits] and [source.BaleLimitsSouth]; Target lies a point or two lower where
// Alberta's and Montana's tables do ([source.BaleTargets]). Preservative is recalled to keep small
// bales to 25 and large ones to 22 % ([source.TreatedLimits]); in 5 ft rounds trials found it not
// reliable ([source.TreatedTrials]).
func PublishedBaling() Baling {
	one := func(pct float64, id source.ID) Printed { return Printed{pct, pct, id} }
	return Baling{
		SmallSquare: Limits{Max: 20, Target: 18, Treated: 25, Tables: []Printed{
			one(20, source.BaleLimits), {18, 22, source.BaleLimitsSouth}, {18, 20, source.BaleTargets},
		}},
		Round: Limits{Max: 18, Target: 17, Treated: 17, Tables: []Printed{
			one(18, source.BaleLimits), {16, 18, source.BaleLimitsSouth}, {15, 18, source.BaleTargets},
		}},
		LargeSquare: Limits{Max: 15, Target: 15, Treated: 22, Tables: []Printed{
			one(15, source.BaleLimits), {16, 18, source.BaleLimitsSouth}, {12, 16, source.BaleTargets},
		}},
		Inside: 25,
	}
}

// Of returns the limits of a package.
func (k Baling) Of(p Package) (Limits, error) {
	switch p {
	case SmallSquare:
		return k.SmallSquare, nil
	case Round:
		return k.Round, nil
	case LargeSquare:
		return k.LargeSquare, nil
	}
	return Limits{}, fmt.Errorf("package %q; accepted small-square, round or large-square", p)
}

// Verdict is what a moisture means for baling.
type Verdict string

// The verdicts.
const (
	Go    Verdict = "go"
	Wait  Verdict = "wait"
	Treat Verdict = "treat" // wait, or treat as the label of a preservative says
)

// Judge says whether hay of a moisture can be baled now. How much preservative is for its label to
// say, never for us.
func (k Baling) Judge(p Package, moisture float64) (Verdict, Told, error) {
	l, err := k.Of(p)
	if err != nil {
		return "", Told{}, err
	}
	if !(moisture >= 5 && moisture <= 80) {
		return "", Told{}, fmt.Errorf("moisture %g %%; accepted 5 to 80", moisture)
	}
	keep := []Caution{ProbeRight, KeepLooking, CallFirst, NeverAlone}
	switch {
	case moisture <= l.Target:
		return Go, tell(fmt.Sprintf("Bale: %g %% keeps, the limit being %g %%. The wettest windrow counts.", moisture, l.Target), KeepLooking), nil
	case moisture <= l.Treated:
		return Treat, tell(fmt.Sprintf("Wait until it is down to %g %%, or bale with a preservative labelled for it, at the label's rate for %g %%.", l.Target, moisture), append([]Caution{LabelRules, ToxicSmoke}, keep...)...), nil
	case moisture > k.Inside:
		return Wait, tell(fmt.Sprintf("Wait until it is down to %g %%, or wrap it or chop it: at %g %% it heats.", l.Target, moisture), append([]Caution{NotInside}, keep...)...), nil
	}
	return Wait, tell(fmt.Sprintf("Wait until it is down to %g %%: at %g %% it heats, and a preservative cannot be relied on.", l.Target, moisture), keep...), nil
}
