package season

import (
	"fmt"
	"math/rand/v2"
)

// Trial is how ways of cutting did over the years of a record, each planned for with that year left out.
type Trial struct {
	Years []int      `json:"years"`
	Skill float64    `json:"skill"` // chance that what was told of a day was known rather than drawn
	Ways  []Compared `json:"ways"`  // the plan first
}

// fullReserve is what each year of a trial begins with: a stand that was let rest (choice). What a way
// leaves for the next year is charged to it as wear.
const fullReserve = 0.85

// Try plans each year of a record from all the others and simulates it, beside the trade's rules and the
// best that could have been done by whoever knew the year: the best found by a plan of that year alone,
// so that perfect foresight is at least so good. Words on haymaking weather have a skill, drawn from a
// seed; progress is told after each year.
func Try(raw Field, members []Member, years []int, o Options, skill float64, seed uint64, progress func(done int)) (*Trial, error) {
	if len(members) < LeastYears {
		return nil, fmt.Errorf("%d whole years: a trial wants %d at least", len(members), LeastYears)
	}
	if !(skill >= 0 && skill <= 1) {
		return nil, fmt.Errorf("skill %g: accepted 0 to 1", skill)
	}
	Tell(members, skill, rand.New(rand.NewPCG(seed, 0)))
	f, err := NewField(raw, Mean(members))
	if err != nil {
		return nil, err
	}
	start := NewYear(f.Model, fullReserve)
	rules := TradeRules(f)
	plans, known := make([]Cutter, len(members)), make([]Cutter, len(members))
	for i := range members {
		others := make([]Member, 0, len(members)-1)
		for j, m := range members {
			if j != i {
				m.Weight = 1 / float64(len(members)-1)
				others = append(others, m)
			}
		}
		field, err := NewField(raw, Mean(others))
		if err != nil {
			return nil, err
		}
		plan, err := Make(field, others, o)
		if err != nil {
			return nil, err
		}
		plans[i] = plan
		if known[i], err = foresight(f, start, &members[i], o, append([]Way{{"", Same(plan)}}, rules...)); err != nil {
			return nil, err
		}
		progress(i + 1)
	}
	by := func(list []Cutter) func(int) Cutter { return func(i int) Cutter { return list[i] } }
	ways := append([]Way{{"plan", by(plans)}}, rules...)
	ways = append(ways, Way{"whoever had known the year", by(known)})
	return &Trial{Years: years, Skill: skill, Ways: Compare(f, start, members, ways)}, nil
}

// foresight is the best known way for one year: of a plan that knows the year and every other way that
// is tried on it.
func foresight(f *Field, from Start, m *Member, o Options, ways []Way) (Cutter, error) {
	alone := *m
	alone.Weight = 1
	alone.Told = make([]Sky, len(m.Told))
	for d := range alone.Told {
		alone.Told[d] = Sky(d % int(skies))
	}
	plan, err := Make(f, []Member{alone}, o)
	if err != nil {
		return nil, err
	}
	for t := range plan.fates {
		for s := range skies {
			plan.fates[t][s] = outlook{alone.Fates[t], alone.Fates[t]}
		}
	}
	plan.solve(len(plan.values))
	best, worth := Cutter(plan), f.Simulate(from, m, plan).Worth
	for _, w := range ways {
		if c := w.Cutter(0); f.Simulate(from, m, c).Worth > worth {
			best, worth = c, f.Simulate(from, m, c).Worth
		}
	}
	return best, nil
}
