package herd

import (
	"errors"
	"slices"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

func energyConstants() []method.Constant {
	m01, m21, fat := PublishedMaintenance(Edition2001), PublishedMaintenance(Edition2021), PublishedFatMilk()
	p01, p21 := PublishedPregnancy2001(), PublishedPregnancy2021()
	const a, b, c = source.NRC2001Energy, source.NASEM2021Energy, source.NASEM2021Uterus
	return []method.Constant{
		constant("maintenance_2001", m01.PerMetabolic, a), constant("power_2001", m01.Power, a),
		constant("maintenance_2021", m21.PerMetabolic, b), constant("power_2021", m21.Power, b),
		constant("fat_milk_base", fat.Base, a), constant("fat_milk_fat", fat.Fat, a),
		constant("calf_slope", p01.Slope, a), constant("calf_offset", p01.Offset, a), constant("calf_weight", p01.Calf, a),
		constant("calf_efficiency", p01.Efficiency, a), constant("calf_first", p01.First, a), constant("calf_last", p01.Last, a),
		constant("uterus", p21.Uterus, c), constant("uterus_growth", p21.Growth, c), constant("uterus_slowing", p21.Slowing, c),
		constant("uterus_term", p21.Term, c), constant("uterus_first", p21.First, c),
		constant("uterus_energy", p21.PerGain, b), constant("uterus_efficiency", p21.FromME, b), constant("nel_of_me", p21.ToNEL, b),
	}
}

func energyNeed() *method.Method {
	return &method.Method{
		Name: "energy-need", Title: "Energy that a cow needs a day",
		About: "Net energy for maintenance, milk and the calf by the edition asked for. Set it against feed energy of the same edition only: in 2021 needs and feed values both moved. Growth and condition are not in it.",
		Inputs: []method.Input{
			edition(), weight("weight of the cow", 250, 400), milk(0), fat(true),
			{Key: "protein", About: "protein in the milk: crude in 2001, true in 2021", Unit: percent, Accepted: method.Range{Low: 1, High: 8}, Optional: true},
			{Key: "lactose", About: "lactose in the milk", Unit: percent, Accepted: method.Range{Low: 3, High: 6}, Optional: true},
			daysPregnant(0),
			{Key: "calf", About: "weight of the calf at birth", Unit: unit.Must("kg"), Accepted: method.Range{Low: 15, High: 70}, Default: "45"},
		},
		Outputs: []method.Output{
			{Key: "maintenance", About: "to keep her", Unit: mcalDay, Decimals: 2},
			{Key: "milk", About: "for milk", Unit: mcalDay, Decimals: 2},
			{Key: "pregnancy", About: "for the calf", Unit: mcalDay, Decimals: 2},
			{Key: "nel", About: "in all", Unit: mcalDay, Decimals: 2},
		},
		Constants: slices.Concat(energyConstants(), milkConstants(Edition2001), milkConstants(Edition2021)),
		Sources:   []source.ID{source.NRC2001Energy, source.NASEM2021Energy, source.NASEM2021Uterus},
		Example:   "edition=2021 weight=680 milk=35 fat=3.5 protein=3 lactose=4.85",
		Run:       runEnergyNeed,
	}
}

func runEnergyNeed(c *method.Call) error {
	if c.Given("protein") != c.Given("lactose") {
		return errors.New("protein and lactose belong together: give both, or neither in edition 2001, which then goes by fat alone; accepted: protein 1 to 8 %, lactose 3 to 6 %")
	}
	if c.Num("milk") > 0 && !c.Given("fat") {
		return errors.New("fat is missing: a cow in milk wants it, 1 to 9 %")
	}
	e := Edition(c.Word("edition"))
	own, err := energyBy(c, e)
	if err != nil {
		return err
	}
	c.Answer("maintenance", own.keep)
	c.Answer("milk", own.milk)
	c.Answer("pregnancy", own.calf)
	c.Answer("nel", own.sum())
	if other, err := energyBy(c, e.Other()); err == nil {
		c.Note("edition %s gives %.1f and edition %s %.1f Mcal/day; each goes with feed values of its own edition only", e, own.sum(), e.Other(), other.sum())
	} else {
		c.Note("edition %s; goes with feed values of that edition only", e)
	}
	return nil
}

// parts is where a cow's energy goes, Mcal a day.
type parts struct{ keep, milk, calf float64 }

func (p parts) sum() float64 { return p.keep + p.milk + p.calf }

func energyBy(c *method.Call, e Edition) (parts, error) {
	w, m, days, calf := c.Num("weight"), c.Num("milk"), c.Num("days_pregnant"), c.Num("calf")
	in := string(e)
	p := parts{keep: Maintenance{c.K("maintenance_" + in), c.K("power_" + in)}.Energy(w)}
	switch {
	case m == 0:
	case c.Given("protein"):
		p.milk = m * milkOf(c, e).Energy(c.Num("fat"), c.Num("protein"), c.Num("lactose"))
	case e == Edition2001:
		p.milk = m * FatMilk{c.K("fat_milk_base"), c.K("fat_milk_fat")}.Energy(c.Num("fat"))
	default:
		return parts{}, errors.New("protein and lactose are missing: edition 2021 wants both, protein 1 to 8 %, lactose 3 to 6 %")
	}
	if !c.Given("days_pregnant") {
		return p, nil
	}
	if e == Edition2001 {
		p.calf = Pregnancy2001{c.K("calf_slope"), c.K("calf_offset"), c.K("calf_weight"), c.K("calf_efficiency"), c.K("calf_first"), c.K("calf_last")}.Energy(days, calf)
	} else {
		p.calf = Pregnancy2021{
			c.K("uterus"), c.K("uterus_growth"), c.K("uterus_slowing"), c.K("uterus_term"), c.K("uterus_first"),
			c.K("uterus_energy"), c.K("uterus_efficiency"), c.K("nel_of_me"),
		}.Energy(days, calf)
	}
	return p, nil
}

func tdnEnergy() *method.Method {
	k := PublishedTDN()
	return &method.Method{
		Name: "tdn-energy", Title: "Energy of a feed from its TDN",
		About: "Net energy for lactation from total digestible nutrients, the line of old feed tables, with the rounded form that laboratories print by the pound. Not energy of the 2001 or 2021 editions.",
		Inputs: []method.Input{
			{Key: "tdn", About: "total digestible nutrients, of dry matter", Unit: percent, Accepted: method.Range{Low: 20, High: 100}, Tested: method.Range{Low: 45, High: 80}},
		},
		Outputs: []method.Output{
			{Key: "nel_kg", About: "energy of a kilogram", Unit: unit.Must("Mcal/kg"), Decimals: 3},
			{Key: "nel_lb", About: "the same of a pound", Unit: unit.Must("Mcal/lb"), Decimals: 3},
			{Key: "nel_lb_printed", About: "of a pound by the printed form", Unit: unit.Must("Mcal/lb"), Decimals: 3},
		},
		Constants: []method.Constant{
			constant("slope_kg", k.SlopeKg, source.TDNEnergy), constant("offset_kg", k.OffsetKg, source.TDNEnergy),
			constant("slope_lb", k.SlopeLb, source.NFTAEnergy), constant("offset_lb", k.OffsetLb, source.NFTAEnergy),
		},
		Sources: []source.ID{source.TDNEnergy, source.NFTAEnergy},
		Example: "tdn=60",
		Run: func(c *method.Call) error {
			k := TDN{c.K("slope_kg"), c.K("offset_kg"), c.K("slope_lb"), c.K("offset_lb")}
			kg := k.PerKg(c.Num("tdn"))
			c.Answer("nel_kg", kg)
			c.Answer("nel_lb", kg*kgAPound)
			c.Answer("nel_lb_printed", k.PerLb(c.Num("tdn")))
			return nil
		},
	}
}
