package regrowth

import (
	"math"

	"haywarden/agronomy/stick"
)

// Model holds the coefficients of the daily growth of alfalfa. A day adds
//
//	dW = RUE(T) Ps f Rs 10 Ks fade      kg/ha of shoots, f = 1 - exp(-k LAI)
//
// to the potential growth W. Leaf area, height, stage and the reserve in the roots follow heat; the
// reserve is drawn on after a cut and filled again from what goes to the roots. Beside W runs the field
// mass A of an ordinary good field, from which a cut takes what stands above the stubble:
//
//	A = A + Field dW - Shed max(0, leaf area over the cap)
//	yield = max(0, A - Stubble) x stand x age x (1 - loss)
//
// Nothing looks at the number of the cut: later cuts are smaller because soil dries and days shorten.
// So the water balance must always run; without it late cuts come out too large. Sources: light
// [source.GrowthLight], leaves [source.GrowthLeaves], stage [source.GrowthStage], reserve
// [source.GrowthReserve], field mass [source.GrowthField].
type Model struct {
	Extinction float64 // k of light in the canopy

	RUE0, RUEPerC      float64 // g of biomass a MJ of sun that is caught, at 0 C and for each C more
	RUEFull, RUEWarmC  float64 // the same at its best, and the temperature up to which it stays there
	RUEBestC, RUENoneC float64 // temperatures at which the best begins and at which nothing grows

	ShootsSpring, ShootsSummer, ShootsFall float64 // share of growth that goes to shoots
	SpringShortH, SpringLongH              float64 // day lengths between which the spring share falls to summer's
	FallShortH, FallLongH                  float64 // the same for summer's to fall's
	SeedlingShoots                         float64 // factor in the seeding year

	LeafRegrowth, LeafSeedling    float64 // leaf area a C-day
	LeafCap, LeafStart            float64 // most leaf area, and what a cut leaves
	LeafBaseC, LeafSlope          float64 // leaf heat: 0 up to the base, then the slope
	LeafTurnC, LeafOffC, LeafTopC float64 // from the turn on T less the offset, T held at the last
	LeafEmpty                     float64 // speed of leaves on empty reserves, 1 on full
	LagC                          float64 // leaf heat that passes before leaves come, on full reserves; twice that on empty

	StageSlope, StageBloom, StageFade, StageEnd float64 // stage by log10 of heat; growth fades between the last two
	HeatTopC                                    float64 // warmth counts up to here
	HeightTopCM                                 float64
	BudCM                                       [4]float64 // height at mid-bud by growth: seeding year, first, second, later
	Blooms                                      [4]Bloom

	DrawDown, DrawHeatC float64 // share of the reserve spent on regrowth, and the heat over which it is
	Refill              float64 // reserve gained for each kg/ha that goes to the roots
	ReserveBaseC        float64

	CP0, CPPerStage, CPBend, CPMost, CPTurn float64 // protein by stage, see [Model.CP]

	Field      float64 // share of the potential growth that a good field makes
	Shed       float64 // kg/ha lost with each unit of leaf area above the cap
	Stubble    float64 // kg/ha below the mower that has to grow again
	UsualLoss  float64 // standing to weighed, where no harvest is reckoned
	Depletion  float64 // share of the root zone's water taken up freely
	KcBare     float64 // crop coefficient of bare stubble
	KcCover    float64 // added by full cover
	UsualTAWMM float64

	Stick stick.Model

	heatOfFade    float64    // share of heat at StageFade: below it no logarithm is needed
	perHeat, rise [4]float64 // share of heat to bloom for each C-day, and cm for each such share, by growth
	through       decay      // light let through by leaves
	fullCover     float64    // share of sun caught at the most leaf area
}

// Growths of a year. A later growth counts as the third.
const (
	Seedling = iota
	First
	Second
	Later
)

// Published returns the coefficients in use, for a good field of alfalfa.
func Published() Model {
	m := Model{
		Extinction: 0.93,
		RUE0:       0.10, RUEPerC: 1.0 / 12, RUEFull: 1.60, RUEBestC: 18, RUEWarmC: 25, RUENoneC: 40,
		ShootsSpring: 0.90, ShootsSummer: 0.67, ShootsFall: 0.35,
		SpringShortH: 12, SpringLongH: 13.2, FallShortH: 12, FallLongH: 13.5, SeedlingShoots: 0.63,
		LeafRegrowth: 0.016, LeafSeedling: 0.009, LeafCap: 6, LeafStart: 0.05,
		LeafBaseC: 1, LeafSlope: 0.7, LeafTurnC: 15, LeafOffC: 5.2, LeafTopC: 30, LeafEmpty: 0.5, LagC: 40,
		StageSlope: 12.734, StageBloom: 5, StageFade: 6, StageEnd: 9, HeatTopC: 30, HeightTopCM: 110,
		BudCM:    [4]float64{60, 78.5, 58, 48},
		Blooms:   [4]Bloom{{4.6, 984.3}, ToBloom(1), ToBloom(2), ToBloom(3)},
		DrawDown: 0.55, DrawHeatC: 200, Refill: 1.9e-4, ReserveBaseC: 5,
		CP0: 40.89, CPPerStage: 7.38, CPBend: 0.57, CPMost: 32, CPTurn: 6.47,
		Field: 0.79, Shed: 260, Stubble: 210, UsualLoss: 0.10,
		Depletion: 0.55, KcBare: 0.40, KcCover: 0.80, UsualTAWMM: 200,
		Stick: stick.Published(),
	}
	m.settle()
	return m
}

// settle works out what hot loops want ready.
func (m *Model) settle() {
	const bud = 3.5
	m.heatOfFade = math.Pow(10, (m.StageFade-m.StageBloom)/m.StageSlope)
	atBud := math.Pow(10, (bud-m.StageBloom)/m.StageSlope)
	for g, b := range m.Blooms {
		m.perHeat[g], m.rise[g] = 1/b.CDays, m.BudCM[g]/atBud
	}
	m.through.fill()
	m.fullCover = 1 - m.through.at(m.Extinction*m.LeafCap)
}

// Stage is the stage on the 0-9 scale of Kalu and Fick at a share of the heat to one-tenth bloom:
// 5 + 12.734 log10(share), held in 0 to 9. The slope is that of Ben-Younes, whose equation it is at
// 984.3 C-days above 4.6 C. Source: [source.GrowthStage].
func (m *Model) Stage(heatShare float64) float64 {
	if heatShare <= 0 {
		return 0
	}
	return min(m.StageEnd, max(0, m.StageBloom+m.StageSlope*math.Log10(heatShare)))
}

// fade is what is left of growth after full bloom.
func (m *Model) fade(heatShare float64) float64 {
	if heatShare <= m.heatOfFade {
		return 1
	}
	return max(0, 1-(m.Stage(heatShare)-m.StageFade)/(m.StageEnd-m.StageFade))
}

// rue is what a MJ of sun caught makes at a mean temperature, g.
func (m *Model) rue(meanC float64) float64 {
	switch {
	case meanC <= 0:
		return 0
	case meanC < m.RUEBestC:
		return m.RUE0 + meanC*m.RUEPerC
	case meanC <= m.RUEWarmC:
		return m.RUEFull
	}
	return max(0, m.RUEFull*(m.RUENoneC-meanC)/(m.RUENoneC-m.RUEWarmC))
}

// shoots is the share of growth that goes to shoots by the length of the day and whether it rises.
func (m *Model) shoots(dayLengthH float64, rising bool) float64 {
	short, long, low, high := m.FallShortH, m.FallLongH, m.ShootsFall, m.ShootsSummer
	if rising {
		short, long, low, high = m.SpringShortH, m.SpringLongH, m.ShootsSpring, m.ShootsSummer
	}
	return low + (high-low)*min(1, max(0, (dayLengthH-short)/(long-short)))
}

// leafHeat is the warmth that leaves count on a day, C-days.
func (m *Model) leafHeat(meanC float64) float64 {
	switch {
	case meanC <= m.LeafBaseC:
		return 0
	case meanC < m.LeafTurnC:
		return m.LeafSlope * (meanC - m.LeafBaseC)
	}
	return min(meanC, m.LeafTopC) - m.LeafOffC
}

// CP is crude protein of the standing crop by stage, % of DM: 40.89 - 7.38 S + 0.57 S^2, held at 32 and
// from the least of the parabola on, S 6.47. Source: [source.StageQuality].
func (m *Model) CP(stage float64) float64 {
	q := min(stage, m.CPTurn)
	return min(m.CPMost, m.CP0-m.CPPerStage*q+m.CPBend*q*q)
}
