package count

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
	return []*method.Method{countInterval(), sampleSize(), stopLine(), precisionLine()}
}

// bound is a chance between two kinds of error, or a share.
var chance = method.Range{Low: 1e-6, High: 0.499}

func countInterval() *method.Method {
	return &method.Method{
		Name:  "count-interval",
		Title: "How far a count can be leaned on",
		About: "The mean of a count with its 95 % interval and the chance that the field is over a threshold. Means: one figure for each spot, their own spread. " +
			"Total: whole counts that scatter by chance alone, one bucket or many; real intervals are wider. Share: two figures, how many were found so and how many were looked at.",
		Inputs: []method.Input{
			{Key: "counts", About: "a figure for each spot; for a share the found and the looked at: 20,50", Kind: method.Numbers, Accepted: method.Range{Low: 0, High: 1e6}},
			{Key: "kind", About: "what the figures are", Kind: method.Word, Choices: []string{"means", "total", "share"}, Default: "means"},
			{Key: "threshold", About: "limit to be over, per spot; of a share 0 to 1", Accepted: method.Range{Low: 0, High: 1e6}, Optional: true},
		},
		Outputs: []method.Output{
			{Key: "mean", About: "per spot, or the share", Decimals: 3},
			{Key: "lo95", About: "low end of the 95 % interval", Decimals: 3, When: "with two spots or more, or total or share"},
			{Key: "hi95", About: "high end", Decimals: 3, When: "with two spots or more, or total or share"},
			{Key: "chance_over", About: "chance that the field is over the threshold", Decimals: 3, When: "with a threshold and an interval"},
		},
		Sources: []source.ID{source.StudentT, source.PoissonRate, source.WilsonInterval},
		Example: "counts=6,11,9,15,4 threshold=8",
		Run:     runInterval,
	}
}

func runInterval(c *method.Call) error {
	counts := c.List("counts")
	var mean, low, high, below float64
	known := true
	switch c.Word("kind") {
	case "means":
		iv, err := Means(counts)
		if err != nil {
			return err
		}
		mean, low, high, known, below = iv.Mean, iv.Low, iv.High, iv.Known(), iv.ChanceBelow(c.Num("threshold"))
		if !known {
			c.Note("one spot has no interval: count at least one more, or ask kind=total for whole counts")
		} else if low < 0 {
			c.Note("the interval falls below nothing: the counts are too near 0 for it; kind=total says what may still be there")
		}
	case "total":
		r, err := Totals(counts)
		if err != nil {
			return fmt.Errorf("counts: %w", err)
		}
		mean, low, high, below = r.Mean, r.Low, r.High, r.ChanceBelow(c.Num("threshold"))
		c.Note("chance alone: clumped pests have a wider interval than this")
	default:
		if len(counts) != 2 {
			return fmt.Errorf("counts: %d figures; a share takes two, found and looked at: 20,50", len(counts))
		}
		p, err := Shares(counts[0], counts[1])
		if err != nil {
			return fmt.Errorf("counts: %w", err)
		}
		if c.Num("threshold") > 1 {
			return fmt.Errorf("threshold %g: of a share it is 0 to 1", c.Num("threshold"))
		}
		mean, low, high, below = p.Share, p.Low, p.High, p.ChanceBelow(c.Num("threshold"))
	}
	c.Answer("mean", mean)
	if known {
		c.Answer("lo95", low)
		c.Answer("hi95", high)
		if c.Given("threshold") {
			c.Answer("chance_over", 1-below)
		}
	}
	return nil
}

// clumpInputs are the coefficients of the models.
func clumpInputs(models ...string) []method.Input {
	in := []method.Input{
		{Key: "model", About: "how spots scatter: chance alone, negative binomial, power law", Kind: method.Word, Choices: models, Default: "nb"},
		{Key: "k", About: "clumping of the negative binomial; a placeholder where left out", Accepted: method.Range{Low: 1e-3, High: 1e6}, Tested: method.Range{Low: 0.1, High: 100}, Optional: true},
	}
	if models[len(models)-1] == "taylor" {
		in = append(
			in,
			method.Input{Key: "a", About: "factor of the power law; a placeholder where left out", Accepted: method.Range{Low: 1e-3, High: 1e3}, Tested: method.Range{Low: 0.2, High: 10}, Optional: true},
			method.Input{Key: "b", About: "exponent of the power law; a placeholder where left out", Accepted: method.Range{Low: 0, High: 3}, Tested: method.Range{Low: 1, High: 2}, Optional: true},
		)
	}
	return in
}

const heldBack = "a placeholder of ours, and said so: no published value to prove"

func clumpConstants() []method.Constant {
	return []method.Constant{
		{Key: "placeholder_k", Value: PlaceholderK, Source: source.ClumpPlaceholder, Exempt: heldBack},
		{Key: "placeholder_a", Value: PlaceholderA, Source: source.ClumpPlaceholder, Exempt: heldBack},
		{Key: "placeholder_b", Value: PlaceholderB, Source: source.ClumpPlaceholder, Exempt: heldBack},
	}
}

// modelOf is the model asked for; what was not given is a placeholder, and noted.
func modelOf(c *method.Call) Model {
	at := func(key string) float64 {
		if c.Given(key) {
			return c.Num(key)
		}
		held := c.K("placeholder_" + key)
		c.Note("%s = %g is a placeholder, not a published value: fit your own from counts of eight fields or more", key, held)
		return held
	}
	switch c.Word("model") {
	case "poisson":
		c.Note("chance alone is the least that is asked for: pests sit in clumps")
		return Poisson{}
	case "nb":
		return NegativeBinomial{at("k")}
	}
	return PowerLaw{at("a"), at("b")}
}

func sampleSize() *method.Method {
	return &method.Method{
		Name:  "sample-size",
		Title: "How many spots to count",
		About: "How many spots bring the standard error down to a share of the mean, by how pests scatter. 0.25 is the usual aim for a field decision, 0.10 for research. Walk the next whole number, five at least.",
		Inputs: append([]method.Input{
			{Key: "mean", About: "expected mean per spot", Accepted: method.Range{Low: 1e-4, High: 1e5}, Tested: method.Range{Low: 0.1, High: 1000}},
			{Key: "precision", About: "standard error over mean", Accepted: method.Range{Low: 0.01, High: 2}, Tested: method.Range{Low: 0.05, High: 0.5}, Default: "0.25"},
		}, clumpInputs("poisson", "nb", "taylor")...),
		Outputs:   []method.Output{{Key: "n", About: "spots, before rounding up", Decimals: 1}},
		Constants: clumpConstants(),
		Sources:   []source.ID{source.SpotsForPrecision, source.PrecisionPair, source.PowerLaw, source.HopperClumps, source.ClumpPlaceholder},
		Example:   "mean=5 model=nb k=2",
		Run: func(c *method.Call) error {
			n, err := Spots(c.Num("mean"), modelOf(c), c.Num("precision"))
			if err != nil {
				return err
			}
			c.Answer("n", n)
			c.Note("walk %.0f", max(LeastSpots, math.Ceil(n-1e-9)))
			return nil
		},
	}
}

func stopLine() *method.Method {
	m := &method.Method{
		Name:  "stop-line",
		Title: "When a walk may stop: treat or leave",
		About: "Two lines for the running total of a walk: at or over slope x spots + high the high mean is taken, at or under slope x spots + low the low one, between them the walk goes on. " +
			"The threshold lies between m0 and m1. Walk three spots at least and twenty at most, then call it borderline and look again in three or four days.",
		Inputs: append([]method.Input{
			{Key: "m0", About: "mean per spot, or share of stems, that is surely left alone", Accepted: method.Range{Low: 1e-4, High: 1e5}},
			{Key: "m1", About: "mean or share that surely wants acting on", Accepted: method.Range{Low: 1e-4, High: 1e5}},
			{Key: "alpha", About: "chance of acting for nothing", Accepted: chance, Tested: method.Range{Low: 0.01, High: 0.25}, Default: "0.1"},
			{Key: "beta", About: "chance of leaving what should be acted on", Accepted: chance, Tested: method.Range{Low: 0.01, High: 0.25}, Default: "0.1"},
		}, clumpInputs("poisson", "nb", "binomial")...),
		Outputs: []method.Output{
			{Key: "slope", About: "added for each spot", Decimals: 4},
			{Key: "low", About: "start of the lower line", Decimals: 4},
			{Key: "high", About: "start of the upper line", Decimals: 4},
		},
		Constants: clumpConstants()[:1],
		Sources:   []source.ID{source.SequentialTest, source.HopperClumps, source.ClumpPlaceholder},
		Example:   "model=binomial m0=0.3 m1=0.5",
	}
	m.Run = func(c *method.Call) error {
		t := Test{M0: c.Num("m0"), M1: c.Num("m1"), Alpha: c.Num("alpha"), Beta: c.Num("beta")}
		var l Lines
		var err error
		if c.Word("model") == "binomial" {
			l, err = t.ByShare()
		} else {
			l, err = t.ByCounts(modelOf(c))
		}
		if err != nil {
			return err
		}
		c.Answer("slope", l.Slope)
		c.Answer("low", l.Low)
		c.Answer("high", l.High)
		return nil
	}
	return m
}

func precisionLine() *method.Method {
	return &method.Method{
		Name:  "precision-line",
		Title: "When a mean is known well enough",
		About: "The running total over so many spots at which the mean is known to the wanted precision: stop when the count has come to it. With few spots a clumped pest may give no such total yet.",
		Inputs: append([]method.Input{
			{Key: "n", About: "spots walked", Accepted: method.Range{Low: 1, High: 1000}},
			{Key: "precision", About: "standard error over mean", Accepted: method.Range{Low: 0.01, High: 2}, Tested: method.Range{Low: 0.05, High: 0.5}, Default: "0.25"},
		}, clumpInputs("poisson", "nb", "taylor")...),
		Outputs:   []method.Output{{Key: "total", About: "counted in all, at which to stop", Decimals: 2}},
		Constants: clumpConstants(),
		Sources:   []source.ID{source.FixedPrecision, source.HopperClumps, source.ClumpPlaceholder},
		Example:   "n=15 model=nb k=2",
		Run: func(c *method.Call) error {
			n := c.Num("n")
			if n != math.Trunc(n) {
				return fmt.Errorf("n %g: want a whole number of spots", n)
			}
			total, ok, err := EnoughTotal(modelOf(c), c.Num("precision"), int(n))
			if err != nil {
				return err
			}
			if !ok {
				return fmt.Errorf("n %g: no total over so few spots gives that precision; walk more", n)
			}
			c.Answer("total", total)
			return nil
		},
	}
}
