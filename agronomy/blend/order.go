package blend

import (
	"context"
	"fmt"
	"math"

	"haywarden/agronomy/unit"
	"haywarden/solve"
)

// Line is one product of an order.
type Line struct {
	Material Material
	Steps    int     // bags, or loads of the dealer's step
	Pounds   float64 // Steps of the offer's step
	Cost     float64 // $
}

// Order is what to buy for several fields in whole steps, and what goes where.
type Order struct {
	Lines    []Line
	Spread   [][]Part // by field, lb/ac
	Cost     float64  // $
	Exact    float64  // $, were any amount delivered
	Rounding float64  // $, what whole steps cost: Cost - Exact
	Gap      float64  // the order is within this part of the best one
}

// orderGap is how near to the best order is near enough: within a thousandth. A choice.
const orderGap = 1e-3

// Ordered returns the least costly order that meets every field's needs. What a step holds beyond the
// needs stays in the shed or is spread, as the limits allow. When the context ends first, the best order
// so far is returned with its gap.
func Ordered(ctx context.Context, fields []Field, offers []Offer, l Limits) (*Order, error) {
	if len(fields) == 0 {
		return nil, fmt.Errorf("fields: none given; want at least one")
	}
	if err := sound(fields, offers, l); err != nil {
		return nil, err
	}
	o := &Order{}
	for _, f := range fields {
		m, err := Cheapest(f, offers, l) // tells which field cannot be met, and its exact cost
		if err != nil {
			return nil, err
		}
		o.Exact += float64(m.CostAcre) * float64(f.Acres)
	}
	p := solve.Least()
	steps := make([]solve.Column, len(offers))
	bought := make([][]solve.Term, len(offers))
	for i, offer := range offers {
		if !(offer.Step > 0) || math.IsInf(offer.Step, 0) {
			return nil, fmt.Errorf("%s is delivered in steps of %g lb: want a step over 0", offer.Material.ID, offer.Step)
		}
		steps[i] = p.Column(offer.Material.ID, 0, math.Inf(1), float64(offer.PerTon)/pounds*offer.Step)
		p.Whole(steps[i])
		bought[i] = []solve.Term{{Column: steps[i], Times: -offer.Step}}
	}
	at := make([][]solve.Column, len(fields))
	for k, f := range fields {
		at[k] = make([]solve.Column, len(offers))
		for i, offer := range offers {
			at[k][i] = p.Column(f.Name+" "+offer.Material.ID, 0, math.Inf(1), 0)
			bought[i] = append(bought[i], solve.Term{Column: at[k][i], Times: 1})
		}
		needs(p, f, offers, at[k], l, float64(f.Acres))
	}
	for i, offer := range offers {
		p.AtMost("bought "+offer.Material.ID, 0, bought[i]...)
	}
	a, err := solve.Solve(ctx, p, solve.Limits{Gap: orderGap})
	if err != nil {
		return nil, err
	}
	if !a.Found {
		return nil, fmt.Errorf("the order could not be reckoned in time: %w", a.Why)
	}
	o.Cost, o.Gap = a.Objective, a.Gap
	o.Rounding = max(0, o.Cost-o.Exact)
	for i, offer := range offers {
		if n := math.Round(a.Value(steps[i])); n > 0 {
			o.Lines = append(o.Lines, Line{offer.Material, int(n), n * offer.Step, n * offer.Step * float64(offer.PerTon) / pounds})
		}
	}
	for k, f := range fields {
		o.Spread = append(o.Spread, spread(f.Acres, offers, at[k], a))
	}
	return o, nil
}

func spread(acres unit.Acre, offers []Offer, at []solve.Column, a *solve.Answer) (parts []Part) {
	for i, offer := range offers {
		if v := a.Value(at[i]) / float64(acres); v > traces {
			parts = append(parts, Part{offer.Material, v})
		}
	}
	return parts
}
