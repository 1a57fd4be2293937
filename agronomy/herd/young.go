package herd

import "math"

// Dry holds an intake equation of the last weeks before calving, in % of weight:
//
//	Top - Fall exp(Rate (days pregnant - Term))
type Dry struct{ Top, Fall, Rate, Term float64 }

// DryFit is where the coefficients were taken from.
type DryFit string

// The fits: the standard of 2001, and a later one to the last three weeks.
const (
	Fit2001 DryFit = "2001"
	Fit2003 DryFit = "2003"
)

// Dries are the equations of cows and of springing heifers.
type Dries struct{ Cow, Heifer Dry }

// PublishedDries returns the coefficients of a fit: those of 2001 (rounded, recalled;
// [source.NRC2001Dry]), and those of 2003 for days 259-280 ([source.Hayirli2003]). They differ by
// 0.02 kg at most where both hold; nearer calving take 2003.
func PublishedDries(fit DryFit) Dries {
	if fit == Fit2003 {
		return Dries{Dry{1.979, 0.756, 0.154, 280}, Dry{1.713, 0.688, 0.344, 280}}
	}
	return Dries{Dry{1.97, 0.75, 0.16, 280}, Dry{1.71, 0.69, 0.35, 280}}
}

// Intake is dry matter, kg/day.
func (k Dry) Intake(weight, daysPregnant float64) float64 {
	return (k.Top - k.Fall*math.Exp(k.Rate*(daysPregnant-k.Term))) / 100 * weight
}

// Dry2021 holds the dry-cow equation of 2021, in % of weight:
//
//	1.47 - (0.365 - 0.0028 NDF) w - 0.035 w^2
//
// w is weeks from calving, 0 or below, held at -3; NDF is of the diet, %. Source:
// [source.NASEM2021Dry].
type Dry2021 struct{ Base, Week, Fibre, Square, First, Term float64 }

// PublishedDry2021 returns the coefficients.
func PublishedDry2021() Dry2021 { return Dry2021{1.47, 0.365, 0.0028, 0.035, -3, 280} }

// Intake is dry matter, kg/day.
func (k Dry2021) Intake(weight, week, ndf float64) float64 {
	w := min(max(week, k.First), 0)
	return (k.Base - (k.Week-k.Fibre*ndf)*w - k.Square*w*w) / 100 * weight
}

// WeekOf is weeks from calving of so many days pregnant.
func (k Dry2021) WeekOf(daysPregnant float64) float64 { return (daysPregnant - k.Term) / daysAWeek }

// Heifer2021 holds the heifer equation of 2021 from the animal alone: 0.022 M (1 - exp(-1.54 W/M)),
// M mature weight, kg. Source: [source.NASEM2021Heifer].
type Heifer2021 struct{ Share, Rate float64 }

// PublishedHeifer2021 returns the coefficients.
func PublishedHeifer2021() Heifer2021 { return Heifer2021{0.022, 1.54} }

// Intake is dry matter, kg/day.
func (k Heifer2021) Intake(weight, mature float64) float64 {
	return k.Share * mature * (1 - math.Exp(-k.Rate*weight/mature))
}

// Heifer2001 holds the heifer equation of 2001: W^0.75 (0.2435 e - 0.0466 e^2 - 0.1128)/e, e the
// diet's energy for maintenance, Mcal/kg. Its rise in late pregnancy is not in it. Source:
// [source.NRC2001Heifer].
type Heifer2001 struct{ Power, Linear, Square, Base float64 }

// PublishedHeifer2001 returns the coefficients.
func PublishedHeifer2001() Heifer2001 { return Heifer2001{0.75, 0.2435, 0.0466, 0.1128} }

// Intake is dry matter, kg/day.
func (k Heifer2001) Intake(weight, nem float64) float64 {
	return math.Pow(weight, k.Power) * (k.Linear*nem - k.Square*nem*nem - k.Base) / nem
}

// HeiferFibre is what heifers eat of fibre, % of weight as NDF of the whole diet, near constant over
// more than 9000 pen-days. Source: [source.HeiferFibre].
type HeiferFibre struct{ NDFShare float64 }

// PublishedHeiferFibre returns 1.0 %.
func PublishedHeiferFibre() HeiferFibre { return HeiferFibre{1.0} }

// Intake is dry matter a day, in the unit of weight; ndf is of the diet, % of dry matter.
func (k HeiferFibre) Intake(weight, ndf float64) float64 {
	return k.NDFShare / 100 * weight / (ndf / 100)
}
