package climate

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// Harmonics is a smooth course over the year: a mean and pairs of cosine and sine waves. Source:
// [source.SmoothNormals].
type Harmonics struct {
	Mean float64
	Cos  []float64
	Sin  []float64
}

// FitHarmonics fits n waves by least squares to values of days of the year (1 to 366), leaving out
// those not known. Fewer days than unknowns give a course that is NaN throughout.
func FitHarmonics(day, value []float64, n int) Harmonics {
	k := 1 + 2*n
	var rows []float64
	var y []float64
	for i, v := range value {
		if math.IsNaN(v) {
			continue
		}
		rows = append(rows, waves(day[i], n)...)
		y = append(y, v)
	}
	h := Harmonics{Mean: math.NaN(), Cos: make([]float64, n), Sin: make([]float64, n)}
	if len(y) < k {
		return h
	}
	var fit mat.VecDense
	if err := fit.SolveVec(mat.NewDense(len(y), k, rows), mat.NewVecDense(len(y), y)); err != nil {
		return h
	}
	h.Mean = fit.AtVec(0)
	for j := range n {
		h.Cos[j], h.Sin[j] = fit.AtVec(1+2*j), fit.AtVec(2+2*j)
	}
	return h
}

// At is the course on a day of the year.
func (h Harmonics) At(day float64) float64 {
	v := h.Mean
	for j := range h.Cos {
		a := 2 * math.Pi * float64(j+1) * day / daysOfYear
		v += h.Cos[j]*math.Cos(a) + h.Sin[j]*math.Sin(a)
	}
	return v
}

const daysOfYear = 365.25

func waves(day float64, n int) []float64 {
	row := make([]float64, 1, 1+2*n)
	row[0] = 1
	for j := 1; j <= n; j++ {
		a := 2 * math.Pi * float64(j) * day / daysOfYear
		row = append(row, math.Cos(a), math.Sin(a))
	}
	return row
}
