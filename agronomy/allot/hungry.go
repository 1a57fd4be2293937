package allot

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"haywarden/solve"
)

// Hungry says which groups no plan feeds, and what would.
type Hungry struct {
	Groups []string
	Short  []float64 // tons, by Groups; they can be shifted between groups that want the same quality
	Ways   []string  // what would feed them, each by itself
}

// Error says it in words.
func (h *Hungry) Error() string {
	var lacks []string
	for i, g := range h.Groups {
		lacks = append(lacks, fmt.Sprintf("%s by %.0f tons", g, math.Ceil(h.Short[i]-trace)))
	}
	return fmt.Sprintf("no plan feeds every group: short %s. What would do: %s", strings.Join(lacks, ", "), strings.Join(h.Ways, "; "))
}

// whyHungry finds the groups that go short and what would make a plan.
func whyHungry(ctx context.Context, a Ask) error {
	whole := a.Whole
	a.Whole, a.Sold = false, false
	short, err := shortage(ctx, a)
	if err != nil {
		return err
	}
	h := &Hungry{}
	for j, v := range short {
		if v <= trace {
			continue
		}
		g := a.Groups[j]
		h.Groups, h.Short = append(h.Groups, g.Name), append(h.Short, v)
		h.Ways = append(h.Ways, a.ways(ctx, j, v)...)
	}
	if len(h.Groups) > 0 {
		return h
	}
	if whole { // parted lots would do
		return fmt.Errorf("no plan of whole lots feeds every group, parted lots would: let lots be split, or give a price at which forage can be bought")
	}
	return fmt.Errorf("no plan was found, and no group is short: this is a fault in the program")
}

// ways are what would feed one group: buying, a looser bound, a smaller need.
func (a Ask) ways(ctx context.Context, j int, short float64) (ways []string) {
	g := a.Groups[j]
	tons := math.Ceil(short - trace)
	switch {
	case known(g.Buy) && a.Rule == ByBlend && known(g.Ceiling) && g.BuyNDF > g.Ceiling:
		ways = append(ways, fmt.Sprintf("forage for %s of NDF %g or less: what can be bought has %g", g.Name, g.Ceiling, g.BuyNDF))
	case a.Rule == ByBlend && known(g.Ceiling):
		ways = append(ways, fmt.Sprintf("%.0f tons of NDF %g or less bought for %s: give a price for them", tons, g.Ceiling, g.Name))
	case known(g.Floor):
		ways = append(ways, fmt.Sprintf("%.0f tons of RFQ %.0f or better bought for %s: give a price for them", tons, g.Floor, g.Name))
	default:
		ways = append(ways, fmt.Sprintf("%.0f tons bought for %s: give a price for them", tons, g.Name))
	}
	if w := a.looser(ctx, j); w != "" {
		ways = append(ways, w)
	}
	return append(ways, fmt.Sprintf("%.0f tons less eaten by %s", tons, g.Name))
}

// looser finds the strictest bound of a group at which it is fed, the shortage of the others being what
// it is.
func (a Ask) looser(ctx context.Context, j int) string {
	with := func(g Group) bool {
		b := a
		b.Groups = slices.Clone(a.Groups)
		b.Groups[j] = g
		short, err := shortage(ctx, b)
		return err == nil && short[j] <= trace
	}
	g := a.Groups[j]
	if a.Rule == ByFloor {
		var steps []float64
		for _, l := range a.Lots {
			if known(l.RFQ) && l.Tons > 0 && known(g.Floor) && l.RFQ < g.Floor {
				steps = append(steps, math.Floor(l.RFQ+0.5))
			}
		}
		slices.Sort(steps)
		for _, floor := range slices.Backward(slices.Compact(steps)) {
			if g.Floor = floor; with(g) {
				return fmt.Sprintf("a floor of RFQ %.0f for %s", floor, g.Name)
			}
		}
		return ""
	}
	if !known(g.Ceiling) {
		return ""
	}
	for ceiling := math.Floor(g.Ceiling) + 1; ceiling <= 75; ceiling++ {
		if g.Ceiling = ceiling; with(g) {
			return fmt.Sprintf("a ceiling of %.0f %% NDF for %s", ceiling, g.Name)
		}
	}
	return ""
}

// shortage is the least that groups go short of, by group.
func shortage(ctx context.Context, a Ask) ([]float64, error) {
	g := build(a, leastShort)
	least, err := solve.Solve(ctx, g.p, solve.Limits{})
	if err != nil {
		return nil, fmt.Errorf("allocation: %w", err)
	}
	if least.Status != solve.Optimal {
		return nil, fmt.Errorf("what is short could not be reckoned: %s", least.Status)
	}
	out := make([]float64, len(g.short))
	for j, c := range g.short {
		out[j] = least.Value(c)
	}
	return out, nil
}
