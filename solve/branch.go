package solve

import (
	"container/heap"
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
)

// Limits bound a search. The zero value asks for the optimum within a millionth and lets the context
// alone end it.
type Limits struct {
	Nodes  int     // of branch and bound; 0: no limit
	Pivots int     // of the simplex, in all; 0: more than any sound problem takes
	Gap    float64 // of whole-number answers, as a part of the objective; 0: 1e-6
}

// Why a search over whole numbers stops by itself.
var (
	errNodes   = errors.New("solve: the limit of nodes is reached")
	errEndless = errors.New("solve: without whole numbers the objective has no bound")
)

// pivotLimit is the asked one, or one that only a search gone astray reaches.
func pivotLimit(p *Problem, asked int) int {
	if asked > 0 {
		return asked
	}
	return 1000 + 200*(len(p.rows)+len(p.columns))
}

// Solve finds the best answer to a problem. The error is a fault in what was asked; a problem without
// an answer is told by the answer's status. When the context ends first, the status is [Stopped] and the
// best found so far stands in the answer.
func Solve(ctx context.Context, p *Problem, l Limits) (*Answer, error) {
	if err := p.Err(); err != nil {
		return nil, err
	}
	if !(l.Gap >= 0) || l.Nodes < 0 || l.Pivots < 0 {
		return nil, fmt.Errorf("solve: limits: gap %g, nodes %d, pivots %d: accepted 0 and over", l.Gap, l.Nodes, l.Pivots)
	}
	var a *Answer
	if p.wholes() {
		a = newTree(ctx, p, l).search()
	} else {
		a = relax(ctx, p, pivotLimit(p, l.Pivots))
	}
	if a.Ray != nil && a.Status == Infeasible {
		a.Blame = p.blame(ctx, a.Ray)
	}
	return a, nil
}

// tree is a search over whole numbers.
type tree struct {
	p         *Problem
	l         Limits
	s         *simplex
	ctx       context.Context
	limit     int
	wholes    []int
	open      queue
	set       []int // columns whose bounds differ from the root's
	best      *Answer
	bestCost  float64 // scaled
	step      float64 // scaled: whole-number answers differ by a multiple; 0: by anything
	nodes     int
	learned   [2][]history // down, up; by column
	rootBound float64
	pruned    float64   // the lowest bound among the parts that were given up as no better
	rootD     []float64 // reduced costs at the root
	rootX     []float64
	rootStart *start
	apart     int        // pivots of searches in neighbourhoods
	chance    *rand.Rand // seeded alike for every search: the same problem gets the same answer
	next      int        // the node from which on a neighbourhood is searched again
	freed     float64    // part of the whole columns that a neighbourhood frees
	part      bool       // this is such a search
}

// pivots are all that the search has made.
func (t *tree) pivots() int { return t.s.pivots + t.apart }

func newTree(ctx context.Context, p *Problem, l Limits) *tree {
	t := &tree{p: p, l: l, ctx: ctx, bestCost: math.Inf(1), pruned: math.Inf(1), chance: rand.New(rand.NewPCG(1, 2)), limit: pivotLimit(p, l.Pivots)}
	if l.Gap == 0 {
		t.l.Gap = 1e-6
	}
	if l.Pivots == 0 {
		t.limit = math.MaxInt
	}
	f := newModel(p)
	for j, c := range p.columns {
		if !c.whole {
			continue
		}
		t.wholes = append(t.wholes, j)
		f.low[j] = math.Ceil(c.low-wholeness) / f.colScale[j]
		f.high[j] = math.Floor(c.high+wholeness) / f.colScale[j]
	}
	t.step = p.costStep() * f.costScale
	t.s = newSimplex(ctx, f, pivotLimit(p, l.Pivots))
	for up := range t.learned {
		t.learned[up] = make([]history, len(p.columns))
	}
	return t
}

// costStep is the step in which the objective moves where every cost is whole and falls on a whole
// column: the costs' greatest common divisor. 0: it moves by anything.
func (p *Problem) costStep() float64 {
	step := 0.
	for _, c := range p.columns {
		if c.cost == 0 {
			continue
		}
		if !c.whole || c.cost != math.Round(c.cost) || math.Abs(c.cost) > 1e9 {
			return 0
		}
		for a, b := math.Abs(c.cost), step; ; a, b = b, math.Mod(a, b) {
			if b == 0 {
				step = a
				break
			}
		}
	}
	return step
}

func (t *tree) search() *Answer {
	for _, j := range t.wholes {
		if t.s.low[j] > t.s.high[j] { // 0.2 to 0.8 holds no whole number
			return &Answer{Status: Infeasible, Bound: t.p.sense * math.Inf(1), Blame: Blame{Columns: []Column{Column(j)}}}
		}
	}
	heap.Push(&t.open, &node{column: -1, bound: math.Inf(-1)})
	var why error
	for len(t.open) > 0 && why == nil {
		n := heap.Pop(&t.open).(*node)
		if t.hopeless(n.bound) { // and so are all that are still open
			break
		}
		if why = t.plunge(n); why == nil {
			t.improve()
		}
	}
	if !t.part && (errors.Is(why, errEndless) || t.best == nil && why == nil) { // the evidence, if any, needs no whole numbers
		if a := relax(t.ctx, t.p, t.limit); a.Status == Infeasible || a.Status == Unbounded {
			a.Found = a.Found && t.integral(a.X)
			a.Nodes, a.Pivots = t.nodes, a.Pivots+t.pivots()
			return a
		}
	}
	return t.answer(why)
}

// answer sums the search up.
func (t *tree) answer(why error) *Answer {
	a := t.best
	if a == nil {
		a = &Answer{Status: Infeasible, Bound: t.p.sense * math.Inf(1)}
	}
	a.Nodes, a.Pivots = t.nodes, t.pivots()
	bound := min(t.bestCost, t.pruned)
	for _, n := range t.open {
		bound = min(bound, n.bound)
	}
	if why != nil {
		a.Status, a.Why = Stopped, why
		if math.IsInf(bound, 0) {
			a.Bound = -t.p.sense * math.Inf(1)
			return a
		}
	}
	if t.best == nil && why == nil {
		return a
	}
	if bound = max(bound, t.rootBound); t.step > 0 {
		bound = t.step * math.Ceil(bound/t.step-1e-7)
	}
	a.Bound = t.p.sense * bound / t.s.costScale
	if t.best != nil {
		if t.p.sense*(a.Bound-a.Objective) > 0 {
			a.Bound = a.Objective
		}
		a.Gap = math.Abs(a.Objective-a.Bound) / max(math.Abs(a.Objective), 1e-9)
	}
	return a
}

// hopeless reports whether nothing with the bound can beat the best by more than the gap.
func (t *tree) hopeless(bound float64) bool {
	if bound <= t.target() {
		return false
	}
	t.pruned = min(t.pruned, bound)
	return true
}

// target is the cost that a better answer must stay under.
func (t *tree) target() float64 {
	if math.IsInf(t.bestCost, 1) {
		return t.bestCost
	}
	allowed := t.l.Gap * math.Abs(t.bestCost)
	if t.step > 0 {
		allowed = max(allowed, t.step*(1-1e-6))
	}
	return t.bestCost - allowed
}

// plunge follows a node down, one child after another, and leaves the others open. The node that it
// cannot finish goes back.
func (t *tree) plunge(n *node) error {
	t.enter(n)
	for n != nil {
		if t.l.Nodes > 0 && t.nodes >= t.l.Nodes {
			heap.Push(&t.open, n)
			return errNodes
		}
		if err := t.ctx.Err(); err != nil {
			heap.Push(&t.open, n)
			return err
		}
		if t.pivots() >= t.limit {
			heap.Push(&t.open, n)
			return errPivots
		}
		t.nodes++
		t.s.limit = min(t.limit-t.pivots(), pivotLimit(t.p, 0)) + t.s.pivots
		t.s.cutoff = t.target()
		out, err := t.s.run(false)
		switch out {
		case nothing:
			return nil
		case beyond:
			t.pruned = min(t.pruned, max(n.bound, t.s.cutoff))
			return nil
		case endless:
			return errEndless
		case halted:
			heap.Push(&t.open, n)
			return err
		default:
		}
		n = t.judge(n)
	}
	return nil
}

// judge looks at a solved node: it is a leaf (nil), or is parted and the child to follow returned.
func (t *tree) judge(n *node) *node {
	cost := t.s.objective()
	t.learn(n, cost)
	n.bound = max(n.bound, cost)
	if n.column < 0 {
		t.rootBound = cost
		t.rootD, t.rootX = slices.Clone(t.s.d), slices.Clone(t.s.x)
		t.rootStart = t.s.save()
	}
	if t.hopeless(n.bound) {
		return nil
	}
	j := t.branching()
	if j < 0 {
		t.accept()
		return nil
	}
	t.round()
	if t.hopeless(n.bound) {
		return nil
	}
	return t.split(n, j)
}

// split makes the two children of a node, leaves one open and sets the simplex on the other.
func (t *tree) split(n *node, j int) *node {
	scale := t.s.colScale[j]
	v := t.s.x[j] * scale
	floor := math.Floor(v)
	at := t.s.save()
	down := &node{parent: n, column: j, low: t.s.low[j], high: floor / scale, bound: n.bound, depth: n.depth + 1, start: at, fraction: v - floor}
	up := &node{parent: n, column: j, low: (floor + 1) / scale, high: t.s.high[j], bound: n.bound, depth: n.depth + 1, start: at, fraction: floor + 1 - v, up: true}
	n.start = nil
	first, second := up, down
	if v-floor < 0.5 && t.best != nil || v-floor < 0.2 {
		first, second = down, up
	}
	heap.Push(&t.open, second)
	t.narrow(first)
	t.s.point()
	return first
}

// narrow puts a node's own bounds in force.
func (t *tree) narrow(n *node) {
	t.s.bound(n.column, n.low, n.high)
	t.set = append(t.set, n.column)
}

// enter sets the simplex on a node from anywhere in the tree.
func (t *tree) enter(n *node) {
	for _, j := range t.set {
		t.s.bound(j, t.s.model.low[j], t.s.model.high[j])
	}
	t.set = t.set[:0]
	t.fix()
	var path []*node
	for at := n; at != nil && at.column >= 0; at = at.parent {
		path = append(path, at)
	}
	if n.start != nil {
		t.s.load(n.start)
	}
	for _, at := range slices.Backward(path) {
		t.narrow(at)
	}
	t.s.point()
}

// fix narrows for good the whole columns that cannot move from their bound at the root without costing
// more than the best answer.
func (t *tree) fix() {
	if t.rootD == nil || math.IsInf(t.bestCost, 1) {
		return
	}
	room := t.target() - t.rootBound
	for _, j := range t.wholes {
		f := t.s.model
		if d := t.rootD[j]; math.Abs(d) > optimal && f.low[j] < f.high[j] && math.Abs(d)/t.s.colScale[j] > room+optimal {
			f.low[j], f.high[j] = t.rootX[j], t.rootX[j]
			t.s.bound(j, f.low[j], f.high[j])
		}
	}
}
