package herd

import (
	"errors"
	"fmt"
	"slices"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

func heiferIntake() *method.Method {
	a, b := PublishedHeifer2001(), PublishedHeifer2021()
	return &method.Method{
		Name: "heifer-intake", Title: "What a growing heifer eats",
		About: "Dry matter a day: in 2021 from weight and mature weight, in 2001 from weight and the energy of the diet. Give both and the notes tell the range. The rise before calving is not in it; see close-up-intake.",
		Inputs: []method.Input{
			edition(), weight("weight of the heifer", 50, 100),
			{Key: "mature_weight", About: "weight as a grown cow (2021)", Unit: unit.Must("kg"), Accepted: method.Range{Low: 300, High: 1000}, Tested: method.Range{Low: 450, High: 800}, Optional: true},
			{Key: "nem", About: "energy of the diet for maintenance (2001)", Unit: unit.Must("Mcal/kg"), Accepted: method.Range{Low: 0.7, High: 2.5}, Tested: method.Range{Low: 1, High: 1.9}, Optional: true},
		},
		Outputs: []method.Output{{Key: "dmi", About: "dry matter eaten a day", Unit: kgDay, Decimals: 1}},
		Constants: []method.Constant{
			constant("power_2001", a.Power, source.NRC2001Heifer), constant("linear_2001", a.Linear, source.NRC2001Heifer),
			constant("square_2001", a.Square, source.NRC2001Heifer), constant("base_2001", a.Base, source.NRC2001Heifer),
			constant("share_2021", b.Share, source.NASEM2021Heifer), constant("rate_2021", b.Rate, source.NASEM2021Heifer),
		},
		Sources: []source.ID{source.NRC2001Heifer, source.NASEM2021Heifer},
		Example: "weight=300 mature_weight=700 nem=1.34",
		Run: func(c *method.Call) error {
			by := map[Edition]float64{}
			if c.Given("nem") {
				by[Edition2001] = Heifer2001{c.K("power_2001"), c.K("linear_2001"), c.K("square_2001"), c.K("base_2001")}.Intake(c.Num("weight"), c.Num("nem"))
			}
			if c.Given("mature_weight") {
				if c.Num("weight") > c.Num("mature_weight") {
					return fmt.Errorf("weight %g is over mature_weight %g: accepted up to the mature weight", c.Num("weight"), c.Num("mature_weight"))
				}
				by[Edition2021] = Heifer2021{c.K("share_2021"), c.K("rate_2021")}.Intake(c.Num("weight"), c.Num("mature_weight"))
			}
			if err := wants(c, by, "nem is missing: edition 2001 wants the diet's energy for maintenance, 0.7 to 2.5 Mcal/kg", "mature_weight is missing: edition 2021 wants it, 300 to 1000 kg"); err != nil {
				return err
			}
			return answerEditions(c, by)
		},
	}
}

// wants refuses where the edition asked for could not be reckoned.
func wants(c *method.Call, by map[Edition]float64, for2001, for2021 string) error {
	e := Edition(c.Word("edition"))
	if _, ok := by[e]; ok {
		return nil
	}
	if e == Edition2001 {
		return errors.New(for2001)
	}
	return errors.New(for2021)
}

func heiferByFibre() *method.Method {
	return &method.Method{
		Name: "heifer-by-fibre", Title: "What a heifer eats, by the fibre of her diet",
		About: "Heifers fill themselves with fibre: near 1 % of their weight a day. Diets of about 36-38 % NDF at 600 lb and 46-48 % at 1200 lb hold them to their gain.",
		Inputs: []method.Input{
			weight("weight of the heifer", 50, 200),
			{Key: "ndf", About: "NDF of the diet", Unit: percent, Accepted: method.Range{Low: 20, High: 80}, Tested: method.Range{Low: 30, High: 60}},
		},
		Outputs:   []method.Output{{Key: "dmi", About: "dry matter eaten a day", Unit: unit.Must("lb/day"), Decimals: 1}},
		Constants: []method.Constant{{Key: "ndf_share", Value: PublishedHeiferFibre().NDFShare, Unit: "% of weight", Source: source.HeiferFibre}},
		Sources:   []source.ID{source.HeiferFibre},
		Example:   "weight=600lb ndf=40",
		Run: func(c *method.Call) error {
			c.Answer("dmi", HeiferFibre{c.K("ndf_share")}.Intake(c.Num("weight"), c.Num("ndf"))/kgAPound)
			return nil
		},
	}
}

func dryConstants(fit DryFit) []method.Constant {
	k, id := PublishedDries(fit), source.NRC2001Dry
	if fit == Fit2003 {
		id = source.Hayirli2003
	}
	of := func(who string, d Dry) []method.Constant {
		in := who + "_" + string(fit)
		return []method.Constant{constant("top_"+in, d.Top, id), constant("fall_"+in, d.Fall, id), constant("rate_"+in, d.Rate, id), constant("term_"+in, d.Term, id)}
	}
	return slices.Concat(of("cow", k.Cow), of("heifer", k.Heifer))
}

func dryOf(c *method.Call, fit DryFit, who string) Dry {
	in := who + "_" + string(fit)
	return Dry{c.K("top_" + in), c.K("fall_" + in), c.K("rate_" + in), c.K("term_" + in)}
}

func dryIntake() *method.Method {
	b := PublishedDry2021()
	const id = source.NASEM2021Dry
	return &method.Method{
		Name: "dry-intake", Title: "What a dry cow eats",
		About: "Dry matter a day of a cow before calving: in 2001 from days pregnant, in 2021 from the week and the fibre of the diet. Give ndf and the notes tell the range.",
		Inputs: []method.Input{
			edition(), weight("weight of the cow", 250, 400), daysPregnant(180),
			{Key: "week", About: "weeks from calving, 0 or below", Accepted: method.Range{Low: -14, High: 0}, Optional: true},
			{Key: "ndf", About: "NDF of the diet (2021)", Unit: percent, Accepted: method.Range{Low: 20, High: 80}, Tested: method.Range{Low: 30, High: 60}, Optional: true},
		},
		Outputs: []method.Output{{Key: "dmi", About: "dry matter eaten a day", Unit: kgDay, Decimals: 1}},
		Constants: append(dryConstants(Fit2001)[:4:4],
			constant("base_2021", b.Base, id), constant("week_2021", b.Week, id), constant("fibre_2021", b.Fibre, id),
			constant("square_2021", b.Square, id), constant("first_2021", b.First, id), constant("term_2021", b.Term, id)),
		Sources: []source.ID{source.NRC2001Dry, source.NASEM2021Dry},
		Example: "weight=720 days_pregnant=250 ndf=45",
		Run: func(c *method.Call) error {
			if c.Given("days_pregnant") == c.Given("week") {
				return errors.New("want one of days_pregnant and week; accepted: days_pregnant 180 to 290, or week -14 to 0")
			}
			k := Dry2021{c.K("base_2021"), c.K("week_2021"), c.K("fibre_2021"), c.K("square_2021"), c.K("first_2021"), c.K("term_2021")}
			days, week := c.Num("days_pregnant"), c.Num("week")
			if c.Given("week") {
				days = k.Term + daysAWeek*week
			} else {
				week = k.WeekOf(days)
			}
			by := map[Edition]float64{Edition2001: dryOf(c, Fit2001, "cow").Intake(c.Num("weight"), days)}
			if c.Given("ndf") {
				by[Edition2021] = k.Intake(c.Num("weight"), week, c.Num("ndf"))
			}
			if err := wants(c, by, "", "ndf is missing: edition 2021 wants the NDF of the diet, 20 to 80 %"); err != nil {
				return err
			}
			return answerEditions(c, by)
		},
	}
}

func closeUpIntake() *method.Method {
	return &method.Method{
		Name: "close-up-intake", Title: "What a cow or springing heifer eats in her last weeks",
		About: "Dry matter a day before calving by the standard of 2001, or by a later fit to the last three weeks (259-280 days), which is the better there. Intake falls towards calving.",
		Inputs: []method.Input{
			{Key: "animal", About: "which animal", Kind: method.Word, Choices: []string{"cow", "heifer"}},
			{Key: "fit", About: "which fit", Kind: method.Word, Choices: []string{string(Fit2001), string(Fit2003)}, Default: string(Fit2003)},
			weight("weight of the animal", 250, 400),
			{Key: "days_pregnant", About: "days pregnant", Unit: unit.Must("days"), Accepted: method.Range{Low: 180, High: 290}, Tested: method.Range{Low: 240, High: 280}},
		},
		Outputs:   []method.Output{{Key: "dmi", About: "dry matter eaten a day", Unit: kgDay, Decimals: 1}},
		Constants: slices.Concat(dryConstants(Fit2001), dryConstants(Fit2003)),
		Sources:   []source.ID{source.NRC2001Dry, source.Hayirli2003},
		Example:   "animal=heifer weight=700 days_pregnant=260",
		Run: func(c *method.Call) error {
			fit := DryFit(c.Word("fit"))
			dmi := dryOf(c, fit, c.Word("animal")).Intake(c.Num("weight"), c.Num("days_pregnant"))
			if !(dmi > 0) {
				return fmt.Errorf("days_pregnant %g: the equation has no intake left; accepted up to about 285", c.Num("days_pregnant"))
			}
			c.Answer("dmi", dmi)
			if days := c.Num("days_pregnant"); fit == Fit2003 && days < 259 {
				c.Note("this fit holds from day 259 on, and %g was asked", days)
			}
			return nil
		},
	}
}
