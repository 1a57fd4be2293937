package solve

import (
	"context"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestFaultsAreNamed(t *testing.T) {
	inf := math.Inf(1)
	for want, build := range map[string]func(p *Problem){
		"column hay: cost NaN":                              func(p *Problem) { p.Column("hay", 0, 1, math.NaN()) },
		"column hay: cost +Inf":                             func(p *Problem) { p.Column("hay", 0, 1, inf) },
		"column hay: bounds NaN to 1":                       func(p *Problem) { p.Column("hay", math.NaN(), 1, 0) },
		"column hay: bounds +Inf to +Inf leave nothing":     func(p *Problem) { p.Column("hay", inf, inf, 0) },
		"column hay: lower bound 3 is over upper bound 2":   func(p *Problem) { p.Column("hay", 3, 2, 0) },
		"row need: coefficient -Inf: want a finite number":  func(p *Problem) { p.AtMost("need", 1, Term{p.Column("hay", 0, 1, 0), -inf}) },
		"row need: bounds NaN to +Inf":                      func(p *Problem) { p.AtLeast("need", math.NaN()) },
		"row need: lower bound 2 is over upper bound 1":     func(p *Problem) { p.Between("need", 2, 1) },
		"row need: bounds -Inf to -Inf leave nothing":       func(p *Problem) { p.AtMost("need", -inf) },
		"row need: column 4: there are 0 so far":            func(p *Problem) { p.AtMost("need", 1, Term{4, 1}) },
		"whole: column -1: there are 0 so far, numbered fr": func(p *Problem) { p.Whole(-1) },
	} {
		p := Least()
		build(p)
		p.Column("later", 9, 1, 0) // the first fault is the one to tell
		if _, err := Solve(t.Context(), p, Limits{}); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error %v, want one saying %q", err, want)
		}
	}
	for _, l := range []Limits{{Gap: math.NaN()}, {Gap: -1}, {Nodes: -1}, {Pivots: -1}} {
		if _, err := Solve(t.Context(), Least(), l); err == nil || !strings.Contains(err.Error(), "accepted 0 and over") {
			t.Errorf("limits %+v: error %v", l, err)
		}
	}
}

func TestSmallestProblems(t *testing.T) {
	if a := solved(t, Least(), Limits{}); a.Status != Optimal || a.Objective != 0 {
		t.Errorf("nothing at all: %+v", a)
	}
	p := Most()
	x := p.Column("x", 0, 4, 2)
	if a := solved(t, p, Limits{}); a.Value(x) != 4 || a.Objective != 8 || a.Reduced[0] != 2 {
		t.Errorf("a column alone: %+v", a)
	}
	p = Most()
	p.Column("x", 0, math.Inf(1), 1)
	if a := solved(t, p, Limits{}); a.Status != Unbounded {
		t.Errorf("a column without end: %s", a.Status)
	}
	p = Least()
	p.AtLeast("never", 1)
	if a := solved(t, p, Limits{}); a.Status != Infeasible || len(a.Blame.Rows) != 1 {
		t.Errorf("an empty row that wants 1: %+v", a)
	}
	p = Least()
	p.Whole(p.Column("x", 0.2, 0.8, 1))
	if a := solved(t, p, Limits{}); a.Status != Infeasible || len(a.Blame.Columns) != 1 {
		t.Errorf("no whole number between: %+v", a)
	}
	p = Most()
	x = p.Column("x", 0, math.Inf(1), 1)
	p.Whole(x)
	p.AtLeast("some", 2, Term{x, 1})
	if a := solved(t, p, Limits{}); a.Status != Unbounded {
		t.Errorf("whole and without end: %s", a.Status)
	}
	p = Least()
	x = p.Column("x", 0, 9, 1)
	p.Exactly("twice named", 6, Term{x, 1}, Term{x, 2})
	if a := solved(t, p, Limits{}); math.Abs(a.Value(x)-2) > 1e-9 {
		t.Errorf("terms of one column are not added up: %+v", a)
	}
}

func TestBlameNamesTheRowsThatCannotBeHadTogether(t *testing.T) {
	p := Least()
	hay, corn, meal := p.Column("hay", 0, 20, 1), p.Column("corn", 0, math.Inf(1), 1), p.Column("meal", 0, 5, 3)
	p.AtLeast("dry matter", 10, Term{hay, 1}, Term{corn, 1}, Term{meal, 1})
	p.AtMost("fibre", 4, Term{hay, 0.4}, Term{corn, 0.1}, Term{meal, 0.1})
	p.AtLeast("forage", 12, Term{hay, 1})
	p.AtLeast("protein", 1, Term{hay, 0.2}, Term{meal, 0.5})
	a := solved(t, p, Limits{})
	var names []string
	for _, r := range a.Blame.Rows {
		names = append(names, p.RowName(r))
	}
	for _, c := range a.Blame.Columns {
		names = append(names, p.ColumnName(c))
	}
	if diff := cmp.Diff([]string{"fibre", "forage", "corn", "meal"}, names); a.Status != Infeasible || a.Blame.Ample || diff != "" {
		t.Errorf("%s (-want +got):\n%s", a.Status, diff)
	}
}

// TestBlameIsIrreducible leaves out each row that is blamed, and the bounds of each column, and finds
// an answer.
func TestBlameIsIrreducible(t *testing.T) {
	for seed := range 60 {
		p := anyProblem(seeded{newRand(uint64(seed))}, false)
		a := solved(t, p, Limits{})
		if a.Status != Infeasible {
			continue
		}
		only := func(skipRow Row, skipColumn Column) Status {
			q := Least()
			for j, c := range p.columns {
				low, high := math.Inf(-1), math.Inf(1)
				for _, b := range a.Blame.Columns {
					if int(b) == j && b != skipColumn {
						low, high = c.low, c.high
					}
				}
				q.Column(c.name, low, high, 0)
			}
			for _, b := range a.Blame.Rows {
				if b != skipRow {
					q.Between(p.rows[b].name, p.rows[b].low, p.rows[b].high, p.rows[b].terms...)
				}
			}
			return solved(t, q, Limits{}).Status
		}
		if s := only(-1, -1); s != Infeasible {
			t.Errorf("seed %d: what is blamed is %s by itself", seed, s)
		}
		for _, r := range a.Blame.Rows {
			if s := only(r, -1); s != Optimal {
				t.Errorf("seed %d: without row %s still %s", seed, p.RowName(r), s)
			}
		}
		for _, c := range a.Blame.Columns {
			if s := only(-1, c); s != Optimal {
				t.Errorf("seed %d: without the bounds of %s still %s", seed, p.ColumnName(c), s)
			}
		}
	}
}

func TestLimitsStopTheSearch(t *testing.T) {
	p := allocation(60, 12, true, true, 1)
	a, err := Solve(t.Context(), p, Limits{Nodes: 5})
	if err != nil || a.Status != Stopped || !errors.Is(a.Why, errNodes) || a.Nodes > 5 {
		t.Errorf("5 nodes: %v, %+v", err, a.Status)
	}
	if a, err = Solve(t.Context(), p.Relaxed(), Limits{Pivots: 7}); err != nil || a.Status != Stopped || !errors.Is(a.Why, errPivots) || a.Pivots > 7 || a.Found {
		t.Errorf("7 pivots: %v, %+v", err, a.Status)
	}
	gone, cancel := context.WithCancel(t.Context())
	cancel()
	for _, q := range []*Problem{p, p.Relaxed()} {
		if a, err = Solve(gone, q, Limits{}); err != nil || a.Status != Stopped || !errors.Is(a.Why, context.Canceled) {
			t.Errorf("a context that is over: %v, %+v", err, a.Status)
		}
	}
}

func TestTheSameProblemGetsTheSameAnswer(t *testing.T) {
	p := allocation(30, 6, true, true, 4)
	first, err := Solve(t.Context(), p, Limits{Nodes: 3000})
	if err != nil {
		t.Fatal(err)
	}
	again, err := Solve(t.Context(), p, Limits{Nodes: 3000})
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(first.X, again.X); diff != "" || first.Pivots != again.Pivots {
		t.Error("two runs differ")
	}
}

// Chvatal 1983, p. 31: cycles under the largest coefficient with the first of ties; and the cube of
// Klee and Minty 1972, on which that rule visits every corner.
func TestClassicsOfCyclingAndOfLongPathsEnd(t *testing.T) {
	inf := math.Inf(1)
	p := Most()
	var x []Column
	for j, c := range []float64{10, -57, -9, -24} {
		x = append(x, p.Column(fmt.Sprintf("x%d", j+1), 0, inf, c))
	}
	p.AtMost("a", 0, Term{x[0], 0.5}, Term{x[1], -5.5}, Term{x[2], -2.5}, Term{x[3], 9})
	p.AtMost("b", 0, Term{x[0], 0.5}, Term{x[1], -1.5}, Term{x[2], -0.5}, Term{x[3], 1})
	p.AtMost("c", 1, Term{x[0], 1})
	if a := solved(t, p, Limits{}); !near(a.Objective, 1) {
		t.Errorf("Chvatal: %g, want 1", a.Objective)
	}
	for _, n := range []int{3, 6, 9, 12} {
		p := Most()
		for j := range n {
			p.Column(fmt.Sprintf("x%d", j), 0, inf, math.Pow(2, float64(n-1-j)))
		}
		for i := range n {
			terms := []Term{{Column(i), 1}}
			for j := range i {
				terms = append(terms, Term{Column(j), math.Pow(2, float64(i-j+1))})
			}
			p.AtMost(fmt.Sprintf("r%d", i), math.Pow(5, float64(i+1)), terms...)
		}
		if a := solved(t, p, Limits{}); !near(a.Objective, math.Pow(5, float64(n))) {
			t.Errorf("Klee and Minty of %d: %.12g, want %.12g", n, a.Objective, math.Pow(5, float64(n)))
		}
	}
}

// TestCheckRefusesWhatDoesNotHold spoils good answers in each way that Check looks for.
func TestCheckRefusesWhatDoesNotHold(t *testing.T) {
	good := func() (*Problem, *Answer) {
		p := known(t, "blend")
		return p, solved(t, p, Limits{})
	}
	never := Least()
	y := never.Column("y", 0, 1, 1)
	never.AtLeast("much", 3, Term{y, 1})
	endless := Most()
	z := endless.Column("z", 0, math.Inf(1), 1)
	endless.AtLeast("some", 3, Term{z, 1})
	for want, spoil := range map[string]func() (*Problem, *Answer){
		"column haylage is -1":       func() (*Problem, *Answer) { p, a := good(); a.X[1] = -1; return p, a },
		"row ":                       func() (*Problem, *Answer) { p, a := good(); a.X[4]++; return p, a },
		"the objective is":           func() (*Problem, *Answer) { p, a := good(); a.Objective++; return p, a },
		"the reduced cost is":        func() (*Problem, *Answer) { p, a := good(); a.Reduced[0]++; return p, a },
		"no bound on that side":      func() (*Problem, *Answer) { p, a := good(); a.Prices[2] *= -1; return p, a },
		"better than its bound":      func() (*Problem, *Answer) { p, a := good(); a.Bound++; return p, a },
		"5 numbers":                  func() (*Problem, *Answer) { p, a := good(); p.Column("more", 0, 1, 0); return p, a },
		"6 multipliers":              func() (*Problem, *Answer) { p, a := good(); a.Prices = a.Prices[:6]; return p, a },
		"no contradiction":           func() (*Problem, *Answer) { a := solved(t, never, Limits{}); a.Ray[0] = 0; return never, a },
		"improves nothing":           func() (*Problem, *Answer) { a := solved(t, endless, Limits{}); a.Ray[0] = 0; return endless, a },
		"leaves the bounds of colum": func() (*Problem, *Answer) { a := solved(t, endless, Limits{}); a.Ray[0] = -1; return endless, a },
		"must be whole": func() (*Problem, *Answer) {
			p := known(t, "terminate")
			a := solved(t, p, Limits{})
			a.X[1] = 0.5
			return p, a
		},
	} {
		p, a := spoil()
		if err := Check(p, a, 1e-7); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error %v, want one saying %q", err, want)
		}
	}
}

// TestDegenerateProblemsOfSomeSizeEnd: in an assignment nearly every basis ties with others.
func TestDegenerateProblemsOfSomeSizeEnd(t *testing.T) {
	for _, n := range []int{5, 20, 40} {
		for seed := range uint64(4) {
			r := newRand(seed)
			p := Least()
			rows, columns := make([][]Term, n), make([][]Term, n)
			for i := range n {
				for j := range n {
					c := p.Column(fmt.Sprintf("x%d_%d", i, j), 0, math.Inf(1), float64(r.IntN(20)-5))
					rows[i], columns[j] = append(rows[i], Term{c, 1}), append(columns[j], Term{c, 1})
				}
			}
			for i := range n {
				p.Exactly(fmt.Sprintf("row%d", i), 1, rows[i]...)
				p.Exactly(fmt.Sprintf("column%d", i), 1, columns[i]...)
			}
			a := solved(t, p, Limits{})
			for j, v := range a.X {
				if math.Abs(v-math.Round(v)) > 1e-9 {
					t.Errorf("%d by %d: %s is %g at a corner of the assignment", n, n, p.ColumnName(Column(j)), v)
				}
			}
			p.AtMost("not the best", a.Objective-0.5, costs(p)...)
			if b := solved(t, p, Limits{}); b.Status != Infeasible {
				t.Errorf("%d by %d: %s below the optimum", n, n, b.Status)
			}
		}
	}
}

func costs(p *Problem) (terms []Term) {
	for j, c := range p.columns {
		terms = append(terms, Term{Column(j), c.cost})
	}
	return terms
}
