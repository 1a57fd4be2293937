package losses

import (
	_ "embed"
	"fmt"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

//go:embed proofs.csv
var proofs string

// Proofs returns the printed answers that this discipline's methods must reproduce.
func Proofs() string { return proofs }

// Methods declares the calculations of this discipline.
func Methods() []*method.Method {
	return []*method.Method{rainLoss(), fieldLosses(), machineLoss(), respirationLoss(), lossStep()}
}

var (
	percent = unit.Must("%")
	yields  = unit.Must("t/ha")
	depths  = unit.Must("mm")
)

// coefficient is a published number, where it is published and where the model keeps it.
type coefficient struct {
	key    string
	source source.ID
	at     *float64
}

func declare(lists ...[]coefficient) (constants []method.Constant) {
	for _, list := range lists {
		for _, k := range list {
			constants = append(constants, method.Constant{Key: k.key, Value: *k.at, Source: k.source})
		}
	}
	return constants
}

func take(c *method.Call, lists ...[]coefficient) {
	for _, list := range lists {
		for _, k := range list {
			*k.at = c.K(k.key)
		}
	}
}

func ofRain(k *Rain) []coefficient {
	k.Wetness = append(Line{}, k.Wetness...)
	return []coefficient{
		{"per_mm_low", source.RainModel, &k.PerMM.Low},
		{"per_mm_mid", source.RainModel, &k.PerMM.Mid},
		{"per_mm_high", source.RainModel, &k.PerMM.High},
		{"rain_most", source.RainModel, &k.Most},
		{"wetness_40", source.RainModel, &k.Wetness[0].Y},
		{"wetness_65", source.RainModel, &k.Wetness[1].Y},
		{"wetness_75", source.RainModel, &k.Wetness[2].Y},
		{"rain_red_clover", source.RainModel, &k.RedClover},
		{"rain_grass", source.RainModel, &k.Grass},
	}
}

func ofTissue(k *Tissue) []coefficient {
	return []coefficient{
		{"leaf_ndf", source.LeafStem, &k.Leaf.NDF},
		{"leaf_cp", source.LeafStem, &k.Leaf.CP},
		{"stem_ndf", source.LeafStem, &k.Stem.NDF},
		{"stem_cp", source.LeafStem, &k.Stem.CP},
		{"leached_cp", source.LeafStem, &k.Leached.CP},
		{"leaf_share", source.LeafHalf, &k.LeafShare},
	}
}

func ofBreathing(k *Respiration) []coefficient {
	return []coefficient{
		{"respiration_dry", source.CuringLoss, &k.Dry},
		{"moisture_cut", source.RespirationRate, &k.Start},
		{"moisture_stop", source.RespirationRate, &k.Stop},
	}
}

// ofHandling names the columns of a table by moisture: raking_20, raking_leaves_20 and so on.
func ofHandling(name string, h *Handling) (list []coefficient) {
	for _, column := range []struct {
		name string
		line *Line
	}{{name, &h.Dry}, {name + "_leaves", &h.Leaves}} {
		own := append(Line{}, *column.line...)
		*column.line = own
		for i := range own {
			list = append(list, coefficient{fmt.Sprintf("%s_%g", column.name, own[i].X), source.MoistureTables, &own[i].Y})
		}
	}
	return list
}

func ofHarvest(k *Machines) []coefficient {
	list := []coefficient{
		{"mowing", source.MowingLoss, &k.Mowing.Mid},
		{"mowing_leaves", source.MowingLoss, &k.MowingLeaves},
		{"merging", source.MergingLoss, &k.Merging.Mid},
		{"chopping", source.ChoppingLoss, &k.Chopping.Mid},
		{"raking_usual", source.RakingLoss, &k.RakingTypical},
		{"raking_yield", source.RakingYield, &k.RakingYield},
		{"raking_least", source.RakingYield, &k.RakingLeast},
		{"raking_most", source.RakingYield, &k.RakingMost},
	}
	return append(append(list, ofHandling("raking", &k.Raking)...), ofHandling("baling", &k.Baling)...)
}

func ofModel(k *Model) [][]coefficient {
	return [][]coefficient{
		ofTissue(&k.Tissue), ofBreathing(&k.Respiration), ofRain(&k.Rain),
		{{"rain_leaf", source.RainModel, &k.Rain.LeafAlfalfa}}, ofHarvest(&k.Machines),
	}
}

func moistureInput(about string) method.Input {
	return method.Input{Key: "moisture", About: about + ", of fresh weight", Unit: percent, Accepted: method.Range{Low: 5, High: 80}}
}

func rainInput() method.Input {
	return method.Input{Key: "rain", About: "rain on the cut crop", Unit: depths, Accepted: method.Range{Low: 0, High: 200}, Tested: method.Range{Low: 0, High: 50}}
}

func rainLoss() *method.Method {
	k := PublishedRain()
	return &method.Method{
		Name: "rain-loss", Title: "Dry matter lost to rain on a cut crop",
		About: "What rain takes from a crop lying cut, by its depth and the crop's moisture. Trials differ six times over for the same rain, so look at the range: the low end is a heavy swath in a short shower, the high end light hay in long rain. " +
			"Respiration goes on beside it.",
		Inputs: []method.Input{
			rainInput(), moistureInput("moisture as the rain came"),
			{Key: "level", About: "which end of the trials loss_pct takes", Kind: method.Word, Choices: []string{"low", "mid", "high"}, Default: "mid"},
			{Key: "crop", About: "what lies cut", Kind: method.Word, Choices: Crops(), Default: string(Alfalfa)},
		},
		Outputs: []method.Output{
			{Key: "loss_pct", About: "dry matter lost, at the level asked", Unit: percent, Decimals: 1},
			{Key: "low", About: "the least that trials show", Unit: percent, Decimals: 1},
			{Key: "high", About: "the most that trials show", Unit: percent, Decimals: 1},
		},
		Constants: declare(ofRain(&k)),
		Sources:   []source.ID{source.RainModel, source.RainMichigan, source.RainWisconsin, source.RainUtah},
		Example:   "rain=18 moisture=50 crop=alfalfa",
		Run: func(c *method.Call) error {
			k := PublishedRain()
			take(c, ofRain(&k))
			l, err := k.Loss(c.Num("rain"), c.Num("moisture"), Crop(c.Word("crop")))
			if err != nil {
				return err
			}
			pct := l.Share.Percent()
			c.Answer("loss_pct", map[string]float64{"low": pct.Low, "mid": pct.Mid, "high": pct.High}[c.Word("level")])
			c.Answer("low", pct.Low)
			c.Answer("high", pct.High)
			c.Note("sources disagree on the loss to a mm of rain by a factor of six: use the range and not the one number")
			return nil
		},
	}
}

func respirationLoss() *method.Method {
	k := PublishedRespiration()
	breathing := func(k *Respiration) []coefficient {
		return []coefficient{
			{"per_hour", source.RespirationRate, &k.PerHour},
			{"at_temperature", source.RespirationRate, &k.AtC},
			{"doubling", source.RespirationRate, &k.Doubling},
			{"moisture_cut", source.RespirationRate, &k.Start},
			{"moisture_stop", source.RespirationRate, &k.Stop},
		}
	}
	return &method.Method{
		Name: "respiration-loss", Title: "Dry matter breathed away by a cut crop",
		About: "The rate at which a cut crop breathes its sugars away at a temperature and moisture, and what some hours of that take. It ends near 35 % moisture.",
		Inputs: []method.Input{
			{Key: "temp", About: "temperature of the air", Unit: unit.Must("C"), Accepted: method.Range{Low: -10, High: 50}, Tested: method.Range{Low: 0, High: 40}},
			moistureInput("moisture of the crop"),
			{Key: "hours", About: "hours that it stays so", Unit: unit.Must("h"), Accepted: method.Range{Low: 0, High: 240}, Default: "24"},
		},
		Outputs: []method.Output{
			{Key: "rate", About: "share of the dry matter lost in an hour", Decimals: 5},
			{Key: "loss_pct", About: "dry matter lost over the hours", Unit: percent, Decimals: 2},
		},
		Constants: declare(breathing(&k)),
		Sources:   []source.ID{source.RespirationRate},
		Example:   "temp=20 moisture=80 hours=24",
		Run: func(c *method.Call) error {
			k := PublishedRespiration()
			take(c, breathing(&k))
			rate := k.Rate(c.Num("temp"), c.Num("moisture")/100)
			c.Answer("rate", rate)
			left := 1.0
			for h := c.Num("hours"); h > 0; h-- {
				left *= 1 - rate*min(h, 1)
			}
			c.Answer("loss_pct", 100*(1-left))
			return nil
		},
	}
}
