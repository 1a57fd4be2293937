package count

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"
)

// The bounds of walks worked apart from the program: half and one and a half of the threshold, k 2.
func TestWalkBoundsAreThoseWorkedByHand(t *testing.T) {
	for _, c := range []struct {
		threshold  float64
		n          int
		leave, act int
	}{
		{2, 3, 1, 9}, {2, 5, 4, 13}, {2, 10, 13, 22}, {2, 15, 22, 30}, {2, 20, 31, 39},
		{5, 3, 6, 20}, {5, 5, 15, 28}, {5, 10, 36, 49}, {5, 15, 57, 71}, {5, 20, 78, 92},
		{10, 3, 14, 36}, {10, 10, 73, 95}, {10, 20, 157, 179}, {20, 5, 64, 102}, {20, 20, 314, 352},
	} {
		w, err := AboutThreshold(c.threshold, NegativeBinomial{PlaceholderK})
		if err != nil {
			t.Fatal(err)
		}
		if leave, act := w.Bounds(c.n); leave != c.leave || act != c.act {
			t.Errorf("threshold %g, %d sets: leave at %d, act at %d, want %d and %d", c.threshold, c.n, leave, act, c.leave, c.act)
		}
	}
}

// Stems with feeding about 40 %: 30 against 50 %.
func TestTipBoundsAreThoseWorkedByHand(t *testing.T) {
	l, err := Test{0.3, 0.5, 0.1, 0.1}.ByShare()
	if err != nil {
		t.Fatal(err)
	}
	for n, want := range map[int][2]int{20: {5, 11}, 30: {9, 15}, 40: {13, 19}, 50: {17, 23}, 100: {37, 43}} {
		if leave, act := l.Bounds(n); leave != want[0] || act != want[1] {
			t.Errorf("%d stems: %d and %d, want %v", n, leave, act, want)
		}
	}
}

// TestWalksErrAsSeldomAsPromised walks fields of known means: clumped counts drawn by a seeded
// generator. Wanted shares are those of 4000 runs made apart from the program, each good to 0.02.
func TestWalksErrAsSeldomAsPromised(t *testing.T) {
	w, err := AboutThreshold(5, NegativeBinomial{2})
	if err != nil {
		t.Fatal(err)
	}
	rng := rand.New(rand.NewPCG(3, 9))
	for _, c := range []struct{ mean, treat, sets float64 }{{2.5, 0.03, 4.5}, {5, 0.65, 5.9}, {7.5, 0.945, 4.2}} {
		const fields = 20000
		treated, sets := 0., 0.
		for range fields {
			total, n := 0., 0
			for v := GoOn; v == GoOn; v = w.Judge(n, total) {
				rate := distuv.Gamma{Alpha: 2, Beta: 2 / c.mean, Src: rng}.Rand()
				total += distuv.Poisson{Lambda: rate, Src: rng}.Rand()
				n++
			}
			sets += float64(n)
			// A borderline walk is settled by the mean, as the runs were.
			if v := w.Judge(n, total); v == Act || v == Borderline && total >= 5*float64(n) {
				treated++
			}
		}
		if got := treated / fields; math.Abs(got-c.treat) > 0.02 {
			t.Errorf("mean %g: treated %.3f, want %.3f", c.mean, got, c.treat)
		}
		if got := sets / fields; math.Abs(got-c.sets) > 0.15 {
			t.Errorf("mean %g: %.2f sets walked, want %.1f", c.mean, got, c.sets)
		}
	}
}

// TestFaintClumpingIsChanceAlone: with k far off the clumped lines are those of chance alone.
func TestFaintClumpingIsChanceAlone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m0 := rapid.Float64Range(0.5, 50).Draw(t, "m0")
		m1 := m0 * rapid.Float64Range(1.2, 5).Draw(t, "ratio")
		test := Test{m0, m1, 0.1, 0.1}
		a, err := test.ByCounts(Poisson{})
		if err != nil {
			t.Fatal(err)
		}
		b, err := test.ByCounts(NegativeBinomial{1e9})
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range []float64{a.Slope/b.Slope - 1, a.Low/b.Low - 1, a.High/b.High - 1} {
			if math.Abs(d) > 1e-6 {
				t.Fatalf("%v against %v", a, b)
			}
		}
	})
}

// TestTheThresholdLiesBetweenTheMeans: the slope, the mean at which a walk would go on for ever, lies
// between the two means it tells apart.
func TestTheSlopeLiesBetweenTheMeans(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m0 := rapid.Float64Range(0.05, 50).Draw(t, "m0")
		m1 := m0 * rapid.Float64Range(1.1, 5).Draw(t, "ratio")
		l, err := Test{m0, m1, 0.1, 0.2}.ByCounts(NegativeBinomial{rapid.Float64Range(0.2, 20).Draw(t, "k")})
		if err != nil {
			t.Fatal(err)
		}
		if l.Slope <= m0 || l.Slope >= m1 || l.Low >= 0 || l.High <= 0 {
			t.Fatalf("%v for %g and %g", l, m0, m1)
		}
	})
}

// TestALineTurnsTheSampleSizeRound: at the line the spots walked are those that the sample size asks for.
func TestALineTurnsTheSampleSizeRound(t *testing.T) {
	for _, m := range []Model{Poisson{}, NegativeBinomial{2}, PowerLaw{1.5, 1.4}} {
		for n := 9; n < 40; n++ {
			total, ok, err := EnoughTotal(m, 0.25, n)
			if err != nil || !ok {
				t.Fatal(m, n, ok, err)
			}
			if got, _ := Spots(total/float64(n), m, 0.25); math.Abs(got-float64(n)) > 1e-6 {
				t.Errorf("%T: %d spots, sample size %g", m, n, got)
			}
		}
	}
	if _, ok, _ := EnoughTotal(NegativeBinomial{2}, 0.25, 8); ok {
		t.Error("8 clumped spots cannot be enough for 0.25 with k 2")
	}
}

func TestSharesRefuseWhatCannotBe(t *testing.T) {
	for _, c := range [][2]float64{{51, 50}, {-1, 50}, {1.5, 50}, {1, 0}, {1, 2.5}} {
		if _, err := Shares(c[0], c[1]); err == nil {
			t.Errorf("%v was taken", c)
		}
	}
}
