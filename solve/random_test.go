package solve

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// draws is where a random problem comes from: a seeded source, or rapid's.
type draws interface {
	upTo(n int) int // 0 to n-1
	part() float64  // 0 to 1
}

type seeded struct{ *rand.Rand }

func (s seeded) upTo(n int) int { return s.IntN(n) }
func (s seeded) part() float64  { return s.Float64() }

func newRand(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 1)) }

// anyProblem draws a small problem of every kind: degenerate, infeasible, unbounded ones, with every
// kind of bound, small whole coefficients (which tie) or arbitrary ones of very different size. whole
// marks some columns.
func anyProblem(d draws, whole bool) *Problem {
	p := Least()
	if d.upTo(2) == 0 {
		p = Most()
	}
	m, n := d.upTo(13), 1+d.upTo(14)
	if whole {
		m, n = d.upTo(7), 1+d.upTo(8)
	}
	smooth := d.upTo(3) == 0
	number := func(size int) float64 {
		if smooth {
			return (2*d.part() - 1) * math.Pow(10, float64(d.upTo(4)-1))
		}
		return float64(d.upTo(2*size+1) - size)
	}
	for j := range n {
		low, high := 0., math.Inf(1)
		switch d.upTo(8) {
		case 0, 1:
			high = math.Abs(number(6))
		case 2:
			low = number(5)
			high = low + math.Abs(number(5))
		case 3:
			if !whole {
				low = math.Inf(-1)
			}
		case 4:
			low = -math.Abs(number(4))
		case 5:
			low, high = -3, -3
		default:
		}
		if whole { // GLPK wants whole bounds
			low, high = math.Floor(low), math.Floor(min(high, low+12))
			high = max(low, high)
		}
		c := p.Column(fmt.Sprintf("x%d", j), low, high, number(4))
		if whole && d.upTo(3) > 0 {
			p.Whole(c)
		}
	}
	for i := range m {
		var terms []Term
		for j := range n {
			if d.upTo(5) < 3 {
				terms = append(terms, Term{Column(j), number(3)})
			}
		}
		low, high := math.Inf(-1), math.Inf(1)
		b := number(9)
		switch d.upTo(6) {
		case 0:
			low = b
		case 1:
			low, high = b, b
		case 2:
			low, high = b, b+math.Abs(number(4))
		default:
			high = b
		}
		p.Between(fmt.Sprintf("r%d", i), low, high, terms...)
	}
	return p
}

// written is a problem in CPLEX LP text, for other solvers.
func written(p *Problem) string {
	var b strings.Builder
	sum := func(terms []Term) {
		if len(terms) == 0 {
			b.WriteString(" 0 x0")
		}
		for _, t := range terms {
			fmt.Fprintf(&b, " %+.17g x%d", t.Times, t.Column)
		}
	}
	b.WriteString(map[float64]string{1: "min\n obj:", -1: "max\n obj:"}[p.sense])
	for j, c := range p.columns {
		fmt.Fprintf(&b, " %+.17g x%d", c.cost, j)
	}
	b.WriteString("\nSubject To\n some: 0 x0 <= 1\n") // a file without rows is refused
	for i, r := range p.rows {
		switch {
		case r.low == r.high:
			fmt.Fprintf(&b, " r%d:", i)
			sum(r.terms)
			fmt.Fprintf(&b, " = %.17g\n", r.low)
		default:
			if !math.IsInf(r.low, -1) {
				fmt.Fprintf(&b, " l%d:", i)
				sum(r.terms)
				fmt.Fprintf(&b, " >= %.17g\n", r.low)
			}
			if !math.IsInf(r.high, 1) {
				fmt.Fprintf(&b, " h%d:", i)
				sum(r.terms)
				fmt.Fprintf(&b, " <= %.17g\n", r.high)
			}
		}
	}
	b.WriteString("Bounds\n")
	for j, c := range p.columns {
		low, high := "-inf", "+inf"
		if !math.IsInf(c.low, -1) {
			low = fmt.Sprintf("%.17g", c.low)
		}
		if !math.IsInf(c.high, 1) {
			high = fmt.Sprintf("%.17g", c.high)
		}
		fmt.Fprintf(&b, " %s <= x%d <= %s\n", low, j, high)
	}
	for j, c := range p.columns {
		if c.whole {
			fmt.Fprintf(&b, "General\n x%d\n", j)
		}
	}
	b.WriteString("End\n")
	return b.String()
}

var glpkSays = regexp.MustCompile(`(?m)^(Status|Objective):\s*(?:obj = )?(.*?)(?: \(M.*)?$`)

// byGLPK asks glpsol: its status and objective.
func byGLPK(t *testing.T, dir string, p *Problem) (status string, objective float64) {
	t.Helper()
	in, out := filepath.Join(dir, "p.lp"), filepath.Join(dir, "p.txt")
	if err := os.WriteFile(in, []byte(written(p)), 0o600); err != nil {
		t.Fatal(err)
	}
	os.Remove(out)
	said, err := exec.Command("glpsol", "--nopresol", "--lp", in, "-o", out).CombinedOutput()
	if err != nil {
		t.Fatalf("glpsol: %v\n%s", err, said)
	}
	switch text := string(said); { // what its presolver finds stands in no file
	case strings.Contains(text, "NO PRIMAL FEASIBLE"), strings.Contains(text, "NO INTEGER FEASIBLE"), strings.Contains(text, "NO FEASIBLE"):
		return "infeasible", 0
	case strings.Contains(text, "UNBOUNDED"):
		return "unbounded", 0
	}
	text, err := os.ReadFile(out)
	if err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	for _, m := range glpkSays.FindAllStringSubmatch(string(text), -1) {
		if m[1] == "Status" {
			status = strings.ToLower(strings.TrimPrefix(m[2], "INTEGER "))
			continue
		}
		number := m[2]
		if _, after, ok := strings.Cut(number, "= "); ok {
			number = after
		}
		if objective, err = strconv.ParseFloat(strings.TrimSpace(number), 64); err != nil {
			t.Fatalf("%q: %v", m[0], err)
		}
	}
	return status, objective
}

// TestAThousandRandomProblemsAgreeWithGLPK compares status and objective; GLPK prints 10 digits.
func TestAThousandRandomProblemsAgreeWithGLPK(t *testing.T) {
	if _, err := exec.LookPath("glpsol"); err != nil {
		if os.Getenv("HAYWARDEN_DEMAND") == "1" {
			t.Fatal("glpsol is not installed, and HAYWARDEN_DEMAND asks for it")
		}
		t.Skip("glpsol is not installed (package glpk-utils): no outside solver to agree with")
	}
	dir := t.TempDir()
	d := seeded{newRand(7)}
	seen := map[string]int{}
	for i := range 1000 {
		whole := i%4 == 3
		p := anyProblem(d, whole)
		a, err := Solve(context.Background(), p, Limits{})
		if err != nil {
			t.Fatal(err)
		}
		if err := Check(p, a, 1e-7); err != nil {
			t.Errorf("problem %d: %s: %v\n%s", i, a.Status, err, written(p))
		}
		status, objective := byGLPK(t, dir, p)
		seen[a.Status.String()]++
		if a.Status.String() != status || a.Status == Optimal && math.Abs(a.Objective-objective) > 1e-6*max(1, math.Abs(objective)) {
			t.Errorf("problem %d: %s %.10g, GLPK says %s %.10g (%v)\n%s", i, a.Status, a.Objective, status, objective, a.Why, written(p))
			if t.Failed() && i > 200 {
				t.FailNow()
			}
		}
	}
	t.Log(seen)
	for _, s := range []Status{Optimal, Infeasible, Unbounded} {
		if seen[s.String()] < 50 {
			t.Errorf("only %d of the problems are %s: draw others", seen[s.String()], s)
		}
	}
}
