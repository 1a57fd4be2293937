package risk

import (
	"fmt"
	"strings"
)

// Caution says in words how much of a good average to give for a better worst case.
type Caution string

// The words, from none to all.
const (
	ByAverage   Caution = "by the average"
	ALittle     Caution = "a little careful"
	Careful     Caution = "careful"
	VeryCareful Caution = "very careful"
	SafestOnly  Caution = "safest only"
)

// Cautions are the words in order.
func Cautions() []Caution { return []Caution{ByAverage, ALittle, Careful, VeryCareful, SafestOnly} }

// Taste maps each word to the weight of the worst case against the average.
type Taste struct{ ByAverage, ALittle, Careful, VeryCareful, SafestOnly float64 }

// ChosenTaste returns the weights. They are a choice of ours, not a finding: the words were put in
// equal-looking steps about careful. Source: [source.CautionWords].
func ChosenTaste() Taste { return Taste{0, 0.15, 0.3, 0.6, 1} }

// Weight is the weight of a word.
func (t Taste) Weight(c Caution) (float64, error) {
	switch c {
	case ByAverage:
		return t.ByAverage, nil
	case ALittle:
		return t.ALittle, nil
	case Careful:
		return t.Careful, nil
	case VeryCareful:
		return t.VeryCareful, nil
	case SafestOnly:
		return t.SafestOnly, nil
	}
	words := make([]string, 0, len(Cautions()))
	for _, c := range Cautions() {
		words = append(words, string(c))
	}
	return 0, fmt.Errorf("how cautious %q: accepted %s", c, strings.Join(words, ", "))
}

// Score is (1 - weight)*average + weight*mean of the worst share tail.
func (o Outcomes) Score(weight, tail float64) (float64, error) {
	if err := chance(weight, "weight of the worst case"); err != nil {
		return 0, err
	}
	worst, err := o.Worst(tail)
	if err != nil {
		return 0, err
	}
	return (1-weight)*o.Mean() + weight*worst, nil
}
