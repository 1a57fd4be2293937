package trial

import (
	"cmp"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
)

// Wanted is a trait in a choice: its weight in the index, and the site's limits.
type Wanted struct {
	Trait  string
	Weight float64 // 0 for a trait that only filters
	Lower  bool    // low values are better (winter survival, fibre)
	Most   float64 // an entry above it is left out; NaN for no limit
	Least  float64 // an entry below it is left out; NaN for no limit
}

// Choice asks for a shortlist.
type Choice struct {
	Wanted []Wanted
	Check  string
	Keep   int // how many to list
	Level  float64
	Seed   uint64
	Seeds  Cost
}

// Cost sets seed against yield. Without a hay price none is reckoned.
type Cost struct {
	Yield string  // trait in tons an acre a year
	Price string  // trait in $/lb of seed; empty where the table has none
	Hay   float64 // $/ton of what the yield is, less what a further ton costs to harvest
	Rate  float64 // lb of seed an acre
	Years float64 // that the stand is kept
}

// Listed is one entry of a shortlist.
type Listed struct {
	Entry       string
	Index       float64 // weights times shrunken effects, in standard deviations of the entries
	Best, Beats float64 // chances, on the index
	Values      []float64
	Gain        *Gain
}

// Gain is what an entry's seed is expected to bring over the check's, $ an acre over the stand's life, 8
// chances in 10 between Low and High.
type Gain struct {
	Low, Middle, High float64
	SeedMore          float64 // $ an acre of it that the seed costs more
	NoDifference      bool    // the range spans nothing
}

// Out is an entry that a limit left out.
type Out struct{ Entry, Why string }

// Shortlist is a choice made.
type Shortlist struct {
	Traits   []string
	Listed   []Listed // best first, at most Keep
	Entries  int      // that passed the limits
	LeftOut  []Out
	Analyses []*Analysis // of the weighted traits that were tried in plots or environments
	Notes    []string
	Check    string
}

// judged is one wanted trait, ready for the index.
type judged struct {
	Wanted
	value   map[string]float64 // shrunken, or the mean of what the table says
	spread  float64            // standard deviation of the entries' own worth
	effects []Effect
	root    [][]float64
}

// Shorten ranks the entries that pass the site's limits by the sum of the user's weights times their shrunken
// means, counted in standard deviations of the entries so that a weight of 1 on two traits counts both alike.
// A trait with one number an entry (a rating) is taken as it stands. An entry without a number in a limited
// trait is left out and said so; one without a number in a weighted trait counts as average there.
// [source.BaseIndex] [source.BestOfShrunken]
func (s Study) Shorten(c Choice) (*Shortlist, error) {
	if len(c.Wanted) == 0 {
		return nil, fmt.Errorf("no trait is weighted: give a weight to one at least")
	}
	if c.Keep < 1 {
		return nil, fmt.Errorf("keep %d: give 1 at least", c.Keep)
	}
	list := &Shortlist{Check: c.Check}
	var all []*judged
	weighed := false
	for _, w := range c.Wanted {
		if !(w.Weight >= 0) || math.IsInf(w.Weight, 0) {
			return nil, fmt.Errorf("weight %g of %s: give 0 or more, and say that low values are better where they are", w.Weight, w.Trait)
		}
		j, err := s.judge(w, c, list)
		if err != nil {
			return nil, err
		}
		weighed = weighed || w.Weight > 0
		all = append(all, j)
		list.Traits = append(list.Traits, w.Trait)
	}
	if !weighed {
		return nil, fmt.Errorf("all weights are 0: give a weight to one trait at least")
	}
	kept := s.limits(all, list)
	if len(kept) == 0 {
		list.Notes = append(list.Notes, "No entry passes the limits: look whether one of them can be loosened.")
		return list, nil
	}
	if c.Check != "" && !slices.Contains(s.entries(), c.Check) {
		return nil, fmt.Errorf("check %q is no entry of the table", c.Check)
	}
	list.rank(kept, all, c)
	if err := list.gains(s, all, c); err != nil {
		return nil, err
	}
	if len(list.Listed) > c.Keep {
		list.Listed = list.Listed[:c.Keep]
	}
	return list, nil
}

func (s Study) entries() []string {
	var out []string
	for _, r := range s.Records {
		out = append(out, r.Entry)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

func (s Study) judge(w Wanted, c Choice, list *Shortlist) (*judged, error) {
	at := slices.Index(s.Traits, w.Trait)
	if at < 0 {
		return nil, fmt.Errorf("no trait is called %q; the table has %s", w.Trait, strings.Join(s.Traits, ", "))
	}
	j := &judged{Wanted: w, value: map[string]float64{}}
	if !s.rating(at) && w.Weight > 0 {
		a, err := s.Analyse(Question{Trait: w.Trait, Level: c.Level, Lower: w.Lower, Seed: c.Seed})
		if err != nil {
			return nil, err
		}
		list.Analyses = append(list.Analyses, a)
		for _, e := range a.Entries {
			j.value[e.Entry] = e.Shrunken
		}
		j.effects, j.root = a.Fit.Effects(entryTerm), rootOf(a.Fit.Unknown(entryTerm))
		j.spread = math.Sqrt(a.Fit.Components[0].Variance)
		if j.spread == 0 {
			list.Notes = append(list.Notes, fmt.Sprintf("%s does not differ between entries as far as these trials can see: it ranks nothing.", w.Trait))
		}
		return j, nil
	}
	n := map[string]float64{}
	for _, r := range s.Records {
		if v := r.Values[at]; !math.IsNaN(v) {
			j.value[r.Entry] += v
			n[r.Entry]++
		}
	}
	var values []float64
	for _, e := range s.entries() {
		if n[e] == 0 {
			continue
		}
		j.value[e] /= n[e]
		values = append(values, j.value[e])
		j.effects = append(j.effects, Effect{Level: e, Value: j.value[e]})
	}
	if len(values) == 0 {
		return nil, fmt.Errorf("%s has no number in any row", w.Trait)
	}
	mean, squares, _ := spread(values)
	for i := range j.effects {
		j.effects[i].Value -= mean
	}
	if len(values) > 1 {
		j.spread = math.Sqrt(squares / float64(len(values)-1))
	}
	return j, nil
}

// rating reports whether a column says the same of an entry wherever it says anything: a rating or a price.
func (s Study) rating(at int) bool {
	said := map[string]float64{}
	for _, r := range s.Records {
		v := r.Values[at]
		if math.IsNaN(v) {
			continue
		}
		if was, ok := said[r.Entry]; ok && was != v {
			return false
		}
		said[r.Entry] = v
	}
	return true
}

// limits leaves out what the site cannot take.
func (s Study) limits(all []*judged, list *Shortlist) (kept []string) {
	for _, e := range s.entries() {
		why := ""
		for _, j := range all {
			v, told := j.value[e]
			limited := !math.IsNaN(j.Most) || !math.IsNaN(j.Least)
			switch {
			case why != "":
			case limited && !told:
				why = j.Trait + " is not told"
			case v > j.Most:
				why = fmt.Sprintf("%s %.4g is over %g", j.Trait, v, j.Most)
			case v < j.Least:
				why = fmt.Sprintf("%s %.4g is under %g", j.Trait, v, j.Least)
			}
		}
		if why != "" {
			list.LeftOut = append(list.LeftOut, Out{e, why})
			continue
		}
		kept = append(kept, e)
	}
	list.Entries = len(kept)
	return kept
}

// rank draws the true worth of every entry again and again, trait by trait, and counts.
func (list *Shortlist) rank(kept []string, all []*judged, c Choice) {
	place := map[string]int{}
	for i, e := range kept {
		place[e] = i
		l := Listed{Entry: e, Beats: math.NaN()}
		for _, j := range all {
			v, ok := j.value[e]
			if !ok {
				v = math.NaN()
			}
			l.Values = append(l.Values, v)
		}
		list.Listed = append(list.Listed, l)
	}
	check, hasCheck := place[c.Check]
	checkOut := c.Check != "" && !hasCheck
	if checkOut { // it is judged beside the others though the limits leave it out
		check = len(kept)
		place[c.Check], hasCheck = check, true
	}
	n := len(place)
	index := make([]float64, n)
	scale := func(j *judged) float64 {
		if j.spread == 0 {
			return 0
		}
		if j.Lower {
			return -j.Weight / j.spread
		}
		return j.Weight / j.spread
	}
	for _, j := range all {
		for _, e := range j.effects {
			if at, ok := place[e.Level]; ok {
				index[at] += scale(j) * e.Value
			}
		}
	}
	for i := range list.Listed {
		list.Listed[i].Index = index[i]
	}
	r := rand.New(rand.NewPCG(c.Seed, 1))
	draws := min(drawsOfBest, max(500, drawsInAll/n))
	beats := make([]float64, n)
	drawn := make([]float64, n)
	for range draws {
		copy(drawn, index)
		for _, j := range all {
			if j.root == nil || scale(j) == 0 {
				continue
			}
			z := make([]float64, len(j.root))
			for i := range z {
				z[i] = r.NormFloat64()
			}
			for i, row := range j.root {
				at, ok := place[j.effects[i].Level]
				if !ok {
					continue
				}
				for k, l := range row {
					drawn[at] += scale(j) * l * z[k]
				}
			}
		}
		best := slices.Max(drawn[:len(kept)])
		ties := 0.0
		for _, d := range drawn[:len(kept)] {
			if d == best {
				ties++
			}
		}
		for i, d := range drawn[:len(kept)] {
			if d == best {
				list.Listed[i].Best += 1 / (ties * float64(draws))
			}
			if hasCheck {
				switch {
				case d > drawn[check]:
					beats[i] += 1 / float64(draws)
				case d == drawn[check]:
					beats[i] += 0.5 / float64(draws)
				}
			}
		}
	}
	for i := range list.Listed {
		if hasCheck && list.Listed[i].Entry != c.Check {
			list.Listed[i].Beats = min(1, beats[i])
		}
	}
	slices.SortStableFunc(list.Listed, func(a, b Listed) int {
		return cmp.Or(-cmp.Compare(a.Index, b.Index), strings.Compare(a.Entry, b.Entry))
	})
}

// normal80 holds 8 chances in 10 of a normal on both sides of its mean.
const normal80 = 1.2815515655446004

// gains sets each entry's seed against its expected yield over the check's.
func (list *Shortlist) gains(s Study, all []*judged, c Choice) error {
	k := c.Seeds
	if k.Hay == 0 || c.Check == "" {
		return nil
	}
	if !(k.Hay > 0 && k.Rate > 0 && k.Years > 0) {
		return fmt.Errorf("hay %g $/ton, rate %g lb/ac, years %g: give more than 0 of each", k.Hay, k.Rate, k.Years)
	}
	i := slices.IndexFunc(all, func(j *judged) bool { return j.Trait == k.Yield })
	if i < 0 || all[i].root == nil {
		return fmt.Errorf("seed is set against yield, and %q is no weighted trait tried in plots or environments", k.Yield)
	}
	j := all[i]
	at := func(entry string) int {
		return slices.IndexFunc(j.effects, func(e Effect) bool { return e.Level == entry })
	}
	check := at(c.Check)
	if check < 0 {
		return fmt.Errorf("check %q has no %s", c.Check, k.Yield)
	}
	price := map[string]float64{}
	if k.Price != "" {
		w, err := s.judge(Wanted{Trait: k.Price}, c, list)
		if err != nil {
			return err
		}
		price = w.value
	}
	for n := range list.Listed {
		l := &list.Listed[n]
		e := at(l.Entry)
		mine, told := price[l.Entry]
		base, toldCheck := price[c.Check]
		if e < 0 || e == check || k.Price != "" && !(told && toldCheck) {
			continue
		}
		// Variance of the difference from the root of the covariance.
		variance := 0.0
		for z := range j.root {
			d := 0.0
			if z < len(j.root[e]) {
				d += j.root[e][z]
			}
			if z < len(j.root[check]) {
				d -= j.root[check][z]
			}
			variance += d * d
		}
		g := &Gain{SeedMore: (mine - base) * k.Rate}
		g.Middle = (j.effects[e].Value-j.effects[check].Value)*k.Hay*k.Years - g.SeedMore
		half := normal80 * math.Sqrt(variance) * k.Hay * k.Years
		g.Low, g.High = g.Middle-half, g.Middle+half
		g.NoDifference = g.Low <= 0 && g.High >= 0
		l.Gain = g
	}
	return nil
}
