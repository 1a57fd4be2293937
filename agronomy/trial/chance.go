package trial

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// Chance is the honest doubt about one entry.
type Chance struct {
	Entry string
	Best  float64 // that it is the best of all entries tried
	Beats float64 // that it beats the check; NaN for the check itself and where none is named
}

// Chances says for each level of a random term how likely it is the best, and how likely it beats the
// check, about the shrunken means with all that is still not known of them, covariances in. Beating is
// exact; best is counted in draws from r. Equal entries share a draw. The variances are taken as known:
// of few environments the doubt is larger. Lower values are better where
// lower is true (fibre, disease). [source.BestOfShrunken]
func (f *Fit) Chances(term, check string, lower bool, draws int, r *rand.Rand) ([]Chance, error) {
	effects, unknown := f.Effects(term), f.Unknown(term)
	if len(effects) == 0 {
		return nil, fmt.Errorf("%s is no random term of the model: name the entries there", term)
	}
	at := slices.IndexFunc(effects, func(e Effect) bool { return e.Level == check })
	if check != "" && at < 0 {
		return nil, fmt.Errorf("check %q is no level of %s", check, term)
	}
	if draws < 1 {
		return nil, fmt.Errorf("%d draws: give 1 at least, and some thousands for two digits", draws)
	}
	sign := 1.0
	if lower {
		sign = -1
	}
	list := make([]Chance, len(effects))
	for i, e := range effects {
		list[i] = Chance{Entry: e.Level, Beats: math.NaN()}
		if at >= 0 && i != at {
			variance := unknown[i][i] + unknown[at][at] - 2*unknown[i][at]
			list[i].Beats = above(sign*(e.Value-effects[at].Value), variance)
		}
	}
	countBest(list, effects, rootOf(unknown), sign, draws, r)
	return list, nil
}

// above is the chance that a normal of this mean and variance is over 0; an even one where nothing is
// known to differ.
func above(mean, variance float64) float64 {
	switch {
	case variance > 0:
		return distuv.UnitNormal.CDF(mean / math.Sqrt(variance))
	case mean > 0:
		return 1
	case mean < 0:
		return 0
	}
	return 0.5
}

func countBest(list []Chance, effects []Effect, root [][]float64, sign float64, draws int, r *rand.Rand) {
	n := len(effects)
	z, drawn := make([]float64, n), make([]float64, n)
	for range draws {
		for i := range z {
			z[i] = r.NormFloat64()
		}
		best, ties := math.Inf(-1), 0
		for i, row := range root {
			drawn[i] = sign * effects[i].Value
			for j, l := range row {
				drawn[i] += l * z[j]
			}
			switch {
			case drawn[i] > best:
				best, ties = drawn[i], 1
			case drawn[i] == best:
				ties++
			}
		}
		for i, d := range drawn {
			if d == best {
				list[i].Best += 1 / float64(ties)
			}
		}
	}
	for i := range list {
		list[i].Best /= float64(draws)
	}
}

// rootOf is the lower triangular root of a covariance matrix that may be singular; rows end at the
// diagonal.
func rootOf(cov [][]float64) [][]float64 {
	root := make([][]float64, len(cov))
	for i := range cov {
		root[i] = make([]float64, i+1)
		for j := range i + 1 {
			left := cov[i][j]
			for l := range j {
				left -= root[i][l] * root[j][l]
			}
			switch {
			case i == j:
				root[i][i] = math.Sqrt(max(0, left))
			case root[j][j] > 1e-9*math.Sqrt(cov[j][j]):
				root[i][j] = left / root[j][j]
			}
		}
	}
	return root
}
