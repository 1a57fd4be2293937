package herd

import (
	"errors"
	"fmt"
	"math"
)

const (
	daysAYear   = 365
	poundsATon  = 2000
	kgAPound    = 0.45359237
	mostHead    = 100_000
	mostIntake  = 100 // lb dry matter a head and day
	mostOfYield = 20  // tons DM/ac
)

// Group is a pen of animals fed alike.
type Group struct {
	Name        string
	Head        float64
	IntakeLb    float64   // dry matter a head and day, lb
	ForageShare float64   // of the dry matter
	Parts       []float64 // of the forage, by the forages of the plan; the rest is bought or grazed
}

// Losses are what is lost on the way from standing crop to mouth, each as a share of what comes to
// that step: of a ton stored, Storage is lost, so that fed tons are divided by what is left, never
// multiplied by what is lost.
type Losses struct{ Field, Storage, Feeding float64 }

// Forage is a crop of the plan.
type Forage struct {
	Name    string
	Yield   float64 // standing, tons DM/ac a year
	Losses  Losses
	Reserve float64 // kept over a year's need, as a share of it
}

// Tons is the year's need of one forage.
type Tons struct {
	Fed    float64 // eaten, tons DM
	Stored float64 // put into store for it, feeding and storage losses and the reserve in it, tons DM
	Cut    float64 // standing crop for it, tons DM
	Acres  float64
}

// Need is a herd's year.
type Need struct {
	Forage  float64 // all forage eaten, tons DM
	Forages []Tons  // by forage of the plan
}

// Year adds up what the groups eat in a year and the acres that grow it. Source: [source.HerdNeed].
func Year(groups []Group, forages []Forage) (Need, error) {
	if len(groups) == 0 {
		return Need{}, errors.New("no group is given: want one at least, with its head")
	}
	n := Need{Forages: make([]Tons, len(forages))}
	head := 0.0
	for i, g := range groups {
		if err := g.check(len(forages)); err != nil {
			return Need{}, fmt.Errorf("group %d %s: %w", i+1, g.Name, err)
		}
		head += g.Head
		tons := g.Head * g.IntakeLb * g.ForageShare * daysAYear / poundsATon
		n.Forage += tons
		for j, part := range g.Parts {
			n.Forages[j].Fed += tons * part
		}
	}
	if head == 0 {
		return Need{}, errors.New("no animal in any group: head accepted over 0 in one group at least")
	}
	for j, f := range forages {
		if err := f.check(); err != nil {
			return Need{}, fmt.Errorf("forage %d %s: %w", j+1, f.Name, err)
		}
		t := &n.Forages[j]
		t.Stored = t.Fed * (1 + f.Reserve) / (1 - f.Losses.Feeding) / (1 - f.Losses.Storage)
		t.Cut = t.Stored / (1 - f.Losses.Field)
		t.Acres = t.Cut / f.Yield
	}
	return n, nil
}

func (g Group) check(forages int) error {
	for _, x := range []struct {
		name  string
		v     float64
		most  float64
		whole bool
	}{{"head", g.Head, mostHead, true}, {"lb of dry matter a head and day", g.IntakeLb, mostIntake, false}, {"forage share", g.ForageShare, 1, false}} {
		switch {
		case !(x.v >= 0 && x.v <= x.most):
			return fmt.Errorf("%s %g: accepted 0 to %g", x.name, x.v, x.most)
		case x.whole && x.v != math.Trunc(x.v):
			return fmt.Errorf("%s %g: accepted whole numbers", x.name, x.v)
		}
	}
	if len(g.Parts) != forages {
		return fmt.Errorf("%d parts of the forage for %d forages: want one for each", len(g.Parts), forages)
	}
	sum := 0.0
	for _, p := range g.Parts {
		if !(p >= 0 && p <= 1) {
			return fmt.Errorf("part of the forage %g: accepted 0 to 1", p)
		}
		sum += p
	}
	const rounding = 1e-9
	if sum > 1+rounding {
		return fmt.Errorf("the parts of the forage add to %.4g: accepted up to 1", sum)
	}
	return nil
}

func (f Forage) check() error {
	if !(f.Yield > 0 && f.Yield <= mostOfYield) {
		return fmt.Errorf("yield %g tons/ac: accepted over 0 to %d", f.Yield, mostOfYield)
	}
	for _, l := range []struct {
		name  string
		value float64
	}{{"field loss", f.Losses.Field}, {"storage loss", f.Losses.Storage}, {"feeding loss", f.Losses.Feeding}} {
		if !(l.value >= 0 && l.value < 1) {
			return fmt.Errorf("%s %g: accepted 0 to under 1", l.name, l.value)
		}
	}
	if !(f.Reserve >= 0) || math.IsInf(f.Reserve, 1) {
		return fmt.Errorf("reserve %g: accepted 0 and over", f.Reserve)
	}
	return nil
}

// ForageLimit is the most forage a cow of a weight can eat, in the weight's unit a day, at a share of
// her weight, %, taken as forage fibre: share/100 W / (ndf/100). Source: [source.ForageFibre].
func ForageLimit(weight, ndf, share float64) float64 { return share / 100 * weight / (ndf / 100) }
