package climate

import "math"

// Line is a straight line through pairs of a neighbour's and a station's values:
//
//	y = A + B x,   R their correlation
//
// Source: [source.GapFilling].
type Line struct {
	A, B, R float64
	N       int
}

// Regress fits the line by least squares to the pairs in which both values are known. With fewer than
// three pairs, or a neighbour that never changes, nothing is known and R is NaN.
func Regress(x, y []float64) Line {
	var p Pairs
	for i := range x {
		p.Add(x[i], y[i])
	}
	return p.Line()
}

// Pairs is what a line needs to know of pairs of values: their number, means, and sums of squares and
// products about the means. The zero value holds none.
type Pairs struct {
	N             int
	mx, my        float64
	sxx, sxy, syy float64
}

// Add takes in a pair; one in which a value is not known (NaN) is left out.
func (p *Pairs) Add(x, y float64) {
	if math.IsNaN(x) || math.IsNaN(y) {
		return
	}
	p.Join(Pairs{N: 1, mx: x, my: y})
}

// Join takes in other pairs, about whose means the sums are moved to the common one.
func (p *Pairs) Join(q Pairs) {
	if q.N == 0 {
		return
	}
	n, m := float64(p.N), float64(q.N)
	dx, dy := q.mx-p.mx, q.my-p.my
	share := n * m / (n + m)
	p.sxx += q.sxx + share*dx*dx
	p.sxy += q.sxy + share*dx*dy
	p.syy += q.syy + share*dy*dy
	p.mx += dx * m / (n + m)
	p.my += dy * m / (n + m)
	p.N += q.N
}

// Line is the line of least squares through the pairs, as [Regress] has it.
func (p *Pairs) Line() Line {
	if p.N < 3 || p.sxx == 0 || p.syy == 0 {
		return Line{R: math.NaN(), N: p.N}
	}
	b := p.sxy / p.sxx
	return Line{A: p.my - b*p.mx, B: b, R: p.sxy / math.Sqrt(p.sxx*p.syy), N: p.N}
}

// At is the line's value at x.
func (l Line) At(x float64) float64 { return l.A + l.B*x }

// InverseDistance is the mean of values weighed by 1/distance^2; NaN where none is known. A value at
// distance 0 is taken as it is.
func InverseDistance(distance, values []float64) float64 {
	var sum, weight float64
	for i, d := range distance {
		switch {
		case math.IsNaN(values[i]):
			continue
		case d == 0:
			return values[i]
		}
		w := 1 / (d * d)
		sum += w * values[i]
		weight += w
	}
	return sum / weight // none: 0/0 is NaN, as said
}

// NormalRatio is the rain of a day at a station from that of its neighbours, each scaled by the ratio
// of the yearly normals; NaN where no neighbour is known. Rain is never filled from other days.
func NormalRatio(normal float64, normals, amounts []float64) float64 {
	var sum, n float64
	for i, p := range amounts {
		if math.IsNaN(p) || !(normals[i] > 0) {
			continue
		}
		sum += normal / normals[i] * p
		n++
	}
	return sum / n
}
