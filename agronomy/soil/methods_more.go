package soil

import (
	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

// sourTest is the water pH up to which the exchange capacity is estimated as it is here.
const sourTest = 6.4

func capacity() *method.Method {
	k, lb := PublishedCapacity(), unit.Must("lb/ac")
	return &method.Method{
		Name: "cec", Title: "Exchange capacity of a soil",
		About: "Estimates the exchange capacity from a soil test's potassium, magnesium and calcium, and the acidity by its buffer. It is stated for a water pH up to 6.4; over it lime in the soil counts as if it were held.",
		Inputs: []method.Input{
			{Key: "k", About: "potassium of the test", Unit: lb, Accepted: method.Range{Low: 10, High: 3000}, Tested: method.Range{Low: 100, High: 1000}},
			{Key: "mg", About: "magnesium of the test", Unit: lb, Accepted: method.Range{Low: 10, High: 6000}, Tested: method.Range{Low: 100, High: 1600}},
			{Key: "ca", About: "calcium of the test", Unit: lb, Accepted: method.Range{Low: 50, High: 30000}, Tested: method.Range{Low: 800, High: 9000}},
			{Key: "buffer", About: "buffer pH, SMP or Sikora", Accepted: method.Range{Low: 4.5, High: 8}, Tested: method.Range{Low: 5.8, High: 7.2}},
			{Key: "ph", About: "water pH, which decides whether the estimate holds", Accepted: method.Range{Low: 3, High: 9}, Optional: true},
		},
		Outputs: []method.Output{{Key: "cec", About: "exchange capacity", Unit: unit.Must("meq/100g"), Decimals: 1}},
		Constants: []method.Constant{
			{Key: "k_meq", Value: k.K, Unit: "lb/ac", Source: source.SoilCEC}, {Key: "mg_meq", Value: k.Mg, Unit: "lb/ac", Source: source.SoilCEC},
			{Key: "ca_meq", Value: k.Ca, Unit: "lb/ac", Source: source.SoilCEC}, {Key: "acid_meq", Value: k.Acid, Unit: "meq a unit of buffer pH", Source: source.SoilCEC},
		},
		Sources: []source.ID{source.SoilCEC},
		Example: "k=240 mg=400 ca=3200 buffer=6.7",
		Run: func(c *method.Call) error {
			if c.Given("ph") && c.Num("ph") > sourTest {
				c.Note("at pH %g over %g the cations count too much: take the laboratory's own figure", c.Num("ph"), sourTest)
			}
			k := Capacity{K: c.K("k_meq"), Mg: c.K("mg_meq"), Ca: c.K("ca_meq"), Acid: c.K("acid_meq")}
			c.Answer("cec", float64(k.Of(unit.PoundAcre(c.Num("k")), unit.PoundAcre(c.Num("mg")), unit.PoundAcre(c.Num("ca")), c.Num("buffer"))))
			return nil
		},
	}
}

func extractant() *method.Method {
	x, ppm := PublishedExtraction(), unit.Must("ppm")
	return &method.Method{
		Name: "extractant", Title: "A soil test by another extractant",
		About: "Turns a test of phosphorus by Bray P1, or of potassium by ammonium acetate, into what Mehlich 3 would find, or back. The factors are means of many soils: a single soil may lie off them. Olsen is never turned.",
		Inputs: []method.Input{
			{Key: "nutrient", About: "which", Kind: method.Word, Choices: []string{"phosphorus", "potassium"}},
			{Key: "from", About: "extractant of the test: university is Bray P1 of phosphorus and ammonium acetate of potassium", Kind: method.Word, Choices: []string{"university", "mehlich3"}},
			{Key: "test", About: "what it found", Unit: ppm, Accepted: method.Range{Low: 0, High: 1200}, Tested: method.Range{Low: 5, High: 300}},
		},
		Outputs: []method.Output{
			{Key: "other", About: "what the other extractant would find", Unit: ppm, Decimals: 1},
			{Key: "by_lab", About: "the same by a commercial laboratory's factor", Unit: ppm, Decimals: 1, When: "from mehlich3"},
		},
		Constants: []method.Constant{
			{Key: "m3_per_bray", Value: x.M3PerBray, Source: source.SoilExtractants}, {Key: "m3_per_acetate", Value: x.M3PerAcetate, Source: source.SoilExtractants},
			{Key: "bray_per_m3", Value: x.BrayPerM3, Source: source.SoilExtractLab}, {Key: "acetate_per_m3", Value: x.AcetatePerM3, Source: source.SoilExtractLab},
		},
		Sources: []source.ID{source.SoilExtractants, source.SoilExtractLab},
		Example: "nutrient=phosphorus from=university test=20",
		Run: func(c *method.Call) error {
			x := Extraction{M3PerBray: c.K("m3_per_bray"), M3PerAcetate: c.K("m3_per_acetate"), BrayPerM3: c.K("bray_per_m3"), AcetatePerM3: c.K("acetate_per_m3")}
			v := c.Num("test")
			phosphorus, university := c.Word("nutrient") == "phosphorus", c.Word("from") == "university"
			switch {
			case phosphorus && university:
				c.Answer("other", float64(x.Mehlich3P(unit.PPMBray(v))))
			case university:
				c.Answer("other", float64(x.Mehlich3K(unit.PPMAcetate(v))))
			case phosphorus:
				c.Answer("other", float64(x.Bray(unit.PPMM3P(v))))
				c.Answer("by_lab", x.BrayPerM3*v)
			default:
				c.Answer("other", float64(x.Acetate(unit.PPMM3K(v))))
				c.Answer("by_lab", x.AcetatePerM3*v)
			}
			if !university {
				c.Note("the two factors are disputed: take the one of the laboratory that tested, and say which")
			}
			return nil
		},
	}
}

func buildUp() *method.Method {
	lb := unit.Must("lb/ac")
	return &method.Method{
		Name: "build-up", Title: "A guide followed for years",
		About: "What a guide gives each year while the test moves as the guide says it does: build-up, then removal. Only guides that print what moves a test have an answer. It is an estimate: only a new test tells.",
		Inputs: []method.Input{
			{Key: "guide", About: "whose table", Kind: method.Word, Choices: []string{string(Illinois), string(TriState2020), string(TriState1995)}},
			{Key: "p", About: "phosphorus test", Unit: unit.Must("ppm"), Accepted: method.Range{Low: 0, High: 300}, Tested: method.Range{Low: 2, High: 150}},
			{Key: "k", About: "potassium test", Unit: unit.Must("ppm"), Accepted: method.Range{Low: 0, High: 1000}, Tested: method.Range{Low: 30, High: 400}},
			{Key: "extractant", About: "of both: bray goes with ammonium acetate of potassium", Kind: method.Word, Choices: []string{"bray", "mehlich3"}},
			{Key: "cec", About: "exchange capacity", Unit: unit.Must("meq/100g"), Accepted: method.Range{Low: 1, High: 60}},
			{Key: "yield", About: "yield goal, dry matter", Unit: unit.Must("tons/ac"), Accepted: method.Range{Low: 0.1, High: 15}, Tested: method.Range{Low: 1, High: 8}},
			{Key: "region", About: "phosphorus supply of the subsoil, for illinois", Kind: method.Word, Choices: []string{string(HighSupply), string(MediumSupply), string(LowSupply)}, Default: string(MediumSupply)},
			{Key: "years", About: "how many", Accepted: method.Range{Low: 1, High: 12}, Default: "4"},
		},
		Outputs: []method.Output{
			{Key: "p2o5", About: "phosphate to spread, by year", Unit: lb, Decimals: 0}, {Key: "k2o", About: "potash to spread, by year", Unit: lb, Decimals: 0},
			{Key: "p_after", About: "phosphorus at each year's end, by the guide's extractant", Unit: unit.Must("ppm"), Decimals: 1},
			{Key: "k_after", About: "potassium at each year's end, by the guide's extractant", Unit: unit.Must("ppm"), Decimals: 1},
		},
		Sources: []source.ID{source.SoilIllinois, source.SoilTriState2020, source.SoilTriStateRest, source.SoilTriState1995, source.SoilTriStateOld, source.SoilExtractants},
		Example: "guide=tri-state-2020 p=18 k=85 extractant=mehlich3 cec=12 yield=4",
		Run: func(c *method.Call) error {
			f := Fertility{Crop: Alfalfa, CEC: unit.MeqSoil(c.Num("cec")), Yield: unit.TonAcre(c.Num("yield")), Region: Region(c.Word("region"))}
			bray, acetate, m3p, m3k := unit.PPMBray(c.Num("p")), unit.PPMAcetate(c.Num("k")), unit.PPMM3P(c.Num("p")), unit.PPMM3K(c.Num("k"))
			if f.P.Bray, f.K.Acetate = &bray, &acetate; c.Word("extractant") == "mehlich3" {
				f.P, f.K = Phosphorus{Mehlich3: &m3p}, Potassium{Mehlich3: &m3k}
			}
			plan, err := PublishedFertilityTables().Plan(FertilityGuide(c.Word("guide")), f, PublishedExtraction(), int(c.Num("years")))
			if err != nil {
				return err
			}
			var p2o5, k2o, p, k []float64
			for _, y := range plan {
				p2o5, k2o, p, k = append(p2o5, float64(y.P2O5)), append(k2o, float64(y.K2O)), append(p, y.P), append(k, y.K)
			}
			c.Answer("p2o5", p2o5)
			c.Answer("k2o", k2o)
			c.Answer("p_after", p)
			c.Answer("k_after", k)
			return nil
		},
	}
}
