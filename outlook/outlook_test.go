package outlook

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"pgregory.net/rapid"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/weather"
)

func record(seed uint64, warmer float64) *weather.Series {
	r := rand.New(rand.NewPCG(seed, 1))
	var blocks []*weather.Block
	carry := 0.0
	for y := 1995; y <= 2026; y++ {
		b := weather.NewBlock("ZZT00000001", y)
		for i := range b.Days {
			carry = 0.6*carry + 2.2*r.NormFloat64()
			mean := 7.5 + 14.5*math.Sin(2*math.Pi*(float64(i)-111)/365.25) + carry
			if y < 2026 {
				mean += warmer
			}
			o := &b.Days[i]
			o.Value[weather.TMax], o.Mark[weather.TMax] = int16(math.Round((mean+6)*10)), weather.Reported
			o.Value[weather.TMin], o.Mark[weather.TMin] = int16(math.Round((mean-5)*10)), weather.Reported
			o.Value[weather.Rain], o.Mark[weather.Rain] = int16(max(0, 60*r.NormFloat64())), weather.Reported
		}
		blocks = append(blocks, b)
	}
	return weather.NewSeries(weather.Station{ID: "ZZT00000001", Name: "Ridge"}, blocks, unit.DateOf(2026, 12, 31))
}

// poisoned is the record with everything on and after a day made absurd.
func poisoned(s *weather.Series, from unit.Day) *weather.Series {
	p := *s
	p.TMaxC, p.TMinC = append([]float64(nil), s.TMaxC...), append([]float64(nil), s.TMinC...)
	p.TMaxF, p.TMinF = append([]float64(nil), s.TMaxF...), append([]float64(nil), s.TMinF...)
	p.RainMM = append([]float64(nil), s.RainMM...)
	for d := from; d <= s.Last(); d++ {
		i, _ := s.Index(d)
		p.TMaxC[i], p.TMinC[i], p.TMaxF[i], p.TMinF[i], p.RainMM[i] = 60, 59, 140, 138, 999
	}
	return &p
}

func oneStand(date unit.Day, height float64) *book.View {
	farm := &book.FarmView{ID: "f", Farm: book.Farm{Name: "Alder"}}
	field := &book.FieldView{ID: "d", Field: book.Field{Name: "Forty", Acres: 40, Station: "ZZT00000001"}, Farm: farm}
	s := &book.StandView{ID: "s", Stand: book.Stand{Field: "d", Crop: book.Alfalfa, Seeded: unit.DateOf(2023, 4, 20), Product: book.Haylage, FeedRFV: 150}, Farm: farm, InField: field}
	if height > 0 {
		v := book.Visit{}
		for i := range 5 {
			v.Spots = append(v.Spots, book.Spot{HeightIn: height + float64(i-2)*0.5, Stage: book.Bud})
		}
		s.Visits = []book.Dated[book.Visit]{{Day: date - 1, Author: "jo", Body: v}}
	}
	field.Stands, farm.Fields = []*book.StandView{s}, []*book.FieldView{field}
	return &book.View{Date: date, Farms: []*book.FarmView{farm}}
}

func built(t *testing.T, series *weather.Series, date unit.Day, height float64) *Stand {
	t.Helper()
	o, err := Build(oneStand(date, height), map[string]*Sky{"ZZT00000001": NewSky(series, date, SkyOptions{})})
	if err != nil {
		t.Fatal(err)
	}
	return o.Stands[0]
}

func TestNothingObservedOnOrAfterTheDateIsUsed(t *testing.T) {
	series := record(1, 0)
	for _, date := range []unit.Day{unit.DateOf(2026, 3, 3), unit.DateOf(2026, 5, 24), unit.DateOf(2026, 9, 5)} {
		a, b := NewSky(series, date, SkyOptions{}), NewSky(poisoned(series, date), date, SkyOptions{})
		if a.Heat41.Now() != b.Heat41.Now() || a.Heat48.Now() != b.Heat48.Now() || a.Through != b.Through || a.Through != date-1 {
			t.Errorf("%s: heat %.1f and %.1f, through %s and %s", date, a.Heat41.Now(), b.Heat41.Now(), a.Through, b.Through)
		}
		if len(a.Members) != 31 || len(b.Members) != 31 {
			t.Fatalf("%s: %d and %d members, want 31 past years", date, len(a.Members), len(b.Members))
		}
		for i := range a.Members {
			if a.Members[i].Year == 2026 || a.Members[i].TMean[0] != b.Members[i].TMean[0] {
				t.Errorf("%s: member %d differs or is the year itself", date, a.Members[i].Year)
			}
		}
		m, _ := a.Fall24.On(0.5, 2026)
		n, _ := b.Fall24.On(0.5, 2026)
		if m != n {
			t.Errorf("%s: median freeze %s and %s", date, m, n)
		}
	}
}

func TestWindowsAreOrderedAndWidenWithDoubt(t *testing.T) {
	series := record(2, 0)
	date := unit.DateOf(2026, 5, 24)
	rapid.Check(t, func(rt *rapid.T) {
		s := built(t, series, date, rapid.Float64Range(18, 36).Draw(rt, "height"))
		w, ok := s.Ahead().Reaches(s.Target.CutRFV).Window()
		if !ok {
			return
		}
		if w.Early > w.Middle || w.Middle > w.Late {
			rt.Fatalf("window %s, %s, %s", w.Early, w.Middle, w.Late)
		}
		unsure := *s
		st := *s.Standing
		st.SD, st.SDNDF, st.SDADF = st.SD*1.6, st.SDNDF*1.6, st.SDADF*1.6
		unsure.Standing = &st
		v, ok := unsure.Ahead().Reaches(s.Target.CutRFV).Window()
		if ok && v.Late-v.Early < w.Late-w.Early {
			rt.Fatalf("more doubt narrowed the window from %d to %d days", w.Late-w.Early, v.Late-v.Early)
		}
		best, share := s.Ahead().BestDay(date, w.Late, s.Target.DryDays, s.Target.CutRFV)
		if share < 0 || share > 1 || best < date {
			rt.Fatalf("best day %s with a share of %g", best, share)
		}
	})
}

func TestWarmerPastYearsNeverBringALaterCut(t *testing.T) {
	date := unit.DateOf(2026, 5, 24)
	last := unit.Day(1 << 30)
	for _, warmer := range []float64{-2, 0, 2, 4} {
		s := built(t, record(3, warmer), date, 22)
		w, ok := s.Ahead().Reaches(s.Target.CutRFV).Window()
		if !ok {
			t.Fatalf("%+.0f C: no window", warmer)
		}
		if w.Middle > last {
			t.Errorf("%+.0f C: %s, later than in colder years' %s", warmer, w.Middle, last)
		}
		last = w.Middle
	}
}

func TestClockIsTheRecordsHeatSum(t *testing.T) {
	series := record(4, 0)
	date := unit.DateOf(2026, 6, 10)
	sky := NewSky(series, date, SkyOptions{})
	for _, c := range []Clock{sky.Heat41, sky.Heat48} {
		sums := series.Until(date-1).HeatF(c.Spec, c.From)
		if got, want := c.Now(), sums[len(sums)-1]; math.Abs(got-want) > 1e-9 {
			t.Errorf("clock %.6f, record %.6f", got, want)
		}
	}
}

func TestFreezesAreTheRecordsOwn(t *testing.T) {
	series := record(5, 0)
	sky := NewSky(series, unit.DateOf(2026, 6, 10), SkyOptions{})
	found := map[float64]int{}
	for _, e := range series.Until(unit.DateOf(2025, 12, 31)).FirstFall(24) {
		if e.Valid {
			found[float64(e.DOY)]++
		}
	}
	for _, d := range sky.Fall24.DOY {
		found[d]--
	}
	for d, n := range found {
		if n != 0 {
			t.Errorf("day %g: %+d between the record and the outlook", d, n)
		}
	}
}

func TestAMissingDayIsFilledCountedAndBelievedOnlyWhereThereAreFew(t *testing.T) {
	series := record(6, 0)
	date := unit.DateOf(2026, 5, 1)
	lose := func(from, to unit.Day) {
		for d := from; d < to; d++ {
			i, _ := series.Index(d)
			series.TMaxF[i], series.TMaxC[i] = math.NaN(), math.NaN()
		}
	}
	whole := NewSky(series, date, SkyOptions{}).Heat41.Now()
	lose(date-10, date-9)
	if c := NewSky(series, date, SkyOptions{}).Heat41; c.Lent != 1 || c.Filled != 0 || !c.Trusted() || math.Abs(c.Now()-whole) > 15 {
		t.Errorf("a day between two others: lent %d, filled %d, trusted %v, %g F-days where %g had been", c.Lent, c.Filled, c.Trusted(), c.Now(), whole)
	}
	lose(date-30, date-12)
	if c := NewSky(series, date, SkyOptions{}).Heat41; c.Filled != 18 || c.Trusted() {
		t.Errorf("filled %d, trusted %v: a heat sum of which a third was never seen", c.Filled, c.Trusted())
	}
}

func TestANeighbourSpeaksForAStationThatFellSilent(t *testing.T) {
	series, other := record(6, 0), record(6, 0)
	for i := range other.TMaxC { // two degrees C warmer, day by day
		other.TMaxC[i] += 2
		other.TMinC[i] += 2
	}
	date := unit.DateOf(2026, 5, 1)
	want := NewSky(series, date, SkyOptions{})
	for d := date - 20; d <= series.Last(); d++ {
		i, _ := series.Index(d)
		for _, v := range [][]float64{series.TMaxF, series.TMinF, series.TMaxC, series.TMinC, series.RainMM} {
			v[i] = math.NaN()
		}
	}
	alone := NewSky(series, date, SkyOptions{})
	helped := NewSky(series, date, SkyOptions{Neighbours: []weather.Neighbour{{Series: other, Miles: 12}}})
	if alone.Through != date-21 || alone.Heat41.Trusted() {
		t.Errorf("alone: through %s, trusted %v", alone.Through, alone.Heat41.Trusted())
	}
	c := helped.Heat41
	if helped.Through != date-1 || !c.Trusted() || c.Lent != 20 || c.Filled != 0 {
		t.Errorf("with a neighbour: through %s, trusted %v, lent %d, filled %d", helped.Through, c.Trusted(), c.Lent, c.Filled)
	}
	if math.Abs(c.Now()-want.Heat41.Now()) > 0.03*want.Heat41.Now() {
		t.Errorf("%g F-days, and %g where the station had gone on", c.Now(), want.Heat41.Now())
	}
	far := NewSky(series, date, SkyOptions{Neighbours: []weather.Neighbour{{Series: other, Miles: 90}}})
	if far.Heat41.Lent != 0 {
		t.Error("a station 90 miles off was asked")
	}
}

func TestAForecastDrawsTheDaysItSpeaksOfAndNoOthers(t *testing.T) {
	series := record(7, 0)
	date := unit.DateOf(2026, 5, 20)
	f := &weather.Forecast{Place: "43.00,-89.00", Issued: date.Time().Add(-6 * time.Hour)}
	hot, cool, sure := 34.0, 20.0, 0.0
	for d := date; d < date+7; d++ {
		f.Days = append(f.Days, weather.ForecastDay{Day: d, TMaxC: &hot, TMinC: &cool, PoP: &sure})
	}
	plain, drawn := NewSky(series, date, SkyOptions{}), NewSky(series, date, SkyOptions{Forecast: f})
	mean := func(s *Sky, i int) (v float64) {
		for _, m := range s.Members {
			v += m.Weight * m.TMean[i]
		}
		return v
	}
	if a, b := mean(plain, 0), mean(drawn, 0); b < a+5 || 27-b > b-a || b > 27 {
		t.Errorf("tomorrow's mean %g C, with a forecast of 27 C %g", a, b)
	}
	if a, b := mean(plain, 30), mean(drawn, 30); a != b {
		t.Errorf("a month ahead: %g without and %g with a forecast of seven days", a, b)
	}
	if c := drawn.DryChance(0, 2); c < 0.9 {
		t.Errorf("two dry days in %g, where the forecast gives rain no chance", c)
	}
	w, _ := plain.Reaches(plain.Heat41, plain.Heat41.Now()+150).Window()
	x, _ := drawn.Reaches(drawn.Heat41, drawn.Heat41.Now()+150).Window()
	if x.Middle >= w.Middle || x.Late-x.Early >= w.Late-w.Early {
		t.Errorf("150 F-days on: %v without a forecast, %v with a hot one: want earlier and narrower", w, x)
	}
}

func TestAShortRecordIsGoneOnWithByAGenerator(t *testing.T) {
	long := record(8, 0)
	from := unit.DateOf(2020, 1, 1)
	date := unit.DateOf(2026, 5, 20)
	short := NewSky(long.Between(from, long.Last()), date, SkyOptions{})
	if !short.Made || len(short.Members) != 50 {
		t.Fatalf("made %v, %d members of six past years", short.Made, len(short.Members))
	}
	again := NewSky(long.Between(from, long.Last()), date, SkyOptions{})
	if short.Members[7].TMean[40] != again.Members[7].TMean[40] {
		t.Error("the same record and day made other members")
	}
	a, _ := short.Reaches(short.Heat41, 700).Window()
	b, _ := NewSky(long, date, SkyOptions{}).Reaches(short.Heat41, 700).Window()
	if d := a.Middle - b.Middle; d < -4 || d > 4 {
		t.Errorf("700 F-days about %s by the generator, %s by the long record", a.Middle, b.Middle)
	}
}

func BenchmarkNewSky(b *testing.B) {
	series := record(7, 0)
	for b.Loop() {
		NewSky(series, unit.DateOf(2026, 5, 24), SkyOptions{})
	}
}
