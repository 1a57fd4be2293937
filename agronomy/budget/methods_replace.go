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
