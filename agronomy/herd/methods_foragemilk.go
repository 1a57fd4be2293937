package herd

import (
	"fmt"
	"slices"

	"haywarden/agronomy/forage"
	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

func forageMilkConstants() []method.Constant {
	k := PublishedForageMilk()
	const leg, nrc = source.RFQLegumeIntake, source.NRC2001Energy
	return slices.Concat(forage.EnergyConstants(), milkConstants(Edition2001), []method.Constant{
		constant("maintenance_2001", k.Keep.PerMetabolic, nrc), constant("power_2001", k.Keep.Power, nrc),
		constant("intake0", k.Intake.DMI0, leg), constant("mean_ndfd", k.Intake.MeanNDFD, leg), constant("per_ndfd", k.Intake.PerNDFD, leg), constant("cow", k.Intake.CowLb, leg),
	})
}

func forageMilk() *method.Method {
	cow := StandardCow()
	said := func(in method.Input, v float64) method.Input {
		in.Default, in.Optional = fmt.Sprint(v), false
		return in
	}
	return &method.Method{
		Name: "forage-milk", Title: "Milk from a ton of forage",
		About: "Milk that the energy of a forage makes in a cow that eats it alone, after what keeps her. Times the yield it gives milk an acre. It ranks forages and exaggerates their difference, since real diets hold grain; it foretells no herd's milk.",
		Inputs: append(forage.EnergyInputs(),
			said(weight("weight of the cow", 250, 400), cow.Kg), said(fat(false), cow.Fat),
			method.Input{Key: "protein", About: "crude protein in the milk", Unit: percent, Accepted: method.Range{Low: 1, High: 8}, Default: fmt.Sprint(cow.Protein)},
			method.Input{Key: "lactose", About: "lactose in the milk", Unit: percent, Accepted: method.Range{Low: 3, High: 6}, Default: fmt.Sprint(cow.Lactose)},
		),
		Outputs: []method.Output{
			{Key: "intake_kg", About: "dry matter of the forage that the cow can eat", Unit: kgDay, Decimals: 1},
			{Key: "nel", About: "net energy for lactation of the forage", Unit: unit.Must("Mcal/kg"), Decimals: 3},
			{Key: "kg_per_tonne", About: "kg of milk a tonne of dry matter", Decimals: 0},
			{Key: "lb_per_ton", About: "lb of milk a short ton of dry matter", Decimals: 0},
		},
		Constants: forageMilkConstants(),
		Sources:   []source.ID{source.MilkOfForage, source.NRC2001Feeds, source.NRC2001FeedsRecalled, source.NRC2001Energy, source.RFQLegumeIntake, source.RFQNutrients, source.UsualBound},
		Example:   "cp=22 ndf=36 ndicp=2.5 adicp=1.2 ee=2.5 ash=9.5 ndfd48=50",
		Run:       runForageMilk,
	}
}

func runForageMilk(c *method.Call) error {
	s, e, err := forage.EnergyOf(c)
	if err != nil {
		return err
	}
	k := ForageMilk{
		forage.LegumeIntake{DMI0: c.K("intake0"), MeanNDFD: c.K("mean_ndfd"), PerNDFD: c.K("per_ndfd"), CowLb: c.K("cow")},
		Maintenance{c.K("maintenance_2001"), c.K("power_2001")}, milkOf(c, Edition2001),
	}
	if !c.Given("ndfd48") {
		s.NDFD48 = k.Intake.MeanNDFD
		c.Note("intake is that of fibre of average digestibility, %g %% of NDF, since ndfd48 is not given", s.NDFD48)
	}
	m := k.Of(s.NDF, s.NDFD48, e.NEL, Cow{c.Num("weight"), c.Num("fat"), c.Num("protein"), c.Num("lactose")})
	if m.IntakeKg <= 0 {
		return fmt.Errorf("the cow comes out as eating %.1f kg a day: NDF %g and ndfd48 %g do not belong to one forage", m.IntakeKg, s.NDF, s.NDFD48)
	}
	c.Answer("intake_kg", m.IntakeKg)
	c.Answer("nel", e.NEL)
	c.Answer("kg_per_tonne", m.PerTonne)
	c.Answer("lb_per_ton", m.LbPerTon())
	if m.MilkKg < 0 {
		c.Note("she cannot keep her weight on this forage alone: the number ranks it, and is no milk")
	} else {
		c.Note("%.0f kg of milk a day from this forage alone, all her maintenance on it", m.MilkKg)
	}
	c.Note("with maintenance shared over %d kg of a mixed diet, nearer to a real one, a tonne makes %.0f kg (%.0f lb a ton); with none of it %.0f kg", mixedDiet, m.Shared, m.Shared/1000*poundsATon, m.Gross)
	c.Note("times tons of dry matter an acre that reach the cow: lb of milk an acre. Energy of the 2001 edition; protein is not looked at")
	return nil
}
