package solve

import "slices"

// node is a part of the problem: the bounds of some whole columns narrowed.
type node struct {
	parent    *node
	column    int
	low, high float64 // scaled, of column
	bound     float64 // scaled objective that nothing in it beats
	depth     int
	start     *start  // where its parent ended
	fraction  float64 // how far the column moves to its new bound: for learning what branching costs
	up        bool
}

// start is a basis to begin from.
type start struct {
	place  []place
	weight []float64
}

// queue hands out the node with the best bound, of equals the deepest.
type queue []*node

func (q queue) Len() int { return len(q) }
func (q queue) Less(i, j int) bool {
	if q[i].bound != q[j].bound {
		return q[i].bound < q[j].bound
	}
	return q[i].depth > q[j].depth
}
func (q queue) Swap(i, j int) { q[i], q[j] = q[j], q[i] }

// Push is heap's: it appends a *node.
func (q *queue) Push(x any) { *q = append(*q, x.(*node)) }

// Pop is heap's: it takes the last.
func (q *queue) Pop() any {
	old := *q
	n := old[len(old)-1]
	old[len(old)-1] = nil
	*q = old[:len(old)-1]
	return n
}

// save keeps the basis.
func (s *simplex) save() *start {
	return &start{place: slices.Clone(s.place), weight: slices.Clone(s.weight)}
}

// load takes up a basis.
func (s *simplex) load(at *start) {
	copy(s.place, at.place)
	copy(s.weight, at.weight)
	s.head = s.head[:0]
	for j, p := range s.place {
		if p == basic {
			s.head = append(s.head, j)
		} else {
			s.stand(j)
		}
	}
	s.refactor()
}
