package allot

import (
	"context"
	"errors"
	"fmt"
	"math"

	"haywarden/solve"
)

// The columns of a plan beside the groups, and its row beside the lots.
const (
	Bought = "bought"
	Left   = "left"
)

// Plan is who eats what.
type Plan struct {
	Ask      Ask
	Cost     float64     // $; tons bought where no prices were given
	Fed      [][]float64 // by lot and group, tons
	Purchase []float64   // by group, tons
	Over     []float64   // by lot, tons left
	// Saves is by how much one more ton of each lot lowers the cost: what it is worth beyond its value,
	// or all it is worth where what is left is sold. Needs is by how much one more ton for each group
	// raises it; Points by how much one point more of NDF allowed to all that the group eats lowers it.
	// All are nil where lots go whole: then the cost moves in steps, and Split says what parting saves.
	Saves, Needs, Points []float64
	Split                float64 // cost were lots parted; of a whole plan
	Gaps                 Gaps
	near                 float64 // a whole plan is within this part of the best
}

// Gaps tells a lack of tons from a lack of quality.
type Gaps struct {
	Quantity float64 // tons needed over all tons there are
	Quality  float64 // tons that would have to be bought beyond that, for what there is does not suit
}

// Share finds the cheapest plan. Where no plan feeds every group the error is a [*Hungry].
func Share(ctx context.Context, a Ask) (*Plan, error) {
	if err := a.check(); err != nil {
		return nil, err
	}
	split := a
	split.Whole = false
	g := build(split, leastCost)
	best, err := solve.Solve(ctx, g.p, solve.Limits{})
	if err != nil {
		return nil, fmt.Errorf("allocation: %w", err)
	}
	if best.Status == solve.Infeasible {
		return nil, whyHungry(ctx, a)
	}
	if best.Status != solve.Optimal {
		return nil, fmt.Errorf("the allocation could not be reckoned: %w", errors.Join(best.Why, errors.New(best.Status.String())))
	}
	p := &Plan{Ask: a, Cost: best.Objective, Split: best.Objective}
	if p.Gaps, err = gaps(ctx, split); err != nil {
		return nil, err
	}
	if a.Whole {
		return p, p.whole(ctx)
	}
	p.price(g, best)
	if a.Rule == ByBlend {
		p.read(g, best) // a blend is not judged by RFQ, so that none is wasted
		return p, nil
	}
	// Of all plans of the least cost, the one that wastes the least quality is told.
	frugal, err := solve.Solve(ctx, g.frugal(best.Objective), solve.Limits{})
	if err != nil {
		return nil, fmt.Errorf("allocation: %w", err)
	}
	if frugal.Status == solve.Optimal {
		best = frugal
	}
	p.read(g, best)
	return p, nil
}

// price takes the shadow prices over.
func (p *Plan) price(g *programme, a *solve.Answer) {
	p.Saves, p.Needs, p.Points = make([]float64, len(g.supply)), make([]float64, len(g.demand)), make([]float64, len(g.demand))
	for i, r := range g.supply {
		p.Saves[i] = -a.Price(r)
	}
	for j, r := range g.demand {
		if p.Needs[j] = a.Price(r); g.ceiling[j] != none {
			p.Points[j] = -a.Price(g.ceiling[j]) * p.Ask.Groups[j].Tons
		}
	}
}

// trace is less than anybody weighs, tons.
const trace = 1e-6

// read takes the tons over.
func (p *Plan) read(g *programme, a *solve.Answer) {
	value := func(c solve.Column) float64 {
		if c == none {
			return 0
		}
		if v := a.Value(c); v > trace {
			return v
		}
		return 0
	}
	p.Fed, p.Purchase, p.Over = nil, make([]float64, len(g.buy)), make([]float64, len(g.feed))
	for i, l := range p.Ask.Lots {
		row := make([]float64, len(g.buy))
		p.Over[i] = l.Tons
		for j := range row {
			if row[j] = value(g.feed[i][j]); g.ask.Whole && !g.ask.Kept {
				row[j] = math.Round(row[j]) * l.Tons
			}
			p.Over[i] -= row[j]
		}
		if p.Fed = append(p.Fed, row); p.Over[i] < trace {
			p.Over[i] = 0
		}
	}
	for j := range g.buy {
		p.Purchase[j] = value(g.buy[j])
	}
}

// frugal is the same programme held to its least cost, seeking the least points of RFQ fed over what the
// groups want.
func (g *programme) frugal(least float64) *solve.Problem {
	f := build(g.ask, leastCost)
	var cost, waste []solve.Term
	add := func(c solve.Column, price, points float64) {
		if c == none {
			return
		}
		cost = append(cost, solve.Term{Column: c, Times: price})
		waste = append(waste, solve.Term{Column: c, Times: points})
	}
	for i, l := range g.ask.Lots {
		for j, group := range g.ask.Groups {
			price, points := -l.Worth[group.Name], 0.
			if !g.ask.Sold {
				price += l.Value
			}
			if known(l.RFQ) {
				points = l.RFQ
				if known(group.Floor) {
					points = max(0, l.RFQ-group.Floor)
				}
			}
			add(f.feed[i][j], price, points)
		}
		add(f.left[i], -l.Value, 0)
	}
	for j, group := range g.ask.Groups {
		price := group.Buy
		if g.ask.Tons {
			price = 1
		}
		add(f.buy[j], price, 0)
	}
	spent := f.p.Column("points fed over", 0, math.Inf(1), 1)
	f.p.AtMost("least cost", least+1e-9*max(1, math.Abs(least)), cost...)
	f.p.AtMost("points", 0, append(waste, solve.Term{Column: spent, Times: -1})...)
	return f.p
}

// gaps are the tons that are short and the tons that do not suit.
func gaps(ctx context.Context, a Ask) (Gaps, error) {
	var have, need float64
	for _, l := range a.Lots {
		have += l.Tons
	}
	for _, g := range a.Groups {
		need += g.Tons
	}
	least, err := solve.Solve(ctx, build(a, leastBought).p, solve.Limits{})
	if err != nil {
		return Gaps{}, fmt.Errorf("allocation: %w", err)
	}
	if least.Status != solve.Optimal {
		return Gaps{}, fmt.Errorf("the gaps could not be reckoned: %w", errors.Join(least.Why, errors.New(least.Status.String())))
	}
	quantity := max(0, need-have)
	quality := least.Objective - quantity
	if quality < trace {
		quality = 0
	}
	return Gaps{Quantity: quantity, Quality: quality}, nil
}
