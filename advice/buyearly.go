package advice

import (
	"fmt"
	"strings"

	"haywarden/agronomy/source"
	"haywarden/outlook"
)

// leastBuy is the least that is worth a load, tons (choice); buyAhead for how many days of lack a farm is
// told to look round early (choice).
const leastBuy, buyAhead = 5, 45

// BuyEarly says what will have to be bought while there is still time to choose.
func BuyEarly(f *outlook.Farm) *Piece {
	if f.Plan == nil || f.Opens-f.Date < buyAhead {
		return nil
	}
	var loads []string
	var sum, cost float64
	for j, g := range f.Plan.Ask.Groups {
		t := f.Plan.Purchase[j]
		if t < 0.5 {
			continue
		}
		sum += t
		load := fmt.Sprintf("%s for %s", shortTons(t), g.Name)
		if g.Floor > 0 {
			load = fmt.Sprintf("%s of RFQ %.0f or better for %s", shortTons(t), g.Floor, g.Name)
		}
		if !f.Plan.Ask.Tons {
			cost += t * g.Buy
		}
		loads = append(loads, load)
	}
	if sum < leastBuy {
		return nil
	}
	p := &Piece{Decision: "buy-early", Feed: f, Urgency: Watch, Title: fmt.Sprintf("Look round for %s of hay", shortTons(sum))}
	p.Sentence = fmt.Sprintf("Until the next crop is opened about %s the farm has to buy %s, of dry matter. Hay is easiest to find, test and choose soon after harvest.", Short(f.Opens), strings.Join(loads, "; "))
	p.Worth.Text = shortTons(sum) + " of dry matter"
	if cost > 0 {
		p.Worth.Text += fmt.Sprintf(", about $%.0f delivered", cost)
	}
	p.Rules = []Rule{{Says: "buy hay at harvest, not at the end of winter", Here: "buy before the barns are empty", Source: source.RuleBuyEarly}}
	p.Grounds = []Ground{{
		What: "Who eats what", Value: fmt.Sprintf("%.0f tons short in quantity, %.0f in quality", f.Plan.Gaps.Quantity, f.Plan.Gaps.Quality),
		How: "the cheapest way to share what there is; each lot reaches the group's RFQ", Sources: []source.ID{source.Allocation},
	}}
	for _, line := range f.Prices {
		p.Grounds = append(p.Grounds, Ground{What: "Price", Value: line, How: "as entered; as fed at 12 % moisture, carried to dry matter", Sources: []source.ID{source.RuleBuyEarly}})
		break
	}
	return p
}
