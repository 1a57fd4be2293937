package risk

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

// typed is a word of caution as users type it, without spaces.
func typed(c Caution) string { return strings.ReplaceAll(string(c), " ", "-") }

func typedCautions() (words []string) {
	for _, c := range Cautions() {
		words = append(words, typed(c))
	}
	return words
}

func tasteConstants() []method.Constant {
	t := ChosenTaste()
	const ends = "an end of the scale: all average, or all worst case"
	return []method.Constant{
		{Key: "weight_by_average", Value: t.ByAverage, Source: source.CautionWords, Exempt: ends},
		{Key: "weight_a_little", Value: t.ALittle, Source: source.CautionWords},
		{Key: "weight_careful", Value: t.Careful, Source: source.CautionWords},
		{Key: "weight_very_careful", Value: t.VeryCareful, Source: source.CautionWords},
		{Key: "weight_safest_only", Value: t.SafestOnly, Source: source.CautionWords, Exempt: ends},
	}
}

func tasteOf(c *method.Call) Taste {
	return Taste{c.K("weight_by_average"), c.K("weight_a_little"), c.K("weight_careful"), c.K("weight_very_careful"), c.K("weight_safest_only")}
}

func weighOptions() *method.Method {
	acre := unit.Must("$/ac")
	return &method.Method{
		Name: "weigh-options", Title: "Which of several choices, for how cautious a farm",
		About: "Compares choices by their average, their worst cases and a blend of the two set in words, and names those that no farm should prefer. " +
			"One row for each outcome of a choice: the choice, what comes out, its chance. Scores within the error given are called level.",
		Inputs: []method.Input{
			{Key: "option", About: "the choice that each outcome belongs to", Kind: method.Words},
			{Key: "outcomes", About: "what may come out", Kind: method.Numbers, Unit: acre, Accepted: worth},
			{Key: "chances", About: "chance of each, adding to 1 within a choice", Kind: method.Numbers, Accepted: shares},
			{Key: "tail", About: "share of worst cases", Accepted: method.Range{Low: 0.001, High: 1}, Default: "0.2"},
			{Key: "how", About: "how cautious", Kind: method.Word, Choices: typedCautions(), Default: typed(Careful)},
			{Key: "error", About: "error of each choice's score, a standard deviation", Unit: acre, Accepted: losses, Default: "0"},
		},
		Outputs: []method.Output{
			{Key: "options", About: "the choices, best score first"},
			{Key: "mean", About: "worth to expect of each", Unit: acre, Decimals: 2},
			{Key: "sd", About: "standard deviation of each", Unit: acre, Decimals: 2},
			{Key: "cvar", About: "mean of the worst share of each", Unit: acre, Decimals: 2},
			{Key: "score", About: "the blend, for each", Unit: acre, Decimals: 2},
			{Key: "weight", About: "weight of the worst case in the blend", Decimals: 2},
			{Key: "level", About: "the best choice, and those that cannot be told from it"},
			{Key: "dominated", About: "choices that lose to another: for all, or for whoever shuns risk"},
		},
		Constants: tasteConstants(),
		Sources:   []source.ID{source.TailMean, source.StochasticDominance, source.NoDifference, source.CautionWords},
		Example:   "option=dry-hay,dry-hay,haylage,haylage outcomes=262,187,252,228 chances=0.7,0.3,0.7,0.3",
		Run:       runWeighOptions,
	}
}

// option is a choice with what it comes to.
type option struct {
	name               string
	outcomes           Outcomes
	mean, worst, score float64
}

func runWeighOptions(c *method.Call) error {
	options, err := optionsOf(c.Words("option"), c.List("outcomes"), c.List("chances"))
	if err != nil {
		return err
	}
	weight, err := tasteOf(c).Weight(Caution(strings.ReplaceAll(c.Word("how"), "-", " ")))
	if err != nil {
		return err
	}
	for i := range options {
		o := &options[i]
		o.mean = o.outcomes.Mean()
		if o.worst, err = o.outcomes.Worst(c.Num("tail")); err != nil {
			return err
		}
		if o.score, err = o.outcomes.Score(weight, c.Num("tail")); err != nil {
			return err
		}
	}
	slices.SortStableFunc(options, func(a, b option) int { return cmp.Compare(b.score, a.score) })
	var names []string
	var mean, sd, worst, score []float64
	var scores []Estimate
	for _, o := range options {
		names = append(names, o.name)
		mean, sd = append(mean, o.mean), append(sd, o.outcomes.SD())
		worst, score = append(worst, o.worst), append(score, o.score)
		scores = append(scores, Estimate{o.score, c.Num("error")})
	}
	places, err := Level(scores)
	if err != nil {
		return err
	}
	var level []string
	for _, i := range places {
		level = append(level, names[i])
	}
	c.Answer("options", names)
	c.Answer("mean", mean)
	c.Answer("sd", sd)
	c.Answer("cvar", worst)
	c.Answer("score", score)
	c.Answer("weight", weight)
	c.Answer("level", level)
	c.Answer("dominated", dominated(options))
	return nil
}

// dominated says which options lose to which, and in which order.
func dominated(options []option) []string {
	said := []string{} // none is an empty list, not a missing one
	for _, a := range options {
		for _, b := range options {
			first, second := Dominates(a.outcomes, b.outcomes)
			switch {
			case first == First:
				said = append(said, b.name+" to "+a.name+" for all")
			case second == First:
				said = append(said, b.name+" to "+a.name+" for whoever shuns risk")
			}
		}
	}
	return said
}

// optionsOf gathers the rows of each choice in the order in which they first appear.
func optionsOf(names []string, outcomes, chances []float64) ([]option, error) {
	if len(outcomes) != len(names) || len(chances) != len(names) {
		return nil, fmt.Errorf("%d options, %d outcomes and %d chances: want one of each for every row", len(names), len(outcomes), len(chances))
	}
	var options []option
	for i, name := range names {
		if slices.Contains(names[:i], name) {
			continue
		}
		var values, weights []float64
		for j := i; j < len(names); j++ {
			if names[j] == name {
				values, weights = append(values, outcomes[j]), append(weights, chances[j])
			}
		}
		o, err := NewOutcomes(values, weights)
		if err != nil {
			return nil, fmt.Errorf("option %s: %w", name, err)
		}
		options = append(options, option{name: name, outcomes: o})
	}
	return options, nil
}
