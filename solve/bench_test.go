package solve

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"
)

// dense states a problem of m rows and n columns that is bounded and has an answer: the most of a mix
// under limits.
func dense(m, n int, seed uint64) *Problem {
	r := rand.New(rand.NewPCG(seed, 2))
	p := Most()
	for j := range n {
		p.Column(fmt.Sprintf("x%d", j), 0, math.Inf(1), 1+r.Float64()*9)
	}
	for i := range m {
		var terms []Term
		for j := range n {
			if r.IntN(4) > 0 {
				terms = append(terms, Term{Column(j), 0.1 + r.Float64()*5})
			}
		}
		p.AtMost(fmt.Sprintf("r%d", i), 50+r.Float64()*100, terms...)
	}
	return p
}

// allocation states which lot of feed goes to which group at the least cost, invented: each lot has
// tons, fibre and what it would bring elsewhere; each group has a need and buys what it lacks. blend:
// the fibre of what a group eats stays under its ceiling; else that of each lot does. whole: a lot
// goes to one group or to none.
func allocation(lots, groups int, blend, whole bool, seed uint64) *Problem {
	r := rand.New(rand.NewPCG(seed, 3))
	p := Least()
	tons, fibre, worth := make([]float64, lots), make([]float64, lots), make([]float64, lots)
	all := 0.
	for i := range lots {
		tons[i] = 20 + math.Round(r.Float64()*180)
		fibre[i] = 34 + r.Float64()*18
		worth[i] = 250 - 3*(fibre[i]-34) + r.Float64()*20
		all += tons[i]
	}
	supply := make([][]Term, lots)
	for j := range groups {
		ceiling := 37 + 12*float64(j)/float64(groups)
		need := all / float64(groups) * (0.8 + 0.4*r.Float64())
		buy := p.Column(fmt.Sprintf("buy%d", j), 0, math.Inf(1), 330-5*float64(j))
		demand, mix := []Term{{buy, 1}}, []Term{{buy, -4}}
		for i := range lots {
			if !blend && fibre[i] > ceiling {
				continue
			}
			high, times := tons[i], 1.
			if whole {
				high, times = 1, tons[i]
			}
			c := p.Column(fmt.Sprintf("lot%d_%d", i, j), 0, high, worth[i]*times)
			if whole {
				p.Whole(c)
			}
			supply[i] = append(supply[i], Term{c, 1})
			demand = append(demand, Term{c, times})
			mix = append(mix, Term{c, times * (fibre[i] - ceiling)})
		}
		p.AtLeast(fmt.Sprintf("need%d", j), need, demand...)
		if blend {
			p.AtMost(fmt.Sprintf("fibre%d", j), 0, mix...)
		}
	}
	for i := range lots {
		most := tons[i]
		if whole {
			most = 1
		}
		p.AtMost(fmt.Sprintf("lot%d", i), most, supply[i]...)
	}
	return p
}

// TestWholeLotsComeWithinAHundredthInTime: the bar is 2 s, which lots judged one by one keep by far.
// Whole lots under a ceiling on the blend are harder: GLPK 5.0 and CBC 2.10.8 stand at 2.2 and 2.0 %
// after 30 s of this one.
func TestWholeLotsComeWithinAHundredthInTime(t *testing.T) {
	for i := range 5 {
		seed, blend := uint64(i%4+1), i == 4
		p := allocation(60, 12, blend, true, seed)
		began := time.Now()
		ctx, cancel := context.WithTimeout(context.Background(), 2*time.Second)
		a, err := Solve(ctx, p, Limits{Gap: 0.01})
		cancel()
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("blend %t: %s in %v: %d nodes, %d pivots, %.8g, bound %.8g, gap %.4f", blend, a.Status, time.Since(began), a.Nodes, a.Pivots, a.Objective, a.Bound, a.Gap)
		if within := map[bool]float64{false: 0.01, true: 0.05}[blend]; !a.Found || a.Gap > within {
			t.Errorf("seed %d: %s, gap %.4f, want %g", seed, a.Status, a.Gap, within)
			continue
		}
		if err := Check(p, a, 1e-7); err != nil {
			t.Error(err)
		}
		if split := solved(t, p.Relaxed(), Limits{}); a.Objective < split.Objective*(1-1e-9) || a.Bound < split.Objective*(1-1e-9) {
			t.Errorf("whole lots cost %.8g, bound %.8g, split ones %.8g", a.Objective, a.Bound, split.Objective)
		}
	}
}

func benchmark(b *testing.B, p *Problem, l Limits) {
	ctx := context.Background()
	for b.Loop() {
		if a, err := Solve(ctx, p, l); err != nil || a.Status != Optimal {
			b.Fatal(a, err)
		}
	}
}

// The bars: 10 ms each, whole lots 2 s.
func BenchmarkSixtyByTwoHundred(b *testing.B) { benchmark(b, dense(60, 200, 1), Limits{}) }
func BenchmarkSixtyLotsTwelveGroups(b *testing.B) {
	benchmark(b, allocation(60, 12, true, false, 1), Limits{})
}
func BenchmarkSixtyWholeLotsTwelve(b *testing.B) {
	benchmark(b, allocation(60, 12, false, true, 1), Limits{Gap: 0.01})
}
