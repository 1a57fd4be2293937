package forage

import "math"

// Summative is the energy of a forage from its parts, by the 2001 edition of the dairy standard:
//
//	tdNFC = NFC coefficient * NFC                  tdCP = CP * exp(-Bound*ADICP/CP)
//	FA    = EE - FatFree, never under 0            NDFn = NDF - NDICP
//	tdNDF = Fibre*(NDFn - L)*(1 - (L/NDFn)^Power)  from lignin L, or
//	tdNDF = NDFn * NDFD48/100                      from digestibility in the laboratory
//	TDN1x = tdNFC + tdCP + Fat*FA + tdNDF - Metabolic            % of DM, at maintenance
//	DE1x  = DE_NFC*tdNFC + DE_NDF*tdNDF + DE_CP*tdCP + DE_FA*FA - DE_Metabolic   Mcal/kg
//
// The factor of NFC for processing is 1 for hay and haylage. Digestibility falls as a cow eats more,
// p being intake as a multiple of maintenance:
//
//	discount = (TDN1x - (Fall*TDN1x - FallBase)*(p - 1)) / TDN1x     where TDN1x >= Least, else 1
//	DE = DE1x*discount;  ME = ME_Slope*DE - ME_Base;  NEL = NEL_Slope*ME - NEL_Base
//
// with a little more of both where EE is over FatBase. The standard takes the discount from the whole
// diet; here it is taken from the forage itself, which will do to rank forages. Sources:
// [source.NRC2001Feeds], [source.NRC2001FeedsRecalled].
type Summative struct {
	NFC, Bound, FatFree, Fat, Fibre, Power, Metabolic float64

	DENFC, DENDF, DECP, DEFA, DEMetabolic float64

	Fall, FallBase, Least float64

	MESlope, MEBase, NELSlope, NELBase float64

	FatBase, MEFat, NELFatSlope, NELFatBase, NELFatOver float64
}

// PublishedSummative returns the coefficients.
func PublishedSummative() Summative {
	return Summative{
		NFC: 0.98, Bound: 1.2, FatFree: 1, Fat: 2.25, Fibre: 0.75, Power: 0.667, Metabolic: 7,
		DENFC: 0.042, DENDF: 0.042, DECP: 0.056, DEFA: 0.094, DEMetabolic: 0.3,
		Fall: 0.18, FallBase: 10.3, Least: 60,
		MESlope: 1.01, MEBase: 0.45, NELSlope: 0.703, NELBase: 0.19,
		FatBase: 3, MEFat: 0.0046, NELFatSlope: 0.097, NELFatBase: 0.19, NELFatOver: 97,
	}
}

// FibreForm says what digestible fibre is reckoned from.
type FibreForm string

// The forms.
const (
	ByLignin FibreForm = "lignin"
	ByNDFD   FibreForm = "ndfd48"
)

// Energy is the energy of a forage and the steps to it.
type Energy struct {
	NFC                    float64 // % of DM
	TdNFC, TdCP, FA, TdNDF float64 // truly digestible, % of DM
	TDN1x                  float64 // % of DM, at maintenance
	DE1x, Discount, DE     float64 // Mcal/kg DM, a factor, Mcal/kg DM
	ME, NEL                float64 // Mcal/kg DM, at the intake asked
}

// Of is the energy of a forage at an intake of p times maintenance. Where lignin is as much as the
// whole NDF free of protein, nothing of the fibre is digestible.
func (k Summative) Of(s Sample, form FibreForm, p float64) Energy {
	ndf := s.FreeNDF()
	e := Energy{NFC: s.NFC(), FA: max(s.EE-k.FatFree, 0)}
	e.TdNFC = k.NFC * e.NFC
	if s.CP > 0 {
		e.TdCP = s.CP * math.Exp(-k.Bound*s.ADICP/s.CP)
	}
	switch {
	case form == ByNDFD:
		e.TdNDF = ndf * s.NDFD48 / 100
	case s.Lignin < ndf:
		e.TdNDF = k.Fibre * (ndf - s.Lignin) * (1 - math.Pow(s.Lignin/ndf, k.Power))
	}
	e.TDN1x = e.TdNFC + e.TdCP + k.Fat*e.FA + e.TdNDF - k.Metabolic
	e.DE1x = k.DENFC*e.TdNFC + k.DENDF*e.TdNDF + k.DECP*e.TdCP + k.DEFA*e.FA - k.DEMetabolic
	e.Discount = k.Discount(e.TDN1x, p)
	e.DE = e.DE1x * e.Discount
	e.ME, e.NEL = k.net(e.DE, s.EE)
	return e
}

// Discount is how much of the digestible energy is left at an intake of p times maintenance.
func (k Summative) Discount(tdn1x, p float64) float64 {
	if tdn1x < k.Least {
		return 1
	}
	return (tdn1x - (k.Fall*tdn1x-k.FallBase)*(p-1)) / tdn1x
}

// net is ME and NEL of digestible energy, Mcal/kg.
func (k Summative) net(de, ee float64) (me, nel float64) {
	over := max(ee-k.FatBase, 0)
	me = k.MESlope*de - k.MEBase + k.MEFat*over
	return me, k.NELSlope*me - k.NELBase + (k.NELFatSlope*me+k.NELFatBase)/k.NELFatOver*over
}

// BoundInADF is the protein bound in ADF as a share of protein where a laboratory reports none: a choice
// of a magnitude recalled, and to be said to be an estimate. Source: [source.UsualBound].
const BoundInADF = 0.06
