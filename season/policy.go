package season

import "haywarden/agronomy/regrowth"

// Choice is what cutting and waiting are worth in a state, $/ac to the end of the stand's life.
type Choice struct{ Cut, Wait float64 }

// Weigh reads a stand's own state off the plan.
func (p *Plan) Weigh(t int, c *regrowth.Crop, told Sky) Choice {
	cut := p.worth(c, t, told)
	usual := p.standard(t, c)
	usual.FieldKg, usual.LAI = c.FieldKg, c.LAI
	wait := cut - p.worth(&usual, t, told) // what its height and stage are worth beside the standard's
	if t+1 < len(p.values) {
		wait += p.overnight(t, c, told)
	} else {
		wait += p.f.winter(c.Reserve)
	}
	return Choice{Cut: cut + p.stubble(t, c)[told], Wait: wait}
}

// overnight is what a crop that is left standing is worth.
func (p *Plan) overnight(t int, c *regrowth.Crop, told Sky) (worth float64) {
	ri, rp := between(p.reserves, c.FromR)
	cover, tried := p.f.Model.Cover(c), p.f.Model.TryOn(c)
	row := len(p.reserves) * len(p.lacks)
	to := &p.told[t][told]
	for m := range p.members {
		d := &p.members[m].Days[t+1]
		lacks, ks := p.f.Model.Water(c.LacksMM, cover, &p.f.Soil, d)
		hj, hp := p.heatAt(c.RootC + max(0, d.WarmC-p.f.Model.ReserveBaseC))
		lk, lp := between(p.lacks, lacks)
		grown := c.FieldKg + tried.Gain(d, ks)
		for at, w := range [8]float64{
			(1 - hp) * (1 - rp) * (1 - lp), (1 - hp) * (1 - rp) * lp, (1 - hp) * rp * (1 - lp), (1 - hp) * rp * lp,
			hp * (1 - rp) * (1 - lp), hp * (1 - rp) * lp, hp * rp * (1 - lp), hp * rp * lp,
		} {
			i := p.node(c.Growth, hj, ri+at>>1&1, lk+at&1) + at>>2*row
			v := &p.values[t+1][i]
			off := grown - p.crops[t+1][i].field
			for s := range skies {
				worth += p.members[m].Weight * w * to[s] * (v.worth[s] + v.mass[s]*off)
			}
		}
	}
	return worth
}

// standard is the standard crop of a stand's state.
func (p *Plan) standard(t int, c *regrowth.Crop) regrowth.Crop {
	hj, hp := p.heatAt(c.RootC)
	ri, rp := between(p.reserves, c.FromR)
	lk, lp := between(p.lacks, c.LacksMM)
	of := func(j, r int) standard {
		return mix(p.crops[t][p.node(c.Growth, j, r, lk)], p.crops[t][p.node(c.Growth, j, r, lk+1)], lp)
	}
	s := mix(mix(of(hj, ri), of(hj+1, ri), hp), mix(of(hj, ri+1), of(hj+1, ri+1), hp), rp)
	return s.crop(c.Growth, c.FromR, c.LacksMM)
}

// Cuts implements [Cutter].
func (p *Plan) Cuts(day, _ int, c *regrowth.Crop, told Sky) bool {
	if day < p.from || day >= len(p.values) {
		return false
	}
	w := p.Weigh(day, c, told)
	return w.Cut > w.Wait
}
