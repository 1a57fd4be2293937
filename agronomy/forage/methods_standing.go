package forage

import (
	"fmt"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

func heatFibre() *method.Method {
	k := PublishedHeatLine()
	return &method.Method{
		Name:  "heat-fibre",
		Title: "Fibre of first-growth alfalfa by heat",
		About: "Neutral detergent fibre of standing alfalfa before its first cut, from the heat since 1 March. " +
			"A second opinion beside the height of the crop; not for later cuts, mixtures or drought.",
		Inputs: []method.Input{
			{Key: "gdd41", About: "heat since 1 March over 41 F, daily mean temperature", Unit: unit.Must("F-days"), Accepted: method.Range{Low: 300, High: 1500}, Tested: method.Range{Low: heatTestedLow, High: heatTestedHigh}},
		},
		Outputs: []method.Output{
			{Key: "ndf", About: "neutral detergent fibre, % of DM", Unit: percentDM, Decimals: 1},
			{Key: "sd", About: "its standard deviation, % of DM", Unit: percentDM, Decimals: 1},
		},
		Constants: []method.Constant{
			{Key: "early_heat", Value: k.EarlyHeat, Unit: "F-days", Source: source.HeatFibre},
			{Key: "middle_heat", Value: k.MiddleHeat, Unit: "F-days", Source: source.HeatFibre},
			{Key: "late_heat", Value: k.LateHeat, Unit: "F-days", Source: source.HeatFibre},
			{Key: "early_ndf", Value: k.EarlyNDF, Unit: "% of DM", Source: source.HeatFibre},
			{Key: "middle_ndf", Value: k.MiddleNDF, Unit: "% of DM", Source: source.HeatFibre},
			{Key: "late_ndf", Value: k.LateNDF, Unit: "% of DM", Source: source.HeatFibre},
			{Key: "sd", Value: k.SD, Unit: "% of DM", Source: source.HeatFibre},
		},
		Sources: []source.ID{source.HeatFibre},
		Example: "gdd41=720",
		Run: func(c *method.Call) error {
			k := HeatLine{
				EarlyHeat: c.K("early_heat"), MiddleHeat: c.K("middle_heat"), LateHeat: c.K("late_heat"),
				EarlyNDF: c.K("early_ndf"), MiddleNDF: c.K("middle_ndf"), LateNDF: c.K("late_ndf"), SD: c.K("sd"),
			}
			c.Answer("ndf", k.NDF(c.Num("gdd41")))
			c.Answer("sd", k.SD)
			c.Note("first cut of pure alfalfa only, not in drought; after hard spring frosts it has run 2.8 points high")
			c.Note("disputed: Michigan gives 40 %% at 750 F-days, Minnesota about 35 %% standing and 40 %% when fed")
			return nil
		},
	}
}

func mixTrigger() *method.Method {
	k := PublishedTriggers()
	constant := func(key string, v float64, u string) method.Constant {
		return method.Constant{Key: key, Value: v, Unit: u, Source: source.MixTriggers}
	}
	return &method.Method{
		Name:  "mix-trigger",
		Title: "When to begin first cut of alfalfa with grass",
		About: "Height of the alfalfa at which to begin, and the fibre to cut at, by the share of grass in the stand. " +
			"A rule for first cut; the height and stage table does not hold in mixtures.",
		Inputs: []method.Input{
			{Key: "grass_share", About: "grass in the dry matter, 0 to 1; to the nearest fifth will do", Accepted: method.Range{Low: 0, High: 1}},
		},
		Outputs: []method.Output{
			{Key: "height_in", About: "tallest alfalfa, in or beside the field, at which to begin", Unit: unit.Must("in"), Decimals: 0},
			{Key: "ndf_target", About: "neutral detergent fibre to cut at, % of DM", Unit: percentDM, Decimals: 1},
			{Key: "ndf_per_day", About: "how fast it rises by then, % of DM a day", Unit: unit.Must("%/day"), Decimals: 2},
		},
		Constants: []method.Constant{
			constant("alfalfa_height", k.Alfalfa.HeightIn, "in"), constant("alfalfa_ndf", k.Alfalfa.NDF, "% of DM"), constant("alfalfa_per_day", k.Alfalfa.NDFPerDay, "% of DM a day"),
			constant("half_height", k.Half.HeightIn, "in"), constant("half_ndf", k.Half.NDF, "% of DM"), constant("half_per_day", k.Half.NDFPerDay, "% of DM a day"),
			constant("grass_height", k.Grass.HeightIn, "in"), constant("grass_ndf", k.Grass.NDF, "% of DM"), constant("grass_per_day", k.Grass.NDFPerDay, "% of DM a day"),
		},
		Sources: []source.ID{source.MixTriggers},
		Example: "grass_share=0.4",
		Run: func(c *method.Call) error {
			row := func(name string) Trigger {
				return Trigger{HeightIn: c.K(name + "_height"), NDF: c.K(name + "_ndf"), NDFPerDay: c.K(name + "_per_day")}
			}
			k := Triggers{Alfalfa: row("alfalfa"), Half: row("half"), Grass: row("grass")}
			g := c.Num("grass_share")
			t := k.At(g)
			c.Answer("height_in", t.HeightIn)
			c.Answer("ndf_target", t.NDF)
			c.Answer("ndf_per_day", t.NDFPerDay)
			if g != 0 && g != 0.5 && g != 1 {
				c.Note("published for pure alfalfa, half and half, and pure grass; between them a straight line is taken, a choice")
			}
			c.Note("the rise ranges 0.4-0.7 a day in alfalfa and from 0.8 in a cool to 1.2 in a warm spring in grass")
			c.Note("disputed: another Cornell page aims at 38 %% NDF in pure alfalfa")
			return nil
		},
	}
}

// changeConstants declares the daily rates, all of them choices within published ranges.
func changeConstants() []method.Constant {
	k := PublishedChange()
	var all []method.Constant
	for _, s := range []Season{Spring, Summer, Fall} {
		r := k.In(s)
		all = append(all,
			method.Constant{Key: string(s) + "_ndf", Value: r.NDF, Unit: "% of DM a day", Source: source.DailyRates},
			method.Constant{Key: string(s) + "_adf", Value: r.ADF, Unit: "% of DM a day", Source: source.DailyRates},
			method.Constant{Key: string(s) + "_cp", Value: r.CP, Unit: "% of DM a day", Source: source.DailyRates},
		)
	}
	return append(all,
		method.Constant{Key: "base", Value: k.BaseC, Unit: "C", Source: source.RateScale},
		method.Constant{Key: "span", Value: k.SpanC, Unit: "C", Source: source.RateScale},
		method.Constant{Key: "slowest", Value: k.Slowest, Source: source.RateScale},
		method.Constant{Key: "fastest", Value: k.Fastest, Source: source.RateScale},
	)
}

func changeOf(c *method.Call) Change {
	rates := func(s Season) Rates {
		return Rates{NDF: c.K(string(s) + "_ndf"), ADF: c.K(string(s) + "_adf"), CP: c.K(string(s) + "_cp")}
	}
	return Change{
		Spring: rates(Spring), Summer: rates(Summer), Fall: rates(Fall),
		BaseC: c.K("base"), SpanC: c.K("span"), Slowest: c.K("slowest"), Fastest: c.K("fastest"),
	}
}

func qualityAhead() *method.Method {
	return &method.Method{
		Name:  "quality-ahead",
		Title: "Quality of a standing crop some days on",
		About: "Carries fibre, protein and relative feed value of standing alfalfa forward by the usual daily change of the season. " +
			"For a week or two, not for a month.",
		Inputs: append(fibreInputs(),
			method.Input{Key: "cp", About: "crude protein today, % of dry matter", Unit: percentDM, Accepted: method.Range{Low: 4, High: 35}},
			method.Input{Key: "days", About: "days ahead", Unit: unit.Must("days"), Accepted: method.Range{Low: 0, High: 30}, Tested: method.Range{Low: 0, High: 14}},
			method.Input{Key: "season", About: "season of the growth; the first is spring", Kind: method.Word, Choices: []string{string(Spring), string(Summer), string(Fall)}},
			method.Input{Key: "tmean", About: "mean temperature of those days; left out: the usual rate", Unit: unit.Must("C"), Accepted: method.Range{Low: -20, High: 40}, Optional: true},
		),
		Outputs: []method.Output{
			{Key: "ndf", About: "neutral detergent fibre then, % of DM", Unit: percentDM, Decimals: 1},
			{Key: "adf", About: "acid detergent fibre then, % of DM", Unit: percentDM, Decimals: 1},
			{Key: "cp", About: "crude protein then, % of DM", Unit: percentDM, Decimals: 1},
			{Key: "rfv", About: "relative feed value then", Unit: points, Decimals: 0},
		},
		Constants: changeConstants(),
		Sources:   []source.ID{source.DailyRates, source.RateScale, source.DailyFall, source.RFVFormula},
		Example:   "ndf=36 adf=28 cp=22 days=5 season=spring",
		Run: func(c *method.Call) error {
			today := Quality{NDF: c.Num("ndf"), ADF: c.Num("adf"), CP: c.Num("cp")}
			if err := CheckFibre(unit.PercentDM(today.ADF), unit.PercentDM(today.NDF)); err != nil {
				return err
			}
			season, err := ParseSeason(c.Word("season"))
			if err != nil {
				return err
			}
			k := changeOf(c)
			var tmean *float64
			if c.Given("tmean") {
				t := c.Num("tmean")
				tmean = &t
				if s := k.Scale(t); s == k.Slowest || s == k.Fastest {
					c.Note("at %g C the daily change is held at %g times the usual", t, s)
				}
			}
			then := k.Ahead(today, c.Num("days"), season, tmean)
			if err := CheckFibre(unit.PercentDM(then.ADF), unit.PercentDM(then.NDF)); err != nil {
				return fmt.Errorf("%g days ahead is too far: %w", c.Num("days"), err)
			}
			c.Answer("ndf", then.NDF)
			c.Answer("adf", then.ADF)
			c.Answer("cp", then.CP)
			c.Answer("rfv", PublishedFeedValue().Of(then.ADF, then.NDF))
			c.Note("the daily rates are chosen within what is published: NDF rises 0.4-0.7 a day in spring, and RFV falls 3-5 points a day in the first growth, 2-3 in the second, 1-2 later")
			return nil
		},
	}
}

func cutStart() *method.Method {
	k := PublishedLosses()
	return &method.Method{
		Name:  "cut-start",
		Title: "Feed value at which to begin a harvest",
		About: "The relative feed value of the standing crop at which to begin cutting, so that what reaches the cow has the value wanted: " +
			"adds what harvest and storage take, and half of what the crop loses while the harvest runs.",
		Inputs: []method.Input{
			{Key: "feed_rfv", About: "relative feed value wanted at the feed bunk", Unit: points, Accepted: method.Range{Low: 60, High: 250}, Tested: method.Range{Low: 100, High: 200}},
			{Key: "product", About: "what the crop is put up as", Kind: method.Word, Choices: products},
			{Key: "per_day", About: "points the standing crop loses a day: 3-5 in the first growth, 2-3 in the second, 1-2 later", Unit: unit.Must("RFV/day"), Accepted: method.Range{Low: -10, High: 10}},
			{Key: "harvest_days", About: "days the whole harvest takes", Unit: unit.Must("days"), Accepted: method.Range{Low: 0, High: 60}, Tested: method.Range{Low: 0, High: 21}},
		},
		Outputs: []method.Output{
			{Key: "cut_rfv", About: "standing feed value at the middle of the harvest", Unit: points, Decimals: 0},
			{Key: "start_rfv", About: "standing feed value at which to begin", Unit: points, Decimals: 0},
		},
		Constants: []method.Constant{
			{Key: "haylage_points", Value: k.Haylage.Points, Unit: "RFV", Source: source.HarvestLoss},
			{Key: "baleage_points", Value: k.Baleage.Points, Unit: "RFV", Source: source.BaleageLoss},
			{Key: "hay_points", Value: k.Hay.Points, Unit: "RFV", Source: source.HarvestLoss},
			{Key: "middle", Value: k.MiddleOfHarvest, Source: source.HarvestWindow},
		},
		Sources: []source.ID{source.HarvestLoss, source.BaleageLoss, source.HarvestWindow, source.RuleFirstCut170},
		Example: "feed_rfv=150 product=haylage per_day=4 harvest_days=10",
		Run: func(c *method.Call) error {
			k := PublishedLosses()
			k.Haylage.Points, k.Baleage.Points, k.Hay.Points = c.K("haylage_points"), c.K("baleage_points"), c.K("hay_points")
			k.MiddleOfHarvest = c.K("middle")
			product := c.Word("product")
			loss, err := k.To(product)
			if err != nil {
				return err
			}
			cut := c.Num("feed_rfv") + loss.Points
			c.Answer("cut_rfv", cut)
			c.Answer("start_rfv", k.Start(cut, fallPerDay(c), c.Num("harvest_days")))
			c.Note("%s loses %g points, %g to %g on other farms: use your own tests where you have them", product, loss.Points, loss.Low, loss.High)
			return nil
		},
	}
}

// fallPerDay reads how fast RFV falls. It never rises on the stem, so a minus sign can only mean the
// same fall.
func fallPerDay(c *method.Call) float64 {
	v := c.Num("per_day")
	if v < 0 {
		c.Note("per_day %g is read as a fall of %g points a day", v, -v)
		return -v
	}
	return v
}
