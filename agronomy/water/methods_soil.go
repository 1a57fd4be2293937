package water

import (
	"fmt"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

func ofDepletion(d *Depletion) []coefficient {
	return []coefficient{
		{"p_slope", "d/mm", &d.Slope},
		{"p_reference", "mm/d", &d.Reference},
		{"p_low", "", &d.Low},
		{"p_high", "", &d.High},
	}
}

func soilWater() *method.Method {
	d := FAODepletion()
	amounts := func(key, about string, high float64) method.Input {
		return method.Input{Key: key, About: about, Kind: method.Numbers, Unit: depth, Accepted: method.Range{Low: 0, High: high}}
	}
	return &method.Method{
		Name: "soil-water", Title: "Water in the root zone, day by day",
		About: "Carries a root zone from day to day: rain fills it, the crop empties it, and what it cannot hold drains. " +
			"Give rain less what runs off; it is drunk from the next day on. Alfalfa takes up 0.55 of the water freely, clover 0.50; a silt loam holds 130 to 190 mm in a metre of roots.",
		Inputs: []method.Input{
			{Key: "taw", About: "water the root zone holds between field capacity and wilting point", Unit: depth, Accepted: method.Range{Low: 1, High: 1000}, Tested: method.Range{Low: 30, High: 400}},
			{Key: "depletion", About: "water lacking to field capacity before the first day", Unit: depth, Accepted: method.Range{Low: 0, High: 1000}},
			{Key: "p", About: "share of taw that is taken up freely on a day of 5 mm; it shrinks as the day asks for more", Accepted: method.Range{Low: 0.05, High: 0.95}, Tested: method.Range{Low: 0.2, High: 0.8}},
			amounts("eto", "reference evapotranspiration of each day", 30),
			amounts("rain", "rain of each day, and irrigation, less what runs off", 1000),
			{Key: "kc", About: "crop coefficient of each day; alfalfa 0.4 after a cut to 1.2 at full cover", Kind: method.Numbers, Accepted: method.Range{Low: 0, High: 2}},
		},
		Outputs: []method.Output{
			{Key: "depletion", About: "water lacking at the end of each day", Unit: depth, Decimals: 2},
			{Key: "ks", About: "what stress left of the crop's use on each day, 1 being all", Decimals: 3},
			{Key: "drainage", About: "water lost below the roots on each day", Unit: depth, Decimals: 2},
		},
		Constants: declare(source.SoilWater, ofDepletion(&d)),
		Sources:   []source.ID{source.SoilWater, source.CropWater, source.SoilTexture},
		Example:   "taw=168 depletion=80 p=0.55 eto=5.5,6,5 rain=0,0,22 kc=1.15,1.15,1.15",
		Run:       runSoilWater,
	}
}

func runSoilWater(c *method.Call) error {
	eto, rain, kc := c.List("eto"), c.List("rain"), c.List("kc")
	if len(rain) != len(eto) || len(kc) != len(eto) {
		return fmt.Errorf("eto has %d days, rain %d and kc %d: accepted lists of one length", len(eto), len(rain), len(kc))
	}
	b := Bucket{TAWmm: c.Num("taw"), P: c.Num("p")}
	take(c, ofDepletion(&b.Depletion))
	days := make([]Water, len(eto))
	for i := range days {
		days[i] = Water{ETo: unit.Millimetre(eto[i]), Kc: kc[i], Rain: unit.Millimetre(rain[i])}
	}
	moved, err := b.Run(unit.Millimetre(c.Num("depletion")), days)
	if err != nil {
		return err
	}
	depletion, ks, drainage := make([]float64, len(days)), make([]float64, len(days)), make([]float64, len(days))
	for i, m := range moved {
		depletion[i], ks[i], drainage[i] = float64(m.Depletion), m.Ks, float64(m.Drained)
	}
	c.Answer("depletion", depletion)
	c.Answer("ks", ks)
	c.Answer("drainage", drainage)
	return nil
}
