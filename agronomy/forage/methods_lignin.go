package forage

import (
	"fmt"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

func reducedLignin() *method.Method {
	k, u := PublishedLowLignin(), UsualLegume()
	c := func(key string, v float64, id source.ID) method.Constant {
		return method.Constant{Key: key, Value: v, Source: id}
	}
	return &method.Method{
		Name:  "reduced-lignin",
		Title: "What a reduced-lignin alfalfa brings",
		About: "Lignin and fibre digestibility of the same cut from a reduced-lignin variety, and how many days later in the first growth it could be cut at equal forage quality. " +
			"RFV cannot see the trait.",
		Inputs: []method.Input{
			ndfdInput(),
			share("lignin", "acid detergent lignin of the plain variety, % of dry matter", 1, 16, 3, 12),
			share("ndf", "neutral detergent fibre of both, % of dry matter", 18, 65, 30, 55),
		},
		Outputs: []method.Output{
			{Key: "ndfd48", About: "NDF digested in 48 hours, % of NDF", Unit: percentDM, Decimals: 1},
			{Key: "lignin", About: "lignin, % of DM", Unit: percentDM, Decimals: 2},
			{Key: "days_at_equal_quality", About: "days of delay at equal RFQ, first growth", Unit: unit.Must("days"), Decimals: 1},
		},
		Constants: []method.Constant{
			c("lignin_factor", k.Lignin, source.ReducedLigninFactors), c("ndfd_factor", k.NDFD, source.ReducedLigninFactors),
			c("usual_cp", u.CP, source.UsualLegume), c("usual_ee", u.EE, source.UsualLegume), c("usual_ash", u.Ash, source.UsualLegume),
		},
		Sources: []source.ID{source.ReducedLigninFactors, source.ReducedLignin, source.UsualLegume, source.DailyRates, source.RFQFormula, source.RFQNutrients, source.RFQLegumeIntake},
		Example: "ndfd48=45 lignin=7 ndf=40",
		Run: func(c *method.Call) error {
			plain := Sample{NDF: c.Num("ndf"), Lignin: c.Num("lignin"), NDFD48: c.Num("ndfd48"), CP: c.K("usual_cp"), EE: c.K("usual_ee"), Ash: c.K("usual_ash")}
			plain.NDICP = BoundShare * plain.NDF
			if plain.Lignin >= plain.NDF {
				return fmt.Errorf("lignin %g is not under NDF %g, of which it is a part", plain.Lignin, plain.NDF)
			}
			k := LowLignin{Lignin: c.K("lignin_factor"), NDFD: c.K("ndfd_factor")}
			better, q := k.Of(plain), PublishedForageQuality()
			days := DaysAtEqualQuality(q, plain, better, DailyRates(Spring))
			gain := q.OfLegume(better).RFQ - q.OfLegume(plain).RFQ
			c.Answer("ndfd48", better.NDFD48)
			c.Answer("lignin", better.Lignin)
			c.Answer("days_at_equal_quality", days)
			c.Note("RFQ gains %.1f with %g %% protein, %g %% fat and %g %% ash taken as usual; at 3 points a day, as in later cuts, that is %.1f days", gain, plain.CP, plain.EE, plain.Ash, gain/3)
			c.Note("trials found lignin 5-20 %% lower and digestibility 3-15 %% higher, by variety; a Minnesota trial cut 5 days later at 3 %% less RFQ and 21 %% more forage")
			c.Note("7-10 days at equal quality is a claim of the seed trade, from memory; no trial supports more than about 5")
			return nil
		},
	}
}
