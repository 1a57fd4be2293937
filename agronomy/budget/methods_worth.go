package budget

import (
	"errors"

	"haywarden/agronomy/forage"
	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

var rfvRange = method.Range{Low: 40, High: 350}

func hayPrice() *method.Method {
	points := unit.Must("RFV")
	return &method.Method{
		Name: "hay-price", Title: "Price of hay by its feed value",
		About: "A straight line through a known price, so much a point, never under the price of grass hay where that is given. As fed at 12 % moisture. Auctions have paid 0.85 to 1.45 $ a point; use your market's own.",
		Inputs: []method.Input{
			{Key: "rfv", About: "feed value of the hay", Unit: points, Accepted: rfvRange, Tested: method.Range{Low: 85, High: 200}},
			price("base", "price of hay at base_rfv"),
			{Key: "base_rfv", About: "feed value at which the base price holds", Unit: points, Accepted: rfvRange},
			{Key: "per_point", About: "price of a point on a ton", Unit: perTon, Accepted: method.Range{Low: 0, High: 20}, Tested: method.Range{Low: 0.5, High: 2}},
			optional(tonCost("floor", "price of grass hay, under which none falls")),
		},
		Outputs: []method.Output{out("price", "price of a ton as fed", perTon, 2)},
		Sources: []source.ID{source.HayPoint},
		Example: "rfv=150 base=176 base_rfv=137.5 per_point=1.3",
		Run: func(c *method.Call) error {
			line := forage.PriceLine{Base: c.Num("base"), BaseRFV: c.Num("base_rfv"), PerPoint: c.Num("per_point")}
			p := HayPrice(line, c.Num("floor"), c.Num("rfv"))
			c.Answer("price", p)
			if p > line.Base+line.PerPoint*(c.Num("rfv")-line.BaseRFV) {
				c.Note("the line falls below %g $ a ton here and is held there", c.Num("floor"))
			}
			return nil
		},
	}
}

func priceByMoisture() *method.Method {
	dm := func(key, about string) method.Input {
		return method.Input{Key: key, About: about, Accepted: method.Range{Low: 0.1, High: 1}, Tested: method.Range{Low: 0.25, High: 1}}
	}
	rfv := func(key, about string) method.Input {
		return method.Input{Key: key, About: about, Unit: unit.Must("RFV"), Accepted: rfvRange, Optional: true}
	}
	return &method.Method{
		Name: "price-by-moisture", Title: "A price carried over to another moisture and quality",
		About:   "What haylage is worth by the price of hay, or hay by the ton of dry matter (to_dm=1). In proportion to dry matter, and to feed value where both are given.",
		Inputs:  []method.Input{price("price", "known price, as fed"), dm("dm", "dry matter of what is priced, 0 to 1"), dm("to_dm", "dry matter of what is asked, 0 to 1"), rfv("rfv", "feed value of what is priced"), rfv("to_rfv", "feed value of what is asked")},
		Outputs: []method.Output{out("price", "price of a ton of what is asked, as fed", perTon, 2)},
		Sources: []source.ID{source.PriceByMoisture},
		Example: "price=101 dm=0.85 rfv=137.5 to_dm=0.4 to_rfv=145",
		Run: func(c *method.Call) error {
			if c.Given("rfv") != c.Given("to_rfv") {
				return errors.New("rfv and to_rfv belong together: give both, or neither; accepted 40 to 350 RFV")
			}
			rfv, to := 1., 1.
			if c.Given("rfv") {
				rfv, to = c.Num("rfv"), c.Num("to_rfv")
			}
			c.Answer("price", Moved(c.Num("price"), c.Num("dm"), c.Num("to_dm"), rfv, to))
			return nil
		},
	}
}

func nel() method.Input {
	return method.Input{Key: "nel", About: "energy of the forage", Unit: unit.Must("Mcal/lb"), Accepted: method.Range{Low: 0.1, High: 1.2}, Tested: method.Range{Low: 0.4, High: 0.8}}
}

func cp() method.Input {
	return method.Input{Key: "cp", About: "crude protein of dry matter, 0 to 1", Accepted: method.Range{Low: 0.01, High: 0.6}, Tested: method.Range{Low: 0.08, High: 0.28}}
}

func unitCost() *method.Method {
	return &method.Method{
		Name: "unit-cost", Title: "What a pound of protein and a unit of energy cost in a feed",
		About:   "The whole price over protein alone, and over energy alone: to lay feeds side by side, not to add up.",
		Inputs:  []method.Input{price("price", "price of a ton of dry matter"), cp(), nel()},
		Outputs: []method.Output{out("protein", "a pound of crude protein", unit.Must("$/lb"), 4), out("energy", "a megacalorie", unit.Must("$/Mcal"), 4)},
		Sources: []source.ID{source.TwoNutrients},
		Example: "price=200 cp=0.2 nel=0.6",
		Run: func(c *method.Call) error {
			c.Answer("protein", c.Num("price")/poundsATon/c.Num("cp"))
			c.Answer("energy", c.Num("price")/poundsATon/c.Num("nel"))
			return nil
		},
	}
}

func nutrientConstants() []method.Constant {
	k := PublishedNutrients()
	const id = source.NutrientFeeds
	return []method.Constant{
		constant("corn_dm", k.Corn.DM, "", id), constant("corn_nel", k.Corn.NEL, "Mcal/lb", id), constant("corn_cp", k.Corn.CP, "", id),
		constant("meal_dm", k.Meal.DM, "", id), constant("meal_nel", k.Meal.NEL, "Mcal/lb", id), constant("meal_cp", k.Meal.CP, "", id),
		constant("bushel", k.BushelLb, "lb", id),
	}
}

// pricesOf solves for the two nutrients and notes a price below nothing.
func pricesOf(c *method.Call) (NutrientPrices, error) {
	k := Nutrients{Feed{c.K("corn_dm"), c.K("corn_nel"), c.K("corn_cp")}, Feed{c.K("meal_dm"), c.K("meal_nel"), c.K("meal_cp")}, c.K("bushel")}
	p, err := k.Prices(c.Num("corn"), c.Num("meal"))
	if err == nil && min(p.Mcal, p.Protein) < 0 {
		c.Note("at these prices one nutrient comes out below nothing (energy %.4f $/Mcal, protein %.4f $/lb): corn and meal do not price forage then", p.Mcal, p.Protein)
	}
	return p, err
}

func grainInputs() []method.Input {
	return []method.Input{
		{Key: "corn", About: "price of corn", Unit: unit.Must("$/bu"), Accepted: method.Range{Low: 0.1, High: 50}, Tested: method.Range{Low: 2, High: 9}},
		{Key: "meal", About: "price of soybean meal, 48 % protein, as fed", Unit: perTon, Accepted: priceTon, Tested: method.Range{Low: 150, High: 800}},
	}
}

func nutrientPrices() *method.Method {
	return &method.Method{
		Name: "nutrient-prices", Title: "What energy and protein cost in corn and meal",
		About:     "The prices of a megacalorie and of a pound of protein at which both corn and soybean meal cost just what they carry.",
		Inputs:    grainInputs(),
		Outputs:   []method.Output{out("energy", "a megacalorie", unit.Must("$/Mcal"), 4), out("protein", "a pound of crude protein", unit.Must("$/lb"), 4)},
		Constants: nutrientConstants(),
		Sources:   []source.ID{source.TwoNutrients, source.NutrientFeeds},
		Example:   "corn=4.5 meal=380",
		Run: func(c *method.Call) error {
			p, err := pricesOf(c)
			if err != nil {
				return err
			}
			c.Answer("energy", p.Mcal)
			c.Answer("protein", p.Protein)
			return nil
		},
	}
}

func nutrientWorth() *method.Method {
	return &method.Method{
		Name: "nutrient-worth", Title: "What forage is worth by corn and meal",
		About:     "A ton of dry matter of forage by the energy and protein that it saves in corn and soybean meal. Fibre has no price in it, nor has the milk that poor fibre costs: not a price for dairy hay by itself.",
		Inputs:    append([]method.Input{nel(), cp()}, grainInputs()...),
		Outputs:   []method.Output{out("value_ton", "a ton of dry matter", perTon, 2)},
		Constants: nutrientConstants(),
		Sources:   []source.ID{source.TwoNutrients, source.NutrientFeeds},
		Example:   "nel=0.6 cp=0.2 corn=4.5 meal=380",
		Run: func(c *method.Call) error {
			p, err := pricesOf(c)
			if err != nil {
				return err
			}
			v := p.Ton(c.Num("nel"), c.Num("cp"))
			if v <= 0 {
				return errors.New("corn and meal price such forage at nothing or less; check corn in $/bu and meal in $/ton")
			}
			c.Answer("value_ton", v)
			return nil
		},
	}
}

func nutrientWorthFibre() *method.Method {
	k := PublishedSplit()
	const id = source.ThreeNutrients
	return &method.Method{
		Name: "nutrient-worth-fibre", Title: "What forage is worth by protein, energy and fibre",
		About: "A ton of dry matter of forage beside a reference alfalfa of 20 % protein, 42 % NDF and 0.58 Mcal/lb, by how the reference's price falls on the three. Printed for 200 $; at other prices the split is an assumption. It still leaves out milk: poor fibre is not worth more to a cow.",
		Inputs: []method.Input{
			nel(), cp(),
			{Key: "ndf", About: "NDF of dry matter, 0 to 1", Accepted: method.Range{Low: 0.1, High: 0.9}, Tested: method.Range{Low: 0.3, High: 0.6}},
			price("hay", "price of the reference, a ton of dry matter"),
		},
		Outputs: []method.Output{out("value_ton", "a ton of dry matter", perTon, 2)},
		Constants: []method.Constant{
			constant("protein_share", k.Protein, "", id), constant("energy_share", k.Energy, "", id), constant("fibre_share", k.Fibre, "", id),
			constant("cp", k.CP, "", id), constant("nel", k.NEL, "Mcal/lb", id), constant("ndf", k.NDF, "", id),
		},
		Sources: []source.ID{source.ThreeNutrients},
		Example: "nel=0.65 cp=0.23 ndf=0.36 hay=200",
		Run: func(c *method.Call) error {
			k := Split{c.K("protein_share"), c.K("energy_share"), c.K("fibre_share"), c.K("cp"), c.K("nel"), c.K("ndf")}
			c.Answer("value_ton", k.Ton(c.Num("hay"), c.Num("nel"), c.Num("cp"), c.Num("ndf")))
			return nil
		},
	}
}

func hayByFactors() *method.Method {
	var names []string
	var constants []method.Constant
	for _, f := range PublishedFactors() {
		names = append(names, f.Forage)
		for _, k := range []struct {
			on    string
			value float64
		}{{"meal", f.Meal}, {"corn", f.Corn}, {"hay", f.Hay}} {
			one := constant(key(f.Forage)+"_"+k.on, k.value, "", source.FeedFactors)
			if k.value == 0 {
				one.Exempt = "nothing to move: the factor is 0"
			}
			constants = append(constants, one)
		}
	}
	return &method.Method{
		Name: "hay-by-factors", Title: "What a forage is worth by a table of factors",
		About: "A ton as fed by factors on the prices of meal, corn and grade 2 alfalfa hay.",
		Inputs: []method.Input{
			{Key: "forage", About: "which forage", Kind: method.Word, Choices: names},
			price("meal", "price of soybean meal"), price("corn", "price of corn, a ton"), price("hay", "price of grade 2 alfalfa hay"),
		},
		Outputs:   []method.Output{out("value_ton", "a ton as fed", perTon, 2)},
		Constants: constants,
		Sources:   []source.ID{source.FeedFactors},
		Example:   "forage=prime meal=380 corn=160.7 hay=200",
		Run: func(c *method.Call) error {
			in := key(c.Word("forage"))
			f := Factors{c.Word("forage"), c.K(in + "_meal"), c.K(in + "_corn"), c.K(in + "_hay")}
			c.Answer("value_ton", f.Ton(c.Num("meal"), c.Num("corn"), c.Num("hay")))
			return nil
		},
	}
}
