package husbandry

import (
	"fmt"
	"math"
	"strings"

	"haywarden/agronomy/budget"
	"haywarden/agronomy/forage"
	"haywarden/agronomy/herd"
	"haywarden/agronomy/risk"
	"haywarden/agronomy/source"
	"haywarden/book"
)

// Forage is what is known of a forage that is to be priced.
type Forage struct {
	RFV float64 // points
	CP  float64 // % of dry matter
	NEL float64 // Mcal/lb of dry matter
	NDF float64 // % of dry matter
}

// Reference is the alfalfa that the published split of 200 $ hay is for; its RFV at 32 % ADF.
func Reference() Forage {
	k := budget.PublishedSplit()
	return Forage{RFV: math.Round(forage.PublishedFeedValue().Of(32, 100*k.NDF)), CP: 100 * k.CP, NEL: k.NEL, NDF: 100 * k.NDF}
}

// Check refuses what cannot be said of a forage.
func (f Forage) Check() error {
	for _, x := range []struct {
		what         string
		v, low, high float64
		unit         string
	}{{"RFV", f.RFV, 60, 250, "points"}, {"protein", f.CP, 4, 35, "% of dry matter"}, {"energy", f.NEL, 0.3, 0.9, "Mcal/lb"}, {"NDF", f.NDF, 20, 80, "% of dry matter"}} {
		if !(x.v >= x.low && x.v <= x.high) {
			return fmt.Errorf("%s %g: accepted %g to %g %s", x.what, x.v, x.low, x.high, x.unit)
		}
	}
	return nil
}

// The errors of a forage's test that carry over to its price (choice, from the usual differences between
// laboratories): RFV 8 points, protein 0.7 %, energy 0.02 Mcal/lb.
const (
	errRFV, errCP, errNEL = 8, 0.7, 0.02
	kgPound               = 0.45359237
)

// Lines lays the ways to price a ton of dry matter of a forage side by side. Ways that give less apart
// than their own errors are said to be level.
func Lines(v *book.View, f *book.FarmView, of Forage) Part {
	u := purse{v, f}
	p := Part{
		Key: "lines", Title: "A ton of dry matter by several price lines",
		Sources: []source.ID{source.HayPoint, source.TwoNutrients, source.NutrientFeeds, source.ThreeNutrients, source.NRC2001Energy, source.NoDifference},
	}
	var told []risk.Estimate
	var names []string
	add := func(what string, ton, e float64, from string) {
		p.row(what, ton, "$/ton DM", fmt.Sprintf("± %s; %s", Figure(e, "$"), from))
		told, names = append(told, risk.Estimate{Value: ton, Error: e}), append(names, what)
	}
	hay, okHay := u.hay(&p)
	if okHay {
		add("hay market by RFV", hay.At(of.RFV)/forage.PublishedHayDM, errRFV*hay.Line.PerPoint/forage.PublishedHayDM, fmt.Sprintf("RFV %.0f on the hay line", of.RFV))
	}
	for _, s := range []struct {
		scheme forage.Scheme
		prefix string
	}{{forage.USDA, "hay-usda-"}, {forage.TaskForce, "hay-task-force-"}} {
		grade, _ := forage.Grade(s.scheme, of.RFV)
		if price, ok := u.look(&p, s.prefix+strings.ToLower(grade)); ok {
			add("hay market by grade, "+string(s.scheme), price/forage.PublishedHayDM, 0, "grade "+grade)
		}
	}
	corn, ok1 := u.take(&p, book.Corn)
	meal, ok2 := u.take(&p, book.Meal)
	if ok1 && ok2 {
		k := budget.PublishedNutrients()
		if n, err := k.Prices(corn, meal); err != nil {
			p.note("corn and meal: %v", err)
		} else {
			add("energy and protein by corn and meal", n.Ton(of.NEL, of.CP/100), poundsATon*math.Hypot(n.Mcal*errNEL, n.Protein*errCP/100),
				fmt.Sprintf("$%.3f a Mcal, $%.3f a lb of protein; fibre has no price in it", n.Mcal, n.Protein))
		}
	}
	if okHay {
		ref := Reference()
		base := hay.At(ref.RFV) / forage.PublishedHayDM
		k := budget.PublishedSplit()
		e := base * math.Hypot(k.Protein*errCP/100/k.CP, k.Energy*errNEL/k.NEL)
		add("protein, energy and fibre, split as of alfalfa", k.Ton(base, of.NEL, of.CP/100, of.NDF/100), e, fmt.Sprintf("hay of RFV %.0f on the hay line", ref.RFV))
	}
	if milk, ok := u.take(&p, book.Milk); ok {
		perLb := herd.PublishedFatMilk().Energy(4) * kgPound
		add("its energy as milk of 4 % fat", poundsATon*of.NEL/perLb*milk/100, poundsATon*errNEL/perLb*milk/100, "all of it above upkeep, and nothing else fed for it: the most it can bring")
	}
	if len(told) > 1 {
		var level []string
		for i := range told {
			for j := range told[:i] {
				if d, err := risk.Tell(told[i], told[j], 0); err == nil && d.Told == risk.NoDifference {
					level = append(level, names[j]+" and "+names[i])
				}
			}
		}
		if len(level) > 0 {
			p.note("No difference within their errors between %s.", strings.Join(level, "; between "))
		}
	}
	if len(p.Rows) > 0 {
		p.Says = fmt.Sprintf("A ton of dry matter of RFV %.0f, protein %.0f %%, energy %.2f Mcal/lb, priced in %d ways.", of.RFV, of.CP, of.NEL, len(p.Rows))
	}
	return p
}
