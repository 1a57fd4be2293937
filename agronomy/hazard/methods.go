package hazard

import (
	_ "embed"
	"fmt"

	"haywarden/agronomy/caution"
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
	return []*method.Method{nitrate(), nitrateForm(), nitrateBlend(), blisterBeetles()}
}

func warned(c *method.Call, t caution.Told) {
	_, cautions := t.Say()
	for _, k := range cautions {
		c.Note("%s", string(k))
	}
}

func nitrate() *method.Method {
	l := PublishedLimits()
	ppm := func(key string, v float64) method.Constant {
		return method.Constant{Key: key, Value: v, Unit: "ppm NO3-N", Source: source.NitrateLimits}
	}
	return &method.Method{
		Name:  "nitrate",
		Title: "Nitrate in forage by class of animal",
		About: "What a laboratory's nitrate, as nitrate nitrogen in dry matter, allows a class of animal. Laboratories report three forms: ask which, a value read in the wrong one is four to seven times off.",
		Inputs: []method.Input{
			{Key: "ppm_n", About: "nitrate nitrogen, ppm of dry matter", Accepted: method.Range{Low: 0, High: 1e5}, Tested: method.Range{Low: 0, High: 20000}},
			{Key: "animal", About: "class of animal", Kind: method.Word, Choices: []string{string(Pregnant), string(Open)}, Default: string(Pregnant)},
		},
		Outputs:   []method.Output{{Key: "class", About: "what is allowed"}, {Key: "limit", About: "most of the ration's dry matter", Unit: unit.Must("%"), Decimals: 0}},
		Constants: []method.Constant{ppm("careful", l.Careful), ppm("half", l.Half), ppm("third", l.Third), ppm("quarter", l.Quarter), ppm("never", l.Never)},
		Sources:   []source.ID{source.NitrateLimits, source.NitrateForms, source.NitrateUnits},
		Example:   "ppm_n=1200 animal=pregnant",
		Run: func(c *method.Call) error {
			got, err := Limits{c.K("careful"), c.K("half"), c.K("third"), c.K("quarter"), c.K("never")}.Judge(c.Num("ppm_n"), Animal(c.Word("animal")))
			if err != nil {
				return err
			}
			c.Answer("class", got.Class)
			c.Answer("limit", got.Share)
			warned(c, TellNitrate(got.Class))
			return nil
		},
	}
}

func nitrateForm() *method.Method {
	k := PublishedFactors()
	return &method.Method{
		Name:  "nitrate-form",
		Title: "Nitrate as a laboratory reports it, as nitrate nitrogen",
		About: "Turns nitrate ion or potassium nitrate into nitrate nitrogen, and % into ppm.",
		Inputs: []method.Input{
			{Key: "value", About: "as reported, in dry matter", Accepted: method.Range{Low: 0, High: 1e6}},
			{Key: "form", About: "what was reported", Kind: method.Word, Choices: []string{string(Nitrogen), string(Ion), string(Salt)}},
			{Key: "in", About: "unit of the value", Kind: method.Word, Choices: []string{"ppm", "percent"}, Default: "ppm"},
		},
		Outputs: []method.Output{{Key: "ppm_n", About: "nitrate nitrogen, ppm of dry matter", Decimals: 0}},
		Constants: []method.Constant{
			{Key: "ion", Value: k.Ion, Source: source.NitrateForms}, {Key: "salt", Value: k.Salt, Source: source.NitrateForms},
		},
		Sources: []source.ID{source.NitrateForms, source.NitrateUnits},
		Example: "value=0.44 form=no3 in=percent",
		Run: func(c *method.Call) error {
			v := c.Num("value")
			if c.Word("in") == "percent" {
				if v > 100 {
					return fmt.Errorf("value %g %%: 100 at most", v)
				}
				v *= 1e4
			}
			n, err := Factors{c.K("ion"), c.K("salt")}.Nitrogen(v, Form(c.Word("form")))
			if err != nil {
				return err
			}
			c.Answer("ppm_n", n)
			warned(c, TellNitrate(""))
			return nil
		},
	}
}

func nitrateBlend() *method.Method {
	in := func(key, about string) method.Input {
		return method.Input{Key: key, About: about + ", nitrate nitrogen, ppm of dry matter", Accepted: method.Range{Low: 0, High: 1e5}}
	}
	return &method.Method{
		Name:    "nitrate-blend",
		Title:   "Share of a feed with nitrate that keeps a ration at a limit",
		About:   "How much of a feed may go beside another, by dry matter, so that the mix stays at a limit. Mixed on paper is not mixed in the bunk: an animal that sorts gets more.",
		Inputs:  []method.Input{in("a", "the feed"), in("b", "what it is mixed with"), in("limit", "wanted of the mix")},
		Outputs: []method.Output{{Key: "share", About: "of the mix's dry matter, 0 to 1", Decimals: 3}},
		Sources: []source.ID{source.NitrateLimits},
		Example: "a=2800 b=0 limit=1000",
		Run: func(c *method.Call) error {
			share, ok := Blend(c.Num("a"), c.Num("b"), c.Num("limit"))
			if !ok {
				return fmt.Errorf("b %g is over limit %g by itself: no mix with it comes down to the limit", c.Num("b"), c.Num("limit"))
			}
			c.Answer("share", share)
			warned(c, TellNitrate(""))
			return nil
		},
	}
}

func blisterBeetles() *method.Method {
	return &method.Method{
		Name:  "blister-beetles",
		Title: "How few blister beetles can kill a horse",
		About: "Beetles that hold a dose of cantharidin which was deadly. Hay for horses bears none: this says why, and allows nothing.",
		Inputs: []method.Input{
			{Key: "weight", About: "of the horse", Unit: unit.Must("kg"), Accepted: method.Range{Low: 50, High: 1500}, Tested: method.Range{Low: 200, High: 900}, Default: "500"},
			{Key: "dose", About: "mg a kg that was deadly; 0.45 to 1 are printed", Accepted: method.Range{Low: 0.1, High: 5}, Tested: method.Range{Low: 0.45, High: 1}, Default: "0.45"},
			{Key: "content", About: "mg a beetle; 4 to 11 are printed", Accepted: method.Range{Low: 0.01, High: 20}, Tested: method.Range{Low: 4, High: 11.13}, Default: "11.13"},
		},
		Outputs: []method.Output{{Key: "beetles", About: "that hold such a dose", Decimals: 0}},
		Sources: []source.ID{source.BlisterBeetles},
		Example: "weight=500",
		Run: func(c *method.Call) error {
			c.Answer("beetles", Beetles(c.Num("weight"), c.Num("dose"), c.Num("content")))
			warned(c, TellHorse(""))
			return nil
		},
	}
}
