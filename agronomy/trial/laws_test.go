package trial

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

func seeded() *rand.Rand { return rand.New(rand.NewPCG(1, 2)) }

// table draws entries by environments with effects and error, some cells missing, never all of an entry.
func table(t *rapid.T, missing bool) (values []float64, entry, env Factor) {
	k, n := rapid.IntRange(3, 7).Draw(t, "entries"), rapid.IntRange(3, 6).Draw(t, "environments")
	r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 3))
	var es, gs []string
	for i := range k {
		for j := range n {
			v := 5 + 0.3*float64(i) + float64(j) + 0.4*r.NormFloat64()
			if missing && j != i%n && j != (i+1)%n && r.Float64() < 0.25 {
				continue
			}
			values, es, gs = append(values, v), append(es, fmt.Sprintf("E%d", i)), append(gs, fmt.Sprintf("S%d", j))
		}
	}
	return values, NewFactor("entry", es), NewFactor("site", gs)
}

// Shrunken effects lie between nothing and the plain difference, the restricted likelihood of a
// complete table is greatest at the mean squares, and units and order of rows do not matter.
func TestCompleteTablesFollowTheirMeanSquares(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		y, entry, env := table(t, false)
		f, err := FitREML(Model{Response: y, Random: []Factor{entry, env}})
		if err != nil {
			t.Fatal(err)
		}
		a, err := Blocks(y, entry, env, 0.05)
		if err != nil {
			t.Fatal(err)
		}
		me := a.Lines[2].Mean()
		between := (a.Lines[1].Mean() - me) / float64(len(env.Levels))
		sites := (a.Lines[0].Mean() - me) / float64(len(entry.Levels))
		if between <= 1e-4 || sites <= 1e-4 {
			return // a boundary: other tests hold it
		}
		shrink := between / (between + me/float64(len(env.Levels)))
		if !near(f.Residual, me, 1e-7) || !near(f.Components[0].Variance, between, 1e-6) || !near(f.Components[1].Variance, sites, 1e-6) {
			t.Fatalf("%+v %g, want %g %g %g", f.Components, f.Residual, between, sites, me)
		}
		for i, e := range f.Effects("entry") {
			if plain := a.Means[i].Value - a.Mean; math.Abs(e.Value-shrink*plain) > 1e-7 {
				t.Fatalf("%s: effect %g of a difference %g shrunk by %g", e.Level, e.Value, plain, shrink)
			}
		}
	})
}

func TestUnitsAndOrderDoNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		y, entry, env := table(t, true)
		f, err := FitREML(Model{Response: y, Random: []Factor{entry, env}})
		if err != nil {
			t.Fatal(err)
		}
		scale, shift := rapid.Float64Range(0.01, 1000).Draw(t, "scale"), rapid.Float64Range(-100, 100).Draw(t, "shift")
		perm := rand.New(rand.NewPCG(4, 5)).Perm(len(y))
		moved := make([]float64, len(y))
		e2, g2 := Factor{"entry", entry.Levels, make([]int, len(y))}, Factor{"site", env.Levels, make([]int, len(y))}
		for i, p := range perm {
			moved[i] = scale*y[p] + shift
			e2.At[i], g2.At[i] = entry.At[p], env.At[p]
		}
		g, err := FitREML(Model{Response: moved, Random: []Factor{g2, e2}})
		if err != nil {
			t.Fatal(err)
		}
		if !near(g.Residual, scale*scale*f.Residual, 1e-6) || math.Abs(g.Mean-scale*f.Mean-shift) > 1e-6*scale*math.Abs(f.Mean) {
			t.Fatalf("residual %g for %g scaled by %g, mean %g for %g", g.Residual, f.Residual, scale, g.Mean, f.Mean)
		}
		want := f.Criterion + float64(len(y)-1)*2*math.Log(scale)
		if math.Abs(g.Criterion-want) > 1e-7*(1+math.Abs(want)) {
			t.Fatalf("criterion %g, want %g", g.Criterion, want)
		}
	})
}

// The solver's shortcuts against the equations written out in full.
func TestAbsorbedEquationsAnswerTheWholeOnes(t *testing.T) {
	y, g, e, b := invented(6, 5, 2, 0.2)
	m := Model{Response: y, Fixed: []Factor{e}, Random: []Factor{g, Cross(g, e), Cross(e, b)}}
	columns, fixed := m.fixedColumns()
	eq := newEquations(m.Random, fixed, len(columns))
	if eq.absorbed == 0 || !eq.factor([]float64{0.7, 0.2, 1.5}) || !eq.invert() {
		t.Fatal("nothing is absorbed, or the equations fail")
	}
	for i := range eq.columns {
		unit := make([]float64, eq.columns)
		unit[i] = 1
		eq.solve(unit)
		if !near(unit[i], eq.own[i], 1e-9) {
			t.Errorf("inverse at %d: %g by solving, %g by recursion", i, unit[i], eq.own[i])
		}
		// M times the solution gives the unit vector back: W'(W x) + J x.
		plots := eq.residual(make([]float64, len(y)), unit)
		for p := range plots {
			plots[p] = -plots[p]
		}
		back := eq.gather(plots)
		for j := range back {
			if j < eq.random {
				back[j] += unit[j]
			}
			want := 0.0
			if j == i {
				want = 1
			}
			if math.Abs(back[j]-want) > 1e-9 {
				t.Fatalf("column %d: M x at %d is %g, want %g", i, j, back[j], want)
			}
		}
	}
}

func TestSlopesAverageOneAndSharesAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		y, entry, env := table(t, false)
		list, err := StabilityOf(y, entry, env)
		if err != nil {
			t.Fatal(err)
		}
		a, err := Blocks(y, entry, env, 0.05)
		if err != nil {
			t.Fatal(err)
		}
		var slope, wricke, shukla float64
		for _, s := range list {
			slope += s.Slope / float64(len(list))
			wricke += s.Wricke
			shukla += s.Shukla / float64(len(list))
		}
		if !near(slope, 1, 1e-9) || !near(wricke, a.Lines[2].Squares, 1e-9) || !near(shukla, a.Lines[2].Mean(), 1e-9) {
			t.Fatalf("slope %g, shares %g of %g, variance %g of %g", slope, wricke, a.Lines[2].Squares, shukla, a.Lines[2].Mean())
		}
	})
}

func TestChancesOfBeingBestAddToOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		y, entry, env := table(t, true)
		f, err := FitREML(Model{Response: y, Random: []Factor{entry, env}})
		if err != nil {
			t.Fatal(err)
		}
		list, err := f.Chances("entry", "E0", false, 500, seeded())
		if err != nil {
			t.Fatal(err)
		}
		least, err := f.Chances("entry", "E0", true, 500, seeded())
		if err != nil {
			t.Fatal(err)
		}
		sum := 0.0
		for i, c := range list {
			sum += c.Best
			if math.IsNaN(c.Beats) != (c.Entry == "E0") || !math.IsNaN(c.Beats) && math.Abs(c.Beats-1+least[i].Beats) > 1e-12 {
				t.Fatalf("%+v, lower %+v", c, least[i])
			}
		}
		if !near(sum, 1, 1e-9) {
			t.Fatalf("chances add to %g", sum)
		}
	})
}

// Two entries alone: being best and beating the other are one thing, and known exactly.
func TestBestOfTwoIsBeatingTheOther(t *testing.T) {
	y, entry, block := split(t, "A,1,4.1 B,1,4.6 A,2,4.5 B,2,4.8 A,3,4.4 B,3,4.5 A,4,4.0 B,4,4.7")
	f := mustFit(t, Model{Response: y, Random: []Factor{entry, block}})
	list, err := f.Chances("entry", "A", false, 200000, seeded())
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(list[1].Best-list[1].Beats) > 0.004 || list[1].Beats < 0.6 {
		t.Errorf("%+v", list)
	}
	_, err = f.Chances("entry", "Z", false, 10, seeded())
	refused(t, err, `check "Z" is no level of entry`)
	_, err = f.Chances("site", "", false, 10, seeded())
	refused(t, err, "site is no random term")
	_, err = f.Chances("entry", "", false, 0, seeded())
	refused(t, err, "0 draws")
}

func TestALayoutHoldsEveryEntryOnceInABlock(t *testing.T) {
	entries := []string{"A", "B", "C", "D", "E"}
	plan, err := Layout(entries, 4, seeded())
	if err != nil {
		t.Fatal(err)
	}
	again, _ := Layout(entries, 4, seeded())
	orders := map[string]bool{}
	for b, row := range plan {
		seen := map[string]bool{}
		for _, e := range row {
			seen[e] = true
		}
		if len(seen) != len(entries) || len(row) != len(entries) || fmt.Sprint(row) != fmt.Sprint(again[b]) {
			t.Errorf("block %d: %v, again %v", b+1, row, again[b])
		}
		orders[fmt.Sprint(row)] = true
	}
	if len(plan) != 4 || len(orders) < 2 {
		t.Errorf("%d blocks, %d orders", len(plan), len(orders))
	}
	_, err = Layout([]string{"A", "A"}, 2, seeded())
	refused(t, err, `entry 2, "A": give each entry a name of its own`)
	_, err = Layout([]string{"A"}, 2, seeded())
	refused(t, err, "give 2 entries and a block at least")
}

func TestMoreReplicatesShowSmallerDifferences(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := Goal{Entries: rapid.IntRange(2, 60).Draw(t, "entries"), CV: rapid.Float64Range(3, 20).Draw(t, "cv"), Difference: rapid.Float64Range(5, 40).Draw(t, "difference"), Level: 0.05, Power: 0.8}
		r, err := Replicates(g)
		if err != nil {
			if p := PowerOf(g, mostReplicates); p >= g.Power {
				t.Fatalf("%v, yet %d blocks have power %g", err, mostReplicates, p)
			}
			return
		}
		if PowerOf(g, r) < g.Power || r > 2 && PowerOf(g, r-1) >= g.Power {
			t.Fatalf("%d blocks: power %g, with one less %g", r, PowerOf(g, r), PowerOf(g, r-1))
		}
	})
	for want, g := range map[string]Goal{
		"give 2 at least": {1, 10, 10, 0.05, 0.8}, "cv 0": {5, 0, 10, 0.05, 0.8}, "difference -1": {5, 10, -1, 0.05, 0.8},
		"power 1": {5, 10, 10, 0.05, 1}, "look for a larger one": {5, 50, 1, 0.05, 0.8},
	} {
		_, err := Replicates(g)
		refused(t, err, want)
	}
}
