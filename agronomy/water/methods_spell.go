package water

import (
	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

func drySpell() *method.Method {
	chance := method.Range{Low: 0, High: 1}
	return &method.Method{
		Name: "dry-spell", Title: "Chance of a run of dry days",
		About: "How likely days without rain follow one another, from how often a wet day follows a dry and a wet one at this place and season. " +
			"A chain of days knows yesterday only and gives too few long dry spells: with 20 years of record, count them.",
		Inputs: []method.Input{
			{Key: "p01", About: "chance of a wet day after a dry one", Accepted: chance},
			{Key: "p11", About: "chance of a wet day after a wet one", Accepted: chance},
			{Key: "n", About: "dry days in a row", Unit: unit.Must("days"), Accepted: method.Range{Low: 1, High: 60}, Tested: method.Range{Low: 1, High: 7}},
			{Key: "horizon", About: "days ahead in which they may come", Unit: unit.Must("days"), Accepted: method.Range{Low: 1, High: 366}},
			{Key: "today", About: "whether today is wet, 0.25 mm of rain or more", Kind: method.Word, Choices: []string{string(WetToday), string(DryToday)}},
		},
		Outputs: []method.Output{
			{Key: "next_n", About: "chance that the next n days are all dry", Decimals: 3},
			{Key: "within", About: "chance of n dry days in a row within the horizon, from tomorrow", Decimals: 3},
		},
		Sources: []source.ID{source.DrySpellChain, source.DryDay},
		Example: "p01=0.26 p11=0.42 n=3 horizon=7 today=dry",
		Run: func(c *method.Call) error {
			n, err := whole(c, "n")
			if err != nil {
				return err
			}
			horizon, err := whole(c, "horizon")
			if err != nil {
				return err
			}
			chain, wet := Chain{c.Num("p01"), c.Num("p11")}, c.Word("today") == string(WetToday)
			c.Answer("next_n", chain.NextDry(n, wet))
			c.Answer("within", chain.Within(n, horizon, wet))
			if horizon < n {
				c.Note("the horizon of %d days is too short for %d dry ones", horizon, n)
			}
			if n > 1 && chain.P01 > 0 {
				c.Note("not knowing today: %.3f for n days from any day", chain.AnyDry(n))
			}
			return nil
		},
	}
}
