package husbandry

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"haywarden/agronomy/blend"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
	"haywarden/book"
)

// FieldNeed is what a field is to be given in a year.
type FieldNeed struct {
	Field string                     `json:"field"`
	Acres float64                    `json:"acres"`
	Need  map[blend.Nutrient]float64 `json:"need_lb_acre"`   // only what is needed
	From  []string                   `json:"from"`           // what it rests on, in words
	Parts []string                   `json:"when,omitempty"` // how the potash is put on
	Lacks []string                   `json:"lacks,omitempty"`
}

// Amount is so much of a nutrient, as it is told.
type Amount struct{ Word, Pounds string }

// Amounts are what is needed, lb an acre, in the order in which it is told.
func (n FieldNeed) Amounts() (out []Amount) {
	for _, k := range blend.Needed() {
		if v := n.Need[k]; v > 0 {
			out = append(out, Amount{k.Word(), pounds(v)})
		}
	}
	return out
}

// Totals says what all fields need.
func Totals(needs []FieldNeed) string {
	total, _ := totals(needs)
	return amounts(total)
}

// Spread is a product on a field.
type Spread struct {
	Product string  `json:"product"`
	Name    string  `json:"name"`
	PerAcre float64 `json:"lb_acre"`
	Pounds  float64 `json:"lb"`
}

// FieldSpread is a field's need with what is spread for it.
type FieldSpread struct {
	FieldNeed
	Spread   []Spread `json:"spread,omitempty"`
	Cautions []string `json:"cautions,omitempty"` // what to mind on this field alone
}

// FertilizerOrder is what a farm buys for a year, and what goes where.
type FertilizerOrder struct {
	Farm     string        `json:"farm"`
	Date     string        `json:"date"`
	Nitrogen float64       `json:"nitrogen_most_lb_acre"` // that may come along
	Buy      Part          `json:"buy"`
	Fields   []FieldSpread `json:"fields,omitempty"`
	Cautions []string      `json:"cautions,omitempty"` // what to mind on every field
}

// UsualNitrogen is how much nitrogen may come along with the rest, lb an acre: a stand that nodulates gains
// nothing from it (choice; [source.SoilMinnesota] allows 25 at seeding on sand).
const UsualNitrogen = 25

// mostNitrogen is more than anybody lets come along on a legume.
const mostNitrogen = 100

// dealerStep is what a dealer delivers at once, lb ([source.DealerSteps]).
const dealerStep = 100

// productLines are the price lines of products, in the order in which they are told, with the id under
// which their contents are published.
var productLines = []struct{ line, id string }{
	{book.MAP, "map"}, {book.DAP, "dap"}, {book.TripleSuper, "tsp"}, {book.Potash, "mop"}, {book.PotashSulfate, "sop"},
	{book.PotashMagnesia, "kmag"}, {book.AmmoniumSulfate, "as"}, {book.Gypsum, "gyp"}, {book.ElementalSulfur, "es"},
	{book.Borate, "b14"}, {book.SolubleBorate, "b20"},
}

// offers are the products that have a price, and the lines of all that carry a nutrient.
func (u purse) offers(p *Part) (offers []blend.Offer) {
	for _, x := range productLines {
		v, ok := u.look(p, x.line)
		if !ok {
			continue
		}
		offers = append(offers, blend.Offer{Material: material(x.id), PerTon: unit.DollarTon(v), Step: dealerStep})
	}
	return offers
}

func material(id string) blend.Material {
	all := blend.PublishedMaterials()
	return all[slices.IndexFunc(all, func(m blend.Material) bool { return m.ID == id })]
}

// carriers are the price lines of products that carry a nutrient.
func carriers(n blend.Nutrient) (lines []string) {
	for _, x := range productLines {
		if material(x.id).Share(n) > 0 {
			lines = append(lines, x.line)
		}
	}
	return lines
}

// OrderFertilizer puts the needs of a farm's fields together into the least costly order of products that
// have a price, rounded up to what a dealer delivers. Without a price it says pounds. nitrogen is what may
// come along, lb an acre.
func OrderFertilizer(ctx context.Context, v *book.View, f *book.FarmView, needs []FieldNeed, nitrogen float64) (FertilizerOrder, error) {
	if !(nitrogen >= 0 && nitrogen <= mostNitrogen) {
		return FertilizerOrder{}, fmt.Errorf("nitrogen %g lb/ac: accepted 0 to %d that may come along", nitrogen, mostNitrogen)
	}
	o := FertilizerOrder{Farm: f.Name, Date: v.Date.String(), Nitrogen: nitrogen, Buy: Part{Key: "buy", Title: "What to buy"}}
	for _, n := range needs {
		o.Fields = append(o.Fields, FieldSpread{FieldNeed: n})
	}
	p := &o.Buy
	total, acres := totals(needs)
	if acres == 0 {
		p.Says = "Nothing is needed on the fields that are known."
		return o, nil
	}
	for _, n := range blend.Needed() {
		if total[n] > 0 {
			p.row(n.Word()+" for all fields", total[n], "lb", "")
		}
	}
	priced := purse{v, f}.offers(p)
	var fields []blend.Field
	var at []int
	for i, n := range needs {
		if met := purchasable(p, n, priced); len(met) > 0 {
			fields = append(fields, blend.Field{Name: n.Field, Acres: unit.Acre(n.Acres), Need: met, NMost: nitrogen})
			at = append(at, i)
		}
	}
	if len(fields) == 0 {
		p.Says = fmt.Sprintf("%s for %s acres; no price of a product that carries it is entered, so the least costly ones cannot be named.", amounts(total), acresOf(acres))
		return o, nil
	}
	p.Sources = []source.ID{source.DealerSteps, source.FertilizerGuide, source.FertilizerRecalled}
	got, err := blend.Ordered(ctx, fields, priced, blend.PublishedLimits())
	if err != nil {
		p.Says = amounts(total) + "; no order could be made."
		p.note("%v", err)
		return o, nil
	}
	o.fill(got, fields, at, priced)
	return o, nil
}

// totals are the pounds of each nutrient over all fields, and the acres that need any.
func totals(needs []FieldNeed) (total map[blend.Nutrient]float64, acres float64) {
	total = map[blend.Nutrient]float64{}
	for _, n := range needs {
		wants := false
		for k, v := range n.Need {
			total[k] += v * n.Acres
			wants = wants || v > 0
		}
		if wants {
			acres += n.Acres
		}
	}
	return total, acres
}

// purchasable is what of a need a priced product carries; the part says what lacks a price.
func purchasable(p *Part, n FieldNeed, offers []blend.Offer) map[blend.Nutrient]float64 {
	met := map[blend.Nutrient]float64{}
	for _, k := range blend.Needed() {
		v := n.Need[k]
		switch {
		case v <= 0:
		case slices.ContainsFunc(offers, func(o blend.Offer) bool { return o.Material.Share(k) > 0 }):
			met[k] = v
		default:
			p.lack("a price of a product with %s (line %s, $/ton)", k.Word(), strings.Join(carriers(k), " or "))
		}
	}
	return met
}

// fill writes an order down.
func (o *FertilizerOrder) fill(got *blend.Order, fields []blend.Field, at []int, offers []blend.Offer) {
	p, acres := &o.Buy, 0.0
	var lines []string
	for _, l := range got.Lines {
		p.row(l.Material.Name, l.Pounds, "lb", fmt.Sprintf("$%.0f", l.Cost))
		lines = append(lines, weight(l.Pounds)+" of "+l.Material.Name)
	}
	minded := map[string]int{}
	for k, f := range fields {
		acres += float64(f.Acres)
		to := &o.Fields[at[k]]
		for _, part := range got.Spread[k] {
			to.Spread = append(to.Spread, Spread{part.Material.ID, part.Material.Name, round(part.PerAcre), round(part.PerAcre * float64(f.Acres))})
		}
		if m, err := blend.Cheapest(f, offers, blend.PublishedLimits()); err == nil { // the order has been made: it can be
			to.Cautions = m.Cautions(blend.PublishedLimits())
		}
		for _, c := range to.Cautions {
			minded[c]++
		}
	}
	// What is to be minded on several fields is said once.
	for k := range fields {
		to := &o.Fields[at[k]]
		to.Cautions = slices.DeleteFunc(to.Cautions, func(c string) bool {
			if minded[c] < 2 {
				return false
			}
			if !slices.Contains(o.Cautions, c) {
				o.Cautions = append(o.Cautions, c)
			}
			return true
		})
	}
	p.row("in all", got.Cost, "$", fmt.Sprintf("of it $%.0f for whole %d lb", got.Rounding, dealerStep))
	p.row("an acre", got.Cost/acres, "$/ac", fmt.Sprintf("over %s acres that get some", acresOf(acres)))
	p.Says = fmt.Sprintf("%s: %s for %s acres, the least costly of the products that have a price.", strings.Join(lines, ", "), Figure(math.Round(got.Cost), "$"), acresOf(acres))
	if len(p.Lacks) > 0 {
		p.note("What lacks a price is not in the order.")
	}
}

// amounts writes pounds of each nutrient.
func amounts(total map[blend.Nutrient]float64) string {
	var said []string
	for _, n := range blend.Needed() {
		if total[n] > 0 {
			said = append(said, weight(total[n])+" of "+n.Word())
		}
	}
	return strings.Join(said, ", ")
}

// weight writes pounds as they are ordered: from a ton on in tons.
func weight(lb float64) string {
	if lb < poundsATon {
		return fmt.Sprintf("%.0f lb", lb)
	}
	return strings.TrimSuffix(strings.TrimSuffix(fmt.Sprintf("%.2f", lb/poundsATon), "0"), ".0") + " tons"
}

// pounds writes a need an acre: whole, or with a decimal where it is a few.
func pounds(v float64) string {
	if v < 10 {
		return strings.TrimSuffix(fmt.Sprintf("%.1f", v), ".0")
	}
	return fmt.Sprintf("%.0f", v)
}

// acresOf writes acres, whole where they are.
func acresOf(a float64) string { return strings.TrimSuffix(fmt.Sprintf("%.1f", a), ".0") }
