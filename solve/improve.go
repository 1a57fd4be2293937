package solve

import (
	"errors"
	"math"
)

// How hard neighbourhoods of the best answer are searched. All are choices.
const (
	firstTry    = 20  // nodes before the first
	partNodes   = 40  // nodes of one
	freedPart   = 0.2 // of the whole columns that are free in the first
	successTurn = 4   // nodes until the next after one that paid
)

// improve searches a neighbourhood of the best answer now and then: most whole columns stay as they
// are there, the others are free. By turns those are the columns in which the root's relaxation
// differs (after Danna, Rothberg and Le Pape 2005), or the columns of some rows drawn by chance. A
// search that does not pay is made less and less often, one that was over soon wider the next time,
// one that was not narrower.
func (t *tree) improve() {
	if t.part || t.best == nil || t.nodes < max(t.next, firstTry) || t.rootStart == nil {
		return
	}
	free := make([]bool, len(t.p.columns))
	if t.freed == 0 {
		t.freed = freedPart
	}
	drawn := t.chance.IntN(4) > 0
	if !drawn {
		for _, j := range t.wholes {
			free[j] = math.Abs(t.rootX[j]*t.s.colScale[j]-t.best.X[j]) > wholeness
		}
	} else {
		t.draw(free)
	}
	q := &Problem{sense: t.p.sense, rows: t.p.rows, columns: append([]column(nil), t.p.columns...)}
	for _, j := range t.wholes {
		if !free[j] {
			q.columns[j].low, q.columns[j].high = t.best.X[j], t.best.X[j]
		}
	}
	sub := newTree(t.ctx, q, Limits{Nodes: partNodes, Gap: t.l.Gap, Pivots: max(1, t.limit-t.pivots())})
	sub.part, sub.step = true, t.step
	sub.bestCost = t.bestCost
	sub.s.load(t.rootStart)
	a := sub.search()
	t.nodes += sub.nodes
	t.apart += sub.s.pivots
	if drawn {
		if errors.Is(a.Why, errNodes) {
			t.freed = max(t.freed*0.9, 0.02)
		} else {
			t.freed = min(t.freed*1.1, 0.8)
		}
	}
	if sub.best == nil || sub.bestCost >= t.bestCost {
		t.next = t.nodes + max(partNodes, (t.nodes-t.next)/2)
		return
	}
	a.Status, a.Why = Optimal, nil
	t.best, t.bestCost = a, sub.bestCost
	t.next = t.nodes + successTurn
}

// draw frees the whole columns of rows drawn by chance until a part of all is free.
func (t *tree) draw(free []bool) {
	want, freed := max(1, int(t.freed*float64(len(t.wholes)))), 0
	if t.s.m == 0 {
		return
	}
	for range 20 * t.s.m {
		index, _ := t.s.byRow.line(t.chance.IntN(t.s.m))
		for _, j := range index {
			if t.p.columns[j].whole && !free[j] {
				free[j] = true
				freed++
			}
		}
		if freed >= want {
			return
		}
	}
}
