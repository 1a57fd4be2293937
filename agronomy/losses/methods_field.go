package losses

import (
	"fmt"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
)

func ndfInput() method.Input {
	return method.Input{Key: "ndf", About: "NDF of the standing crop, % of dry matter", Unit: percent, Accepted: method.Range{Low: 18, High: 80}, Tested: method.Range{Low: 28, High: 65}}
}

func cpInput() method.Input {
	return method.Input{Key: "cp", About: "crude protein of the standing crop, % of dry matter", Unit: percent, Accepted: method.Range{Low: 2, High: 40}, Tested: method.Range{Low: 8, High: 30}}
}

// fibreShare stands in for an ADF that was not asked: no answer rests on it.
const fibreShare = 0.75

// Written names each loss of a chain with its percentage of the dry matter entering the step, in the
// form that lists of named numbers take everywhere: `raking:5.00`.
func (c Chain) Written() []string {
	steps := make([]string, len(c.Steps))
	for i, s := range c.Steps {
		steps[i] = fmt.Sprintf("%s:%.2f", s.Name, 100*s.Share.Mid)
	}
	return steps
}

func fieldLosses() *method.Method {
	k := Published()
	return &method.Method{
		Name: "field-losses", Title: "Losses from the standing crop to the bale or the wagon",
		About: "Carries an alfalfa crop through mowing, respiration, rain, raking or merging, and baling or chopping as a mass balance of dry matter, NDF and protein. Storage and feeding come after it. " +
			"Rain is taken to fall half way through curing, and alfalfa hay to be raked at a usual moisture.",
		Inputs: []method.Input{
			{Key: "method", About: "what it is put up as", Kind: method.Word, Choices: Products()},
			moistureInput("moisture at the baler or chopper"),
			func() method.Input { in := rainInput(); in.Default = "0"; return in }(),
			{Key: "yield", About: "standing dry matter", Unit: yields, Accepted: method.Range{Low: 0.1, High: 20}, Tested: method.Range{Low: 1, High: 8}, Default: "4"},
			ndfInput(), cpInput(),
		},
		Outputs: []method.Output{
			{Key: "steps", About: "each step with the % lost of what enters it"},
			{Key: "total_pct", About: "dry matter lost of the standing crop", Unit: percent, Decimals: 1},
			{Key: "ndf", About: "NDF of what is left", Unit: percent, Decimals: 1},
			{Key: "cp", About: "crude protein of what is left", Unit: percent, Decimals: 1},
		},
		Constants: declare(ofModel(&k)...),
		Sources:   []source.ID{source.MassBalance, source.RespirationEnds, source.RespirationPart},
		Example:   "method=hay moisture=18 rain=10 yield=4 ndf=40 cp=20",
		Run: func(c *method.Call) error {
			k := Published()
			take(c, ofModel(&k)...)
			standing := Feed{DM: c.Num("yield"), Composition: Composition{NDF: c.Num("ndf"), ADF: fibreShare * c.Num("ndf"), CP: c.Num("cp")}}
			chain, err := k.Bring(standing, Harvest{
				As: Product(c.Word("method")), Moisture: c.Num("moisture"), RainMM: c.Num("rain"), YieldTHa: c.Num("yield"), Crop: Alfalfa, By: SmallSquare,
			})
			if err != nil {
				return err
			}
			total, left := chain.Total().Percent(), chain.Left()
			c.Answer("steps", chain.Written())
			c.Answer("total_pct", total.Mid)
			c.Answer("ndf", left.NDF)
			c.Answer("cp", left.CP)
			c.Note("the loss lies between %.0f and %.0f %% where each step does", total.Low, total.High)
			return nil
		},
	}
}

// passes are the machine steps by the word for each.
var passes = []string{"mowing", "tedding", "merging", "raking", "baling", "chopping"}

func machineLoss() *method.Method {
	all := func(k *Machines) []coefficient {
		return append(ofHarvest(k), []coefficient{
			{"mowing_low", source.MowingLoss, &k.Mowing.Low},
			{"mowing_high", source.MowingLoss, &k.Mowing.High},
			{"merging_low", source.MergingLoss, &k.Merging.Low},
			{"merging_high", source.MergingLoss, &k.Merging.High},
			{"chopping_low", source.ChoppingLoss, &k.Chopping.Low},
			{"chopping_high", source.ChoppingLoss, &k.Chopping.High},
			{"raking_low", source.RakingLoss, &k.RakingEnds.Low},
			{"raking_high", source.RakingLoss, &k.RakingEnds.High},
			{"square_low", source.BalerEnds, &k.SquareEnds.Low},
			{"square_mid", source.BalerEnds, &k.SquareEnds.Mid},
			{"square_high", source.BalerEnds, &k.SquareEnds.High},
			{"round_low", source.BalerEnds, &k.RoundEnds.Low},
			{"round_mid", source.BalerEnds, &k.RoundEnds.Mid},
			{"round_high", source.BalerEnds, &k.RoundEnds.High},
			{"tedding_wet", source.TeddingLoss, &k.TeddingWet},
			{"tedding_dry", source.TeddingLoss, &k.TeddingDry},
			{"tedding_low", source.TeddingLoss, &k.TeddingLow},
			{"tedding_grass", source.TeddingLoss, &k.TeddingGrass.Mid},
			{"tedding_grass_low", source.TeddingLoss, &k.TeddingGrass.Low},
			{"tedding_grass_high", source.TeddingLoss, &k.TeddingGrass.High},
		}...)
	}
	share := func(t *Tissue) []coefficient {
		return []coefficient{{"leaf_share", source.LeafHalf, &t.LeafShare}}
	}
	k, t := PublishedMachines(), PublishedTissue()
	return &method.Method{
		Name: "machine-loss", Title: "Dry matter lost to one pass of a machine",
		About: "What mowing, tedding, merging, raking, baling or chopping takes of the dry matter that enters it, and how much of that is leaf. Tedding, raking and baling take more the drier the crop; raking takes a greater part of a thin one.",
		Inputs: []method.Input{
			{Key: "pass", About: "which machine", Kind: method.Word, Choices: passes},
			func() method.Input {
				in := moistureInput("moisture at the machine; wanted for tedding and baling, and where it is known for raking")
				in.Optional = true
				return in
			}(),
			{Key: "yield", About: "standing dry matter, for raking", Unit: yields, Accepted: method.Range{Low: 0.1, High: 20}, Tested: method.Range{Low: 1, High: 8}, Default: "4"},
			{Key: "crop", About: "what is tedded", Kind: method.Word, Choices: Crops(), Default: string(Alfalfa)},
			{Key: "baler", About: "what bales", Kind: method.Word, Choices: Balers(), Default: string(SmallSquare)},
		},
		Outputs: []method.Output{
			{Key: "loss_pct", About: "dry matter lost", Unit: percent, Decimals: 1},
			{Key: "low", About: "the least", Unit: percent, Decimals: 1},
			{Key: "high", About: "the most", Unit: percent, Decimals: 1},
			{Key: "leaf_pct", About: "how much of the loss is leaf", Unit: percent},
		},
		Constants: declare(all(&k), share(&t)),
		Sources:   []source.ID{source.LeafHalf},
		Example:   "pass=raking moisture=40 yield=4",
		Run: func(c *method.Call) error {
			k, t := PublishedMachines(), PublishedTissue()
			take(c, all(&k), share(&t))
			l, err := onePass(c, k, t)
			if err != nil {
				return err
			}
			pct := l.Share.Percent()
			c.Answer("loss_pct", pct.Mid)
			c.Answer("low", pct.Low)
			c.Answer("high", pct.High)
			c.Answer("leaf_pct", 100*(l.Made.Leaf+l.Made.Whole*t.LeafShare))
			return nil
		},
	}
}

func onePass(c *method.Call, k Machines, t Tissue) (Loss, error) {
	moisture, yield := c.Num("moisture"), c.Num("yield")
	switch pass := c.Word("pass"); pass {
	case "mowing":
		return k.mowing(t), nil
	case "merging":
		return k.merging(), nil
	case "chopping":
		return k.chopping(), nil
	case "raking":
		if !c.Given("moisture") {
			return k.rakingUsual(yield, t), nil
		}
		return k.raking(moisture, yield, t), nil
	default:
		if !c.Given("moisture") {
			return Loss{}, fmt.Errorf("moisture is missing: what %s takes depends on it; accepted 5 to 80 %%", pass)
		}
		if pass == "tedding" {
			return k.tedding(moisture, Crop(c.Word("crop"))), nil
		}
		return k.baling(moisture, Baler(c.Word("baler")), t)
	}
}

// leastNDF is where feed values stop meaning anything.
const leastNDF = 18

func lossStep() *method.Method {
	words := []string{"breathed", "leached", "leaf", "stem", "whole"}
	k := PublishedTissue()
	all := func(k *Tissue) []coefficient {
		return append(ofTissue(k)[:5], coefficient{"leaf_adf", source.LeafADF, &k.Leaf.ADF}, coefficient{"stem_adf", source.LeafADF, &k.Stem.ADF})
	}
	return &method.Method{
		Name: "loss-step", Title: "Composition after one loss",
		About: "Takes a share of the dry matter away and says what is left of it, by what was lost: sugars breathed or fermented, solubles leached, leaf, stem, or the whole crop. Fibre rises when what is lost has less of it.",
		Inputs: []method.Input{
			{Key: "share", About: "part of the dry matter lost, 0 to 1", Accepted: method.Range{Low: 0, High: 0.95}},
			{Key: "lost", About: "what was lost", Kind: method.Word, Choices: words},
			ndfInput(),
			{Key: "adf", About: "ADF of the crop, % of dry matter", Unit: percent, Accepted: method.Range{Low: 10, High: 60}},
			cpInput(),
		},
		Outputs: []method.Output{
			{Key: "ndf", About: "NDF of what is left", Unit: percent, Decimals: 2},
			{Key: "adf", About: "ADF of what is left", Unit: percent, Decimals: 2},
			{Key: "cp", About: "crude protein of what is left", Unit: percent, Decimals: 2},
			{Key: "rfv", About: "relative feed value of what is left", When: "while NDF is 18 % or more"},
		},
		Constants: declare(all(&k)),
		Sources:   []source.ID{source.MassBalance, source.RFVFormula},
		Example:   "share=0.05 lost=leaf ndf=40 adf=30 cp=20",
		Run: func(c *method.Call) error {
			k := PublishedTissue()
			take(c, all(&k))
			f := Feed{DM: 1, Composition: Composition{NDF: c.Num("ndf"), ADF: c.Num("adf"), CP: c.Num("cp")}}
			if err := f.Check(); err != nil {
				return err
			}
			made := map[string]Made{"breathed": {Breathed: 1}, "leached": {Leached: 1}, "leaf": {Leaf: 1}, "stem": {Stem: 1}, "whole": {Whole: 1}}[c.Word("lost")]
			left, _, err := f.Take(c.Num("share"), k.Of(made, f.Composition))
			if err != nil {
				return err
			}
			c.Answer("ndf", left.NDF)
			c.Answer("adf", left.ADF)
			c.Answer("cp", left.CP)
			if left.NDF >= leastNDF {
				c.Answer("rfv", left.RFV())
			}
			return nil
		},
	}
}
