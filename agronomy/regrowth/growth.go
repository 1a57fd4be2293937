package regrowth

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

// Water carries a root zone over a day, from what it lacks in the morning; cover is the share of sun
// caught then. It is [water.Bucket] with the share taken up freely held at its table value.
func (m *Model) Water(lacksMM, cover float64, s *Soil, d *Day) (nextMM, ks float64) {
	left := s.TAWmm - lacksMM
	ks = 1
	if left < s.scarceMM {
		ks = left / s.scarceMM
	}
	used := ks * d.EToMM * (m.KcBare + m.KcCover*cover)
	if used > left {
		used = left
	}
	nextMM = lacksMM + used - d.RainMM
	if nextMM < 0 {
		nextMM = 0
	}
	return nextMM, ks
}

func (m *Model) drink(c *Crop, s *Soil, d *Day, cover float64) float64 {
	c.LacksMM, c.Ks = m.Water(c.LacksMM, cover, s, d)
	return c.Ks
}

// Rest carries a stand over a day on which nothing grows: only the soil changes.
func (m *Model) Rest(c *Crop, s *Soil, d *Day) { m.drink(c, s, d, 0) }

// Grow carries a stand over a day of growth and returns what it added to the potential growth, kg/ha.
// It allocates nothing.
func (m *Model) Grow(c *Crop, s *Soil, d *Day) float64 {
	cover := m.Cover(c)
	return m.grow(c, d, cover, m.drink(c, s, d, cover))
}

func (m *Model) leafSpeed(reserve float64) float64 { return m.LeafEmpty + (1-m.LeafEmpty)*reserve }

// Tried is a crop on which days are tried without growing it.
type Tried struct{ field, perLight, shed, area, leaf, cap float64 }

// TryOn prepares a crop whose leaves are out.
func (m *Model) TryOn(c *Crop) Tried {
	t := Tried{field: c.FieldKg, perLight: m.Field * m.Cover(c) * m.fade(c.Heat), shed: m.Shed, area: c.LAI, leaf: m.LeafRegrowth, cap: m.LeafCap}
	if c.Seeded {
		t.perLight *= m.SeedlingShoots
	}
	if c.Growth == Seedling {
		t.leaf = m.LeafSeedling
	}
	t.leaf *= m.leafSpeed(c.FromR)
	return t
}

// Gain is what a day under a stress adds to the field mass, kg/ha, as [Model.Grow] would.
func (t *Tried) Gain(d *Day, ks float64) float64 {
	return max(-t.field, t.perLight*d.LightKg*d.Shoots*ks-t.shed*max(0, t.area+t.leaf*ks*d.LeafC-t.cap))
}

// GrowUnder is [Model.Grow] under a stress that is known, 1 being none; the soil stays as it is.
func (m *Model) GrowUnder(c *Crop, d *Day, ks float64) float64 { return m.grow(c, d, m.Cover(c), ks) }

// Cover is the share of the sun that the leaves catch.
func (m *Model) Cover(c *Crop) float64 {
	if c.LAI == m.LeafCap { // much of a summer
		return m.fullCover
	}
	return 1 - m.through.at(m.Extinction*c.LAI)
}

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

	// comparisons by hand: the built-in ones look for NaN, and this is run millions of times
	begun := m.LagC * (2 - c.FromR)
	if c.LeafC > begun {
		begun = c.LeafC
	}
	c.LeafC += d.LeafC
	if out := c.LeafC - begun; out > 0 {
		c.LAI += leaf * m.leafSpeed(c.FromR) * ks * out
	}
	c.FieldKg += m.Field * added
	if c.LAI > m.LeafCap {
		c.FieldKg -= m.Shed * (c.LAI - m.LeafCap)
		c.LAI = m.LeafCap
		if c.FieldKg < 0 {
			c.FieldKg = 0
		}
	}

	if warm := d.WarmC - m.Blooms[c.Growth].BaseC; warm > 0 {
		g := warm * m.perHeat[c.Growth]
		c.Heat += g
		c.Height += m.rise[c.Growth] * g * ks
		if c.Height > m.HeightTopCM {
			c.Height = m.HeightTopCM
		}
	}
	if warm := d.WarmC - m.ReserveBaseC; warm > 0 {
		if before := c.RootC; before < m.DrawHeatC {
			drawn := warm
			if before+warm > m.DrawHeatC {
				drawn = m.DrawHeatC - before
			}
			c.Reserve -= m.DrawDown * c.FromR * drawn / m.DrawHeatC
			if c.Reserve < 0 { // by rounding
				c.Reserve = 0
			}
		}
		c.RootC += warm
	}
	if c.RootC > m.DrawHeatC {
		c.Reserve += m.Refill * (made - added)
		if c.Reserve > 1 {
			c.Reserve = 1
		}
	}
	return added
}
