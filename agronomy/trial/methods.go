package trial

import (
	_ "embed"
	"fmt"
	"math"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
)

//go:embed proofs.csv
var proofs string

// Proofs returns the printed answers that this discipline's methods must reproduce.
func Proofs() string { return proofs }

// Methods declares the calculations of this discipline.
func Methods() []*method.Method {
	return []*method.Method{anova(), blup(), stability(), selectionIndex(), sitesLSD(), percentOfCheck(), replicates()}
}

func dataInput() method.Input {
	return method.Input{Key: "data", About: "the plots, a row each; as @file.csv alone", Kind: method.Sheet}
}

func columnInput(key, about string, optional bool) method.Input {
	return method.Input{Key: key, About: "column of " + about, Kind: method.Word, Optional: optional}
}

const tinyTrial = "data=variety,block,yield;A,1,4.1;B,1,4.6;C,1,4.3;A,2,4.5;B,2,4.9;C,2,4.2;A,3,4.4;B,3,5.2;C,3,4.7"

func anova() *method.Method {
	return &method.Method{
		Name: "trial-anova", Title: "Analysis of variance of a trial",
		About: "For one trial in one place: which differences between entries are more than the ground they stood on. Randomised complete blocks, with lost plots allowed, or a split plot with every plot there. " +
			"A difference under the LSD is no difference.",
		Inputs: []method.Input{
			dataInput(),
			{Key: "design", About: "how the trial was laid out", Kind: method.Word, Choices: []string{"rcbd", "split-plot"}, Default: "rcbd"},
			columnInput("response", "what was measured", false),
			columnInput("entry", "entries, of randomised blocks", true),
			columnInput("block", "blocks", false),
			columnInput("whole", "what was laid on whole plots, of a split plot", true),
			columnInput("sub", "what was laid on their parts, of a split plot", true),
			{Key: "level", About: "chance of calling a difference where there is none", Accepted: method.Range{Low: 0.001, High: 0.5}, Tested: method.Range{Low: 0.01, High: 0.3}, Default: "0.05"},
		},
		Outputs: []method.Output{
			{Key: "table", About: "sources of variation"},
			{Key: "lsd", About: "what two means must be apart"},
			{Key: "cv", About: "error in percent of the mean; of a split plot whole plots, then parts", Decimals: 1},
		},
		Sources: []source.ID{source.BlocksAnova, source.SplitPlotAnova, source.WeightedT, source.Satterthwaite},
		Example: tinyTrial + " response=yield entry=variety block=block",
		Run:     runAnova,
	}
}

func runAnova(c *method.Call) error {
	p, err := readPlots(c.Sheet("data"), c.Word("response"))
	if err != nil {
		return err
	}
	keys, strange := []string{"entry", "block"}, []string{"whole", "sub"}
	split := c.Word("design") == "split-plot"
	if split {
		keys, strange = []string{"whole", "sub", "block"}, []string{"entry"}
	}
	for _, key := range strange {
		if c.Given(key) {
			return fmt.Errorf("%s does not belong to design %s: leave it out or name the other design", key, c.Word("design"))
		}
	}
	var factors []Factor
	for _, key := range keys {
		if !c.Given(key) {
			return fmt.Errorf("%s is missing: design %s wants its column", key, c.Word("design"))
		}
		f, err := p.factor(c.Word(key))
		if err != nil {
			return err
		}
		factors = append(factors, f)
	}
	cell := factors[0]
	for _, f := range factors[1:] {
		cell = Cross(cell, f)
	}
	if err := onePlotEach(cell, p.rows); err != nil {
		return err
	}
	var a *Anova
	if split {
		a, err = SplitPlot(p.values, factors[0], factors[1], factors[2], c.Num("level"))
	} else {
		a, err = Blocks(p.values, factors[0], factors[1], c.Num("level"))
	}
	if err != nil {
		return err
	}
	table := method.Grid{Columns: []string{"df", "ss", "ms", "f", "p"}}
	for _, l := range a.Lines {
		table.Rows = append(table.Rows, method.Line{Name: l.Source, Values: []float64{float64(l.DF), l.Squares, l.Mean(), l.F, l.P}})
	}
	lsd := method.Grid{Columns: []string{"sed", "df", "t", "lsd"}}
	for _, d := range a.Differences {
		lsd.Rows = append(lsd.Rows, method.Line{Name: d.Between, Values: []float64{d.SED, d.DF, d.T, d.LSD}})
	}
	cvs := []float64{}
	for _, v := range a.CV {
		if !math.IsNaN(v) {
			cvs = append(cvs, v)
		}
	}
	c.Answer("table", table)
	c.Answer("lsd", lsd)
	c.Answer("cv", cvs)
	p.note(c)
	for _, n := range a.Notes {
		c.Note("%s", n)
	}
	return nil
}

func stability() *method.Method {
	return &method.Method{
		Name: "trial-stability", Title: "Stability of entries over environments",
		About: "How each entry keeps up as places and years get better or worse: its slope on the environment's own level (1 follows the trial), what is left about that line, and its share of the interaction. " +
			"Needs many environments to mean much; a dozen still leaves slopes open by a tenth or two.",
		Inputs: []method.Input{
			dataInput(), columnInput("response", "what was measured", false), columnInput("entry", "entries", false),
			columnInput("environment", "environments, place and year in one", false),
		},
		Outputs: []method.Output{
			{Key: "mean", About: "mean of each entry, adjusted where cells are missing"},
			{Key: "slope", About: "slope on the environments' level, with its standard error", When: "for entries in three environments or more"},
			{Key: "deviation", About: "mean square about the line", When: "for entries in three environments or more"},
			{Key: "wricke", About: "share of the interaction's sum of squares", When: "with every cell filled"},
			{Key: "shukla", About: "interaction variance of its own; below 0 is none seen", When: "with every cell filled"},
			{Key: "superiority", About: "half the mean square distance from each environment's highest; 0 is best everywhere", When: "with every cell filled"},
		},
		Sources: []source.ID{source.JointRegression, source.Ecovalence, source.StabilityVar, source.SuperiorityMean},
		Example: "data=gen,env,yield;A,1,4.1;B,1,4.6;C,1,4.3;A,2,5.5;B,2,5.9;C,2,5.2;A,3,6.4;B,3,7.2;C,3,6.1;A,4,3.2;B,4,3.3;C,4,3.6 response=yield entry=gen environment=env",
		Run:     runStability,
	}
}

func runStability(c *method.Call) error {
	p, err := readPlots(c.Sheet("data"), c.Word("response"))
	if err != nil {
		return err
	}
	f, err := p.factors([]string{c.Word("entry"), c.Word("environment")})
	if err != nil {
		return err
	}
	list, err := StabilityOf(p.values, f[0], f[1])
	if err != nil {
		return err
	}
	grid := func(key string, columns []string, of func(Stability) []float64) {
		g := method.Grid{Columns: columns}
		for _, s := range list {
			if v := of(s); !math.IsNaN(v[0]) {
				g.Rows = append(g.Rows, method.Line{Name: s.Entry, Values: v})
			}
		}
		if len(g.Rows) > 0 {
			c.Answer(key, g)
		}
	}
	grid("mean", []string{"mean"}, func(s Stability) []float64 { return []float64{s.Mean} })
	grid("slope", []string{"slope", "se"}, func(s Stability) []float64 { return []float64{s.Slope, s.SlopeSE} })
	grid("deviation", []string{"deviation"}, func(s Stability) []float64 { return []float64{s.Deviation} })
	grid("wricke", []string{"wricke"}, func(s Stability) []float64 { return []float64{s.Wricke} })
	grid("shukla", []string{"shukla"}, func(s Stability) []float64 { return []float64{s.Shukla} })
	grid("superiority", []string{"superiority"}, func(s Stability) []float64 { return []float64{s.Superiority} })
	p.note(c)
	if math.IsNaN(list[0].Wricke) {
		c.Note("cells are missing: means and levels are by least squares, and shares of the interaction are not told")
	}
	return nil
}

func selectionIndex() *method.Method {
	covariances := method.Range{Low: -1e9, High: 1e9}
	return &method.Method{
		Name: "selection-index", Title: "Selection index over several traits",
		About: "What weight each trait's mean should have so that entries picked by the sum gain most of what is wanted. P are variances and covariances of the means as seen, G those of the entries' own worth (from trials over environments), weights what a unit of each trait is worth. " +
			"The response is for a selection intensity of 1: times 1.40 where one entry in five is kept.",
		Inputs: []method.Input{
			{Key: "P", About: "covariances of means as seen, by rows", Kind: method.Matrix, Accepted: covariances},
			{Key: "G", About: "covariances of the entries' own worth, by rows", Kind: method.Matrix, Accepted: covariances},
			{Key: "weights", About: "worth of a unit of each trait", Kind: method.Numbers, Accepted: covariances},
		},
		Outputs: []method.Output{
			{Key: "b", About: "weight of each trait in the index", Decimals: 4},
			{Key: "response", About: "gain in each trait for a selection intensity of 1", Decimals: 4},
			{Key: "accuracy", About: "correlation of the index with what is wanted", Decimals: 3},
		},
		Sources: []source.ID{source.SelectionIndex},
		Example: "P=0.25,0.06,-0.10;0.06,2.25,-0.30;-0.10,-0.30,4.0 G=0.10,0.03,-0.05;0.03,0.90,-0.15;-0.05,-0.15,1.6 weights=150,2,-3",
		Run: func(c *method.Call) error {
			x, err := SelectionIndex(c.Rows("P"), c.Rows("G"), c.List("weights"))
			if err != nil {
				return err
			}
			c.Answer("b", x.Weights)
			c.Answer("response", x.Response)
			c.Answer("accuracy", x.Accuracy)
			return nil
		},
	}
}
