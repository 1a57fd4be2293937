package forage

import (
	"errors"
	"fmt"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
)

// The kinds of forage by which equations are chosen.
const (
	legumeKind = "legume"
	grassKind  = "grass"
	mixKind    = "mix"
)

func share(key, about string, low, high, testedLow, testedHigh float64) method.Input {
	return method.Input{Key: key, About: about, Unit: percentDM, Accepted: method.Range{Low: low, High: high}, Tested: method.Range{Low: testedLow, High: testedHigh}}
}

func maybe(in method.Input) method.Input {
	in.Optional = true
	return in
}

func cpInput() method.Input { return share("cp", "crude protein, % of dry matter", 4, 35, 5, 30) }
func ndfInput() method.Input {
	return share("ndf", "neutral detergent fibre, % of dry matter", 18, 80, 25, 70)
}
func eeInput() method.Input {
	return share("ee", "ether extract (crude fat), % of dry matter", 0.3, 8, 1, 5)
}
func ashInput() method.Input { return share("ash", "ash, % of dry matter", 3, 30, 5, 15) }
func ndicpInput() method.Input {
	return maybe(share("ndicp", "protein bound in NDF, % of dry matter; left out: 0.07 of NDF", 0, 15, 0, 8))
}

func ndfdInput() method.Input {
	return share("ndfd48", "NDF digested in 48 hours, % of NDF; a 30-hour value must not be used", 15, 90, 25, 75)
}

func forageQualityConstants() []method.Constant {
	k := PublishedForageQuality()
	n, l, g := k.Nutrients, k.Legume, k.Grass
	c := func(id source.ID) func(key string, v float64) method.Constant {
		return func(key string, v float64) method.Constant { return method.Constant{Key: key, Value: v, Source: id} }
	}
	tdn, leg, gra := c(source.RFQNutrients), c(source.RFQLegumeIntake), c(source.RFQGrassIntake)
	return []method.Constant{
		{Key: "bound_share", Value: BoundShare, Source: source.RFQNutrients},
		tdn("nfc", n.NFC), tdn("fat_free", n.FatFree), tdn("fat_digested", n.FatDigested), tdn("fat_energy", n.FatEnergy),
		tdn("legume_cp", n.LegumeCP), tdn("legume_metabolic", n.LegumeMetabolic), tdn("grass_cp", n.GrassCP), tdn("grass_metabolic", n.GrassMetabolic),
		tdn("grass_ndfd", n.GrassNDFD), tdn("grass_ndfd_slope", n.GrassNDFDSlope),
		leg("intake0", l.DMI0), leg("mean_ndfd", l.MeanNDFD), leg("per_ndfd", l.PerNDFD), leg("cow", l.CowLb),
		gra("grass0", g.Base), gra("grass_cp1", g.CP), gra("grass_cp2", g.CP2), gra("grass_tdn1", g.TDN), gra("grass_tdn2", g.TDN2),
		gra("grass_adf1", g.ADF), gra("grass_adf2", g.ADF2), gra("grass_cp_adf", g.CPADF),
		{Key: "rfq_divisor", Value: k.Divisor, Source: source.RFQFormula},
	}
}

func forageQualityOf(c *method.Call) ForageQuality {
	return ForageQuality{
		Nutrients: Nutrients{
			NFC: c.K("nfc"), FatFree: c.K("fat_free"), FatDigested: c.K("fat_digested"), FatEnergy: c.K("fat_energy"),
			LegumeCP: c.K("legume_cp"), LegumeMetabolic: c.K("legume_metabolic"), GrassCP: c.K("grass_cp"), GrassMetabolic: c.K("grass_metabolic"),
			GrassNDFD: c.K("grass_ndfd"), GrassNDFDSlope: c.K("grass_ndfd_slope"),
		},
		Legume: LegumeIntake{DMI0: c.K("intake0"), MeanNDFD: c.K("mean_ndfd"), PerNDFD: c.K("per_ndfd"), CowLb: c.K("cow")},
		Grass: GrassIntake{
			Base: c.K("grass0"), CP: c.K("grass_cp1"), CP2: c.K("grass_cp2"), TDN: c.K("grass_tdn1"), TDN2: c.K("grass_tdn2"),
			ADF: c.K("grass_adf1"), ADF2: c.K("grass_adf2"), CPADF: c.K("grass_cp_adf"),
		},
		Divisor: c.K("rfq_divisor"),
	}
}

func rfq() *method.Method {
	return &method.Method{
		Name:  "rfq",
		Title: "Relative forage quality",
		About: "Ranks forage as relative feed value does, but with what it is made of and how digestible its fibre is: from a laboratory report with ash, fat and 48-hour NDF digestibility. " +
			"Choose the kind that is most of the stand; mix lies between both by the share of grass.",
		Inputs: []method.Input{
			{Key: "kind", About: "what the forage is", Kind: method.Word, Choices: []string{legumeKind, grassKind, mixKind}},
			{Key: "grass_share", About: "grass in the dry matter, 0 to 1; for kind=mix", Accepted: method.Range{Low: 0, High: 1}, Optional: true},
			cpInput(), ndfInput(),
			maybe(share("adf", "acid detergent fibre, % of dry matter; for kind=grass and kind=mix", 10, 60, 25, 45)),
			eeInput(), ashInput(), ndfdInput(), ndicpInput(),
		},
		Outputs: []method.Output{
			{Key: "nfc", About: "carbohydrate that is not fibre, % of DM", Unit: percentDM, Decimals: 1},
			{Key: "tdn", About: "total digestible nutrients, % of DM", Unit: percentDM, Decimals: 1},
			{Key: "dmi", About: "intake, % of body weight a day", Unit: percentDM, Decimals: 2},
			{Key: "rfq", About: "relative forage quality", Decimals: 0},
		},
		Constants: forageQualityConstants(),
		Sources:   []source.ID{source.RFQFormula, source.RFQNutrients, source.WholeNFC, source.RFQLegumeIntake, source.RFQGrassIntake, source.RFQMix},
		Example:   "kind=legume cp=20 ndf=40 ee=2.5 ash=9 ndfd48=45",
		Run:       runRFQ,
	}
}

func runRFQ(c *method.Call) error {
	s := Sample{CP: c.Num("cp"), NDF: c.Num("ndf"), ADF: c.Num("adf"), EE: c.Num("ee"), Ash: c.Num("ash"), NDFD48: c.Num("ndfd48")}
	kind := c.Word("kind")
	switch {
	case kind == mixKind && !c.Given("grass_share"):
		return errors.New("grass_share is missing: kind=mix wants it, 0 to 1")
	case kind != legumeKind && !c.Given("adf"):
		return fmt.Errorf("adf is missing: kind=%s wants it, 10 to 60 %% of dry matter", kind)
	case c.Given("adf") && s.ADF >= s.NDF:
		return fmt.Errorf("ADF %g is not under NDF %g: ADF is a part of NDF, check which is which", s.ADF, s.NDF)
	}
	if err := boundProtein(c, &s, c.K("bound_share")); err != nil {
		return err
	}
	if err := checkParts(s); err != nil {
		return err
	}
	k := forageQualityOf(c)
	g := 0.
	switch kind {
	case grassKind:
		g = 1
	case mixKind:
		g = c.Num("grass_share")
	}
	got, whole := k.OfLegume(s), k.OfLegumeWhole(s)
	if g > 0 {
		got, whole = k.OfMix(s, g), between(whole, k.OfGrassWhole(s), g)
	}
	if got.DMI <= 0 || got.TDN <= 0 {
		return fmt.Errorf("intake comes out at %.2f %% of body weight and TDN at %.1f %%: these values do not belong to one forage; check CP, fibre and ash", got.DMI, got.TDN)
	}
	c.Answer("nfc", got.NFC)
	c.Answer("tdn", got.TDN)
	c.Answer("dmi", got.DMI)
	c.Answer("rfq", got.RFQ)
	c.Note("NFC is taken with NDF free of protein; with the whole NDF, the other form in print, it is %.1f %%, TDN %.1f %% and RFQ %d", whole.NFC, whole.TDN, Whole(whole.RFQ))
	if kind == mixKind {
		c.Note("published: the equation of what is most of the stand; the straight line between both is a choice (legume %d, grass %d)", Whole(k.OfLegume(s).RFQ), Whole(k.OfGrass(s).RFQ))
	}
	if g < 1 {
		c.Note("disputed: a point of NDF digestibility is taken to bring 0.374 lb of intake a day; trials on whole diets found 0.03 to 0.4")
	}
	if g > 0 && (s.CP < 6 || s.CP > 24) {
		c.Note("CP %g is outside 6-24, where the intake of grass was fitted", s.CP)
	}
	return nil
}

// boundProtein fills in protein bound in NDF where none was reported, and says so.
func boundProtein(c *method.Call, s *Sample, part float64) error {
	s.NDICP = c.Num("ndicp")
	if !c.Given("ndicp") {
		s.NDICP = min(part*s.NDF, s.CP)
		c.Note("ndicp is estimated at %.2f %% of dry matter", s.NDICP)
	}
	if s.NDICP > s.CP {
		return fmt.Errorf("protein bound in NDF %g is over crude protein %g, of which it is a part", s.NDICP, s.CP)
	}
	return nil
}

// checkParts refuses a forage whose parts add up to more than it is.
func checkParts(s Sample) error {
	if s.NFC() < 0 {
		return fmt.Errorf("NDF, protein, fat and ash add up to %.1f %% of dry matter, over 100 and the %.1f of protein that is in NDF: check the basis and the values", s.NDF+s.CP+s.EE+s.Ash, s.NDICP)
	}
	return nil
}
