package trial

import (
	"math/rand/v2"
	"strconv"
	"testing"
)

// invented makes a trial from a seed: entries by environments by replicates, with a share of the plots
// missing, and effects of entry, environment, replicate and entry by environment.
func invented(entries, environments, replicates int, missing float64) (values []float64, entry, environment, replicate Factor) {
	r := rand.New(rand.NewPCG(7, 11))
	draw := func(n int, sd float64) []float64 {
		v := make([]float64, n)
		for i := range v {
			v[i] = sd * r.NormFloat64()
		}
		return v
	}
	g, e := draw(entries, 0.4), draw(environments, 1.2)
	ge, b := draw(entries*environments, 0.3), draw(environments*replicates, 0.2)
	var gs, es, bs []string
	for i := range entries {
		for j := range environments {
			for k := range replicates {
				noise := 0.35 * r.NormFloat64()
				if r.Float64() < missing {
					continue
				}
				values = append(values, 5+g[i]+e[j]+ge[i*environments+j]+b[j*replicates+k]+noise)
				gs, es, bs = append(gs, strconv.Itoa(i)), append(es, strconv.Itoa(j)), append(bs, strconv.Itoa(k))
			}
		}
	}
	return values, NewFactor("entry", gs), NewFactor("environment", es), NewFactor("replicate", bs)
}

func wide() Model {
	values, g, e, _ := invented(200, 60, 1, 0.3)
	return Model{Response: values, Random: []Factor{g, e}}
}

func deep() Model {
	values, g, e, b := invented(100, 20, 3, 0.02)
	return Model{Response: values, Random: []Factor{g, e, Cross(g, e), Cross(e, b)}}
}

func deepFixed() Model {
	values, g, e, b := invented(100, 20, 3, 0.02)
	return Model{Response: values, Fixed: []Factor{g}, Random: []Factor{e, Cross(g, e), Cross(e, b)}}
}

// The bars on one core: 200 entries by 60 environments, unbalanced, under 1 s; 100 by 20 by 3 with entry by
// environment under 2 s.
func BenchmarkEntriesByEnvironments(b *testing.B) { benchmark(b, wide()) }
func BenchmarkPlotsWithInteraction(b *testing.B)  { benchmark(b, deep()) }
func BenchmarkPlotsWithEntriesFixed(b *testing.B) { benchmark(b, deepFixed()) }

func benchmark(b *testing.B, m Model) {
	for b.Loop() {
		mustFit(b, m)
	}
}
