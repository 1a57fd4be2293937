// Package losses follows a cut crop from the standing stem to the cow as a mass balance: each step
// (mowing, breathing, rain, tedding, raking, baling, chopping, and what package storage adds) takes a
// share of the dry matter that enters it, and what is taken has a composition of its own. So leaves
// that shatter raise the fibre of what is left, and sugar that is breathed away raises fibre and
// protein alike.
//
// Shares are parts of the dry matter entering a step, 0 to 1. Fibre and protein are % of dry matter,
// moistures % of fresh weight (wet basis) unless a name says otherwise.
package losses

import (
	"fmt"
	"math"

	"haywarden/agronomy/forage"
	"haywarden/agronomy/unit"
)

// Composition is what dry matter is made of, in % of it. ADF is a part of NDF.
type Composition struct{ NDF, ADF, CP float64 }

// Feed is an amount of dry matter, in any unit of mass or of mass by area, and what it is made of.
type Feed struct {
	DM float64
	Composition
}

// Check refuses what is no forage.
func (f Feed) Check() error {
	if !(f.DM > 0) || math.IsInf(f.DM, 1) {
		return fmt.Errorf("dry matter %g; it must be over 0", f.DM)
	}
	if err := forage.CheckFibre(unit.PercentDM(f.ADF), unit.PercentDM(f.NDF)); err != nil {
		return err
	}
	switch {
	case !(f.CP >= 2 && f.CP <= 40):
		return fmt.Errorf("protein %g %% of dry matter; accepted 2 to 40", f.CP)
	case f.NDF+f.CP > 100:
		return fmt.Errorf("NDF %g and protein %g together pass 100 %% of dry matter: check which is which", f.NDF, f.CP)
	}
	return nil
}

// RFV is the relative feed value.
func (f Feed) RFV() float64 { return forage.PublishedFeedValue().Of(f.ADF, f.NDF) }

// The pools that dry matter is cut into; they do not overlap, so that each balances by itself.
const (
	acidFibre  = iota // ADF
	otherFibre        // the rest of NDF
	protein
	other // sugars, starch, acids, fat and minerals
	pools
)

type masses [pools]float64

func (f Feed) masses() masses {
	return masses{f.DM * f.ADF / 100, f.DM * (f.NDF - f.ADF) / 100, f.DM * f.CP / 100, f.DM * (100 - f.NDF - f.CP) / 100}
}

func (m masses) sum() float64 { return m[acidFibre] + m[otherFibre] + m[protein] + m[other] }

// feed is the way back; of nothing, the composition is zero.
func (m masses) feed() Feed {
	dm := m.sum()
	if dm <= 0 {
		return Feed{}
	}
	pct := func(v float64) float64 { return 100 * v / dm }
	return Feed{DM: dm, Composition: Composition{NDF: pct(m[acidFibre] + m[otherFibre]), ADF: pct(m[acidFibre]), CP: pct(m[protein])}}
}

// Take removes a share, 0 to 1, of the dry matter, the removed being of composition made:
//
//	after = (before - share*made) / (1 - share)   for each component
//
// A pool gives no more than it holds: what it lacks is taken from the others in proportion to what
// they still hold, so that nothing falls below 0 however the composition is guessed.
// Source: [source.MassBalance].
func (f Feed) Take(share float64, made Composition) (after, lost Feed, err error) {
	if !(share >= 0 && share < 1) {
		return Feed{}, Feed{}, fmt.Errorf("share lost %g; accepted 0 to under 1", share)
	}
	const dust = 1e-6 // what rounding leaves of a crop whose last solubles are gone
	if !(made.ADF >= 0 && made.NDF >= made.ADF-dust && made.CP >= 0 && made.NDF+made.CP <= 100+dust) {
		return Feed{}, Feed{}, fmt.Errorf("what is lost has NDF %g, ADF %g and protein %g %%: want ADF within NDF and all within 100", made.NDF, made.ADF, made.CP)
	}
	have := f.masses()
	for i := range have {
		have[i] = max(0, have[i])
	}
	gone := Feed{DM: f.DM * share, Composition: made}.masses()
	var lacking, spare float64
	for i := range have {
		if gone[i] > have[i] {
			lacking += gone[i] - have[i]
			gone[i] = have[i]
		}
		spare += have[i] - gone[i]
	}
	left := have
	for i := range have {
		if lacking > 0 && spare > 0 {
			gone[i] += lacking * (have[i] - gone[i]) / spare
		}
		left[i] = max(0, have[i]-gone[i])
	}
	return left.feed(), gone.feed(), nil
}
