package storage

import (
	"fmt"
	"math"

	"haywarden/agronomy/losses"
)

// Fill is the crop in a tower.
type Fill string

// The fills whose towers were tabled.
const (
	HaylageFill    Fill = "haylage"
	CornSilageFill Fill = "corn-silage"
)

// Fills lists them.
func Fills() []string { return []string{string(HaylageFill), string(CornSilageFill)} }

// TowerLine is the mean density of a tower by its settled depth, lb of dry matter/ft3: Top + PerFoot*h.
type TowerLine struct{ Top, PerFoot float64 }

// Towers are the lines of haylage and corn silage. Source: [source.TowerDensity].
type Towers struct{ Haylage, CornSilage TowerLine }

// PublishedTowers returns the lines.
func PublishedTowers() Towers {
	return Towers{Haylage: TowerLine{5.90, 0.10}, CornSilage: TowerLine{8.0, 0.15}}
}

// Of returns the line of a fill; haylage where none is named.
func (t Towers) Of(f Fill) TowerLine {
	if f == CornSilageFill {
		return t.CornSilage
	}
	return t.Haylage
}

// Mean is the density of the top h feet, lb of dry matter/ft3.
func (l TowerLine) Mean(h float64) float64 { return l.Top + l.PerFoot*h }

// Tons is the dry matter left in a tower. The top feet of any tower pack like a tower of that depth, so
// that what is left is the whole less a tower as deep as was removed. Derived from the line.
func (l TowerLine) Tons(b Body) float64 {
	upTo := func(h float64) float64 { return round(b.Diameter) * h * l.Mean(h) / poundsATon }
	return upTo(b.Height) - upTo(b.Removed)
}

const poundsATon = 2000

// Packing predicts the density of a bunker or pile.
//
//	factor  = (Weight/Layer) * sqrt(Tractors*DM/Rate)
//	density = (Loose + PerFactor*factor) * (Shallow + PerDepth*depth)
//
// That weight, layer, packing time, dry matter and depth make the density: [source.PackingForm]; the
// four coefficients are recalled ([source.PackingLine]). Over 175 silos the factor explained 18 % of what
// differed ([source.PackingTrust]), so the answer is given with Around of itself either way, a choice,
// and a core or a weighed volume goes before it.
type Packing struct {
	Loose, PerFactor, Shallow, PerDepth float64
	Around                              float64 // share of the density
}

// PublishedPacking returns the coefficients.
func PublishedPacking() Packing {
	return Packing{Loose: 8.5, PerFactor: 0.0155, Shallow: 0.818, PerDepth: 0.0136, Around: 0.2}
}

// Crew is who packs and how.
type Crew struct {
	Weight   float64 // mean weight of the packing tractors, lb
	Layer    float64 // thickness of what is spread before it is packed, in
	Tractors float64 // packing all the time; one that pushes half the time counts half
	DM       float64 // dry matter of the crop, 0 to 1
	Rate     float64 // delivered, tons as fed an hour
	Depth    float64 // mean depth of silage, ft
}

func (c Crew) check(rate bool) error {
	for _, x := range []struct {
		name      string
		v         float64
		low, high float64
		unit      string
	}{
		{"weight", c.Weight, 1000, 150000, "lb"}, {"layer", c.Layer, 1, 48, "in"}, {"tractors", c.Tractors, 0.1, 20, "tractors"},
		{"dm", c.DM, 0.15, 0.75, "(a share)"}, {"depth", c.Depth, 1, 60, "ft"}, {"rate", c.Rate, 1, 1000, "tons as fed an hour"},
	} {
		if x.name == "rate" && !rate {
			continue
		}
		if !(x.v >= x.low && x.v <= x.high) {
			return fmt.Errorf("%s %g: accepted %g to %g %s", x.name, x.v, x.low, x.high, x.unit)
		}
	}
	return nil
}

// Factor is the packing factor.
func (c Crew) Factor() float64 { return c.Weight / c.Layer * math.Sqrt(c.Tractors*c.DM/c.Rate) }

// Density is what a crew packs to, lb of dry matter/ft3, with its range.
func (k Packing) Density(c Crew) (losses.Range, error) {
	if err := c.check(true); err != nil {
		return losses.Range{}, err
	}
	mid := (k.Loose + k.PerFactor*c.Factor()) * (k.Shallow + k.PerDepth*c.Depth)
	return losses.Range{Low: mid * (1 - k.Around), Mid: mid, High: mid * (1 + k.Around)}, nil
}

// Pace is how fast a crew may deliver.
type Pace struct {
	ByFactor float64 // tons as fed an hour that still pack to the goal by the packing factor; +Inf: any
	ByWeight float64 // tons as fed an hour by the rule of weight
}

// poundsAnHour is the tractor weight that packs a ton as fed an hour ([source.PackingRule]).
const poundsAnHour = 800

// Pace is the rate at which a crew still reaches a density. Solving the factor for the rate:
// Rate = Tractors*DM*(Weight/(Layer*factor))^2. The rule of weight knows neither layer nor depth.
func (k Packing) Pace(c Crew, goal, perTon float64) (Pace, error) {
	if err := c.check(false); err != nil {
		return Pace{}, err
	}
	if !(goal >= 4 && goal <= 40) || !(perTon > 0) {
		return Pace{}, fmt.Errorf("goal %g lb/ft3: accepted 4 to 40", goal)
	}
	p := Pace{ByFactor: math.Inf(1), ByWeight: c.Weight * c.Tractors / perTon}
	if want := (goal/(k.Shallow+k.PerDepth*c.Depth) - k.Loose) / k.PerFactor; want > 0 {
		p.ByFactor = c.Tractors * c.DM * math.Pow(c.Weight/(c.Layer*want), 2)
	}
	return p, nil
}

// PoundWorth is what one more pound of dry matter a cubic foot saves of a bunker's loss, tons of dry
// matter of what is put in, at a density: nothing beyond the ends of the printed table.
func (k SilageStore) PoundWorth(tons, density float64) float64 {
	return tons * (k.ByDensity(density) - k.ByDensity(density+1)) / 100
}
