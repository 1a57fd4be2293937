package weather

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"haywarden/agronomy/unit"
)

// madeSeries is a record of sine seasons with noise that hangs on to its past, and rain one day in
// three.
func madeSeries(seed uint64, first, last int, offset float64) *Series {
	r := rand.New(rand.NewPCG(seed, 7))
	common := rand.New(rand.NewPCG(99, 7)) // what neighbours share
	var blocks []*Block
	carry := 0.0
	for y := first; y <= last; y++ {
		b := NewBlock("TEST", y)
		for i := range b.Days {
			carry = 0.7*carry + 2.5*common.NormFloat64()
			mean := 8 + offset + 14*math.Sin(2*math.Pi*(float64(i)-110)/365.25) + carry + 0.4*r.NormFloat64()
			b.Days[i].Value[TMax], b.Days[i].Mark[TMax] = int16(math.Round((mean+6)*10)), Reported
			b.Days[i].Value[TMin], b.Days[i].Mark[TMin] = int16(math.Round((mean-5)*10)), Reported
			rain := int16(0)
			if common.Float64() < 0.33 {
				rain = int16(5 + 100*common.ExpFloat64())
			}
			b.Days[i].Value[Rain], b.Days[i].Mark[Rain] = rain, Reported
		}
		blocks = append(blocks, b)
	}
	return NewSeries(Station{ID: "TEST"}, blocks, unit.DateOf(last, 12, 31))
}

func TestEnsembleUsesNothingOnOrAfterItsDate(t *testing.T) {
	date := unit.DateOf(2020, time.May, 10)
	s := madeSeries(1, 1995, 2020, 0)
	want := NewEnsemble(s, date, EnsembleOptions{})
	poisoned := s.clone()
	for d := date; d <= poisoned.Last(); d++ {
		i, _ := poisoned.Index(d)
		poisoned.TMaxC[i], poisoned.TMinC[i], poisoned.RainMM[i] = 99, 98, 500
	}
	got := NewEnsemble(poisoned, date, EnsembleOptions{})
	if diff := cmp.Diff(want, got, cmpopts.EquateNaNs()); diff != "" {
		t.Errorf("the future changed the ensemble (-want +got):\n%s", diff)
	}
	if len(want.Members) != 25 {
		t.Errorf("%d members, want one for each of 25 past years", len(want.Members))
	}
}

func TestEnsembleWeightsAddUpAndFavourSeasonsAlike(t *testing.T) {
	date := unit.DateOf(2020, time.June, 20)
	s := madeSeries(2, 1995, 2020, 0)
	e := NewEnsemble(s, date, EnsembleOptions{})
	var sum, near, far float64
	now := featuresOf(s, usualOf(s), date)
	for _, m := range e.Members {
		sum += m.Weight
		gap := math.Abs(featuresOf(s, usualOf(s), date.InYear(m.Year))[0] - now[0])
		if gap < 60 {
			near = max(near, m.Weight)
		}
		if gap > 250 {
			far = max(far, m.Weight)
		}
	}
	if math.Abs(sum-1) > 1e-9 {
		t.Errorf("weights add up to %g", sum)
	}
	if near <= far {
		t.Errorf("a season alike weighs %g, one far off %g", near, far)
	}
	for _, m := range NewEnsemble(s, date, EnsembleOptions{Equal: true}).Members {
		if math.Abs(m.Weight-1.0/25) > 1e-12 {
			t.Errorf("equal weight %g", m.Weight)
		}
	}
}

func TestForecastDrawsMembersAndNarrowsThem(t *testing.T) {
	date := unit.DateOf(2020, time.May, 10)
	s := madeSeries(3, 1990, 2020, 0)
	f := &Forecast{Issued: (date - 1).Time().Add(20 * time.Hour)}
	for k := range 7 {
		f.Days = append(f.Days, ForecastDay{Day: date + unit.Day(k), TMaxC: new(30.0), TMinC: new(18.0), PoP: new(0.05), RainMM: new(0.0)})
	}
	plain, drawn := NewEnsemble(s, date, EnsembleOptions{Equal: true}), NewEnsemble(s, date, EnsembleOptions{Equal: true, Forecast: f})
	mean := func(e *Ensemble, i int) (m, sd, wet float64) {
		var sum, sq, n float64
		for _, mb := range e.Members {
			sum += mb.TMaxC[i]
			sq += mb.TMaxC[i] * mb.TMaxC[i]
			n++
			if mb.RainMM[i] >= DryBelowMM {
				wet += mb.Weight
			}
		}
		return sum / n, math.Sqrt(sq/n - sum/n*sum/n), wet
	}
	m0, sd0, wet0 := mean(plain, 0)
	m1, sd1, wet1 := mean(drawn, 0)
	if !(m1 > m0 && math.Abs(m1-30) < math.Abs(m0-30)) || sd1 >= sd0 {
		t.Errorf("day 1: plain %.1f ± %.1f, drawn to 30: %.1f ± %.1f", m0, sd0, m1, sd1)
	}
	if wet1 >= wet0 || math.Abs(wet1-0.05) > 0.05 {
		t.Errorf("chance of rain %.2f, drawn to 0.05: %.2f", wet0, wet1)
	}
	_, sd7, _ := mean(drawn, 6)
	if sd7 <= sd1 {
		t.Errorf("the seventh day is surer (± %.2f) than the first (± %.2f)", sd7, sd1)
	}
	m20, _, _ := mean(plain, 20)
	d20, _, _ := mean(drawn, 20)
	if math.Abs(m20-d20) > 1e-9 {
		t.Errorf("the forecast reaches day 21: %.3f and %.3f", m20, d20)
	}
	for _, m := range drawn.Members {
		for i := range m.TMaxC {
			if m.TMaxC[i] < m.TMinC[i] {
				t.Fatalf("member %d day %d: highest %.1f below lowest %.1f", m.Year, i, m.TMaxC[i], m.TMinC[i])
			}
		}
	}
}

func TestNoRainForecastIsNotADryDay(t *testing.T) {
	date := unit.DateOf(2020, time.May, 10)
	s := madeSeries(4, 1990, 2020, 0)
	f := &Forecast{Issued: date.Time(), Days: []ForecastDay{{Day: date, TMaxC: new(20.0), TMinC: new(10.0)}}}
	plain, drawn := NewEnsemble(s, date, EnsembleOptions{Equal: true}), NewEnsemble(s, date, EnsembleOptions{Equal: true, Forecast: f})
	for i := range plain.Members {
		if plain.Members[i].RainMM[0] != drawn.Members[i].RainMM[0] {
			t.Fatalf("member %d: rain changed without a rain forecast", i)
		}
	}
}

func TestFillMarksWhatItMakesAndComesNear(t *testing.T) {
	s, other := madeSeries(5, 2000, 2020, 0), madeSeries(6, 2000, 2020, 1.5)
	holes := s.clone()
	var days []int
	for d := unit.DateOf(2015, time.July, 1); d <= unit.DateOf(2015, time.July, 9); d++ {
		i, _ := holes.Index(d)
		holes.TMaxC[i], holes.TMinC[i], holes.TMaxF[i], holes.TMinF[i], holes.RainMM[i] = math.NaN(), math.NaN(), math.NaN(), math.NaN(), math.NaN()
		days = append(days, i)
	}
	near, notes := Fill(holes, []Neighbour{{other, 12}})
	alone, _ := Fill(holes, nil)
	var errNear, errAlone float64
	for _, i := range days {
		errNear += math.Abs(near.TMaxC[i] - s.TMaxC[i])
		errAlone += math.Abs(alone.TMaxC[i] - s.TMaxC[i])
		if near.Marks[i][TMax] != Filled || near.Marks[i][Rain] != Filled {
			t.Errorf("day %d: filled without a mark", i)
		}
		if !math.IsNaN(alone.RainMM[i]) {
			t.Errorf("rain was made from nothing: %g", alone.RainMM[i])
		}
	}
	if errNear/9 > 1.5 || errNear >= errAlone {
		t.Errorf("mean error %.2f C with a neighbour, %.2f without", errNear/9, errAlone/9)
	}
	if len(notes) == 0 || notes[0].Method != FillRegression || notes[0].Days != 9 {
		t.Errorf("notes %+v", notes)
	}
	if holes.HasTemperature(s.First + unit.Day(days[0])) {
		t.Error("the record given was changed")
	}
}

func TestGeneratorHoldsTheRecordsStatistics(t *testing.T) {
	s := madeSeries(8, 1980, 2020, 0)
	date := unit.DateOf(2021, time.January, 1)
	members := NewGenerator(s).Members(date, 60, 42)
	again := NewGenerator(s).Members(date, 60, 42)
	if diff := cmp.Diff(members, again); diff != "" {
		t.Fatal("the same seed gave other members")
	}
	mean := func(month time.Month) (made, record float64) {
		var n, m float64
		for _, mb := range members {
			for i := range mb.TMaxC {
				if (date + unit.Day(i)).Month() == month {
					made += mb.TMaxC[i]
					n++
				}
			}
		}
		for i := range s.Len() {
			if (s.First + unit.Day(i)).Month() == month {
				record += s.TMaxC[i]
				m++
			}
		}
		return made / n, record / m
	}
	for _, month := range []time.Month{time.January, time.April, time.July, time.October} {
		if made, record := mean(month); math.Abs(made-record) > 1.2 {
			t.Errorf("%s: mean highest made %.1f, in the record %.1f", month, made, record)
		}
	}
	var wet, days float64
	for _, mb := range members {
		for _, r := range mb.RainMM {
			days++
			if r >= DryBelowMM {
				wet++
			}
		}
	}
	if share := wet / days; math.Abs(share-0.33) > 0.03 {
		t.Errorf("wet days %.3f of all, in the record 0.33", share)
	}
}

func TestNormalsFollowTheYear(t *testing.T) {
	s := madeSeries(9, 1980, 2020, 0)
	n := NewNormals(s, 1991, 2020)
	july, january := n.High.At(float64(CalendarSlot(unit.DateOf(2020, 7, 20)))), n.High.At(float64(CalendarSlot(unit.DateOf(2020, 1, 20))))
	if math.Abs(july-28) > 1.5 || math.Abs(january) > 1.5 {
		t.Errorf("normal highest of 20 July %.1f (28 made), 20 January %.1f (0 made)", july, january)
	}
	if w := n.Wet.At(180); math.Abs(w-0.33) > 0.06 {
		t.Errorf("normal chance of a wet day %.2f, made 0.33", w)
	}
}

func BenchmarkEnsemble(b *testing.B) {
	s := madeSeries(1, 1985, 2020, 0)
	for b.Loop() {
		NewEnsemble(s, unit.DateOf(2020, time.May, 10), EnsembleOptions{})
	}
}
