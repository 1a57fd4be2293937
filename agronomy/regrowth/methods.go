package regrowth

import (
	_ "embed"
	"fmt"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

var (
	//go:embed proofs.csv
	proofs string
	//go:embed season.csv
	checkSeason string // a typical season of southern Wisconsin, latitude 43.1, rain 3 mm a day
	//go:embed steady.csv
	checkSteady string // forty days of 20 C and 20 MJ
)

// Proofs returns the printed answers that this discipline's methods must reproduce.
func Proofs() string { return proofs }

// Methods declares the calculations of this discipline.
func Methods() []*method.Method {
	return []*method.Method{bloomHeat(), cutInterval(), regrowthRun()}
}

// growths are the words for a growth, the year's first first.
var growths = []string{"spring", "second", "third"}

func bloomHeat() *method.Method {
	var constants []method.Constant
	for i, g := range growths {
		b := ToBloom(i + 1)
		constants = append(constants,
			method.Constant{Key: g + "_base", Value: b.BaseC, Unit: "C", Source: source.BloomHeat},
			method.Constant{Key: g + "_heat", Value: b.CDays, Unit: "C-days", Source: source.BloomHeat})
	}
	return &method.Method{
		Name:  "bloom-heat",
		Title: "Days to one-tenth bloom",
		About: "How many days a growth of alfalfa takes to one-tenth bloom at a steady mean temperature, by the heat of eleven station-years in Minnesota. " +
			"Each later growth counts from a warmer base. Third stands for every later growth too.",
		Inputs: []method.Input{
			{Key: "growth", About: "growth of the year", Kind: method.Word, Choices: growths},
			{Key: "tmean", About: "mean temperature of the growth", Unit: unit.Must("C"), Accepted: method.Range{Low: -10, High: 40}, Tested: method.Range{Low: 8, High: 26}},
		},
		Outputs:   []method.Output{{Key: "days", About: "days from the start of growth to one-tenth bloom", Unit: unit.Must("days"), Decimals: 0}},
		Constants: constants,
		Sources:   []source.ID{source.BloomHeat},
		Example:   "growth=second tmean=20",
		Run: func(c *method.Call) error {
			g := c.Word("growth")
			b := Bloom{BaseC: c.K(g + "_base"), CDays: c.K(g + "_heat")}
			if tmean := c.Num("tmean"); tmean <= b.BaseC {
				return fmt.Errorf("tmean %g C is not over %g C, the base of the %s growth: it never blooms; give a warmer mean", tmean, b.BaseC, g)
			}
			c.Answer("days", b.Days(c.Num("tmean")))
			return nil
		},
	}
}
