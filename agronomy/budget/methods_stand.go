package budget

import (
	"math"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

var worthAcre = method.Range{Low: -50000, High: 50000}

// byAge is a list with a number for each age from the seeding year on.
func byAge(key, about string, u unit.Unit, r method.Range) method.Input {
	return method.Input{Key: key, About: about, Kind: method.Numbers, Unit: u, Accepted: r}
}

func yieldsByAge() method.Input {
	return byAge("yields", "yield by age, the seeding year first, dry matter", tonsAc, method.Range{Low: 0, High: 20})
}

func outBest() method.Output {
	return out("best_age", "age at which to end it; 1 is the seeding year", unit.None, 0)
}

func answerLife(c *method.Call, l Life) {
	c.Answer("eae", l.EAE)
	c.Answer("best_age", l.BestAge())
	if l.Best == len(l.EAE)-1 {
		c.Note("the best age is the last one given: give more years to see whether it is later")
	}
}

func standLife() *method.Method {
	return &method.Method{
		Name: "stand-life", Title: "How many years to keep a stand",
		About: "The worth of ending a stand at each age as an equal sum a year, and the age at which it is highest. The chain is this stand followed by stands like it; with corn between them the best age is higher, see rotation-life. Not the age of the highest worth in all, which is always too old.",
		Inputs: []method.Input{
			yieldsByAge(), price("price", "price of hay, a ton of dry matter"),
			tonCost("harvest", "harvest and haul, a ton of dry matter"), cost("fixed", "other costs of a production year"),
			cost("establishment", "costs of the seeding year, instead of fixed"), interest(),
			{Key: "salvage", About: "what ending it leaves, by age, or one number for all: nitrogen and rotation worth less termination; below 0 where ending costs", Kind: method.Numbers, Unit: perAcre, Accepted: worthAcre},
		},
		Outputs: []method.Output{{Key: "eae", About: "equal sum a year, ended at each age", Unit: perAcre, Decimals: 2}, outBest()},
		Sources: []source.ID{source.EqualAnnual},
		Example: "yields=2.2,4.6,4.7,3.82,3.04,2.4,1.9 price=180 harvest=30 fixed=290 establishment=450 rate=0.05 salvage=134.57,178.86,178.86,152.29,116.86,81.43,81.43",
		Run: func(c *method.Call) error {
			s := Stand{c.List("yields"), c.Num("price"), c.Num("harvest"), c.Num("fixed"), c.Num("establishment")}
			salvage, err := stretch(c.List("salvage"), len(s.Yields), "salvage", "yields")
			if err != nil {
				return err
			}
			l, err := EqualAnnual(s.Margins(), salvage, 0, c.Num("rate"))
			if err != nil {
				return err
			}
			answerLife(c, l)
			c.Note("the chain is alfalfa after alfalfa; a chain with corn between keeps stands longer")
			return nil
		},
	}
}

func equalAnnual() *method.Method {
	return &method.Method{
		Name: "equal-annual", Title: "When to replace, from the sums of each year",
		About: "As stand-life, from net sums by age instead of yields: for any crop or machine. Also what reaching each age adds, which by itself says when to stop: go on while it is over the best equal sum.",
		Inputs: []method.Input{
			byAge("cash", "net sum at the end of each year", perAcre, worthAcre),
			{Key: "salvage", About: "what ending it leaves, by age, or one number for all", Kind: method.Numbers, Unit: perAcre, Accepted: worthAcre, Default: "0"},
			{Key: "outlay", About: "paid at the start", Unit: perAcre, Accepted: costAcre, Default: "0"}, interest(),
		},
		Outputs: []method.Output{
			{Key: "npv", About: "worth at the start, ended at each age", Unit: perAcre, Decimals: 2}, {Key: "eae", About: "as an equal sum a year", Unit: perAcre, Decimals: 2},
			{Key: "marginal", About: "what reaching each age adds, from the second on", Unit: perAcre, Decimals: 2, When: "with two years or more"},
			outBest(), when(out("chain", "worth of the chain for ever", perAcre, 2), "with interest"),
		},
		Sources: []source.ID{source.EqualAnnual},
		Example: "cash=-145,520,520,358.5,197,64 rate=0.06",
		Run: func(c *method.Call) error {
			salvage, err := stretch(c.List("salvage"), len(c.List("cash")), "salvage", "cash")
			if err != nil {
				return err
			}
			l, err := EqualAnnual(c.List("cash"), salvage, c.Num("outlay"), c.Num("rate"))
			if err != nil {
				return err
			}
			answerLife(c, l)
			c.Answer("npv", l.NPV)
			if len(l.Marginal) > 1 {
				c.Answer("marginal", l.Marginal[1:])
			}
			if chain := l.Chain(c.Num("rate")); !math.IsNaN(chain) {
				c.Answer("chain", chain)
			}
			return nil
		},
	}
}

func cashFlow() *method.Method {
	return &method.Method{
		Name: "cash-flow", Title: "Net worth today of sums over years",
		About:  "The first sum now, the others at the ends of years: their worth today, the same as an equal sum a year, and the return on the outlay.",
		Inputs: []method.Input{byAge("cash", "sums, the first now; below 0 is paid", money, method.Range{Low: -1e8, High: 1e8}), interest()},
		Outputs: []method.Output{
			out("npv", "worth today", money, 2), when(out("annuity", "as an equal sum a year", unit.Must("$/yr"), 2), "with two sums or more"),
			when(out("irr", "return a year on the outlay", unit.None, 4), "where an outlay is followed by returns"),
		},
		Sources: []source.ID{source.Annuity},
		Example: "cash=-310,85,160,150,105,45 rate=0.06",
		Run: func(c *method.Call) error {
			cash := c.List("cash")
			npv, irr, err := Flows(cash, c.Num("rate"))
			if err != nil {
				return err
			}
			c.Answer("npv", npv)
			if len(cash) > 1 {
				c.Answer("annuity", npv*Recovery(c.Num("rate"), float64(len(cash)-1)))
			}
			if !math.IsNaN(irr) {
				c.Answer("irr", irr)
			}
			return nil
		},
	}
}

func credits() method.Input {
	return byAge("credits", "nitrogen credit to corn, lb N/ac, ended at each age", unit.Must("lb/ac"), method.Range{Low: 0, High: 300})
}

func endingInputs() []method.Input {
	return []method.Input{
		{Key: "nitrogen", About: "price of nitrogen", Unit: unit.Must("$/lb"), Accepted: method.Range{Low: 0, High: 10}},
		cost("termination", "cost of ending the stand"),
	}
}

func secondCredit() method.Constant {
	return constant("second_credit", HalfAgain, "", source.SecondCredit)
}

func standSalvage() *method.Method {
	return &method.Method{
		Name: "stand-salvage", Title: "What ending a stand leaves for the corn after it",
		About:     "The nitrogen credit of two years, half of it in the second, and the rotation's other worth, less the cost of termination. Credits differ between states by up to twice: take your state's, never a mean. Feeds stand-life.",
		Inputs:    append([]method.Input{credits(), cost("benefit", "worth of the rotation beyond nitrogen"), interest()}, endingInputs()...),
		Outputs:   []method.Output{{Key: "salvage", About: "by age", Unit: perAcre, Decimals: 2}},
		Constants: []method.Constant{secondCredit()},
		Sources:   []source.ID{source.EqualAnnual, source.SecondCredit},
		Example:   "credits=100,150,150,120,80,40,40 nitrogen=0.6 benefit=81 termination=35 rate=0.05",
		Run: func(c *method.Call) error {
			e := Ending{c.Num("nitrogen"), c.Num("benefit"), c.Num("termination"), c.K("second_credit")}
			c.Answer("salvage", e.Salvage(c.List("credits"), c.Num("rate")))
			return nil
		},
	}
}

func rotationLife() *method.Method {
	return &method.Method{
		Name: "rotation-life", Title: "How many years to keep a stand, with corn after it",
		About: "As stand-life for the chain of alfalfa and the corn after it, over all years of both: the stand's cost is spread over the corn years too, so it is kept longer than by stand-life. Nitrogen is counted as fertiliser the corn saves, so give the corn's cost with all its nitrogen.",
		Inputs: append([]method.Input{
			yieldsByAge(), price("price", "price of hay, a ton of dry matter"), tonCost("harvest", "harvest and haul, a ton of dry matter"),
			cost("fixed", "other costs of a production year"), cost("establishment", "costs of the seeding year, instead of fixed"), interest(), credits(),
			{Key: "corn_yield", About: "yield of continuous corn", Unit: unit.Must("bu/ac"), Accepted: method.Range{Low: 1, High: 500}},
			{Key: "corn_price", About: "price of corn", Unit: unit.Must("$/bu"), Accepted: method.Range{Low: 0.1, High: 50}},
			cost("corn_cost", "cost of corn, all nitrogen bought"),
			{Key: "bump", About: "yield of each year of corn after alfalfa over continuous corn", Kind: method.Numbers, Accepted: method.Range{Low: 0.5, High: 2}, Tested: method.Range{Low: 1, High: 1.2}},
		}, endingInputs()...),
		Outputs: []method.Output{
			{Key: "corn_first", About: "margin of the first year of corn, by age", Unit: perAcre, Decimals: 2}, {Key: "corn_last", About: "of the last year of corn", Unit: perAcre, Decimals: 2},
			{Key: "eae", About: "equal sum a year of the whole chain", Unit: perAcre, Decimals: 2}, outBest(),
		},
		Constants: []method.Constant{secondCredit()},
		Sources:   []source.ID{source.EqualAnnual, source.SecondCredit},
		Example:   "yields=2.2,4.6,4.7,3.82,3.04,2.4,1.9 price=180 harvest=30 fixed=290 establishment=450 rate=0.05 credits=100,150,150,120,80,40,40 nitrogen=0.6 termination=35 corn_yield=180 corn_price=4.5 corn_cost=760 bump=1.10,1.07",
		Run: func(c *method.Call) error {
			s := Stand{c.List("yields"), c.Num("price"), c.Num("harvest"), c.Num("fixed"), c.Num("establishment")}
			corn := Corn{c.Num("corn_yield"), c.Num("corn_price"), c.Num("corn_cost"), c.List("bump")}
			e := Ending{Nitrogen: c.Num("nitrogen"), Termination: c.Num("termination"), Second: c.K("second_credit")}
			eae, best, err := Rotation(s.Margins(), c.List("credits"), corn, e, c.Num("rate"))
			if err != nil {
				return err
			}
			var first, last []float64
			for _, lb := range c.List("credits") {
				m := corn.Margins(lb, e)
				first, last = append(first, m[0]), append(last, m[len(m)-1])
			}
			c.Answer("corn_first", first)
			c.Answer("corn_last", last)
			answerLife(c, Life{EAE: eae, Best: best})
			c.Note("the chain is %d years of alfalfa and %d of corn, over and over", best+1, len(corn.Bump))
			return nil
		},
	}
}
