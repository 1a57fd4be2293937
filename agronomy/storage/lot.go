package storage

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"haywarden/agronomy/source"
)

// Stored is what kind of lot is sampled.
type Stored string

// The kinds.
const (
	BaledHay    Stored = "hay"
	BigSquares  Stored = "big-squares" // of some 400 kg
	SilageStock Stored = "silage"      // haylage and baleage
)

// Protocol says how a lot is sampled.
type Protocol struct {
	Least  int    // cores or handfuls
	Usual  int    // where one has the time
	What   string // core or handful
	Steps  []string
	Told   Told // for silage: sampling at the face can kill
	Source source.ID
}

// A lot is one field, cutting and stage, baled within LotHours, of at most LotTons.
// Source: [source.HayProbe].
const (
	LotTons  = 200
	LotHours = 48
)

// Lots is how many lots a stack of one cutting must be sampled as.
func Lots(tons, hoursToBale float64) (int, error) {
	if !(tons > 0 && tons <= 1e6) || !(hoursToBale >= 0 && hoursToBale <= 5000) {
		return 0, fmt.Errorf("%g tons baled over %g hours; accepted over 0 to 1000000 tons and 0 to 5000 hours", tons, hoursToBale)
	}
	return int(max(1, math.Ceil(tons/LotTons), math.Ceil(hoursToBale/LotHours))), nil
}

// UsualCores is how many cores or handfuls a sample is taken to hold where nobody says.
const UsualCores = 20

// ProtocolFor returns the way to sample. Sources: [source.HayProbe], [source.BigSquareCores],
// [source.SilageHandfuls].
func ProtocolFor(s Stored) (Protocol, error) {
	hay := []string{
		"Keep to one lot: one field, cutting and stage, baled within 48 hours, at most 200 tons.",
		"Take bales at random from all sides and heights of the stack, neither choosing nor sparing any; one core a bale.",
		"Use a sharp hollow probe of 3/8 to 5/8 in bore, its tip square to the shaft; no auger.",
		"Square bales: middle of the butt end, straight in, 12 to 18 in deep. Round bales: straight into the rounded side.",
		"Put all cores, 1/3 to 1/2 lb, into one bag, seal it, keep it cool and send it at once. Never split unground hay: the laboratory grinds all of it.",
	}
	switch s {
	case BaledHay:
		return Protocol{Least: 20, Usual: UsualCores, What: "core", Steps: hay, Source: source.HayProbe}, nil
	case BigSquares:
		return Protocol{Least: 12, Usual: UsualCores, What: "core", Steps: hay, Source: source.BigSquareCores}, nil
	case SilageStock:
		return Protocol{
			Least: 15, Usual: UsualCores, What: "handful", Source: source.SilageHandfuls,
			Steps: []string{
				"Have the loader bring silage down and away from the face, and mix it.",
				"Take handfuls all over the heap, mix them, press the air out, seal, cool or freeze, and send at once.",
			},
			Told: tell("Sample from the loader's heap, never from the face.", FaceCanCollapse),
		}, nil
	}
	return Protocol{}, fmt.Errorf("stored as %q; accepted hay, big-squares or silage", s)
}

// Sampling is a test of a lot: so many cores mixed into each sample, so many samples tested, and how
// far cores and analyses of one sample scatter, as standard deviations.
type Sampling struct {
	CoreSD, LabSD float64
	Cores, Tests  int
}

func (s Sampling) check() error {
	if !(s.CoreSD >= 0 && s.LabSD >= 0) || s.CoreSD == 0 && s.LabSD == 0 || math.IsInf(s.CoreSD+s.LabSD, 1) {
		return fmt.Errorf("spread between cores %g and of the laboratory %g; want 0 or more, and not both 0", s.CoreSD, s.LabSD)
	}
	if s.Cores < 1 || s.Tests < 1 {
		return fmt.Errorf("%d cores and %d tests; want at least 1 of each", s.Cores, s.Tests)
	}
	return nil
}

// SE is the standard error of the mean of the tests: sqrt(core^2/cores + lab^2)/sqrt(tests), the cores
// being those of each sample. Source: [source.LotError].
func (s Sampling) SE() (float64, error) {
	if err := s.check(); err != nil {
		return 0, err
	}
	return math.Sqrt((s.CoreSD*s.CoreSD/float64(s.Cores) + s.LabSD*s.LabSD) / float64(s.Tests)), nil
}

// ChanceOver is the chance that the lot truly lies over a target when the tests average value, nothing
// else being known of the lot.
func (s Sampling) ChanceOver(value, target float64) (float64, error) {
	se, err := s.SE()
	if err != nil {
		return 0, err
	}
	return distuv.UnitNormal.CDF((value - target) / se), nil
}

// SafeValue is what the tests must average so that the lot lies over a target with a chance.
func (s Sampling) SafeValue(target, chance float64) (float64, error) {
	se, err := s.SE()
	if err != nil {
		return 0, err
	}
	if !(chance > 0 && chance < 1) {
		return 0, fmt.Errorf("chance %g; accepted between 0 and 1", chance)
	}
	return target + se*distuv.UnitNormal.Quantile(chance), nil
}

// confident is the two-sided 95 % point of the normal distribution, as protocols round it.
const confident = 1.96

// Apart is the least difference between two lots, both tested so, that is no accident at 95 %.
func (s Sampling) Apart() (float64, error) {
	se, err := s.SE()
	return confident * math.Sqrt2 * se, err
}

// CoresFor is how many cores bring the half-width of the 95 % interval, leaving the laboratory aside,
// down to a size.
func CoresFor(coreSD, halfWidth float64) (int, error) {
	n := math.Ceil(math.Pow(confident*coreSD/halfWidth, 2))
	if !(coreSD >= 0 && halfWidth > 0) || !(n <= 1e6) {
		return 0, fmt.Errorf("spread %g and half-width %g; want a spread from 0 and a half-width over 0 that at most a million cores reach", coreSD, halfWidth)
	}
	return int(max(1, n)), nil
}
