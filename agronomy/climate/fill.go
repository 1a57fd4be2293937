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
	var n, sx, sy float64
	for i := range x {
		if math.IsNaN(x[i]) || math.IsNaN(y[i]) {
			continue
		}
		n++
		sx += x[i]
		sy += y[i]
	}
	if n < 3 {
		return Line{R: math.NaN(), N: int(n)}
	}
	mx, my := sx/n, sy/n
	var sxx, sxy, syy float64
	for i := range x {
		if math.IsNaN(x[i]) || math.IsNaN(y[i]) {
			continue
		}
		dx, dy := x[i]-mx, y[i]-my
		sxx += dx * dx
		sxy += dx * dy
		syy += dy * dy
	}
	if sxx == 0 || syy == 0 {
		return Line{R: math.NaN(), N: int(n)}
	}
	b := sxy / sxx
	return Line{A: my - b*mx, B: b, R: sxy / math.Sqrt(sxx*syy), N: int(n)}
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
