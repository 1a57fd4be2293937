package trial

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
)

// Record is one row of a table of trials: a plot, or a mean of an entry in a place and year.
type Record struct {
	Row                       int // as the reader of the table counts
	Entry, Place, Year, Block string
	Values                    []float64 // one for each trait; NaN where it is not told
}

// Study is a table of trials over places and years, as unbalanced as they come.
type Study struct {
	Traits  []string
	Records []Record
}

// Question is what is asked of one trait.
type Question struct {
	Trait string
	Level float64 // of the least difference
	Check string  // entry to beat; empty for none
	Lower bool    // low values are wanted
	Seed  uint64  // of the draws for the chance of being best
}

// EntryResult is one entry in one trait.
type EntryResult struct {
	Entry        string
	Environments int
	Mean         float64 // adjusted for what it was not tried in; NaN where no variance analysis can be made
	Shrunken     float64 // mean drawn in by as much as it is unsure
	SE           float64
	Best, Beats  float64 // chances; Beats is NaN without a check
	Stable       *Stability
}

// Analysis is what a study tells of one trait.
type Analysis struct {
	Trait        string
	Level        float64
	Check        string
	Environments []string
	Plots, Lost  int
	Means        bool   // each environment has one value an entry
	Anova        *Anova // nil where none can be made
	Of           string // what the analysis of variance is of
	Fit          *Fit   // by REML
	Entries      []EntryResult
	Notes        []string
}

// Sure reports whether the F of the entries passes the level, without which the least difference says
// nothing. [source.EntryF]
func (a *Analysis) Sure() bool {
	if a.Anova == nil {
		return false
	}
	for _, l := range a.Anova.Lines {
		if l.Source == entryTerm {
			return l.P < a.Level
		}
	}
	return false
}

const (
	entryTerm = "entry"
	envTerm   = "environment"
	// fewEnvironments are too few to know how environments spread: their levels are then fixed (choice).
	fewEnvironments = 5
)

// studied gathers the plots that have a value in a trait.
type studied struct {
	values                          []float64
	rows                            []int
	entry, place, year, block, envs Factor
	blocked                         bool
	lost                            int
}

func (s Study) take(trait string) (*studied, error) {
	at := slices.Index(s.Traits, trait)
	if at < 0 {
		return nil, fmt.Errorf("no trait is called %q; the table has %s", trait, strings.Join(s.Traits, ", "))
	}
	d := &studied{}
	var entry, place, year, block, envs []string
	for _, r := range s.Records {
		v := r.Values[at]
		if math.IsNaN(v) {
			d.lost++
			continue
		}
		d.values, d.rows = append(d.values, v), append(d.rows, r.Row)
		entry, place, year, block = append(entry, r.Entry), append(place, r.Place), append(year, r.Year), append(block, r.Block)
		envs = append(envs, strings.TrimSpace(r.Place+" "+r.Year))
		d.blocked = d.blocked || r.Block != ""
	}
	if len(d.values) == 0 {
		return nil, fmt.Errorf("%s has no number in any row", trait)
	}
	d.entry, d.place, d.year = NewFactor(entryTerm, entry), NewFactor("place", place), NewFactor("year", year)
	d.block, d.envs = NewFactor("block", block), NewFactor(envTerm, envs)
	if n := len(d.entry.Levels); n < 2 {
		return nil, fmt.Errorf("%s was measured of %d entry; a trial wants 2 at least", trait, n)
	}
	return d, d.twice()
}

// twice refuses a plot that was entered twice.
func (d *studied) twice() error {
	cell := Cross(d.envs, d.entry)
	if d.blocked {
		return onePlotEach(Cross(Cross(d.envs, d.block), d.entry), d.rows)
	}
	type plot struct {
		cell  int
		value float64
	}
	seen := map[plot]int{}
	for i, c := range cell.At {
		p := plot{c, d.values[i]}
		if first, ok := seen[p]; ok {
			return fmt.Errorf("rows %d and %d are alike, %s %g: if one was entered twice take it out; if both are plots give the column of their blocks", first, d.rows[i], cell.Levels[c], d.values[i])
		}
		seen[p] = d.rows[i]
	}
	return nil
}

// Analyse works out one trait: analysis of variance with the least difference that counts, entry means over
// environments shrunken by REML with the chance of being best and of beating the check, and stability.
func (s Study) Analyse(q Question) (*Analysis, error) {
	if err := checkLevel(q.Level); err != nil {
		return nil, err
	}
	d, err := s.take(q.Trait)
	if err != nil {
		return nil, err
	}
	cells := Cross(d.entry, d.envs)
	a := &Analysis{Trait: q.Trait, Level: q.Level, Check: q.Check, Environments: d.envs.Levels, Plots: len(d.values), Lost: d.lost, Means: len(cells.Levels) == len(d.values)}
	if q.Check != "" && !slices.Contains(d.entry.Levels, q.Check) {
		return nil, fmt.Errorf("check %q is no entry with a %s; entries are %s", q.Check, q.Trait, strings.Join(d.entry.Levels, ", "))
	}
	if len(d.envs.Levels) == 1 && a.Means {
		return nil, fmt.Errorf("%s of %s: one value of each entry in one environment leaves nothing to judge error by; give plots by block, or more places and years", q.Trait, d.envs.Levels[0])
	}
	if err := a.vary(d); err != nil {
		return nil, err
	}
	m := a.model(d)
	if a.Fit, err = FitREML(m); err != nil {
		return nil, fmt.Errorf("%s: %w", q.Trait, err)
	}
	var none []string
	for _, c := range a.Fit.Components {
		if c.Variance == 0 {
			none = append(none, c.Term)
		}
	}
	if len(none) > 0 {
		a.note("no variance that these values can see: %s", strings.Join(none, ", "))
	}
	return a, a.results(d, q)
}

func (a *Analysis) note(format string, args ...any) {
	a.Notes = append(a.Notes, fmt.Sprintf(format, args...))
}

// vary makes the analysis of variance: blocks of one environment, or environments as blocks.
func (a *Analysis) vary(d *studied) (err error) {
	switch {
	case len(d.envs.Levels) > 1:
		means, e, g := cellMeans(d.values, d.entry, d.envs)
		if a.Of = "means of each environment, environments as blocks"; a.Means {
			a.Of = "environments as blocks"
		}
		a.Anova, err = Blocks(means, e, g, a.Level)
	case d.blocked:
		a.Of = "plots in blocks"
		a.Anova, err = Blocks(d.values, d.entry, d.block, a.Level)
	default:
		a.note("the plots have no blocks: no analysis of variance is made, only the shrunken means")
		return nil
	}
	if err != nil {
		return fmt.Errorf("%s: %w", a.Trait, err)
	}
	for _, n := range a.Anova.Notes {
		if len(d.envs.Levels) > 1 {
			n = strings.NewReplacer("plots are missing", "cells of entry by environment are missing", "after blocks", "after environments").Replace(n)
		}
		a.Notes = append(a.Notes, n)
	}
	if !a.Sure() {
		a.note("the F test of the entries does not pass at %g: the least difference tells nothing apart", a.Level)
	}
	if n := len(a.Anova.CV); n > 0 && len(d.envs.Levels) == 1 && a.Anova.CV[0] > wellRun {
		a.note("the coefficient of variation is %.0f %%: over %d %% a trial of yield is not well run", a.Anova.CV[0], wellRun)
	}
	return nil
}

// wellRun is the coefficient of variation in percent under which a forage yield trial is well run.
// [source.WellRunTrial]
const wellRun = 12

// model chooses the terms that the table can carry.
func (a *Analysis) model(d *studied) Model {
	m := Model{Response: d.values, Random: []Factor{d.entry}}
	add := func(f Factor) {
		if len(f.Levels) < 2 || len(f.Levels) == len(d.values) {
			return
		}
		if !slices.ContainsFunc(slices.Concat(m.Fixed, m.Random), f.sameAs) {
			m.Random = append(m.Random, f)
		}
	}
	switch n := len(d.envs.Levels); {
	case n == 1 && d.blocked:
		m.Fixed = []Factor{d.block}
	case n == 1:
	case n < fewEnvironments:
		m.Fixed = []Factor{d.envs}
		a.note("with %d environments nothing is known of how environments spread: doubt the chances more than they say", n)
	default:
		add(d.envs)
	}
	if len(d.envs.Levels) == 1 {
		return m
	}
	if len(d.place.Levels) > 1 && len(d.year.Levels) > 1 && len(d.envs.Levels) > max(len(d.place.Levels), len(d.year.Levels)) {
		add(Cross(d.entry, d.place))
		add(Cross(d.entry, d.year))
	}
	if !a.Means {
		add(Cross(d.entry, d.envs))
		if d.blocked {
			add(Cross(d.envs, d.block))
			if len(d.envs.Levels) > len(d.place.Levels) { // the same plots year after year
				add(Cross(Cross(d.place, d.block), d.entry))
			}
		}
	}
	return m
}

// drawsInAll bounds entries times draws (choice).
const drawsInAll = 2_000_000

func (a *Analysis) results(d *studied, q Question) error {
	effects := a.Fit.Effects(entryTerm)
	draws := min(drawsOfBest, max(500, drawsInAll/len(effects)))
	chances, err := a.Fit.Chances(entryTerm, q.Check, q.Lower, draws, rand.New(rand.NewPCG(q.Seed, 0)))
	if err != nil {
		return err
	}
	where := Cross(d.entry, d.envs)
	tried := map[string]int{}
	seen := map[int]bool{}
	for i, l := range where.At {
		if !seen[l] {
			seen[l] = true
			tried[d.entry.Levels[d.entry.At[i]]]++
		}
	}
	stable := map[string]Stability{}
	if len(d.envs.Levels) >= 3 && len(d.entry.Levels) >= 3 {
		list, err := StabilityOf(d.values, d.entry, d.envs)
		if err != nil {
			a.note("stability is not told: %v", err)
		}
		for _, s := range list {
			stable[s.Entry] = s
		}
	} else if len(d.envs.Levels) > 1 {
		a.note("stability wants 3 entries in 3 environments at least")
	}
	means := map[string]float64{}
	if a.Anova != nil {
		for _, m := range a.Anova.Means {
			means[m.Level] = m.Value
		}
	}
	for i, e := range effects {
		r := EntryResult{Entry: e.Level, Environments: tried[e.Level], Mean: math.NaN(), Shrunken: a.Fit.Mean + e.Value, SE: e.SE, Best: chances[i].Best, Beats: chances[i].Beats}
		if v, ok := means[e.Level]; ok {
			r.Mean = v
		}
		if s, ok := stable[e.Level]; ok {
			r.Stable = &s
		}
		a.Entries = append(a.Entries, r)
	}
	sign := -1.0
	if q.Lower {
		sign = 1
	}
	slices.SortStableFunc(a.Entries, func(x, y EntryResult) int {
		switch dx := sign * (x.Shrunken - y.Shrunken); {
		case dx < 0:
			return -1
		case dx > 0:
			return 1
		}
		return strings.Compare(x.Entry, y.Entry)
	})
	return nil
}
