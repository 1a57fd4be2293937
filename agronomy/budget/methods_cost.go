package budget

import (
	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

func costPerTon() *method.Method {
	const priced = "with price"
	lines := cost("lines", "the year's costs but stand and harvest, named: land:200,k2o:117")
	lines.Kind = method.Pairs
	return &method.Method{
		Name: "cost-per-ton", Title: "What an acre and a ton of hay cost",
		About: "A production year: its own costs, the harvest, and the establishment spread over the years of the stand with interest. The cost of a ton is the price that breaks even.",
		Inputs: []method.Input{
			lines, cost("cut_cost", "harvest of one cut"),
			{Key: "cuts", About: "cuts a year", Accepted: method.Range{Low: 0, High: 10}},
			cost("establishment", "cost of establishing the stand"),
			{Key: "years", About: "years over which it is spread", Unit: unit.Must("yr"), Accepted: method.Range{Low: 1, High: 30}},
			interest(), yield("yield, dry matter"), optional(price("price", "price of hay, a ton of dry matter")),
		},
		Outputs: []method.Output{
			out("per_acre", "an acre", perAcre, 2), out("per_ton", "a ton of dry matter", perTon, 2),
			out("stand", "the stand's part a year", perAcre, 2), out("harvest", "the harvest's part", perAcre, 2),
			when(out("margin", "what the price leaves", perAcre, 2), priced), when(out("yield_even", "yield that breaks even, harvest costing the same", tonsAc, 2), priced),
		},
		Sources: []source.ID{source.EnterpriseBudget, source.Annuity},
		Example: "lines=land:200,p2o5:47.25,k2o:117.45,s:12,pest:25,misc:15,storage:54 cut_cost=55 cuts=4 establishment=480 years=4 rate=0.06 yield=4.5 price=190",
		Run: func(c *method.Call) error {
			cuts, err := whole(c, "cuts")
			if err != nil {
				return err
			}
			f := Field{CutCost: c.Num("cut_cost"), Cuts: float64(cuts), Establishment: c.Num("establishment"), Years: c.Num("years"), Rate: c.Num("rate"), Yield: c.Num("yield")}
			for _, p := range c.Pairs("lines") {
				f.Lines = append(f.Lines, Line(p))
			}
			v, err := f.Year()
			if err != nil {
				return err
			}
			c.Answer("per_acre", v.PerAcre)
			c.Answer("per_ton", v.PerTon)
			c.Answer("stand", v.Stand)
			c.Answer("harvest", v.Harvest)
			if c.Given("price") {
				c.Answer("margin", f.Yield*c.Num("price")-v.PerAcre)
				c.Answer("yield_even", v.PerAcre/c.Num("price"))
			}
			return nil
		},
	}
}

func removalCost() *method.Method {
	guide, costs, usual := PublishedRemoval()
	perLb := func(key, of string) method.Input {
		return method.Input{Key: key, About: "price of " + of, Unit: unit.Must("$/lb"), Accepted: method.Range{Low: 0.01, High: 20}}
	}
	var constants []method.Constant
	for _, k := range []struct {
		name string
		r    Removal
		id   source.ID
	}{{"guide", guide, source.RemovalGuide}, {"article", costs, source.RemovalCosts}, {"usual", usual, source.RemovalUsual}} {
		constants = append(constants, constant("p2o5_"+k.name, k.r.P2O5, "lb/ton", k.id), constant("k2o_"+k.name, k.r.K2O, "lb/ton", k.id))
	}
	return &method.Method{
		Name: "removal-cost", Title: "Fertiliser that a ton of hay takes from the field",
		About: "What replacing the phosphate and potash of a ton of dry matter costs. Three sources differ by a seventh.",
		Inputs: []method.Input{
			perLb("p2o5", "phosphate, P2O5"), perLb("k2o", "potash, K2O"),
			{Key: "by", About: "whose removal", Kind: method.Word, Choices: []string{"guide", "article", "usual"}, Default: "guide"},
		},
		Outputs:   []method.Output{out("cost_ton", "a ton of dry matter", perTon, 2)},
		Constants: constants,
		Sources:   []source.ID{source.RemovalGuide, source.RemovalCosts, source.RemovalUsual},
		Example:   "p2o5=0.75 k2o=0.45",
		Run: func(c *method.Call) error {
			by := c.Word("by")
			c.Answer("cost_ton", Removal{c.K("p2o5_" + by), c.K("k2o_" + by)}.Ton(c.Num("p2o5"), c.Num("k2o")))
			return nil
		},
	}
}

func breakEven() *method.Method {
	return &method.Method{
		Name: "break-even", Title: "Price that pays for an acre",
		About:   "Cost over yield: the price at which hay pays for itself.",
		Inputs:  []method.Input{cost("cost", "cost of the acre"), yield("yield, dry matter")},
		Outputs: []method.Output{out("price", "price of a ton of dry matter", perTon, 2)},
		Sources: []source.ID{source.EnterpriseBudget},
		Example: "cost=700 yield=4",
		Run: func(c *method.Call) error {
			c.Answer("price", c.Num("cost")/c.Num("yield"))
			return nil
		},
	}
}

func breakEvenYield() *method.Method {
	return &method.Method{
		Name: "break-even-yield", Title: "Yield that pays for a stand, by years kept",
		About: "Establishment spread evenly over 1, 2 ... years, without interest, and the yearly cost, over the price. Yield and price in one and the same moisture.",
		Inputs: []method.Input{
			cost("establishment", "cost of establishing"), cost("yearly", "cost of a production year"), price("price", "price of a ton"),
			{Key: "years", About: "most years to look at", Accepted: method.Range{Low: 1, High: 30}},
			optional(yield("a yield, for the profit at it")),
		},
		Outputs: []method.Output{out("yields", "yield that breaks even, kept 1, 2 ... years", tonsAc, 2), when(out("profits", "profit a year at the yield", perAcre, 2), "with yield")},
		Sources: []source.ID{source.BreakEvenYield},
		Example: "establishment=185 yearly=235 price=100 years=5 yield=5",
		Run: func(c *method.Call) error {
			years, err := whole(c, "years")
			if err != nil {
				return err
			}
			list := BreakEvenYields(c.Num("establishment"), c.Num("yearly"), c.Num("price"), years)
			c.Answer("yields", list)
			if c.Given("yield") {
				profits := make([]float64, len(list))
				for i, y := range list {
					profits[i] = (c.Num("yield") - y) * c.Num("price")
				}
				c.Answer("profits", profits)
			}
			return nil
		},
	}
}

func partialBudget() *method.Method {
	return &method.Method{
		Name: "partial-budget", Title: "What one change brings",
		About:   "The four parts of a change: what it adds and saves less what it costs and takes away. All four are asked for, so that none is forgotten; write 0 where there is nothing.",
		Inputs:  []method.Input{cost("added_returns", "returns it adds"), cost("reduced_costs", "costs it saves"), cost("added_costs", "costs it adds"), cost("reduced_returns", "returns it takes away")},
		Outputs: []method.Output{out("net", "what the change brings", perAcre, 2)},
		Sources: []source.ID{source.PartialBudget},
		Example: "added_returns=122.5 reduced_costs=0 added_costs=80.62 reduced_returns=17.1",
		Run: func(c *method.Call) error {
			c.Answer("net", Partial(c.Num("added_returns"), c.Num("reduced_costs"), c.Num("added_costs"), c.Num("reduced_returns")))
			return nil
		},
	}
}

func oneMoreCut() *method.Method {
	return &method.Method{
		Name: "one-more-cut", Title: "Whether one more cut pays",
		About: "The hay of a last cut less its harvest, the nutrients it takes, and what next spring is short for it. The risk to the stand comes on top.",
		Inputs: []method.Input{
			yield("yield of the cut, dry matter"), price("price", "price of its hay, a ton of dry matter"), cost("harvest", "harvest of the cut"),
			tonCost("nutrients", "fertiliser to replace what a ton takes"),
			{Key: "spring_loss", About: "dry matter that next spring's cut is short", Unit: tonsAc, Accepted: method.Range{Low: 0, High: 5}},
			price("spring_price", "price of spring hay, a ton of dry matter"),
		},
		Outputs: []method.Output{out("net", "what the cut brings", perAcre, 2), never(out("break_even", "yield from which it pays", tonsAc, 2), "never")},
		Sources: []source.ID{source.PartialBudget},
		Example: "yield=0.7 price=175 harvest=55 nutrients=36.6 spring_loss=0.09 spring_price=190",
		Run: func(c *method.Call) error {
			net, even := LastCut{c.Num("yield"), c.Num("price"), c.Num("harvest"), c.Num("nutrients"), c.Num("spring_price"), c.Num("spring_loss")}.Net()
			c.Answer("net", net)
			c.Answer("break_even", even)
			return nil
		},
	}
}

func milkDelay() *method.Method {
	return &method.Method{
		Name: "milk-delay", Title: "Milk not made from late-cut forage",
		About: "Milk that a herd does not make on later-cut forage where nothing replaces it. A first crop cut 6 days late has cost 0.45 kg a cow a day.",
		Inputs: []method.Input{
			{Key: "milk", About: "milk lost a cow a day", Unit: unit.Must("kg/day"), Accepted: method.Range{Low: 0, High: 20}, Tested: method.Range{Low: 0, High: 2}},
			{Key: "price", About: "price of milk", Unit: unit.Must("$/cwt"), Accepted: method.Range{Low: 1, High: 200}},
			{Key: "cows", About: "cows that eat it", Accepted: method.Range{Low: 1, High: 100000}},
			{Key: "days", About: "days that they eat it", Unit: unit.Must("days"), Accepted: method.Range{Low: 1, High: 400}},
		},
		Outputs: []method.Output{out("cow_day", "a cow a day", money, 3), out("all", "all cows and days", money, 0)},
		Sources: []source.ID{source.MilkLate},
		Example: "milk=0.45 price=20 cows=100 days=180",
		Run: func(c *method.Call) error {
			cows, err := whole(c, "cows")
			if err != nil {
				return err
			}
			const kgACwt = 45.359237
			day, all := MilkLate(c.Num("milk"), c.Num("price")/kgACwt, float64(cows), c.Num("days"))
			c.Answer("cow_day", day)
			c.Answer("all", all)
			return nil
		},
	}
}
