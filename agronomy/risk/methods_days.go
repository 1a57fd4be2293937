package risk

import (
	"fmt"
	"math"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

func whenToCut() *method.Method {
	acre := unit.Must("$/ac")
	return &method.Method{
		Name: "when-to-cut", Title: "On which of the coming days to cut",
		About: "Picks the day worth most on average from the crop's worth on each day, what rain would take, and the chance of it. " +
			"The chances are those known today; see cut-with-updates for what a fresh forecast each morning adds.",
		Inputs: []method.Input{
			{Key: "values", About: "worth cut today, tomorrow ... if it dries", Kind: method.Numbers, Unit: acre, Accepted: worth},
			{Key: "losses", About: "what rain would take, by day; one number stands for all", Kind: method.Numbers, Unit: acre, Accepted: losses},
			{Key: "chances", About: "chance of rain on hay cut that day", Kind: method.Numbers, Accepted: shares},
		},
		Outputs: []method.Output{
			{Key: "value", About: "worth to expect on the best day", Unit: acre, Decimals: 2},
			{Key: "day", About: "the best day; 0 is today"},
		},
		Sources: []source.ID{source.OptimalStopping},
		Example: "values=261.8,261.6,260.8,259.5,257.7 losses=74.6 chances=0.6,0.5,0.15,0.35,0.4",
		Run: func(c *method.Call) error {
			values, all, chances := c.List("values"), c.List("losses"), c.List("chances")
			all, err := forEach(all, len(values), "losses")
			if err != nil {
				return err
			}
			if len(chances) != len(values) {
				return fmt.Errorf("%d chances for %d days: want one for each day", len(chances), len(values))
			}
			days := make([]Day, len(values))
			for i := range days {
				days[i] = Day{values[i], all[i], chances[i]}
			}
			value, day, err := BestDay(days)
			if err != nil {
				return err
			}
			c.Answer("value", value)
			c.Answer("day", day)
			return nil
		},
	}
}

// forEach stretches a single number over all days.
func forEach(list []float64, n int, key string) ([]float64, error) {
	switch {
	case len(list) == n:
		return list, nil
	case len(list) != 1:
		return nil, fmt.Errorf("%d %s for %d days: want one for each day, or one for all", len(list), key, n)
	}
	all := make([]float64, n)
	for i := range all {
		all[i] = list[0]
	}
	return all, nil
}

func cutWithUpdates() *method.Method {
	acre := unit.Must("$/ac")
	return &method.Method{
		Name: "cut-with-updates", Title: "Cut today, or look again tomorrow",
		About: "Each morning brings one of several forecasts. Works back from the last day to what waiting is worth when one may choose again each morning, and what looking again adds over the best day fixed now. " +
			"One row for each forecast of a day: its day (0 is today), the chance that it is issued, the chance of rain it gives, and the day's worth and loss. Forecasts are taken as right, and each morning's as independent of the one before.",
		Inputs: []method.Input{
			{Key: "day", About: "day of each row, counted from 0, in order", Kind: method.Numbers, Accepted: method.Range{Low: 0, High: 60}},
			{Key: "issued", About: "chance that the forecast is issued; adds to 1 within a day", Kind: method.Numbers, Accepted: shares},
			{Key: "rain", About: "chance of rain that it gives", Kind: method.Numbers, Accepted: shares},
			{Key: "values", About: "worth cut that day if it dries, one for each row", Kind: method.Numbers, Unit: acre, Accepted: worth},
			{Key: "losses", About: "what rain would take, one for each row or one for all", Kind: method.Numbers, Unit: acre, Accepted: losses},
		},
		Outputs: []method.Output{
			{Key: "cut_now", About: "cutting today is as good as waiting, or better"},
			{Key: "now", About: "worth to expect, cut today", Unit: acre, Decimals: 2},
			{Key: "wait", About: "worth to expect of waiting and choosing again", Unit: acre, Decimals: 2, When: "with more days than one"},
			{Key: "blind", About: "worth to expect of the best day fixed now", Unit: acre, Decimals: 2},
			{Key: "blind_day", About: "that day"},
			{Key: "update_worth", About: "what looking again is worth", Unit: acre, Decimals: 2},
			{Key: "cut_below", About: "chance of rain below which to cut, by day; 0 never, 1 whatever is forecast", Decimals: 2},
		},
		Sources: []source.ID{source.OptimalStopping},
		Example: "day=0,1,1,2 issued=1,0.6,0.4,1 rain=0.3,0.1,0.6,0.35 values=261.8,260.8,260.8,259.5 losses=74.6",
		Run:     runCutWithUpdates,
	}
}

func runCutWithUpdates(c *method.Call) error {
	day, issued, rain, values := c.List("day"), c.List("issued"), c.List("rain"), c.List("values")
	loss, err := forEach(c.List("losses"), len(day), "losses")
	if err != nil {
		return err
	}
	if len(issued) != len(day) || len(rain) != len(day) || len(values) != len(day) {
		return fmt.Errorf("%d days, %d issued, %d rain and %d values: want one of each for every row", len(day), len(issued), len(rain), len(values))
	}
	var days []Morning
	for i, d := range day {
		switch n := len(days); {
		case d == float64(n):
			days = append(days, Morning{Dry: values[i], Loss: loss[i]})
		case n == 0 || d != float64(n-1):
			return fmt.Errorf("row %d: day %g; want days in order from 0, none left out", i+1, d)
		case values[i] != days[n-1].Dry || loss[i] != days[n-1].Loss:
			return fmt.Errorf("row %d: worth %g and loss %g, and day %g had %g and %g: want one worth and loss for all forecasts of a day", i+1, values[i], loss[i], d, days[n-1].Dry, days[n-1].Loss)
		}
		last := &days[len(days)-1]
		last.Forecasts = append(last.Forecasts, Forecast{issued[i], rain[i]})
	}
	p, err := WithUpdates(days)
	if err != nil {
		return err
	}
	c.Answer("cut_now", p.CutNow)
	c.Answer("now", p.Now)
	if !math.IsNaN(p.Wait) {
		c.Answer("wait", p.Wait)
	}
	c.Answer("blind", p.Blind)
	c.Answer("blind_day", p.BlindDay)
	c.Answer("update_worth", p.Updates)
	c.Answer("cut_below", p.Threshold)
	return nil
}

func acresToMow() *method.Method {
	return &method.Method{
		Name: "acres-to-mow", Title: "How many acres to lay down",
		About: "How many acres can be harvested before rain is uncertain: too many and some are rained on, too few and good weather is wasted. Gives the acreage with the least expected cost. See mow-plan for a crew's limit.",
		Inputs: []method.Input{
			{Key: "acres", About: "acres that may turn out harvestable before rain", Kind: method.Numbers, Unit: unit.Must("ac"), Accepted: area},
			{Key: "chances", About: "chance of each, adding to 1", Kind: method.Numbers, Accepted: shares},
			{Key: "cost_short", About: "cost of an acre that was ready and not mown", Unit: unit.Must("$/ac"), Accepted: losses},
			{Key: "cost_over", About: "cost of an acre mown and rained on", Unit: unit.Must("$/ac"), Accepted: losses},
		},
		Outputs: []method.Output{
			{Key: "acres", About: "acres to mow", Unit: unit.Must("ac")},
			{Key: "cost", About: "expected cost of being wrong", Unit: unit.Must("$"), Decimals: 2},
		},
		Sources: []source.ID{source.Newsvendor},
		Example: "acres=40,80,120,160,200 chances=0.15,0.2,0.3,0.2,0.15 cost_short=18 cost_over=74.6",
		Run: func(c *method.Call) error {
			s, err := NewListed(c.List("acres"), c.List("chances"))
			if err != nil {
				return err
			}
			best, err := mowing(c).Best(s, math.Inf(1))
			if err != nil {
				return err
			}
			c.Answer("acres", best.Acres)
			c.Answer("cost", best.Cost)
			return nil
		},
	}
}

func mowing(c *method.Call) Mowing { return Mowing{c.Num("cost_short"), c.Num("cost_over")} }

func mowPlan() *method.Method {
	acre, money := unit.Must("ac"), unit.Must("$")
	const listed, bell, limited = "with a list of acres", "with a mean and spread", "with a limit"
	return &method.Method{
		Name: "mow-plan", Title: "How many acres to lay down, with a crew's limit",
		About: "As acres-to-mow, for acres that scatter about a mean (mean and sd) or a list with chances, and no more than the crew or the packing tractors can handle.",
		Inputs: []method.Input{
			{Key: "mean", About: "acres harvested before rain, on average", Unit: acre, Accepted: area, Optional: true},
			{Key: "sd", About: "their standard deviation", Unit: acre, Accepted: method.Range{Low: 0.01, High: 20000}, Optional: true},
			{Key: "acres", About: "instead: acres that may turn out harvestable", Kind: method.Numbers, Unit: acre, Accepted: area, Optional: true},
			{Key: "chances", About: "chance of each, adding to 1", Kind: method.Numbers, Accepted: shares, Optional: true},
			{Key: "cost_short", About: "cost of an acre that was ready and not mown", Unit: unit.Must("$/ac"), Accepted: losses},
			{Key: "cost_over", About: "cost of an acre mown and rained on", Unit: unit.Must("$/ac"), Accepted: losses},
			{Key: "capacity", About: "acres the crew can handle", Unit: acre, Accepted: area, Optional: true},
		},
		Outputs: []method.Output{
			{Key: "mow", About: "acres to mow", Unit: acre, Decimals: 1},
			{Key: "cost", About: "expected cost of being wrong", Unit: money, Decimals: 2},
			{Key: "ratio", About: "chance of harvesting less that the best acreage allows", Decimals: 4},
			{Key: "uncapped", About: "acres without the limit", Unit: acre, Decimals: 1, When: limited},
			{Key: "cap_cost", About: "what the limit costs", Unit: money, Decimals: 2, When: limited},
			{Key: "costs", About: "expected cost at each acreage listed", Unit: money, Decimals: 2, When: listed},
			{Key: "z", About: "standard deviations from the mean", Decimals: 4, When: bell},
		},
		Sources: []source.ID{source.Newsvendor},
		Example: "mean=120 sd=45 cost_short=18 cost_over=74.6 capacity=60",
		Run:     runMowPlan,
	}
}

func runMowPlan(c *method.Call) error {
	var s Spell
	var err error
	asBell, asList := c.Given("mean") && c.Given("sd"), c.Given("acres") && c.Given("chances")
	switch {
	case asBell && !c.Given("acres") && !c.Given("chances"):
		s, err = NewBell(c.Num("mean"), c.Num("sd"))
	case asList && !c.Given("mean") && !c.Given("sd"):
		s, err = NewListed(c.List("acres"), c.List("chances"))
	default:
		return fmt.Errorf("accepted: mean and sd, or acres and chances, and not both")
	}
	if err != nil {
		return err
	}
	limit := math.Inf(1)
	if c.Given("capacity") {
		limit = c.Num("capacity")
	}
	m := mowing(c)
	best, err := m.Best(s, limit)
	if err != nil {
		return err
	}
	c.Answer("mow", best.Acres)
	c.Answer("cost", best.Cost)
	c.Answer("ratio", m.Ratio())
	if c.Given("capacity") {
		c.Answer("uncapped", best.Uncapped)
		c.Answer("cap_cost", best.CapCost)
	}
	if asList {
		var costs []float64
		for _, a := range c.List("acres") {
			costs = append(costs, m.Cost(s, a))
		}
		c.Answer("costs", costs)
		return nil
	}
	mean, sd := c.Num("mean"), c.Num("sd")
	c.Answer("z", (best.Uncapped-mean)/sd)
	if mean < 2*sd {
		c.Note("the spread is over half the mean: a bell curve then gives real chances to acres below 0; give a list of acres instead")
	}
	return nil
}
