// Package hazard says what in a forage can hurt the animal that eats it: nitrate, bloat, beetles,
// mould, frost. It never calls a feed safe that was not tested, and defers to the veterinarian.
package hazard

import "fmt"

// Animal is a class of animal as the nitrate table divides them.
type Animal string

// The classes.
const (
	Pregnant Animal = "pregnant"
	Open     Animal = "non-pregnant"
)

// Nitrate is what nitrate nitrogen, ppm of dry matter, allows a class of animal.
type Nitrate struct {
	Class string  // in words
	Share float64 // most of the ration's dry matter, %; 0: none of it
}

// Limits are the printed bounds of the classes, ppm NO3-N in dry matter. Source: [source.NitrateLimits].
type Limits struct {
	Careful, Half, Third, Quarter, Never float64
}

// PublishedLimits returns them.
func PublishedLimits() Limits { return Limits{1000, 1500, 2000, 3500, 4000} }

// Judge is what a test allows. At the edge of two classes the stricter one stands.
func (l Limits) Judge(ppm float64, a Animal) (Nitrate, error) {
	if a != Pregnant && a != Open {
		return Nitrate{}, fmt.Errorf("animal %q: accepted pregnant, non-pregnant", a)
	}
	if !(ppm >= 0 && ppm <= 1e5) {
		return Nitrate{}, fmt.Errorf("nitrate nitrogen %g ppm: accepted 0 to 100000", ppm)
	}
	pregnant := a == Pregnant
	switch {
	case ppm < l.Careful:
		return Nitrate{"no limit printed", 100}, nil
	case ppm < l.Half && !pregnant:
		return Nitrate{"no limit printed; pregnant animals half of the ration at most", 100}, nil
	case ppm < l.Third:
		return Nitrate{"half of the ration at most", 50}, nil
	case ppm >= l.Never:
		return Nitrate{"do not feed", 0}, nil
	case pregnant:
		return Nitrate{"not for pregnant animals", 0}, nil
	case ppm < l.Quarter:
		return Nitrate{"a third of the ration at most", 35}, nil
	}
	return Nitrate{"a quarter of the ration at most", 25}, nil
}

// Form is how a laboratory reports nitrate.
type Form string

// The forms.
const (
	Nitrogen Form = "no3-n"
	Ion      Form = "no3"
	Salt     Form = "kno3"
)

// Factors are how many parts of each form one part of nitrate nitrogen makes. Source:
// [source.NitrateForms].
type Factors struct{ Ion, Salt float64 }

// PublishedFactors returns them.
func PublishedFactors() Factors { return Factors{4.427, 7.218} }

// Nitrogen is a value reported in a form, as nitrate nitrogen in the same unit.
func (k Factors) Nitrogen(value float64, f Form) (float64, error) {
	switch f {
	case Nitrogen:
		return value, nil
	case Ion:
		return value / k.Ion, nil
	case Salt:
		return value / k.Salt, nil
	}
	return 0, fmt.Errorf("form %q: accepted no3-n, no3, kno3", f)
}

// Blend is the share of a feed with nitrate a beside one with b that keeps the mix at a limit; 1 where
// the feed itself is under it, not ok where the other feed alone is over it.
func Blend(a, b, limit float64) (share float64, ok bool) {
	switch {
	case b > limit:
		return 0, false
	case a <= limit:
		return 1, true
	}
	return (limit - b) / (a - b), true
}

// Beetles is how many blister beetles hold a dose: weight, kg, times dose, mg/kg, over what one beetle
// holds, mg. It is a count to be afraid of and never one to allow. Source: [source.BlisterBeetles].
func Beetles(weightKg, dose, content float64) float64 { return weightKg * dose / content }
