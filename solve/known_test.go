package solve

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"testing"
)

// stated is a problem as testdata states it.
type stated struct {
	Sense string     `json:"sense"`
	C     []float64  `json:"c"`
	Names []string   `json:"names"`
	Rows  [][]any    `json:"rows"`
	Lb    []*float64 `json:"lb"`
	Ub    []*float64 `json:"ub"`
	Int   []int      `json:"int"`
}

func (s stated) problem(t testing.TB) *Problem {
	t.Helper()
	p := Least()
	if s.Sense == "max" {
		p = Most()
	}
	for j, c := range s.C {
		low, high := math.Inf(-1), math.Inf(1)
		if s.Lb[j] != nil {
			low = *s.Lb[j]
		}
		if s.Ub[j] != nil {
			high = *s.Ub[j]
		}
		name := fmt.Sprintf("x%d", j)
		if s.Names != nil {
			name = s.Names[j]
		}
		p.Column(name, low, high, c)
	}
	for _, j := range s.Int {
		p.Whole(Column(j))
	}
	for _, r := range s.Rows {
		var terms []Term
		for j, v := range r[1].([]any) {
			terms = append(terms, Term{Column(j), v.(float64)})
		}
		name, b := r[0].(string), r[3].(float64)
		switch r[2] {
		case "<=":
			p.AtMost(name, b, terms...)
		case ">=":
			p.AtLeast(name, b, terms...)
		default:
			p.Exactly(name, b, terms...)
		}
	}
	return p
}

func fromJSON(t testing.TB, name string, v any) {
	t.Helper()
	text, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, v); err != nil {
		t.Fatal(name, err)
	}
}

func known(t testing.TB, name string) *Problem {
	t.Helper()
	all := map[string]stated{}
	fromJSON(t, "problems.json", &all)
	s, ok := all[name]
	if !ok {
		t.Fatalf("testdata/problems.json has no %s", name)
	}
	return s.problem(t)
}

// solved solves and wants the evidence to hold.
func solved(t testing.TB, p *Problem, l Limits) *Answer {
	t.Helper()
	a, err := Solve(context.Background(), p, l)
	if err != nil {
		t.Fatal(err)
	}
	if a.Status == Stopped {
		t.Fatalf("stopped: %v", a.Why)
	}
	if err := Check(p, a, 1e-7); err != nil {
		t.Fatalf("%s, objective %.12g: %v", a.Status, a.Objective, err)
	}
	return a
}

func near(got, want float64) bool { return math.Abs(got-want) <= 1e-7*max(1, math.Abs(want)) }

func priceOf(t testing.TB, p *Problem, a *Answer, row string) float64 {
	t.Helper()
	for i := range p.rows {
		if p.RowName(Row(i)) == row {
			return a.Price(Row(i))
		}
	}
	t.Fatalf("no row %s", row)
	return 0
}

func valueOf(t testing.TB, p *Problem, a *Answer, column string) float64 {
	t.Helper()
	for j := range p.columns {
		if p.ColumnName(Column(j)) == column {
			return a.Value(Column(j))
		}
	}
	t.Fatalf("no column %s", column)
	return 0
}

// The optima and prices are those of HiGHS, GLPK 5.0 and CBC 2.10.8, which agree.
func TestKnownProblemsComeOutAsOtherSolversHaveThem(t *testing.T) {
	for name, want := range map[string]struct {
		objective, relaxed float64
		x, price           map[string]float64
	}{
		"blend": {4.172922969745, 4.172922969745,
			map[string]float64{"haylage": 8.794022, "silage": 9, "corn": 3.248673, "sbm": 2.257630, "hay": 0},
			map[string]float64{"cp": 0.516521, "ndf_hi": -0.110171, "nel": 0.082265, "silage_cap": -0.002561, "dm_lo": 0}},
		"rotation": {-3874.12813339, -3874.12813339, map[string]float64{"sell2": 76.926437},
			map[string]float64{"land1": 376.473071, "feed1": -160.722659, "seed1": 196.716868}},
		"transport":  {470, 470, nil, nil},
		"kleeminty6": {1e10, 1e10, map[string]float64{"x5": 1e10, "x0": 0}, nil},
		"beale":      {-0.05, -0.05, map[string]float64{"x1": 0.04, "x3": 1}, nil},
		"terminate":  {251, 251.66666667, map[string]float64{"z1": 1, "z2": 0, "z3": 1, "z5": 1, "z6": 1, "z10": 1, "z12": 1}, nil},
	} {
		t.Run(name, func(t *testing.T) {
			p := known(t, name)
			if a := solved(t, p.Relaxed(), Limits{}); a.Status != Optimal || !near(a.Objective, want.relaxed) && math.Abs(a.Objective-want.relaxed) > 5e-9 {
				t.Errorf("relaxation %s %.12g, want %.12g", a.Status, a.Objective, want.relaxed)
			}
			a := solved(t, p, Limits{})
			if a.Status != Optimal || !near(a.Objective, want.objective) || !near(a.Bound, want.objective) {
				t.Errorf("%s %.12g with the bound %.12g, want %.12g", a.Status, a.Objective, a.Bound, want.objective)
			}
			for column, v := range want.x {
				if got := valueOf(t, p, a, column); math.Abs(got-v) > 6e-7*max(1, v) {
					t.Errorf("%s is %.9g, want %.9g", column, got, v)
				}
			}
			for row, v := range want.price {
				if got := priceOf(t, p, a, row); math.Abs(got-v) > 6e-7 {
					t.Errorf("price of %s is %.9g, want %.9g", row, got, v)
				}
			}
		})
	}
}

// One of these hangs the simplex of gonum v0.17.0, the other makes it err. The optima are those of HiGHS.
func TestProblemsThatBreakAnotherSimplexAreSolved(t *testing.T) {
	for _, name := range []string{"gonum_hang.json", "gonum_spurious_error.json"} {
		t.Run(name, func(t *testing.T) {
			var s struct {
				C    []float64   `json:"min_c"`
				A    [][]float64 `json:"A_le"`
				B    []float64   `json:"b"`
				Want float64     `json:"highs_optimum"`
			}
			fromJSON(t, name, &s)
			p := Least()
			for j, c := range s.C {
				p.Column(fmt.Sprintf("x%d", j), 0, math.Inf(1), c)
			}
			for i, r := range s.A {
				var terms []Term
				for j, v := range r {
					terms = append(terms, Term{Column(j), v})
				}
				p.AtMost(fmt.Sprintf("r%d", i), s.B[i], terms...)
			}
			if a := solved(t, p, Limits{}); a.Status != Optimal || !near(a.Objective, s.Want) {
				t.Errorf("%s %.12g, want %.12g", a.Status, a.Objective, s.Want)
			}
		})
	}
}
