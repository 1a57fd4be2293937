package trial

import (
	"fmt"
	"math"
)

// Stability says how an entry keeps its yield over environments. NaN is what the table cannot tell.
type Stability struct {
	Entry     string
	Mean      float64 // adjusted for environments where cells are missing
	Slope     float64 // on the environments' own level; 1 follows the trial, below it is even
	SlopeSE   float64
	Deviation float64 // mean square about that line
	Wricke    float64 // the entry's share of the interaction's sum of squares
	Shukla    float64 // its own interaction variance
	// Superiority is half the mean square of its distance from the best of each environment: 0 for an
	// entry that is best everywhere.
	Superiority float64
}

// StabilityOf works out the stability of every entry from entries by environments; several plots of a
// cell are averaged. The slope is Finlay and Wilkinson's, on the environment's mean less the trial's
// [source.JointRegression]; W is Wricke's [source.Ecovalence]; the variance is Shukla's
// [source.StabilityVar]; the superiority is Lin and Binns' [source.SuperiorityMean]. Where cells are missing the environments' level is what is left of their
// plots after the entries (least squares), slopes and deviations rest on it, and W, the variance and the
// superiority, which need the whole table, are not told.
func StabilityOf(values []float64, entry, environment Factor) ([]Stability, error) {
	if err := checkPlots(values, entry, environment); err != nil {
		return nil, err
	}
	if k := len(entry.Levels); k < 3 {
		return nil, fmt.Errorf("%s has %d levels: stability wants 3 entries at least, as each is judged against the others", entry.Name, k)
	}
	if n := len(environment.Levels); n < 3 {
		return nil, fmt.Errorf("%s has %d levels: stability wants 3 environments at least, for a line and what is left of it", environment.Name, n)
	}
	if mean, _, differ := spread(values); !differ {
		return nil, fmt.Errorf("all %d values are %g: nothing differs, so nothing can be told", len(values), mean)
	}
	means, e, g := cellMeans(values, entry, environment)
	fit, err := afterBlocks(means, e, g)
	if err != nil {
		return nil, err
	}
	level, err := levels(means, e, g, fit)
	if err != nil {
		return nil, err
	}
	list := make([]Stability, len(e.Levels))
	for i := range list {
		list[i] = line(i, means, e, g, level)
		list[i].Mean = fit.means[i].Value
		list[i].Wricke, list[i].Shukla, list[i].Superiority = math.NaN(), math.NaN(), math.NaN()
	}
	if len(means) == len(e.Levels)*len(g.Levels) {
		interaction(list, means, e, g, level)
		superiority(list, means, e, g)
	}
	return list, nil
}

// cellMeans averages the plots of each cell.
func cellMeans(values []float64, entry, environment Factor) (means []float64, e, g Factor) {
	cell := Cross(entry, environment)
	n := cell.counts()
	means = cell.sums(values)
	for i := range means {
		means[i] /= n[i]
	}
	e = Factor{Name: entry.Name, Levels: entry.Levels, At: make([]int, len(means))}
	g = Factor{Name: environment.Name, Levels: environment.Levels, At: make([]int, len(means))}
	for plot, c := range cell.At {
		e.At[c], g.At[c] = entry.At[plot], environment.At[plot]
	}
	return means, e, g
}

// levels are the environments' own levels, about their mean.
func levels(means []float64, e, g Factor, fit *adjusted) ([]float64, error) {
	level := make([]float64, len(g.Levels))
	n := g.counts()
	for cell, v := range means {
		level[g.At[cell]] += (v - fit.means[e.At[cell]].Value) / n[g.At[cell]]
	}
	middle, squares := 0.0, 0.0
	for _, l := range level {
		middle += l / float64(len(level))
	}
	for j := range level {
		level[j] -= middle
		squares += level[j] * level[j]
	}
	if _, total, _ := spread(means); squares <= 1e-20*total {
		return nil, fmt.Errorf("all environments have one level: there is no slope to draw over them")
	}
	return level, nil
}

// line fits one entry on the environments' levels.
func line(entry int, means []float64, e, g Factor, level []float64) Stability {
	var n, x, y, xx, xy, yy float64
	for cell, v := range means {
		if e.At[cell] == entry {
			n++
			x += level[g.At[cell]]
			y += v
		}
	}
	x, y = x/n, y/n
	for cell, v := range means {
		if e.At[cell] == entry {
			dx, dy := level[g.At[cell]]-x, v-y
			xx, xy, yy = xx+dx*dx, xy+dx*dy, yy+dy*dy
		}
	}
	s := Stability{Entry: e.Levels[entry], Slope: math.NaN(), SlopeSE: math.NaN(), Deviation: math.NaN()}
	if n < 3 || xx == 0 {
		return s
	}
	s.Slope = xy / xx
	s.Deviation = max(0, yy-xy*s.Slope) / (n - 2)
	s.SlopeSE = math.Sqrt(s.Deviation / xx)
	return s
}

// interaction fills in what needs every cell.
func interaction(list []Stability, means []float64, e, g Factor, level []float64) {
	k, n := float64(len(e.Levels)), float64(len(g.Levels))
	for i := range list {
		list[i].Wricke = 0
	}
	total := 0.0
	for cell, v := range means {
		s := &list[e.At[cell]]
		d := v - s.Mean - level[g.At[cell]]
		s.Wricke += d * d
		total += d * d
	}
	for i := range list {
		list[i].Shukla = (k*(k-1)*list[i].Wricke - total) / ((n - 1) * (k - 1) * (k - 2))
	}
}

// superiority sets each entry's distance from the highest of each environment. Where lower is better turn
// the values' sign first.
func superiority(list []Stability, means []float64, e, g Factor) {
	best := make([]float64, len(g.Levels))
	for j := range best {
		best[j] = math.Inf(-1)
	}
	for cell, v := range means {
		best[g.At[cell]] = max(best[g.At[cell]], v)
	}
	for i := range list {
		list[i].Superiority = 0
	}
	for cell, v := range means {
		d := v - best[g.At[cell]]
		list[e.At[cell]].Superiority += d * d / (2 * float64(len(best)))
	}
}
