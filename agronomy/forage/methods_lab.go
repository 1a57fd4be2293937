package forage

import (
	"fmt"
	"math"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

// otherCodes are second names under which lab-check takes a field.
var otherCodes = map[string]string{"andf": "ndf", "adl": "lignin"}

func labInputs() []method.Input {
	inputs := []method.Input{
		{Key: "basis", About: "what the shares are of", Kind: method.Word, Choices: []string{"dm", "as-fed"}, Default: "dm"},
		{Key: "crop", About: "what the sample is said to be of", Kind: method.Word, Choices: []string{"alfalfa", "red-clover", "mixture", "grass"}, Optional: true},
	}
	for _, f := range LabFields() {
		in := method.Input{Key: f.Code, About: fmt.Sprintf("%s, %s", f.About, f.Of), Optional: true}
		switch f.Of {
		case NoneOfAll:
			in.Accepted = method.Range{Low: 0, High: 1000}
		case EnergyDM:
			in.Unit, in.Accepted = unit.Must("Mcal/kg"), method.Range{Low: -5, High: 10}
		default:
			in.Unit, in.Accepted = percentDM, method.Range{Low: 0, High: 100}
		}
		inputs = append(inputs, in)
	}
	for _, also := range []string{"andf", "adl"} {
		in := method.Input{Key: also, About: "another name of " + otherCodes[also], Unit: percentDM, Accepted: method.Range{Low: 0, High: 100}, Optional: true}
		inputs = append(inputs, in)
	}
	return inputs
}

func labCheck() *method.Method {
	return &method.Method{
		Name:  "lab-check",
		Title: "Is a laboratory report plausible",
		About: "Holds the numbers of a forage report against each other and against what forages have. " +
			"An error cannot be true; a warning is unlikely, or tells of soil, heat or grass. Not a judgment of the laboratory.",
		Inputs:  labInputs(),
		Outputs: []method.Output{{Key: "flags", About: "level and message of each"}},
		Sources: []source.ID{source.LabLimits, source.LabChecks, source.LabRatios, source.LabUsual, source.AshInForage, source.RFVFormula, source.RFQNutrients},
		Example: "crop=alfalfa cp=20 adf=30 ndf=40 ash=13",
		Run:     runLabCheck,
	}
}

func runLabCheck(c *method.Call) error {
	r := Report{}
	for _, f := range LabFields() {
		if c.Given(f.Code) {
			r[f.Code] = c.Num(f.Code)
		}
	}
	for also, code := range otherCodes {
		if !c.Given(also) {
			continue
		}
		if c.Given(code) && c.Num(code) != c.Num(also) {
			return fmt.Errorf("%s %g and %s %g are the same thing: give one", code, c.Num(code), also, c.Num(also))
		}
		r[code] = c.Num(also)
	}
	if len(r) == 0 {
		return fmt.Errorf("no value is given: want at least one, such as cp, adf or ndf")
	}
	if dm, ok := r["dm"]; ok && c.Given("moisture") && math.Abs(dm+r["moisture"]-100) > 0.5 {
		return fmt.Errorf("dm %g and moisture %g do not add up to 100", dm, r["moisture"])
	}
	if c.Word("basis") == "as-fed" {
		dry, err := r.FromFeed()
		if err != nil {
			return err
		}
		r = dry
		dm, _ := r.DM()
		c.Note("shares of the feed were divided by its dry matter, %.4g %%", dm)
	}
	kind := CropKind(c.Word("crop"))
	if kind == "red-clover" {
		kind = CloverKind
	}
	flags := []string{}
	for _, f := range CheckReport(r, kind) {
		flags = append(flags, f.String())
	}
	c.Answer("flags", flags)
	if len(flags) == 0 {
		c.Note("no check speaks against these values")
	}
	if kind == "" {
		c.Note("crop is not said: its usual proportions were not looked at")
	}
	for _, f := range LabFields() {
		if v, ok := r[f.Code]; ok && f.UsualHigh > 0 && (v < f.UsualLow || v > f.UsualHigh) {
			c.Note("%s %.4g lies outside %g-%g, usual of legumes", f.Code, v, f.UsualLow, f.UsualHigh)
		}
	}
	return nil
}
