package season

import (
	"haywarden/agronomy/regrowth"
)

// Calendar cuts first on a day of the year and then every so many days, whatever stands there.
// [source.CutCalendar]
type Calendar struct {
	First int // day of the year
	Every int // days
}

// Cuts implements [Cutter].
func (r Calendar) Cuts(day, since int, _ *regrowth.Crop, _ Sky) bool {
	if since < 0 {
		return day+1 >= r.First
	}
	return since >= r.Every
}

// Target cuts each growth once its standing feed value has come down to a target, in bud at the
// earliest: of young growth the stick says too much. [source.CutTarget]
type Target struct {
	Field *Field
	RFV   float64
}

// Cuts implements [Cutter].
func (r Target) Cuts(day, _ int, c *regrowth.Crop, _ Sky) bool {
	const bud = 2.5
	return r.Field.Model.StageOf(c) >= bud && r.Field.Reckon(c, day, Fate{}).RFV <= r.RFV
}

// Bloom cuts each growth at a stage: 3.5 is bud, 5 one-tenth bloom. [source.CutTarget]
type Bloom struct {
	Model *regrowth.Model
	Stage float64
}

// Cuts implements [Cutter].
func (r Bloom) Cuts(_, _ int, c *regrowth.Crop, _ Sky) bool { return r.Model.StageOf(c) >= r.Stage }

// TradeRules are the rules that a plan is set beside.
func TradeRules(f *Field) []Way {
	return []Way{
		{"calendar: 25 May, then every 30 days", Same(Calendar{First: 145, Every: 30})},
		{"in bud, each growth", Same(Bloom{Model: f.Model, Stage: 3.5})},
		{"standing 170 RFV, each growth", Same(Target{Field: f, RFV: 170})},
		{"one-tenth bloom, each growth", Same(Bloom{Model: f.Model, Stage: 5})},
	}
}
