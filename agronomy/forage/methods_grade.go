package forage

import (
	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

func hayGrade() *method.Method {
	k := PublishedHayTDN()
	return &method.Method{
		Name:  "hay-grade",
		Title: "Grade of hay under each scheme",
		About: "The grade of alfalfa hay by relative feed value under every scheme in print, and by the worst of all columns where a scheme has more, each with its scheme's name: one word means other limits in another scheme. " +
			"Grass hay is graded by protein. Looks, smell and weeds are not in it.",
		Inputs: append(fibreInputs(), maybe(cpInput())),
		Outputs: []method.Output{
			{Key: "rfv", About: "relative feed value", Unit: points, Decimals: 0},
			{Key: "tdn", About: "western TDN by ADF alone, % of DM", Unit: percentDM, Decimals: 1},
			{Key: "usda", About: "USDA-AMS, alfalfa of at most 10 % grass, by RFV"},
			{Key: "usda_columns", About: "the same by its worst column"},
			{Key: "task_force", About: "hay marketing task force, legume or grass, by RFV"},
			{Key: "task_force_columns", About: "the same by its worst column"},
			{Key: "illinois", About: "Illinois Dept of Agriculture, by RFV"},
			{Key: "grass", About: "USDA-AMS grass hay, by protein", When: "with cp"},
		},
		Constants: []method.Constant{{Key: "tdn0", Value: k.TDN0, Source: source.WesternTDN}, {Key: "tdn_slope", Value: k.Slope, Source: source.WesternTDN}},
		Sources:   []source.ID{source.RFVFormula, source.HayGrades, source.TaskForce, source.TaskForceColumns, source.HayGradesIllinois, source.GrassHayGrades, source.WesternTDN, source.WesternTDNRead},
		Example:   "adf=28 ndf=35 cp=21",
		Run: func(c *method.Call) error {
			adf, ndf, cp := c.Num("adf"), c.Num("ndf"), c.Num("cp")
			if err := CheckFibre(unit.PercentDM(adf), unit.PercentDM(ndf)); err != nil {
				return err
			}
			rfv := PublishedFeedValue().Of(adf, ndf)
			c.Answer("rfv", rfv)
			c.Answer("tdn", HayTDN{c.K("tdn0"), c.K("tdn_slope")}.Of(adf))
			usda, _ := Grade(USDA, rfv)
			force, note := Grade(TaskForce, rfv)
			illinois, _ := Grade(Illinois, rfv)
			c.Answer("usda", usda)
			c.Answer("usda_columns", GradeByColumns(USDA, adf, ndf, cp))
			c.Answer("task_force", force)
			c.Answer("task_force_columns", GradeByColumns(TaskForce, adf, ndf, cp))
			c.Answer("illinois", illinois)
			if c.Given("cp") {
				c.Answer("grass", GrassGrade(cp))
			}
			if note != "" {
				c.Note("%s", note)
			}
			c.Note("limits of the task force for ADF, NDF and protein are from memory")
			c.Note("a value on an edge takes the better grade, a choice; columns may disagree, as TDN knows ADF alone and RFV knows ADF and NDF")
			return nil
		},
	}
}
