package regrowth

// Steady is what one growth of a steady rhythm comes to.
type Steady struct {
	KgHa    float64 // potential growth
	FieldKg float64 // cut and weighed, kg/ha, with the usual loss
	Stage   float64
	Height  float64 // cm
	Reserve float64 // as it is cut
}

// Interval cuts alfalfa every so many days under the same weather until one growth is like the last: a
// second growth in the long days of summer, at a mean temperature, sun and stress that do not change.
func (m *Model) Interval(days int, meanC, solarMJ, ks float64) Steady {
	const growths = 300 // a reserve of 0.2 has long settled
	d := m.day(meanC, solarMJ, m.ShootsSummer)
	c := m.Start(Second, 1, 0)
	var s Steady
	for range growths {
		for range days {
			m.GrowUnder(&c, &d, ks)
		}
		s = Steady{KgHa: c.KgHa, Stage: m.StageOf(&c), Height: c.Height, Reserve: c.Reserve}
		s.FieldKg = m.Cut(&c) * (1 - m.UsualLoss)
		c.Growth = Second
	}
	return s
}
