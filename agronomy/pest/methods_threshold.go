package pest

import (
	"fmt"
	"strings"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

var (
	hayPrice   = method.Input{Key: "hay", About: "worth of the hay", Unit: unit.Must("$/ton"), Accepted: method.Range{Low: 1, High: 2000}, Tested: method.Range{Low: 50, High: 400}}
	sprayCost  = method.Input{Key: "cost", About: "one treatment with its trip", Unit: unit.Must("$/ac"), Accepted: method.Range{Low: 0.5, High: 300}, Tested: method.Range{Low: 5, High: 40}}
	growthHigh = method.Input{Key: "height", About: "height of growth", Unit: unit.Must("in"), Accepted: method.Range{Low: 0.5, High: 60}, Tested: method.Range{Low: 1, High: 40}}
)

func optional(in method.Input) method.Input {
	in.Optional = true
	return in
}

func yesNo(key, about string) method.Input {
	return method.Input{Key: key, About: about, Kind: method.Word, Choices: []string{"yes", "no"}, Default: "no"}
}

func larvaeConstants() []method.Constant {
	k := PublishedLarvae()
	return []method.Constant{
		{Key: "weevil_slope", Value: k.Slope, Unit: "larvae a stem, ac/ton", Source: source.WeevilTable},
		{Key: "weevil_mid", Value: k.Mid, Unit: "larvae a stem", Source: source.WeevilTable, Exempt: "taken off a printed table of one decimal: 1 % does not show"},
		{Key: "weevil_late", Value: k.Late, Unit: "larvae a stem", Source: source.WeevilTable, Exempt: "taken off a printed table of one decimal: 1 % does not show"},
		{Key: "weevil_floor", Value: k.Floor, Unit: "larvae a stem", Source: source.WeevilTable, Exempt: "a choice: the lowest count of the printed table"},
	}
}

func hopperConstants() []method.Constant {
	k := PublishedHopper()
	return []method.Constant{
		{Key: "hopper_short", Value: k.Short, Unit: "a sweep, ac/ton", Source: source.HopperTable},
		{Key: "hopper_middle", Value: k.Middle, Unit: "a sweep, ac/ton", Source: source.HopperTable},
		{Key: "hopper_tall", Value: k.Tall, Unit: "a sweep, ac/ton", Source: source.HopperTable},
		{Key: "hopper_resistant", Value: k.Resistant, Source: source.HopperResistant},
	}
}

func larvaeOf(c *method.Call) Larvae {
	return Larvae{c.K("weevil_slope"), c.K("weevil_mid"), c.K("weevil_late"), c.K("weevil_floor")}
}

func hopperOf(c *method.Call) Hopper {
	return Hopper{c.K("hopper_short"), c.K("hopper_middle"), c.K("hopper_tall"), c.K("hopper_resistant")}
}

func note(c *method.Call, text string) {
	if text != "" {
		c.Note("%s", text)
	}
}

// warned leaves the cautions of spraying with the answer.
func warned(c *method.Call) {
	for _, k := range spraying() {
		c.Note("%s", string(k))
	}
}

const plainNote = "no price and cost given: a printed count that knows neither"

func weevilThreshold() *method.Method {
	return &method.Method{
		Name:  "weevil-threshold",
		Title: "Threshold of alfalfa weevil by price",
		About: "Larvae a stem of first growth at which a treatment pays back, from height, hay price and cost. Count 30 stems shaken into a bucket, healthy larvae only. Over half of the stems in bud, mowing pays better.",
		Inputs: []method.Input{
			growthHigh, optional(hayPrice), optional(sprayCost),
		},
		Outputs:   []method.Output{{Key: "larvae_per_stem", About: "larvae a stem", Decimals: 2}},
		Constants: larvaeConstants(),
		Sources:   []source.ID{source.WeevilTable, source.WeevilHodgson, source.WeevilOntario, source.WeevilStems},
		Example:   "height=22 hay=200 cost=18",
		Run: func(c *method.Call) error {
			money, known, err := moneyOf(c)
			if err != nil {
				return err
			}
			if !known {
				c.Note(plainNote)
				c.Answer("larvae_per_stem", PlainLarvae(c.Num("height")))
				return nil
			}
			at, outside := larvaeOf(c).Threshold(c.Num("height"), money)
			c.Answer("larvae_per_stem", at)
			note(c, outside)
			c.Note("a second calibration, Penn State's, is 750 cost/hay larvae in 30 stems: here %.2f a stem", 25*money.Cost/money.Hay)
			warned(c)
			return nil
		},
	}
}

// moneyOf reads price and cost: both or neither.
func moneyOf(c *method.Call) (m Money, known bool, err error) {
	if c.Given("hay") != c.Given("cost") {
		return m, false, fmt.Errorf("hay and cost go together: give both, or neither for a count that knows no price")
	}
	return Money{c.Num("hay"), c.Num("cost")}, c.Given("hay"), nil
}

func standOf(c *method.Call) Stand {
	return Stand{Resistant: c.Word("variety") == "resistant", SeedingYear: c.Word("seeding_year") == "yes"}
}

func hopperThreshold() *method.Method {
	return &method.Method{
		Name:  "hopper-threshold",
		Title: "Threshold of potato leafhopper by price",
		About: "Leafhoppers, adults and nymphs, a sweep of a 15 in net at which a treatment pays back, from height, hay price and cost. Yellow tips come after the loss. Over 12 in cut rather than treat.",
		Inputs: []method.Input{
			growthHigh, optional(hayPrice), optional(sprayCost),
			{Key: "variety", About: "leafhopper resistance", Kind: method.Word, Choices: []string{"susceptible", "resistant"}, Default: "susceptible"},
			yesNo("seeding_year", "whether it was seeded this year"),
		},
		Outputs:   []method.Output{{Key: "per_sweep", About: "leafhoppers a sweep", Decimals: 2}},
		Constants: hopperConstants(),
		Sources:   []source.ID{source.HopperTable, source.HopperCounts, source.HopperResistant, source.HopperSweeps, source.RuleHopper3},
		Example:   "height=6 hay=120 cost=12",
		Run: func(c *method.Call) error {
			money, known, err := moneyOf(c)
			if err != nil {
				return err
			}
			k, s, high := hopperOf(c), standOf(c), c.Num("height")
			if s.Resistant && s.SeedingYear {
				c.Note("in the year of seeding a resistant variety is held to the plain threshold: its hairs are not fully there; Ohio counts three times after the first cut")
			}
			if !known {
				c.Note(plainNote)
				c.Answer("per_sweep", k.Plain(high, s))
				return nil
			}
			at, outside := k.Threshold(high, money, s)
			c.Answer("per_sweep", at)
			note(c, outside)
			if high > hopperMiddle {
				c.Note("over 8 in only one row of the printed table could be read: taken from it for every price")
			}
			warned(c)
			return nil
		},
	}
}

func sprayOrCut() *method.Method {
	return &method.Method{
		Name:  "spray-or-cut",
		Title: "Spray, cut early, look again or leave",
		About: "What to do about a count of alfalfa weevil (larvae a stem, first growth) or potato leafhopper (a sweep): against its threshold, what forbids a spray, and dollars an acre of treating and of cutting now. It names no product and no rate.",
		Inputs: []method.Input{
			{Key: "pest", About: "what was counted", Kind: method.Word, Choices: []string{string(AlfalfaWeevil), string(Leafhopper)}},
			{Key: "count", About: "larvae a stem, or leafhoppers a sweep", Accepted: method.Range{Low: 0, High: 1000}, Tested: method.Range{Low: 0, High: 30}},
			growthHigh, optional(hayPrice), optional(sprayCost),
			{Key: "days_to_cut", About: "days to the planned cut", Unit: unit.Must("days"), Accepted: method.Range{Low: 0, High: 120}, Tested: method.Range{Low: 0, High: 45}},
			{Key: "phi", About: "days to harvest on the product's label", Unit: unit.Must("days"), Accepted: method.Range{Low: 0, High: 365}, Default: "0"},
			yesNo("bloom", "crop or weeds in bloom"),
			{Key: "label", About: "whether the label was read and allows it here", Kind: method.Word, Choices: []string{"confirmed", "not"}, Default: "not"},
		},
		Outputs: []method.Output{
			{Key: "verdict", About: "spray, cut early, resample, leave, or blocked: over the threshold with a block, and cutting does not pay"},
			{Key: "net_spray", About: "loss prevented less cost", Unit: unit.Must("$/ac"), Decimals: 2, When: "with price and cost"},
			{Key: "net_cut", About: "loss saved by cutting today less the growth given up", Unit: unit.Must("$/ac"), Decimals: 2, When: "with price and cost"},
			{Key: "blocks", About: "what forbids a spray: near (the cut does it), phi, bloom, label; none"},
		},
		Constants: append(append(larvaeConstants(), hopperConstants()...), method.Constant{Key: "growth", Value: PublishedWeights().Growth, Unit: "tons/ac a day", Source: source.GrowthPerDay}),
		Sources:   []source.ID{source.CutOrSpray, source.InjuryLevel, source.WeevilTable, source.HopperTable, source.GrowthPerDay, source.SpraySafety},
		Example:   "pest=weevil count=5 height=22 hay=250 cost=20 days_to_cut=14 phi=7 label=confirmed",
		Run:       runSprayOrCut,
	}
}

func runSprayOrCut(c *method.Call) error {
	money, known, err := moneyOf(c)
	if err != nil {
		return err
	}
	w := Weights{larvaeOf(c), hopperOf(c), c.K("growth")}
	got, err := w.Choose(Case{
		Pest: Pest(c.Word("pest")), Count: c.Num("count"), HeightIn: c.Num("height"), Money: money,
		DaysToCut: c.Num("days_to_cut"), PHI: c.Num("phi"), Bloom: c.Word("bloom") == "yes", Confirmed: c.Word("label") == "confirmed",
	})
	if err != nil {
		return err
	}
	c.Answer("verdict", string(got.Choice))
	if known {
		c.Answer("net_spray", got.NetSpray)
		c.Answer("net_cut", got.NetCut)
	} else {
		c.Note("no price and cost given: %.3f tons an acre are lost until the cut, %.3f are not grown if it is cut today", got.Loss, got.Given)
	}
	blocks := "none"
	if len(got.Blocks) > 0 {
		blocks = strings.Join(got.Blocks, ", ")
	}
	c.Answer("blocks", blocks)
	c.Note("threshold %.2f; the count is %s it", got.Threshold, map[Verdict]string{Over: "at or over", Near: "near", Under: "under"}[got.Standing])
	note(c, got.Outside)
	warned(c)
	return nil
}
