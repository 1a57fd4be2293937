package trial

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// Index is a selection index: entries are ranked by the sum of Weights times their means.
type Index struct {
	Weights  []float64
	Response []float64 // of each trait, for a selection intensity of 1
	Accuracy float64   // correlation of the index with what is wanted
}

// SelectionIndex weighs traits so that entries picked by it gain most of what is wanted, with P the
// covariances of the means as seen, G those of the entries' own worth, and what a unit of each trait
// is worth: b = P^-1 G a, accuracy sqrt(b'Pb / a'Ga), response G b / sqrt(b'Pb) for each standard
// deviation of selection (1.40 where one in five is kept). [source.SelectionIndex]
func SelectionIndex(p, g [][]float64, worth []float64) (*Index, error) {
	n := len(worth)
	sp, err := symmetric("P", p, n)
	if err != nil {
		return nil, err
	}
	sg, err := symmetric("G", g, n)
	if err != nil {
		return nil, err
	}
	var chol mat.Cholesky
	if !chol.Factorize(sp) || chol.Cond() > 1e14 {
		return nil, fmt.Errorf("matrix P is no covariance matrix of traits that differ: each must vary, and none may be made up of the others")
	}
	for i := range n {
		if sg.At(i, i) < 0 {
			return nil, fmt.Errorf("matrix G row %d, column %d: %g; a variance is 0 or more", i+1, i+1, sg.At(i, i))
		}
	}
	a := mat.NewVecDense(n, worth)
	var ga, b, gb, pb mat.VecDense
	ga.MulVec(sg, a)
	if err := chol.SolveVecTo(&b, &ga); err != nil {
		return nil, fmt.Errorf("matrix P cannot be solved: %w", err)
	}
	gb.MulVec(sg, &b)
	pb.MulVec(sp, &b)
	index, wanted := mat.Dot(&b, &pb), mat.Dot(a, &ga)
	if !(index > 0) || !(wanted > 0) || math.IsInf(wanted, 0) || math.IsInf(index, 0) {
		return nil, fmt.Errorf("what is wanted does not vary between entries: give a weight that is not 0 to a trait that varies in G")
	}
	r := &Index{Accuracy: math.Sqrt(index / wanted)}
	if r.Accuracy > 1+1e-9 {
		return nil, fmt.Errorf("accuracy %.3g is over 1: G holds more variance than P, and what is seen holds the entries' own and error besides", r.Accuracy)
	}
	for i := range n {
		r.Weights = append(r.Weights, b.AtVec(i))
		r.Response = append(r.Response, gb.AtVec(i)/math.Sqrt(index))
	}
	return r, nil
}

func symmetric(name string, rows [][]float64, n int) (*mat.SymDense, error) {
	if n == 0 || len(rows) != n {
		return nil, fmt.Errorf("matrix %s has %d rows for %d weights: give a row and a column for each trait", name, len(rows), n)
	}
	for i, row := range rows {
		if len(row) != n {
			return nil, fmt.Errorf("matrix %s row %d has %d numbers: give %d, one for each trait", name, i+1, len(row), n)
		}
	}
	s := mat.NewSymDense(n, nil)
	for i, row := range rows {
		for j, v := range row {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				return nil, fmt.Errorf("matrix %s row %d, column %d: %g is no number one can use", name, i+1, j+1, v)
			}
			if math.Abs(v-rows[j][i]) > 1e-9*(math.Abs(v)+math.Abs(rows[j][i])) {
				return nil, fmt.Errorf("matrix %s row %d, column %d: %g, and %g the other way round: a covariance matrix is symmetric", name, i+1, j+1, v, rows[j][i])
			}
			s.SetSym(min(i, j), max(i, j), v)
		}
	}
	return s, nil
}
