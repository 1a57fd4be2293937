// Package seeding reckons with seed before and after it is in the ground: what a bag holds that will
// grow, how many pounds reach a goal, how late one may sow, how many seedlings live, and whether new
// alfalfa will stand where old alfalfa stood.
package seeding

import (
	"fmt"
	"strings"

	"haywarden/agronomy/unit"
)

// sqFeet in an acre.
const sqFeet = 43560

// Species is what is sown.
type Species struct {
	Name        string
	SeedsPerLb  unit.SeedsPound // of bare seed; a lot's own count is better where it is known
	AloneLow    unit.PoundAcre  // usual rate in a pure stand
	AloneHigh   unit.PoundAcre
	MixtureLow  unit.PoundAcre // usual rate in a mixture
	MixtureHigh unit.PoundAcre
}

// PublishedSpecies returns the species table. Source: [source.SeedsPerPound].
func PublishedSpecies() []Species {
	return []Species{
		{"alfalfa", 199000, 15, 20, 8, 15},
		{"red-clover", 275000, 8, 10, 2, 6},
		{"ladino-clover", 700000, 3, 5, 1, 2},
		{"alsike-clover", 680000, 6, 8, 2, 4},
		{"birdsfoot-trefoil", 375000, 4, 8, 2, 6},
		{"orchardgrass", 654000, 8, 12, 4, 6},
		{"tall-fescue", 230000, 12, 14, 6, 12},
		{"timothy", 1230000, 8, 10, 2, 8},
		{"smooth-brome", 136000, 8, 14, 4, 10},
		{"reed-canarygrass", 533000, 12, 14, 6, 8},
		{"perennial-ryegrass", 227000, 10, 12, 5, 6},
	}
}

// SpeciesNamed finds a species in the table.
func SpeciesNamed(name string) (Species, error) {
	var names []string
	for _, s := range PublishedSpecies() {
		if s.Name == name {
			return s, nil
		}
		names = append(names, s.Name)
	}
	return Species{}, fmt.Errorf("species %q: accepted: %s", name, strings.Join(names, ", "))
}

// Lot is a lot of seed as its tag tells it, shares of 0 to 1.
//
//	pls = Purity * (1 - Coating) * (Germination + HardCounts * Hard)
//
// A tag's purity already leaves the coat out: then Coating is 0. It is more than 0 only where the
// purity is that of the bare seed. Sources: [source.PureLiveSeed], [source.HardSeed], [source.CoatedSeed].
type Lot struct {
	SeedsPerLb  unit.SeedsPound // of bare seed
	Purity      unit.Share
	Germination unit.Share // without hard seed
	Hard        unit.Share
	Coating     unit.Share
	HardCounts  unit.Share // of the hard seed taken as live: 1 by the tag's convention, 0.5 is cautious
}

// Check says what in a lot cannot be.
func (l Lot) Check() error {
	for _, s := range []struct {
		name string
		v    unit.Share
	}{{"germination", l.Germination}, {"hard", l.Hard}, {"hard seed counted", l.HardCounts}} {
		if !(s.v >= 0 && s.v <= 1) {
			return fmt.Errorf("%s %g: accepted 0 to 1", s.name, s.v)
		}
	}
	switch {
	case !(l.Purity > 0 && l.Purity <= 1):
		return fmt.Errorf("purity %g: accepted more than 0 to 1", l.Purity)
	case !(l.Coating >= 0 && l.Coating < 1):
		return fmt.Errorf("coating %g: accepted 0 to less than 1", l.Coating)
	case l.Germination+l.Hard > 1+1e-9:
		return fmt.Errorf("germination %g and hard %g are over 1 together: give germination without hard seed", l.Germination, l.Hard)
	case !(l.SeedsPerLb > 0):
		return fmt.Errorf("seeds_per_lb %g: want more than 0", l.SeedsPerLb)
	}
	return nil
}

// PureLive is the share of what is in the bag, by weight, that is live seed.
func (l Lot) PureLive() unit.Share {
	return l.Purity * (1 - l.Coating) * (l.Germination + l.HardCounts*l.Hard)
}

// CoatTwice reports whether the coat looks as if it were taken off twice: purity as a coated tag
// prints it, and the coating beside it.
func (l Lot) CoatTwice() bool { return l.Coating > 0 && l.Purity+l.Coating <= 1.05 }

// Sown is what a rate lays on the ground.
type Sown struct {
	Seeds    unit.PerFt2 // all seeds, inert matter not taken off
	Live     unit.PerFt2
	PureLive unit.Share
}

// At reckons what a rate of bagged seed lays down.
func (l Lot) At(rate unit.PoundAcre) (Sown, error) {
	if err := l.Check(); err != nil {
		return Sown{}, err
	}
	laid := float64(rate) * float64(l.SeedsPerLb) / sqFeet
	pls := l.PureLive()
	return Sown{Seeds: unit.PerFt2(laid * float64(1-l.Coating)), Live: unit.PerFt2(laid * float64(pls)), PureLive: pls}, nil
}

// ForLive is the rate of bagged seed that lays down so many live seeds a square foot.
func (l Lot) ForLive(goal unit.PerFt2) (unit.PoundAcre, error) {
	return l.ForPure(unit.PoundAcre(float64(goal) * sqFeet / float64(l.SeedsPerLb)))
}

// ForPure is the rate of bagged seed that holds so many pounds of pure live seed.
func (l Lot) ForPure(pls unit.PoundAcre) (unit.PoundAcre, error) {
	if err := l.Check(); err != nil {
		return 0, err
	}
	share := l.PureLive()
	if share <= 0 {
		return 0, fmt.Errorf("germination %g: nothing in this lot is alive; want more than 0", l.Germination)
	}
	return unit.PoundAcre(float64(pls) / float64(share)), nil
}
