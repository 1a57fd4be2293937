package losses

import (
	"fmt"

	"haywarden/agronomy/source"
)

// Baler is the machine that bales.
type Baler string

// The balers whose losses differ.
const (
	SmallSquare Baler = "small-square"
	Round       Baler = "round"
	LargeSquare Baler = "large-square"
)

// Balers lists them.
func Balers() []string { return []string{string(SmallSquare), string(Round), string(LargeSquare)} }

// Handling is what a machine takes at each moisture, % of fresh weight: a share of the dry matter and
// a share of the crop's leaves, and the ends between which sources put it.
type Handling struct{ Dry, Leaves Line }

// Machines holds what each pass over the crop takes.
type Machines struct {
	Mowing         Range   // [source.MowingLoss]
	MowingLeaves   float64 // share of the leaves
	Merging        Range   // turning and merging; whole crop: [source.MergingLoss]
	Chopping       Range   // whole crop: [source.ChoppingLoss]
	TeddingWet     float64 // of alfalfa over TeddingWetAt % moisture: [source.TeddingLoss]
	TeddingDry     float64 // of alfalfa as dry as TeddingDryAt
	TeddingWetAt   float64
	TeddingDryAt   float64
	TeddingLow     float64
	TeddingGrass   Range
	Raking, Baling Handling // [source.MoistureTables]
	RakingTypical  float64  // where its moisture is not known: [source.RakingLoss]
	RakingEnds     Range
	SquareEnds     Range // baling, small and large squares; the middle is for a usual moisture
	RoundEnds      Range
	RakingYield    float64 // t/ha at which the raking table holds: [source.RakingYield]
	RakingLeast    float64 // factor for heavy crops
	RakingMost     float64 // factor for thin ones
}

// PublishedMachines returns the losses.
func PublishedMachines() Machines {
	return Machines{
		Mowing: Range{0.01, 0.02, 0.07}, MowingLeaves: 0.03,
		Merging: Range{0.01, 0.01, 0.03}, Chopping: Range{0.01, 0.03, 0.08},
		TeddingWet: 0.04, TeddingDry: 0.15, TeddingWetAt: 50, TeddingDryAt: 20, TeddingLow: 0.03,
		TeddingGrass: Range{0.02, 0.025, 0.03},
		Raking: Handling{
			Dry:    Line{{20, 0.12}, {33, 0.07}, {50, 0.03}, {60, 0.02}},
			Leaves: Line{{20, 0.21}, {33, 0.12}, {50, 0.05}, {60, 0.03}},
		},
		Baling: Handling{
			Dry:    Line{{12, 0.06}, {20, 0.04}, {25, 0.03}},
			Leaves: Line{{12, 0.08}, {20, 0.06}, {25, 0.04}},
		},
		RakingTypical: 0.05, RakingEnds: Range{Low: 0.01, High: 0.20},
		SquareEnds: Range{0.02, 0.04, 0.06}, RoundEnds: Range{0.03, 0.06, 0.09},
		RakingYield: 4, RakingLeast: 0.6, RakingMost: 1.8,
	}
}

// halfToTwice is the range of a loss read off a table by moisture: half to twice, no further than the
// ends printed for all moistures together. A choice.
func halfToTwice(mid float64, ends Range) Range {
	return Range{Low: max(ends.Low, mid/2), Mid: mid, High: min(ends.High, mid*2)}.within()
}

// mowing is cutting with a conditioner behind the knife.
func (k Machines) mowing(t Tissue) Loss {
	return Loss{Name: "mowing", Share: k.Mowing, Made: t.leafy(k.Mowing.Mid, k.MowingLeaves), Sources: []source.ID{source.MowingLoss}}
}

func (k Machines) merging() Loss {
	return Loss{Name: "merging", Share: k.Merging, Made: Made{Whole: 1}, Sources: []source.ID{source.MergingLoss}}
}

func (k Machines) chopping() Loss {
	return Loss{Name: "chopping", Share: k.Chopping, Made: Made{Whole: 1}, Sources: []source.ID{source.ChoppingLoss}}
}

// tedding of a legume shatters leaves, the more the drier; grass hardly minds.
func (k Machines) tedding(moisture float64, crop Crop) Loss {
	l := Loss{Name: "tedding", Sources: []source.ID{source.TeddingLoss}}
	if crop == Grass {
		l.Share, l.Made = k.TeddingGrass, Made{Whole: 1}
		return l
	}
	dry := Line{{k.TeddingDryAt, k.TeddingDry}, {k.TeddingWetAt, k.TeddingWet}}
	l.Share = halfToTwice(dry.At(moisture), Range{Low: k.TeddingLow, High: k.TeddingDry})
	l.Made = Made{Leaf: 1}
	return l
}

// rakingByYield is the factor of a yield in t/ha: thin crops lose a greater part to the rake.
func (k Machines) rakingByYield(yield float64) float64 {
	return min(max(k.RakingYield/yield, k.RakingLeast), k.RakingMost)
}

func (k Machines) raking(moisture, yield float64, t Tissue) Loss {
	dry := k.Raking.Dry.At(moisture)
	return Loss{
		Name: "raking", Share: halfToTwice(dry*k.rakingByYield(yield), k.RakingEnds),
		Made: t.leafy(dry, k.Raking.Leaves.At(moisture)), Sources: []source.ID{source.MoistureTables, source.RakingYield},
	}
}

// rakingUsual is raking of hay where the moisture at the rake is not known. Its leaves are those of
// the moisture at which the table gives the same loss.
func (k Machines) rakingUsual(yield float64, t Tissue) Loss {
	d := k.Raking.Dry
	back := make(Line, len(d))
	for i, p := range d {
		back[len(d)-1-i].X, back[len(d)-1-i].Y = p.Y, p.X
	}
	l := k.raking(back.At(k.RakingTypical), yield, t)
	l.Share = halfToTwice(k.RakingTypical*k.rakingByYield(yield), k.RakingEnds)
	l.Sources = []source.ID{source.RakingLoss, source.RakingYield, source.MoistureTables}
	return l
}

// baling reads the table at a moisture; a round baler turns the hay in its chamber for longer and
// loses more, in proportion to what is usual of each.
func (k Machines) baling(moisture float64, by Baler, t Tissue) (Loss, error) {
	ends, more := k.SquareEnds, 1.0
	switch by {
	case SmallSquare, LargeSquare:
	case Round:
		ends, more = k.RoundEnds, k.RoundEnds.Mid/k.SquareEnds.Mid
	default:
		return Loss{}, fmt.Errorf("baler %q; accepted small-square, round or large-square", by)
	}
	dry := k.Baling.Dry.At(moisture)
	return Loss{
		Name: "baling", Share: halfToTwice(dry*more, ends), Made: t.leafy(dry, k.Baling.Leaves.At(moisture)),
		Sources: []source.ID{source.MoistureTables, source.BalerEnds},
	}, nil
}
