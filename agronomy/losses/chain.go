package losses

import (
	"fmt"
	"math"
	"slices"

	"haywarden/agronomy/source"
)

// Range is a middle estimate with the ends between which sources or seasons put it.
type Range struct{ Low, Mid, High float64 }

// within stretches the ends to hold the middle: a middle that follows moisture or yield may pass the
// ends printed for usual ones.
func (r Range) within() Range { return Range{min(r.Low, r.Mid), r.Mid, max(r.High, r.Mid)} }

func (r Range) times(k float64) Range { return Range{r.Low * k, r.Mid * k, r.High * k} }

// Percent gives shares as percentages.
func (r Range) Percent() Range { return r.times(100) }

// Loss is what one step takes.
type Loss struct {
	Name    string
	Share   Range // of the dry matter that enters the step
	Made    Made
	Sources []source.ID
}

// Step is a loss that has happened.
type Step struct {
	Loss
	Before, Lost, After Feed
	Left                Range // dry matter after it, with the ranges of all losses so far
}

// Chain is the way of a crop from the stem to the bunk. It is a value: Then returns a longer one and
// leaves the shorter as it was.
type Chain struct {
	Standing Feed
	Steps    []Step
	tissue   Tissue
}

// Begin starts a chain with a standing crop.
func Begin(standing Feed, parts Tissue) (Chain, error) {
	if err := standing.Check(); err != nil {
		return Chain{}, fmt.Errorf("standing crop: %w", err)
	}
	return Chain{Standing: standing, tissue: parts}, nil
}

// Then adds losses in the order in which they happen.
func (c Chain) Then(losses ...Loss) (Chain, error) {
	c.Steps = slices.Clip(c.Steps)
	for _, l := range losses {
		s := l.Share
		if !(s.Low >= 0 && s.Low <= s.Mid && s.Mid <= s.High && s.High < 1) {
			return Chain{}, fmt.Errorf("%s: loss %g, from %g to %g; want shares from 0 to under 1, the middle between its ends", l.Name, s.Mid, s.Low, s.High)
		}
		if err := l.Made.check(); err != nil {
			return Chain{}, fmt.Errorf("%s: %w", l.Name, err)
		}
		step := Step{Loss: l, Before: c.Left()}
		var err error
		if step.After, step.Lost, err = step.Before.Take(s.Mid, c.tissue.Of(l.Made, step.Before.Composition)); err != nil {
			return Chain{}, fmt.Errorf("%s: %w", l.Name, err)
		}
		c.Steps = append(c.Steps, step)
		c.Steps[len(c.Steps)-1].Left = c.Spread(func(f Feed) float64 { return f.DM })
	}
	return c, nil
}

// Left is the feed after the last step.
func (c Chain) Left() Feed {
	if len(c.Steps) == 0 {
		return c.Standing
	}
	return c.Steps[len(c.Steps)-1].After
}

// with runs the chain again with one step's share moved. The moved share is a valid one, so that Take
// cannot refuse it.
func (c Chain) with(step int, share float64) Feed {
	f := c.Steps[step].Before
	for i, s := range c.Steps[step:] {
		moved := s.Share.Mid
		if i == 0 {
			moved = share
		}
		f, _, _ = f.Take(moved, c.tissue.Of(s.Made, f.Composition))
	}
	return f
}

// Spread is a figure of the feed at the end of the chain with its range. Each step is moved to its two
// ends alone, and the changes are joined as the root of the sum of their squares: steps go wrong apart
// from each other, and all at their worst together is a year nobody has seen. A choice.
func (c Chain) Spread(of func(Feed) float64) Range {
	mid := of(c.Left())
	var down, up float64
	for i, s := range c.Steps {
		a, b := of(c.with(i, s.Share.Low))-mid, of(c.with(i, s.Share.High))-mid
		fall, rise := min(a, b, 0), max(a, b, 0)
		down += fall * fall
		up += rise * rise
	}
	return Range{Low: max(0, mid-math.Sqrt(down)), Mid: mid, High: mid + math.Sqrt(up)}
}

// Lying is what one course of the weather does to a crop lying cut.
type Lying struct {
	Breathed float64 // share of what was mown
	Rain     Loss    // without a share: none
}

// Carry runs another standing crop over the chain's losses at their middles, and says what is left. The
// crop breathes once it is mown, and rain falls on it after, where [Model.Bring] puts them. It is for many
// crops and weathers on one way: the ranges are not followed.
func (c Chain) Carry(standing Feed, lying Lying) (Feed, error) {
	const breathing = 1
	f := standing
	var err error
	take := func(l Loss) {
		if err == nil && l.Share.Mid > 0 {
			f, _, err = f.Take(l.Share.Mid, c.tissue.Of(l.Made, f.Composition))
		}
	}
	for i, s := range c.Steps {
		if i == breathing {
			s.Share.Mid = lying.Breathed
		}
		take(s.Loss)
		if i == breathing {
			take(lying.Rain)
		}
	}
	return f, err
}

// Total is the share of the standing crop lost up to the end of the chain.
func (c Chain) Total() Range {
	return c.Spread(func(f Feed) float64 { return 1 - f.DM/c.Standing.DM })
}

// RFV is the relative feed value at the end of the chain, with its range.
func (c Chain) RFV() Range { return c.Spread(Feed.RFV) }
