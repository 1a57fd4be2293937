package soil_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"haywarden/agronomy/soil"
	"haywarden/agronomy/unit"
)

func near(a, b, by float64) bool { return math.Abs(a-b) <= by }

// Bray 20 is Mehlich 27.0, Mehlich 35 is Bray 25.93, acetate 150 is Mehlich 171.0, Mehlich 140 is acetate
// 122.81 [Culman et al. 2019].
func TestExtractantsAreTurnedByThePrintedFactors(t *testing.T) {
	x := soil.PublishedExtraction()
	for _, c := range []struct{ got, want float64 }{
		{float64(x.Mehlich3P(20)), 27.0}, {float64(x.Bray(35)), 25.926}, {float64(x.Mehlich3K(150)), 171.0}, {float64(x.Acetate(140)), 122.807},
		{float64(soil.PublishedCapacity().Of(240, 400, 3200, 6.7)), 13.574}, {float64(soil.PublishedCapacity().Of(180, 250, 1800, 6.5)), 11.772}, {float64(soil.PublishedCapacity().Of(300, 600, 4800, 7.1)), 14.885},
	} {
		if !near(c.got, c.want, 0.001) {
			t.Errorf("%g, want %g", c.got, c.want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		p := unit.PPMBray(rapid.Float64Range(0, 300).Draw(t, "p"))
		k := unit.PPMAcetate(rapid.Float64Range(0, 900).Draw(t, "k"))
		if !near(float64(x.Bray(x.Mehlich3P(p))), float64(p), 1e-9) || !near(float64(x.Acetate(x.Mehlich3K(k))), float64(k), 1e-9) {
			t.Errorf("there and back %g and %g are others", p, k)
		}
	})
	olsen := unit.PPMOlsen(12)
	if _, _, err := (soil.Phosphorus{Olsen: &olsen}).AsBray(x); err == nil {
		t.Error("an Olsen test was turned into Bray")
	}
	if _, _, err := (soil.Phosphorus{Olsen: &olsen}).AsMehlich3(x); err == nil {
		t.Error("an Olsen test was turned into Mehlich 3")
	}
}

// A guide whose table could not be read refuses, and says what to do.
func TestAGuideWithoutATableRefusesUntilItIsLoaded(t *testing.T) {
	for _, g := range []soil.LimeGuide{soil.LimeWisconsin, soil.LimeIllinois, soil.LimeMinnesota} {
		if _, err := soil.PublishedLimeTables().Need(g, soil.AcidSoil{PH: 5.5, Buffer: 6.2}); !errors.Is(err, soil.ErrNotLoaded) || !strings.Contains(err.Error(), "load it") {
			t.Errorf("%s: %v", g, err)
		}
	}
	p, k := unit.PPMBray(20), unit.PPMAcetate(100)
	f := soil.Fertility{Crop: soil.Alfalfa, P: soil.Phosphorus{Bray: &p}, K: soil.Potassium{Acetate: &k}, CEC: 12, Yield: 4}
	if _, err := soil.PublishedFertilityTables().Give(soil.Wisconsin, f, soil.PublishedExtraction()); !errors.Is(err, soil.ErrNotLoaded) {
		t.Errorf("wisconsin: %v", err)
	}
	chart := soil.Chart{Classes: []string{"A", "B"}, PH: []float64{5, 6, 6.5}, Tons: [][]float64{{8, 4, 0}, {6, 3, 0}}}
	if err := chart.Check(); err != nil {
		t.Fatal(err)
	}
	if got, err := chart.At("b", 5.5); err != nil || got != 4.5 {
		t.Errorf("loaded, class B at 5.5 takes %g, %v", got, err)
	}
	if got, err := chart.At("A", 7); err != nil || got != 0 {
		t.Errorf("over the chart's end %g, %v", got, err)
	}
	for name, bad := range map[string]soil.Chart{
		"no classes": {PH: []float64{5, 6}}, "falling pH": {Classes: []string{"A"}, PH: []float64{6, 5}, Tons: [][]float64{{1, 0}}},
		"more at a higher pH": {Classes: []string{"A"}, PH: []float64{5, 6}, Tons: [][]float64{{1, 2}}}, "a row too short": {Classes: []string{"A"}, PH: []float64{5, 6}, Tons: [][]float64{{1}}},
	} {
		if bad.Check() == nil {
			t.Errorf("%s: taken", name)
		}
	}
	if _, err := chart.At("C", 6); err == nil {
		t.Error("a class that is not there was read")
	}
}

func anyAcid(t *rapid.T) soil.AcidSoil {
	return soil.AcidSoil{
		PH: rapid.Float64Range(4.4, 7.4).Draw(t, "ph"), Buffer: rapid.Float64Range(5.8, 6.6).Draw(t, "buffer"), Acidity: unit.MeqSoil(rapid.Float64Range(0, 20).Draw(t, "acidity")),
		CEC: unit.MeqSoil(rapid.Float64Range(3, 40).Draw(t, "cec")), Depth: unit.Inch(rapid.Float64Range(2, 12).Draw(t, "depth")),
	}
}

// Lime is never under 0, none is asked from the target on, and a more acid buffer never asks less.
func TestLimeIsNeverNegativeAndMoreAcidSoilsNeverTakeLess(t *testing.T) {
	k := soil.PublishedLimeTables()
	rapid.Check(t, func(t *rapid.T) {
		s := anyAcid(t)
		g := rapid.SampledFrom([]soil.LimeGuide{soil.LimeOhio, soil.LimeIowa, soil.LimePennState, soil.LimeCarolina, soil.LimeKansas, soil.LimeCEC}).Draw(t, "guide")
		if g == soil.LimeCarolina && s.PH >= 6.5 {
			s.PH = 6.4
		}
		l, err := k.Need(g, s)
		if err != nil {
			t.Fatalf("%s %+v: %v", g, s, err)
		}
		if l.Tons < 0 || math.IsNaN(float64(l.Tons)) || !near(float64(l.Pounds), 2000*float64(l.Tons), 1e-6) || s.PH >= l.Target && l.Tons != 0 {
			t.Errorf("%s %+v: %+v", g, s, l)
		}
		worse := s
		worse.Buffer, worse.Acidity = s.Buffer-0.1, s.Acidity+1
		worse.Buffer = max(5.8, worse.Buffer)
		if m, err := k.Need(g, worse); err != nil || m.Tons < l.Tons-1e-9 {
			t.Errorf("%s: buffer %g takes %g tons, %g takes %g, %v", g, s.Buffer, l.Tons, worse.Buffer, m.Tons, err)
		}
	})
}

func TestLimeRefusesWhatItCannotJudge(t *testing.T) {
	k := soil.PublishedLimeTables()
	for name, c := range map[string]struct {
		guide soil.LimeGuide
		soil  soil.AcidSoil
		want  string
	}{
		"no buffer":            {soil.LimeIowa, soil.AcidSoil{PH: 5.5}, "buffer pH"},
		"no acidity":           {soil.LimePennState, soil.AcidSoil{PH: 5.5, Acidity: -1}, "exchangeable acidity"},
		"no capacity":          {soil.LimeCEC, soil.AcidSoil{PH: 5.5}, "exchange capacity"},
		"another target":       {soil.LimeIowa, soil.AcidSoil{PH: 5.5, Buffer: 6, Target: 6.2}, "[6.5 6.9]"},
		"below the table":      {soil.LimeIowa, soil.AcidSoil{PH: 5.5, Buffer: 5.2}, "goes down to 5.8"},
		"an impossible pH":     {soil.LimeOhio, soil.AcidSoil{PH: 12}, "accepted 3 to 9"},
		"the wrong buffer":     {soil.LimeCarolina, soil.AcidSoil{PH: 5.5, Buffer: 7.2}, "under 6.6"},
		"nobody's guide":       {"atlantis", soil.AcidSoil{PH: 5.5, Buffer: 6}, "accepted"},
		"an impossible buffer": {soil.LimeOhio, soil.AcidSoil{PH: 5.5, Buffer: 9}, "accepted 4.5 to 8"},
	} {
		if _, err := k.Need(c.guide, c.soil); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", name, err, c.want)
		}
	}
	if soil.Credit(2, 5, false) != 2*0.6 || soil.Credit(2, 20, true) != 0 {
		t.Error("the credit of recent lime is not 8 % a month, or goes under 0")
	}
	if s := (soil.Liming{Tons: 9}).Split(false); !strings.Contains(s, "two seasons") {
		t.Errorf("9 tons: %s", s)
	}
}

func anyField(t *rapid.T) soil.Fertility {
	p, k := unit.PPMBray(rapid.Float64Range(0, 80).Draw(t, "p")), unit.PPMAcetate(rapid.Float64Range(0, 300).Draw(t, "k"))
	return soil.Fertility{
		Crop: soil.Alfalfa, P: soil.Phosphorus{Bray: &p}, K: soil.Potassium{Acetate: &k}, CEC: unit.MeqSoil(rapid.Float64Range(3, 35).Draw(t, "cec")),
		Yield: unit.TonAcre(rapid.Float64Range(1, 8).Draw(t, "yield")), Region: rapid.SampledFrom([]soil.Region{soil.HighSupply, soil.MediumSupply, soil.LowSupply}).Draw(t, "region"),
	}
}

// A higher test never takes more, a higher yield never less, nothing is negative, and potash keeps to the
// cap.
func TestRicherSoilsNeverTakeMore(t *testing.T) {
	tables, x := soil.PublishedFertilityTables(), soil.PublishedExtraction()
	rapid.Check(t, func(t *rapid.T) {
		f := anyField(t)
		g := rapid.SampledFrom([]soil.FertilityGuide{soil.Illinois, soil.TriState2020, soil.TriState1995, soil.Minnesota}).Draw(t, "guide")
		a, err := tables.Give(g, f, x)
		if err != nil {
			t.Fatal(err)
		}
		if a.P2O5 < 0 || a.K2O < 0 || a.K2O > 300 || a.RawK2O < a.K2O {
			t.Errorf("%s: %+v", g, a)
		}
		richer := f
		p, k := *f.P.Bray+1, *f.K.Acetate+5
		richer.P.Bray, richer.K.Acetate = &p, &k
		if b, err := tables.Give(g, richer, x); err != nil || b.P2O5 > a.P2O5+1e-9 || b.K2O > a.K2O+1e-9 {
			t.Errorf("%s: richer soil takes %+v, %v, poorer %+v", g, b, err, a)
		}
		more := f
		more.Yield++
		if b, err := tables.Give(g, more, x); err != nil || b.P2O5 < a.P2O5-1e-9 || b.K2O < a.K2O-1e-9 {
			t.Errorf("%s: a higher yield takes %+v, %v, a lower %+v", g, b, err, a)
		}
	})
}

// A guide followed for years brings a poor soil to its critical test and keeps it there, and the ledger of
// what was given and taken says the same movement.
func TestAPlanBuildsUpAndTheLedgerAgrees(t *testing.T) {
	tables, x := soil.PublishedFertilityTables(), soil.PublishedExtraction()
	p, k := unit.PPMM3P(15), unit.PPMM3K(100)
	f := soil.Fertility{Crop: soil.Alfalfa, P: soil.Phosphorus{Mehlich3: &p}, K: soil.Potassium{Mehlich3: &k}, CEC: 10, Yield: 4}
	plan, err := tables.Plan(soil.TriState2020, f, x, 8)
	if err != nil {
		t.Fatal(err)
	}
	years := make([]soil.YearOf, len(plan))
	last := 15.0
	for i, y := range plan {
		if y.P < last-1e-9 {
			t.Errorf("year %d: phosphorus falls to %g", y.Year, y.P)
		}
		last = y.P
		years[i] = soil.YearOf{Year: y.Year, Tons: 4, Removed: soil.Removed{P2O5: 48, K2O: 196}, Given: soil.Removed{P2O5: float64(y.P2O5), K2O: float64(y.K2O)}}
	}
	if last < 25 || last > 31 {
		t.Errorf("after 8 years phosphorus stands at %g, want near 30", last)
	}
	l := soil.Reckon(years, soil.TriState2020, 10)
	if !near(l.MovedP, last-15, 1e-6) || !near(l.MovedK, plan[7].K-100, 1e-6) || l.MovementUnknown != "" {
		t.Errorf("the ledger says %+g P and %+g K, the plan %+g and %+g", l.MovedP, l.MovedK, last-15, plan[7].K-100)
	}
	if l := soil.Reckon(years, soil.Minnesota, 10); l.MovementUnknown == "" || l.MovedK != 0 {
		t.Error("Minnesota prints no pounds for a ppm, and a movement was said")
	}
	if _, err := tables.Plan(soil.Minnesota, f, x, 3); err == nil {
		t.Error("a plan without a buffering")
	}
	if dp, dk := years[0].Balance(); dp != years[0].Given.P2O5-48 || dk != years[0].Given.K2O-196 {
		t.Errorf("balance %g and %g", dp, dk)
	}
}

func TestRemovalGrowsWithTheYieldAndTestsGoBeforeTables(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		y := unit.TonAcre(rapid.Float64Range(0.1, 10).Draw(t, "yield"))
		b := rapid.SampledFrom(soil.PublishedBooks()).Draw(t, "book")
		one, _, err := soil.ByBook(b.Name, b.Crop, y)
		if err != nil {
			t.Fatal(err)
		}
		two, _, err := soil.ByBook(b.Name, b.Crop, 2*y)
		if err != nil || !near(two.K2O, 2*one.K2O, 1e-9) || !near(two.B, 2*one.B, 1e-9) || one.S <= 0 || one.Mg <= 0 || one.Ca <= 0 {
			t.Errorf("%s: %+v and %+v, %v", b.Name, one, two, err)
		}
	})
	r, err := soil.ByAnalysis(soil.Analysis{K: 2.5}, "iowa", soil.Alfalfa, 4)
	if err != nil || !near(r.K2O, 4*20*2.5*soil.K2OPerK, 1e-9) || r.P2O5 != 50 {
		t.Errorf("%+v, %v", r, err)
	}
	for _, bad := range []soil.Analysis{{K: 9}, {P: 2}, {B: 900}} {
		if _, err := soil.ByAnalysis(bad, "iowa", soil.Alfalfa, 4); err == nil {
			t.Errorf("%+v was taken", bad)
		}
	}
	if _, _, err := soil.ByBook("nobody", soil.Alfalfa, 4); err == nil || !strings.Contains(err.Error(), "accepted") {
		t.Errorf("nobody's table: %v", err)
	}
}

func TestTissueTablesAreToldApart(t *testing.T) {
	all, err := soil.Interpret(map[soil.Element]float64{"p": 0.22, "k": 1.6, "n": 3.3, "mo": 0.4, "s": 0.22, "cu": 40})
	if err != nil {
		t.Fatal(err)
	}
	got := map[soil.Element]soil.Judged{}
	for _, j := range all {
		got[j.Element] = j
	}
	if j := got["p"]; j.Low || j.Class != "low by georgia and tri-state, else enough" || j.Remedy != "none" || len(j.Tables) != 3 {
		t.Errorf("phosphorus %+v", j)
	}
	if j := got["k"]; !j.Low || !strings.Contains(j.Remedy, "100 to 200 lb") {
		t.Errorf("potassium %+v", j)
	}
	if j := got["mo"]; strings.Contains(j.Remedy, "spray") || !strings.Contains(j.Remedy, "never lime and molybdenum together") {
		t.Errorf("molybdenum %+v", j)
	}
	if got["cu"].Class != "high" || !strings.Contains(got["s"].Remedy, "25 lb") {
		t.Errorf("copper %+v, sulfur %+v", got["cu"], got["s"])
	}
	for _, bad := range []map[soil.Element]float64{{"x": 1}, {"k": 11}, {"b": -1}, {"n": math.NaN()}} {
		if _, err := soil.Interpret(bad); err == nil {
			t.Errorf("%v was taken", bad)
		}
	}
}

func TestManureBringsWhatItsBookSays(t *testing.T) {
	for _, m := range soil.PublishedManures() {
		p, k, err := m.Credited(2, 0.8, 0, 0)
		if err != nil || p <= 0 || k <= 0 {
			t.Errorf("%s: %g, %g, %v", m.Kind, p, k, err)
		}
		if _, _, err := m.Credited(-1, 0.8, 0, 0); err == nil {
			t.Errorf("%s: a negative rate was taken", m.Kind)
		}
		if _, _, err := m.Credited(1, 1.8, 0, 0); err == nil {
			t.Errorf("%s: more than all was available", m.Kind)
		}
	}
	if _, err := soil.ManureKind("guano"); err == nil {
		t.Error("guano has no book here")
	}
}

func TestGuidesAreSpokenOfByName(t *testing.T) {
	for guide, want := range map[string]string{"tri-state-2020": "Tri-State 2020", "penn-state": "Penn State", "ohio": "Ohio", "north-carolina": "North Carolina", "Wisconsin": "Wisconsin", "": ""} {
		if got := soil.Titled(guide); got != want {
			t.Errorf("%q is called %q, want %q", guide, got, want)
		}
	}
}
