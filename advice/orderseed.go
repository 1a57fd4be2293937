package advice

import (
	"fmt"
	"math"
	"strings"

	"haywarden/agronomy/source"
	"haywarden/outlook"
)

// orderSpoken is how many days before the day of order it is spoken of (choice).
const orderSpoken = 45

// OrderSeed says what seed a planned seeding wants, in bags, and by when to order it.
func OrderSeed(s *outlook.Stand, _ *outlook.Outlook) *Piece {
	for i := range s.Plans {
		p := &s.Plans[i]
		by := p.OrderBy()
		if p.Plan.Body.Ordered || s.Date < by-orderSpoken || s.Date > p.Window.Late {
			continue
		}
		out := &Piece{Decision: "order-seed", Stand: s, Urgency: Watch, Title: "Order seed by " + Short(by)}
		switch {
		case s.Date > by:
			out.Urgency, out.Title = Week, "Order seed now"
		case by-s.Date <= 7:
			out.Urgency = Week
		}
		out.Window = &Window{Early: by - orderSpoken, Middle: by, Late: max(by, s.Date), Best: max(by, s.Date), Means: "seed is ordered in time", Firm: true}
		lots := p.Seed()
		out.Sentence = fmt.Sprintf("%s acres of %s are planned for %s: %s.", Acres(p.Acres), p.Plan.Body.Crop, Season(p.Plan.Body.Season, p.Plan.Body.Year), lotWords(lots))
		out.Worth.Text = orderCost(lots)
		var lacks []string
		for _, l := range lots {
			g := Ground{What: Capital(l.Named()), Sources: []source.ID{source.PureLiveSeed, source.SeedsPerPound}}
			g.Value = fmt.Sprintf("%.1f lb of pure live seed an acre", l.Offer.PureLb)
			g.How = "the tag is not known: bagged pounds are not reckoned"
			if l.Known {
				g.Value += fmt.Sprintf(", %.1f lb as bagged; %.0f lb in %d bags of %.0f lb", float64(l.Bought.Rate), l.Bought.Pounds, l.Bought.Bags, l.Bought.BagLb)
				g.How = fmt.Sprintf("purity x germination with hard seed = %.3f", float64(l.Bought.PureLive))
				g.Reckon = l.Reckon(p.Acres)
			} else {
				lacks = append(lacks, l.Named())
			}
			out.Grounds = append(out.Grounds, g)
			if len(l.Others) > 0 {
				g := Ground{What: "Lots of " + l.Named() + " side by side", Value: strings.Join(l.Others, "; "), How: "dollars a million live seeds; within 3 % they are no different", Sources: []source.ID{source.SeedLotsApart}}
				out.Grounds = append(out.Grounds, g)
			}
		}
		if len(lacks) > 0 {
			out.Measure = "the tag of " + strings.Join(lacks, " and ") + ": purity, germination, hard seed and the size of a bag"
		}
		out.Rules = []Rule{{Says: "seed is ordered six weeks before it is sown", Here: "by " + Short(by), Source: source.SeedOrder}}
		return out
	}
	return nil
}

func lotWords(lots []outlook.SeedLot) string {
	var all []string
	for _, l := range lots {
		w := fmt.Sprintf("%.0f lb of pure live seed of %s", l.Pure, l.Named())
		if l.Known {
			w = fmt.Sprintf("%d %s (%.0f lb) of %s", l.Bought.Bags, Plural(l.Bought.Bags, "bag"), l.Bought.Pounds, l.Named())
		}
		all = append(all, w)
	}
	return strings.Join(all, " and ")
}

// orderCost says what the bags cost, where every lot has a price.
func orderCost(lots []outlook.SeedLot) string {
	total := 0.0
	for _, l := range lots {
		if !l.Known || math.IsNaN(l.Bought.Cost) {
			return ""
		}
		total += l.Bought.Cost
	}
	return fmt.Sprintf("The bags cost $%.0f at the prices entered.", total)
}
