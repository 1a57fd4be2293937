package allot

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"haywarden/solve"
)

// How long whole-lot plans are sought: branch and bound stops after wholeNodes, and the better of its plan
// and that of an exchange of lots stands. Choices: small herds are solved outright, and 60 lots by 12
// groups come within a hundredth in well under a second.
const (
	wholeNodes = 400
	wholeKicks = 6 // times that each group is emptied and filled anew
)

// whole finds the plan that parts no lot. The bound that it is held against is that of branch and bound,
// or of parted lots.
func (p *Plan) whole(ctx context.Context) error {
	g := build(p.Ask, leastCost)
	best, err := solve.Solve(ctx, g.p, solve.Limits{Nodes: wholeNodes})
	if err != nil {
		return fmt.Errorf("allocation: %w", err)
	}
	if best.Status == solve.Infeasible {
		return whyHungry(ctx, p.Ask)
	}
	if p.Ask.Kept {
		if !best.Found {
			return fmt.Errorf("no plan of one group a lot was found: %w; let lots be split", errors.Join(best.Why, errors.New(best.Status.String())))
		}
		p.read(g, best)
		p.Cost, p.near = best.Objective, best.Gap
		return nil
	}
	x := newExchange(p.Ask)
	if best.Found {
		p.read(g, best)
		x.start(p.Fed)
	}
	if best.Status != solve.Optimal {
		x.seek()
	}
	if !best.Found && x.unmet() {
		return fmt.Errorf("no plan of whole lots was found: %w; let lots be split, or give a price at which forage can be bought", errors.Join(best.Why, errors.New(best.Status.String())))
	}
	x.tell(p)
	bound := max(best.Bound, p.Split)
	p.near = max(0, p.Cost-bound) / max(1, math.Abs(p.Cost))
	return nil
}

// exchange seeks a better plan of whole lots by moving one lot or changing two over, as long as that pays.
type exchange struct {
	ask   Ask
	at    []int // group of each lot, none where it is left
	tons  []float64
	fibre []float64 // tons x points over the ceiling, by group
}

func newExchange(a Ask) *exchange {
	x := &exchange{ask: a, at: make([]int, len(a.Lots)), tons: make([]float64, len(a.Groups)), fibre: make([]float64, len(a.Groups))}
	for i := range x.at {
		x.at[i] = none
	}
	return x
}

func (x *exchange) start(fed [][]float64) {
	for i, row := range fed {
		for j, v := range row {
			if v > 0 {
				x.put(i, j)
			}
		}
	}
}

// put moves a lot to a group, or to none.
func (x *exchange) put(i, to int) {
	if from := x.at[i]; from != none {
		x.tons[from] -= x.ask.Lots[i].Tons
		x.fibre[from] -= x.over(i, from)
	}
	if to != none {
		x.tons[to] += x.ask.Lots[i].Tons
		x.fibre[to] += x.over(i, to)
	}
	x.at[i] = to
}

func (x *exchange) over(i, j int) float64 {
	l, g := x.ask.Lots[i], x.ask.Groups[j]
	if x.ask.Rule != ByBlend || !known(g.Ceiling) {
		return 0
	}
	return l.Tons * (l.NDF - g.Ceiling)
}

// unmetCost is dearer than any forage, $ a ton or a ton-point that no purchase mends.
const unmetCost = 1e7

// purchase is what is bought for a group, and what that leaves unmet in tons and ton-points.
func (x *exchange) purchase(j int) (tons, unmet float64) {
	g := x.ask.Groups[j]
	lack := max(0, g.Tons-x.tons[j])
	if !known(g.Buy) && !x.ask.Tons {
		return 0, lack + max(0, x.fibre[j])
	}
	if x.ask.Rule != ByBlend || !known(g.Ceiling) {
		return lack, 0
	}
	finer := 0.
	if known(g.BuyNDF) {
		finer = g.Ceiling - g.BuyNDF
	}
	if finer > 0 {
		return max(lack, x.fibre[j]/finer), 0
	}
	return lack, max(0, x.fibre[j]-finer*lack)
}

// groupCost is what a group costs beside its lots.
func (x *exchange) groupCost(j int) float64 {
	tons, unmet := x.purchase(j)
	price := 1.
	if !x.ask.Tons {
		if price = x.ask.Groups[j].Buy; !known(price) {
			price = 0
		}
	}
	if unmet < trace {
		unmet = 0
	}
	return tons*price + unmet*unmetCost
}

// cost is that of the whole plan, the value of a lot being the cost of feeding it.
func (x *exchange) cost() (sum float64) {
	for j := range x.tons {
		sum += x.groupCost(j)
	}
	for i, j := range x.at {
		if j != none {
			sum += x.ask.Lots[i].Value * x.ask.Lots[i].Tons
		}
	}
	return sum
}

func (x *exchange) unmet() bool {
	for j := range x.tons {
		if _, unmet := x.purchase(j); unmet > trace {
			return true
		}
	}
	return false
}

// saves makes a change, lots to groups, where that pays, and takes it back where it does not.
func (x *exchange) saves(moves ...[2]int) bool {
	var groups []int
	for _, m := range moves {
		for _, j := range []int{x.at[m[0]], m[1]} {
			if j != none && !slices.Contains(groups, j) {
				groups = append(groups, j)
			}
		}
	}
	cost := func() (sum float64) {
		for _, j := range groups {
			sum += x.groupCost(j)
		}
		for _, m := range moves {
			if l := x.ask.Lots[m[0]]; x.at[m[0]] != none {
				sum += l.Value * l.Tons
			}
		}
		return sum
	}
	before := cost()
	back := make([]int, len(moves))
	for k, m := range moves {
		back[k] = x.at[m[0]]
		x.put(m[0], m[1])
	}
	if cost() < before-1e-7*max(1, math.Abs(before)) {
		return true
	}
	for k, m := range moves {
		x.put(m[0], back[k])
	}
	return false
}

// descend changes lots over as long as that pays.
func (x *exchange) descend() {
	for again := true; again; {
		again = false
		for i, l := range x.ask.Lots {
			for j := none; j < len(x.ask.Groups); j++ {
				if j != x.at[i] && (j == none || x.ask.suits(l, x.ask.Groups[j])) && x.saves([2]int{i, j}) {
					again = true
				}
			}
			for k := range i {
				a, b := x.at[i], x.at[k]
				if a == b || b != none && !x.ask.suits(l, x.ask.Groups[b]) || a != none && !x.ask.suits(x.ask.Lots[k], x.ask.Groups[a]) {
					continue
				}
				if x.saves([2]int{i, b}, [2]int{k, a}) {
					again = true
				}
			}
		}
	}
}

// seek descends, then empties one group after another, and the next with it, and descends anew, keeping
// what is cheaper.
func (x *exchange) seek() {
	x.descend()
	best := x.cost()
	for kick := range wholeKicks * len(x.ask.Groups) {
		was := slices.Clone(x.at)
		first, second := kick%len(x.ask.Groups), (kick+1+kick/len(x.ask.Groups))%len(x.ask.Groups)
		for i, j := range was {
			if j == first || j == second {
				x.put(i, none)
			}
		}
		x.descend()
		if c := x.cost(); c < best-1e-9*max(1, math.Abs(best)) {
			best = c
			continue
		}
		for i, j := range was {
			x.put(i, j)
		}
	}
}

// tell hands the plan over.
func (x *exchange) tell(p *Plan) {
	p.Fed, p.Purchase, p.Over = nil, make([]float64, len(x.tons)), make([]float64, len(x.at))
	for i, j := range x.at {
		row := make([]float64, len(x.tons))
		if j != none {
			row[j] = x.ask.Lots[i].Tons
		} else {
			p.Over[i] = x.ask.Lots[i].Tons
		}
		p.Fed = append(p.Fed, row)
	}
	for j := range x.tons {
		p.Purchase[j], _ = x.purchase(j)
	}
	p.Cost = x.cost()
	if x.ask.Sold {
		p.Cost -= p.stockValue()
	}
}
