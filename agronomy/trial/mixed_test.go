package trial

import (
	"strings"
	"testing"
)

func mustFit(t testing.TB, m Model) *Fit {
	t.Helper()
	f, err := FitREML(m)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func named(t testing.TB, list []Effect, term, level string) Effect {
	t.Helper()
	for _, e := range list {
		if e.Term == term && e.Level == level {
			return e
		}
	}
	t.Fatalf("no effect of %s %s", term, level)
	return Effect{}
}

// fits are published fits: lme4 1.1-31 in R 4.2.2, with statsmodels and a dense profile search of one
// mind to the digits printed. [source.Lme4]
func TestREMLIsThatOfLme4(t *testing.T) {
	type estimate struct {
		term, level string
		want        float64
	}
	for name, c := range map[string]struct {
		file      string
		drop      []int
		response  string
		fixed     []string
		random    [][2]string
		balanced  bool
		variances []float64 // random terms, residual last
		criterion float64
		mean      float64
		effects   []estimate
	}{
		"alfalfa, cutting dates in a split plot": {
			file: "alfalfa_splitplot.csv", response: "Yield", fixed: []string{"Variety", "Date", "Variety:Date"}, balanced: true,
			random:    [][2]string{{"Block"}, {"Block", "Variety"}},
			variances: []float64{0.0578108333, 0.0270667593, 0.0279676852}, criterion: 9.95636827, mean: 1.596805556,
			effects: []estimate{
				{"Block", "1", 0.23183360}, {"Block", "6", -0.34281654}, {"Block:Variety", "1:Cossack", 0.12437184},
				{"Block:Variety", "4:Ladak", 0.20635406}, {"Block:Variety", "3:Ranger", 0.17785894},
			},
		},
		"alfalfa with five plots lost": {
			file: "alfalfa_splitplot.csv", drop: []int{4, 17, 30, 31, 58}, response: "Yield", fixed: []string{"Variety", "Date"},
			random:    [][2]string{{"Block"}, {"Block", "Variety"}},
			variances: []float64{0.05576950, 0.02511095, 0.03046078}, criterion: 6.31519826,
			effects: []estimate{
				{"Block", "1", 0.2227285}, {"Block", "2", 0.0948586}, {"Block", "3", 0.1440837}, {"Block", "4", 0.0599777}, {"Block", "5", -0.1794584}, {"Block", "6", -0.3421902},
			},
		},
		"barley over sites and years": {
			file: "barley_immer_met.csv", response: "yield", balanced: true,
			random:    [][2]string{{"variety"}, {"site", "year"}},
			variances: []float64{8.00025, 85.02655, 20.94944}, criterion: 760.98860370, mean: 34.42055533,
			effects: []estimate{
				{"variety", "Trebi", 4.08748206}, {"variety", "Wisconsin No. 38", 4.08292825}, {"variety", "No. 457", 1.17111274}, {"variety", "No. 462", 0.78575977},
				{"variety", "Peatland", -0.19700891}, {"variety", "Glabron", -0.88563036}, {"variety", "Velvet", -1.11593152}, {"variety", "No. 475", -2.18306397},
				{"variety", "Manchuria", -2.42704428}, {"variety", "Svansota", -3.31860380},
			},
		},
		"barley with six random terms": {
			file: "barley_immer_met.csv", response: "yield", balanced: true,
			random: [][2]string{{"variety"}, {"site"}, {"year"}, {"variety", "site"}, {"variety", "year"}, {"site", "year"}},
			// lme4 prints 6.969710 for the years, where its search stopped; the mean squares give what stands here (below).
			variances: []float64{6.790151, 44.708252, 6.9696886, 6.081169, 1.445984, 40.581020, 14.632382}, criterion: 755.30604003,
			effects: []estimate{{"variety", "Trebi", 3.46921920}, {"variety", "Svansota", -2.81663964}},
		},
		"spring wheat with cells missing": {
			file: "agridat_digby.jointregression.csv", response: "yield",
			random:    [][2]string{{"env"}, {"gen"}},
			variances: []float64{1.05998482, 0.08336972, 0.09844091}, criterion: 166.79066892, mean: 3.45456233,
			effects: []estimate{{"gen", "G01", -0.17037555}, {"gen", "G03", 0.52307177}, {"gen", "G10", -0.24944980}},
		},
		"ryegrass at seven places": {
			file: "agridat_denis.ryegrass.csv", response: "strength", balanced: true,
			random:    [][2]string{{"gen"}, {"loc"}},
			variances: []float64{470.483307, 7663.666968, 3859.190151}, criterion: 1659.88533885, mean: 408.0353741,
		},
		"a split plot in three replicates": {
			file: "agridat_stroup.splitplot.csv", response: "y", fixed: []string{"a", "b", "a:b"}, balanced: true,
			random:    [][2]string{{"rep"}, {"rep", "a"}},
			variances: []float64{62.395833, 15.381944, 337. / 36}, criterion: 119.76184570,
		},
	} {
		t.Run(name, func(t *testing.T) {
			s := published(t, c.file).without(c.drop...)
			m := Model{Response: s.values(t, c.response)}
			for _, f := range c.fixed {
				a, b, crossed := strings.Cut(f, ":")
				if crossed {
					m.Fixed = append(m.Fixed, Cross(s.factor(a), s.factor(b)))
					continue
				}
				m.Fixed = append(m.Fixed, s.factor(f))
			}
			for _, r := range c.random {
				f := s.factor(r[0])
				if r[1] != "" {
					f = Cross(f, s.factor(r[1]))
				}
				m.Random = append(m.Random, f)
			}
			fit := mustFit(t, m)
			tolerance := 1e-4
			if c.balanced {
				tolerance = 1e-6
			}
			for i, want := range c.variances {
				got, what := fit.Residual, "residual variance"
				if i < len(fit.Components) {
					got, what = fit.Components[i].Variance, "variance of "+fit.Components[i].Term
				}
				check(t, what, got, want, tolerance, 5.1e-7)
			}
			if c.criterion != 0 {
				check(t, "criterion", fit.Criterion, c.criterion, 1e-8, 5.1e-9)
			}
			if c.mean != 0 {
				check(t, "mean", fit.Mean, c.mean, 1e-8, 5.1e-9)
			}
			for _, e := range c.effects {
				check(t, e.term+" "+e.level, named(t, fit.Random, e.term, e.level).Value, e.want, tolerance, 5.1e-8)
			}
		})
	}
}

// In a complete table of one plot a cell the restricted likelihood is greatest at the estimates from
// mean squares, where none is negative. [source.MixedModel]
func TestSixTermsStandWhereTheMeanSquaresPutThem(t *testing.T) {
	s := published(t, "barley_immer_met.csv")
	v, l, y := s.factor("variety"), s.factor("site"), s.factor("year")
	values := s.values(t, "yield")
	square := func(f Factor) float64 {
		var sum float64
		n := f.counts()
		for i, x := range f.sums(values) {
			sum += x * x / n[i]
		}
		return sum
	}
	var total, correction float64
	for _, x := range values {
		total += x * x
		correction += x
	}
	correction *= correction / float64(len(values))
	sv, sl, sy := square(v)-correction, square(l)-correction, square(y)-correction
	svl, svy, sly := square(Cross(v, l))-correction-sv-sl, square(Cross(v, y))-correction-sv-sy, square(Cross(l, y))-correction-sl-sy
	mv, ml, my, mvl, mvy, mly := sv/9, sl/5, sy, svl/45, svy/9, sly/5
	me := (total - correction - sv - sl - sy - svl - svy - sly) / 45
	want := []float64{(mv - mvl - mvy + me) / 12, (ml - mvl - mly + me) / 20, (my - mvy - mly + me) / 60, (mvl - me) / 2, (mvy - me) / 6, (mly - me) / 10}
	fit := mustFit(t, Model{Response: values, Random: []Factor{v, l, y, Cross(v, l), Cross(v, y), Cross(l, y)}})
	for i, c := range fit.Components {
		check(t, c.Term, c.Variance, want[i], 1e-6, 0)
	}
	check(t, "residual", fit.Residual, me, 1e-8, 0)
}

// The fixed effects of the alfalfa trial that lost five plots, with their standard errors. [source.Lme4]
func TestFixedEffectsAreThoseOfLme4(t *testing.T) {
	s := published(t, "alfalfa_splitplot.csv").without(4, 17, 30, 31, 58)
	fit := mustFit(t, Model{
		Response: s.values(t, "Yield"), Fixed: []Factor{s.factor("Variety"), s.factor("Date")},
		Random: []Factor{s.factor("Block"), Cross(s.factor("Block"), s.factor("Variety"))},
	})
	// lme4's base date is None; here it is the first by name too.
	for _, c := range []struct {
		term, level string
		value, se   float64
	}{
		{"mean", "", 1.77074209, 0.12723362}, {"Variety", "Ladak", 0.08497216, 0.10613006}, {"Variety", "Ranger", -0.03640649, 0.10568632},
		{"Date", "S1", -0.44897033, 0.06166212}, {"Date", "S20", -0.21171679, 0.06046182}, {"Date", "O7", -0.10387366, 0.06033131},
	} {
		got := named(t, fit.Fixed, c.term, c.level)
		check(t, c.term+" "+c.level, got.Value, c.value, 1e-6, 5.1e-8)
		check(t, "error of "+c.term+" "+c.level, got.SE, c.se, 1e-5, 5.1e-8)
	}
}
