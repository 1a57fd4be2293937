package budget

import "haywarden/agronomy/forage"

// Goods is a ton of dry matter of forage by what three markets pay for.
type Goods struct {
	RFV        float64
	NEL, CP    float64 // Mcal/lb of dry matter; 0-1
	MilkPerTon float64 // lb of milk a ton of dry matter
}

// Markets are the prices of the day; a market that is nil has none.
type Markets struct {
	Hay   *HayMarket
	Grain *Grain
	Milk  *float64 // $/cwt
}

// HayMarket is the hay market's line by feed value, $ a ton as fed of so much dry matter, 0-1.
type HayMarket struct {
	Line      forage.PriceLine
	Floor, DM float64
}

// Grain prices energy and protein.
type Grain struct{ Corn, Meal float64 } // $/bu, $/ton

// TradedHay is the dry matter of hay as it is traded (choice): 12 % moisture.
const TradedHay = 0.88

// By names what a price goes by.
type By string

// The three.
const (
	ByMarket    By = "market"    // what hay of its RFV fetches
	ByNutrients By = "nutrients" // the corn and meal that it saves
	ByMilk      By = "milk"      // the milk that it makes in a cow that eats it alone
)

// WorthLine is a price by one of them, $ a ton of dry matter, and what it does not know.
type WorthLine struct {
	By        By
	Ton       float64
	LeavesOut string
}

// SideBySide prices a forage in every market that has prices: never one alone, since each is blind to
// something. The hay market sees fibre and hardly minds the first days of delay, which milk and later
// cuts pay for; corn and meal see no fibre; milk is the whole price of it, with the cow, the labour and
// the rest of the diet still to pay. Sources: [source.HayPoint], [source.TwoNutrients],
// [source.MilkOfForage].
func (k Nutrients) SideBySide(g Goods, m Markets) ([]WorthLine, error) {
	var lines []WorthLine
	if m.Hay != nil {
		lines = append(lines, WorthLine{ByMarket, HayPrice(m.Hay.Line, m.Hay.Floor, g.RFV) / m.Hay.DM, "protein, digestibility of fibre, and what later cuts lose"})
	}
	if m.Grain != nil {
		p, err := k.Prices(m.Grain.Corn, m.Grain.Meal)
		if err != nil {
			return nil, err
		}
		lines = append(lines, WorthLine{ByNutrients, p.Ton(g.NEL, g.CP), "fibre, and the milk that poor fibre costs"})
	}
	if m.Milk != nil {
		lines = append(lines, WorthLine{ByMilk, g.MilkPerTon / 100 * *m.Milk, "the cow, the labour and the rest of the diet: read its differences, not its height"})
	}
	return lines, nil
}

// Apart is what a second forage is worth less than a first, by each market that prices both, in order.
func Apart(first, second []WorthLine) (less []WorthLine) {
	for _, a := range first {
		for _, b := range second {
			if a.By == b.By {
				less = append(less, WorthLine{a.By, a.Ton - b.Ton, a.LeavesOut})
			}
		}
	}
	return less
}
