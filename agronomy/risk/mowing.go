package risk

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// Mowing is what a wrong guess at the acres to lay down costs, $ an acre.
type Mowing struct {
	Short float64 // ready, could have been harvested dry, and was not mown
	Over  float64 // mown and rained on before it was harvested
}

func (m Mowing) check() error {
	if !finite(m.Short, m.Over) || m.Short < 0 || m.Over < 0 || m.Short+m.Over == 0 {
		return fmt.Errorf("cost of an acre short %g and of an acre over %g: accepted 0 and over, and one of them over 0", m.Short, m.Over)
	}
	return nil
}

// Ratio is the chance of harvesting too few acres that the best acreage leaves: Short/(Short+Over).
func (m Mowing) Ratio() float64 { return m.Short / (m.Short + m.Over) }

// Spell is how many acres can be harvested before the rain comes: either a list with chances or a
// bell curve.
type Spell interface {
	// enough is the fewest acres that hold the spell's harvest with at least the chance ratio.
	enough(ratio float64) float64
	// off is the acres expected to be mown in vain, and those missed, with so many mown.
	off(acres float64) (over, short float64)
}

// Listed is a [Spell] as a list of acres with their chances.
type Listed struct{ acres, chances []float64 }

// NewListed checks a list of acres and their chances.
func NewListed(acres, chances []float64) (Listed, error) {
	if len(acres) == 0 || len(acres) != len(chances) {
		return Listed{}, fmt.Errorf("%d acres and %d chances: want one chance for each, and one at least", len(acres), len(chances))
	}
	for i, a := range acres {
		if !(a >= 0) || math.IsInf(a, 1) {
			return Listed{}, fmt.Errorf("acres %d is %g: accepted 0 and over", i+1, a)
		}
	}
	if err := whole(chances); err != nil {
		return Listed{}, err
	}
	return Listed{slices.Clone(acres), slices.Clone(chances)}, nil
}

func (l Listed) enough(ratio float64) float64 {
	order := make([]int, len(l.acres))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(l.acres[i], l.acres[j]) })
	sum := 0.0
	for _, i := range order {
		if sum += l.chances[i]; sum >= ratio-rounding {
			return l.acres[i]
		}
	}
	return l.acres[order[len(order)-1]]
}

func (l Listed) off(acres float64) (over, short float64) {
	for i, h := range l.acres {
		over += l.chances[i] * max(0, acres-h)
		short += l.chances[i] * max(0, h-acres)
	}
	return over, short
}

// Bell is a [Spell] that scatters normally. Its left end reaches below 0, where no acres are: use it
// only where the mean is well over the spread.
type Bell struct{ Mean, SD float64 }

// NewBell checks a mean and a standard deviation, acres.
func NewBell(mean, sd float64) (Bell, error) {
	if !finite(mean, sd) || mean < 0 || !(sd > 0) {
		return Bell{}, fmt.Errorf("acres harvested before rain with mean %g and standard deviation %g: accepted mean 0 and over, standard deviation over 0", mean, sd)
	}
	return Bell{mean, sd}, nil
}

func (b Bell) enough(ratio float64) float64 {
	return b.Mean + b.SD*distuv.UnitNormal.Quantile(ratio)
}

func (b Bell) off(acres float64) (over, short float64) {
	z := (acres - b.Mean) / b.SD
	missed := distuv.UnitNormal.Prob(z) - z*distuv.UnitNormal.Survival(z) // E[max(Z - z, 0)]
	return b.SD * (z + missed), b.SD * missed
}

// Mown is the best acreage.
type Mown struct {
	Acres    float64
	Cost     float64 // expected of being over and short, $
	Uncapped float64 // acres if the crew had no limit
	CapCost  float64 // what the limit costs, $
}

// Cost is the expected cost, $, of mowing so many acres.
func (m Mowing) Cost(s Spell, acres float64) float64 {
	over, short := s.off(acres)
	return m.Over*over + m.Short*short
}

// Best is the acreage with the least expected cost: the smallest Q with F(Q) >= Short/(Short+Over),
// no more than the crew can handle. capacity +Inf is no limit. Source: [source.Newsvendor].
func (m Mowing) Best(s Spell, capacity float64) (Mown, error) {
	if err := m.check(); err != nil {
		return Mown{}, err
	}
	if !(capacity >= 0) {
		return Mown{}, fmt.Errorf("acres the crew can handle %g: accepted 0 and over", capacity)
	}
	r := m.Ratio()
	if _, bell := s.(Bell); bell && (r == 0 || r == 1) {
		return Mown{}, fmt.Errorf("cost of an acre short %g and over %g: with one of them 0 a bell curve has no best acreage; accepted both over 0", m.Short, m.Over)
	}
	best := max(0, s.enough(r))
	q := min(best, capacity)
	cost := m.Cost(s, q)
	return Mown{Acres: q, Cost: cost, Uncapped: best, CapCost: max(0, cost-m.Cost(s, best))}, nil
}
