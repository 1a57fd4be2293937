package herd

import (
	"errors"
	"math"
	"slices"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

func cow2001Constants() []method.Constant {
	k := PublishedCow2001()
	const id = source.NRC2001Intake
	return []method.Constant{
		constant("fcm_2001", k.FCM, id), constant("weight_2001", k.Weight, id), constant("power_2001", k.Power, id),
		constant("rate_2001", k.Rate, id), constant("lead_2001", k.Lead, id),
	}
}

func cow2001Of(c *method.Call) Cow2001 {
	return Cow2001{c.K("fcm_2001"), c.K("weight_2001"), c.K("power_2001"), c.K("rate_2001"), c.K("lead_2001")}
}

func cow2021Constants() []method.Constant {
	k := PublishedCow2021()
	const id = source.NASEM2021Cow
	return []method.Constant{
		constant("base_2021", k.Base, id), constant("older_2021", k.Older, id), constant("energy_2021", k.Energy, id),
		constant("weight_2021", k.Weight, id), constant("condition_2021", k.Condition, id), constant("older_condition_2021", k.OlderCondition, id),
		constant("lag_2021", k.Lag, id), constant("older_lag_2021", k.OlderLag, id), constant("rate_2021", k.Rate, id),
	}
}

func cow2021Of(c *method.Call) Cow2021 {
	return Cow2021{
		c.K("base_2021"), c.K("older_2021"), c.K("energy_2021"), c.K("weight_2021"), c.K("condition_2021"), c.K("older_condition_2021"),
		c.K("lag_2021"), c.K("older_lag_2021"), c.K("rate_2021"),
	}
}

func condition() method.Input {
	return method.Input{Key: "condition", About: "condition score", Accepted: method.Range{Low: 1, High: 5}, Tested: method.Range{Low: 2, High: 4}, Default: "3"}
}

func cowIntake() *method.Method {
	return &method.Method{
		Name: "cow-intake", Title: "What a milking cow eats",
		About: "Dry matter a day of a cow in milk, by the edition asked for; the notes give the other edition's figure, and the range between them is what is known. " +
			"They part most in early lactation, where that of 2001 runs low. Means of groups, not single cows.",
		Inputs: []method.Input{
			edition(), weight("weight of the cow", 250, 400), milk(1), fat(false),
			{Key: "dim", About: "days in milk, or wol", Unit: unit.Must("days"), Accepted: method.Range{Low: 0, High: 700}, Tested: method.Range{Low: 1, High: 365}, Optional: true},
			{Key: "wol", About: "week of lactation, or dim", Unit: unit.Must("weeks"), Accepted: method.Range{Low: 0, High: 100}, Tested: method.Range{Low: 0.1, High: 52}, Optional: true},
			{Key: "protein", About: "true protein in the milk (2021)", Unit: percent, Accepted: method.Range{Low: 1, High: 7}, Default: "3.1"},
			{Key: "lactose", About: "lactose in the milk (2021)", Unit: percent, Accepted: method.Range{Low: 3, High: 6}, Default: "4.85"},
			{Key: "parity", About: "lactation (2021)", Kind: method.Word, Choices: []string{"first", "older"}, Default: "older"},
			condition(),
		},
		Outputs:   []method.Output{{Key: "dmi", About: "dry matter eaten a day", Unit: kgDay, Decimals: 1}},
		Constants: slices.Concat(fcmConstants(), cow2001Constants(), cow2021Constants(), milkConstants(Edition2021)),
		Sources:   []source.ID{source.NRC2001Intake, source.NASEM2021Cow, source.UsualCow},
		Example:   "edition=2021 weight=650 milk=35 fat=3.7 protein=3.1 lactose=4.85 condition=3 dim=105 parity=older",
		Run: func(c *method.Call) error {
			if c.Given("dim") == c.Given("wol") {
				return errors.New("want one of dim, days in milk, and wol, week of lactation; accepted: dim 0 to 700 days, or wol 0 to 100 weeks")
			}
			days := c.Num("dim") + daysAWeek*c.Num("wol")
			older := 1.
			if c.Word("parity") == "first" {
				older = 0
			}
			w, m := c.Num("weight"), c.Num("milk")
			energy := m * milkOf(c, Edition2021).Energy(c.Num("fat"), c.Num("protein"), c.Num("lactose"))
			by := map[Edition]float64{
				Edition2001: cow2001Of(c).Intake(w, fcmOf(c).Of(m, c.Num("fat")), days/daysAWeek),
				Edition2021: cow2021Of(c).Intake(w, energy, older, c.Num("condition"), days),
			}
			return answerEditions(c, by)
		},
	}
}

// answerEditions answers by the edition asked for and tells the range.
func answerEditions(c *method.Call, by map[Edition]float64) error {
	e := Edition(c.Word("edition"))
	own, other := by[e], by[e.Other()]
	if !(own > 0) {
		return errors.New("the equation leaves no intake at such a stage: days_pregnant accepted up to about 285")
	}
	c.Answer("dmi", own)
	if other > 0 { // none where it could not be reckoned
		c.Note("edition %s gives %.1f and edition %s %.1f kg/day: take the range %.1f to %.1f", e, own, e.Other(), other, min(own, other), max(own, other))
	} else {
		c.Note("edition %s; the other edition wants what was not given", e)
	}
	return nil
}

func groupIntake() *method.Method {
	return &method.Method{
		Name: "group-intake", Title: "What a mixed group of milking cows eats",
		About: "The 2021 equation for a group of first-lactation and older cows, from the energy of their milk.",
		Inputs: []method.Input{
			weight("mean weight", 250, 400),
			{Key: "milk_energy", About: "energy of a day's milk", Unit: mcalDay, Accepted: method.Range{Low: 0.5, High: 70}},
			{Key: "dim", About: "mean days in milk", Unit: unit.Must("days"), Accepted: method.Range{Low: 0, High: 700}, Tested: method.Range{Low: 1, High: 365}},
			{Key: "older_share", About: "share of cows past their first lactation", Accepted: shareOf1},
			condition(),
		},
		Outputs:   []method.Output{{Key: "dmi", About: "dry matter eaten a head and day", Unit: kgDay, Decimals: 1}},
		Constants: cow2021Constants(),
		Sources:   []source.ID{source.NASEM2021Cow},
		Example:   "weight=650 milk_energy=25 dim=100 older_share=0.5 condition=3.5",
		Run: func(c *method.Call) error {
			c.Answer("dmi", cow2021Of(c).Intake(c.Num("weight"), c.Num("milk_energy"), c.Num("older_share"), c.Num("condition"), c.Num("dim")))
			return nil
		},
	}
}

func intakeByFibre() *method.Method {
	k := PublishedByFibre()
	const id = source.IntakeByFibre
	return &method.Method{
		Name: "intake-by-fibre", Title: "What a milking cow eats, by the fibre of her diet",
		About: "Dry matter a day of cows past their peak, 60 to 309 days in milk, from forage fibre, its digestibility and milk. Tells what better forage brings in intake.",
		Inputs: []method.Input{
			{Key: "forage_ndf", About: "NDF from forage, of the diet", Unit: percent, Accepted: method.Range{Low: 5, High: 50}, Tested: method.Range{Low: 9.9, High: 39.3}},
			{Key: "adf_ndf", About: "ADF over NDF of the diet", Accepted: method.Range{Low: 0.3, High: 1}, Tested: method.Range{Low: 0.45, High: 0.84}},
			{Key: "ndfd", About: "digestibility of the forage's NDF", Unit: percent, Accepted: method.Range{Low: 15, High: 85}, Tested: method.Range{Low: 24, High: 73}},
			{Key: "milk", About: "milk a day", Unit: kgDay, Accepted: method.Range{Low: 1, High: 90}, Tested: method.Range{Low: 20, High: 51}},
		},
		Outputs: []method.Output{
			{Key: "dmi", About: "dry matter eaten a day", Unit: kgDay, Decimals: 1},
			{Key: "sd", About: "error of a prediction", Unit: kgDay, Decimals: 2},
		},
		Constants: []method.Constant{
			constant("base", k.Base, id), constant("forage_ndf", k.ForageNDF, id), constant("ratio", k.Ratio, id), constant("digest", k.Digest, id),
			constant("ratio_digest", k.RatioDigest, id), constant("milk", k.Milk, id), constant("digest_milk", k.DigestMilk, id),
			constant("mean_ratio", k.MeanRatio, id), constant("mean_digest", k.MeanDigest, id), constant("mean_milk", k.MeanMilk, id), constant("rmse", k.RMSE, id),
		},
		Sources: []source.ID{source.IntakeByFibre},
		Example: "forage_ndf=21 adf_ndf=0.602 ndfd=48.3 milk=33.1",
		Run: func(c *method.Call) error {
			k := ByFibre{c.K("base"), c.K("forage_ndf"), c.K("ratio"), c.K("digest"), c.K("ratio_digest"), c.K("milk"), c.K("digest_milk"), c.K("mean_ratio"), c.K("mean_digest"), c.K("mean_milk"), c.K("rmse")}
			c.Answer("dmi", k.Intake(c.Num("forage_ndf"), c.Num("adf_ndf"), c.Num("ndfd"), c.Num("milk")))
			c.Answer("sd", k.RMSE)
			return nil
		},
	}
}

func intakeCrossCheck() *method.Method {
	k := PublishedCrossCheck()
	const id = source.KoreanIntake
	return &method.Method{
		Name: "intake-cross-check", Title: "Intake of a milking cow by another country's standard",
		About: "An equation of other origin to lay beside that of 2001. It knows no stage of lactation and is no basis for advice.",
		Inputs: []method.Input{
			weight("weight of the cow", 250, 400),
			{Key: "fcm", About: "milk a day, corrected to 4 % fat", Unit: kgDay, Accepted: method.Range{Low: 1, High: 90}, Tested: method.Range{Low: 10, High: 60}},
			{Key: "ndf", About: "NDF of the diet", Unit: percent, Accepted: method.Range{Low: 15, High: 60}, Tested: method.Range{Low: 25, High: 45}},
		},
		Outputs: []method.Output{
			{Key: "dmi", About: "dry matter eaten a day", Unit: kgDay, Decimals: 1},
			{Key: "sd", About: "error of a prediction", Unit: kgDay, Decimals: 2},
		},
		Constants: []method.Constant{
			constant("base", k.Base, id), constant("weight", k.Weight, id), constant("power", k.Power, id),
			constant("fcm", k.FCM, id), constant("ndf", k.NDF, id), constant("rmse", k.RMSE, id),
		},
		Sources: []source.ID{source.KoreanIntake},
		Example: "weight=650 fcm=33.4 ndf=32",
		Run: func(c *method.Call) error {
			k := CrossCheck{c.K("base"), c.K("weight"), c.K("power"), c.K("fcm"), c.K("ndf"), c.K("rmse")}
			c.Answer("dmi", k.Intake(c.Num("weight"), c.Num("fcm"), c.Num("ndf")))
			c.Answer("sd", k.RMSE)
			return nil
		},
	}
}

func correctedMilk() *method.Method {
	return &method.Method{
		Name: "corrected-milk", Title: "Milk corrected to 4 % fat",
		About:     "Milk of any fat as the milk of 4 % fat that takes the same energy.",
		Inputs:    []method.Input{milk(0), fat(false)},
		Outputs:   []method.Output{{Key: "fcm", About: "4 % fat-corrected milk", Unit: kgDay, Decimals: 2}},
		Constants: fcmConstants(),
		Sources:   []source.ID{source.FatCorrectedMilk},
		Example:   "milk=35 fat=3.7",
		Run: func(c *method.Call) error {
			c.Answer("fcm", fcmOf(c).Of(c.Num("milk"), c.Num("fat")))
			return nil
		},
	}
}

func digestibilityResponse() *method.Method {
	k := PublishedResponse()
	lbDay := unit.Must("lb/day")
	return &method.Method{
		Name: "digestibility-response", Title: "What more digestible forage brings",
		About: "What a change in the digestibility of forage fibre brings in intake and milk, as means of feeding trials. A straight line, for changes of a few points.",
		Inputs: []method.Input{
			{Key: "points", About: "change of NDFD, % of NDF", Unit: percent, Accepted: method.Range{Low: -30, High: 30}, Tested: method.Range{Low: -10, High: 10}},
			{Key: "cows", About: "cows that eat it", Accepted: method.Range{Low: 1, High: mostHead}, Default: "1"},
		},
		Outputs: []method.Output{
			{Key: "intake", About: "dry matter more a day, all cows", Unit: lbDay, Decimals: 2},
			{Key: "milk", About: "milk more a day, all cows", Unit: lbDay, Decimals: 2},
		},
		Constants: []method.Constant{
			{Key: "intake_lb", Value: k.IntakeLb, Unit: "lb/day a point", Source: source.DigestibleFibre},
			{Key: "milk_lb", Value: k.MilkLb, Unit: "lb/day a point", Source: source.DigestibleFibre},
		},
		Sources: []source.ID{source.DigestibleFibre},
		Example: "points=4 cows=100",
		Run: func(c *method.Call) error {
			cows := c.Num("cows")
			if cows != math.Trunc(cows) {
				return errors.New("cows: accepted whole numbers from 1")
			}
			c.Answer("intake", c.K("intake_lb")*c.Num("points")*cows)
			c.Answer("milk", c.K("milk_lb")*c.Num("points")*cows)
			return nil
		},
	}
}
