package season

import (
	"math"

	"haywarden/agronomy/regrowth"
)

// standard is the crop of a node.
type standard struct{ field, share, height, reserve, lai float64 }

func (s *standard) crop(growth int, reserve, lacks float64) regrowth.Crop {
	return regrowth.Crop{Growth: growth, Reserve: s.reserve, FromR: reserve, Heat: s.share, LAI: s.lai, FieldKg: s.field, Height: s.height, LacksMM: lacks}
}

// prepare grows the standard crop of every node: from each day on, under each stress.
func (p *Plan) prepare(mean []regrowth.Day, evenings int) {
	base := p.f.Model.ReserveBaseC
	p.heat = make([]float64, evenings+1)
	for i := range evenings {
		p.heat[i+1] = p.heat[i] + max(0, mean[i].WarmC-base)
	}
	p.crops = make([][]standard, evenings)
	for t := p.from; t < evenings; t++ {
		p.crops[t] = make([]standard, p.nodes())
	}
	most := p.stepC * float64(p.heats-1)
	track := make([]standard, evenings+1)
	next := make([]standard, evenings+1)
	for _, g := range p.grown() {
		for r, reserve := range p.reserves {
			for k, lack := range p.lacks {
				if k > 0 && p.lacks[k] <= p.f.Model.Depletion*p.f.Soil.TAWmm { // stress begins here: the crop is that of a full soil
					p.copyLack(g, r, k, evenings)
					continue
				}
				_, ks := p.f.Model.Water(lack, 0, &p.f.Soil, &regrowth.Day{})
				for s := evenings; s >= 0; s-- { // the first day of growth
					p.grow(track, mean, g, reserve, ks, s, evenings, most)
					p.lay(track, next, g, r, k, s, evenings)
					track, next = next, track
				}
			}
		}
	}
}

// grow fills a track with the crop on each evening, its first day of growth being s.
func (p *Plan) grow(track []standard, mean []regrowth.Day, g int, reserve, ks float64, s, evenings int, most float64) {
	c := p.f.Model.Start(g, reserve, 0)
	for t := s; t <= evenings; t++ {
		// the crop in the morning of t is that of the evening before
		track[t] = standard{c.FieldKg, c.Heat, c.Height, c.Reserve, c.LAI}
		if t == evenings || p.heat[t]-p.heat[s] > most+p.stepC {
			for u := t + 1; u <= evenings; u++ {
				track[u] = track[t]
			}
			return
		}
		p.f.Model.GrowUnder(&c, &mean[t], ks)
	}
}

// lay writes into the nodes whose heat lies between that of a track begun on s and of the one begun a
// day later, which is next.
func (p *Plan) lay(track, next []standard, g, r, k, s, evenings int) {
	for t := max(p.from, s-1); t < evenings; t++ {
		low, high := 0.0, p.heat[t+1]-p.heat[s]
		if s <= t {
			low = p.heat[t+1] - p.heat[s+1]
		}
		first := int(math.Ceil(low/p.stepC - 1e-9))
		for j := first; j < p.heats && (float64(j)*p.stepC <= high+1e-9 || s == 0); j++ {
			to := &p.crops[t][p.node(g, j, r, k)]
			switch part := (float64(j)*p.stepC - low) / (high - low); {
			case s > t: // just cut
				*to = track[t+1]
			case !(high > low):
				*to = track[t+1]
			default:
				*to = mix(next[t+1], track[t+1], min(1, max(0, part)))
			}
		}
	}
}

func mix(a, b standard, part float64) standard {
	on := func(x, y float64) float64 { return x + (y-x)*part }
	return standard{on(a.field, b.field), on(a.share, b.share), on(a.height, b.height), on(a.reserve, b.reserve), on(a.lai, b.lai)}
}

// grown are the growths of the year.
func (p *Plan) grown() [growths - 1]int {
	return [growths - 1]int{p.first, regrowth.Second, regrowth.Later}
}

// copyLack takes over the crops of a full soil for the class at which stress begins.
func (p *Plan) copyLack(g, r, k, evenings int) {
	for t := p.from; t < evenings; t++ {
		for j := range p.heats {
			p.crops[t][p.node(g, j, r, k)] = p.crops[t][p.node(g, j, r, 0)]
		}
	}
}
