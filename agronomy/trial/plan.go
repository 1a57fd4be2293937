package trial

import (
	"fmt"
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat/distuv"
)

// Goal is what a trial is laid out to see. Difference and CV are percent of the mean.
type Goal struct {
	Entries    int
	CV         float64 // of a plot's error; past trials of the place tell it
	Difference float64 // between two entries, worth seeing
	Level      float64 // chance of seeing one that is not there, both sides together
	Power      float64 // chance of seeing the one that is
}

// mostReplicates ends the search: a goal that wants more wants another trial.
const mostReplicates = 200

// Replicates is the least number of randomised blocks in which two entries that differ by the goal are
// told apart at its level with its power, by the noncentral t of their difference, with
// (entries-1)(blocks-1) degrees of freedom. [source.ReplicatesPower]
func Replicates(g Goal) (int, error) {
	switch {
	case g.Entries < 2:
		return 0, fmt.Errorf("%d entries: give 2 at least", g.Entries)
	case !(g.CV > 0 && g.CV <= 200):
		return 0, fmt.Errorf("cv %g: give the error of a plot in percent of the mean, over 0 to 200", g.CV)
	case !(g.Difference > 0 && g.Difference <= 1000):
		return 0, fmt.Errorf("difference %g: give percent of the mean, over 0 to 1000", g.Difference)
	case !(g.Power > g.Level && g.Power < 1):
		return 0, fmt.Errorf("power %g: give a chance above the level, under 1 (0.8 is common)", g.Power)
	}
	if err := checkLevel(g.Level); err != nil {
		return 0, err
	}
	for r := 2; r <= mostReplicates; r++ {
		if PowerOf(g, r) >= g.Power {
			return r, nil
		}
	}
	return 0, fmt.Errorf("no %d replicates show a difference of %g %% where plots err by %g %%: look for a larger one, or try over more sites and years", mostReplicates, g.Difference, g.CV)
}

// PowerOf is the chance that so many blocks show the goal's difference.
func PowerOf(g Goal, replicates int) float64 {
	df := float64((g.Entries - 1) * (replicates - 1))
	return power(g.Difference/g.CV*math.Sqrt(float64(replicates)/2), df, g.Level)
}

// power is the chance that |t| with that noncentrality passes its two-sided limit: the normal chance
// at each estimate of the error, weighed by how likely that estimate is.
func power(noncentrality, df, level float64) float64 {
	limit := twoSided(level, df)
	chi := distuv.ChiSquared{K: df}
	log, _ := math.Lgamma(df / 2)
	constant := math.Log(2) + df/2*math.Log(df/2) - log
	low, high := math.Sqrt(chi.Quantile(1e-15)/df), math.Sqrt(chi.Quantile(1-1e-14)/df)
	const points = 400
	return quad.Fixed(func(s float64) float64 {
		density := math.Exp(constant + (df-1)*math.Log(s) - df*s*s/2)
		return density * (distuv.UnitNormal.CDF(noncentrality-limit*s) + distuv.UnitNormal.CDF(-noncentrality-limit*s))
	}, low, high, points, nil, 0)
}

// Layout puts every entry once in each block in an order drawn from r: a row a block, plots as walked.
func Layout(entries []string, blocks int, r *rand.Rand) ([][]string, error) {
	if len(entries) < 2 || blocks < 1 {
		return nil, fmt.Errorf("%d entries in %d blocks: give 2 entries and a block at least", len(entries), blocks)
	}
	seen := map[string]bool{}
	for i, e := range entries {
		if e == "" || seen[e] {
			return nil, fmt.Errorf("entry %d, %q: give each entry a name of its own", i+1, e)
		}
		seen[e] = true
	}
	plan := make([][]string, blocks)
	for b := range plan {
		order := r.Perm(len(entries))
		for _, i := range order {
			plan[b] = append(plan[b], entries[i])
		}
	}
	return plan, nil
}
