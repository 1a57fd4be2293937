package trial

import (
	"math"
	"math/rand/v2"
	"strings"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
)

const (
	drawsOfBest  = 10000 // two sure digits of a chance; choice
	mostCompared = 500   // entries; the draws grow as their square
)

func blup() *method.Method {
	return &method.Method{
		Name: "trial-blup", Title: "Mixed model of trials over environments",
		About: "For entries over places and years, unbalanced as they come: how much of what was seen is the entry, the place, their interaction and chance, and what each entry is worth when its mean is drawn in by as much as it is unsure (BLUP). Fitted by restricted maximum likelihood. " +
			"Random terms are columns or crossings: entry,environment,entry:environment. The chances take the variances as known; where environments are few, doubt more.",
		Inputs: []method.Input{
			dataInput(), columnInput("response", "what was measured", false),
			{Key: "fixed", About: "columns whose own levels are asked for; the mean is always there", Kind: method.Terms, Optional: true},
			{Key: "random", About: "columns whose levels stand for many", Kind: method.Terms},
			{Key: "entry", About: "random column to tell means and chances of; the first one where left out", Kind: method.Word, Optional: true},
			{Key: "check", About: "level of entry to beat", Kind: method.Word, Optional: true},
			{Key: "better", About: "which values are wanted", Kind: method.Word, Choices: []string{"higher", "lower"}, Default: "higher"},
			{Key: "seed", About: "start of the draws for the chance of being best", Accepted: method.Range{Low: 0, High: 1e9}, Default: "1"},
		},
		Outputs: []method.Output{
			{Key: "variances", About: "of each random term, with its share of all"},
			{Key: "fixed", About: "effects against the first level of each column"},
			{Key: "blups", About: "shrunken effects with their standard error; of entry the mean, the chance of being best and of beating the check"},
			{Key: "criterion", About: "-2 log of the restricted likelihood", Decimals: 4},
		},
		Sources: []source.ID{source.MixedModel, source.AverageInfo, source.MultipliedSteps, source.BestOfShrunken},
		Example: tinyTrial + " response=yield random=variety,block check=A",
		Run:     runBlup,
	}
}

func runBlup(c *method.Call) error {
	p, err := readPlots(c.Sheet("data"), c.Word("response"))
	if err != nil {
		return err
	}
	m := Model{Response: p.values}
	if m.Fixed, err = p.factors(c.Words("fixed")); err != nil {
		return err
	}
	if m.Random, err = p.factors(c.Words("random")); err != nil {
		return err
	}
	f, err := FitREML(m)
	if err != nil {
		return err
	}
	entry := c.Word("entry")
	if entry == "" {
		entry = f.Components[0].Term
	}
	variances := method.Grid{Columns: []string{"variance", "share", "levels"}}
	all := f.Residual
	for _, k := range f.Components {
		all += k.Variance
	}
	for _, k := range f.Components {
		variances.Rows = append(variances.Rows, method.Line{Name: k.Term, Values: []float64{k.Variance, k.Variance / all, float64(k.Levels)}})
		if k.Variance == 0 {
			c.Note("%s has no variance that these plots can see: its effects are all 0", k.Term)
		}
	}
	variances.Rows = append(variances.Rows, method.Line{Name: "residual", Values: []float64{f.Residual, f.Residual / all, float64(f.Plots)}})
	fixed := method.Grid{Columns: []string{"effect", "se"}}
	for _, e := range f.Fixed {
		fixed.Rows = append(fixed.Rows, method.Line{Name: strings.TrimSpace(e.Term + " " + e.Level), Values: []float64{e.Value, e.SE}})
	}
	blups, err := f.blupGrid(c, entry)
	if err != nil {
		return err
	}
	c.Answer("variances", variances)
	c.Answer("fixed", fixed)
	c.Answer("blups", blups)
	c.Answer("criterion", f.Criterion)
	p.note(c)
	if len(f.Aliased) > 0 {
		c.Note("cannot be told from the columns before, and left out: %s", strings.Join(f.Aliased, ", "))
	}
	if a, b, found := p.enteredTwice(append(m.Fixed, m.Random...)); found {
		c.Note("rows %d and %d are alike in all that is used: where one plot was entered twice take one out", a, b)
	}
	return nil
}

// blupGrid sets the shrunken effects, and of the entries what they promise.
func (f *Fit) blupGrid(c *method.Call, entry string) (method.Grid, error) {
	g := method.Grid{Columns: []string{"effect", "se", "mean", "best", "beats_check"}}
	chances := map[string]Chance{}
	if len(f.Effects(entry)) <= mostCompared {
		list, err := f.Chances(entry, c.Word("check"), c.Word("better") == "lower", drawsOfBest, rand.New(rand.NewPCG(uint64(c.Num("seed")), 0)))
		if err != nil {
			return g, err
		}
		for _, x := range list {
			chances[x.Entry] = x
		}
	} else {
		c.Note("chances are not drawn for more than %d entries", mostCompared)
	}
	for _, e := range f.Random {
		values := []float64{e.Value, e.SE, math.NaN(), math.NaN(), math.NaN()}
		if e.Term == entry {
			values[2] = f.Mean + e.Value
			if x, ok := chances[e.Level]; ok {
				values[3], values[4] = x.Best, x.Beats
			}
		}
		g.Rows = append(g.Rows, method.Line{Name: e.Term + " " + e.Level, Values: values})
	}
	return g, nil
}
