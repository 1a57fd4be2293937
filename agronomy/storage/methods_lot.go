package storage

import (
	"fmt"
	"math"

	"haywarden/agronomy/losses"
	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

func hayHeat() *method.Method {
	return &method.Method{
		Name: "hay-heat", Title: "What to do about heating hay",
		About:  "What a core temperature of stacked hay means and what to do. Sources differ by 10 to 20 F on when to act; the earlier is given. Read the cautions with it.",
		Inputs: []method.Input{{Key: "temp", About: "hottest core temperature", Unit: unit.Must("F"), Accepted: method.Range{Low: -60, High: 2000}}},
		Outputs: []method.Output{
			{Key: "level", About: "how far it has gone, from normal to fire"}, {Key: "action", About: "what to do"},
		},
		Sources: []source.ID{source.HayHeat},
		Example: "temp=146",
		Run: func(c *method.Call) error {
			h, err := Hay(unit.Fahrenheit(c.Num("temp")))
			if err != nil {
				return err
			}
			c.Answer("level", h.Level)
			c.Answer("action", noteAll(c, h.Told))
			return nil
		},
	}
}

func siloGas() *method.Method {
	return &method.Method{
		Name: "silo-gas", Title: "How long to stay away from a filled silo",
		About: "The longest of the printed times for which gas over fresh silage is deadly. It never says that a silo is safe to enter.",
		Inputs: []method.Input{
			{Key: "filled", About: "day on which filling ended", Kind: method.Date},
			{Key: "on", About: "day asked about", Kind: method.Date},
		},
		Outputs: []method.Output{
			{Key: "stage", About: "peak, closed or guarded"}, {Key: "action", About: "what to do"},
			{Key: "peak_until", About: "last day of the worst"}, {Key: "off_until", About: "children, visitors and animals stay off through this day"},
			{Key: "closed_until", About: "nobody goes in through this day"},
		},
		Sources: []source.ID{source.SiloGas},
		Example: "filled=2026-06-01 on=2026-06-10",
		Run: func(c *method.Call) error {
			s, err := PublishedGas().Filled(c.Day("filled"), c.Day("on"))
			if err != nil {
				return err
			}
			c.Answer("stage", s.Stage)
			c.Answer("action", noteAll(c, s.Told))
			c.Answer("peak_until", s.PeakUntil)
			c.Answer("off_until", s.OffUntil)
			c.Answer("closed_until", s.Closed)
			return nil
		},
	}
}

func lotSample() *method.Method {
	many := method.Range{Low: 1, High: 1000}
	spread := method.Range{Low: 0, High: 100}
	return &method.Method{
		Name: "lot-sample", Title: "What a test says about a lot",
		About: "How sure one can be that a lot truly lies over a target when its tests average a value, given how cores and laboratory scatter. Any unit, one for all: % NDF, RFV points. A lot is one field, cutting and stage, at most 200 tons.",
		Inputs: []method.Input{
			{Key: "value", About: "mean of the tests", Accepted: method.Range{Low: 0, High: 1000}},
			{Key: "target", About: "what it must reach", Accepted: method.Range{Low: 0, High: 1000}},
			{Key: "core_sd", About: "standard deviation between cores of a lot; NDF 2.0, protein 0.8", Accepted: spread},
			{Key: "cores", About: "cores or handfuls in each sample", Accepted: many, Default: "20"},
			{Key: "lab_sd", About: "standard deviation of the laboratory; NDF 1.5, ADF 1.0, protein 0.5", Accepted: spread},
			{Key: "tests", About: "samples taken and tested", Accepted: many, Default: "1"},
		},
		Outputs: []method.Output{
			{Key: "se", About: "standard error", Decimals: 3},
			{Key: "chance_over", About: "chance that the lot lies over the target", Decimals: 2},
			{Key: "safe_value", About: "what the tests must average to be over it 9 times in 10", Decimals: 1},
			{Key: "apart", About: "least difference between two lots so tested that is no accident", Decimals: 1},
		},
		Sources: []source.ID{source.LotError, source.HayProbe},
		Example: "value=41 target=40 core_sd=2 cores=20 lab_sd=1.5",
		Run: func(c *method.Call) error {
			s := Sampling{CoreSD: c.Num("core_sd"), LabSD: c.Num("lab_sd"), Cores: int(c.Num("cores")), Tests: int(c.Num("tests"))}
			if float64(s.Cores) != c.Num("cores") || float64(s.Tests) != c.Num("tests") {
				return fmt.Errorf("cores %g and tests %g: want whole numbers", c.Num("cores"), c.Num("tests"))
			}
			se, err := s.SE()
			if err != nil {
				return err
			}
			over, err := s.ChanceOver(c.Num("value"), c.Num("target"))
			if err != nil {
				return err
			}
			const often = 0.9
			safe, err := s.SafeValue(c.Num("target"), often)
			if err != nil {
				return err
			}
			apart, err := s.Apart()
			if err != nil {
				return err
			}
			c.Answer("se", se)
			c.Answer("chance_over", over)
			c.Answer("safe_value", safe)
			c.Answer("apart", apart)
			return nil
		},
	}
}

func coresNeeded() *method.Method {
	return &method.Method{
		Name: "cores-needed", Title: "How many cores a lot takes",
		About: "How many cores bring the 95 % interval of a lot down to a half-width, the laboratory left aside. The protocol for hay wants 20 whatever this says, and for silage 15 to 20 handfuls.",
		Inputs: []method.Input{
			{Key: "core_sd", About: "standard deviation between cores of a lot; NDF 2.0, protein 0.8", Accepted: method.Range{Low: 0, High: 100}},
			{Key: "half_width", About: "wanted half-width of the interval, in the same unit", Accepted: method.Range{Low: 0.05, High: 100}},
		},
		Outputs: []method.Output{{Key: "cores", About: "cores to take"}},
		Sources: []source.ID{source.LotError, source.HayProbe},
		Example: "core_sd=2 half_width=1",
		Run: func(c *method.Call) error {
			n, err := CoresFor(c.Num("core_sd"), c.Num("half_width"))
			if err != nil {
				return err
			}
			c.Answer("cores", n)
			return nil
		},
	}
}

func fieldToBunk() *method.Method {
	stores := append(Places(), Structures()...)
	fibre := func(key, about string, low, high float64) method.Input {
		return method.Input{Key: key, About: about, Unit: percent, Accepted: method.Range{Low: low, High: high}}
	}
	return &method.Method{
		Name: "field-to-bunk", Title: "From the standing crop to what the cow is offered",
		About: "The whole chain as one mass balance: mowing, respiration, rain, raking or merging, baling or chopping, storage, feed-out and feeding. Hay takes a place as its store, haylage a silo, baleage wrapped-bale. Each step's range goes into that of the feed value, steps going wrong apart from each other.",
		Inputs: []method.Input{
			{Key: "method", About: "what it is put up as", Kind: method.Word, Choices: losses.Products()},
			fibre("moisture", "moisture at the baler or chopper, of fresh weight", 5, 80),
			{Key: "rain", About: "rain on the cut crop", Unit: unit.Must("mm"), Accepted: method.Range{Low: 0, High: 200}, Default: "0"},
			{Key: "yield", About: "standing dry matter", Unit: unit.Must("t/ha"), Accepted: method.Range{Low: 0.1, High: 20}, Default: "4"},
			{Key: "crop", About: "what stands", Kind: method.Word, Choices: losses.Crops(), Default: string(losses.Alfalfa)},
			{Key: "baler", About: "what bales", Kind: method.Word, Choices: losses.Balers(), Default: string(losses.Round)},
			fibre("ndf", "NDF of the standing crop", 18, 80), fibre("adf", "ADF of the standing crop", 10, 60), fibre("cp", "crude protein of the standing crop", 2, 40),
			{Key: "store", About: "where it is kept", Kind: method.Word, Choices: stores},
			{Key: "wrap", About: "what holds a hay bale outside", Kind: method.Word, Choices: Wraps(), Default: string(Twine)},
			func() method.Input { in := densityInput(); in.Optional = true; return in }(),
			{Key: "face", About: "inches a day fed off a bunker, pile or bag", Unit: unit.Must("in/d"), Accepted: method.Range{Low: 0.1, High: 200}, Default: "12"},
			{Key: "season", About: "when it is fed", Kind: method.Word, Choices: []string{"cool", "warm"}, Default: "cool"},
			{Key: "feeder", About: "how it is offered", Kind: method.Word, Choices: Feeders(), Default: string(FeedBunk)},
		},
		Outputs: []method.Output{
			{Key: "steps", About: "each step with the % lost of what enters it"},
			{Key: "left_pct", About: "of the standing dry matter, eaten", Unit: percent, Decimals: 1},
			{Key: "left_low", About: "the least", Unit: percent, Decimals: 1}, {Key: "left_high", About: "the most", Unit: percent, Decimals: 1},
			{Key: "ndf", About: "NDF at the bunk", Unit: percent, Decimals: 1}, {Key: "adf", About: "ADF at the bunk", Unit: percent, Decimals: 1}, {Key: "cp", About: "crude protein at the bunk", Unit: percent, Decimals: 1},
			{Key: "rfv", About: "relative feed value at the bunk"}, {Key: "rfv_low", About: "the least"}, {Key: "rfv_high", About: "the most"},
		},
		Sources: []source.ID{source.MassBalance, source.RFVFormula, source.HayInside, source.HayOutside, source.SiloTypes, source.FeedOutRule, source.FeedingLoss, source.GroundLoss},
		Example: "method=hay moisture=16 rain=0 ndf=40 adf=30 cp=20 store=inside",
		Run: func(c *method.Call) error {
			as, moisture := losses.Product(c.Word("method")), c.Num("moisture")
			standing := losses.Feed{DM: c.Num("yield"), Composition: losses.Composition{NDF: c.Num("ndf"), ADF: c.Num("adf"), CP: c.Num("cp")}}
			chain, err := losses.Published().Bring(standing, losses.Harvest{
				As: as, Moisture: moisture, RainMM: c.Num("rain"), YieldTHa: c.Num("yield"), Crop: losses.Crop(c.Word("crop")), By: losses.Baler(c.Word("baler")),
			})
			if err != nil {
				return err
			}
			chain, err = Published().ToBunk(chain, as, moisture, Keeping{
				Store: c.Word("store"), Wrap: Wrap(c.Word("wrap")), Density: c.Num("density"), FaceInches: c.Num("face"), WarmSeason: c.Word("season") == "warm", Feeder: Feeder(c.Word("feeder")),
			})
			if err != nil {
				return err
			}
			left, gone, rfv := chain.Left(), chain.Total().Percent(), chain.RFV()
			c.Answer("steps", chain.Written())
			c.Answer("left_pct", 100-gone.Mid)
			c.Answer("left_low", math.Max(0, 100-gone.High))
			c.Answer("left_high", 100-gone.Low)
			c.Answer("ndf", left.NDF)
			c.Answer("adf", left.ADF)
			c.Answer("cp", left.CP)
			c.Answer("rfv", rfv.Mid)
			c.Answer("rfv_low", rfv.Low)
			c.Answer("rfv_high", rfv.High)
			return nil
		},
	}
}
