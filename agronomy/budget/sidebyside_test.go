package budget_test

import (
	"math"
	"testing"

	"haywarden/agronomy/budget"
	"haywarden/agronomy/forage"
)

// TestDelayCostsMilkBeforeItCostsHay proves what the three lines are shown together for: forage two
// weeks older loses more by milk than by the hay market, and corn and meal see yet another loss.
func TestDelayCostsMilkBeforeItCostsHay(t *testing.T) {
	milk := 20.0
	m := budget.Markets{
		Hay:   &budget.HayMarket{Line: forage.PriceLine{Base: 200, BaseRFV: 150, PerPoint: 1.2}, DM: budget.TradedHay},
		Grain: &budget.Grain{Corn: 4.5, Meal: 380}, Milk: &milk,
	}
	k := budget.PublishedNutrients()
	// Bud and mid-bloom alfalfa of the worked energies: 2924 and 2065 lb of milk, 1.5505 and 1.3837 Mcal/kg.
	const lbAKg = 0.45359237
	young := budget.Goods{RFV: 178, NEL: 1.5505 * lbAKg, CP: 0.22, MilkPerTon: 2924}
	old := budget.Goods{RFV: 130, NEL: 1.3837 * lbAKg, CP: 0.18, MilkPerTon: 2065}
	a, err := k.SideBySide(young, m)
	if err != nil {
		t.Fatal(err)
	}
	b, err := k.SideBySide(old, m)
	if err != nil {
		t.Fatal(err)
	}
	less := map[budget.By]float64{}
	for _, l := range budget.Apart(a, b) {
		less[l.By] = l.Ton
	}
	if len(less) != 3 || !(less[budget.ByMilk] > less[budget.ByMarket]) || !(less[budget.ByMarket] > 0) || !(less[budget.ByNutrients] > 0) {
		t.Errorf("the older forage is worth less by %v", less)
	}
	if want := 1.2 * 48 / 0.88; math.Abs(less[budget.ByMarket]-want) > 1e-9 {
		t.Errorf("by the market %g less, want %g", less[budget.ByMarket], want)
	}
	if want := 8.59 * 20; math.Abs(less[budget.ByMilk]-want) > 1e-9 {
		t.Errorf("by milk %g less, want %g", less[budget.ByMilk], want)
	}
	for _, l := range a {
		if l.LeavesOut == "" {
			t.Errorf("by %s nothing is said to be left out", l.By)
		}
	}
}

func TestAMarketWithoutPricesIsLeftOut(t *testing.T) {
	k := budget.PublishedNutrients()
	milk := 20.0
	only, err := k.SideBySide(budget.Goods{RFV: 150, MilkPerTon: 2500}, budget.Markets{Milk: &milk})
	if err != nil || len(only) != 1 || only[0].By != budget.ByMilk || only[0].Ton != 500 {
		t.Errorf("%+v, %v", only, err)
	}
	if none, err := k.SideBySide(budget.Goods{}, budget.Markets{}); err != nil || len(none) != 0 {
		t.Errorf("%+v, %v", none, err)
	}
	if _, err := k.SideBySide(budget.Goods{}, budget.Markets{Grain: &budget.Grain{}}); err == nil {
		t.Error("grain at no price was taken")
	}
	if less := budget.Apart(only, nil); len(less) != 0 {
		t.Errorf("%+v of a forage that nothing prices", less)
	}
}
