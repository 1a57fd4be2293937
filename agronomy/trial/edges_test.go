package trial

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"haywarden/agronomy/method"
)

// split makes factors and values of rows written `A,1,4.1`: entry, block or environment, value.
func split(t testing.TB, text string) (values []float64, entry, block Factor) {
	t.Helper()
	var rows [][]string
	for line := range strings.FieldsSeq(text) {
		rows = append(rows, strings.Split(line, ","))
	}
	s := sheet{[]string{"entry", "block", "yield"}, rows}
	return s.values(t, "yield"), s.factor("entry"), s.factor("block")
}

func refused(t *testing.T, err error, want string) {
	t.Helper()
	if err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("error %v, want one saying %q", err, want)
	}
}

const full = "A,1,4.1 B,1,4.6 C,1,4.3 A,2,4.5 B,2,4.9 C,2,4.2 A,3,4.4 B,3,5.2 C,3,4.7"

func TestOneEnvironmentIsRefusedWhereItIsNoTerm(t *testing.T) {
	y, entry, env := split(t, "A,1,4.1 B,1,4.6 A,1,4.5 B,1,4.9 C,1,4.3")
	_, err := FitREML(Model{Response: y, Random: []Factor{entry, env}})
	refused(t, err, "block has one level only, 1: it compares nothing; leave it out")
	_, err = StabilityOf(y, entry, env)
	refused(t, err, "block has 1 levels: stability wants 3 environments at least")
	_, err = Blocks(y, entry, env, 0.05)
	refused(t, err, "block has one level only")
	if f := mustFit(t, Model{Response: y, Random: []Factor{entry}}); f.Residual <= 0 {
		t.Errorf("without the environment: %+v", f)
	}
}

// Between-entry mean square 0.04 under the error's 0.94: the least squares of one mean are all there is.
func TestAVarianceAtItsBoundaryIsExactlyZero(t *testing.T) {
	y, entry, _ := split(t, "A,1,3.0 A,2,5.0 B,1,4.9 B,2,3.3 C,1,3.4 C,2,4.8")
	f := mustFit(t, Model{Response: y, Random: []Factor{entry}})
	mean, squares, _ := spread(y)
	if f.Components[0].Variance != 0 {
		t.Errorf("variance %g, want exactly 0", f.Components[0].Variance)
	}
	check(t, "residual", f.Residual, squares/5, 1e-12, 0)
	check(t, "mean", f.Mean, mean, 1e-12, 0)
	// -2 log likelihood of one sample, restricted: closed form.
	check(t, "criterion", f.Criterion, 5*(1+math.Log(2*math.Pi*squares/5))+math.Log(6), 1e-12, 0)
	for _, e := range f.Random {
		if e.Value != 0 || e.SE != 0 {
			t.Errorf("%+v, want an effect of 0", e)
		}
	}
	list, err := f.Chances("entry", "A", false, 100, seeded())
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range list {
		if !near(c.Best, 1./3, 1e-12) || c.Entry != "A" && c.Beats != 0.5 {
			t.Errorf("%+v: nothing tells the entries apart", c)
		}
	}
}

// The middle of three terms at zero leaves the other two as if it were not there.
func TestATermAtZeroChangesNothingElse(t *testing.T) {
	y, entry, env := split(t, full)
	var halves []string
	for i := range y {
		halves = append(halves, string("ab"[i%2]))
	}
	half := NewFactor("half", halves)
	with := mustFit(t, Model{Response: y, Random: []Factor{entry, half, env}})
	if with.Components[1].Variance != 0 {
		t.Fatalf("half has variance %g", with.Components[1].Variance)
	}
	without := mustFit(t, Model{Response: y, Random: []Factor{entry, env}})
	check(t, "entry", with.Components[0].Variance, without.Components[0].Variance, 1e-7, 0)
	check(t, "criterion", with.Criterion, without.Criterion, 1e-10, 0)
}

func TestWhatCannotBeToldApartIsNamed(t *testing.T) {
	y, entry, block := split(t, full)
	same := entry
	same.Name = "name"
	constant := make([]float64, len(y))
	for i := range constant {
		constant[i] = 4.4
	}
	saturated := make([]float64, len(y))
	for i := range saturated {
		saturated[i] = float64(entry.At[i] + 10*block.At[i])
	}
	for name, c := range map[string]struct {
		m    Model
		want string
	}{
		"a constant column":               {Model{Response: constant, Random: []Factor{entry}}, "all 9 values are 4.4: nothing differs"},
		"two names of one thing":          {Model{Response: y, Random: []Factor{entry, same}}, "entry and name group the plots alike"},
		"a term of single plots":          {Model{Response: y, Random: []Factor{Cross(entry, block)}}, "each plot is a level of entry:block by itself"},
		"no random term":                  {Model{Response: y, Fixed: []Factor{entry}}, "no random term is given"},
		"fixed and random alike":          {Model{Response: y, Fixed: []Factor{entry}, Random: []Factor{same}}, "group the plots alike"},
		"values without error":            {Model{Response: saturated, Random: []Factor{entry, block}}, "leaves nothing to the residual"},
		"as many fixed effects as plots":  {Model{Response: y[:3], Fixed: []Factor{NewFactor("entry", []string{"A", "B", "C"})}, Random: []Factor{NewFactor("block", []string{"1", "1", "2"})}}, "3 plots for 3 fixed effects"},
		"a random term inside fixed ones": {Model{Response: append(y, y...), Fixed: []Factor{twice(Cross(entry, block))}, Random: []Factor{twice(entry)}}, "random term entry lies wholly inside the fixed columns"},
		"a value that is no number":       {Model{Response: []float64{1, math.NaN()}, Random: []Factor{entry}}, "plot 2 has the value NaN"},
		"fewer groupings than values":     {Model{Response: append([]float64{1}, y...), Random: []Factor{entry}}, "entry is given for 9 plots and the values for 10"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := FitREML(c.m)
			refused(t, err, c.want)
		})
	}
}

func TestMoreThanCanBeSolvedIsRefusedAtOnce(t *testing.T) {
	var a, b, half []string
	var y []float64
	for i := range 3 * mostDense {
		a, b = append(a, fmt.Sprint(i%(mostDense+1))), append(b, fmt.Sprint((i+i/(mostDense+1)*5)%(mostDense+3)))
		half = append(half, fmt.Sprint(i%2))
		y = append(y, float64(i%11))
	}
	_, err := FitREML(Model{Response: y, Fixed: []Factor{NewFactor("a", a)}, Random: []Factor{NewFactor("half", half)}})
	refused(t, err, "1501 fixed effects, at most 1500 can be solved")
	_, err = FitREML(Model{Response: y, Random: []Factor{NewFactor("a", a), NewFactor("b", b), NewFactor("half", half)}})
	refused(t, err, "effects must be solved at once, at most 1500 can")
}

func twice(f Factor) Factor {
	f.At = append(append([]int{}, f.At...), f.At...)
	return f
}

// A fixed column that others make up is left out and named; the fit is that without it.
func TestAFixedColumnMadeUpOfOthersIsNamed(t *testing.T) {
	y, entry, block := split(t, full)
	var kinds []string
	for _, l := range entry.At {
		kinds = append(kinds, []string{"hay", "hay", "graze"}[l])
	}
	f := mustFit(t, Model{Response: y, Fixed: []Factor{entry, NewFactor("kind", kinds)}, Random: []Factor{block}})
	g := mustFit(t, Model{Response: y, Fixed: []Factor{entry}, Random: []Factor{block}})
	if len(f.Aliased) != 1 || f.Aliased[0] != "kind hay" || len(g.Aliased) != 0 {
		t.Errorf("left out %q, want kind hay", f.Aliased)
	}
	check(t, "criterion", f.Criterion, g.Criterion, 1e-12, 0)
}

func TestPlotsEnteredTwiceAreRefusedOrTold(t *testing.T) {
	y, entry, block := split(t, full+" B,2,4.9")
	_, err := Blocks(y, entry, block, 0.05)
	refused(t, err, "rows 5 and 10 are both block:entry 2:B")
	out, notes, err := ask(t, "trial-blup", "A,1,4.1;B,1,4.6;C,1,4.3;A,2,4.5;B,2,;B,2,4.9;C,2,4.2;B,2,4.9", map[string]string{"response": "yield"}, []string{"entry", "block"})
	if err != nil || out["blups"] == nil || !strings.Contains(strings.Join(notes, "\n"), "rows 6 and 8 are alike in all that is used") {
		t.Errorf("%v %v %v", out, notes, err)
	}
	_, _, err = ask(t, "trial-anova", "A,1,4.1;B,1,4.6;C,1,4.3;A,2,4.5;B,2,;B,2,4.9;C,2,4.2;B,2,4.7", map[string]string{"response": "yield", "entry": "entry", "block": "block", "design": "rcbd"}, nil)
	refused(t, err, "rows 6 and 8 are both entry:block B:2")
}

// ask runs a declared method on a sheet of entry, block and yield.
func ask(t *testing.T, name, rows string, words map[string]string, random []string) (map[string]any, []string, error) {
	t.Helper()
	table := &method.Table{Header: []string{"entry", "block", "yield"}}
	for row := range strings.SplitSeq(rows, ";") {
		table.Rows = append(table.Rows, strings.Split(row, ","))
	}
	for _, m := range Methods() {
		if m.Name != name {
			continue
		}
		c := method.NewCall(m, nil)
		c.SetSheet("data", table)
		c.SetNum("level", 0.05)
		for k, v := range words {
			c.SetWord(k, v)
		}
		if random != nil {
			c.SetWords("random", random)
		}
		err := m.Run(c)
		return c.Outputs(), c.Notes(), err
	}
	t.Fatalf("no method %s", name)
	return nil, nil, nil
}

func TestSheetsThatCannotBeUsedAreToldByRowAndColumn(t *testing.T) {
	words := func(entry string) map[string]string {
		return map[string]string{"response": "yield", "entry": entry, "block": "block", "design": "rcbd"}
	}
	for name, c := range map[string]struct {
		rows  string
		words map[string]string
		want  string
	}{
		"a word for a yield":         {"A,1,4;B,1,x", words("entry"), `row 2, column yield: "x"; give a number, or leave the cell empty`},
		"a column that is not there": {"A,1,4;B,1,5", words("variety"), "no column is headed variety, found entry, block, yield"},
		"an entry without a name":    {"A,1,4;,1,5", words("entry"), "row 2, column entry is empty"},
		"no yield at all":            {"A,1,;B,1,NA", words("entry"), "column yield has no number in 2 rows"},
		"too few plots":              {"A,1,4;B,1,5;A,2,4.2", words("entry"), "3 plots for 2 entries and 2 blocks leave no error"},
		"keys of the other design":   {"A,1,4;B,1,5", map[string]string{"response": "yield", "entry": "entry", "block": "block", "sub": "entry", "design": "rcbd"}, "sub does not belong to design rcbd"},
		"a key left out":             {"A,1,4;B,1,5", map[string]string{"response": "yield", "block": "block", "design": "rcbd"}, "entry is missing: design rcbd wants its column"},
	} {
		t.Run(name, func(t *testing.T) {
			_, _, err := ask(t, "trial-anova", c.rows, c.words, nil)
			refused(t, err, c.want)
		})
	}
}

func TestASplitPlotThatLostAPlotIsSentToTheMixedModel(t *testing.T) {
	s := published(t, "alfalfa_splitplot.csv").without(4)
	_, err := SplitPlot(s.values(t, "Yield"), s.factor("Variety"), s.factor("Date"), s.factor("Block"), 0.05)
	refused(t, err, "1 of 72 plots are missing: a split plot is analysed whole; fit what is there with trial-blup, fixed=Variety,Date,Variety:Date random=Block,Block:Variety")
}

func TestBlocksThatShareNoEntryAreRefused(t *testing.T) {
	y, entry, block := split(t, "A,1,4 B,1,5 A,2,4.4 B,2,5.1 C,3,6 D,3,7 C,4,6.5 D,4,7.1")
	_, err := Blocks(y, entry, block, 0.05)
	refused(t, err, "fall into parts that share nothing")
}

func TestLevelsOfDoubtAreHeldToTheirRange(t *testing.T) {
	y, entry, block := split(t, full)
	for _, level := range []float64{0, 1, -1, math.NaN()} {
		_, err := Blocks(y, entry, block, level)
		refused(t, err, "between 0 and 1")
	}
}

func TestIndicesThatMeanNothingAreRefused(t *testing.T) {
	for name, c := range map[string]struct {
		p, g  [][]float64
		worth []float64
		want  string
	}{
		"a lopsided P":              {[][]float64{{1, 0.2}, {0.3, 1}}, [][]float64{{0.5, 0}, {0, 0.5}}, []float64{1, 1}, "P row 1, column 2: 0.2, and 0.3 the other way round"},
		"P of one trait told twice": {[][]float64{{1, 1}, {1, 1}}, [][]float64{{0.5, 0}, {0, 0.5}}, []float64{1, 1}, "P is no covariance matrix"},
		"more worth than is seen":   {[][]float64{{1}}, [][]float64{{2}}, []float64{1}, "accuracy 1.41 is over 1"},
		"nothing wanted":            {[][]float64{{1}}, [][]float64{{0.5}}, []float64{0}, "does not vary between entries"},
		"a trait without a row":     {[][]float64{{1}}, [][]float64{{0.5}}, []float64{1, 2}, "P has 1 rows for 2 weights"},
		"a short row":               {[][]float64{{1, 0}, {0}}, [][]float64{{0.5}}, []float64{1, 2}, "P row 2 has 1 numbers: give 2"},
		"a variance below nothing":  {[][]float64{{1, 0}, {0, 1}}, [][]float64{{-0.5, 0}, {0, 0.5}}, []float64{1, 2}, "G row 1, column 1: -0.5"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := SelectionIndex(c.p, c.g, c.worth)
			refused(t, err, c.want)
		})
	}
}
