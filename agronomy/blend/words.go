package blend

import (
	"fmt"
	"math"
)

// idle is a price of a need so small that it is none, $/lb.
const idle = 1e-9

// Words says what the last pound of each need costs, and what the nitrogen limit costs.
func (m *Mix) Words() (words []string) {
	for _, n := range Needed() {
		switch price, needed := m.Shadow[n]; {
		case !needed:
		case price > idle:
			words = append(words, fmt.Sprintf("one more lb of %s costs $%s", n.Word(), cents(price)))
		default:
			words = append(words, fmt.Sprintf("%s comes along with the rest: %.4g lb/ac, and a lb more costs nothing", n.Word(), m.Supplied[n]))
		}
	}
	if price, limited := m.Shadow[N]; limited && price < -idle {
		words = append(words, fmt.Sprintf("one more lb of nitrogen allowed saves $%s", cents(-price)))
	}
	return words
}

// cents writes dollars a pound with three digits that count, at least to the cent.
func cents(v float64) string {
	digits := 2
	if v < 0.1 {
		digits = 2 + int(math.Ceil(-math.Log10(v))) - 1
	}
	return fmt.Sprintf("%.*f", digits, v)
}

// Cautions says what to mind when the mix is spread.
func (m *Mix) Cautions(l Limits) (words []string) {
	if k := m.Supplied[K2O]; k > l.Split+traces {
		words = append(words, fmt.Sprintf("%.0f lb of potash: over %g lb a year split it, half after the first cut and half after the last; on soils that hold it trials saw no clear gain from splitting, and red clover none", k, l.Split))
		if k > l.K2O+traces {
			words = append(words, fmt.Sprintf("over %g lb of potash a year is unusual: the crop takes up more than it needs, which dry cows must not eat; spread a buildup over years", l.K2O))
		}
	}
	if m.Supplied[B] > 0 {
		words = append(words, "boron: broadcast it, never with the seed; corn and small grains that follow are sensitive")
	}
	for _, p := range m.Parts {
		switch p.Material.ID {
		case "es":
			words = append(words, "elemental sulfur takes months of warm moist soil: spread it the year before, or at seeding")
		case "as":
			words = append(words, "the stand gains nothing from the nitrogen of ammonium sulfate")
		}
	}
	return words
}
