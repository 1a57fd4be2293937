package budget

import (
	"errors"
	"fmt"
	"math"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/stand"
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
			outBest(), never(out("chain", "worth of the chain for ever", perAcre, 2), "without end"),
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
			if chain := l.Chain(c.Num("rate")); math.IsInf(chain, 1) {
				c.Answer("chain", math.Inf(1))
			} else {
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
		About: "As stand-life for the chain of alfalfa and the corn after it, over all years of both: the stand's cost is spread over the corn years too, so it is kept longer than by stand-life. Nitrogen is counted as fertilizer the corn saves, so give the corn's cost with all its nitrogen.",
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

func replaceWithRisk() *method.Method {
	return &method.Method{
		Name: "replace-with-risk", Title: "When to replace a stand that a winter may kill",
		About: "As equal-annual where each year has the same chance of losing the stand after harvest, when a new one is paid for and sown at once.",
		Inputs: []method.Input{
			byAge("net", "net sum at the end of each year of a stand", perAcre, worthAcre), cost("cost", "cost of a new stand"),
			{Key: "rate", About: "interest a year", Accepted: method.Range{Low: 0.001, High: 1}, Tested: method.Range{Low: 0.01, High: 0.2}},
			share("kill", "chance a year that the stand is lost"),
		},
		Outputs: []method.Output{
			{Key: "worth", About: "of a stand at the start of its year, with all that follow, by age", Unit: perAcre, Decimals: 2},
			out("start", "worth of beginning the chain", perAcre, 2), out("annuity", "as an equal sum a year", perAcre, 2),
			out("best_age", "replace after this age", unit.None, 0),
		},
		Sources: []source.ID{source.KillRisk},
		Example: "net=85,160,150,105,45,-5,-40 cost=310 rate=0.06 kill=0.08",
		Run: func(c *method.Call) error {
			r, err := WithKill(c.List("net"), c.Num("cost"), c.Num("rate"), c.Num("kill"))
			if err != nil {
				return err
			}
			c.Answer("worth", r.Worth)
			c.Answer("start", r.Start)
			c.Answer("annuity", r.Annuity)
			c.Answer("best_age", r.Best+1)
			return nil
		},
	}
}

func keepOrTurn() *method.Method {
	const priced = "with prices"
	k := stand.PublishedStems()
	return &method.Method{
		Name: "keep-or-turn", Title: "Keep a stand or turn it under",
		About: "The first word by stems, roots and grass, and the money: what the stand's stems bring next year against the equal sum a year of the chain that would follow (next_eae, from stand-life or rotation-life). Where prices are given, money decides.",
		Inputs: []method.Input{
			{Key: "stems", About: "stems a square foot", Unit: unit.Must("/ft2"), Accepted: method.Range{Low: 0, High: 200}, Tested: method.Range{Low: 15, High: 90}},
			{Key: "roots_bad_pct", About: "roots rotted or streaked, of those dug", Unit: unit.Must("%"), Accepted: method.Range{Low: 0, High: 100}, Optional: true},
			optional(share("grass_share", "share of grass in the stand")),
			optional(price("price", "price of hay, a ton of dry matter")), optional(tonCost("harvest_cost", "harvest and haul, a ton of dry matter")),
			optional(cost("fixed_cost", "other costs of the year")),
			{Key: "local", About: "share of the stems' potential that the place gets in such a year", Accepted: method.Range{Low: 0.1, High: 1.5}, Tested: method.Range{Low: 0.5, High: 1}, Default: "1"},
			{Key: "next_eae", About: "equal sum a year of what would follow", Unit: perAcre, Accepted: worthAcre, Optional: true},
		},
		Outputs: []method.Output{
			out("matrix_verdict", "by stems, roots and grass", unit.None, 0),
			when(out("next_year_margin", "what the stand brings next year", perAcre, 2), priced),
			when(out("money_verdict", "by money", unit.None, 0), priced+" and next_eae"),
		},
		Constants: []method.Constant{
			constant("full", k.Full, "stems/ft2", source.StemClasses), constant("replace", k.Replace, "stems/ft2", source.StemClasses),
			constant("slope", k.Slope, "tons/ac a stem/ft2", source.StemYield), constant("intercept", k.Intercept, "tons/ac", source.StemYield),
		},
		Sources: []source.ID{source.StandMatrix, source.StemClasses, source.StemYield, source.RootHealth, source.KeepMargin},
		Example: "stems=38 roots_bad_pct=20 grass_share=0.1 price=180 harvest_cost=30 fixed_cost=290 local=0.8 next_eae=279.64",
		Run:     runKeepOrTurn,
	}
}

func runKeepOrTurn(c *method.Call) error {
	k := stand.StemScale{Full: c.K("full"), Replace: c.K("replace"), Slope: c.K("slope"), Intercept: c.K("intercept")}
	roots, grass := math.NaN(), math.NaN()
	if c.Given("roots_bad_pct") {
		roots = c.Num("roots_bad_pct") / 100
	}
	if c.Given("grass_share") {
		grass = c.Num("grass_share")
	}
	v := stand.Matrix(k.Class(c.Num("stems")), roots, grass, math.NaN())
	c.Answer("matrix_verdict", string(v.Action))
	c.Note("%s", v.Because)
	if v.Ask != "" {
		c.Note("%s", v.Ask)
	}
	given := 0
	prices := []string{"price", "harvest_cost", "fixed_cost"}
	for _, key := range prices {
		if c.Given(key) {
			given++
		}
	}
	switch {
	case given == 0 && c.Given("next_eae"):
		return errors.New("next_eae wants price, harvest_cost and fixed_cost beside it: give all, or none for the first word alone")
	case given == 0:
		c.Note("no prices given: the first word only")
		return nil
	case given < len(prices):
		return fmt.Errorf("price, harvest_cost and fixed_cost belong together: give all three, or none for the first word alone; accepted price 0.01 to 2000 and harvest_cost 0 to 2000 $/ton, fixed_cost 0 to 20000 $/ac")
	}
	margin := KeepMargin(k.YieldPotential(c.Num("stems")), c.Num("local"), c.Num("price"), c.Num("harvest_cost"), c.Num("fixed_cost"))
	c.Answer("next_year_margin", margin)
	if !c.Given("next_eae") {
		c.Note("no next_eae given: nothing to lay the margin beside")
		return nil
	}
	const shown = 0.5 // a dollar is what one sees
	switch d := margin - c.Num("next_eae"); {
	case math.Abs(d) <= shown:
		c.Answer("money_verdict", "no difference")
	case d > 0:
		c.Answer("money_verdict", "keep")
	default:
		c.Answer("money_verdict", "turn under")
	}
	c.Note("the change of what ending it leaves, and what cannot be counted, are not in it")
	return nil
}
