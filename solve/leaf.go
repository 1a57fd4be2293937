package solve

import "math"

// history is what branching on a column has cost so far.
type history struct {
	cost  float64 // for each unit that the column moved, added up
	times int
}

// learn notes what the last branching cost.
func (t *tree) learn(n *node, cost float64) {
	if n.column < 0 || n.fraction < wholeness || math.IsInf(n.bound, 0) {
		return
	}
	h := &t.learned[side(n.up)][n.column]
	h.cost += max(0, cost-n.bound) / n.fraction
	h.times++
}

func side(up bool) int {
	if up {
		return 1
	}
	return 0
}

// branching picks the column whose two children promise to raise the bound most, by what branching on
// it has cost so far or, where that is not known, on the average. -1: all are whole.
func (t *tree) branching() int {
	var mean [2]float64
	for up := range mean {
		sum, times := 0., 0
		for _, j := range t.wholes {
			sum += t.learned[up][j].cost
			times += t.learned[up][j].times
		}
		if mean[up] = 1; times > 0 {
			mean[up] = sum/float64(times) + 1e-9
		}
	}
	best, pick := -1., -1
	for _, j := range t.wholes {
		v := t.s.x[j] * t.s.colScale[j]
		f := v - math.Floor(v)
		if math.Abs(v-math.Round(v)) <= wholeness {
			continue
		}
		// Small rises of both sides count more than a large one of one side: their product.
		score := 1.
		for up, by := range [2]float64{f, 1 - f} {
			each := mean[up]
			if h := t.learned[up][j]; h.times > 0 {
				each = h.cost / float64(h.times)
			}
			score *= max(each*by, 1e-7)
		}
		if score > best {
			best, pick = score, j
		}
	}
	return pick
}

func (t *tree) integral(x []float64) bool {
	if x == nil {
		return false
	}
	for _, j := range t.wholes {
		if math.Abs(x[j]-math.Round(x[j])) > wholeness {
			return false
		}
	}
	return true
}

// accept takes the point of the simplex as an answer, with its whole columns made exactly whole and
// the rest solved anew around them.
func (t *tree) accept() {
	s := t.s
	x := make([]float64, len(t.wholes))
	for k, j := range t.wholes {
		x[k] = math.Round(s.x[j] * s.colScale[j])
	}
	t.try(x)
}

// round tries the nearest whole numbers of the point while there is no answer yet or the point is near
// one.
func (t *tree) round() {
	if t.nodes > 1 && t.nodes%16 != 0 {
		return
	}
	t.accept()
}

// try fixes the whole columns and solves for the rest; a better answer is kept. The simplex is left as
// it was.
func (t *tree) try(x []float64) {
	s := t.s
	at := s.save()
	type pair struct{ low, high float64 }
	was := make([]pair, len(t.wholes))
	for k, j := range t.wholes {
		was[k] = pair{s.low[j], s.high[j]}
		v := min(max(x[k]/s.colScale[j], s.low[j]), s.high[j])
		x[k] = v * s.colScale[j]
		s.bound(j, v, v)
	}
	s.point()
	s.cutoff = t.target()
	if out, _ := s.run(true); out == done && s.objective() < t.target() {
		a := &Answer{Status: Optimal}
		s.report(t.p, a)
		for k, j := range t.wholes {
			a.X[j] = x[k]
		}
		a.Activity = t.p.activity(a.X)
		t.best, t.bestCost = a, s.objective()
	}
	for k, j := range t.wholes {
		s.bound(j, was[k].low, was[k].high)
	}
	s.load(at)
}
