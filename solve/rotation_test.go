package solve

import (
	"context"
	"errors"
	"fmt"
	"math"
	"testing"
	"time"
)

// rotations states a plan of fields over years, invented and of any size: each year a field is in corn
// (state 0) or in a stand of some age, that may only grow a year older; hay is bought where the year's
// need is not met.
func rotations(fields, years, ages int, whole bool) *Problem {
	yield := []float64{4.5, 5.2, 4.8, 3.9, 2.9, 2.0}[:ages]
	p := Most()
	acres, quality, first := make([]float64, fields), make([]float64, fields), make([]int, fields)
	all := 0.
	for f := range fields {
		acres[f] = float64(20 + (17*f)%31)
		quality[f] = 0.8 + 0.4*float64((29*f)%41)/40
		first[f] = (7 * f) % (ages + 1)
		all += acres[f]
	}
	tenth := func(v float64) float64 { return math.Round(v*10) / 10 }
	x := make([][][]Column, years)
	for y := range years {
		w := math.Pow(1.06, -float64(y+1))
		x[y] = make([][]Column, fields)
		var feed, seed []Term
		for f := range fields {
			one := make([]Term, 0, ages+1)
			for s := range ages + 1 {
				cost := w * acres[f] * -95
				if s == 0 {
					cost = w * acres[f] * 210 * quality[f]
				} else if s == 1 {
					cost -= w * acres[f] * 310
				}
				if y == years-1 && s > 0 {
					cost += w * acres[f] * 60 * float64(ages-s)
				}
				c := p.Column(fmt.Sprintf("x%d_%d_%d", f, y+1, s), 0, 1, cost)
				if whole {
					p.Whole(c)
				}
				x[y][f] = append(x[y][f], c)
				one = append(one, Term{c, 1})
				if s > 0 {
					feed = append(feed, Term{c, acres[f] * quality[f] * yield[s-1]})
				}
				if s == 1 {
					seed = append(seed, Term{c, acres[f]})
				}
			}
			p.Exactly(fmt.Sprintf("one%d_%d", f, y+1), 1, one...)
			for s := 1; s <= ages; s++ {
				name := fmt.Sprintf("older%d_%d_%d", f, y+1, s)
				switch {
				case y > 0:
					p.AtMost(name, 0, Term{x[y][f][s], 1}, Term{x[y-1][f][s-1], -1})
				case first[f] == s-1:
					p.AtMost(name, 1, Term{x[y][f][s], 1})
				default:
					p.AtMost(name, 0, Term{x[y][f][s], 1})
				}
			}
		}
		buy := p.Column(fmt.Sprintf("buy%d", y+1), 0, math.Inf(1), -205*w)
		extra := p.Column(fmt.Sprintf("extra%d", y+1), 0, math.Inf(1), 160*w)
		p.Exactly(fmt.Sprintf("feed%d", y+1), tenth(3*all), append(feed, Term{buy, 1}, Term{extra, -1})...)
		p.AtMost(fmt.Sprintf("seed%d", y+1), tenth(0.3*all), seed...)
	}
	return p
}

// The optimum of the relaxation is that of CBC 2.10.8, HiGHS 1.15.3 and GLPK 5.0.
func TestAPlanOfFortyFieldsIsRelaxedInTime(t *testing.T) {
	p := rotations(40, 10, 6, false)
	if p.Rows() != 2820 || p.Columns() != 2820 {
		t.Fatalf("%d rows and %d columns", p.Rows(), p.Columns())
	}
	began := time.Now()
	a := solved(t, p, Limits{})
	took := time.Since(began)
	t.Logf("%d pivots in %v", a.Pivots, took)
	if a.Status != Optimal || math.Abs(a.Objective+30578.9518) > 1e-3 {
		t.Errorf("%s %.8g, want -30578.9518", a.Status, a.Objective)
	}
	if took > 20*time.Second { // 3 s on a quiet machine without the race detector; see BenchmarkFortyFields
		t.Errorf("took %v", took)
	}
}

// TestASearchThatIsStoppedKeepsItsBestAndItsBound stops the same plan in whole fields; the optimum is
// that of CBC and HiGHS at a gap of 1e-4.
func TestASearchThatIsStoppedKeepsItsBestAndItsBound(t *testing.T) {
	ctx, cancel := context.WithTimeout(context.Background(), 2*time.Second)
	defer cancel()
	p := rotations(40, 10, 6, true)
	began := time.Now()
	a, err := Solve(ctx, p, Limits{})
	if err != nil {
		t.Fatal(err)
	}
	if took := time.Since(began); took > 10*time.Second {
		t.Errorf("went on for %v", took)
	}
	t.Logf("%d nodes: best %.8g, bound %.8g, gap %.3g", a.Nodes, a.Objective, a.Bound, a.Gap)
	const optimum = -33095.62689
	if a.Status != Stopped || !errors.Is(a.Why, context.DeadlineExceeded) || a.Bound < optimum*(1+1e-4) {
		t.Errorf("%s (%v), bound %.8g below the optimum %.8g", a.Status, a.Why, a.Bound, optimum)
	}
	if a.Found {
		if err := Check(p, a, 1e-7); err != nil {
			t.Error(err)
		}
		if a.Objective > optimum*(1-1e-4) {
			t.Errorf("found %.8g, better than the optimum", a.Objective)
		}
	}
}

func BenchmarkFortyFieldsRelaxed(b *testing.B) {
	p := rotations(40, 10, 6, false)
	for b.Loop() {
		if a := solved(b, p, Limits{}); a.Status != Optimal {
			b.Fatal(a.Status)
		}
	}
}
