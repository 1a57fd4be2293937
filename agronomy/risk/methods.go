package risk

import (
	_ "embed"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

//go:embed proofs.csv
var proofs string

// Proofs returns the printed answers that this discipline's methods must reproduce.
func Proofs() string { return proofs }

// Methods declares the calculations of this discipline.
func Methods() []*method.Method {
	return []*method.Method{
		cutOrWait(), worthProtecting(), whenToCut(), cutWithUpdates(), acresToMow(), mowPlan(),
		riskMeasures(), weighOptions(), tellApart(),
	}
}

// ranges that several methods share: no acre is worth more, and worth can be below 0.
var (
	worth  = method.Range{Low: -20000, High: 20000}
	losses = method.Range{Low: 0, High: 20000}
	shares = method.Range{Low: 0, High: 1}
	area   = method.Range{Low: 0, High: 20000}
)

func dollars(key, about string) method.Input {
	return method.Input{Key: key, About: about, Unit: unit.Must("$/ac"), Accepted: worth}
}

func cutOrWait() *method.Method {
	acre := unit.Must("$/ac")
	return &method.Method{
		Name: "cut-or-wait", Title: "Cut now, or wait once",
		About: "Compares cutting today with cutting some days later by what each is worth on average, and tells up to which chance of rain today is the better. " +
			"It knows two outcomes only, dry and rained on; work out their worth first, with the loss to rain and the fall in quality in it.",
		Inputs: []method.Input{
			dollars("dry_now", "worth cut now if it dries"), dollars("wet_now", "worth cut now if it is rained on"),
			dollars("dry_later", "worth cut later if it dries"), dollars("wet_later", "worth cut later if it is rained on"),
			{Key: "p_now", About: "chance of rain while it dries, cut now", Accepted: shares},
			{Key: "p_later", About: "chance of rain while it dries, cut later", Accepted: shares},
		},
		Outputs: []method.Output{
			{Key: "ev_now", About: "worth to expect, cut now", Unit: acre, Decimals: 2},
			{Key: "ev_wait", About: "worth to expect, cut later", Unit: acre, Decimals: 2},
			{Key: "p_break", About: "chance of rain now up to which to cut now", Decimals: 2},
		},
		Sources: []source.ID{source.WaitOneStep},
		Example: "dry_now=262 wet_now=187 dry_later=260 wet_later=181 p_now=0.3 p_later=0.2",
		Run: func(c *method.Call) error {
			w, err := CutOrWait(Cut{c.Num("dry_now"), c.Num("wet_now"), c.Num("p_now")}, Cut{c.Num("dry_later"), c.Num("wet_later"), c.Num("p_later")})
			if err != nil {
				return err
			}
			c.Answer("ev_now", w.Now)
			c.Answer("ev_wait", w.Later)
			c.Answer("p_break", w.Break)
			switch w.Break {
			case 0:
				c.Note("cut now never pays, however dry it looks")
			case 1:
				c.Note("cut now pays however wet it looks")
			}
			return nil
		},
	}
}

func worthProtecting() *method.Method {
	return &method.Method{
		Name: "worth-protecting", Title: "Chance of rain from which to protect",
		About: "Chopping for haylage, a preservative or a wrap costs something on every cut and saves a loss on some. It pays from this chance of rain on.",
		Inputs: []method.Input{
			{Key: "cost", About: "what protecting costs each time", Unit: unit.Must("$/ac"), Accepted: losses},
			{Key: "loss", About: "what rain takes without it", Unit: unit.Must("$/ac"), Accepted: method.Range{Low: 0.01, High: 20000}},
		},
		Outputs: []method.Output{{Key: "chance", About: "protect where rain is likelier than this", Decimals: 2}},
		Sources: []source.ID{source.CostLoss},
		Example: "cost=12 loss=74.6",
		Run: func(c *method.Call) error {
			p, err := Protect(c.Num("cost"), c.Num("loss"))
			if err != nil {
				return err
			}
			c.Answer("chance", p)
			if p == 1 {
				c.Note("protecting costs as much as rain takes, or more: it never pays")
			}
			return nil
		},
	}
}

func riskMeasures() *method.Method {
	acre := unit.Must("$/ac")
	return &method.Method{
		Name: "risk-measures", Title: "Average, spread and worst case of a choice",
		About: "Of outcomes with their chances: the mean, the standard deviation, and the mean of the worst share of cases. A case that straddles the edge of that share counts in part.",
		Inputs: []method.Input{
			{Key: "outcomes", About: "what may come out", Kind: method.Numbers, Unit: acre, Accepted: worth},
			{Key: "chances", About: "chance of each, adding to 1", Kind: method.Numbers, Accepted: shares},
			{Key: "tail", About: "share of worst cases: 0.2 is the worst 2 years in 10", Accepted: method.Range{Low: 0.001, High: 1}},
		},
		Outputs: []method.Output{
			{Key: "mean", About: "worth to expect", Unit: acre, Decimals: 2},
			{Key: "sd", About: "standard deviation", Unit: acre, Decimals: 2},
			{Key: "cvar", About: "mean of the worst share", Unit: acre, Decimals: 2},
		},
		Sources: []source.ID{source.TailMean},
		Example: "outcomes=260,181,150 chances=0.75,0.20,0.05 tail=0.1",
		Run: func(c *method.Call) error {
			o, err := NewOutcomes(c.List("outcomes"), c.List("chances"))
			if err != nil {
				return err
			}
			tail, err := o.Worst(c.Num("tail"))
			if err != nil {
				return err
			}
			c.Answer("mean", o.Mean())
			c.Answer("sd", o.SD())
			c.Answer("cvar", tail)
			return nil
		},
	}
}

func tellApart() *method.Method {
	return &method.Method{
		Name: "tell-apart", Title: "Whether two estimates differ by more than their error",
		About: "Two estimates of one kind with their errors, both standard deviations or both half intervals. A difference no larger than its own error is called none.",
		Inputs: []method.Input{
			{Key: "a", About: "first estimate"}, {Key: "error_a", About: "its error", Accepted: method.Range{Low: 0, High: 1e9}},
			{Key: "b", About: "second estimate"}, {Key: "error_b", About: "its error", Accepted: method.Range{Low: 0, High: 1e9}},
			{Key: "corr", About: "correlation of the errors: towards 1 where one instrument read both", Accepted: method.Range{Low: -1, High: 1}, Default: "0"},
		},
		Outputs: []method.Output{
			{Key: "difference", About: "first less second", Decimals: 2},
			{Key: "error", About: "error of the difference", Decimals: 2},
			{Key: "verdict", About: "the first against the second"},
		},
		Sources: []source.ID{source.NoDifference},
		Example: "a=152 error_a=8 b=145 error_b=8",
		Run: func(c *method.Call) error {
			d, err := Tell(Estimate{c.Num("a"), c.Num("error_a")}, Estimate{c.Num("b"), c.Num("error_b")}, c.Num("corr"))
			if err != nil {
				return err
			}
			c.Answer("difference", d.By)
			c.Answer("error", d.Error)
			c.Answer("verdict", string(d.Told))
			return nil
		},
	}
}
