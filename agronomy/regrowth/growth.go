package regrowth

import "math"

// Crop is the state of a stand: what a growth has come to since the last cut, the reserve that it came
// from, and the soil. The zero value is no crop: start with [Model.Start].
type Crop struct {
	Growth  int     // see [First]
	Seeded  bool    // this year: all its growths send more to the roots
	Reserve float64 // in crown and roots, 0 to 1
	FromR   float64 // reserve as the growth began
	Heat    float64 // share of the heat to one-tenth bloom
	LeafC   float64 // leaf heat of this growth, C-days
	RootC   float64 // heat above 5 C of this growth, C-days
	LAI     float64
	KgHa    float64 // potential growth W, kg/ha
	FieldKg float64 // field mass A, kg/ha
	Height  float64 // cm
	LacksMM float64 // below field capacity
	Ks      float64 // what dry soil left of yesterday's growth, 0 to 1
}

// Start is a stand as a growth begins.
func (m *Model) Start(growth int, reserve, lacksMM float64) Crop {
	c := Crop{Growth: growth, Seeded: growth == Seedling, Reserve: reserve, LacksMM: lacksMM, Ks: 1}
	m.begin(&c, growth)
	return c
}

func (m *Model) begin(c *Crop, growth int) {
	*c = Crop{Growth: growth, Seeded: c.Seeded, Reserve: c.Reserve, FromR: c.Reserve, LacksMM: c.LacksMM, Ks: c.Ks, LAI: m.LeafStart}
}

// Cut takes the growth away: what stands above the stubble, kg/ha of the field mass, before stand, age
// and loss. In the seeding year the next growth is a summer's, the second of a year (choice).
func (m *Model) Cut(c *Crop) (standingKg float64) {
	standingKg = m.Standing(c)
	next := Second
	if c.Growth != Seedling {
		next = min(Later, c.Growth+1)
	}
	m.begin(c, next)
	return standingKg
}

// Standing is what stands above the stubble, kg/ha of the field mass, before stand, age and loss.
func (m *Model) Standing(c *Crop) float64 { return max(0, c.FieldKg-m.Stubble) }

// StageOf is the stage of the crop on the 0-9 scale.
func (m *Model) StageOf(c *Crop) float64 { return m.Stage(c.Heat) }

// Soil is the root zone of a stand.
type Soil struct {
	TAWmm    float64
	scarceMM float64
}

// SoilOf prepares a root zone that holds so much water between field capacity and wilting point.
func (m *Model) SoilOf(tawMM float64) Soil { return Soil{tawMM, (1 - m.Depletion) * tawMM} }

// drink carries the root zone over a day; cover is the share of sun caught in the morning. It is
// [water.Bucket] with the share taken up freely held at its table value.
func (m *Model) drink(c *Crop, s *Soil, d *Day, cover float64) (ks float64) {
	left := s.TAWmm - c.LacksMM
	ks = 1
	if left < s.scarceMM {
		ks = left / s.scarceMM
	}
	c.LacksMM = max(0, c.LacksMM+min(left, ks*d.EToMM*(m.KcBare+m.KcCover*cover))-d.RainMM)
	c.Ks = ks
	return ks
}

// Rest carries a stand over a day on which nothing grows: only the soil changes.
func (m *Model) Rest(c *Crop, s *Soil, d *Day) { m.drink(c, s, d, 0) }

// Grow carries a stand over a day of growth and returns what it added to the potential growth, kg/ha.
// It allocates nothing.
func (m *Model) Grow(c *Crop, s *Soil, d *Day) float64 {
	cover := m.cover(c)
	return m.grow(c, d, cover, m.drink(c, s, d, cover))
}

// cover is the share of the sun that the leaves catch.
func (m *Model) cover(c *Crop) float64 { return 1 - math.Exp(-m.Extinction*c.LAI) }

// grow is a day of growth under a stress that is known.
func (m *Model) grow(c *Crop, d *Day, cover, ks float64) float64 {
	shoots, leaf := d.Shoots, m.LeafRegrowth
	if c.Seeded {
		shoots *= m.SeedlingShoots
	}
	if c.Growth == Seedling {
		leaf = m.LeafSeedling
	}
	made := d.LightKg * cover * ks
	if c.Heat > m.heatOfFade {
		made *= m.fade(c.Heat)
	}
	added := made * shoots
	c.KgHa += added

	begun := max(c.LeafC, m.LagC*(2-c.FromR))
	c.LeafC += d.LeafC
	area := c.LAI + leaf*(m.LeafEmpty+(1-m.LeafEmpty)*c.FromR)*ks*max(0, c.LeafC-begun)
	c.LAI = min(m.LeafCap, area)
	c.FieldKg = max(0, c.FieldKg+m.Field*added-m.Shed*(area-c.LAI))

	if b := &m.Blooms[c.Growth]; d.WarmC > b.BaseC {
		g := (d.WarmC - b.BaseC) / b.CDays
		c.Heat += g
		c.Height = min(m.HeightTopCM, c.Height+m.BudCM[c.Growth]/m.heatOfBud*g*ks)
	}
	if warm := d.WarmC - m.ReserveBaseC; warm > 0 {
		before := c.RootC
		c.RootC += warm
		if before < m.DrawHeatC {
			c.Reserve -= m.DrawDown * c.FromR * (min(c.RootC, m.DrawHeatC) - before) / m.DrawHeatC
		}
	}
	if c.RootC > m.DrawHeatC {
		c.Reserve = min(1, c.Reserve+m.Refill*(made-added))
	}
	return added
}
