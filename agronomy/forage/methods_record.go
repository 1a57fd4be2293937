package forage

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

func combine() *method.Method {
	return &method.Method{
		Name:  "combine",
		Title: "Several estimates into one",
		About: "Joins estimates of the same thing, such as fibre by height, by heat and by laboratory, each weighed by how sure it is. " +
			"Bring them to the same day and the same product first.",
		Inputs: []method.Input{
			{Key: "values", About: "the estimates", Kind: method.Numbers},
			{Key: "sds", About: "the standard deviation of each", Kind: method.Numbers, Accepted: method.Range{Low: 1e-6, High: 1e6}},
			{Key: "corr", About: "correlation of the errors of any two; 0 where they are independent", Accepted: method.Range{Low: 0, High: highestCorr}, Default: "0"},
		},
		Outputs: []method.Output{
			{Key: "value", About: "the joint estimate", Decimals: 2},
			{Key: "sd", About: "its standard deviation", Decimals: 2},
		},
		Sources: []source.ID{source.InverseVar},
		Example: "values=38,40 sds=2.2,3",
		Run: func(c *method.Call) error {
			values := c.List("values")
			value, sd, err := Combine(values, c.List("sds"), c.Num("corr"))
			if err != nil {
				return err
			}
			c.Answer("value", value)
			c.Answer("sd", sd)
			const slip = 1e-9
			if value < slices.Min(values)-slip || value > slices.Max(values)+slip {
				c.Note("the joint estimate lies outside the values: at this correlation the least sure one is weighed negatively")
			}
			return nil
		},
	}
}

// A pair further from the bias than this many standard deviations is worth a second look (a choice),
// and a change of slope is worth it only from so many pairs on.
const (
	outlierSDs = 2.5
	slopePairs = 15
)

func predictionBias() *method.Method {
	return &method.Method{
		Name:  "prediction-bias",
		Title: "Predictions against the laboratory",
		About: "How field predictions stood against laboratory tests of the same lots, and the correction to use next time, drawn towards zero where lots are few. " +
			"Compare standing with standing, or stored with stored.",
		Inputs: []method.Input{
			{Key: "predicted", About: "predicted values", Kind: method.Numbers},
			{Key: "lab", About: "laboratory values of the same lots, in the same order", Kind: method.Numbers},
			{Key: "sw", About: "standard deviation of a difference within one farm, cutting and product; the default is for NDF, % of DM", Accepted: method.Range{Low: 0.01, High: 100}, Default: "2.2"},
			{Key: "sb", About: "standard deviation of the bias between them; the default is for NDF, % of DM", Accepted: method.Range{Low: 0.01, High: 100}, Default: "1.5"},
		},
		Outputs: []method.Output{
			{Key: "bias", About: "mean of laboratory less predicted", Decimals: 2},
			{Key: "rmse", About: "root mean square difference", Decimals: 2},
			{Key: "sep", About: "standard deviation of the differences around the bias", Decimals: 2},
			{Key: "slope", About: "slope of laboratory on predicted", Decimals: 3},
			{Key: "intercept", About: "intercept of the same line", Decimals: 2},
			{Key: "r2", About: "share of the laboratory's variation the line explains", Decimals: 3},
			{Key: "ccc", About: "concordance: 1 where every pair agrees", Decimals: 3},
			{Key: "shrunk_bias", About: "correction to add to the next prediction", Decimals: 2},
			{Key: "shrunk_sd", About: "standard deviation of the correction", Decimals: 2},
		},
		Sources: []source.ID{source.Agreement, source.ShrunkBias},
		Example: "predicted=33.4,35.1,36.8,38.2,39.5 lab=35.0,36.2,39.6,39.1,42.0",
		Run: func(c *method.Call) error {
			predicted, lab := c.List("predicted"), c.List("lab")
			a, err := Agree(predicted, lab)
			if err != nil {
				return err
			}
			sw, sb := c.Num("sw"), c.Num("sb")
			bias, sd := Shrink(a.Bias, a.N, sw, sb)
			c.Answer("bias", a.Bias)
			c.Answer("rmse", a.RMSE)
			c.Answer("sep", a.SEP)
			c.Answer("slope", a.Slope)
			c.Answer("intercept", a.Intercept)
			c.Answer("r2", a.R2)
			c.Answer("ccc", a.CCC)
			c.Answer("shrunk_bias", bias)
			c.Answer("shrunk_sd", sd)
			if a.N < slopePairs {
				c.Note("%d pairs: correct the level only; a slope wants at least %d", a.N, slopePairs)
			}
			for i := range lab {
				if d := lab[i] - predicted[i]; math.Abs(d-bias) > outlierSDs*math.Hypot(sw, sb) {
					c.Note("pair %d (predicted %g, laboratory %g) stands far out: check species, height, ash and dry-matter basis before averaging it", i+1, predicted[i], lab[i])
				}
			}
			return nil
		},
	}
}

func delayCost() *method.Method {
	ton, acre := unit.Must("$/ton"), unit.Must("$/ac")
	return &method.Method{
		Name:  "delay-cost",
		Title: "Value of a standing crop by day of waiting",
		About: "Market value of a cut of hay if it is taken today or some days later: more tons of poorer hay. " +
			"At market prices the first days cost little; milk not made and days taken from later cuts are not in it.",
		Inputs: []method.Input{
			{Key: "yield", About: "standing yield today, dry matter", Unit: unit.Must("tons/ac"), Accepted: method.Range{Low: 0.1, High: 10}, Tested: method.Range{Low: 0.3, High: 4}},
			{Key: "rfv", About: "standing feed value today", Unit: points, Accepted: method.Range{Low: 40, High: 350}, Tested: method.Range{Low: 80, High: 250}},
			{Key: "per_day", About: "points lost a day: 3-5 in the first growth, 2-3 in the second, 1-2 later", Unit: unit.Must("RFV/day"), Accepted: method.Range{Low: -10, High: 10}},
			{Key: "tons_per_day", About: "yield gained a day, dry matter; 0.05 is usual, 0 to 0.1 seen", Unit: unit.Must("tons/ac"), Accepted: method.Range{Low: -0.2, High: 0.3}, Tested: method.Range{Low: 0, High: 0.1}},
			{Key: "loss", About: "share of the dry matter lost in harvest, 0 to 1", Accepted: method.Range{Low: 0, High: 0.9}, Tested: method.Range{Low: 0, High: 0.4}},
			{Key: "harvest_rfv", About: "points lost in harvest; 15-20 are usual", Unit: points, Accepted: method.Range{Low: 0, High: 100}},
			{Key: "base", About: "price of hay at base_rfv, as fed at 12 % moisture; left out: per_point for every point", Unit: ton, Accepted: method.Range{Low: 0, High: 2000}, Optional: true},
			{Key: "base_rfv", About: "feed value at which the base price holds", Unit: points, Accepted: method.Range{Low: 0, High: 350}, Optional: true},
			{Key: "per_point", About: "price of a point on a ton, as fed; about 0.85-1.45 seen", Unit: ton, Accepted: method.Range{Low: 0, High: 20}},
			{Key: "days", About: "days of waiting to look at", Unit: unit.Must("days"), Accepted: method.Range{Low: 0, High: 30}, Tested: method.Range{Low: 0, High: 14}},
		},
		Outputs: []method.Output{
			{Key: "value", About: "market value cut after 0, 1, 2 ... days", Unit: acre, Decimals: 2},
		},
		Constants: []method.Constant{{Key: "hay_dm", Value: PublishedHayDM, Source: source.DelayValue}},
		Sources:   []source.ID{source.DelayValue, source.DailyFall, source.RuleDelay},
		Example:   "yield=1.6 rfv=175 per_day=5 tons_per_day=0.05 loss=0.1 harvest_rfv=15 base=176 base_rfv=137.5 per_point=1.4 days=7",
		Run: func(c *method.Call) error {
			if c.Given("base") != c.Given("base_rfv") {
				return errors.New("base and base_rfv belong together: give both for a price line, or neither, and per_point prices every point")
			}
			days := c.Num("days")
			if days != math.Trunc(days) {
				return fmt.Errorf("days %g: want a whole number of days", days)
			}
			s := Standing{Tons: c.Num("yield"), TonsPerDay: c.Num("tons_per_day"), RFV: c.Num("rfv"), FallPerDay: fallPerDay(c)}
			line := PriceLine{Base: c.Num("base"), BaseRFV: c.Num("base_rfv"), PerPoint: c.Num("per_point")}
			h := Harvest{Loss: c.Num("loss"), Points: c.Num("harvest_rfv"), HayDM: c.K("hay_dm")}
			var values []float64
			for d := range int(days) + 1 {
				values = append(values, s.Worth(float64(d), line, h))
			}
			c.Answer("value", values)
			c.Note("market value only: milk not made from poorer feed, and days taken from later cuts, come on top")
			return nil
		},
	}
}
