package outlook

import (
	"fmt"

	"haywarden/agronomy/blend"
	"haywarden/book"
)

// NutrientCost is what pounds of nutrients cost at the prices that hold for a farm.
type NutrientCost struct {
	Acre  float64  // $
	Lines []string // price lines, with their decks
	Lacks []string // nutrients that no priced line carries, in words; their cost is not in Acre
}

// carriedBy are the price lines by which a pound of a nutrient is priced: its own first, in $/lb, else the
// products that carry it. Their nitrogen counts for nothing on a legume.
var carriedBy = map[blend.Nutrient]struct {
	own      string
	products map[string]string // line by id of the material
}{
	blend.P2O5: {book.Phosphate, map[string]string{"tsp": book.TripleSuper, "map": book.MAP, "dap": book.DAP}},
	blend.K2O:  {book.PotashK2O, map[string]string{"mop": book.Potash}},
	blend.S:    {book.Sulfur, map[string]string{"gyp": book.Gypsum, "as": book.AmmoniumSulfate}},
	blend.B:    {book.Boron, map[string]string{"b14": book.Borate, "b20": book.SolubleBorate}},
}

// Cost prices pounds of nutrients, lb an acre, for the stand's farm: each by its own line, else by the
// product that carries it for least.
func (o *Outlook) Cost(s *Stand, need map[blend.Nutrient]float64) (c NutrientCost) {
	for _, n := range blend.Needed() {
		lb := need[n]
		if lb <= 0 {
			continue
		}
		perLb, line, ok := o.perPound(s, n)
		if !ok {
			c.Lacks = append(c.Lacks, n.Word())
			continue
		}
		c.Acre += lb * perLb
		c.Lines = append(c.Lines, line)
	}
	return c
}

// perPound is $ a pound of a nutrient.
func (o *Outlook) perPound(s *Stand, n blend.Nutrient) (perLb float64, line string, ok bool) {
	by := carriedBy[n]
	if p, has := o.View.Price(s.Farm, by.own); has && by.own != "" {
		return p.Value, fmt.Sprintf("%s $%.2f/lb, %s", by.own, p.Value, p.From()), true
	}
	for _, m := range blend.PublishedMaterials() {
		p, has := o.View.Price(s.Farm, by.products[m.ID])
		if by.products[m.ID] == "" || !has {
			continue
		}
		const pounds = 2000
		if v := p.Value / pounds / m.Share(n); !ok || v < perLb {
			perLb, line, ok = v, fmt.Sprintf("%s $%.0f/ton, %s", by.products[m.ID], p.Value, p.From()), true
		}
	}
	return perLb, line, ok
}

// LimePrice is $ a ton of lime, spread, with its line and deck; not ok where none is entered.
func (o *Outlook) LimePrice(s *Stand) (perTon float64, line string, ok bool) {
	p, ok := o.View.Price(s.Farm, book.Lime)
	if !ok {
		return 0, "", false
	}
	return p.Value, fmt.Sprintf("lime $%.0f/ton, %s", p.Value, p.From()), true
}
