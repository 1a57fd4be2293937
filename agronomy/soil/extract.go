// Package soil holds what a soil test says for a legume stand: lime to be spread, phosphorus and
// potassium by each guide, what crops take away and manure brings, and what tissue tells.
//
// Guides of different states do not agree and are never averaged: each is asked by name, with its own
// buffer, extractant, depth and basis. A guide whose table could not be read refuses until it is loaded.
package soil

import (
	"fmt"

	"haywarden/agronomy/unit"
)

// PerPPM is how many pounds an acre one ppm of an element is in a slice of 6 2/3 in, which weighs two
// million pounds. Source: [source.SoilSlice].
const PerPPM = 2

// Oxides of the trade from the elements, by atomic masses.
const (
	P2O5PerP = 2.29137
	K2OPerK  = 1.20460
)

// Extraction turns tests by one extractant into another's. Sources: [source.SoilExtractants],
// [source.SoilExtractLab].
type Extraction struct {
	M3PerBray    float64 // 1.35
	M3PerAcetate float64 // 1.14
	BrayPerM3    float64 // 0.70, by a commercial laboratory; 1/1.35 is 0.741
	AcetatePerM3 float64 // 0.84, by the same; 1/1.14 is 0.877
}

// PublishedExtraction returns the printed factors.
func PublishedExtraction() Extraction {
	return Extraction{M3PerBray: 1.35, M3PerAcetate: 1.14, BrayPerM3: 0.70, AcetatePerM3: 0.84}
}

// Mehlich3P is a Bray test as Mehlich 3 would find it.
func (k Extraction) Mehlich3P(p unit.PPMBray) unit.PPMM3P {
	return unit.PPMM3P(k.M3PerBray * float64(p))
}

// Mehlich3K is an acetate test as Mehlich 3 would find it.
func (k Extraction) Mehlich3K(v unit.PPMAcetate) unit.PPMM3K {
	return unit.PPMM3K(k.M3PerAcetate * float64(v))
}

// Bray is a Mehlich 3 test as Bray would find it, by the inverse of the university's factor.
func (k Extraction) Bray(p unit.PPMM3P) unit.PPMBray { return unit.PPMBray(float64(p) / k.M3PerBray) }

// Acetate is a Mehlich 3 test as acetate would find it, by the inverse of the university's factor.
func (k Extraction) Acetate(v unit.PPMM3K) unit.PPMAcetate {
	return unit.PPMAcetate(float64(v) / k.M3PerAcetate)
}

// Phosphorus is a test of phosphorus by one of the extractants; just one of them is set.
type Phosphorus struct {
	Bray     *unit.PPMBray
	Mehlich3 *unit.PPMM3P
	Olsen    *unit.PPMOlsen
}

// AsBray is the test by Bray, and whether it was turned into it. An Olsen test cannot be.
func (p Phosphorus) AsBray(k Extraction) (v unit.PPMBray, turned bool, err error) {
	switch {
	case p.Bray != nil:
		return *p.Bray, false, nil
	case p.Mehlich3 != nil:
		return k.Bray(*p.Mehlich3), true, nil
	}
	return 0, false, fmt.Errorf("a phosphorus test by Bray P1 or Mehlich 3 is wanted: an Olsen test cannot be turned into one")
}

// AsMehlich3 is the test by Mehlich 3, and whether it was turned into it.
func (p Phosphorus) AsMehlich3(k Extraction) (v unit.PPMM3P, turned bool, err error) {
	switch {
	case p.Mehlich3 != nil:
		return *p.Mehlich3, false, nil
	case p.Bray != nil:
		return k.Mehlich3P(*p.Bray), true, nil
	}
	return 0, false, fmt.Errorf("a phosphorus test by Mehlich 3 or Bray P1 is wanted: an Olsen test cannot be turned into one")
}

// Potassium is a test of potassium by one of the extractants; just one of them is set.
type Potassium struct {
	Acetate  *unit.PPMAcetate
	Mehlich3 *unit.PPMM3K
}

// AsAcetate is the test by ammonium acetate, and whether it was turned into it.
func (v Potassium) AsAcetate(k Extraction) (unit.PPMAcetate, bool) {
	if v.Acetate != nil {
		return *v.Acetate, false
	}
	return k.Acetate(*v.Mehlich3), true
}

// AsMehlich3 is the test by Mehlich 3, and whether it was turned into it.
func (v Potassium) AsMehlich3(k Extraction) (unit.PPMM3K, bool) {
	if v.Mehlich3 != nil {
		return *v.Mehlich3, false
	}
	return k.Mehlich3K(*v.Acetate), true
}

// Capacity is how the exchange capacity is estimated: pounds an acre of each cation that make a meq, and the
// meq of acidity for a unit of buffer pH under 7. Source: [source.SoilCEC].
type Capacity struct{ K, Mg, Ca, Acid float64 }

// PublishedCapacity returns it.
func PublishedCapacity() Capacity { return Capacity{K: 780, Mg: 240, Ca: 400, Acid: 12} }

// Of estimates it from a test of K, Mg and Ca in lb an acre and the buffer pH. It is stated for a water pH up
// to 6.4: over it the cations count too much.
func (c Capacity) Of(k, mg, ca unit.PoundAcre, buffer float64) unit.MeqSoil {
	return unit.MeqSoil(float64(k)/c.K + float64(mg)/c.Mg + float64(ca)/c.Ca + c.Acid*max(0, 7-buffer))
}
