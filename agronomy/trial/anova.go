package trial

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat/distuv"
)

// Line is one source of variation. F and P are NaN where nothing is tested.
type Line struct {
	Source  string
	DF      int
	Squares float64
	F, P    float64
}

// Mean is the line's mean square.
func (l Line) Mean() float64 { return l.Squares / float64(l.DF) }

// Difference is what two means must be apart.
type Difference struct {
	Between string
	SED     float64 // standard error of the difference
	DF      float64
	T       float64
	LSD     float64
}

// Anova is an analysis of variance with the least differences that count at its level.
type Anova struct {
	Lines       []Line
	Means       []Effect // of each entry, adjusted for blocks where plots are missing
	Mean        float64  // of all plots
	Differences []Difference
	CV          []float64 // percent of the mean, a number for each error; NaN where the mean is 0
	Notes       []string
}

// tested fills in F and its chance against an error.
func tested(l, against Line) Line {
	l.F = l.Mean() / against.Mean()
	l.P = upperF(l.F, float64(l.DF), float64(against.DF))
	return l
}

func untested(source string, df int, squares float64) Line {
	return Line{source, df, max(squares, 0), math.NaN(), math.NaN()}
}

// upperF is the chance of an F above f, exact in the far tail where 1 - CDF is not.
func upperF(f, d1, d2 float64) float64 {
	return mathext.RegIncBeta(d2/2, d1/2, d2/(d2+d1*f))
}

// twoSided is the t that is passed with the chance level, both sides together.
func twoSided(level, df float64) float64 {
	return distuv.StudentsT{Sigma: 1, Nu: df}.Quantile(1 - level/2)
}

func difference(between string, sed, df, level float64) Difference {
	t := twoSided(level, df)
	return Difference{between, sed, df, t, t * sed}
}

func checkLevel(level float64) error {
	if !(level > 0 && level < 1) {
		return fmt.Errorf("level %g: give the chance of calling a difference where there is none, between 0 and 1 (0.05, or 0.1 to 0.3 as many state trials do)", level)
	}
	return nil
}

func cv(square, mean float64) float64 {
	if mean == 0 {
		return math.NaN()
	}
	return 100 * math.Sqrt(square) / math.Abs(mean)
}

// onePlotEach refuses two plots of one crossing: a second harvest of a plot is not a second plot. Rows
// names the plots as the reader counts them; nil counts from 1.
func onePlotEach(cell Factor, rows []int) error {
	first := make([]int, len(cell.Levels))
	for plot, l := range cell.At {
		row := plot + 1
		if rows != nil {
			row = rows[plot]
		}
		if first[l] > 0 {
			return fmt.Errorf("rows %d and %d are both %s %s: if one was entered twice take it out; if both were harvested average them, or fit them with trial-blup", first[l], row, cell.Name, cell.Levels[l])
		}
		first[l] = row
	}
	return nil
}

// Blocks analyses a randomised complete block trial: one plot of each entry in each block. Plots may
// be missing: entries are then compared after blocks, by least squares, and their means adjusted.
// [source.BlocksAnova]
func Blocks(values []float64, entry, block Factor, level float64) (*Anova, error) {
	if err := checkLevel(level); err != nil {
		return nil, err
	}
	if err := checkPlots(values, entry, block); err != nil {
		return nil, err
	}
	for _, f := range []Factor{entry, block} {
		if err := oneLevel(f); err != nil {
			return nil, err
		}
	}
	if err := onePlotEach(Cross(block, entry), nil); err != nil {
		return nil, err
	}
	mean, total, differ := spread(values)
	if !differ {
		return nil, fmt.Errorf("all %d values are %g: nothing differs, so nothing can be told", len(values), mean)
	}
	n, v, b := len(values), len(entry.Levels), len(block.Levels)
	df := n - v - b + 1
	if df < 1 {
		return nil, fmt.Errorf("%d plots for %d entries and %d blocks leave no error to judge by: give more plots", n, v, b)
	}
	between := 0.0
	counts := block.counts()
	for i, s := range block.sums(values) {
		d := s/counts[i] - mean
		between += counts[i] * d * d
	}
	fit, err := afterBlocks(values, entry, block)
	if err != nil {
		return nil, err
	}
	errorLine := untested("error", df, total-between-fit.squares)
	if errorLine.Squares <= 1e-20*total {
		return nil, fmt.Errorf("entries and blocks tell every value exactly: the values cannot be those of plots")
	}
	a := &Anova{
		Mean: mean, Means: fit.means, CV: []float64{cv(errorLine.Mean(), mean)},
		Lines: []Line{
			tested(untested(block.Name, b-1, between), errorLine),
			tested(untested(entry.Name, v-1, fit.squares), errorLine), errorLine,
		},
	}
	for i := range a.Means {
		a.Means[i].SE *= math.Sqrt(errorLine.Mean())
	}
	if missing := v*b - n; missing > 0 {
		a.Differences = []Difference{
			difference(entry.Name+", on average", math.Sqrt(fit.average*errorLine.Mean()), float64(df), level),
			difference(entry.Name+", the pair least known", math.Sqrt(fit.widest*errorLine.Mean()), float64(df), level),
		}
		a.Notes = append(a.Notes, fmt.Sprintf("%d of %d plots are missing: entries are compared after blocks, means are adjusted, and the difference that counts is not one for all pairs", missing, v*b))
		return a, nil
	}
	a.Differences = []Difference{difference(entry.Name, math.Sqrt(2*errorLine.Mean()/float64(b)), float64(df), level)}
	return a, nil
}

// adjusted is what entries are after blocks. Variances are in units of the error's.
type adjusted struct {
	squares         float64
	means           []Effect
	average, widest float64 // of the variance of a difference
}

// afterBlocks solves the entries with the blocks swept out, the last entry held at 0.
func afterBlocks(values []float64, entry, block Factor) (*adjusted, error) {
	v := len(entry.Levels)
	inBlock := make([][]int, len(block.Levels))
	for plot, l := range block.At {
		inBlock[l] = append(inBlock[l], plot)
	}
	c := mat.NewSymDense(v, nil)
	q := make([]float64, v)
	for _, plots := range inBlock {
		size := float64(len(plots))
		sum := 0.0
		for _, p := range plots {
			sum += values[p]
		}
		for _, p := range plots {
			i := entry.At[p]
			q[i] += values[p] - sum/size
			c.SetSym(i, i, c.At(i, i)+1)
			for _, o := range plots {
				if j := entry.At[o]; j >= i {
					c.SetSym(i, j, c.At(i, j)-1/size)
				}
			}
		}
	}
	m := v - 1
	small := mat.NewSymDense(m, nil)
	for i := range m {
		for j := i; j < m; j++ {
			small.SetSym(i, j, c.At(i, j))
		}
	}
	var chol mat.Cholesky
	if !chol.Factorize(small) || chol.Cond() > 1e12 {
		return nil, fmt.Errorf("blocks and entries fall into parts that share nothing: some entries never met in a block with the rest, so that they cannot be compared")
	}
	var inv mat.SymDense
	if err := chol.InverseTo(&inv); err != nil {
		return nil, fmt.Errorf("entries cannot be told from blocks: %w", err)
	}
	effect := make([]float64, v)
	r := &adjusted{}
	for i := range m {
		for j := range m {
			effect[i] += inv.At(i, j) * q[j]
		}
		r.squares += effect[i] * q[i]
	}
	r.means = blockMeans(values, entry, inBlock, effect, &inv)
	pairs := 0.0
	at := func(i, j int) float64 {
		if i == m || j == m {
			return 0
		}
		return inv.At(i, j)
	}
	for i := range v {
		for j := range i {
			d := at(i, i) + at(j, j) - 2*at(i, j)
			r.average += d
			r.widest = max(r.widest, d)
			pairs++
		}
	}
	r.average /= pairs
	return r, nil
}

// blockMeans sets the effects on the level of the trial, each block weighing alike. SE is in units of
// the error's standard deviation.
func blockMeans(values []float64, entry Factor, inBlock [][]int, effect []float64, inv *mat.SymDense) []Effect {
	v, blocks := len(effect), float64(len(inBlock))
	share := make([]float64, v) // of each entry in the mean of block means
	level, own := 0.0, 0.0
	for _, plots := range inBlock {
		size := float64(len(plots))
		own += 1 / size
		for _, p := range plots {
			level += (values[p] - effect[entry.At[p]]) / size / blocks
			share[entry.At[p]] += 1 / size / blocks
		}
	}
	means := make([]Effect, v)
	for i := range v {
		// level + effect i = mean of block means + (unit i - share)'effects; the two parts are independent.
		variance := own / (blocks * blocks)
		for a := range v - 1 {
			for b := range v - 1 {
				variance += (unitAt(a, i) - share[a]) * (unitAt(b, i) - share[b]) * inv.At(a, b)
			}
		}
		means[i] = Effect{entry.Name, entry.Levels[i], level + effect[i], math.Sqrt(variance)}
	}
	return means
}

func unitAt(a, i int) float64 {
	if a == i {
		return 1
	}
	return 0
}
