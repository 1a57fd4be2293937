package stand

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"haywarden/agronomy/source"
)

// Ended is a stand as it was when it was ended, for the nitrogen it leaves.
type Ended struct {
	Plants  float64 // alfalfa plants a square foot; NaN not known
	Share   float64 // of alfalfa in the stand, 0-1; NaN not known
	Sandy   bool    // coarse soil
	Regrown float64 // height of the fall's regrowth, in; NaN not known
	Clover  bool    // red clover
	Second  bool    // the credit to the second crop after it
}

// Credit is the nitrogen a stand leaves to the corn after it, lb N an acre. Low and High differ only where
// the state prints a range and not how to choose within it.
type Credit struct {
	Low, High float64
	Source    source.ID
	Note      string // what the figure leaves out or leans on; empty where nothing
}

// creditGrades are grades of a stand by the plants it had, as one state grades them.
type creditGrades struct {
	good, fair float64 // plants a square foot: at least so many (good: more than, where over)
	over       bool
}

func (g creditGrades) of(plants float64) int {
	switch {
	case plants > g.good || plants == g.good && !g.over:
		return 0
	case plants >= g.fair:
		return 1
	}
	return 2
}

// creditTable is what one state prints. sandy and second are nil where it prints none.
type creditTable struct {
	grades  creditGrades
	first   [3]float64 // good, fair, poor
	sandy   *[3]float64
	second  *[3]float64
	firm    source.ID // of the figures that were read
	soft    source.ID // of those recalled
	recalls func(grade int, e Ended) bool
}

const (
	regrowthWanted = 8   // in, of the fall before, for the full Wisconsin credit
	regrowthCosts  = 40  // lb N where it was less
	halfAlfalfa    = 0.5 // share from which Penn State prints a credit
	cloverOfIt     = 0.8 // of alfalfa's, Wisconsin
)

// creditTables holds the states whose tables go by plants. A state's table never stands for another's, and
// no mean of them is ever made: they differ by up to twice.
func creditTables() map[string]creditTable {
	always := func(int, Ended) bool { return true }
	return map[string]creditTable{
		"Wisconsin": {creditGrades{4, 1.5, true}, [3]float64{190, 160, 130}, &[3]float64{140, 110, 80}, &[3]float64{50, 50, 0}, source.CreditWisconsin, source.CreditWisMemory,
			func(grade int, e Ended) bool { return grade > 0 || e.Sandy || e.Second || e.Clover }},
		"Illinois": {creditGrades{5, 2, false}, [3]float64{100, 50, 0}, nil, &[3]float64{30, 0, 0}, source.CreditIllinois, source.CreditIllMemory,
			func(grade int, e Ended) bool { return grade == 2 || e.Second }},
		"Minnesota": {creditGrades{4, 2, false}, [3]float64{150, 100, 50}, nil, &[3]float64{75, 50, 0}, source.CreditMinnesota, source.CreditMinnesota, always},
		"Nebraska":  {creditGrades{4, 1.5, true}, [3]float64{150, 120, 90}, &[3]float64{100, 70, 40}, nil, source.CreditNebraska, source.CreditNebraska, always},
	}
}

// creditRanges holds the states that print a range.
func creditRanges() map[string][2]float64 {
	return map[string][2]float64{"Kansas": {100, 140}, "Idaho": {100, 200}}
}

const penn = "Pennsylvania"

// CreditStates lists the states whose credits are known, by name.
func CreditStates() []string {
	return slices.Sorted(func(yield func(string) bool) {
		for s := range maps.Keys(creditTables()) {
			if !yield(s) {
				return
			}
		}
		for s := range maps.Keys(creditRanges()) {
			if !yield(s) {
				return
			}
		}
		yield(penn)
	})
}

// NitrogenCredit is the credit by a state's own table.
func NitrogenCredit(state string, e Ended) (Credit, error) {
	if r, ok := creditRanges()[state]; ok {
		c := Credit{Low: r[0], High: r[1], Source: source.CreditRanges, Note: state + " prints a range by soil and density: ask its guide for the figure within it"}
		if e.Second {
			c.Low, c.High = c.Low/2, c.High/2
		}
		return c, e.onlyAlfalfa(state)
	}
	if state == penn {
		return e.pennCredit()
	}
	t, ok := creditTables()[state]
	switch {
	case !ok:
		return Credit{}, fmt.Errorf("state %q: no nitrogen credit of it is known; accepted %v. Never take another state's: they differ by up to twice", state, CreditStates())
	case !(e.Plants >= 0 && e.Plants <= 100):
		return Credit{}, fmt.Errorf("plants %g: %s goes by alfalfa plants a square foot, 0 to 100", e.Plants, state)
	case state != "Wisconsin":
		if err := e.onlyAlfalfa(state); err != nil {
			return Credit{}, err
		}
	}
	return t.credit(state, e)
}

func (t creditTable) credit(state string, e Ended) (Credit, error) {
	grade := t.grades.of(e.Plants)
	c := Credit{Source: t.firm}
	if t.recalls(grade, e) {
		c.Source = t.soft
	}
	row := t.first
	switch {
	case e.Second && t.second == nil:
		return Credit{}, fmt.Errorf("year 2: %s prints no credit to the second crop that was read", state)
	case e.Second:
		row = *t.second
		if e.Sandy && t.sandy != nil {
			row = [3]float64{} // printed for medium and fine soils only
		}
	case e.Sandy && t.sandy != nil:
		row = *t.sandy
	case e.Sandy:
		c.Note = state + " prints no figures for sandy soils of their own"
	}
	c.Low = row[grade]
	if state == "Wisconsin" && !e.Second {
		switch {
		case math.IsNaN(e.Regrown):
			c.Note = "counted with 8 in of regrowth in the fall; with less it is 40 lb lower"
		case e.Regrown < regrowthWanted:
			c.Low -= regrowthCosts
		}
	}
	if e.Clover {
		c.Low *= cloverOfIt
	}
	c.High = c.Low
	return c, nil
}

func (e Ended) onlyAlfalfa(state string) error {
	if e.Clover {
		return fmt.Errorf("red clover: %s prints a credit for alfalfa only that was read; red clover leaves less", state)
	}
	return nil
}

func (e Ended) pennCredit() (Credit, error) {
	if err := e.onlyAlfalfa(penn); err != nil {
		return Credit{}, err
	}
	c := Credit{Low: 120, High: 120, Source: source.CreditPenn}
	switch {
	case math.IsNaN(e.Share):
		c.Note = "for a stand of half alfalfa or more; " + penn + " prints none for less"
	case !(e.Share >= halfAlfalfa && e.Share <= 1):
		return Credit{}, fmt.Errorf("share %g: %s prints a credit for stands of half alfalfa or more only; accepted 0.5 to 1", e.Share, penn)
	}
	if e.Second {
		c.Low, c.High = 50, 50
	}
	return c, nil
}
