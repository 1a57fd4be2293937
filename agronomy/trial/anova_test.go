package trial

import (
	"math"
	"testing"
)

// Snedecor & Cochran's alfalfa, R's aov with Error(Block/Variety). [source.SplitPlotAnova]
func TestSplitPlotIsThatOfR(t *testing.T) {
	s := published(t, "alfalfa_splitplot.csv")
	a, err := SplitPlot(s.values(t, "Yield"), s.factor("Variety"), s.factor("Date"), s.factor("Block"), 0.05)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []Line{
		{"Block", 5, 4.149823611, 6.09217, 0.0076598}, {"Variety", 2, 0.1780194444, 0.653355626, 0.5411510344}, {"error a", 10, 1.3623472222, 0, 0},
		{"Date", 3, 1.9624708333, 23.389742130, 2.825580361e-09}, {"Variety:Date", 6, 0.2105583333, 1.254771545, 0.2972672400}, {"error b", 45, 1.2585458333, 0, 0},
	} {
		got := a.Lines[i]
		if got.Source != want.Source || got.DF != want.DF || math.IsNaN(got.F) != (want.F == 0) {
			t.Fatalf("line %d: %+v, want %+v", i, got, want)
		}
		check(t, got.Source+" squares", got.Squares, want.Squares, 1e-9, 5.1e-10)
		if want.F > 0 {
			check(t, got.Source+" F", got.F, want.F, 1e-9, 5.1e-6)
			check(t, got.Source+" P", got.P, want.P, 1e-5, 0)
		}
	}
	for i, want := range []struct{ sed, df, tee, lsd float64 }{
		{0.1065499578, 10, 2.228138852, 0.2374081008}, {0.0557451395, 45, 2.014103389, 0.1122764744}, {0.0965534139, 45, 2.014103389, 0.1944685581},
		{0.1354430316, 24.08068041, 2.063532693, 0.2794911238}, {0.1354430316, 0, 2.146561625, 0.2907368141},
	} {
		got := a.Differences[i]
		check(t, got.Between+" SED", got.SED, want.sed, 1e-9, 5.1e-11)
		check(t, got.Between+" t", got.T, want.tee, 1e-8, 5.1e-10)
		check(t, got.Between+" LSD", got.LSD, want.lsd, 1e-8, 5.1e-11)
		if want.df > 0 {
			check(t, got.Between+" df", got.DF, want.df, 1e-9, 5.1e-9)
		}
	}
	check(t, "CV a", a.CV[0], 23.11489208, 1e-9, 5.1e-9)
	check(t, "CV b", a.CV[1], 10.47312354, 1e-9, 5.1e-9)
	check(t, "mean", a.Mean, 1.596805556, 1e-9, 5.1e-10)
	check(t, "S1 of Cossack", named(t, a.Means, "Variety:Date", "Cossack:S1").Value, 1.301667, 0, 5.1e-7)
}

// The plots of the alfalfa that were not cut a third time, and the barley with environments as blocks.
func TestBlocksAreThoseOfR(t *testing.T) {
	s := published(t, "alfalfa_splitplot.csv")
	var uncut sheet
	uncut.head = s.head
	for _, r := range s.rows {
		if r[1] == "None" {
			uncut.rows = append(uncut.rows, r)
		}
	}
	a, err := Blocks(uncut.values(t, "Yield"), uncut.factor("Variety"), uncut.factor("Block"), 0.05)
	if err != nil {
		t.Fatal(err)
	}
	check(t, "blocks", a.Lines[0].Squares, 1.1751778, 0, 5.1e-8)
	check(t, "blocks F", a.Lines[0].F, 4.12592, 0, 5.1e-6)
	check(t, "varieties", a.Lines[1].Squares, 0.0907444, 0, 5.1e-8)
	check(t, "varieties F", a.Lines[1].F, 0.79649, 0, 5.1e-6)
	check(t, "varieties P", a.Lines[1].P, 0.477558, 0, 5.1e-7)
	check(t, "error", a.Lines[2].Squares, 0.5696556, 0, 5.1e-8)
}
