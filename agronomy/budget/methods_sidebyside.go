package budget

import (
	"errors"

	"haywarden/agronomy/forage"
	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

func forageWorth() *method.Method {
	rfv := unit.Must("RFV")
	var grain []method.Input
	for _, in := range grainInputs() {
		grain = append(grain, optional(in))
	}
	dollars := func(key, about, with string) method.Output { return when(out(key, about, perTon, 0), with) }
	return &method.Method{
		Name: "forage-worth", Title: "What a forage is worth by three markets",
		About: "A ton of dry matter of one forage by the hay market's line, by the corn and meal that it saves, and by the milk that it makes, side by side: each is blind to something, and none is the price alone. What has no prices given is left out.",
		Inputs: append([]method.Input{
			{Key: "rfv", About: "feed value of the forage", Unit: rfv, Accepted: rfvRange, Tested: method.Range{Low: 85, High: 200}},
			optional(nel()), optional(cp()),
			{Key: "lb_per_ton", About: "milk of a ton of dry matter, from forage-milk", Accepted: method.Range{Low: 0, High: 6000}, Tested: method.Range{Low: 1000, High: 3500}, Optional: true},
			optional(price("base", "price of hay at base_rfv, as fed")),
			{Key: "base_rfv", About: "feed value at which the base price holds", Unit: rfv, Accepted: rfvRange, Optional: true},
			{Key: "per_point", About: "price of a point on a ton", Unit: perTon, Accepted: method.Range{Low: 0, High: 20}, Tested: method.Range{Low: 0.5, High: 2}, Optional: true},
			optional(tonCost("floor", "price of grass hay, under which none falls")),
			{Key: "milk", About: "price of milk", Unit: unit.Must("$/cwt"), Accepted: method.Range{Low: 1, High: 200}, Optional: true},
		}, grain...),
		Outputs: []method.Output{
			dollars("by_market", "by what hay of its feed value fetches", "with base, base_rfv and per_point"),
			dollars("by_nutrients", "by the corn and meal that it saves", "with nel, cp, corn and meal"),
			dollars("by_milk", "by the milk that it makes", "with lb_per_ton and milk"),
		},
		Constants: append(nutrientConstants(), constant("traded_dm", TradedHay, "", source.TradedHay)),
		Sources:   []source.ID{source.HayPoint, source.TwoNutrients, source.NutrientFeeds, source.MilkOfForage, source.TradedHay},
		Example:   "rfv=150 nel=0.67 cp=0.2 lb_per_ton=2500 base=200 base_rfv=150 per_point=1.2 corn=4.5 meal=380 milk=20",
		Run:       runForageWorth,
	}
}

// together demands that inputs are given all or none, and reports whether they are.
func together(c *method.Call, why string, keys ...string) (bool, error) {
	n := 0
	for _, key := range keys {
		if c.Given(key) {
			n++
		}
	}
	if n != 0 && n != len(keys) {
		return false, errors.New(why)
	}
	return n > 0, nil
}

func runForageWorth(c *method.Call) error {
	hay, err1 := together(c, "base, base_rfv and per_point belong together: give all three, $ a ton as fed, RFV and $ a point", "base", "base_rfv", "per_point")
	grain, err2 := together(c, "nel, cp, corn and meal belong together: give all four; accepted nel 0.1 to 1.2 Mcal/lb, cp 0.01 to 0.6", "nel", "cp", "corn", "meal")
	milk, err3 := together(c, "lb_per_ton and milk belong together: give both; accepted 0 to 6000 lb and 1 to 200 $/cwt", "lb_per_ton", "milk")
	if err := errors.Join(err1, err2, err3); err != nil {
		return err
	}
	if !hay && !grain && !milk {
		return errors.New("no price is given: want base, base_rfv and per_point, or nel, cp, corn and meal, or lb_per_ton and milk")
	}
	var m Markets
	k := PublishedNutrients()
	if hay {
		m.Hay = &HayMarket{forage.PriceLine{Base: c.Num("base"), BaseRFV: c.Num("base_rfv"), PerPoint: c.Num("per_point")}, c.Num("floor"), c.K("traded_dm")}
	}
	if grain {
		if _, err := pricesOf(c); err != nil {
			return err
		}
		k = Nutrients{Feed{c.K("corn_dm"), c.K("corn_nel"), c.K("corn_cp")}, Feed{c.K("meal_dm"), c.K("meal_nel"), c.K("meal_cp")}, c.K("bushel")}
		m.Grain = &Grain{c.Num("corn"), c.Num("meal")}
	}
	if milk {
		p := c.Num("milk")
		m.Milk = &p
	}
	lines, err := k.SideBySide(Goods{RFV: c.Num("rfv"), NEL: c.Num("nel"), CP: c.Num("cp"), MilkPerTon: c.Num("lb_per_ton")}, m)
	if err != nil {
		return err
	}
	for _, l := range lines {
		c.Answer("by_"+string(l.By), l.Ton)
		c.Note("by %s: it does not know %s", l.By, l.LeavesOut)
	}
	return nil
}
