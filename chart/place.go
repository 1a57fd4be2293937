package chart

import "slices"

// A box is the room a text takes.
type box struct{ x0, y0, x1, y1 float64 }

func (b box) hits(o box) bool { return b.x0 < o.x1 && o.x0 < b.x1 && b.y0 < o.y1 && o.y0 < b.y1 }

func (b box) within(o box) bool {
	return b.x0 >= o.x0 && b.y0 >= o.y0 && b.x1 <= o.x1 && b.y1 <= o.y1
}

func (b box) grown(by float64) box { return box{b.x0 - by, b.y0 - by, b.x1 + by, b.y1 + by} }

// room gives the box of a text: its measured width, and from the top of its capitals to the foot of
// its descenders.
func (t Text) room() box {
	w := Width(t.Words, t.Size, t.Bold)
	x := t.At.X
	switch t.Anchor {
	case Middle:
		x -= w / 2
	case End:
		x -= w
	default: // it starts there
	}
	return box{x, t.At.Y - rise*t.Size, x + w, t.At.Y + drop*t.Size}
}

// The height of ascenders above and the depth of descenders below the foot of Source Sans 3, in
// parts of the size.
const (
	rise = 0.74
	drop = 0.24
)

// held moves a text sideways so that it stays between x0 and x1, and shortens it when it is longer.
func held(t Text, x0, x1 float64) Text {
	t.Words = Shorten(t.Words, t.Size, t.Bold, x1-x0)
	b := t.room()
	switch {
	case b.x0 < x0:
		t.At.X += x0 - b.x0
	case b.x1 > x1:
		t.At.X -= b.x1 - x1
	}
	return t
}

// thin leaves out ticks whose centred labels would touch the one before or leave x0 to x1.
func thin(all []tick, size, x0, x1 float64) []tick {
	var out []tick
	end := x0
	for _, t := range all {
		w := Width(t.words, size, false)
		if t.at-w/2 < end || t.at+w/2 > x1 {
			continue
		}
		out = append(out, t)
		end = t.at + w/2 + 6
	}
	return out
}

// apart moves wanted heights as little as needed so that neighbours are at least gap apart and all
// lie within lo and hi (as far as there is room). Order is kept: it pools neighbours that collide and
// centres each pool, the least-squares answer.
func apart(want []float64, gap, lo, hi float64) []float64 {
	order := make([]int, len(want))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case want[a] < want[b]:
			return -1
		case want[a] > want[b]:
			return 1
		}
		return 0
	})
	type pool struct {
		sum float64 // of want minus the place within the pool
		n   int
	}
	top := func(p pool) float64 {
		y := p.sum / float64(p.n)
		return max(lo, min(y, hi-gap*float64(p.n-1)))
	}
	var pools []pool
	for _, i := range order {
		p := pool{want[i], 1}
		for len(pools) > 0 {
			last := pools[len(pools)-1]
			if top(last)+gap*float64(last.n) <= top(p) {
				break
			}
			p = pool{last.sum + p.sum - gap*float64(last.n*p.n), last.n + p.n}
			pools = pools[:len(pools)-1]
		}
		pools = append(pools, p)
	}
	out := make([]float64, len(want))
	k := 0
	for _, p := range pools {
		for j := range p.n {
			out[order[k]] = top(p) + gap*float64(j)
			k++
		}
	}
	return out
}

// letters gathers the words of a drawing in order of importance: one that would lie on another is left
// out, one too long is shortened, and all are written over the marks at the end.
type letters struct {
	width, height float64
	kept          []lettered
	taken         []box
}

type lettered struct {
	Role
	Text
}

// add keeps a text where it is free, moved sideways into the drawing, and reports whether it did.
func (l *letters) add(r Role, t Text) bool { return l.addIn(r, t, 0, l.width) }

// addIn is add with narrower bounds.
func (l *letters) addIn(r Role, t Text, x0, x1 float64) bool {
	if t.Words == "" || !finite(t.At.X, t.At.Y) {
		return false
	}
	t = held(t, max(x0, 0), min(x1, l.width))
	b := t.room()
	if t.Words == "" || b.y0 < 0 || b.y1 > l.height || slices.ContainsFunc(l.taken, b.hits) {
		return false
	}
	l.taken = append(l.taken, box{b.x0 - 4, b.y0 + 1.5, b.x1 + 4, b.y1 - 1.5})
	l.kept = append(l.kept, lettered{r, t})
	return true
}

// addOn tries the feet of several rows.
func (l *letters) addOn(r Role, t Text, rows ...float64) bool {
	for _, y := range rows {
		t.At.Y = y
		if l.add(r, t) {
			return true
		}
	}
	return false
}

func (l *letters) draw(on Surface) {
	for _, k := range l.kept {
		on.Text(k.Role, k.Text)
	}
}
