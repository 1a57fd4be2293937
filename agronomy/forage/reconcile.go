package forage

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// Lots are what predictions are corrected by: the same farm, cutting and product. A sample of the
// standing crop tells of the prediction, one of stored feed of the harvest too, so that they never
// share a correction.
type Lots struct {
	Farm    string
	Cutting int    // of the year, 1 the first
	Product string // standing, hay, haylage, baleage
}

// Pair is a prediction and what the laboratory found of the same lot. The prediction has been brought
// to the day of cutting before.
type Pair struct {
	Lots
	ID             string // of the laboratory's result, for who looks it up
	Predicted, Lab float64
}

// Differences are how far single pairs spread: within lots of a kind, Within, and the bias between
// kinds, Between, as standard deviations; and how many of both a pair may lie off before it is set aside
// to be looked at. Sources: [source.ShrunkBias], [source.OutlierLimit].
type Differences struct{ Within, Between, Outlier float64 }

// PublishedDifferences returns those of NDF, % of DM.
func PublishedDifferences() Differences {
	return Differences{Within: 2.2, Between: 1.5, Outlier: outlierSDs}
}

// limit is the distance from the correction at which a pair is set aside.
func (k Differences) limit() float64 { return k.Outlier * math.Hypot(k.Within, k.Between) }

// Correction is what is to be added to the next prediction of lots of a kind.
type Correction struct {
	Lots
	N         int     // pairs it rests on
	Mean      float64 // of laboratory less predicted
	Bias, SD  float64 // the mean drawn towards zero, and its standard deviation
	SetAside  []Pair  // far out: species, height, ash and dry-matter basis want a look first
	Agreement *Agreement
	Slope     *SlopeInterval // from 15 pairs on
}

// Apply corrects a prediction by the bias, and gives the standard deviation that a prediction of that
// own spread then has.
func (c Correction) Apply(predicted, sd float64) (corrected, with float64) {
	return predicted + c.Bias, math.Hypot(sd, c.SD)
}

// Said tells the correction in words: how many lots it rests on, how far the laboratory lay off, and what
// is added of that.
func (c Correction) Said(what Measured) string {
	if c.N == 0 {
		return "No tested lot of this kind: the prediction stands as it is."
	}
	lots := "lots"
	if c.N == 1 {
		lots = "lot"
	}
	where := "over"
	if c.Mean < 0 {
		where = "under"
	}
	said := fmt.Sprintf("%d tested %s lay %s %s the prediction; %+.*f is added to the next one, give or take %s.",
		c.N, lots, what.say(math.Abs(c.Mean)), where, what.Decimals, c.Bias, what.say(z95*c.SD))
	if n := len(c.SetAside); n > 0 {
		said += fmt.Sprintf(" %d set aside as far out: look at species, height, ash and the basis first.", n)
	}
	return said
}

// SlopeInterval is the slope of laboratory on predicted with its 95 % interval.
type SlopeInterval struct {
	Slope, Low, High float64
	Change           bool // the interval leaves 1 out: the slope may be corrected, not the level alone
}

// Reconciled is a whole set of pairs held against the laboratory.
type Reconciled struct {
	Corrections []Correction // by farm, cutting and product
	Used        int
	SetAside    []Pair
	Agreement   *Agreement // of all pairs used; nil where they are too few or all the same
}

// For finds the correction for lots of a kind. Where there is none it is 0, as unsure as biases between
// kinds are.
func (r Reconciled) For(l Lots, k Differences) Correction {
	i := slices.IndexFunc(r.Corrections, func(c Correction) bool { return c.Lots == l })
	if i < 0 {
		return Correction{Lots: l, SD: k.Between}
	}
	return r.Corrections[i]
}

// Reconcile holds predictions against the laboratory for each farm, cutting and product. A pair far out
// is set aside before anything is averaged: it is judged against the correction that the others of its
// kind give, the farthest first. Pairs with a value that is no number are set aside too.
func Reconcile(pairs []Pair, k Differences) Reconciled {
	groups := map[Lots][]Pair{}
	for _, p := range pairs {
		groups[p.Lots] = append(groups[p.Lots], p)
	}
	var r Reconciled
	used := map[Lots][]Pair{}
	for l, group := range groups {
		kept, aside := k.part(group)
		used[l] = kept
		c := Correction{Lots: l, N: len(kept), SD: k.Between, SetAside: aside}
		if c.N > 0 {
			c.Mean = meanDifference(kept)
			c.Bias, c.SD = Shrink(c.Mean, c.N, k.Within, k.Between)
		}
		p, v := columns(kept)
		c.Agreement, c.Slope = agreement(p, v), slopeOf(p, v)
		r.Corrections = append(r.Corrections, c)
	}
	slices.SortFunc(r.Corrections, func(a, b Correction) int { return compareLots(a.Lots, b.Lots) })
	var predicted, lab []float64
	for _, c := range r.Corrections {
		r.Used += c.N
		r.SetAside = append(r.SetAside, c.SetAside...)
		p, v := columns(used[c.Lots])
		predicted, lab = append(predicted, p...), append(lab, v...)
	}
	r.Agreement = agreement(predicted, lab)
	return r
}

func compareLots(a, b Lots) int {
	return cmp.Or(cmp.Compare(a.Farm, b.Farm), cmp.Compare(a.Cutting, b.Cutting), cmp.Compare(a.Product, b.Product))
}

// part sets pairs far out aside.
func (k Differences) part(group []Pair) (kept, aside []Pair) {
	for _, p := range group {
		if d := p.Lab - p.Predicted; math.IsNaN(d) || math.IsInf(d, 0) {
			aside = append(aside, p)
		} else {
			kept = append(kept, p)
		}
	}
	for len(kept) > 0 {
		worst, far := -1, k.limit()
		for i, p := range kept {
			rest := slices.Delete(slices.Clone(kept), i, i+1)
			bias := 0.
			if len(rest) > 0 {
				bias, _ = Shrink(meanDifference(rest), len(rest), k.Within, k.Between)
			}
			if off := math.Abs(p.Lab - p.Predicted - bias); off > far {
				worst, far = i, off
			}
		}
		if worst < 0 {
			break
		}
		aside = append(aside, kept[worst])
		kept = slices.Delete(kept, worst, worst+1)
	}
	return kept, aside
}

func meanDifference(pairs []Pair) float64 {
	sum := 0.
	for _, p := range pairs {
		sum += p.Lab - p.Predicted
	}
	return sum / float64(len(pairs))
}

func columns(pairs []Pair) (predicted, lab []float64) {
	for _, p := range pairs {
		predicted, lab = append(predicted, p.Predicted), append(lab, p.Lab)
	}
	return predicted, lab
}

// agreement is nil where pairs are too few, or all the same.
func agreement(predicted, lab []float64) *Agreement {
	a, err := Agree(predicted, lab)
	if err != nil {
		return nil
	}
	return &a
}

// slopeOf is the slope with its interval, nil for fewer than 15 pairs.
func slopeOf(predicted, lab []float64) *SlopeInterval {
	n := float64(len(predicted))
	a := agreement(predicted, lab)
	if a == nil || a.N < slopePairs {
		return nil
	}
	var mean, varP, rest float64
	for _, p := range predicted {
		mean += p / n
	}
	for i, p := range predicted {
		varP += (p - mean) * (p - mean)
		off := lab[i] - a.Intercept - a.Slope*p
		rest += off * off
	}
	half := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: n - 2}.Quantile(0.975) * math.Sqrt(rest/(n-2)/varP)
	s := SlopeInterval{Slope: a.Slope, Low: a.Slope - half, High: a.Slope + half}
	s.Change = s.Low > 1 || s.High < 1
	return &s
}
