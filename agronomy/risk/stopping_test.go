package risk

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// mornings draws days with forecasts; persistent ones where follow is set.
func mornings(t *rapid.T, follow bool) []Morning {
	days := make([]Morning, rapid.IntRange(1, 6).Draw(t, "days"))
	for i := range days {
		days[i].Dry = rapid.Float64Range(150, 350).Draw(t, "dry")
		days[i].Loss = rapid.Float64Range(0, 120).Draw(t, "loss")
		n := rapid.IntRange(1, 4).Draw(t, "forecasts")
		if i == 0 {
			n = 1 // today's is known
		}
		for _, p := range split(t, n) {
			days[i].Forecasts = append(days[i].Forecasts, Forecast{p, rapid.Float64Range(0, 1).Draw(t, "rain")})
		}
		if i > 0 && follow {
			for range days[i-1].Forecasts {
				days[i].Follow = append(days[i].Follow, split(t, n))
			}
		}
	}
	return days
}

// split draws n chances that add to 1.
func split(t *rapid.T, n int) []float64 {
	weights, sum := make([]float64, n), 0.0
	for i := range weights {
		weights[i] = rapid.Float64Range(0.01, 1).Draw(t, "weight")
		sum += weights[i]
	}
	for i := range weights {
		weights[i] /= sum
	}
	return weights
}

func TestLookingAgainIsNeverWorseThanAnyFixedDay(t *testing.T) {
	for _, follow := range []bool{false, true} {
		t.Run(fmt.Sprintf("persistent %t", follow), func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				days := mornings(t, follow)
				p, err := WithUpdates(days)
				if err != nil {
					t.Fatal(err)
				}
				chances, err := standing(days)
				if err != nil {
					t.Fatal(err)
				}
				best := math.Inf(-1)
				for i, d := range days {
					fixed := 0.0
					for j, f := range d.Forecasts {
						fixed += chances[i][j] * (d.Dry - f.Rain*d.Loss)
					}
					if best = max(best, fixed); p.Value < fixed-1e-9 {
						t.Fatalf("day %d is worth %g and the plan %g", i, fixed, p.Value)
					}
				}
				if !near(best, p.Blind, 1e-9) || p.Updates < 0 || !near(p.Value-p.Blind, p.Updates, 1e-9) {
					t.Fatalf("best fixed day %g: %+v", best, p)
				}
				if len(days) > 1 && !near(max(p.Now, p.Wait), p.Value, 1e-9) {
					t.Fatalf("now %g, wait %g and the plan %g", p.Now, p.Wait, p.Value)
				}
			})
		})
	}
}

// TestAPersistentForecastThatFollowsNothingIsAnIndependentOne proves that the two forms agree where
// they mean the same.
func TestAPersistentForecastThatFollowsNothingIsAnIndependentOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		days := mornings(t, false)
		a, err := WithUpdates(days)
		if err != nil {
			t.Fatal(err)
		}
		for i := 1; i < len(days); i++ {
			for range days[i-1].Forecasts {
				days[i].Follow = append(days[i].Follow, chancesOf(days[i].Forecasts))
			}
		}
		b, err := WithUpdates(days)
		if err != nil {
			t.Fatal(err)
		}
		if !near(a.Value, b.Value, 1e-9) || !near(a.Blind, b.Blind, 1e-9) {
			t.Fatalf("%+v against %+v", a, b)
		}
	})
}

// TestTheRuleOfThumbIsThePlan proves that cutting by the thresholds, as a person would, earns what the
// plan says.
func TestTheRuleOfThumbIsThePlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		days := mornings(t, false)
		p, err := WithUpdates(days)
		if err != nil {
			t.Fatal(err)
		}
		still, worth := 1.0, 0.0
		for i, d := range days {
			passed := 0.0
			for _, f := range d.Forecasts {
				if f.Rain < p.Threshold[i] || p.Threshold[i] == 1 {
					worth += still * f.Chance * (d.Dry - f.Rain*d.Loss)
				} else {
					passed += f.Chance
				}
			}
			still *= passed
		}
		if !near(worth, p.Value, 1e-6) {
			t.Fatalf("by the rule %g, by the plan %g", worth, p.Value)
		}
	})
}

func TestADayNobodyCanWaitBeyondIsCut(t *testing.T) {
	p, err := WithUpdates([]Morning{{Dry: 200, Loss: 100, Forecasts: []Forecast{{1, 0.9}}}})
	if err != nil {
		t.Fatal(err)
	}
	if !p.CutNow || p.Value != 110 || !math.IsNaN(p.Wait) || !cmp.Equal(p.Threshold, []float64{1}) {
		t.Errorf("%+v", p)
	}
}

func TestOfEqualDaysTheFirstIsTaken(t *testing.T) {
	value, day, err := BestDay([]Day{{200, 50, 0.4}, {200, 50, 0.2}, {200, 50, 0.2}})
	if err != nil || value != 190 || day != 1 {
		t.Errorf("%g on day %d, %v", value, day, err)
	}
	p, err := WithUpdates([]Morning{{Dry: 200, Loss: 50, Forecasts: []Forecast{{1, 0.2}}}, {Dry: 200, Loss: 50, Forecasts: []Forecast{{1, 0.2}}}})
	if err != nil || !p.CutNow || p.BlindDay != 0 {
		t.Errorf("%+v, %v", p, err)
	}
}

// BenchmarkStopping holds the speed of a month ahead with a hundred forecasts each morning, which an
// ensemble gives.
func BenchmarkStopping(b *testing.B) {
	for _, follow := range []bool{false, true} {
		b.Run(fmt.Sprintf("persistent=%t", follow), func(b *testing.B) {
			days := manyMornings(30, 100, follow)
			for b.Loop() {
				if _, err := WithUpdates(days); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func manyMornings(n, branches int, follow bool) []Morning {
	r := rand.New(rand.NewPCG(1, 2))
	row := func() []float64 {
		weights, sum := make([]float64, branches), 0.0
		for i := range weights {
			weights[i] = r.Float64()
			sum += weights[i]
		}
		for i := range weights {
			weights[i] /= sum
		}
		return weights
	}
	days := make([]Morning, n)
	for i := range days {
		days[i] = Morning{Dry: 260 - float64(i), Loss: 75}
		for _, p := range row() {
			days[i].Forecasts = append(days[i].Forecasts, Forecast{p, r.Float64()})
		}
		for range branches {
			if i > 0 && follow {
				days[i].Follow = append(days[i].Follow, row())
			}
		}
	}
	return days
}
