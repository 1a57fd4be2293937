package forage

import (
	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
)

// leastStems is how many stems a mean stage should rest on, from 5-6 spots.
const leastStems = 40

func meanStage() *method.Method {
	k := PublishedStageQuality()
	c := func(key string, v float64, id source.ID) method.Constant {
		return method.Constant{Key: key, Value: v, Source: id}
	}
	amounts := func(key, about string) method.Input {
		return method.Input{Key: key, About: about, Kind: method.Numbers, Accepted: method.Range{Low: 0, High: 100000}}
	}
	return &method.Method{
		Name:  "mean-stage",
		Title: "Mean stage of alfalfa stems",
		About: "How far a stand has come, from stems sorted by stage: 0-2 vegetative, 3-4 bud, 5-6 flower, 7-9 seed pod. " +
			"At least 40 stems from 5-6 spots. With protein and digestibility by stage, from one season in New York.",
		Inputs: []method.Input{
			amounts("counts", "stems at stage 0, 1, 2 ... 9; later ones may be left out"),
			maybe(amounts("weights", "dry weight of the stems at stage 0, 1, 2 ... in any unit of mass")),
		},
		Outputs: []method.Output{
			{Key: "msc", About: "mean stage by count", Decimals: 2},
			{Key: "msw", About: "mean stage by weight", Decimals: 2},
			{Key: "ivtd", About: "true digestibility in the laboratory, % of DM", Unit: percentDM, Decimals: 1},
			{Key: "cp", About: "crude protein, % of DM", Unit: percentDM, Decimals: 1},
		},
		Constants: []method.Constant{
			c("ivtd0", k.IVTD0, source.StageQuality), c("ivtd_slope", k.IVTDSlope, source.StageQuality),
			c("cp0", k.CP0, source.StageQuality), c("cp_slope", k.CPSlope, source.StageQuality), c("cp_curve", k.CPCurve, source.StageQuality),
			c("by_count0", k.ByCount0, source.StageByCount), c("by_count", k.ByCount, source.StageByCount),
		},
		Sources: []source.ID{source.StemStages, source.StageQuality, source.StageByCount},
		Example: "counts=0,5,20,10,4,1",
		Run: func(c *method.Call) error {
			k := StageQuality{
				IVTD0: c.K("ivtd0"), IVTDSlope: c.K("ivtd_slope"), CP0: c.K("cp0"), CPSlope: c.K("cp_slope"), CPCurve: c.K("cp_curve"),
				ByCount0: c.K("by_count0"), ByCount: c.K("by_count"),
			}
			msc, err := MeanStage(c.List("counts"))
			if err != nil {
				return err
			}
			msw := k.ByStems(msc)
			if c.Given("weights") {
				if msw, err = MeanStage(c.List("weights")); err != nil {
					return err
				}
			} else {
				c.Note("stems were not weighed: the mean stage by weight is taken from that by count, a line recalled and not read")
			}
			ivtd, cp := k.At(msw)
			c.Answer("msc", msc)
			c.Answer("msw", msw)
			c.Answer("ivtd", ivtd)
			c.Answer("cp", cp)
			if msw < leastMSW || msw > mostMSW {
				c.Note("protein and digestibility are those of stage %g: beyond it nothing was fitted", min(max(msw, leastMSW), mostMSW))
			}
			stems := 0.
			for _, n := range c.List("counts") {
				stems += n
			}
			if stems < leastStems {
				c.Note("%g stems: want at least %d from 5-6 spots", stems, leastStems)
			}
			c.Note("protein and digestibility by stage: one New York season, 11 samples; other years lay beside it")
			return nil
		},
	}
}
