package water

import (
	"math"

	"haywarden/agronomy/unit"
)

// Kc is how much more or less than the reference grass a crop uses: as it begins to grow, at full
// cover, and when it is ripe to cut.
type Kc struct{ Ini, Mid, End float64 }

// Crop is a hay crop of FAO Paper 56.
type Crop struct {
	Name      string
	Cutting   Kc // follows each cutting down and up again
	Averaged  Kc // over all cuttings
	Height    unit.Metre
	RootsLow  unit.Metre
	RootsHigh unit.Metre
	P         float64 // share of the water that is taken up freely, at 5 mm/d
}

// Alfalfa is alfalfa for hay. Source: [source.CropWater].
func Alfalfa() Crop {
	return Crop{
		Name: "alfalfa hay", Cutting: Kc{0.40, 1.20, 1.15}, Averaged: Kc{0.40, 0.95, 0.90},
		Height: 0.7, RootsLow: 1, RootsHigh: 2, P: 0.55,
	}
}

// Clover is berseem clover for hay, the closest that FAO Paper 56 has to red clover. Source:
// [source.CropWater].
func Clover() Crop {
	return Crop{
		Name: "clover hay (berseem; for red clover too)", Cutting: Kc{0.40, 1.15, 1.10}, Averaged: Kc{0.40, 0.90, 0.85},
		Height: 0.6, RootsLow: 0.6, RootsHigh: 0.9, P: 0.50,
	}
}

// Grass is ryegrass hay. Only averages over cuttings are printed, so a cutting shows in them no more
// than by a lower start. Source: [source.CropWater], roots and p [source.WaterRecalled].
func Grass() Crop {
	k := Kc{0.95, 1.05, 1.00}
	return Crop{Name: "ryegrass hay", Cutting: k, Averaged: k, Height: 0.3, RootsLow: 0.6, RootsHigh: 1, P: 0.60}
}

// Hay is the crops above.
func Hay() []Crop { return []Crop{Alfalfa(), Clover(), Grass()} }

// ForClimate fits a coefficient of full cover or of the end to drier and windier places than the
// table's (wind 2 m/s, lowest humidity 45 %): Kc + (0.04 (u2 - 2) - 0.004 (RHmin - 45)) (h/3)^0.3,
// equation 62. Source: [source.WaterRecalled].
func ForClimate(kc float64, wind unit.MetreSec, rhmin unit.Percent, height unit.Metre) float64 {
	const perWind, wind0, perHumidity, humidity0, height0, power = 0.04, 2, 0.004, 45, 3, 0.3
	return kc + (perWind*(float64(wind)-wind0)-perHumidity*(float64(rhmin)-humidity0))*math.Pow(float64(height)/height0, power)
}

// Stages are the lengths of a growth's parts: bare start, development to full cover, full cover,
// ripening. They are counted all in days or all in C-days above 5 C.
type Stages struct{ Ini, Dev, Mid, Late float64 }

// GrowthDays are the stages of a growth in days as printed for Idaho: from green-up to the first cut,
// or from a cut to the next. Source: [source.CropWater], later growths [source.WaterRecalled].
func GrowthDays(first bool) Stages {
	if first {
		return Stages{10, 30, 25, 10}
	}
	return Stages{5, 20, 10, 10}
}

// WarmGrowthDays are the stages of a later growth as printed for California. Source:
// [source.WaterRecalled].
func WarmGrowthDays() Stages { return Stages{5, 10, 10, 5} }

// GrowthHeat are the stages of a growth in C-days above 5 C, so that a cold spring draws them out: the
// days of [GrowthDays] at 8 C-days a day in spring and 14 in summer. Source: [source.GrowthByHeat].
func GrowthHeat(first bool) Stages {
	const spring, summer = 8, 14
	if first {
		return GrowthDays(first).times(spring)
	}
	return GrowthDays(first).times(summer)
}

func (s Stages) times(f float64) Stages {
	return Stages{s.Ini * f, s.Dev * f, s.Mid * f, s.Late * f}
}

// Course is how Kc runs through a growth: level at the start, a straight line up to full cover, level,
// and a straight line to the end, where it stays until the crop is cut.
type Course struct {
	kc                  Kc
	start, full, ripens float64 // ends of the first three stages
	rise, fall          float64 // of Kc by day or C-day
}

// NewCourse lays the coefficients over the stages.
func NewCourse(kc Kc, s Stages) Course {
	c := Course{kc: kc, start: s.Ini, full: s.Ini + s.Dev, ripens: s.Ini + s.Dev + s.Mid}
	if s.Dev > 0 {
		c.rise = (kc.Mid - kc.Ini) / s.Dev
	}
	if s.Late > 0 {
		c.fall = (kc.End - kc.Mid) / s.Late
	}
	return c
}

// At is Kc so many days or C-days after green-up or the last cut. Source: [source.CropWater].
func (c *Course) At(since float64) float64 {
	if since < c.full {
		return c.kc.Ini + c.rise*max(0, since-c.start)
	}
	if since <= c.ripens {
		return c.kc.Mid
	}
	return c.late(since)
}

func (c *Course) late(since float64) float64 {
	k := c.kc.Mid + c.fall*(since-c.ripens)
	if c.fall < 0 {
		return max(c.kc.End, k)
	}
	return min(c.kc.End, k)
}
