package curing

import (
	"math"
	"strings"
	"testing"

	"haywarden/agronomy/unit"
)

// dryDays is fair weather, with rain on some days.
func dryDays(n int, rain map[int]float64) []Day {
	days := make([]Day, n)
	for i := range days {
		days[i] = fairDay()
		days[i].RainMM = rain[i]
	}
	return days
}

func TestYearsAreCountedByWhatBecameOfTheHay(t *testing.T) {
	ask := UsualHaymaking(SmallSquare, 4, Place{LatDeg: 43.07})
	slow := dryDays(8, nil)
	for i := range slow {
		slow[i].SolarMJ = 2
	}
	unknown := dryDays(8, nil)
	unknown[5].TMinC = math.NaN()
	members := []Member{
		{1, dryDays(8, nil)},
		{1, dryDays(8, map[int]float64{1: 20})},
		{1, dryDays(8, map[int]float64{1: 1})}, // a shower under harm, but no dry day
		{1, slow},
		{1, unknown}, // known for the first start only
		{1, dryDays(6, nil)},
	}
	got, err := ask.Chances(members, []int{0, 2})
	if err != nil {
		t.Fatal(err)
	}
	first, second := got[0], got[1]
	if first.Years != 6 || first.Made != 4 || first.Rained != 1 || first.Slow != 1 || math.Abs(float64(first.Dry)-4./6) > 1e-12 || first.DryDays != 4 {
		t.Errorf("from the first day: %+v", first)
	}
	if second.Years != 5 || second.Made != 4 || second.Rained != 0 || second.Slow != 1 || second.Start != 2 || second.Dry != 1 {
		t.Errorf("from the third day: %+v", second)
	}
	// 4 of 6 by R's prop.test without correction: 0.2999933, 0.9032286.
	if math.Abs(float64(first.Low)-0.2999933) > 1e-6 || math.Abs(float64(first.High)-0.9032286) > 1e-6 || first.Word != Caution {
		t.Errorf("interval %.4f to %.4f, %s", first.Low, first.High, first.Word)
	}
	if !(first.Hours > 24 && first.Hours < 80) {
		t.Errorf("%.1f hours to hay", first.Hours)
	}
}

func TestWeightsCountAndTheirEffectiveNumberWidensTheInterval(t *testing.T) {
	ask := UsualHaymaking(SmallSquare, 4, Place{LatDeg: 43.07})
	members := []Member{{0.7, dryDays(4, nil)}, {0.1, dryDays(4, map[int]float64{1: 20})}, {0.1, dryDays(4, nil)}, {0.1, dryDays(4, map[int]float64{1: 20})}}
	got, err := ask.Chances(members, []int{0})
	if err != nil {
		t.Fatal(err)
	}
	even := make([]Member, len(members))
	for i := range members {
		even[i] = Member{0.25, members[i].Days}
	}
	want, err := ask.Chances(even, []int{0})
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(float64(got[0].Share)-0.8) > 1e-12 || want[0].Share != 0.5 || got[0].Made != 2 {
		t.Errorf("%+v and %+v", got[0], want[0])
	}
	if w, e := got[0].High-got[0].Low, want[0].High-want[0].Low; !(w > 0.6 && e > 0.6) {
		t.Errorf("intervals of %g and %g for two and four members", w, e)
	}
	none, err := ask.Chances(nil, []int{0})
	if err != nil || none[0].Years != 0 || !math.IsNaN(float64(none[0].Share)) || none[0].Low != 0 || none[0].High != 1 || none[0].Word != "" {
		t.Errorf("no members: %+v, %v", none, err)
	}
}

func TestWordsFollowTheShownPercent(t *testing.T) {
	for chance, want := range map[unit.Share]Word{0.70: Go, 0.696: Go, 0.694: Caution, 0.45: Caution, 0.444: Wait, 0: Wait} {
		if got := WordOf(chance); got != want {
			t.Errorf("%g: %s, want %s", chance, got, want)
		}
	}
}

func TestRainOfADayFallsInOneSpellAndAllOfIt(t *testing.T) {
	for _, tc := range []struct {
		mm           float64
		first, hours int
	}{{0, 0, 0}, {0.3, 15, 1}, {2.5, 15, 1}, {5, 14, 2}, {20, 11, 8}, {50, 4, 20}, {100, 0, 24}} {
		if first, hours := AfternoonRain().spell(tc.mm); first != tc.first || hours != tc.hours {
			t.Errorf("%g mm: %d hours from %d, want %d from %d", tc.mm, hours, first, tc.hours, tc.first)
		}
		var sum float64
		for _, h := range hoursOf(t, dryDays(1, map[int]float64{0: tc.mm})...) {
			sum += h.RainMM
		}
		if math.Abs(sum-tc.mm) > 1e-9 {
			t.Errorf("%g mm: %g fell", tc.mm, sum)
		}
	}
}

func TestHoursCarryTheDay(t *testing.T) {
	hours := hoursOf(t, fairDay(), fairDay())
	// 43.07 N on day 172: the rows of the checks, [source.DayShape].
	for _, tc := range []struct {
		hour      int
		solar, at float64
	}{{6, 280.12, 19.09}, {9, 580.21, 23.99}, {12, 663.93, 26.69}, {15, 500.06, 26.56}, {18, 149.71, 23.61}, {22, 0, 18.37}} {
		h := hours[tc.hour]
		if math.Abs(h.SolarW-tc.solar) > 0.02 || math.Abs(h.TempC-tc.at) > 0.0051 {
			t.Errorf("hour %d: %.2f W/m2, %.2f C; want %g, %g", tc.hour, h.SolarW, h.TempC, tc.solar, tc.at)
		}
		if !(h.RH > 0.4 && h.RH <= 1) {
			t.Errorf("hour %d: relative humidity %g", tc.hour, h.RH)
		}
	}
}

func TestTopSoilStaysBetweenWiltingAndFieldCapacity(t *testing.T) {
	m, err := NewMaker(Place{LatDeg: 43.07})
	if err != nil {
		t.Fatal(err)
	}
	days := dryDays(60, map[int]float64{30: 80})
	SiltLoam().Along(m, days)
	low, high := 100*0.15/1.35, 100*0.29/1.35
	for i, d := range days {
		if d.SoilPct < low-1e-9 || d.SoilPct > high+1e-9 {
			t.Errorf("day %d: %g %%, want %.1f to %.1f", i, d.SoilPct, low, high)
		}
	}
	if !(days[30].SoilPct < 13 && days[31].SoilPct > 21) {
		t.Errorf("%.1f %% before 80 mm and %.1f after", days[30].SoilPct, days[31].SoilPct)
	}
}

func TestSwathDensityOfACover(t *testing.T) {
	for _, tc := range []struct{ cover, want float64 }{{0.7, 571.43}, {0.3, 1333.33}, {1, 400}, {1. / 6, 2400}} {
		got, err := SwathDensity(unit.TonAcre(4/2.2417023), unit.Share(tc.cover))
		if err != nil || math.Abs(float64(got)-tc.want) > 0.01 {
			t.Errorf("cover %g: %g, %v; want %g", tc.cover, got, err, tc.want)
		}
	}
}

func TestTeddingSpeedsAndAWindrowSlows(t *testing.T) {
	hours := hoursOf(t, dryDays(6, nil)...)
	ready := func(turnings ...Turning) float64 {
		s, out := UsualSwath(), make([]Harvest, 1)
		s.Turnings = turnings
		curingOf(t, s).Run(hours, []Target{SmallSquare.Target()}, nil, out)
		return out[0].Made
	}
	plain, tedded, raked := ready(), ready(Tedding(12, 400)), ready(Raking(34, 2400))
	if !(tedded < plain && plain < raked) {
		t.Errorf("made at %.1f tedded, %.1f left, %.1f raked at 10:00 of the second day", tedded, plain, raked)
	}
}

func TestRainOnTheSwathIsToldWithItsMoisture(t *testing.T) {
	hours := hoursOf(t, dryDays(6, map[int]float64{1: 2.5})...)
	out, moisture := make([]Harvest, 2), make([]float64, len(hours))
	curingOf(t, UsualSwath()).Run(hours, []Target{BunkerHaylage.Target(), SmallSquare.Target()}, moisture, out)
	if h := out[0]; h.RainMM != 0 || !math.IsNaN(h.RainDB) || !(h.Made < 24) {
		t.Errorf("haylage of the first day: %+v", h)
	}
	if h := out[1]; h.RainMM != 2.5 || math.Abs(h.RainDB-moisture[24+14]) > 1e-12 || !(h.Made > 48) {
		t.Errorf("hay: %+v, want 2.5 mm at %g", h, moisture[38])
	}
	if want := UsualWetting().DB(moisture[38], 2.5, 571); math.Abs(moisture[39]-want) > 1e-12 {
		t.Errorf("after the rain %g, want %g", moisture[39], want)
	}
}

func TestWhatIsNoSwathIsRefused(t *testing.T) {
	for want, change := range map[string]func(*Swath){
		"form": func(s *Swath) { s.Form = "wind" }, "damp": func(s *Swath) { s.Damp = "" }, "swath 0": func(s *Swath) { s.GM2 = 0 },
		"chemical": func(s *Swath) { s.Chemical = 2 }, "factor": func(s *Swath) { s.Factor = 0 }, "moisture": func(s *Swath) { s.FromDB = math.NaN() },
		"mown": func(s *Swath) { s.MowHour = 24 }, "wind -1": func(s *Swath) { s.WindMS = -1 },
		"turning 1 at": func(s *Swath) { s.Turnings = []Turning{Tedding(3, 400)} }, "turning 1 to": func(s *Swath) { s.Turnings = []Turning{Tedding(12, 0)} },
		"turning 1 dries": func(s *Swath) { s.Turnings = []Turning{{Hour: 12, SwathGM2: 400}} },
	} {
		s := UsualSwath()
		change(&s)
		if _, err := NewCuring(s); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", want, err)
		}
	}
	if _, err := Rate(Conditions{Form: ByTemperature, Solar: 800, Temp: 25, SoilMoisture: 15, Swath: 0}); err == nil {
		t.Error("a swath of nothing has a rate")
	}
	for _, h := range []Haymaking{UsualHaymaking("straw", 3, Place{}), UsualHaymaking(Baleage, 0, Place{}), {Product: Baleage, Days: 3}} {
		if _, err := h.Chances(nil, nil); err == nil {
			t.Errorf("%+v is asked without error", h)
		}
	}
}

// The public doors give what the loops do.
func TestDoorsAgreeWithTheEquation(t *testing.T) {
	c := Conditions{Form: ByVapour, Solar: 800, Deficit: 1.5, SoilMoisture: 15, Swath: 450, FirstDay: true}
	if r, err := Rate(c); err != nil || math.Abs(float64(r)-0.19513) > 5.1e-6 {
		t.Errorf("%g, %v", r, err)
	}
	c.Form, c.Temp, c.Swath, c.Scaled = ByTemperature, 25, 571, false
	plain, _ := Rate(c)
	c.Scaled = true
	if scaled, err := Rate(c); err != nil || math.Abs(float64(scaled-plain)) > 1e-12 {
		t.Errorf("at the density of the scale: %g and %g, %v", plain, scaled, err)
	}
	if m, err := Equilibrium(0.6); err != nil || math.Abs(float64(m.OfWet())-13) > 0.05 {
		t.Errorf("%g, %v", m, err)
	}
	if _, err := Equilibrium(60); err == nil {
		t.Error("a relative humidity of 60 is taken for a share")
	}
}
