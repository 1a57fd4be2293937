package herd_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"haywarden/agronomy/forage"
	"haywarden/agronomy/herd"
)

// milkOf is the milk of a forage at three times maintenance.
func milkOf(s forage.Sample, form forage.FibreForm) herd.MilkOf {
	nel := forage.PublishedSummative().Of(s, form, 3).NEL
	return herd.PublishedForageMilk().Of(s.NDF, s.NDFD48, nel, herd.StandardCow())
}

// TestMilkOfFourForagesIsThatWorkedByHand also holds what the reckoning does not show: fibre by lignin
// beside a known digestibility, maintenance shared over a mixed diet, and none of it.
func TestMilkOfFourForagesIsThatWorkedByHand(t *testing.T) {
	bud := forage.Sample{CP: 22, NDF: 36, NDICP: 2.5, ADICP: 1.2, EE: 2.5, Ash: 9.5, Lignin: 5.8, NDFD48: 50}
	bloom := forage.Sample{CP: 18, NDF: 45, NDICP: 2.7, ADICP: 1.5, EE: 2.2, Ash: 9, Lignin: 8, NDFD48: 43}
	mixed := forage.Sample{CP: 16, NDF: 50, NDICP: 3.2, ADICP: 1.1, EE: 2.8, Ash: 9, Lignin: 5, NDFD48: 58}
	clover := forage.Sample{CP: 19, NDF: 38, NDICP: 3, ADICP: 1.4, EE: 3, Ash: 9.5, Lignin: 4.5, NDFD48: 56}
	for _, tt := range []struct {
		name                                      string
		s                                         forage.Sample
		form                                      forage.FibreForm
		eats, milk, alone, shared, gross, lbATons float64
	}{
		{"bud alfalfa", bud, forage.ByNDFD, 21.260, 31.082, 1462.0, 1483.0, 2084.9, 2924},
		{"bud alfalfa by lignin", bud, forage.ByLignin, 21.260, 29.828, 1403.0, 1424.0, 2025.9, 2806},
		{"mid-bloom alfalfa", bloom, forage.ByNDFD, 15.990, 16.508, 1032.4, 1258.6, 1860.5, 2065},
		{"mid-bloom alfalfa by lignin", bloom, forage.ByLignin, 15.990, 15.909, 994.9, 1221.1, 1823.0, 1990},
		{"legume with grass", mixed, forage.ByNDFD, 16.902, 19.991, 1182.8, 1364.4, 1966.3, 2366},
		{"red clover", clover, forage.ByNDFD, 21.203, 30.999, 1462.0, 1484.6, 2086.5, 2924},
	} {
		got := milkOf(tt.s, tt.form)
		for what, v := range map[string][3]float64{
			"eaten, kg a day": {got.IntakeKg, tt.eats, 0.0006}, "milk, kg a day": {got.MilkKg, tt.milk, 0.0006},
			"kg a tonne": {got.PerTonne, tt.alone, 0.06}, "kg a tonne, shared": {got.Shared, tt.shared, 0.06}, "kg a tonne, gross": {got.Gross, tt.gross, 0.06},
			"lb a ton": {got.LbPerTon(), tt.lbATons, 0.6},
		} {
			if math.Abs(v[0]-v[1]) > v[2] {
				t.Errorf("%s: %s %.4f, want %g", tt.name, what, v[0], v[1])
			}
		}
	}
	// 4.5 Mg/ha of the first make 6579 kg/ha: the same by the acre in pounds and short tons.
	const lbAcKgHa, tonsAcMgHa = 1.12085, 2.24170
	if got := milkOf(bud, forage.ByNDFD).LbPerAcre(4.5/tonsAcMgHa) * lbAcKgHa; math.Abs(got-6579) > 0.6 {
		t.Errorf("%.1f kg/ha, want 6579", got)
	}
}

// TestOnePointMovesMilkByWhatWasWorked holds the sensitivities around an early-bloom hay.
func TestOnePointMovesMilkByWhatWasWorked(t *testing.T) {
	at := func(change func(*forage.Sample)) float64 {
		s := forage.Sample{CP: 20, NDF: 40, NDICP: 2.8, ADICP: 1.3, EE: 2.5, Ash: 9, NDFD48: 45}
		change(&s)
		return milkOf(s, forage.ByNDFD).PerTonne
	}
	for name, tt := range map[string]struct{ got, want float64 }{
		"as it is": {at(func(*forage.Sample) {}), 1256.67},
		"NDFD + 1": {at(func(s *forage.Sample) { s.NDFD48++ }), 1272.34},
		"NDF + 1":  {at(func(s *forage.Sample) { s.NDF++ }), 1225.73},
		"CP + 1":   {at(func(s *forage.Sample) { s.CP++ }), 1270.03},
		"ash + 1":  {at(func(s *forage.Sample) { s.Ash++ }), 1232.79},
	} {
		if math.Abs(tt.got-tt.want) > 0.006 {
			t.Errorf("%s: %.3f kg a tonne, want %g", name, tt.got, tt.want)
		}
	}
}

func TestGrossMilkIsTheMost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ndf, ndfd := rapid.Float64Range(30, 60).Draw(t, "ndf"), rapid.Float64Range(30, 70).Draw(t, "ndfd")
		nel := rapid.Float64Range(1, 1.8).Draw(t, "nel")
		m := herd.PublishedForageMilk().Of(ndf, ndfd, nel, herd.StandardCow())
		if m.PerTonne >= m.Gross || m.Shared >= m.Gross {
			t.Fatalf("%+v: keeping the cow costs nothing", m)
		}
		if math.Abs(m.PerTonne*m.IntakeKg/1000-m.MilkKg) > 1e-9 {
			t.Fatalf("%+v: milk a day is not milk a tonne times what is eaten", m)
		}
	})
}
