package forage

import (
	"errors"
	"fmt"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

// EnergyInputs are what the energy of a forage is reckoned from, for methods that build on it.
func EnergyInputs() []method.Input {
	return []method.Input{
		cpInput(), ndfInput(), ndicpInput(),
		maybe(share("adicp", "protein bound in ADF, % of dry matter; left out: 0.06 of protein", 0, 12, 0, 5)),
		eeInput(), ashInput(),
		maybe(share("lignin", "acid detergent lignin, % of dry matter; this or ndfd48", 1, 16, 2, 12)),
		maybe(ndfdInput()),
		{Key: "intake", About: "intake as a multiple of maintenance", Accepted: method.Range{Low: 1, High: 6}, Tested: method.Range{Low: 1, High: 4}, Default: "3"},
	}
}

// EnergyConstants are the coefficients that [EnergyOf] takes from a call.
func EnergyConstants() []method.Constant {
	k := PublishedSummative()
	read := func(key string, v float64) method.Constant {
		return method.Constant{Key: key, Value: v, Source: source.NRC2001Feeds}
	}
	recalled := func(key string, v float64) method.Constant {
		return method.Constant{Key: key, Value: v, Source: source.NRC2001FeedsRecalled}
	}
	return []method.Constant{
		{Key: "bound_share", Value: BoundShare, Source: source.RFQNutrients},
		{Key: "adicp_share", Value: BoundInADF, Source: source.UsualBound},
		read("td_nfc", k.NFC), read("bound", k.Bound), read("td_fat_free", k.FatFree), read("td_fat", k.Fat), read("fibre", k.Fibre), read("power", k.Power), read("metabolic", k.Metabolic),
		read("de_nfc", k.DENFC), read("de_ndf", k.DENDF), read("de_cp", k.DECP), read("de_fa", k.DEFA), read("de_metabolic", k.DEMetabolic),
		recalled("fall", k.Fall), recalled("fall_base", k.FallBase), read("least", k.Least),
		read("me_slope", k.MESlope), read("me_base", k.MEBase), read("nel_slope", k.NELSlope), read("nel_base", k.NELBase),
		recalled("fat_base", k.FatBase), recalled("me_fat", k.MEFat), recalled("nel_fat_slope", k.NELFatSlope), recalled("nel_fat_base", k.NELFatBase), recalled("nel_fat_over", k.NELFatOver),
	}
}

// EnergyOf reads a sample from a call with [EnergyInputs] and [EnergyConstants] and reckons its energy.
// Where both are given, digestibility goes before lignin.
func EnergyOf(c *method.Call) (Sample, Energy, error) {
	s := Sample{
		CP: c.Num("cp"), NDF: c.Num("ndf"), ADICP: c.Num("adicp"), EE: c.Num("ee"), Ash: c.Num("ash"),
		Lignin: c.Num("lignin"), NDFD48: c.Num("ndfd48"),
	}
	if !c.Given("lignin") && !c.Given("ndfd48") {
		return s, Energy{}, errors.New("lignin or ndfd48 is missing: one of them is wanted, lignin 1 to 16 % of dry matter or ndfd48 15 to 90 % of NDF")
	}
	if err := boundProtein(c, &s, c.K("bound_share")); err != nil {
		return s, Energy{}, err
	}
	if !c.Given("adicp") {
		s.ADICP = min(c.K("adicp_share")*s.CP, s.NDICP)
		c.Note("adicp is estimated at %.2f %% of dry matter", s.ADICP)
	}
	switch {
	case s.ADICP > s.NDICP:
		return s, Energy{}, fmt.Errorf("protein bound in ADF %g is over that bound in NDF %g, of which it is a part", s.ADICP, s.NDICP)
	case c.Given("lignin") && s.Lignin >= s.FreeNDF():
		return s, Energy{}, fmt.Errorf("lignin %g is not under the NDF free of protein, %.1f, of which it is a part", s.Lignin, s.FreeNDF())
	}
	if err := checkParts(s); err != nil {
		return s, Energy{}, err
	}
	k := summativeOf(c)
	form := ByLignin
	if c.Given("ndfd48") {
		form = ByNDFD
	}
	e := k.Of(s, form, c.Num("intake"))
	if e.TDN1x <= 0 || e.DE <= 0 {
		return s, Energy{}, fmt.Errorf("total digestible nutrients come out at %.1f %%: these values do not belong to one forage", e.TDN1x)
	}
	switch {
	case form == ByNDFD && c.Given("lignin"):
		other := k.Of(s, ByLignin, c.Num("intake"))
		c.Note("fibre by its digestibility in 48 h; by lignin TDN is %.1f %% and NEL %.2f Mcal/kg", other.TDN1x, other.NEL)
	case form == ByLignin:
		c.Note("fibre by lignin, which cannot see how fibre differs between cuts and varieties: a 48-hour digestibility is better")
	}
	if e.Discount == 1 && c.Num("intake") > 1 {
		c.Note("under %g %% TDN nothing is taken off for intake", k.Least)
	}
	return s, e, nil
}

func summativeOf(c *method.Call) Summative {
	return Summative{
		NFC: c.K("td_nfc"), Bound: c.K("bound"), FatFree: c.K("td_fat_free"), Fat: c.K("td_fat"), Fibre: c.K("fibre"), Power: c.K("power"), Metabolic: c.K("metabolic"),
		DENFC: c.K("de_nfc"), DENDF: c.K("de_ndf"), DECP: c.K("de_cp"), DEFA: c.K("de_fa"), DEMetabolic: c.K("de_metabolic"),
		Fall: c.K("fall"), FallBase: c.K("fall_base"), Least: c.K("least"),
		MESlope: c.K("me_slope"), MEBase: c.K("me_base"), NELSlope: c.K("nel_slope"), NELBase: c.K("nel_base"),
		FatBase: c.K("fat_base"), MEFat: c.K("me_fat"), NELFatSlope: c.K("nel_fat_slope"), NELFatBase: c.K("nel_fat_base"), NELFatOver: c.K("nel_fat_over"),
	}
}

func forageEnergy() *method.Method {
	mcal := unit.Must("Mcal/kg")
	return &method.Method{
		Name:  "forage-energy",
		Title: "Energy of a forage from its parts",
		About: "Total digestible nutrients, digestible, metabolizable and net energy for milk of hay or haylage by the dairy standard of 2001, from lignin or from 48-hour NDF digestibility. " +
			"Not to be set against needs of the 2021 edition.",
		Inputs: EnergyInputs(),
		Outputs: []method.Output{
			{Key: "nfc", About: "carbohydrate that is not fibre, % of DM", Unit: percentDM, Decimals: 1},
			{Key: "tdn1x", About: "total digestible nutrients at maintenance, % of DM", Unit: percentDM, Decimals: 1},
			{Key: "de1x", About: "digestible energy at maintenance", Unit: mcal, Decimals: 3},
			{Key: "discount", About: "what the intake leaves of it, a factor", Decimals: 4},
			{Key: "me", About: "metabolizable energy at the intake", Unit: mcal, Decimals: 3},
			{Key: "nel", About: "net energy for lactation at the intake", Unit: mcal, Decimals: 3},
		},
		Constants: EnergyConstants(),
		Sources:   []source.ID{source.NRC2001Feeds, source.NRC2001FeedsRecalled, source.RFQNutrients, source.UsualBound},
		Example:   "cp=22 ndf=36 ndicp=2.5 adicp=1.2 ee=2.5 ash=9.5 ndfd48=50",
		Run: func(c *method.Call) error {
			_, e, err := EnergyOf(c)
			if err != nil {
				return err
			}
			c.Answer("nfc", e.NFC)
			c.Answer("tdn1x", e.TDN1x)
			c.Answer("de1x", e.DE1x)
			c.Answer("discount", e.Discount)
			c.Answer("me", e.ME)
			c.Answer("nel", e.NEL)
			c.Note("the discount is taken from the forage's own TDN; the standard takes it from the whole diet")
			return nil
		},
	}
}
