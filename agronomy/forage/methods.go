package forage

import (
	_ "embed"

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
	return []*method.Method{rfv()}
}

var percentDM = unit.Must("%")

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
			{Key: "rfv", About: "relative feed value", Unit: unit.Must("RFV"), Decimals: 0},
			{Key: "grade", About: "grade by RFV"},
		},
		Constants: feedValueConstants(),
		Sources:   []source.ID{source.RFVFormula, source.HayGrades},
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
