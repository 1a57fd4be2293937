package allot

import (
	"math"

	"haywarden/solve"
)

// programme is an ask as a linear or whole-number programme.
type programme struct {
	ask     Ask
	p       *solve.Problem
	feed    [][]solve.Column // by lot and group; -1 where the lot does not suit
	buy     []solve.Column   // by group; -1 where nothing can be bought
	short   []solve.Column   // by group: need that goes unmet; -1 where none may
	left    []solve.Column   // by lot; -1 unless sold
	supply  []solve.Row
	demand  []solve.Row
	ceiling []solve.Row // by group; -1 where it has none
}

const none = -1

// aim is what a programme seeks the least of.
type aim int

const (
	leastCost   aim = iota // dollars
	leastBought            // tons, bought for any group
	leastShort             // tons that a group goes short of, where buying is bound to the groups with a price
)

func build(a Ask, to aim) *programme {
	g := &programme{ask: a, p: solve.Least()}
	terms := make([][]solve.Term, len(a.Groups)) // of demand
	fibre := make([][]solve.Term, len(a.Groups)) // of the ceiling
	over := func(j int, ndf float64) float64 {
		if !known(ndf) {
			return 0
		}
		return ndf - a.Groups[j].Ceiling
	}
	for i, l := range a.Lots {
		row, used := make([]solve.Column, len(a.Groups)), []solve.Term{}
		size, faces := 1., []solve.Term{}
		if a.Whole && !a.Kept && l.Tons > 0 {
			size = l.Tons
		}
		for j, group := range a.Groups {
			row[j] = none
			if !a.suits(l, group) || a.Whole && l.Tons == 0 {
				continue
			}
			cost := 0.
			if to == leastCost {
				cost = size * (l.Worth[group.Name] * -1)
				if !a.Sold {
					cost += size * l.Value
				}
			}
			most := math.Inf(1) // the lot's own row bounds it: a bound here would take over its shadow price
			if a.Whole && !a.Kept {
				most = 1
			}
			row[j] = g.p.Column(l.Name+" to "+group.Name, 0, most, cost)
			switch {
			case a.Whole && a.Kept:
				open := g.p.Column(l.Name+" open to "+group.Name, 0, 1, 0)
				g.p.Whole(open)
				g.p.AtMost(l.Name+" to "+group.Name, 0, solve.Term{Column: row[j], Times: 1}, solve.Term{Column: open, Times: -l.Tons})
				faces = append(faces, solve.Term{Column: open, Times: 1})
			case a.Whole:
				g.p.Whole(row[j])
			}
			used = append(used, solve.Term{Column: row[j], Times: 1})
			terms[j] = append(terms[j], solve.Term{Column: row[j], Times: size})
			if known(group.Ceiling) {
				fibre[j] = append(fibre[j], solve.Term{Column: row[j], Times: size * over(j, l.NDF)})
			}
		}
		if g.feed = append(g.feed, row); len(faces) > 1 {
			g.p.AtMost("face of "+l.Name, 1, faces...)
		}
		g.left = append(g.left, none)
		if to == leastCost && a.Sold {
			g.left[i] = g.p.Column(l.Name+" left", 0, math.Inf(1), -l.Value*size)
			used = append(used, solve.Term{Column: g.left[i], Times: 1})
			g.supply = append(g.supply, g.p.Exactly(l.Name, l.Tons/size, used...))
			continue
		}
		g.supply = append(g.supply, g.p.AtMost(l.Name, l.Tons/size, used...))
	}
	for j, group := range a.Groups {
		g.buy, g.short, g.ceiling = append(g.buy, none), append(g.short, none), append(g.ceiling, none)
		if known(group.Buy) || a.Tons || to == leastBought {
			price := map[aim]float64{leastCost: group.Buy, leastBought: 1}[to]
			if a.Tons && to == leastCost {
				price = 1
			}
			g.buy[j] = g.p.Column("bought for "+group.Name, 0, math.Inf(1), price)
			terms[j] = append(terms[j], solve.Term{Column: g.buy[j], Times: 1})
			if known(group.Ceiling) {
				fibre[j] = append(fibre[j], solve.Term{Column: g.buy[j], Times: over(j, group.BuyNDF)})
			}
		}
		if to == leastShort {
			g.short[j] = g.p.Column(group.Name+" short", 0, math.Inf(1), 1)
			terms[j] = append(terms[j], solve.Term{Column: g.short[j], Times: 1})
		}
		if a.Whole && !a.Kept {
			g.demand = append(g.demand, g.p.AtLeast(group.Name, group.Tons, terms[j]...))
		} else {
			g.demand = append(g.demand, g.p.Exactly(group.Name, group.Tons, terms[j]...))
		}
		if a.Rule == ByBlend && known(group.Ceiling) {
			g.ceiling[j] = g.p.AtMost("NDF of "+group.Name, 0, fibre[j]...)
		}
	}
	return g
}
