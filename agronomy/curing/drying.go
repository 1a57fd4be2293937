package curing

import (
	"fmt"
	"math"

	"haywarden/agronomy/unit"
)

// Form says by what the air is measured.
type Form string

// The two published forms.
const (
	ByTemperature Form = "temperature" // equation 4
	ByVapour      Form = "vapour"      // equation 5, by the vapour pressure deficit
)

// Equation holds the coefficients of the drying rate:
//
//	DR = [SI (1 + Chemical AR) + Air A] / [Soil SM + SD (Swath - FirstDay DAY)(Layer + LayerChemical AR) + Rest]   1/h
//
// SI solar radiation W/m2; A air temperature C or vapour pressure deficit kPa; SM soil moisture, % of
// dry soil; SD swath density, g of dry matter a m2 of swath; DAY 1 on the day of mowing, 0 after; AR
// chemical conditioner, g of solution a g of dry matter. One restatement gives SM in kg/kg; the soil
// would then not count, and the abstract names it among what does. It also sets DAY to 1 on the day of
// raking; the abstract speaks of the day of mowing. Source: [source.DryingRate].
type Equation struct {
	Chemical      float64
	Air           float64 // W/m2 a C or a kPa
	Soil          float64
	Swath         float64
	FirstDay      float64
	Layer         float64
	LayerChemical float64
	Rest          float64
}

// EquationOf returns the published coefficients of a form.
func EquationOf(f Form) Equation {
	if f == ByVapour {
		return Equation{Chemical: 9.03, Air: 43.8, Soil: 61.4, Swath: 1.82, FirstDay: 0.83, Layer: 1.68, LayerChemical: 24.8, Rest: 2767}
	}
	return Equation{Chemical: 9.30, Air: 5.42, Soil: 66.4, Swath: 2.06, FirstDay: 0.97, Layer: 1.55, LayerChemical: 21.9, Rest: 3037}
}

// PerHour is the drying rate. Air below 0 C counts as 0: the fit never saw it.
func (e *Equation) PerHour(solarW, air, soilPct, swathGM2, firstDay, chemical float64) float64 {
	return (solarW*e.sun(chemical) + e.Air*max(0, air)) / (e.Soil*soilPct + e.held(swathGM2, firstDay, chemical))
}

// sun is what a W/m2 counts for.
func (e *Equation) sun(chemical float64) float64 { return 1 + e.Chemical*chemical }

// held is the part of the denominator that stays as long as the swath lies as it lies.
func (e *Equation) held(swathGM2, firstDay, chemical float64) float64 {
	return swathGM2*(e.Swath-e.FirstDay*firstDay)*(e.Layer+e.LayerChemical*chemical) + e.Rest
}

// Density scales the drying rate by how thick the swath lies: the equation is taken at one density and
// multiplied by (SD/at)^-power. The equation alone tells wide swaths from narrow ones too little: 1.4 h
// to 65 % moisture between 70 and 30 % of the ground covered, where 14 Wisconsin trials found 11 h.
// Source: [source.DryingDensity].
type Density struct {
	AtGM2 float64
	Power float64
}

// PittDensity is the power of Pitt 1985 at a swath of 4 t/ha over 70 % of the ground.
func PittDensity() Density { return Density{AtGM2: 571, Power: 0.65} }

// Factor is what the rate at AtGM2 is multiplied by.
func (d Density) Factor(swathGM2 float64) float64 { return math.Pow(swathGM2/d.AtGM2, -d.Power) }

// SwathDensity is how much dry matter lies on a m2 of swath where the swath covers a share of the
// ground: 4 t/ha over 70 % is 571 g/m2. A windrow over a sixth of the ground holds six times the yield.
func SwathDensity(yield unit.TonAcre, cover unit.Share) (unit.GramM2, error) {
	const gramsOfTonAcre = 224.17023 // a m2, of a short ton an acre
	switch {
	case !(yield > 0 && yield <= 10):
		return 0, fmt.Errorf("yield %g tons/ac: accepted over 0 to 10", yield)
	case !(cover > 0 && cover <= 1):
		return 0, fmt.Errorf("cover %g: accepted a share of the ground over 0 to 1", cover)
	}
	return unit.GramM2(float64(yield) * gramsOfTonAcre / float64(cover)), nil
}

// Conditions are what a swath dries in at one moment.
type Conditions struct {
	Form         Form
	Solar        unit.WattM2
	Temp         unit.Celsius    // for [ByTemperature]
	Deficit      unit.Kilopascal // for [ByVapour]
	SoilMoisture unit.Percent    // of dry soil
	Swath        unit.GramM2
	FirstDay     bool    // the day of mowing
	Chemical     float64 // g of solution a g of dry matter, 0 for none
	Scaled       bool    // by [PittDensity]
}

// Rate is how fast a conditioned swath dries. Source: [source.DryingRate], [source.DryingDensity].
func Rate(c Conditions) (unit.PerHour, error) {
	air := float64(c.Temp)
	switch {
	case c.Form == ByVapour:
		air = float64(c.Deficit)
	case c.Form != ByTemperature:
		return 0, fmt.Errorf("form %q: accepted %s or %s", c.Form, ByTemperature, ByVapour)
	}
	switch {
	case !(c.Solar >= 0 && c.Solar <= 1400):
		return 0, fmt.Errorf("solar radiation %g W/m2: accepted 0 to 1400", c.Solar)
	case !(air >= -40 && air <= 60):
		return 0, fmt.Errorf("air temperature %g C or deficit %g kPa: accepted -40 to 60 C, 0 kPa or more", c.Temp, c.Deficit)
	case !(c.SoilMoisture >= 0 && c.SoilMoisture <= 100):
		return 0, fmt.Errorf("soil moisture %g %%: accepted 0 to 100 %% of dry soil", c.SoilMoisture)
	case !(c.Swath > 0 && c.Swath <= mostGM2):
		return 0, fmt.Errorf("swath %g g/m2: accepted over 0 to %d", c.Swath, mostGM2)
	case !(c.Chemical >= 0 && c.Chemical <= 1):
		return 0, fmt.Errorf("chemical %g g/g: accepted 0 to 1", c.Chemical)
	}
	e, first, swath, factor := EquationOf(c.Form), 0.0, float64(c.Swath), 1.0
	if c.FirstDay {
		first = 1
	}
	if c.Scaled {
		d := PittDensity()
		swath, factor = d.AtGM2, d.Factor(swath)
	}
	return unit.PerHour(factor * e.PerHour(float64(c.Solar), air, float64(c.SoilMoisture), swath, first, c.Chemical)), nil
}

// mostGM2 is more than any windrow holds.
const mostGM2 = 10000

// Time is how long drying takes at a steady rate: ln(M0/M1)/DR, M water over dry matter. Source:
// [source.DryingTime].
func Time(rate unit.PerHour, from, to unit.PercentWet) (unit.Hour, error) {
	switch {
	case !(rate > 0) || math.IsInf(float64(rate), 1):
		return 0, fmt.Errorf("rate %g an hour: accepted over 0", rate)
	case !(from > 0 && from < 100):
		return 0, fmt.Errorf("from %g %%: accepted over 0 to under 100 %% of fresh weight", from)
	case !(to > 0 && to <= from):
		return 0, fmt.Errorf("to %g %%: accepted over 0 up to the moisture it starts from, %g %%", to, from)
	}
	return unit.Hour(math.Log(float64(from.OfDM()/to.OfDM())) / float64(rate)), nil
}

// Plain holds what a crop mown without a conditioner keeps of the drying rate, which was fitted to
// conditioned crop: by cutting, and the older rule beside it as the hopeful bound. Source:
// [source.Unconditioned], [source.ConditionGain].
type Plain struct {
	First, Second float64
	Gain          float64 // of conditioning by the older rule
}

// PublishedPlain returns the published factors.
func PublishedPlain() Plain { return Plain{First: 0.56, Second: 0.73, Gain: 1.2} }

// Factor is what the rate is multiplied by in a cutting of the year, 1 the first, and the most it may
// be by the older rule; the third cutting and later ones dry as if conditioned.
func (p Plain) Factor(cut int) (factor, hopeful float64) {
	switch cut {
	case 1:
		return p.First, 1 / p.Gain
	case 2:
		return p.Second, 1 / p.Gain
	default:
		return 1, 1
	}
}
