package trial

import (
	"fmt"
	"math"
)

// SplitPlot analyses a split plot in randomised blocks: whole plots of one factor in each block, each
// split for the other. Every plot must be there: without balance the two errors do not part cleanly,
// and a mixed model is the right tool. [source.SplitPlotAnova]
func SplitPlot(values []float64, whole, sub, block Factor, level float64) (*Anova, error) {
	if err := checkLevel(level); err != nil {
		return nil, err
	}
	if err := checkPlots(values, whole, sub, block); err != nil {
		return nil, err
	}
	for _, f := range []Factor{whole, sub, block} {
		if err := oneLevel(f); err != nil {
			return nil, err
		}
	}
	if err := onePlotEach(Cross(Cross(block, whole), sub), nil); err != nil {
		return nil, err
	}
	b, v, d := len(block.Levels), len(whole.Levels), len(sub.Levels)
	if missing := b*v*d - len(values); missing > 0 {
		return nil, fmt.Errorf("%d of %d plots are missing: a split plot is analysed whole; fit what is there with trial-blup, fixed=%s,%s,%s:%s random=%s,%s:%s",
			missing, b*v*d, whole.Name, sub.Name, whole.Name, sub.Name, block.Name, block.Name, whole.Name)
	}
	mean, total, differ := spread(values)
	if !differ {
		return nil, fmt.Errorf("all %d values are %g: nothing differs, so nothing can be told", len(values), mean)
	}
	ss := func(f Factor) float64 { return aboutMean(values, f, mean) }
	sb, sv, sd := ss(block), ss(whole), ss(sub)
	ea := untested("error a", (b-1)*(v-1), ss(Cross(block, whole))-sb-sv)
	svd := ss(Cross(whole, sub)) - sv - sd
	eb := untested("error b", v*(b-1)*(d-1), total-sb-sv-ea.Squares-sd-svd)
	if eb.Squares <= 1e-20*total || ea.Squares <= 1e-20*total {
		return nil, fmt.Errorf("nothing is left to one of the two errors: the values cannot be those of plots")
	}
	a := &Anova{
		Mean: mean, CV: []float64{cv(ea.Mean(), mean), cv(eb.Mean(), mean)},
		Lines: []Line{
			tested(untested(block.Name, b-1, sb), ea), tested(untested(whole.Name, v-1, sv), ea), ea,
			tested(untested(sub.Name, d-1, sd), eb), tested(untested(whole.Name+":"+sub.Name, (v-1)*(d-1), svd), eb), eb,
		},
		Differences: splitDifferences(whole.Name, sub.Name, ea, eb, b, v, d, level),
	}
	for _, f := range []Factor{whole, sub, Cross(whole, sub)} {
		n := f.counts()
		for i, s := range f.sums(values) {
			a.Means = append(a.Means, Effect{f.Name, f.Levels[i], s / n[i], math.NaN()})
		}
	}
	return a, nil
}

// aboutMean is the sum of squares between the means of the levels.
func aboutMean(values []float64, f Factor, mean float64) float64 {
	n := f.counts()
	sum := 0.0
	for i, s := range f.sums(values) {
		d := s/n[i] - mean
		sum += n[i] * d * d
	}
	return sum
}

// splitDifferences are the four comparisons of a split plot. For whole-plot levels at one level of the
// other factor both errors mix, and two accepted answers are given: t weighted by the errors
// [source.WeightedT], and the degrees of freedom of the mixture [source.Satterthwaite].
func splitDifferences(whole, sub string, ea, eb Line, b, v, d int, level float64) []Difference {
	r, av, bd := float64(b), float64(v), float64(d)
	dfa, dfb := float64(ea.DF), float64(eb.DF)
	part := (bd - 1) * eb.Mean()
	mixed := part + ea.Mean()
	sed := math.Sqrt(2 * mixed / (r * bd))
	weighted := (part*twoSided(level, dfb) + ea.Mean()*twoSided(level, dfa)) / mixed
	df := mixed * mixed / (part*part/dfb + ea.Mean()*ea.Mean()/dfa)
	return []Difference{
		difference(whole, math.Sqrt(2*ea.Mean()/(r*bd)), dfa, level),
		difference(sub, math.Sqrt(2*eb.Mean()/(r*av)), dfb, level),
		difference(sub+" within one "+whole, math.Sqrt(2*eb.Mean()/r), dfb, level),
		difference(whole+" at one "+sub, sed, df, level),
		{whole + " at one " + sub + ", weighted t", sed, math.NaN(), weighted, weighted * sed},
	}
}
