package trial

import (
	"math"
	"testing"
)

// Barley over twelve site-years: lines of R's lm, shares by the published formulas. [source.TrialsInR]
func TestStabilityIsThatOfR(t *testing.T) {
	s := published(t, "barley_immer_met.csv")
	list, err := StabilityOf(s.values(t, "yield"), s.factor("variety"), Cross(s.factor("site"), s.factor("year")))
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]Stability{}
	for _, x := range list {
		got[x.Entry] = x
	}
	for _, want := range []Stability{
		{Entry: "Svansota", Mean: 30.377778, Slope: 0.9205775331, SlopeSE: 0.0968531, Deviation: 8.989705, Wricke: 95.942173, Shukla: 8.283840},
		{Entry: "No. 462", Mean: 35.377781, Slope: 1.4396629049, SlopeSE: 0.0699707, Deviation: 4.691917, Wricke: 232.168966, Shukla: 23.764158},
		{Entry: "Manchuria", Mean: 31.463890, Slope: 0.7297298217, SlopeSE: 0.1074667, Deviation: 11.067915, Wricke: 180.681779, Shukla: 17.913341},
		{Entry: "No. 475", Mean: 31.761111, Slope: 0.9802458627, SlopeSE: 0.1708174, Deviation: 27.962914, Wricke: 280.003104, Shukla: 29.199855},
		{Entry: "Velvet", Mean: 33.061109, Slope: 0.7893083643, SlopeSE: 0.1489297, Deviation: 21.255950, Wricke: 255.100991, Shukla: 26.370070},
		{Entry: "Peatland", Mean: 34.180556, Slope: 0.6718296478, SlopeSE: 0.1119892, Deviation: 12.019063, Wricke: 223.399438, Shukla: 22.767620},
		{Entry: "Glabron", Mean: 33.341666, Slope: 0.9693461691, SlopeSE: 0.1603221, Deviation: 24.632299, Wricke: 247.223497, Shukla: 25.474900},
		{Entry: "No. 457", Mean: 35.847224, Slope: 1.1487580580, SlopeSE: 0.0931702, Deviation: 8.319011, Wricke: 104.397106, Shukla: 9.244628},
		{Entry: "Wisconsin No. 38", Mean: 39.394446, Slope: 1.1986051161, SlopeSE: 0.1339559, Deviation: 17.196580, Wricke: 209.766427, Shukla: 21.218415},
		{Entry: "Trebi", Mean: 39.399993, Slope: 1.1519365222, SlopeSE: 0.1526076, Deviation: 22.318771, Wricke: 245.310627, Shukla: 25.257528},
	} {
		x, ok := got[want.Entry]
		if !ok {
			t.Fatalf("no %s", want.Entry)
		}
		check(t, x.Entry+" mean", x.Mean, want.Mean, 0, 5.1e-7)
		check(t, x.Entry+" slope", x.Slope, want.Slope, 0, 5.1e-11)
		check(t, x.Entry+" slope error", x.SlopeSE, want.SlopeSE, 0, 5.1e-8)
		check(t, x.Entry+" deviation", x.Deviation, want.Deviation, 0, 5.1e-7)
		check(t, x.Entry+" share", x.Wricke, want.Wricke, 0, 5.1e-7)
		check(t, x.Entry+" variance", x.Shukla, want.Shukla, 0, 5.1e-7)
	}
}

// Spring wheat with 36 of 170 cells missing: adjusted means as Digby 1979 prints them, up to one
// constant, and what is left.
func TestMeansAreAdjustedForMissingCells(t *testing.T) {
	s := published(t, "agridat_digby.jointregression.csv")
	y, gen, env := s.values(t, "yield"), s.factor("gen"), s.factor("env")
	a, err := Blocks(y, gen, env, 0.05)
	if err != nil {
		t.Fatal(err)
	}
	printed := []float64{3.272, 3.268, 4.051, 3.724, 3.641, 3.195, 3.232, 3.268, 3.749, 3.179}
	constant := 0.0
	for i, m := range a.Means {
		constant += (m.Value - printed[i]) / float64(len(printed))
	}
	for i, m := range a.Means {
		check(t, m.Level, m.Value-constant, printed[i], 0, 1.01e-3)
	}
	check(t, "what is left", a.Lines[2].Squares, 10.62293986, 0, 5.1e-9)
	list, err := StabilityOf(y, gen, env)
	if err != nil {
		t.Fatal(err)
	}
	// His joint regression goes on adjusting slopes and levels in turn; ours stops at the additive
	// levels, so that the slopes agree roughly and rank alike.
	slopes := []float64{0.953, 0.739, 1.082, 1.024, 1.142, 0.877, 1.089, 0.914, 1.196, 0.947}
	for i, x := range list {
		if math.Abs(x.Slope-slopes[i]) > 0.06 || !math.IsNaN(x.Wricke) || !math.IsNaN(x.Shukla) {
			t.Errorf("%s: slope %.3f, printed %.3f, share %g", x.Entry, x.Slope, slopes[i], x.Wricke)
		}
	}
}
