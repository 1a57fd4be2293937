package frost

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"
)

func seeded(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 0)) }

// The median of an odd number of years drawn with replacement is at or before the k-th date where more
// than half of the draws are, which is a binomial chance: the band's ends are known without drawing.
func TestTheBandOfTheMedianIsTheBinomialOne(t *testing.T) {
	years := falls[:19]
	sorted, _, _ := ordered(years)
	n := len(sorted)
	exact := func(p float64) float64 {
		for k := range n {
			b := distuv.Binomial{N: float64(n), P: float64(k+1) / float64(n)}
			if k+1 == n || 1-b.CDF(float64(n/2)) >= p {
				return sorted[k]
			}
		}
		return math.NaN()
	}
	for _, share := range []float64{0.5, 0.8, 0.9, 0.95} {
		got, ok := BootstrapBand(years, 0.5, Weibull, share, 20000, seeded(7))
		want := Band{exact((1 - share) / 2), exact((1 + share) / 2)}
		if !ok || got != want {
			t.Errorf("middle %g: %v, want %v", share, got, want)
		}
	}
}

func TestABandReachesPastAllDatesWhereTheFreezeMayNotCome(t *testing.T) {
	x := make([]float64, 12) // half the years freeze: half the draws have no median
	for i := range x {
		x[i] = never
		if i%2 == 0 {
			x[i] = 300 + float64(i)
		}
	}
	for _, m := range []QuantileMethod{Weibull, Hazen, Type7, Normal} {
		if got, ok := BootstrapBand(x, 0.5, m, 0.9, 1000, seeded(1)); !ok || !math.IsInf(got.High, 1) || math.IsInf(got.Low, 0) {
			t.Errorf("%s: %v, want a band without an end", m, got)
		}
	}
}

func TestNoBandWithoutYears(t *testing.T) {
	for name, c := range map[string]struct {
		x        []float64
		p, share float64
		draws    int
	}{
		"nine years": {falls[:9], 0.5, 0.9, 100}, "no draw": {falls, 0.5, 0.9, 0}, "all of it": {falls, 0.5, 1, 100},
		"no chance": {falls, 0, 0.9, 100}, "a year that is no date": {append([]float64{math.NaN()}, falls...), 0.5, 0.9, 100},
	} {
		if got, ok := BootstrapBand(c.x, c.p, Weibull, c.share, c.draws, seeded(1)); ok || !math.IsNaN(got.Low) {
			t.Errorf("%s: %v", name, got)
		}
	}
}

func TestBandLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.SliceOfN(rapid.Float64Range(230, 350), 10, 40).Draw(t, "years")
		p := rapid.Float64Range(0.1, 0.9).Draw(t, "chance")
		m := QuantileMethod(rapid.SampledFrom(QuantileMethods()).Draw(t, "method"))
		seed := rapid.Uint64().Draw(t, "seed")
		narrow, ok := BootstrapBand(x, p, m, 0.5, 200, seeded(seed))
		wide, _ := BootstrapBand(x, p, m, 0.9, 200, seeded(seed))
		if !ok || narrow.Low > narrow.High || wide.Low > narrow.Low || wide.High < narrow.High {
			t.Fatalf("half %v, nine tenths %v: one must lie in the other", narrow, wide)
		}
		if again, _ := BootstrapBand(x, p, m, 0.9, 200, seeded(seed)); again != wide {
			t.Fatalf("the same seed gave %v and %v", wide, again)
		}
		moved := make([]float64, len(x))
		for i := range x {
			moved[i] = x[i] + 7
		}
		if later, _ := BootstrapBand(moved, p, m, 0.9, 200, seeded(seed)); math.Abs(later.Low-wide.Low-7) > 1e-9 || math.Abs(later.High-wide.High-7) > 1e-9 {
			t.Fatalf("years a week later: %v against %v", later, wide)
		}
		turned := make([]float64, len(x))
		for i := range x {
			turned[i] = -x[i]
		}
		if back, _ := BootstrapLater(turned, p, m, 0.9, 200, seeded(seed)); back.Low != -wide.High || back.High != -wide.Low {
			t.Fatalf("the year turned round: %v against %v", back, wide)
		}
	})
}
