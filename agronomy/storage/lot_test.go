package storage

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

// TestChancesOverATargetComeOut draws lots, samples them and counts: of the lots whose test gave a
// chance near c, about c lie over the target. Lots are spread so wide that a flat prior holds.
func TestChancesOverATargetComeOut(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 11))
	s := Sampling{CoreSD: 2, LabSD: 1.5, Cores: 20, Tests: 1}
	var told, over, n float64
	for range 200000 {
		lot := 40 + (rng.Float64()-0.5)*40
		sum := 0.0
		for range s.Cores {
			sum += lot + s.CoreSD*rng.NormFloat64()
		}
		c, err := s.ChanceOver(sum/float64(s.Cores)+s.LabSD*rng.NormFloat64(), 40)
		if err != nil {
			t.Fatal(err)
		}
		if c < 0.6 || c > 0.9 {
			continue
		}
		told, n = told+c, n+1
		if lot > 40 {
			over++
		}
	}
	if n < 1000 || math.Abs(told/n-over/n) > 0.02 {
		t.Errorf("of %g lots told %.3f on average, %.3f lay over", n, told/n, over/n)
	}
}

// TestMoreCoresAndTestsNeverMakeLessSure and the safe value undoes the chance.
func TestMoreCoresAndTestsNeverMakeLessSure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Sampling{CoreSD: rapid.Float64Range(0, 5).Draw(t, "core"), LabSD: rapid.Float64Range(0.1, 5).Draw(t, "lab"), Cores: rapid.IntRange(1, 40).Draw(t, "cores"), Tests: rapid.IntRange(1, 5).Draw(t, "tests")}
		more := s
		more.Cores += rapid.IntRange(0, 20).Draw(t, "more cores")
		more.Tests += rapid.IntRange(0, 3).Draw(t, "more tests")
		a, err := s.SE()
		b, err2 := more.SE()
		if err != nil || err2 != nil || b > a {
			t.Errorf("%+v: %g, %+v: %g (%v, %v)", s, a, more, b, err, err2)
		}
		chance := rapid.Float64Range(0.05, 0.95).Draw(t, "chance")
		v, err := s.SafeValue(150, chance)
		if err != nil {
			t.Fatal(err)
		}
		if got, _ := s.ChanceOver(v, 150); math.Abs(got-chance) > 1e-9 {
			t.Errorf("at the safe value %g the chance is %g, want %g", v, got, chance)
		}
	})
}

func TestALargeOrSlowStackIsSeveralLots(t *testing.T) {
	for _, tc := range []struct {
		tons, hours float64
		want        int
	}{{150, 30, 1}, {200, 48, 1}, {201, 48, 2}, {450, 10, 3}, {90, 100, 3}} {
		if got, err := Lots(tc.tons, tc.hours); err != nil || got != tc.want {
			t.Errorf("%g tons over %g h: %d lots (%v), want %d", tc.tons, tc.hours, got, err, tc.want)
		}
	}
	for _, bad := range [][2]float64{{0, 5}, {-1, 5}, {10, -1}, {math.NaN(), 1}} {
		if _, err := Lots(bad[0], bad[1]); err == nil {
			t.Errorf("%v was taken", bad)
		}
	}
}

func TestSamplingThatCannotBeIsRefused(t *testing.T) {
	for _, s := range []Sampling{{}, {CoreSD: 1, Cores: 0, Tests: 1}, {CoreSD: 1, Cores: 1}, {CoreSD: -1, LabSD: 1, Cores: 1, Tests: 1}, {CoreSD: math.Inf(1), Cores: 1, Tests: 1}} {
		if _, err := s.SE(); err == nil {
			t.Errorf("%+v was taken", s)
		}
	}
	if _, err := CoresFor(5, 0.0001); err == nil {
		t.Error("billions of cores were asked for")
	}
	for _, s := range []Stored{BaledHay, BigSquares, SilageStock} {
		p, err := ProtocolFor(s)
		if err != nil || p.Least < 12 || p.Usual < p.Least || len(p.Steps) == 0 {
			t.Errorf("%s: %+v, %v", s, p, err)
		}
	}
	if _, err := ProtocolFor("heap"); err == nil {
		t.Error("a heap was taken")
	}
}
