package herd

import "math"

// Maintenance is the energy of keeping a cow, Mcal NEL a day: PerMetabolic W^Power. Sources:
// [source.NRC2001Energy], [source.NASEM2021Energy].
type Maintenance struct{ PerMetabolic, Power float64 }

// PublishedMaintenance returns the coefficients of an edition; both hold the activity of confinement.
func PublishedMaintenance(e Edition) Maintenance {
	if e == Edition2001 {
		return Maintenance{0.080, 0.75}
	}
	return Maintenance{0.10, 0.75}
}

// Energy is Mcal NEL a day at a weight in kg.
func (k Maintenance) Energy(weight float64) float64 {
	return k.PerMetabolic * math.Pow(weight, k.Power)
}

// Milk is the energy of milk, Mcal NEL/kg, from its composition in %: Fat F + Protein P + Lactose L.
// Protein is crude in 2001 and true in 2021. Sources: [source.NRC2001Energy], [source.NASEM2021Energy].
type Milk struct{ Fat, Protein, Lactose float64 }

// PublishedMilk returns the coefficients of an edition.
func PublishedMilk(e Edition) Milk {
	if e == Edition2001 {
		return Milk{0.0929, 0.0547, 0.0395}
	}
	return Milk{0.0929, 0.0585, 0.0395}
}

// Energy is Mcal NEL/kg of milk.
func (k Milk) Energy(fat, protein, lactose float64) float64 {
	return k.Fat*fat + k.Protein*protein + k.Lactose*lactose
}

// FatMilk is the energy of milk of which only fat is known, Mcal NEL/kg, in 2001: 0.360 + 0.0969 F.
// Source: [source.NRC2001Energy].
type FatMilk struct{ Base, Fat float64 }

// PublishedFatMilk returns the coefficients.
func PublishedFatMilk() FatMilk { return FatMilk{0.360, 0.0969} }

// Energy is Mcal NEL/kg of milk.
func (k FatMilk) Energy(fat float64) float64 { return k.Base + k.Fat*fat }

// Pregnancy2001 is the energy of the calf, Mcal NEL a day:
//
//	(0.00318 D - 0.0352) (calf/45) / 0.218
//
// from day 190 on, held after 279. Source: [source.NRC2001Energy].
type Pregnancy2001 struct{ Slope, Offset, Calf, Efficiency, First, Last float64 }

// PublishedPregnancy2001 returns the coefficients.
func PublishedPregnancy2001() Pregnancy2001 {
	return Pregnancy2001{0.00318, 0.0352, 45, 0.218, 190, 279}
}

// Energy is Mcal NEL a day with a calf of so many kg at birth.
func (k Pregnancy2001) Energy(days, calf float64) float64 {
	if days < k.First {
		return 0
	}
	return (k.Slope*min(days, k.Last) - k.Offset) * calf / k.Calf / k.Efficiency
}

// Pregnancy2021 is the energy of the calf by the gain of the gravid uterus:
//
//	uterus = 1.825 calf exp(-(g)(280 - D)),  g = 0.0243 - 0.0000245 D,  gain = g uterus kg/day
//	NEL = 0.882 gain / 0.14 * 0.66
//
// The last line was read ([source.NASEM2021Energy]), the growth of the uterus recalled
// ([source.NASEM2021Uterus]).
type Pregnancy2021 struct {
	Uterus, Growth, Slowing, Term, First float64
	PerGain, FromME, ToNEL               float64
}

// PublishedPregnancy2021 returns the coefficients.
func PublishedPregnancy2021() Pregnancy2021 {
	return Pregnancy2021{1.825, 0.0243, 0.0000245, 280, 12, 0.882, 0.14, 0.66}
}

// Energy is Mcal NEL a day with a calf of so many kg at birth.
func (k Pregnancy2021) Energy(days, calf float64) float64 {
	if days < k.First {
		return 0
	}
	d := min(days, k.Term)
	growth := k.Growth - k.Slowing*d
	uterus := k.Uterus * calf * math.Exp(-growth*(k.Term-d))
	return k.PerGain * growth * uterus / k.FromME * k.ToNEL
}

// TDN gives a feed's energy from its total digestible nutrients. Sources: [source.TDNEnergy] per kg,
// [source.NFTAEnergy] per lb; the two are one line to rounding.
type TDN struct{ SlopeKg, OffsetKg, SlopeLb, OffsetLb float64 }

// PublishedTDN returns the coefficients.
func PublishedTDN() TDN { return TDN{0.0245, 0.12, 0.01114, 0.054} }

// PerKg is Mcal NEL/kg of dry matter of so much TDN, %.
func (k TDN) PerKg(tdn float64) float64 { return k.SlopeKg*tdn - k.OffsetKg }

// PerLb is Mcal NEL/lb by the rounded line that laboratories print.
func (k TDN) PerLb(tdn float64) float64 { return k.SlopeLb*tdn - k.OffsetLb }
