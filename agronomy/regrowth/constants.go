package regrowth

import (
	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
)

// coefficient is a number of the model, where the model keeps it and where it is from.
type coefficient struct {
	key, unit string
	at        *float64
	source    source.ID
}

// coefficients lists the model's numbers. Those of the stick are declared there.
func coefficients(m *Model) []coefficient {
	list := []coefficient{
		{"extinction", "", &m.Extinction, source.GrowthLight},
		{"rue_at_0", "g/MJ", &m.RUE0, source.GrowthLight},
		{"rue_per_c", "g/MJ/C", &m.RUEPerC, source.GrowthLight},
		{"rue_full", "g/MJ", &m.RUEFull, source.GrowthLight},
		{"rue_best", "C", &m.RUEBestC, source.GrowthLight},
		{"rue_warm", "C", &m.RUEWarmC, source.GrowthShaped},
		{"rue_none", "C", &m.RUENoneC, source.GrowthShaped},
		{"shoots_spring", "", &m.ShootsSpring, source.GrowthLight},
		{"shoots_summer", "", &m.ShootsSummer, source.GrowthLight},
		{"shoots_fall", "", &m.ShootsFall, source.GrowthLight},
		{"spring_short", "h", &m.SpringShortH, source.GrowthShaped},
		{"spring_long", "h", &m.SpringLongH, source.GrowthShaped},
		{"fall_short", "h", &m.FallShortH, source.GrowthShaped},
		{"fall_long", "h", &m.FallLongH, source.GrowthShaped},
		{"seedling_shoots", "", &m.SeedlingShoots, source.GrowthLight},
		{"leaf_regrowth", "1/C-day", &m.LeafRegrowth, source.GrowthLeaves},
		{"leaf_seedling", "1/C-day", &m.LeafSeedling, source.GrowthLeaves},
		{"leaf_cap", "", &m.LeafCap, source.GrowthShaped},
		{"leaf_start", "", &m.LeafStart, source.GrowthShaped},
		{"leaf_base", "C", &m.LeafBaseC, source.GrowthLeafT},
		{"leaf_slope", "", &m.LeafSlope, source.GrowthLeafT},
		{"leaf_turn", "C", &m.LeafTurnC, source.GrowthLeafT},
		{"leaf_off", "C", &m.LeafOffC, source.GrowthLeafT},
		{"leaf_top", "C", &m.LeafTopC, source.GrowthLeafT},
		{"leaf_empty", "", &m.LeafEmpty, source.GrowthShaped},
		{"leaf_lag", "C-days", &m.LagC, source.GrowthShaped},
		{"stage_slope", "", &m.StageSlope, source.GrowthStage},
		{"stage_bloom", "", &m.StageBloom, source.GrowthStage},
		{"stage_fade", "", &m.StageFade, source.GrowthShaped},
		{"stage_end", "", &m.StageEnd, source.GrowthShaped},
		{"heat_top", "C", &m.HeatTopC, source.GrowthShaped},
		{"height_top", "cm", &m.HeightTopCM, source.GrowthShaped},
		{"draw_down", "", &m.DrawDown, source.GrowthReserve},
		{"draw_heat", "C-days", &m.DrawHeatC, source.GrowthReserve},
		{"refill", "ha/kg", &m.Refill, source.GrowthReserve},
		{"reserve_base", "C", &m.ReserveBaseC, source.GrowthReserve},
		{"cp_at_0", "% of DM", &m.CP0, source.StageQuality},
		{"cp_per_stage", "% of DM", &m.CPPerStage, source.StageQuality},
		{"cp_bend", "% of DM", &m.CPBend, source.StageQuality},
		{"cp_most", "% of DM", &m.CPMost, source.GrowthShaped},
		{"cp_turn", "", &m.CPTurn, source.GrowthShaped},
		{"field", "", &m.Field, source.GrowthField},
		{"shed", "kg/ha", &m.Shed, source.GrowthField},
		{"stubble", "kg/ha", &m.Stubble, source.GrowthField},
		{"usual_loss", "", &m.UsualLoss, source.GrowthField},
		{"depletion", "", &m.Depletion, source.CropWater},
		{"kc_bare", "", &m.KcBare, source.CropWater},
		{"kc_cover", "", &m.KcCover, source.CropWater},
	}
	for g, name := range [...]string{"seedling", "spring", "second", "third"} {
		from := source.BloomHeat
		if g == Seedling {
			from = source.GrowthStage
		}
		list = append(list,
			coefficient{name + "_base", "C", &m.Blooms[g].BaseC, from},
			coefficient{name + "_heat", "C-days", &m.Blooms[g].CDays, from},
			coefficient{name + "_height", "cm", &m.BudCM[g], source.GrowthHeight})
	}
	return list
}

// exempt says why no printed answer holds a number: nothing printed comes near the cp curve's turn.
var exempt = map[string]string{
	"cp_turn": "protein is flat there: a hundredth more or less of the stage moves nothing",
}

func declared() []method.Constant {
	m := Published()
	var list []method.Constant
	for _, k := range coefficients(&m) {
		list = append(list, method.Constant{Key: k.key, Value: *k.at, Unit: k.unit, Source: k.source, Exempt: exempt[k.key]})
	}
	return list
}

// modelOf is the model with the constants of a call.
func modelOf(c *method.Call) *Model {
	m := Published()
	for _, k := range coefficients(&m) {
		*k.at = c.K(k.key)
	}
	m.settle()
	return &m
}

func restsOn() []source.ID {
	return []source.ID{
		source.GrowthLight, source.GrowthLeaves, source.GrowthLeafT, source.GrowthStage, source.BloomHeat, source.GrowthHeight, source.GrowthReserve,
		source.GrowthShaped, source.GrowthField, source.StageQuality, source.StickFit, source.CropWater,
	}
}
