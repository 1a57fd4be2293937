package forage

import (
	_ "embed"
	"math"

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
	return []*method.Method{
		rfv(), rfvError(), hayGrade(), rfq(), forageEnergy(), labCheck(), meanStage(), reducedLignin(),
		heatFibre(), mixTrigger(), qualityAhead(), cutStart(),
		combine(), predictionBias(), delayCost(),
	}
}

var (
	percentDM = unit.Must("%")
	points    = unit.Must("RFV")
)

func fibreInputs() []method.Input {
	return []method.Input{
		{Key: "adf", About: "acid detergent fibre, % of dry matter", Unit: percentDM, Accepted: method.Range{Low: 10, High: 60}, Tested: method.Range{Low: 18, High: 50}},
		{Key: "ndf", About: "neutral detergent fibre, % of dry matter", Unit: percentDM, Accepted: method.Range{Low: 18, High: 80}, Tested: method.Range{Low: 25, High: 70}},
	}
}

func feedValueConstants() []method.Constant {
	k := PublishedFeedValue()
	return []method.Constant{
		{Key: "ddm0", Value: k.DDM0, Unit: "%", Source: source.RFVFormula},
		{Key: "ddm_slope", Value: k.DDMSlope, Source: source.RFVFormula},
		{Key: "dmi0", Value: k.DMI0, Source: source.RFVFormula},
		{Key: "divisor", Value: k.Divisor, Source: source.RFVFormula},
	}
}

func feedValueOf(c *method.Call) FeedValue {
	return FeedValue{DDM0: c.K("ddm0"), DDMSlope: c.K("ddm_slope"), DMI0: c.K("dmi0"), Divisor: c.K("divisor")}
}

func rfv() *method.Method {
	return &method.Method{
		Name:  "rfv",
		Title: "Relative feed value",
		About: "Ranks hay and haylage of cool-season legumes and grasses by fibre; 100 is full-bloom alfalfa, about 150 dairy hay. " +
			"An index, not an intake, and not for corn silage.",
		Inputs: append(fibreInputs(), method.Input{
			Key: "scheme", About: "whose grades", Kind: method.Word, Choices: []string{"usda", "task-force"}, Default: "usda",
		}),
		Outputs: []method.Output{
			{Key: "ddm", About: "digestible dry matter, % of DM", Unit: percentDM, Decimals: 2},
			{Key: "dmi", About: "intake, % of body weight a day", Unit: percentDM, Decimals: 3},
			{Key: "rfv", About: "relative feed value", Unit: points, Decimals: 0},
			{Key: "grade", About: "grade by RFV"},
		},
		Constants: feedValueConstants(),
		Sources:   []source.ID{source.RFVFormula, source.HayGrades, source.TaskForce},
		Example:   "adf=30 ndf=40",
		Run: func(c *method.Call) error {
			adf, ndf := c.Num("adf"), c.Num("ndf")
			if err := CheckFibre(unit.PercentDM(adf), unit.PercentDM(ndf)); err != nil {
				return err
			}
			k := feedValueOf(c)
			v := k.Of(adf, ndf)
			c.Answer("ddm", k.DDM(adf))
			c.Answer("dmi", k.DMI(ndf))
			c.Answer("rfv", v)
			grade, note := Grade(Scheme(c.Word("scheme")), v)
			c.Answer("grade", grade)
			if note != "" {
				c.Note("%s", note)
			}
			return nil
		},
	}
}

func rfvError() *method.Method {
	return &method.Method{
		Name:  "rfv-error",
		Title: "Error of relative feed value",
		About: "How far relative feed value can be off when its two fibre values are off. " +
			"Two lots a good deal closer than this are no different.",
		Inputs: append(fibreInputs(),
			method.Input{Key: "sd_adf", About: "standard deviation of ADF, % of dry matter (of a laboratory value at least 1.0)", Unit: percentDM, Accepted: method.Range{Low: 0, High: 10}},
			method.Input{Key: "sd_ndf", About: "standard deviation of NDF, % of dry matter (of a laboratory value at least 1.5)", Unit: percentDM, Accepted: method.Range{Low: 0, High: 15}},
			method.Input{Key: "corr", About: "correlation of the two errors", Accepted: method.Range{Low: -1, High: 1}},
		),
		Outputs: []method.Output{
			{Key: "rfv", About: "relative feed value", Unit: points, Decimals: 0},
			{Key: "sd", About: "its standard deviation, to first order", Unit: points, Decimals: 1},
		},
		Constants: feedValueConstants(),
		Sources:   []source.ID{source.RFVFormula, source.RFVError},
		Example:   "adf=30 ndf=40 sd_adf=1 sd_ndf=1.5 corr=0.8",
		Run: func(c *method.Call) error {
			adf, ndf := c.Num("adf"), c.Num("ndf")
			if err := CheckFibre(unit.PercentDM(adf), unit.PercentDM(ndf)); err != nil {
				return err
			}
			k := feedValueOf(c)
			sd := k.Spread(adf, ndf, c.Num("sd_adf"), c.Num("sd_ndf"), c.Num("corr"))
			c.Answer("rfv", k.Of(adf, ndf))
			c.Answer("sd", sd)
			c.Note("two lots, each with this error, differ beyond chance only from %d points apart", Whole(differs*sd))
			return nil
		},
	}
}

// differs is how many standard deviations two values with the same error must lie apart for chance to
// explain it only once in 20 times: 1.96 times the root of 2.
const differs = 1.96 * math.Sqrt2
