package trial

import (
	"math"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
)

func sitesLSD() *method.Method {
	return &method.Method{
		Name: "trial-lsd", Title: "Least difference from a printed error",
		About: "What two entry means must be apart, from the error that a trial report prints: of one trial, or over several sites with the variance of entry by site. Says besides how far an advantage is drawn in by chance.",
		Inputs: []method.Input{
			{Key: "mse", About: "mean square of error, a plot's variance", Accepted: method.Range{Low: 1e-9, High: 1e9}},
			{Key: "replicates", About: "at each site", Accepted: method.Range{Low: 1, High: 200}},
			{Key: "df", About: "degrees of freedom of error", Accepted: method.Range{Low: 1, High: 1e6}},
			{Key: "level", About: "chance of calling a difference where there is none", Accepted: method.Range{Low: 0.001, High: 0.5}, Tested: method.Range{Low: 0.01, High: 0.3}, Default: "0.05"},
			{Key: "sites", About: "sites or site-years", Accepted: method.Range{Low: 1, High: 1000}, Default: "1"},
			{Key: "var_gl", About: "variance of entry by site", Accepted: method.Range{Low: 0, High: 1e9}, Default: "0"},
			{Key: "var_g", About: "variance of entries, for heritability", Accepted: method.Range{Low: 0, High: 1e9}, Optional: true},
			{Key: "mean", About: "of the trial, for the coefficient of variation", Accepted: method.Range{Low: 1e-6, High: 1e9}, Optional: true},
			{Key: "advantage", About: "of an entry over the trial mean, with var_g", Accepted: method.Range{Low: -1e9, High: 1e9}, Optional: true},
		},
		Outputs: []method.Output{
			{Key: "lsd", About: "what two means must be apart", Decimals: 4},
			{Key: "cv", About: "error in percent of the mean; under 12 marks a well-run trial of yield", Decimals: 1, When: "with mean"},
			{Key: "heritability", About: "share of a mean's spread that is the entry's own", Decimals: 4, When: "with var_g"},
			{Key: "shrunken", About: "the advantage drawn in", Decimals: 3, When: "with var_g and advantage"},
		},
		Sources: []source.ID{source.BlocksAnova, source.ShrunkenMean, source.WellRunTrial},
		Example: "mse=0.09 replicates=4 df=30 mean=6",
		Run: func(c *method.Call) error {
			s := Sites{Sites: int(c.Num("sites")), Replicates: int(c.Num("replicates")), Error: c.Num("mse"), Interact: c.Num("var_gl")}
			lsd, err := s.LSD(c.Num("df"), c.Num("level"))
			if err != nil {
				return err
			}
			c.Answer("lsd", lsd)
			if c.Given("mean") {
				c.Answer("cv", cv(s.Error, c.Num("mean")))
			}
			if !c.Given("var_g") {
				return nil
			}
			h, err := s.Heritability(c.Num("var_g"))
			if err != nil {
				return err
			}
			c.Answer("heritability", h)
			if c.Given("advantage") {
				c.Answer("shrunken", h*c.Num("advantage"))
			}
			return nil
		},
	}
}

func percentOfCheck() *method.Method {
	yields := method.Range{Low: 0, High: 1e6}
	return &method.Method{
		Name: "percent-of-check", Title: "An entry in percent of the check",
		About: "Over trials that hold both. Two ways that differ: the mean of the ratios weighs trials alike, the ratio of the means weighs high-yielding ones more. Never compare percents taken over different trials.",
		Inputs: []method.Input{
			{Key: "entry", About: "the entry's means, a trial each", Kind: method.Numbers, Accepted: yields},
			{Key: "check", About: "the check's, in the same trials", Kind: method.Numbers, Accepted: yields},
		},
		Outputs: []method.Output{
			{Key: "of_ratios", About: "mean of the ratios, %", Decimals: 1},
			{Key: "of_means", About: "ratio of the means, %", Decimals: 1},
		},
		Sources: []source.ID{source.ShrunkenMean},
		Example: "entry=6.2,4.9,7.1 check=5.8,4.7,6.5",
		Run: func(c *method.Call) error {
			a, b, err := PercentOfCheck(c.List("entry"), c.List("check"))
			if err != nil {
				return err
			}
			c.Answer("of_ratios", a)
			c.Answer("of_means", b)
			return nil
		},
	}
}

func replicates() *method.Method {
	return &method.Method{
		Name: "trial-replicates", Title: "Replicates for a difference worth seeing",
		About: "How many randomised blocks a trial wants so that two entries that differ by so much are told apart with so much chance. The error of a plot is that of past trials of the place.",
		Inputs: []method.Input{
			{Key: "entries", About: "entries in the trial", Accepted: method.Range{Low: 2, High: 1000}},
			{Key: "cv", About: "error of a plot, % of the mean", Accepted: method.Range{Low: 0.1, High: 200}, Tested: method.Range{Low: 3, High: 25}, Default: "8"},
			{Key: "difference", About: "worth seeing, % of the mean", Accepted: method.Range{Low: 0.1, High: 1000}, Tested: method.Range{Low: 3, High: 50}, Default: "10"},
			{Key: "level", About: "chance of seeing one that is not there", Accepted: method.Range{Low: 0.001, High: 0.5}, Tested: method.Range{Low: 0.01, High: 0.3}, Default: "0.05"},
			{Key: "power", About: "chance of seeing the one that is", Accepted: method.Range{Low: 0.1, High: 0.999}, Tested: method.Range{Low: 0.5, High: 0.95}, Default: "0.8"},
		},
		Outputs: []method.Output{
			{Key: "replicates", About: "blocks wanted"},
			{Key: "power", About: "chance that they show it", Decimals: 3},
		},
		Sources: []source.ID{source.ReplicatesPower},
		Example: "entries=10 cv=8 difference=12",
		Run: func(c *method.Call) error {
			g := Goal{Entries: int(math.Round(c.Num("entries"))), CV: c.Num("cv"), Difference: c.Num("difference"), Level: c.Num("level"), Power: c.Num("power")}
			r, err := Replicates(g)
			if err != nil {
				return err
			}
			c.Answer("replicates", float64(r))
			c.Answer("power", PowerOf(g, r))
			return nil
		},
	}
}
