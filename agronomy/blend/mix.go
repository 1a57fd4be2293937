package blend

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"haywarden/agronomy/unit"
	"haywarden/solve"
)

// Offer is a product with its price.
type Offer struct {
	Material Material
	PerTon   unit.DollarTon
	Step     float64 // lb that a dealer delivers at once, a bag or a ton; only orders look at it
}

// Field is what is to be spread on.
type Field struct {
	Name  string
	Acres unit.Acre
	Need  map[Nutrient]float64 // lb/ac, at least
	NMost float64              // lb/ac of nitrogen that may come along; +Inf: any
}

// Part is one product of a mix.
type Part struct {
	Material Material
	PerAcre  float64 // lb/ac
}

// Mix is the least costly blend for a field.
type Mix struct {
	Parts    []Part // those that are used
	CostAcre unit.DollarAcre
	Supplied map[Nutrient]float64 // lb/ac
	// Shadow is what one more pound an acre of each need costs, $; of N, what one more pound allowed
	// changes the cost by, never over 0. Nutrients that the field does not need have none.
	Shadow map[Nutrient]float64
}

// pounds in a short ton.
const pounds = 2000

// Cheapest returns the least costly mix for one acre of the field.
func Cheapest(f Field, offers []Offer, l Limits) (*Mix, error) {
	if err := sound([]Field{f}, offers, l); err != nil {
		return nil, err
	}
	p := solve.Least()
	at := make([]solve.Column, len(offers))
	for i, o := range offers {
		at[i] = p.Column(o.Material.ID, 0, math.Inf(1), float64(o.PerTon)/pounds)
	}
	rows := needs(p, f, offers, at, l, 1)
	a, err := solve.Solve(context.Background(), p, solve.Limits{})
	if err != nil {
		return nil, err
	}
	if a.Status != solve.Optimal {
		return nil, refused(f, p, a)
	}
	m := &Mix{CostAcre: unit.DollarAcre(a.Objective), Supplied: map[Nutrient]float64{}, Shadow: map[Nutrient]float64{}}
	for n, r := range rows {
		m.Shadow[n] = a.Price(r)
	}
	for i, o := range offers {
		if v := a.Value(at[i]); v > traces {
			m.Parts = append(m.Parts, Part{o.Material, v})
			for _, c := range o.Material.Contents {
				m.Supplied[c.Nutrient] += v * c.Share
			}
		}
	}
	return m, nil
}

// traces are amounts that nobody spreads, lb/ac.
const traces = 1e-6

// needs adds the rows of a field whose columns hold pounds on so many acres. It returns the row of
// each nutrient that is needed, and that of nitrogen where it is limited.
func needs(p *solve.Problem, f Field, offers []Offer, at []solve.Column, l Limits, acres float64) map[Nutrient]solve.Row {
	terms := func(n Nutrient) (list []solve.Term) {
		for i, o := range offers {
			if share := o.Material.Share(n); share > 0 {
				list = append(list, solve.Term{Column: at[i], Times: share})
			}
		}
		return list
	}
	rows := map[Nutrient]solve.Row{}
	for _, n := range Needed() {
		if need := f.Need[n]; need > 0 {
			rows[n] = p.AtLeast("need of "+n.Word(), need*acres, terms(n)...)
		}
	}
	if !math.IsInf(f.NMost, 1) {
		rows[N] = p.AtMost("limit of nitrogen", f.NMost*acres, terms(N)...)
	}
	p.AtMost("limit of boron", l.Boron*acres, terms(B)...)
	return rows
}

// sound refuses what makes no sense before anything is solved.
func sound(fields []Field, offers []Offer, l Limits) error {
	var ids []string
	for _, o := range offers {
		id := o.Material.ID
		if slices.Contains(ids, id) {
			return fmt.Errorf("prices: %s stands twice: give each product once", id)
		}
		ids = append(ids, id)
		if !(o.PerTon > 0) || math.IsInf(float64(o.PerTon), 0) {
			return fmt.Errorf("prices: %s %g $/ton: want a price over 0", id, float64(o.PerTon))
		}
	}
	for _, f := range fields {
		if !(f.Acres > 0) || math.IsInf(float64(f.Acres), 0) {
			return fmt.Errorf("%sacres %g: want an area over 0", of(f), float64(f.Acres))
		}
		if !(f.NMost >= 0) {
			return fmt.Errorf("%sn_max %g lb/ac: accepted 0 and over", of(f), f.NMost)
		}
		wanted := false
		for n, v := range f.Need {
			if !slices.Contains(Needed(), n) {
				return fmt.Errorf("%sneed of %q: accepted p2o5, k2o, s, mg and b", of(f), n)
			}
			if !(v >= 0) || math.IsInf(v, 0) {
				return fmt.Errorf("%sneed of %s %g lb/ac: accepted 0 and over", of(f), n.Word(), v)
			}
			wanted = wanted || v > 0
		}
		if b := f.Need[B]; b > l.Boron {
			return fmt.Errorf("%sneed of boron %g lb/ac: accepted 0 to %g a year, more can harm the stand and what follows it", of(f), b, l.Boron)
		}
		for _, n := range Needed() {
			if f.Need[n] > 0 && !slices.ContainsFunc(offers, func(o Offer) bool { return o.Material.Share(n) > 0 }) {
				return fmt.Errorf("%sneed of %s %g lb/ac: no product in prices carries %s; give the price of one that does: %s", of(f), n.Word(), f.Need[n], n.Word(), carriers(n))
			}
		}
		if !wanted {
			return fmt.Errorf("%sneed: nothing is needed; give at least one of p2o5, k2o, s, mg and b over 0", of(f))
		}
	}
	return nil
}

func of(f Field) string {
	if f.Name == "" {
		return ""
	}
	return "field " + f.Name + ": "
}

func carriers(n Nutrient) string {
	var ids []string
	for _, m := range PublishedMaterials() {
		if m.Share(n) > 0 {
			ids = append(ids, m.ID)
		}
	}
	return strings.Join(ids, ", ")
}

// refused says which needs and limits cannot be had together with the products on offer.
func refused(f Field, p *solve.Problem, a *solve.Answer) error {
	if a.Status != solve.Infeasible {
		return fmt.Errorf("%sthe mix could not be reckoned: %w", of(f), errors.Join(a.Why, errors.New(a.Status.String())))
	}
	var rows []string
	for _, r := range a.Blame.Rows {
		rows = append(rows, p.RowName(r))
	}
	return fmt.Errorf("%sno mix of these products meets the %s together: raise the limit of nitrogen, or give the price of a product without it: triple superphosphate, muriate of potash, gypsum", of(f), strings.Join(rows, " and the "))
}
