package season

import (
	"fmt"
	"math"

	"haywarden/agronomy/regrowth"
)

// Plan is what every state of a stand is worth on every evening from a day to the end of growth, and so
// what to do in it. Its state is the day, the heat since the last cut, the class of the reserve that the
// growth came from and the class of the soil's water; beside them stands what is told of haymaking
// weather. The members only sample the next state: what a member will bring later is not known to the
// decision before it comes.
//
//	V(t, x) = max( wait, cut ),   wait = E V(t+1, x grown a day),   cut = worth of the cut + E V(t+1, stubble grown a day)
//
// Between classes values lie on straight lines. What a crop of a class weighs and tests is that of a
// standard crop: grown through the members' mean weather under the stress of its class. A real crop's
// difference from the standard one is carried along at what mass is worth in its state.
type Plan struct {
	f       *Field
	from    int // first evening
	members []Member
	caution float64
	first   int // growth that the year begins with
	grid
	heat   []float64    // mean heat above 5 C before each day of the year
	crops  [][]standard // by evening and node
	values [][]state    // by evening and node: V
	carry  [][]state    // by evening and node: the worth of going into the night as one is
	told   [][skies][skies]float64
	fates  [][skies]outlook
}

// state is what a state is worth by what is told, $/ac, and what another kg/ha of field mass in it is: so
// that a day's growth counts as it was, and not as that of the standard crops it lies between.
type state struct{ worth, mass [skies]float64 }

// ahead is a state of the next evening by what is told today, with the field mass of its standard crop.
type ahead struct {
	state
	field float64
}

// Options set how finely a plan is made. The zero value is the usual.
type Options struct {
	From    int     // first evening, 0 is 1 January
	Caution float64 // weight of the worst fifth of fates against the mean, 0 to 1
	Seeding bool    // of a stand in its seeding year
	StepC   float64 // between classes of heat
	Heats   int
}

// Make works a plan out. It asks for members whose weights add up to 1, each with a fate and a word told
// for every day.
func Make(f *Field, members []Member, o Options) (*Plan, error) {
	if len(members) == 0 {
		return nil, fmt.Errorf("no member says how the weather may go: a plan wants one at least")
	}
	if !(o.Caution >= 0 && o.Caution <= 1) {
		return nil, fmt.Errorf("caution %g: accepted 0 to 1", o.Caution)
	}
	const usualStep, usualHeats = 45, 22
	p := &Plan{f: f, from: o.From, members: members, caution: o.Caution, first: regrowth.First}
	if o.Seeding {
		p.first = regrowth.Seedling
	}
	p.stepC, p.heats = usualStep, usualHeats
	if o.StepC > 0 {
		p.stepC, p.heats = o.StepC, o.Heats
	}
	taw := f.Soil.TAWmm
	p.reserves = []float64{0.3, 1}
	// where soil begins to dry, classes stand close: far ones would spread a drought over days that are none
	for _, share := range [...]float64{0, 0.4, 0.55, 0.65, 0.75, 0.85, 0.95} {
		p.lacks = append(p.lacks, share*taw)
	}
	mean := Mean(members)
	end := 0.0
	for i := range members {
		m := &members[i]
		if len(m.Fates) < len(mean) || len(m.Told) < len(mean) {
			return nil, fmt.Errorf("member %d: %d days, %d fates and %d words: want one of each a day", i+1, len(m.Days), len(m.Fates), len(m.Told))
		}
		end += m.Weight * float64(regrowth.Fall(m.Days, KillC))
	}
	evenings := int(math.Round(end))
	if p.from < 0 || p.from >= evenings {
		return nil, fmt.Errorf("a plan from day %d of a year whose growth ends on day %d", p.from+1, evenings)
	}
	p.prepare(mean, evenings)
	p.expect(evenings)
	p.solve(evenings)
	return p, nil
}

// worth is a cut of a crop on an evening as it is told.
func (p *Plan) worth(c *regrowth.Crop, t int, told Sky) float64 {
	o := &p.fates[t][told]
	w := p.f.Reckon(c, t, o.mean).Worth
	if p.caution > 0 {
		w += p.caution * (p.f.Reckon(c, t, o.worst).Worth - w)
	}
	return w
}

// solve goes back from the last evening.
func (p *Plan) solve(evenings int) {
	n := p.nodes()
	p.values, p.carry = make([][]state, evenings), make([][]state, evenings)
	for t := evenings - 1; t >= p.from; t-- {
		p.values[t], p.carry[t] = make([]state, n), make([]state, n)
		if t == evenings-1 {
			for i := range n {
				w := p.f.winter(p.crops[t][i].reserve)
				p.carry[t][i].worth = [skies]float64{w, w}
			}
		} else {
			p.night(t)
		}
		p.decide(t)
	}
}

// night works out what each state is worth as it goes into the night: the mean over the members' next
// day of what it will be worth then.
func (p *Plan) night(t int) {
	next := p.ahead(t)
	type step struct {
		heat int
		part float64
	}
	steps := make([]step, len(p.members))
	for _, g := range p.grown() {
		low, high := p.span(g, t)
		for j := low; j <= high; j++ {
			for m := range p.members {
				steps[m].heat, steps[m].part = p.heatAt(float64(j)*p.stepC + max(0, p.members[m].Days[t+1].WarmC-p.f.Model.ReserveBaseC))
			}
			for r, reserve := range p.reserves {
				for k, lack := range p.lacks {
					i := p.node(g, j, r, k)
					c := p.crops[t][i].crop(g, reserve, lack)
					c.Seeded = p.first == regrowth.Seedling
					cover, tried := p.f.Model.Cover(&c), p.f.Model.TryOn(&c)
					var sum state
					for m := range p.members {
						w := &p.members[m]
						d := &w.Days[t+1]
						lacks, ks := p.f.Model.Water(lack, cover, &p.f.Soil, d)
						lk, lp := between(p.lacks, lacks)
						var to ahead
						p.add(&to, next, p.node(g, steps[m].heat, r, lk), steps[m].part, lp, 1)
						gain := c.FieldKg + tried.Gain(d, ks) - to.field
						for s := range skies {
							sum.worth[s] += w.Weight * (to.worth[s] + to.mass[s]*gain)
							sum.mass[s] += w.Weight * to.mass[s]
						}
					}
					p.carry[t][i] = sum
				}
			}
		}
	}
}

// ahead is each state of the next evening by what is told today.
func (p *Plan) ahead(t int) []ahead {
	out := make([]ahead, p.nodes())
	for _, g := range p.grown() {
		for i := p.node(g, 0, 0, 0); i < p.node(g+1, 0, 0, 0); i++ {
			v := &p.values[t+1][i]
			out[i].field = p.crops[t+1][i].field
			for s := range skies {
				to := &p.told[t][s]
				out[i].worth[s] = to[Poor]*v.worth[Poor] + to[Good]*v.worth[Good]
				out[i].mass[s] = to[Poor]*v.mass[Poor] + to[Good]*v.mass[Good]
			}
		}
	}
	return out
}

// add adds what lies between four nodes, of which i is the least.
func (p *Plan) add(sum *ahead, v []ahead, i int, hp, lp, weight float64) {
	row := len(p.reserves) * len(p.lacks)
	a, b, c, d := &v[i], &v[i+1], &v[i+row], &v[i+row+1]
	wa, wb, wc, wd := weight*(1-hp)*(1-lp), weight*(1-hp)*lp, weight*hp*(1-lp), weight*hp*lp
	for s := range skies {
		sum.worth[s] += wa*a.worth[s] + wb*b.worth[s] + wc*c.worth[s] + wd*d.worth[s]
		sum.mass[s] += wa*a.mass[s] + wb*b.mass[s] + wc*c.mass[s] + wd*d.mass[s]
	}
	sum.field += wa*a.field + wb*b.field + wc*c.field + wd*d.field
}

// decide takes the better of waiting and cutting in every state.
func (p *Plan) decide(t int) {
	for _, g := range p.grown() {
		low, high := p.span(g, t)
		for j := low; j <= high; j++ {
			since := p.since(t, float64(j)*p.stepC)
			if g == regrowth.First || g == regrowth.Seedling {
				since = -1
			}
			may := p.f.Rules.allow(t, since)
			for r, reserve := range p.reserves {
				for k, lack := range p.lacks {
					i := p.node(g, j, r, k)
					v := p.carry[t][i]
					if c := p.crops[t][i].crop(g, reserve, lack); may && p.f.ripe(&c) {
						after := p.stubble(t, &c)
						for s := range skies {
							now := p.worth(&c, t, s)
							if cut := now + after[s]; cut > v.worth[s] {
								v.worth[s], v.mass[s] = cut, (now+p.f.Prices.PerCut)/p.f.Model.Standing(&c)
							}
						}
					}
					p.values[t][i] = v
				}
			}
		}
		p.spread(g, t, low, high)
	}
}

// span is the classes of heat that a growth can have on an evening, with room to spare: no more than the
// warmest year brings, and of a growth that began in spring not much less than the coldest.
func (p *Plan) span(g, t int) (low, high int) {
	const (
		warmer, colder = 1.3, 0.6 // beside the mean year
		roomC          = 150
	)
	if p.stepC*float64(p.heats) < roomC*2 {
		return 0, p.heats - 1
	}
	high = min(p.heats-1, int((warmer*p.heat[t+1]+roomC)/p.stepC)+1)
	if g == regrowth.First {
		low = max(0, min(high-1, int((colder*p.heat[t+1]-roomC)/p.stepC)))
	}
	return low, high
}

// spread gives the classes beside the span what its ends are worth, so that a step beyond them finds
// something.
func (p *Plan) spread(g, t, low, high int) {
	row := len(p.reserves) * len(p.lacks)
	for j := range p.heats {
		from := min(max(j, low), high)
		if from == j {
			continue
		}
		copy(p.values[t][p.node(g, j, 0, 0):][:row], p.values[t][p.node(g, from, 0, 0):][:row])
	}
}

// stubble is what a crop is worth once it is cut.
func (p *Plan) stubble(t int, c *regrowth.Crop) (worth [skies]float64) {
	next := regrowth.Second
	if c.Growth != regrowth.Seedling {
		next = min(regrowth.Later, c.Growth+1)
	}
	ri, rp := between(p.reserves, c.Reserve)
	lk, lp := between(p.lacks, c.LacksMM)
	at := func(r, k int) *state { return &p.carry[t][p.node(next, 0, r, k)] }
	for s := range skies {
		low := at(ri, lk).worth[s]*(1-lp) + at(ri, lk+1).worth[s]*lp
		high := at(ri+1, lk).worth[s]*(1-lp) + at(ri+1, lk+1).worth[s]*lp
		worth[s] = low*(1-rp) + high*rp
	}
	return worth
}

// since is how many days of the mean year make so much heat up to an evening.
func (p *Plan) since(t int, heat float64) int {
	s := t
	for s > 0 && p.heat[t+1]-p.heat[s+1] < heat {
		s--
	}
	return t - s
}
