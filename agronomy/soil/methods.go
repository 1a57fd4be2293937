package soil

import (
	_ "embed"
	"fmt"
	"slices"
	"strconv"

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
	return []*method.Method{lime(), limeQuality(), fertility(), removal(), manureCredit(), tissue(), capacity(), extractant(), buildUp(), byClass(), byOlsen()}
}

func names[T ~string](all []T) (out []string) {
	for _, v := range all {
		out = append(out, string(v))
	}
	return out
}

func limeConstants() []method.Constant {
	k := PublishedLimeTables()
	var list []method.Constant
	for target, line := range k.OhioLines {
		at := "ohio_" + strconv.FormatFloat(target, 'f', 1, 64)
		list = append(list, method.Constant{Key: at + "_a", Value: line[0], Source: source.LimeOhioLines}, method.Constant{Key: at + "_b", Value: line[1], Source: source.LimeOhioLines})
	}
	for target, lb := range k.PennPerMeq {
		id := source.LimePennState
		if target == 6.0 {
			id = source.LimePennTurf
		}
		list = append(list, method.Constant{Key: "penn_" + strconv.FormatFloat(target, 'f', 1, 64), Value: lb, Unit: "lb/ac", Source: id})
	}
	for target, curve := range k.Kansas {
		for i, v := range curve {
			list = append(list, method.Constant{Key: fmt.Sprintf("kansas_%.1f_%d", target, i), Value: v, Source: source.LimeKansas})
		}
	}
	list = append(
		list,
		method.Constant{Key: "ohio_organic_a", Value: k.OhioOrganic[0], Source: source.LimeOhioLines},
		method.Constant{Key: "ohio_organic_b", Value: k.OhioOrganic[1], Source: source.LimeOhioLines},
		method.Constant{Key: "penn_small", Value: k.PennSmall, Unit: "lb/ac", Source: source.LimePennState},
		method.Constant{Key: "penn_least", Value: k.PennLeast, Unit: "lb/ac", Source: source.LimePennTurf},
		method.Constant{Key: "carolina", Value: k.Carolina, Source: source.LimeCarolina},
		method.Constant{Key: "per_meq", Value: k.PerMeq, Unit: "lb/ac", Source: source.LimeFromCEC},
	)
	slices.SortFunc(list, func(a, b method.Constant) int {
		if a.Key < b.Key {
			return -1
		}
		return 1
	})
	return list
}

func limeTablesOf(c *method.Call) LimeTables {
	k := PublishedLimeTables()
	for target := range k.OhioLines {
		at := "ohio_" + strconv.FormatFloat(target, 'f', 1, 64)
		k.OhioLines[target] = [2]float64{c.K(at + "_a"), c.K(at + "_b")}
	}
	for target := range k.PennPerMeq {
		k.PennPerMeq[target] = c.K("penn_" + strconv.FormatFloat(target, 'f', 1, 64))
	}
	for target := range k.Kansas {
		k.Kansas[target] = [3]float64{c.K(fmt.Sprintf("kansas_%.1f_0", target)), c.K(fmt.Sprintf("kansas_%.1f_1", target)), c.K(fmt.Sprintf("kansas_%.1f_2", target))}
	}
	k.OhioOrganic = [2]float64{c.K("ohio_organic_a"), c.K("ohio_organic_b")}
	k.PennSmall, k.PennLeast, k.Carolina, k.PerMeq = c.K("penn_small"), c.K("penn_least"), c.K("carolina"), c.K("per_meq")
	return k
}

func lime() *method.Method {
	yes := []string{"yes", "no"}
	return &method.Method{
		Name: "lime", Title: "Lime for a legume",
		About: "How much lime brings a soil to the pH wanted, by one state's guide with its own buffer, depth and material. Guides do not agree: ask the one of your laboratory. A guide whose table is not in the program refuses.",
		Inputs: []method.Input{
			{Key: "guide", About: "whose table", Kind: method.Word, Choices: names(LimeGuides())},
			{Key: "ph", About: "water pH of the test", Accepted: method.Range{Low: 3, High: 9}, Tested: method.Range{Low: 4.4, High: 7.5}},
			{Key: "buffer", About: "buffer pH: SMP or Sikora, for north-carolina Mehlich", Accepted: method.Range{Low: 4.5, High: 8}, Optional: true},
			{Key: "target", About: "pH wanted; else the guide's own for alfalfa", Accepted: method.Range{Low: 5, High: 7.5}, Optional: true},
			{Key: "depth", About: "depth that the lime is mixed into; else the guide's own", Unit: unit.Must("in"), Accepted: method.Range{Low: 1, High: 12}, Optional: true},
			{Key: "acidity", About: "exchangeable acidity, for penn-state", Unit: unit.Must("meq/100g"), Accepted: method.Range{Low: 0, High: 40}, Optional: true},
			{Key: "cec", About: "exchange capacity, for the estimate by capacity", Unit: unit.Must("meq/100g"), Accepted: method.Range{Low: 1, High: 60}, Optional: true},
			{Key: "credit", About: "lime of late that still acts, for north-carolina", Unit: unit.Must("tons/ac"), Accepted: method.Range{Low: 0, High: 10}, Default: "0"},
			{Key: "credit_months", About: "how long ago that lime was spread; 8 % of it is gone a month, 16 % on muck", Unit: unit.Must("months"), Accepted: method.Range{Low: 0, High: 60}, Default: "0"},
			{Key: "organic", About: "muck or peat, for ohio", Kind: method.Word, Choices: yes, Default: "no"},
			{Key: "untilled", About: "no-till or sod", Kind: method.Word, Choices: yes, Default: "no"},
			{Key: "enp", About: "pounds of the basis that a ton of your lime does (effective neutralizing power)", Accepted: method.Range{Low: 200, High: 3600}, Optional: true},
			{Key: "nv", About: "neutralizing value of your lime, %, for ohio; or give enp, never both", Accepted: method.Range{Low: 20, High: 180}, Optional: true},
		},
		Outputs: []method.Output{
			{Key: "tons_ac", About: "lime to spread: of your material where it was given, else of the basis", Unit: unit.Must("tons/ac"), Decimals: 2},
			{Key: "lb_ac", About: "the same", Unit: unit.Must("lb/ac")},
			{Key: "basis", About: "of what material"},
			{Key: "split", About: "how it is put on"},
			{Key: "lead_time", About: "how long before seeding"},
		},
		Constants: limeConstants(),
		Sources:   []source.ID{source.LimeOhio, source.LimeOhioLines, source.LimeOhioENP, source.LimeIowa, source.LimePennState, source.LimePennTurf, source.LimeCarolina, source.LimeKansas, source.LimeFromCEC, source.LimeLead, source.LimeSplit, source.LimeMichigan, source.LimeNoTill},
		Example:   "guide=iowa ph=6.0 buffer=6.4",
		Run:       runLime,
	}
}

func runLime(c *method.Call) error {
	if c.Given("enp") && c.Given("nv") {
		return fmt.Errorf("enp and nv both correct for the material: give one")
	}
	guide := LimeGuide(c.Word("guide"))
	s := AcidSoil{
		PH: c.Num("ph"), Buffer: c.Num("buffer"), Target: c.Num("target"), Depth: unit.Inch(c.Num("depth")), CEC: unit.MeqSoil(c.Num("cec")), Acidity: -1,
		Recent: Credit(c.Num("credit"), c.Num("credit_months"), c.Word("organic") == "yes"), Organic: c.Word("organic") == "yes", Untilled: c.Word("untilled") == "yes",
	}
	if c.Given("acidity") {
		s.Acidity = unit.MeqSoil(c.Num("acidity"))
	}
	l, err := limeTablesOf(c).Need(guide, s)
	if err != nil {
		return err
	}
	tons, basis := l.Tons, l.Basis
	switch {
	case c.Given("enp"):
		if tons, err = l.Of(c.Num("enp")); err != nil {
			return err
		}
		basis = fmt.Sprintf("your lime of %g lb/ton", c.Num("enp"))
	case c.Given("nv"):
		if tons, err = l.OfValue(c.Num("nv")); err != nil {
			return err
		}
		basis = fmt.Sprintf("your lime of neutralizing value %g %%", c.Num("nv"))
	}
	for _, n := range l.Notes {
		c.Note("%s", n)
	}
	c.Answer("tons_ac", float64(tons))
	c.Answer("lb_ac", 2000*float64(tons))
	c.Answer("basis", basis)
	c.Answer("split", Liming{Tons: tons}.Split(s.Untilled))
	c.Answer("lead_time", Lead)
	return nil
}

func limeQuality() *method.Method {
	var constants []method.Constant
	ids := map[LimeState]source.ID{
		RatedIowa: source.LimeStateSieves, RatedIllinois: source.LimeIllinoisENV, RatedWisconsin: source.LimeFineness, RatedNewYork: source.LimeNewYork,
		RatedKentucky: source.LimeRelative, RatedIndiana: source.LimeRecalled, RatedKansas: source.LimeRecalled, RatedMissouri: source.LimeRecalled,
	}
	ratings := PublishedRatings()
	for _, state := range LimeStates() {
		id, ok := ids[state]
		if !ok {
			continue // as Wisconsin
		}
		for _, m := range ratings[state].Sieves() {
			constants = append(constants, method.Constant{Key: fmt.Sprintf("%s_%d", state, m), Value: ratings[state].Weights[m], Source: id})
		}
	}
	return &method.Method{
		Name: "lime-quality", Title: "What a lime is worth",
		About: "The index by which a state rates a liming material: how much passes its sieves, and its purity. Indices of two states are not the same thing.",
		Inputs: []method.Input{
			{Key: "state", About: "whose law", Kind: method.Word, Choices: names(LimeStates())},
			{Key: "passing", About: "percent that passes each of the state's sieves, by mesh: m8:95,m20:80,m60:50", Kind: method.Pairs, Choices: meshes(), Accepted: method.Range{Low: 0, High: 100}},
			{Key: "cce", About: "calcium carbonate equivalent", Unit: unit.Must("%"), Accepted: method.Range{Low: 20, High: 180}},
			{Key: "moisture", About: "water, where the state's index is of a ton as sold", Unit: unit.Must("%"), Accepted: method.Range{Low: 0, High: 60}, Default: "0"},
		},
		Outputs: []method.Output{
			{Key: "index", About: "what the state calls it, and its unit"},
			{Key: "value", About: "of the material", Decimals: 2},
		},
		Constants: constants,
		Sources:   []source.ID{source.LimeStateSieves, source.LimeIllinoisENV, source.LimeFineness, source.LimeNewYork, source.LimeRelative, source.LimeRecalled},
		Example:   "state=iowa passing=m4:100,m8:90,m60:55 cce=92 moisture=2",
		Run: func(c *method.Call) error {
			state := LimeState(c.Word("state"))
			r := PublishedRatings()[state]
			named := state
			if _, ok := ids[state]; !ok {
				named = RatedWisconsin
			}
			for m := range r.Weights {
				r.Weights[m] = c.K(fmt.Sprintf("%s_%d", named, m))
			}
			passing := map[int]float64{}
			for _, p := range c.Pairs("passing") {
				mesh, err := strconv.Atoi(p.Name[1:])
				if err != nil {
					return err
				}
				passing[mesh] = p.Value
			}
			v, err := r.Of(passing, c.Num("cce"), c.Num("moisture"))
			if err != nil {
				return err
			}
			if state == RatedIllinois {
				four, err := IllinoisFour().Of(passing, c.Num("cce"), 0)
				if err != nil {
					return err
				}
				c.Note("over four years %.2f; the chart's tons are multiplied by %.4f for lime shortly before alfalfa, by %.4f over four years", four, IllinoisTypical/v, IllinoisTypicalFour/four)
			}
			c.Answer("index", r.Index+", "+r.Unit)
			c.Answer("value", v)
			return nil
		},
	}
}

// meshes are the names of all sieves.
func meshes() (out []string) {
	for _, r := range PublishedRatings() {
		for _, m := range r.Sieves() {
			if name := "m" + strconv.Itoa(m); !slices.Contains(out, name) {
				out = append(out, name)
			}
		}
	}
	slices.Sort(out)
	return out
}
