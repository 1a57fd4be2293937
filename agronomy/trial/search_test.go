package trial

import (
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

// However unlike the variances are, zeros among them, the search settles where no step to either side
// of any ratio does better.
func TestTheSearchSettlesAtALowPoint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 9))
		size := func(name string) float64 {
			return rapid.SampledFrom([]float64{0, 1e-4, 0.01, 0.3, 1, 10, 100, 1e3}).Draw(t, name)
		}
		sg, se, sge := size("entry"), size("site"), size("both")
		k, n := rapid.IntRange(2, 8).Draw(t, "entries"), rapid.IntRange(2, 6).Draw(t, "sites")
		g, e := make([]float64, k), make([]float64, n)
		for i := range g {
			g[i] = sg * r.NormFloat64()
		}
		for j := range e {
			e[j] = se * r.NormFloat64()
		}
		var y []float64
		var gs, es []string
		for i := range k {
			for j := range n {
				both := sge * r.NormFloat64()
				for range 2 {
					if r.Float64() < 0.2 {
						continue
					}
					y = append(y, g[i]+e[j]+both+r.NormFloat64())
					gs, es = append(gs, strconv.Itoa(i)), append(es, strconv.Itoa(j))
				}
			}
		}
		if len(y) == 0 {
			return
		}
		m := Model{Response: y, Random: []Factor{NewFactor("entry", gs), NewFactor("site", es)}}
		if both := Cross(m.Random[0], m.Random[1]); len(both.Levels) < len(y) && !both.sameAs(m.Random[0]) && !both.sameAs(m.Random[1]) {
			m.Random = append(m.Random, both)
		}
		for _, f := range m.Random {
			if len(f.Levels) < 2 || len(f.Levels) == len(y) {
				return
			}
		}
		if m.Random[0].sameAs(m.Random[1]) {
			return
		}
		f, err := FitREML(m)
		const few = 12 // plots that cannot carry so many variances may be refused
		if err != nil && len(y) < few {
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		mean, squares, _ := spread(y)
		scaled := make([]float64, len(y))
		for i, v := range y {
			scaled[i] = (v - mean) / math.Sqrt(squares/float64(len(y)))
		}
		s := &search{e: f.e, y: scaled, rest: float64(len(y) - 1)}
		ratios := make([]float64, len(m.Random))
		for i, c := range f.Components {
			ratios[i] = c.Variance / f.Residual
		}
		here, _, _, _ := s.value(ratios)
		for i, at := range ratios {
			for _, step := range []float64{0.5, 0.95, 1.05, 2} {
				ratios[i] = at * step
				if at == 0 {
					ratios[i] = 0.001 * step
				}
				if d, _, _, _ := s.value(ratios); d < here-1e-7*(1+math.Abs(here)) {
					t.Fatalf("%s: ratio %g gives %.12g, %g gives %.12g", m.Random[i].Name, at, here, ratios[i], d)
				}
			}
			ratios[i] = at
		}
	})
}
