package losses

import (
	"fmt"
	"math"
)

// Tissue is what the parts of a crop are made of, and how much of the standing crop is leaf.
type Tissue struct {
	Leaf, Stem Composition
	Leached    Composition // what rain washes out
	LeafShare  float64     // of the standing dry matter
}

// PublishedTissue returns alfalfa's parts. Fibre and protein of leaf and stem are recalled
// ([source.LeafStem]), the leaf's ADF is measured ([source.LeafADF]), and the stem's is what a crop of
// NDF 40 and ADF 30 leaves for it. Leaf is half of the standing crop ([source.LeafHalf]).
func PublishedTissue() Tissue {
	return Tissue{
		Leaf: Composition{NDF: 22, ADF: 15.8, CP: 28}, Stem: Composition{NDF: 55, ADF: 42, CP: 11},
		Leached: Composition{CP: 12}, LeafShare: 0.5,
	}
}

// Made says what a loss consists of; the parts add to 1.
type Made struct {
	Leaf, Stem float64
	Breathed   float64 // sugars breathed or fermented away: neither fibre nor protein
	Leached    float64 // solubles washed out by rain
	Protein    float64 // protein broken down, as the hay's own share of it beside sugars
	Whole      float64 // crop as it is
}

func (m Made) check() error {
	for _, v := range []float64{m.Leaf, m.Stem, m.Breathed, m.Leached, m.Protein, m.Whole} {
		if !(v >= 0) {
			return fmt.Errorf("a part of a loss is %g; it must be 0 or more", v)
		}
	}
	if sum := m.Leaf + m.Stem + m.Breathed + m.Leached + m.Protein + m.Whole; math.Abs(sum-1) > 1e-9 {
		return fmt.Errorf("the parts of a loss add to %g; want 1", sum)
	}
	return nil
}

// Of is the composition of a loss from a crop.
func (t Tissue) Of(m Made, crop Composition) Composition {
	soluble := Composition{CP: crop.CP}
	var c Composition
	add := func(part float64, of Composition) {
		c.NDF += part * of.NDF
		c.ADF += part * of.ADF
		c.CP += part * of.CP
	}
	add(m.Leaf, t.Leaf)
	add(m.Stem, t.Stem)
	add(m.Leached, t.Leached)
	add(m.Protein, soluble)
	add(m.Whole, crop)
	return c
}

// leafy is the make-up of a machine loss of which the share of dry matter and the share of leaves are
// both known, the rest being stem.
func (t Tissue) leafy(dry, leaves float64) Made {
	if dry <= 0 {
		return Made{Whole: 1}
	}
	leaf := min(1, leaves*t.LeafShare/dry)
	return Made{Leaf: leaf, Stem: 1 - leaf}
}
