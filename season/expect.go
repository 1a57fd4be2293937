package season

import "slices"

// outlook is what a crop mown on a day comes to: on average, and in the worst fifth of cases.
type outlook struct{ mean, worst Fate }

// expect works out how what is told changes from day to day, and what a crop mown on a day comes to
// under each word, over the members and the days about.
func (p *Plan) expect(evenings int) {
	const about, prior, tail = 7, 0.5, 0.2
	p.told = make([][skies][skies]float64, evenings)
	p.fates = make([][skies]outlook, evenings)
	for t := p.from; t < evenings; t++ {
		for from := range skies {
			var to [skies]float64
			var of []weighed
			for i := range p.members {
				m := &p.members[i]
				for d := max(0, t-about); d <= min(t+about, len(m.Told)-1); d++ {
					if m.Told[d] != from {
						continue
					}
					of = append(of, weighed{m.Fates[d], m.Weight})
					if d+1 < len(m.Told) {
						to[m.Told[d+1]] += m.Weight
					}
				}
			}
			prior := prior / float64(len(p.members))
			switch {
			case to[Poor] > 0 && to[Good] > 0:
				prior = 0
			case to[Poor]+to[Good] == 0:
				to[from], prior = 1, 0 // never told: it is not come to
			}
			all := to[Poor] + to[Good] + 2*prior
			for s := range skies {
				p.told[t][from][s] = (to[s] + prior) / all
			}
			p.fates[t][from] = outlookOf(of, tail, Plain(p.f.Model))
		}
	}
}

type weighed struct {
	Fate
	weight float64
}

// outlookOf is the mean of fates and that of the worst, those with least kept and most fibre.
func outlookOf(of []weighed, tail float64, none Fate) outlook {
	if len(of) == 0 {
		return outlook{none, none}
	}
	slices.SortStableFunc(of, func(a, b weighed) int {
		const point = 0.01 // of what is kept for a point of NDF (choice)
		x, y := a.Kept-point*a.NDF, b.Kept-point*b.NDF
		switch {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	})
	var all float64
	for _, w := range of {
		all += w.weight
	}
	return outlook{meanFate(of, all), meanFate(of, tail*all)}
}

// meanFate is the mean of the first fates up to a weight.
func meanFate(of []weighed, weight float64) Fate {
	var f Fate
	var sum float64
	for _, w := range of {
		part := min(w.weight, weight-sum)
		if part <= 0 {
			break
		}
		f.Kept += part * w.Kept
		f.NDF += part * w.NDF
		f.ADF += part * w.ADF
		sum += part
	}
	return Fate{Kept: f.Kept / sum, NDF: f.NDF / sum, ADF: f.ADF / sum, Clean: of[0].Clean}
}
