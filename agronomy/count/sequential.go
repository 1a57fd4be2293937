package count

import (
	"fmt"
	"math"
)

// Lines are the two lines of a sequential test between a low and a high mean of spots: with n spots
// walked and a running total T, at or over Slope n + High the high mean is taken, at or under Slope n +
// Low the low one; between them the walk goes on. Source: [source.SequentialTest].
type Lines struct{ Slope, Low, High float64 }

// Test is what a sequential test decides between, and how often it may err.
type Test struct {
	M0, M1 float64 // the low and the high mean a spot; of shares, the low and the high share
	Alpha  float64 // chance of taking the high one where the low is true
	Beta   float64 // chance of taking the low one where the high is true
}

// ByCounts makes the lines for whole counts, clumped or not.
func (t Test) ByCounts(m Model) (Lines, error) {
	if err := t.sound(math.Inf(1)); err != nil {
		return Lines{}, err
	}
	if err := sound(m); err != nil {
		return Lines{}, err
	}
	switch m := m.(type) {
	case Poisson:
		den := math.Log(t.M1 / t.M0)
		return t.lines((t.M1-t.M0)/den, den)
	case NegativeBinomial:
		p0, p1 := t.M0/m.K, t.M1/m.K
		// ln(p1 q0/(p0 q1)) and ln(q1/q0), q being 1 + p, in a form that stays exact for a large k.
		den := math.Log(t.M1/t.M0) - math.Log1p((p1-p0)/(1+p0))
		return t.lines(m.K*math.Log1p((p1-p0)/(1+p0))/den, den)
	}
	return Lines{}, fmt.Errorf("a sequential test is published for chance alone and for the negative binomial")
}

// ByShare makes the lines for stems that count or do not.
func (t Test) ByShare() (Lines, error) {
	if err := t.sound(1); err != nil {
		return Lines{}, err
	}
	den := math.Log(t.M1 * (1 - t.M0) / (t.M0 * (1 - t.M1)))
	return t.lines(math.Log((1-t.M0)/(1-t.M1))/den, den)
}

func (t Test) lines(slope, den float64) (Lines, error) {
	l := Lines{Slope: slope, Low: math.Log(t.Beta/(1-t.Alpha)) / den, High: math.Log((1-t.Beta)/t.Alpha) / den}
	for _, v := range []float64{l.Slope, l.Low, l.High} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return Lines{}, fmt.Errorf("m0 %g and m1 %g lie too near together to be told apart", t.M0, t.M1)
		}
	}
	return l, nil
}

func (t Test) sound(below float64) error {
	switch {
	case !(t.M0 > 0) || !(t.M1 > t.M0) || !(t.M1 < below):
		if below == 1 {
			return fmt.Errorf("m0 %g and m1 %g: want 0 < m0 < m1 < 1 for shares", t.M0, t.M1)
		}
		return fmt.Errorf("m0 %g and m1 %g: want 0 < m0 < m1", t.M0, t.M1)
	case !(t.Alpha > 0) || !(t.Beta > 0) || !(t.Alpha+t.Beta < 1):
		return fmt.Errorf("alpha %g and beta %g: both must be over 0 and together under 1", t.Alpha, t.Beta)
	}
	return nil
}

// Bounds are the totals over n spots at which the walk ends: at or under Leave, at or over Act. A Leave
// below 0 cannot be met yet.
func (l Lines) Bounds(n int) (leave, act int) {
	at := l.Slope * float64(n)
	return int(math.Floor(at + l.Low)), int(math.Ceil(at + l.High))
}

// Verdict is what a walk so far says.
type Verdict string

// The verdicts.
const (
	GoOn       Verdict = "go on"      // walk another spot
	Leave      Verdict = "leave"      // under the threshold
	Act        Verdict = "act"        // over it
	Borderline Verdict = "borderline" // the walk is as long as it may be: resample in a few days
)

// Walk is a sequential test with the fewest and the most spots it may take.
type Walk struct {
	Lines
	Least, Most int
}

// Judge says what a running total over n spots means.
func (w Walk) Judge(n int, total float64) Verdict {
	leave, act := w.Bounds(n)
	switch {
	case n < w.Least:
		return GoOn
	case total <= float64(leave):
		return Leave
	case total >= float64(act):
		return Act
	case n >= w.Most:
		return Borderline
	}
	return GoOn
}

// AboutThreshold is a walk that tells half a threshold from one and a half of it, erring one time in
// ten either way, over 3 to 20 spots. Source: [source.WalkDesign].
func AboutThreshold(perSpot float64, m Model) (Walk, error) {
	l, err := Test{M0: perSpot / 2, M1: perSpot * 1.5, Alpha: 0.1, Beta: 0.1}.ByCounts(m)
	return Walk{Lines: l, Least: 3, Most: 20}, err
}
