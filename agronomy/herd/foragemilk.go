package herd

import "haywarden/agronomy/forage"

// ForageMilk turns a forage into milk: what a cow can eat of it alone gives so much energy, she keeps
// what maintains her, and the rest is milk,
//
//	F = weight * (DMI0/NDF + PerPoint*(NDFD48 - MeanNDFD)) / 100      kg/day
//	milk a tonne = 1000 (NEL - maintenance/F) / energy of a kg of milk   kg
//
// with the energies of the 2001 edition. It compares forages and foretells no herd's milk: real diets
// hold grain, which narrows the differences. Source: [source.MilkOfForage].
type ForageMilk struct {
	Intake forage.LegumeIntake
	Keep   Maintenance
	Milk   Milk
}

// PublishedForageMilk returns the coefficients.
func PublishedForageMilk() ForageMilk {
	return ForageMilk{forage.PublishedForageQuality().Legume, PublishedMaintenance(Edition2001), PublishedMilk(Edition2001)}
}

// Cow is who turns forage into milk, and what milk.
type Cow struct{ Kg, Fat, Protein, Lactose float64 } // weight; % of milk

// StandardCow is the cow of relative forage quality, of 1350 lb, with milk of 4 % fat.
func StandardCow() Cow { return Cow{Kg: 612.35, Fat: 4, Protein: 3.3, Lactose: 4.85} }

// MilkOf is the milk of a forage.
type MilkOf struct {
	IntakeKg float64 // dry matter of the forage that the cow can eat a day
	MilkKg   float64 // a day from it alone; below 0 where it does not keep her
	PerTonne float64 // kg of milk a tonne of dry matter: of the forage alone, with all her maintenance
	Shared   float64 // the same with maintenance shared over a mixed diet
	Gross    float64 // with none of it
}

// LbPerTon is pounds of milk a short ton of dry matter.
func (m MilkOf) LbPerTon() float64 { return m.PerTonne / 1000 * poundsATon }

// LbPerAcre is pounds of milk an acre from a yield of tons of dry matter that reach the cow.
func (m MilkOf) LbPerAcre(tons float64) float64 { return m.LbPerTon() * tons }

// mixedDiet is the dry matter of a mixed diet, kg a day, over which maintenance is shared (choice).
const mixedDiet = 22

// Of is the milk of a forage of so much NDF (% of dry matter), digestible by so much (% of NDF), with
// nel Mcal/kg of dry matter.
func (k ForageMilk) Of(ndf, ndfd48, nel float64, cow Cow) MilkOf {
	eats := cow.Kg * k.Intake.At(ndf, ndfd48) / 100
	keep, milk := k.Keep.Energy(cow.Kg), k.Milk.Energy(cow.Fat, cow.Protein, cow.Lactose)
	return MilkOf{
		IntakeKg: eats,
		MilkKg:   (eats*nel - keep) / milk,
		PerTonne: 1000 * (nel - keep/eats) / milk,
		Shared:   1000 * (nel - keep/mixedDiet) / milk,
		Gross:    1000 * nel / milk,
	}
}
