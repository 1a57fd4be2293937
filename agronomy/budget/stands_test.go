package budget

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func near(a, b, tolerance float64) bool { return math.Abs(a-b) <= tolerance }

// life draws a stand's sums by age with what ending it leaves.
func life(t *rapid.T) (margins, salvage []float64, outlay, rate float64, l Life) {
	n := rapid.IntRange(1, 10).Draw(t, "years")
	margins = rapid.SliceOfN(rapid.Float64Range(-300, 600), n, n).Draw(t, "margins")
	salvage = rapid.SliceOfN(rapid.Float64Range(-100, 300), n, n).Draw(t, "salvage")
	outlay, rate = rapid.Float64Range(0, 600).Draw(t, "outlay"), rapid.Float64Range(0, 0.15).Draw(t, "rate")
	l, err := EqualAnnual(margins, salvage, outlay, rate)
	if err != nil {
		t.Fatal(err)
	}
	return margins, salvage, outlay, rate, l
}

// TestTheChainRuleIsTheMarginalRule proves that the equal sum rises to an age exactly when reaching
// that age adds more than the equal sum before it, so that both rules stop at the same top.
func TestTheChainRuleIsTheMarginalRule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		_, _, _, _, l := life(t)
		for i := 1; i < len(l.EAE); i++ {
			rises, adds := l.EAE[i]-l.EAE[i-1], l.Marginal[i]-l.EAE[i-1]
			if math.Abs(adds) > 1e-6 && (rises > 0) != (adds > 0) {
				t.Fatalf("age %d: equal sum %g after %g, and reaching it adds %g", i+1, l.EAE[i], l.EAE[i-1], l.Marginal[i])
			}
		}
		best := l.EAE[l.Best]
		if best != slices.Max(l.EAE) {
			t.Fatalf("best %g of %v", best, l.EAE)
		}
		if l.Best > 0 && l.Marginal[l.Best] < best-1e-6 {
			t.Fatalf("the last year kept adds %g, under the best equal sum %g", l.Marginal[l.Best], best)
		}
		if next := l.Best + 1; next < len(l.EAE) && l.Marginal[next] > best+1e-6 {
			t.Fatalf("the next year would add %g, over the best equal sum %g", l.Marginal[next], best)
		}
	})
}

// TestAnEqualSumIsWorthWhatTheStandIs proves that so much a year has the stand's worth today, and that
// the chain for ever is that sum over the interest.
func TestAnEqualSumIsWorthWhatTheStandIs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		_, _, _, rate, l := life(t)
		for i := range l.EAE {
			worth := 0.0
			for y := 1; y <= i+1; y++ {
				worth += l.EAE[i] / math.Pow(1+rate, float64(y))
			}
			if !near(worth, l.NPV[i], 1e-6) {
				t.Fatalf("age %d: %g a year is worth %g, the stand %g", i+1, l.EAE[i], worth, l.NPV[i])
			}
		}
		if rate > 0.01 {
			n := float64(l.BestAge())
			// One stand after another: its worth now and again every n years.
			if again := l.NPV[l.Best] / (1 - math.Pow(1+rate, -n)); !near(again, l.Chain(rate), 1e-6*math.Max(1, math.Abs(again))) {
				t.Fatalf("chain %g, by stands %g", l.Chain(rate), again)
			}
		}
	})
}

// TestTheHighestWorthIsTooOld proves on one stand that ending it when its worth in all is highest
// keeps it two years too long.
func TestTheHighestWorthIsTooOld(t *testing.T) {
	l, err := EqualAnnual([]float64{-145, 520, 520, 358.5, 197, 64}, make([]float64, 6), 0, 0.06)
	if err != nil {
		t.Fatal(err)
	}
	if most := slices.Index(l.NPV, slices.Max(l.NPV)) + 1; most != 6 || l.BestAge() != 4 {
		t.Errorf("highest worth at %d, best at %d; want 6 and 4", most, l.BestAge())
	}
}

func TestAChainWithoutInterestHasNoWorth(t *testing.T) {
	l, err := EqualAnnual([]float64{-100, 200}, []float64{0, 0}, 0, 0)
	if err != nil || !math.IsNaN(l.Chain(0)) || l.EAE[1] != 50 {
		t.Errorf("%+v, %v", l, err)
	}
}

// TestCornAfterAStandKeepsItLonger proves that spreading the seeding over corn years never makes the
// best age lower, where corn brings no more than the stand and credits do not change.
func TestCornAfterAStandKeepsItLonger(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 8).Draw(t, "years")
		margins := rapid.SliceOfN(rapid.Float64Range(0, 600), n, n).Draw(t, "margins")
		margins[0] = rapid.Float64Range(-300, 0).Draw(t, "seeding year")
		slices.SortFunc(margins[1:], func(a, b float64) int { return cmp.Compare(b, a) })
		alone, err := EqualAnnual(margins, make([]float64, n), 0, 0)
		if err != nil {
			t.Fatal(err)
		}
		// Corn at the best equal sum: the chain is then as good, and ends the stand no earlier.
		corn := Corn{Yield: 1, Price: 1, Cost: 1 - alone.EAE[alone.Best], Bump: []float64{1, 1}}
		_, best, err := Rotation(margins, make([]float64, n), corn, Ending{}, 0)
		if err != nil {
			t.Fatal(err)
		}
		if best < alone.Best && !near(alone.EAE[best], alone.EAE[alone.Best], 1e-6) {
			t.Fatalf("alone to age %d, with corn to age %d", alone.Best+1, best+1)
		}
	})
}

// byIteration is the worth of a chain with kills by going over Bellman's equation until it stands still:
// another way than that of WithKill.
func byIteration(net []float64, cost, rate, kill float64) []float64 {
	v := make([]float64, len(net))
	for range 5000 {
		w := v[0] - cost
		for a := range net {
			keep := w
			if a+1 < len(net) {
				keep = max(w, v[a+1])
			}
			v[a] = (net[a] + (1-kill)*keep + kill*w) / (1 + rate)
		}
	}
	return v
}

func TestReplacementUnderKillIsWhatIterationFinds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 8).Draw(t, "years")
		net := rapid.SliceOfN(rapid.Float64Range(-100, 500), n, n).Draw(t, "net")
		cost, rate, kill := rapid.Float64Range(0, 600).Draw(t, "cost"), rapid.Float64Range(0.02, 0.15).Draw(t, "rate"), rapid.Float64Range(0, 0.5).Draw(t, "kill")
		r, err := WithKill(net, cost, rate, kill)
		if err != nil {
			t.Fatal(err)
		}
		for a, v := range byIteration(net, cost, rate, kill) {
			if !near(v, r.Worth[a], 1e-4) {
				t.Fatalf("age %d: %g, by iteration %g", a+1, r.Worth[a], v)
			}
		}
		if !near(r.Start, r.Worth[0]-cost, 1e-6*max(1, math.Abs(r.Start))) {
			t.Fatalf("start %g, first year %g less %g", r.Start, r.Worth[0], cost)
		}
	})
}

func TestWithoutKillsTheChainIsTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 8).Draw(t, "years")
		net := rapid.SliceOfN(rapid.Float64Range(-100, 500), n, n).Draw(t, "net")
		cost, rate := rapid.Float64Range(0, 600).Draw(t, "cost"), rapid.Float64Range(0.02, 0.15).Draw(t, "rate")
		r, err := WithKill(net, cost, rate, 0)
		if err != nil {
			t.Fatal(err)
		}
		l, err := EqualAnnual(net, make([]float64, n), cost, rate)
		if err != nil {
			t.Fatal(err)
		}
		if !near(r.Start, l.Chain(rate), 1e-6*max(1, math.Abs(r.Start))) || !near(r.Annuity, l.EAE[l.Best], 1e-6) {
			t.Fatalf("%g and %g a year, by the chain %g and %g", r.Start, r.Annuity, l.Chain(rate), l.EAE[l.Best])
		}
	})
}

func TestMoreKillsAreNeverWorthMore(t *testing.T) {
	last := math.Inf(1)
	for kill := 0.; kill <= 1; kill += 0.05 {
		r, err := WithKill([]float64{85, 160, 150, 105, 45, -5, -40}, 310, 0.06, kill)
		if err != nil || r.Start > last {
			t.Fatalf("kill %g: %g after %g, %v", kill, r.Start, last, err)
		}
		last = r.Start
	}
}

func TestTheReturnMakesAFlowWorthNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 10).Draw(t, "years")
		cash := append([]float64{-rapid.Float64Range(10, 1000).Draw(t, "outlay")}, rapid.SliceOfN(rapid.Float64Range(1, 300), n, n).Draw(t, "returns")...)
		_, irr, err := Flows(cash, 0.05)
		if err != nil {
			t.Fatal(err)
		}
		if !math.IsNaN(irr) && !near(worthAt(cash, irr), 0, 1e-6*max(1, -cash[0])) && irr > -0.9 {
			t.Fatalf("at %g it is worth %g", irr, worthAt(cash, irr))
		}
	})
	for name, cash := range map[string][]float64{"never paid back at all": {-100, -1}, "returns before the outlay": {100, -50}, "two turns": {-100, 300, -200}, "nothing": {0, 0}} {
		if _, irr, err := Flows(cash, 0.05); err != nil || !math.IsNaN(irr) {
			t.Errorf("%s: return %g, %v", name, irr, err)
		}
	}
}

// TestYearsThatCannotBeAreRefused proves that each refusal says what is accepted.
func TestYearsThatCannotBeAreRefused(t *testing.T) {
	two := []float64{1, 2}
	for name, c := range map[string]struct {
		run  func() error
		want string
	}{
		"no year":             {func() error { _, err := EqualAnnual(nil, nil, 0, 0.05); return err }, "no year is given"},
		"a century":           {func() error { _, err := EqualAnnual(make([]float64, 100), make([]float64, 100), 0, 0.05); return err }, "100 years: accepted up to 60"},
		"interest in percent": {func() error { _, err := EqualAnnual(two, two, 0, 5); return err }, "interest 5: accepted 0 to 1, such as 0.05"},
		"a year unknown":      {func() error { _, err := EqualAnnual([]float64{1, math.NaN()}, two, 0, 0.05); return err }, "year 2 is NaN"},
		"salvage short":       {func() error { _, err := EqualAnnual(two, two[:1], 0, 0.05); return err }, "1 salvage values for 2 years"},
		"credits short":       {func() error { _, _, err := Rotation(two, two[:1], Corn{}, Ending{}, 0.05); return err }, "1 nitrogen credits for 2 years"},
		"rotation of nothing": {func() error { _, _, err := Rotation(nil, nil, Corn{}, Ending{}, 0.05); return err }, "no year is given"},
		"no interest":         {func() error { _, err := WithKill(two, 1, 0, 0.1); return err }, "interest 0: a chain for ever has no worth then; accepted over 0 to 1"},
		"a kill over 1":       {func() error { _, err := WithKill(two, 1, 0.05, 8); return err }, "chance of a kill 8 a year: accepted 0 to 1"},
		"a stand for less":    {func() error { _, err := WithKill(two, -1, 0.05, 0.1); return err }, "cost of a stand -1: accepted 0 and over"},
		"flows of no sum":     {func() error { _, _, err := Flows(nil, 0.05); return err }, "no year is given"},
	} {
		if err := c.run(); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want an error saying %q", name, err, c.want)
		}
	}
}
