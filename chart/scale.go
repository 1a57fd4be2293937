package chart

import (
	"math"
	"strconv"
)

// linear places values from lo to hi on a drawing from y0 to y1.
type linear struct{ lo, hi, y0, y1 float64 }

func (s linear) at(v float64) float64 {
	if s.hi == s.lo {
		return (s.y0 + s.y1) / 2
	}
	return s.y0 + (v-s.lo)/(s.hi-s.lo)*(s.y1-s.y0)
}

// in is at, held within the drawing.
func (s linear) in(v float64) float64 {
	y := s.at(v)
	return min(max(y, min(s.y0, s.y1)), max(s.y0, s.y1))
}

// nice gives the smallest step of 1, 2 or 5 times a power of ten that makes at most n steps from lo
// to hi, and not less than least.
func nice(lo, hi float64, n int, least float64) float64 {
	if !(hi > lo) || !finite(hi-lo) || n < 1 {
		return max(least, 1)
	}
	raw := (hi - lo) / float64(n)
	p := math.Pow(10, math.Floor(math.Log10(raw)))
	for _, m := range []float64{1, 2, 5, 10} {
		if m*p >= raw*(1-1e-9) {
			return max(m*p, least)
		}
	}
	return max(10*p, least)
}

// ticks gives the multiples of step within lo and hi, at most 200.
func ticks(lo, hi, step float64) []float64 {
	var out []float64
	first := math.Ceil(lo/step - 1e-9)
	for i := range 200 {
		v := (first + float64(i)) * step
		if !(v <= hi+step*1e-9) {
			break
		}
		out = append(out, v)
	}
	return out
}

// spread widens lo and hi to whole steps.
func spread(lo, hi, step float64) (float64, float64) {
	return math.Floor(lo/step+1e-9) * step, math.Ceil(hi/step-1e-9) * step
}

// number writes a value with as many decimals as it needs, at most two, and a true minus;
// a missing value is a dash.
func number(v float64) string {
	if !finite(v) {
		return "–"
	}
	s := strconv.FormatFloat(math.Round(v*100)/100, 'f', -1, 64)
	if s == "-0" {
		return "0"
	}
	if s[0] == '-' {
		return "−" + s[1:]
	}
	return s
}

func finite(vs ...float64) bool {
	for _, v := range vs {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}
