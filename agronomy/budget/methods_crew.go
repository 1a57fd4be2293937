package budget

import (
	"fmt"
	"math"

	"haywarden/agronomy/method"
	"haywarden/agronomy/risk"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

func machineTimeliness() *method.Method {
	k := PublishedLate()
	return &method.Method{
		Name: "machine-timeliness", Title: "What waiting for a machine costs",
		About: "The worth that a crop loses while it waits for a machine of this capacity, in a year. Grows with the square of the acres: twice the acres on one machine cost four times as much.",
		Inputs: []method.Input{
			acresInput("acres", "acres to cover"), yield("yield, dry matter"), price("value", "worth of a ton of dry matter"),
			{Key: "per_day", About: "share of the worth lost a day; 0.018 recalled for hay in June in Michigan", Accepted: method.Range{Low: 0.0001, High: 0.2}},
			{Key: "hours", About: "hours of work a day", Unit: unit.Must("h"), Accepted: method.Range{Low: 0.5, High: 24}},
			{Key: "capacity", About: "capacity of the machine", Unit: unit.Must("ac/h"), Accepted: method.Range{Low: 0.1, High: 200}},
			{Key: "fit_days", About: "share of days fit for work", Accepted: method.Range{Low: 0.05, High: 1}},
			{Key: "start", About: "work begins when the crop is ready, or half the time before", Kind: method.Word, Choices: []string{"when-ready", "half-before"}, Default: "when-ready"},
		},
		Outputs: []method.Output{out("cost", "worth lost a year", money, 2), out("cost_acre", "an acre", perAcre, 2)},
		Constants: []method.Constant{
			constant("one_sided", k.OneSided, "", source.Timeliness), constant("balanced", k.Balanced, "", source.Timeliness),
		},
		Sources: []source.ID{source.Timeliness},
		Example: "acres=160 yield=1.6 value=190 per_day=0.018 hours=8 capacity=8.65 fit_days=0.5",
		Run: func(c *method.Call) error {
			v := Late{c.K("one_sided"), c.K("balanced")}.Cost(c.Word("start") == "half-before", c.Num("per_day"), c.Num("acres"), c.Num("yield"), c.Num("value"), c.Num("hours"), c.Num("capacity"), c.Num("fit_days"))
			c.Answer("cost", v)
			c.Answer("cost_acre", v/c.Num("acres"))
			return nil
		},
	}
}

func acresInput(key, about string) method.Input {
	return method.Input{Key: key, About: about, Unit: acres, Accepted: method.Range{Low: 0.1, High: 50000}}
}

func harvestPace() *method.Method {
	return &method.Method{
		Name: "harvest-pace", Title: "How many days a crew needs for a cutting",
		About: "The slowest machine of the chain sets the pace: acres an hour of each, acres a day, and days for all acres when the crew is free on a share of days and another share is fit for work. One row for each machine.",
		Inputs: []method.Input{
			{Key: "machine", About: "name of each machine", Kind: method.Words}, listOf(speed()), listOf(width()), listOf(efficiency()),
			{Key: "hours", About: "hours of work a day", Unit: unit.Must("h"), Accepted: method.Range{Low: 0.5, High: 24}},
			acresInput("acres", "acres to cover"),
			byDefault(method.Input{Key: "free_days", About: "share of days on which the crew is not planting or elsewhere", Accepted: method.Range{Low: 0.05, High: 1}}, "1"),
			byDefault(method.Input{Key: "fit_days", About: "share of days fit for work", Accepted: method.Range{Low: 0.05, High: 1}}, "1"),
		},
		Outputs: []method.Output{
			out("acres_h", "acres an hour of each", unit.Must("ac/h"), 2), out("slowest", "what sets the pace", unit.None, 0),
			out("acres_day", "acres a day of work", acres, 1), out("days", "days from start to end", unit.Must("days"), 1),
		},
		Sources: []source.ID{source.MachineCapacity},
		Example: "machine=mower,rake,chopper speed=7,6,3.5 width=12,20,15 efficiency=0.85,0.8,0.7 hours=8 acres=160 free_days=0.8 fit_days=0.6",
		Run: func(c *method.Call) error {
			names := c.Words("machine")
			speeds, widths, efficiencies := c.List("speed"), c.List("width"), c.List("efficiency")
			if len(speeds) != len(names) || len(widths) != len(names) || len(efficiencies) != len(names) {
				return fmt.Errorf("%d machines, %d speed, %d width and %d efficiency: want one of each for every machine", len(names), len(speeds), len(widths), len(efficiencies))
			}
			slowest, list := 0, make([]float64, len(names))
			for i := range names {
				list[i] = Capacity(speeds[i], widths[i], efficiencies[i])
				if list[i] < list[slowest] {
					slowest = i
				}
			}
			day := list[slowest] * c.Num("hours")
			c.Answer("acres_h", list)
			c.Answer("slowest", names[slowest])
			c.Answer("acres_day", day)
			c.Answer("days", c.Num("acres")/day/(c.Num("free_days")*c.Num("fit_days")))
			return nil
		},
	}
}

func ownOrHire() *method.Method {
	return &method.Method{
		Name: "own-or-hire", Title: "Own a machine or hire the work",
		About: "The acres a year from which owning is cheaper than a hired rate, and both at the acres asked. Put into the yearly cost all that is paid whether the machine runs or not. It does not count who comes in time; see machine-timeliness.",
		Inputs: []method.Input{
			{Key: "yearly", About: "cost of owning a year: capital recovery, taxes, housing", Unit: unit.Must("$/yr"), Accepted: method.Range{Low: 0, High: 2e6}},
			cost("running", "repairs, fuel, labour and tractor"), cost("hired", "hired rate"), acresInput("acres", "acres a year, every cut counted"),
			{Key: "error", About: "error of each cost, a standard deviation", Unit: perAcre, Accepted: method.Range{Low: 0, High: 1000}, Default: "0"},
		},
		Outputs: []method.Output{
			never(out("break_even", "acres a year from which owning is cheaper", acres, 0), "never"),
			out("own", "owning at the acres asked", perAcre, 2), out("hire", "hiring", perAcre, 2), out("verdict", "what is cheaper", unit.None, 0),
		},
		Sources: []source.ID{source.OwnOrHire, source.NoDifference},
		Example: "yearly=6512.73 running=10.13 hired=16 acres=1000 error=1",
		Run: func(c *method.Call) error {
			o := Compare(c.Num("yearly"), c.Num("running"), c.Num("hired"), c.Num("acres"))
			verdict, err := cheaper(o, c.Num("error"))
			if err != nil {
				return err
			}
			c.Answer("break_even", o.Break)
			c.Answer("own", o.Own)
			c.Answer("hire", o.Hire)
			c.Answer("verdict", verdict)
			if math.IsInf(o.Break, 1) {
				c.Note("running the machine costs as much as hiring it, before it is paid for")
			}
			return nil
		},
	}
}

// cheaper says which of owning and hiring costs less, or that they cannot be told apart.
func cheaper(o OwnOrHire, e float64) (string, error) {
	d, err := risk.Tell(risk.Estimate{Value: o.Own, Error: e}, risk.Estimate{Value: o.Hire, Error: e}, 0)
	if err != nil {
		return "", err
	}
	switch d.Told {
	case risk.More:
		return "hire", nil
	case risk.Less:
		return "own", nil
	default:
		return string(risk.NoDifference), nil
	}
}
