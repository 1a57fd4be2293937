package frost

import (
	"math"
	"math/rand/v2"
	"slices"
)

// Band is how far a freeze date could lie elsewhere had other years been on record.
type Band struct{ Low, High float64 }

// BootstrapBand draws the years of the record anew, with replacement, so many times, asks each draw for
// its [Quantile] and gives the middle share of the answers: 0.9 for the band that 9 draws in 10 lie in.
// A draw in which the event does not come in share p of years counts as later than every date, so that
// High may be +Inf. The same generator state gives the same band. False where x, p, share or draws allow
// none, or where fewer than 10 years are on record. Source: [source.BootstrapBand], [source.FreezeYears].
func BootstrapBand(x []float64, p float64, m QuantileMethod, share float64, draws int, r *rand.Rand) (Band, bool) {
	if _, _, ok := ordered(x); !ok || !m.known() || !(p > 0 && p < 1) || !(share > 0 && share < 1) || draws < 1 || len(x) < yearsLeast {
		return Band{math.NaN(), math.NaN()}, false
	}
	years := slices.Sorted(slices.Values(x))
	drawn, answers := make([]float64, len(years)), make([]float64, 0, draws)
	count := make([]int, len(years))
	for range draws {
		clear(count)
		for range years {
			count[r.IntN(len(years))]++
		}
		drawn = drawn[:0] // counted, so that it stands in order
		for i, n := range count {
			for range n {
				drawn = append(drawn, years[i])
			}
		}
		day, ok := Quantile(drawn, p, m)
		if !ok {
			day = math.Inf(1)
		}
		answers = append(answers, day)
	}
	slices.Sort(answers)
	at := func(p float64) float64 { return answers[min(draws-1, int(p*float64(draws)))] }
	return Band{at((1 - share) / 2), at((1 + share) / 2)}, true
}

// BootstrapLater is [BootstrapBand] of [QuantileLater], for the last freeze of spring; Low may be -Inf.
func BootstrapLater(x []float64, p float64, m QuantileMethod, share float64, draws int, r *rand.Rand) (Band, bool) {
	b, ok := BootstrapBand(mirrored(x), p, m, share, draws, r)
	return Band{-b.High, -b.Low}, ok
}
