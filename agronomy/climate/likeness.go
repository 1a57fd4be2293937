package climate

import "math"

// Likeness weighs past years by how like this season they were:
//
//	w proportional to exp(-1/2 sum over features of ((f - now)/h)^2)
//
// years holds a row of features a year, such as heat to date and rain of the last 30 days; h is how
// far each may differ. The weights add up to 1; they are equal where no feature is known. Source:
// [source.LikenessWeights].
func Likeness(years [][]float64, now, h []float64) []float64 {
	w := make([]float64, len(years))
	var sum float64
	for i, f := range years {
		var d float64
		for j := range now {
			z := (f[j] - now[j]) / h[j]
			if !math.IsNaN(z) {
				d += z * z
			}
		}
		w[i] = math.Exp(-d / 2)
		sum += w[i]
	}
	for i := range w {
		if sum == 0 {
			w[i] = 1 / float64(len(w))
			continue
		}
		w[i] /= sum
	}
	return w
}

// EffectiveSize is how many equally weighted years carry as much as the given weights: 1/sum w^2.
func EffectiveSize(w []float64) float64 {
	var sq float64
	for _, v := range w {
		sq += v * v
	}
	return 1 / sq
}

// LikenessWide is [Likeness] with h widened by halves until the effective size is at least a third of
// the years, so that one odd year never speaks alone.
func LikenessWide(years [][]float64, now, h []float64) []float64 {
	wide := append([]float64(nil), h...)
	for range 12 {
		w := Likeness(years, now, wide)
		if EffectiveSize(w) >= float64(len(years))/3 {
			return w
		}
		for i := range wide {
			wide[i] *= 1.5
		}
	}
	return Likeness(years, now, wide)
}
