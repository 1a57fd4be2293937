package chart

import (
	"cmp"
	"slices"
	"strconv"
)

// A mapName is a name with the role that makes it legible where it lies.
type mapName struct {
	text Text
	role Role
}

// names finds room for the sites' names within a sheet: inside the site, else beside it where it lies
// on no other site, else shortened inside, else only the rank. Ranked sites choose first, then large
// ones.
func names(plots []plot, sheet box) []mapName {
	order := slices.Clone(plots)
	slices.SortStableFunc(order, func(a, b plot) int {
		ra, rb := a.Rank, b.Rank
		if ra == 0 {
			ra = 1 << 30
		}
		if rb == 0 {
			rb = 1 << 30
		}
		return cmp.Or(cmp.Compare(ra, rb), -cmp.Compare(a.bounds.x1-a.bounds.x0, b.bounds.x1-b.bounds.x0))
	})
	var out []mapName
	var taken []box
	for _, p := range order {
		for _, n := range p.tries() {
			b := n.text.room()
			if n.text.Words == "" || !b.within(sheet) || slices.ContainsFunc(taken, b.grown(2).hits) {
				continue
			}
			if n.text.Halo && slices.ContainsFunc(plots, func(o plot) bool { return o.touches(b) }) {
				continue
			}
			if !n.text.Halo && !p.holds(b.grown(2)) {
				continue
			}
			taken = append(taken, b)
			out = append(out, n)
			break
		}
	}
	return out
}

// tries lists the places for a site's name, best first. Names beside a site have a halo.
func (p plot) tries() []mapName {
	full, rank := p.Name, ""
	if p.Rank > 0 {
		rank = strconv.Itoa(p.Rank)
		full = rank + " · " + p.Name
	}
	inside := func(words string) mapName {
		role := Label
		if p.Role == Best || p.Role == Grown {
			role = Paper
		}
		return mapName{Text{At: Point{p.centre.X, p.centre.Y + 4.5}, Anchor: Middle, Size: textSize, Bold: p.Rank > 0, Words: words}, role}
	}
	beside := func(dx, dy float64, a Anchor, words string) mapName {
		return mapName{Text{At: Point{dx, dy}, Anchor: a, Size: textSize, Bold: p.Rank > 0, Halo: true, Words: words}, Label}
	}
	around := func(words string) []mapName {
		b, c := p.bounds, p.centre
		return []mapName{
			beside(c.X, b.y1+textSize+1, Middle, words), beside(c.X, b.y0-5, Middle, words),
			beside(b.x1+5, c.Y+4.5, Start, words), beside(b.x0-5, c.Y+4.5, End, words),
			beside(b.x0, b.y1+textSize+1, Start, words), beside(b.x1, b.y1+textSize+1, End, words),
			beside(b.x0, b.y0-5, Start, words), beside(b.x1, b.y0-5, End, words),
		}
	}
	var out []mapName
	if !p.small {
		out = append(out, inside(full))
	}
	out = append(out, around(full)...)
	if !p.small {
		for _, share := range []float64{0.8, 0.65, 0.5} {
			out = append(out, inside(Shorten(full, textSize, p.Rank > 0, share*(p.bounds.x1-p.bounds.x0))))
		}
		if rank != "" {
			out = append(out, inside(rank))
		}
	}
	if rank != "" {
		out = append(out, around(rank)...)
	}
	return out
}

// holds reports whether a box lies inside the outer ring and in no hole.
func (p plot) holds(b box) bool {
	if p.small || crosses(p.rings[0], b) || !inside(p.rings[0], Point{b.x0, b.y0}) {
		return false
	}
	for _, hole := range p.rings[1:] {
		if crosses(hole, b) || inside(hole, Point{b.x0, b.y0}) || b.has(hole[0]) {
			return false
		}
	}
	return true
}

// touches reports whether any of a site lies under a box.
func (p plot) touches(b box) bool {
	if p.small {
		return p.bounds.grown(-2).hits(b)
	}
	return crosses(p.rings[0], b) || b.has(p.rings[0][0]) || inside(p.rings[0], Point{b.x0, b.y0})
}

func (b box) has(p Point) bool { return p.X >= b.x0 && p.X <= b.x1 && p.Y >= b.y0 && p.Y <= b.y1 }

// inside counts the edges of a ring to the right of a point.
func inside(ring []Point, p Point) bool {
	in := false
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}

// crosses reports whether an edge of a ring enters a box (Liang and Barsky's clipping, 1984).
func crosses(ring []Point, b box) bool {
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		t0, t1 := 0.0, 1.0
		miss := false
		for _, e := range [4][2]float64{{p.X - q.X, p.X - b.x0}, {q.X - p.X, b.x1 - p.X}, {p.Y - q.Y, p.Y - b.y0}, {q.Y - p.Y, b.y1 - p.Y}} {
			switch d, r := e[0], e[1]; {
			case d == 0:
				miss = miss || r < 0
			case d < 0:
				t0 = max(t0, r/d)
			default:
				t1 = min(t1, r/d)
			}
		}
		if !miss && t0 <= t1 {
			return true
		}
	}
	return false
}
