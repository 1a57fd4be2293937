package pest

import (
	"fmt"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

func injuryLevel() *method.Method {
	return &method.Method{
		Name:  "injury-level",
		Title: "Economic injury level",
		About: "The count at which the loss that a treatment prevents equals its cost, and the threshold at which to act before it. Printed thresholds by price already are such levels: do not lower them again.",
		Inputs: []method.Input{
			{Key: "cost", About: "one treatment with its trip", Unit: unit.Must("$/ac"), Accepted: method.Range{Low: 0.01, High: 1000}},
			{Key: "value", About: "worth of the crop", Unit: unit.Must("$/ton"), Accepted: method.Range{Low: 0.01, High: 10000}},
			{Key: "loss_per_pest", About: "lost for each pest a sample unit", Unit: unit.Must("tons/ac"), Accepted: method.Range{Low: 1e-6, High: 10}},
			{Key: "kill", About: "share of the loss that the treatment prevents", Accepted: method.Range{Low: 0.01, High: 1}, Tested: method.Range{Low: 0.5, High: 1}, Default: "1"},
		},
		Outputs: []method.Output{
			{Key: "eil", About: "injury level, pests a sample unit", Decimals: 3},
			{Key: "et", About: "threshold, pests a sample unit", Decimals: 3},
		},
		Constants: []method.Constant{{Key: "act_at", Value: ActAt, Source: source.InjuryLevel}},
		Sources:   []source.ID{source.InjuryLevel, source.InjuryExample},
		Example:   "cost=18 value=200 loss_per_pest=0.0347 kill=0.9",
		Run: func(c *method.Call) error {
			level, err := Injury{Money{c.Num("value"), c.Num("cost")}, c.Num("loss_per_pest"), c.Num("kill")}.Level()
			if err != nil {
				return err
			}
			c.Answer("eil", level)
			c.Answer("et", c.K("act_at")*level)
			return nil
		},
	}
}

func minorPest() *method.Method {
	return &method.Method{
		Name:  "minor-pest",
		Title: "Limits of the other pests",
		About: "The printed limit of aphids, spittlebug, plant bugs, grasshoppers, cutworm, armyworms, blotch leafminer and weevil in stubble, and where a count stands against it. Most years none of them is worth treating.",
		Inputs: []method.Input{
			{Key: "pest", About: "what was counted", Kind: method.Word, Choices: MinorNames()},
			{Key: "count", About: "in the unit of its limit", Accepted: method.Range{Low: 0, High: 1e5}},
			{Key: "height", About: "height of growth; moves the limits of aphids", Unit: unit.Must("in"), Accepted: method.Range{Low: 0, High: 60}, Default: "12"},
		},
		Outputs: []method.Output{
			{Key: "threshold", About: "the limit", Decimals: 1},
			{Key: "verdict", About: "over, near (look again in a few days) or under"},
		},
		Sources: []source.ID{source.AphidLimits, source.MinorLimits, source.CutwormLimits, source.LeafminerLimits, source.ArmywormLimits, source.StubbleLarvae},
		Example: "pest=pea-aphid count=60 height=14",
		Run: func(c *method.Call) error {
			m, err := FindMinor(c.Word("pest"))
			if err != nil {
				return err
			}
			if m.Name == "blotch-leafminer" && c.Num("count") > 100 {
				return fmt.Errorf("count %g: %% of leaflets, 0 to 100", c.Num("count"))
			}
			at := m.Threshold(c.Num("height"))
			c.Answer("threshold", at)
			c.Answer("verdict", string(Judge(c.Num("count"), at)))
			c.Note("counted as %s; %s", m.Unit, m.Says)
			warned(c)
			return nil
		},
	}
}

func weevilRule() *method.Method {
	var guides []string
	for _, g := range Guides() {
		guides = append(guides, written(g))
	}
	return &method.Method{
		Name:  "weevil-rule",
		Title: "Alfalfa weevil by a guide's own rule",
		About: "What a state's guide makes of a walk through first growth, without a price: share of stems with feeding, larvae a stem, height, days to the cut. The lower figure of a printed range.",
		Inputs: []method.Input{
			{Key: "guide", About: "whose guide", Kind: method.Word, Choices: guides},
			{Key: "tips", About: "stems with feeding", Unit: unit.Must("%"), Accepted: method.Range{Low: 0, High: 100}, Optional: true},
			{Key: "larvae", About: "larvae a stem", Accepted: method.Range{Low: 0, High: 200}, Optional: true},
			{Key: "height", About: "height of growth", Unit: unit.Must("in"), Accepted: method.Range{Low: 0.5, High: 60}, Default: "12"},
			{Key: "days_to_cut", About: "days to the planned cut", Unit: unit.Must("days"), Accepted: method.Range{Low: 0, High: 120}, Default: "14"},
		},
		Outputs: []method.Output{{Key: "act", About: "whether the guide acts"}, {Key: "rule", About: "how it reads"}},
		Sources: []source.ID{source.WeevilTips, source.WeevilOhio, source.WeevilOntario, source.WeevilIllinois, source.WeevilKentucky, source.WeevilMinnesota, source.WeevilDakota},
		Example: "guide=wisconsin tips=45 days_to_cut=14",
		Run: func(c *method.Call) error {
			l := Looked{-1, -1, c.Num("height"), c.Num("days_to_cut")}
			if c.Given("tips") {
				l.Tips = c.Num("tips")
			}
			if c.Given("larvae") {
				l.Larvae = c.Num("larvae")
			}
			for _, g := range Guides() {
				if written(g) != c.Word("guide") {
					continue
				}
				act, reads, err := ByRule(g, l)
				if err != nil {
					return err
				}
				c.Answer("act", act)
				c.Answer("rule", reads)
			}
			warned(c)
			return nil
		},
	}
}

func hopperHeat() *method.Method {
	k := PublishedBrood()
	days := unit.Must("days")
	return &method.Method{
		Name:  "hopper-heat",
		Title: "A generation of potato leafhopper by heat",
		About: "How long leafhopper eggs and nymphs take at a steady mean temperature. When they arrive no heat tells: they come on the wind.",
		Inputs: []method.Input{
			{Key: "tmean", About: "mean temperature", Unit: unit.Must("C"), Accepted: method.Range{Low: 10, High: 40}, Tested: method.Range{Low: 15, High: 30}},
		},
		Outputs: []method.Output{
			{Key: "egg", About: "days to hatching", Unit: days, Decimals: 1}, {Key: "nymph", About: "days from hatching to adult", Unit: days, Decimals: 1},
			{Key: "generation", About: "days from egg to adult", Unit: days, Decimals: 1},
		},
		Constants: []method.Constant{
			{Key: "egg_base", Value: k.EggBase, Unit: "C", Source: source.HopperHeat}, {Key: "egg_heat", Value: k.EggHeat, Unit: "C-days", Source: source.HopperHeat},
			{Key: "nymph_base", Value: k.NymphBase, Unit: "C", Source: source.HopperHeat}, {Key: "nymph_heat", Value: k.NymphHeat, Unit: "C-days", Source: source.HopperHeat},
		},
		Sources: []source.ID{source.HopperHeat},
		Example: "tmean=20",
		Run: func(c *method.Call) error {
			egg, nymph := Brood{c.K("egg_base"), c.K("egg_heat"), c.K("nymph_base"), c.K("nymph_heat")}.Days(c.Num("tmean"))
			c.Answer("egg", egg)
			c.Answer("nymph", nymph)
			c.Answer("generation", egg+nymph)
			return nil
		},
	}
}

func stubbleDays() *method.Method {
	k := PublishedStubble()
	return &method.Method{
		Name:  "stubble-days",
		Title: "Days of bare stubble that a treatment buys off",
		About: "After the first cut weevil may hold regrowth back. How many days without leaves cost as much as one treatment.",
		Inputs: []method.Input{
			hayPrice, sprayCost,
			{Key: "next_cut", About: "whether the next cut waits for its bloom or is made by the calendar", Kind: method.Word, Choices: []string{"bloom", "calendar"}, Default: "calendar"},
		},
		Outputs: []method.Output{{Key: "days", About: "days without leaves", Unit: unit.Must("days"), Decimals: 1}},
		Constants: []method.Constant{
			{Key: "stubble_bloom", Value: k.Bloom, Unit: "tons/ac a day", Source: source.StubbleDays}, {Key: "stubble_calendar", Value: k.Calendar, Unit: "tons/ac a day", Source: source.StubbleDays},
		},
		Sources: []source.ID{source.StubbleDays, source.StubbleLarvae},
		Example: "hay=150 cost=15",
		Run: func(c *method.Call) error {
			c.Answer("days", Stubble{c.K("stubble_bloom"), c.K("stubble_calendar")}.Days(Money{c.Num("hay"), c.Num("cost")}, c.Word("next_cut") == "calendar"))
			warned(c)
			return nil
		},
	}
}
