package budget

import (
	"errors"
	"fmt"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

// What a machine is and does.
func speed() method.Input {
	return method.Input{Key: "speed", About: "speed in the field", Unit: unit.Must("mph"), Accepted: method.Range{Low: 0.1, High: 25}, Tested: method.Range{Low: 2, High: 12}}
}

func width() method.Input {
	return method.Input{Key: "width", About: "working width", Unit: unit.Must("ft"), Accepted: method.Range{Low: 0.5, High: 100}, Tested: method.Range{Low: 4, High: 40}}
}

func efficiency() method.Input {
	return method.Input{Key: "efficiency", About: "field efficiency: share of the time and width that works", Accepted: method.Range{Low: 0.05, High: 1}, Tested: method.Range{Low: 0.5, High: 0.95}}
}

func kindInput() method.Input {
	var names []string
	for _, k := range PublishedKinds() {
		names = append(names, k.Name)
	}
	return method.Input{Key: "kind", About: "kind of machine", Kind: method.Word, Choices: names}
}

func machinePrice() method.Input {
	return method.Input{Key: "price", About: "price of the machine", Unit: money, Accepted: method.Range{Low: 1, High: 5e6}}
}

func ownership() []method.Input {
	return []method.Input{
		machinePrice(),
		{Key: "salvage", About: "what it sells for at the end", Unit: money, Accepted: method.Range{Low: 0, High: 5e6}},
		{Key: "years", About: "years kept", Unit: unit.Must("yr"), Accepted: method.Range{Low: 1, High: 60}},
	}
}

func fuelPrice() method.Input {
	return method.Input{Key: "fuel", About: "price of diesel", Unit: unit.Must("$/gal"), Accepted: method.Range{Low: 0.1, High: 50}}
}

func power() method.Input {
	return method.Input{Key: "power", About: "rated PTO power of the tractor", Unit: unit.Must("hp"), Accepted: method.Range{Low: 5, High: 1200}}
}

// Constants by kind; 0 has nothing to move.
func kindConstants(parts ...string) (list []method.Constant) {
	for _, k := range PublishedKinds() {
		for _, p := range parts {
			v := map[string]float64{"rf1": k.RF1, "rf2": k.RF2, "efficiency": k.Efficiency, "speed": k.Speed, "life": k.Life}[p]
			if v != 0 {
				list = append(list, constant(key(k.Name)+"_"+p, v, "", source.MachineData))
			}
		}
	}
	return list
}

// kindOf reads back the constants declared; a part not declared stays 0.
func kindOf(c *method.Call, parts ...string) (Kind, error) {
	k, err := KindOf(PublishedKinds(), c.Word("kind"))
	if err != nil {
		return Kind{}, err
	}
	read := Kind{Name: k.Name}
	for _, p := range parts {
		in := key(k.Name) + "_" + p
		switch {
		case p == "rf1":
			read.RF1 = c.K(in)
		case p == "rf2":
			read.RF2 = c.K(in)
		case p == "life":
			read.Life = c.K(in)
		case p == "efficiency" && k.Efficiency != 0:
			read.Efficiency = c.K(in)
		case p == "speed" && k.Speed != 0:
			read.Speed = c.K(in)
		}
	}
	return read, nil
}

func runningConstants() []method.Constant {
	k := PublishedRunning()
	return []method.Constant{constant("diesel", k.Diesel, "gal/h a hp", source.MachineRunning), constant("oil", k.Oil, "", source.MachineRunning)}
}

func housed() method.Constant { return constant("housed", 0.01, "", source.MachineInsurance) }

func owned(c *method.Call) (Owned, error) {
	o := Owned{c.Num("price"), c.Num("salvage"), c.Num("years"), c.Num("rate")}
	if o.Salvage > o.Price {
		return Owned{}, fmt.Errorf("salvage %g is over the price: accepted 0 to %g $", o.Salvage, o.Price)
	}
	return o, nil
}

func machineCapacity() *method.Method {
	return &method.Method{
		Name: "machine-capacity", Title: "Acres an hour of a machine",
		About:   "Field capacity: speed times width times the share of both that works.",
		Inputs:  []method.Input{speed(), width(), efficiency()},
		Outputs: []method.Output{out("acres_h", "acres an hour", unit.Must("ac/h"), 2)},
		Sources: []source.ID{source.MachineCapacity},
		Example: "speed=7 width=12 efficiency=0.85",
		Run: func(c *method.Call) error {
			c.Answer("acres_h", Capacity(c.Num("speed"), c.Num("width"), c.Num("efficiency")))
			return nil
		},
	}
}

func machineCost() *method.Method {
	return &method.Method{
		Name: "machine-cost", Title: "What a machine costs a year, an hour and an acre",
		About: "Interest and wear, taxes and housing, repairs, and where they are given fuel, labour and the tractor before it. An acre wants the width; speed and field efficiency are those of the kind unless given.",
		Inputs: append(ownership(),
			method.Input{Key: "hours", About: "hours of work a year", Unit: unit.Must("h/yr"), Accepted: method.Range{Low: 1, High: 5000}},
			interest(), kindInput(), optional(width()), optional(speed()), optional(efficiency()),
			optional(power()), optional(fuelPrice()),
			method.Input{Key: "wage", About: "pay of the operator", Unit: unit.Must("$/h"), Accepted: method.Range{Low: 0, High: 500}, Default: "0"},
			method.Input{Key: "labour", About: "hours of the operator an hour of the machine; 1.1-1.2 are usual", Accepted: method.Range{Low: 1, High: 3}, Default: "1.1"},
			method.Input{Key: "tractor", About: "owning and repairing the tractor before it", Unit: unit.Must("$/h"), Accepted: method.Range{Low: 0, High: 1000}, Default: "0"}),
		Outputs: []method.Output{
			out("per_year", "a year", unit.Must("$/yr"), 2), out("per_hour", "an hour", unit.Must("$/h"), 2),
			when(out("per_acre", "an acre", perAcre, 2), "with width"),
		},
		Constants: append(append(kindConstants("rf1", "rf2", "efficiency", "speed", "life"), runningConstants()...), housed()),
		Sources:   []source.ID{source.MachineCost, source.MachineCapacity, source.MachineData, source.MachineRunning, source.MachineInsurance, source.Annuity},
		Example:   "price=45000 salvage=13500 years=8 hours=120 rate=0.07 kind=rotary-mower-conditioner width=12 power=120 fuel=3.5 wage=25 tractor=32",
		Run:       runMachineCost,
	}
}

func runMachineCost(c *method.Call) error {
	o, err := owned(c)
	if err != nil {
		return err
	}
	k, err := kindOf(c, "rf1", "rf2", "efficiency", "speed", "life")
	if err != nil {
		return err
	}
	if c.Given("power") != c.Given("fuel") {
		return errors.New("power and fuel belong together: give both, or neither and fuel is left out; accepted power 5 to 1200 hp, fuel 0.1 to 50 $/gal")
	}
	hours := c.Num("hours")
	all := hours * o.Years
	hour := (o.Recovery()+o.Housed(c.K("housed")))/hours + k.Repairs(o.Price, all)/all
	hour += Running{Diesel: c.K("diesel")}.Fuel(c.Num("power")) * c.Num("fuel") * (1 + c.K("oil"))
	hour += c.Num("wage")*c.Num("labour") + c.Num("tractor")
	c.Answer("per_year", hour*hours)
	c.Answer("per_hour", hour)
	if c.Given("width") {
		for _, part := range []struct {
			key  string
			into *float64
		}{{"speed", &k.Speed}, {"efficiency", &k.Efficiency}} {
			if c.Given(part.key) {
				*part.into = c.Num(part.key)
			}
			if *part.into == 0 {
				return fmt.Errorf("%s is missing: a %s has none of its own", part.key, k.Name)
			}
		}
		c.Answer("per_acre", hour/Capacity(k.Speed, c.Num("width"), k.Efficiency))
	}
	if all > k.Life {
		c.Note("%.0f hours in all are over the %.0f that such a machine lasts: repairs run higher than the line says", all, k.Life)
	}
	if !c.Given("power") {
		c.Note("no power and fuel given: fuel is not in it")
	}
	return nil
}

func capitalRecovery() *method.Method {
	return &method.Method{
		Name: "capital-recovery", Title: "A sum spread over years with interest",
		About:  "What an outlay costs a year until it is worn down to its salvage, with interest: for a machine, or for the establishment of a stand (salvage=0).",
		Inputs: append(ownership(), interest()),
		Outputs: []method.Output{
			out("factor", "share of the outlay due a year", unit.None, 6), out("per_year", "interest and wear a year", unit.Must("$/yr"), 2),
			out("insurance", "taxes, housing and insurance of a machine a year", unit.Must("$/yr"), 2),
		},
		Constants: []method.Constant{housed()},
		Sources:   []source.ID{source.Annuity, source.MachineInsurance},
		Example:   "price=45000 salvage=13500 years=8 rate=0.07",
		Run: func(c *method.Call) error {
			o, err := owned(c)
			if err != nil {
				return err
			}
			c.Answer("factor", Recovery(o.Rate, o.Years))
			c.Answer("per_year", o.Recovery())
			c.Answer("insurance", o.Housed(c.K("housed")))
			return nil
		},
	}
}

func machineRepair() *method.Method {
	return &method.Method{
		Name: "machine-repair", Title: "What repairs have cost by so many hours",
		About: "Repairs so far as the kind's factors give them, in money of the year of the price. A mean of many farms: one machine may cost half or twice.",
		Inputs: []method.Input{
			machinePrice(), {Key: "hours", About: "hours worked so far", Unit: unit.Must("h"), Accepted: method.Range{Low: 1, High: 30000}}, kindInput(),
		},
		Outputs:   []method.Output{out("cost", "repairs so far", money, 2), out("share", "as a share of the price", unit.None, 4), out("life_used", "share of its life used", unit.None, 2)},
		Constants: kindConstants("rf1", "rf2", "life"),
		Sources:   []source.ID{source.MachineData},
		Example:   "price=45000 hours=1000 kind=rotary-mower-conditioner",
		Run: func(c *method.Call) error {
			k, err := kindOf(c, "rf1", "rf2", "life")
			if err != nil {
				return err
			}
			v := k.Repairs(c.Num("price"), c.Num("hours"))
			c.Answer("cost", v)
			c.Answer("share", v/c.Num("price"))
			c.Answer("life_used", c.Num("hours")/k.Life)
			return nil
		},
	}
}

func machineFuel() *method.Method {
	return &method.Method{
		Name: "machine-fuel", Title: "Fuel and oil of an hour of work",
		About:  "Diesel by the rated power of the tractor, over the loads of a year, and oil as a share of it.",
		Inputs: []method.Input{power(), fuelPrice()},
		Outputs: []method.Output{
			out("gallons_h", "diesel an hour", unit.Must("gal/h"), 2), out("cost_h", "its cost", unit.Must("$/h"), 2), out("with_oil_h", "with oil", unit.Must("$/h"), 2),
		},
		Constants: runningConstants(),
		Sources:   []source.ID{source.MachineRunning},
		Example:   "power=120 fuel=3.5",
		Run: func(c *method.Call) error {
			gallons := Running{Diesel: c.K("diesel")}.Fuel(c.Num("power"))
			c.Answer("gallons_h", gallons)
			c.Answer("cost_h", gallons*c.Num("fuel"))
			c.Answer("with_oil_h", gallons*c.Num("fuel")*(1+c.K("oil")))
			return nil
		},
	}
}
