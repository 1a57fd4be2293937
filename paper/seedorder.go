package paper

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"haywarden/advice"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/outlook"
)

// orderLine is one lot of the list, for all fields that take it.
type orderLine struct {
	name          string
	pure, pounds  float64
	bag, price    float64
	known, bought bool
	by            unit.Day // the first of its fields wants it
	fields        []string
}

// SeedOrder is a farm's list of seed for its planned seedings: each lot with its pounds and whole bags over
// all fields, by when to order it, and the fields it is for.
func SeedOrder(f *book.FarmView, o *outlook.Outlook, stands []advice.StandAdvice, invented bool) ([]byte, error) {
	p := Tabled{Title: "Seed order, " + f.Name, Sources: []source.ID{source.PureLiveSeed, source.SeedsPerPound, source.HardSeed, source.CoatedSeed, source.SeedLotsApart}}
	fields := Table{Title: "Fields", Head: []string{"Field", "Acres", "Crop", "When", "Seed", "Pure live lb/ac", "As bagged lb/ac"}, Right: []bool{false, true, false, false, false, true, true}}
	var lines []*orderLine
	refused := []string{}
	for _, sa := range stands {
		stopped := slices.ContainsFunc(sa.Pieces, func(p *advice.Piece) bool { return p.Decision == "do-not-reseed" })
		for i := range sa.Stand.Plans {
			plan := &sa.Stand.Plans[i]
			field := sa.Stand.InField.Name
			if stopped && plan.SowsAlfalfa() {
				refused = append(refused, fmt.Sprintf("%s: alfalfa is not ordered for %s, as old alfalfa is in the way", field, advice.Season(plan.Plan.Body.Season, plan.Plan.Body.Year)))
				continue
			}
			for _, l := range plan.Seed() {
				lines = tally(lines, l, field, plan)
				bagged := ""
				if l.Known {
					bagged = fmt.Sprintf("%.1f", float64(l.Bought.Rate))
				}
				fields.Rows = append(fields.Rows, []string{field, advice.Acres(plan.Acres), string(plan.Plan.Body.Crop), fmt.Sprintf("%s, %s", advice.Season(plan.Plan.Body.Season, plan.Plan.Body.Year), advice.Span(plan.Window.Early, plan.Window.Late)), l.Named(), fmt.Sprintf("%.1f", l.Offer.PureLb), bagged})
			}
		}
	}
	p.Notes = append(p.Notes, refused...)
	if len(lines) == 0 {
		p.Says = fmt.Sprintf("On %s no seeding is planned for which seed is to be ordered.", dated(o.Date))
		return Tables(p, o.Date, invented)
	}
	p.Says = fmt.Sprintf("Seed for the seedings planned as of %s. Whole bags are counted over all fields of a lot.", dated(o.Date))
	order, total, priced := orderTable(lines)
	if priced {
		p.Says += fmt.Sprintf(" What is not yet ordered costs $%.0f at the prices entered.", total)
	}
	p.Tables = []Table{order, fields}
	for _, l := range lines {
		if !l.known {
			p.Notes = append(p.Notes, l.name+": the tag is not known; ask for purity, germination, hard seed and coating before you count bags")
		}
	}
	p.Notes = append(p.Notes, "Pounds are by the tag: read it again on the bag, and set the seeder by what it says. Legume seed wants fresh inoculant of its own strain, unless it is treated.")
	return Tables(p, o.Date, invented)
}

func tally(lines []*orderLine, l outlook.SeedLot, field string, plan *outlook.Planned) []*orderLine {
	bought := plan.Plan.Body.Ordered
	i := slices.IndexFunc(lines, func(o *orderLine) bool {
		return o.name == l.Named() && o.known == l.Known && o.bought == bought && o.bag == l.Bought.BagLb && o.price == l.Offer.PriceLb
	})
	if i < 0 {
		i = len(lines)
		lines = append(lines, &orderLine{name: l.Named(), known: l.Known, bought: bought, bag: l.Bought.BagLb, price: l.Offer.PriceLb, by: plan.OrderBy()})
	}
	o := lines[i]
	o.pure += l.Pure
	o.pounds += l.Bought.Pounds
	o.by = min(o.by, plan.OrderBy())
	if !slices.Contains(o.fields, field) {
		o.fields = append(o.fields, field)
	}
	return lines
}

// orderTable sets the lots; total is what those not yet ordered cost, where all of them have a price.
func orderTable(lines []*orderLine) (t Table, total float64, priced bool) {
	t = Table{Title: "Order", Head: []string{"Seed", "Pounds", "Bags", "Cost, $", "Order by", "For"}, Right: []bool{false, true, true, true, false, false}}
	priced = true
	for _, l := range lines {
		row := []string{l.name, fmt.Sprintf("%.0f pure live", l.pure), "", "", dated(l.by), strings.Join(l.fields, ", ")}
		if l.bought {
			row[4] = "ordered"
		}
		if l.known {
			bags := math.Ceil(l.pounds/l.bag - 1e-9)
			row[1], row[2] = fmt.Sprintf("%.0f", l.pounds), fmt.Sprintf("%.0f of %.0f lb", bags, l.bag)
			if l.price > 0 {
				cost := bags * l.bag * l.price
				row[3] = fmt.Sprintf("%.0f", cost)
				if !l.bought {
					total += cost
				}
			}
		}
		priced = priced && (l.bought || row[3] != "")
		t.Rows = append(t.Rows, row)
	}
	return t, total, priced && total > 0
}
