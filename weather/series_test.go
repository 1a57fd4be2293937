package weather

import (
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"haywarden/agronomy/heat"
	"haywarden/agronomy/unit"
)

// Whole degrees F as the archive keeps them, [source.WholeF]: at 24 F, -4.44 C, a comparison in the
// tenths C that are kept would miss the freeze.
func TestWholeDegreesComeBackFromTenths(t *testing.T) {
	for tenths, want := range map[int16]int{
		-22: 28, -44: 24, -39: 25, -28: 27, 0: 32, -6: 31, -178: 0, 378: 100, -400: -40,
		25: 37, 75: 46, -25: 28, -225: -9, -275: -18, // half degrees go away from zero
	} {
		if got := WholeFahrenheit(tenths); got != want {
			t.Errorf("%d tenths C: %d F, want %d", tenths, got, want)
		}
	}
	for f := -90; f <= 140; f++ {
		tenths := int16(math.Round(float64(f-32) / 0.18))
		if got := WholeFahrenheit(tenths); got != f || !isWholeF(tenths) {
			t.Errorf("%d F is kept as %d tenths and comes back as %d, whole %v", f, tenths, got, isWholeF(tenths))
		}
	}
	for tenths := -600; tenths <= 600; tenths++ {
		f := WholeFahrenheit(int16(tenths))
		if off := tenths*18 + 3200 - 100*f; off > 50 || off < -50 {
			t.Errorf("%d tenths: %d F is %d hundredths off", tenths, f, off)
		}
		back := math.Round(float64(f-32) / 0.18)
		if whole := back == float64(tenths); whole != isWholeF(int16(tenths)) {
			t.Errorf("%d tenths: whole %v, want %v", tenths, isWholeF(int16(tenths)), whole)
		}
	}
}

func TestFahrenheitOfAStationInCelsiusIsNotRounded(t *testing.T) {
	b := NewBlock("CA000000001", 2023)
	b.Days[0].Value[TMin], b.Days[0].Mark[TMin] = -44, Reported
	last := unit.DateOf(2023, 12, 31)
	if got := NewSeries(Station{ID: b.Station}, []*Block{b}, last).TMinF[0]; math.Abs(got-24.08) > 1e-12 {
		t.Errorf("-4.4 C is %g F, want 24.08", got)
	}
	if got := NewSeries(Station{ID: b.Station, WholeF: true}, []*Block{b}, last).TMinF[0]; got != 24 {
		t.Errorf("-4.4 C is %g F, want 24", got)
	}
}

// falls makes a series of years in which TMin is warm but on the days given.
func falls(warm int16, cold map[string]int16, first, last int) *Series {
	var blocks []*Block
	for y := first; y <= last; y++ {
		b := NewBlock("USC00999999", y)
		for i := range b.Days {
			o := &b.Days[i]
			o.Value[TMin], o.Value[TMax], o.Mark[TMin], o.Mark[TMax] = warm, warm+100, Reported, Reported
			o.Value[Rain], o.Mark[Rain] = int16(i%3), Reported
			if v, ok := cold[(unit.DateOf(y, 1, 1) + unit.Day(i)).String()]; ok {
				o.Value[TMin] = v
				if v == Missing {
					o.Mark[TMin] = Absent
				}
			}
		}
		blocks = append(blocks, b)
	}
	return NewSeries(Station{ID: "USC00999999", WholeF: true}, blocks, unit.DateOf(last, 12, 31))
}

func TestFreezeDatesOfEachYear(t *testing.T) {
	s := falls(80, map[string]int16{
		"2019-05-02": -22, "2019-10-05": -22, "2019-10-20": -44,
		"2020-05-02": -22, "2020-10-05": -22, // a leap year: the day number is one more
		"2021-07-31": 0, "2021-08-01": 0,
	}, 2019, 2021)
	for _, c := range []struct {
		name string
		got  []YearEvent
		want []YearEvent
	}{
		{"first fall 28 F", s.FirstFall(28), []YearEvent{{2019, 278, true, true}, {2020, 279, true, true}, {2021, 0, false, true}}},
		{"first fall 24 F", s.FirstFall(24), []YearEvent{{2019, 293, true, true}, {2020, 0, false, true}, {2021, 0, false, true}}},
		{"first fall 32 F begins on 1 August", s.FirstFall(32, 2021), []YearEvent{{2021, 213, true, true}}},
		{"last spring 28 F", s.LastSpring(28), []YearEvent{{2019, 122, true, true}, {2020, 123, true, true}, {2021, 0, false, true}}},
		{"last spring 32 F ends on 31 July", s.LastSpring(32, 2021), []YearEvent{{2021, 212, true, true}}},
		{"a year the series does not hold", s.FirstFall(28, 2030), []YearEvent{{2030, 0, false, false}}},
		{"a fall that is not over", s.Until(unit.DateOf(2019, 10, 10)).FirstFall(28), []YearEvent{{2019, 278, true, false}}},
		{"no series", (&Series{}).FirstFall(28), []YearEvent{}},
	} {
		if d := cmp.Diff(c.want, c.got); d != "" {
			t.Errorf("%s: %s", c.name, d)
		}
	}
}

// A missing day counts against a year only where it could have been the freeze. [source.FreezeGap]
func TestAMissingNightMakesAYearUncertainOnlyWhereItWasCold(t *testing.T) {
	for _, c := range []struct {
		name  string
		cold  map[string]int16
		valid bool
	}{
		{"between warm nights", map[string]int16{"2019-09-20": Missing, "2019-10-05": -22}, true},
		{"between nights near freezing", map[string]int16{"2019-09-19": 0, "2019-09-20": Missing, "2019-09-21": 0, "2019-10-05": -22}, false},
		{"after the freeze", map[string]int16{"2019-10-05": -22, "2019-10-06": Missing, "2019-10-07": -22}, true},
	} {
		if e := falls(80, c.cold, 2019, 2019).FirstFall(28)[0]; !e.Found || e.DOY != 278 || e.Valid != c.valid {
			t.Errorf("%s: %+v, want valid %v", c.name, e, c.valid)
		}
	}
}

func TestRunningHeat(t *testing.T) {
	s := falls(80, map[string]int16{"2019-01-05": Missing}, 2019, 2019)
	from := unit.DateOf(2019, 1, 3)
	spec := heat.Spec{Method: heat.Average, Base: 41, Upper: heat.NoUpper()}
	got := s.HeatF(spec, from)
	// 46 and 64 F: 14 F-days a day; in C, 8 and 18 above 5: 8 C-days.
	if len(got) != 363 || got[0] != 14 || got[1] != 28 || !math.IsNaN(got[2]) || !math.IsNaN(got[362]) {
		t.Errorf("%d totals, first %v", len(got), got[:3])
	}
	spec.Base = 5
	if c := s.HeatC(spec, unit.DateOf(2019, 6, 1)); c[0] != 8 || math.Abs(c[29]-240) > 1e-9 {
		t.Errorf("C-days %v, %v; want 8 and 240", c[0], c[29])
	}
	if got := s.HeatF(spec, unit.DateOf(2018, 12, 31)); len(got) != 366 || !math.IsNaN(got[1]) {
		t.Error("heat from before the record is not missing")
	}
	if got := s.HeatF(spec, unit.DateOf(2020, 1, 1)); got != nil {
		t.Errorf("heat from after the record: %v", got)
	}
}

func TestRunningHeatIsTheSumOfItsDays(t *testing.T) {
	s := NewSeries(Station{ID: "USC00999999", WholeF: true}, calm("USC00999999", 2019, 2020), unit.DateOf(2020, 12, 31))
	rapid.Check(t, func(t *rapid.T) {
		spec := heat.Spec{Method: heat.Method(rapid.IntRange(0, 5).Draw(t, "method")), Base: rapid.Float64Range(30, 60).Draw(t, "base"), Upper: heat.NoUpper()}
		from := s.First + unit.Day(rapid.IntRange(0, s.Len()-1).Draw(t, "from"))
		i := int(from - s.First)
		daily, err := spec.Days(s.TMinF[i:], s.TMaxF[i:])
		if err != nil {
			t.Fatal(err)
		}
		total := 0.
		for k, got := range s.HeatF(spec, from) {
			if total += daily[k]; math.Abs(got-total) > 1e-9*max(1, total) {
				t.Fatalf("day %d: %g, want %g", k, got, total)
			}
		}
	})
}

func TestPartsOfASeries(t *testing.T) {
	s := falls(80, map[string]int16{"2020-03-15": Missing}, 2019, 2021)
	nov, mar := unit.DateOf(2000, 11, 1), unit.DateOf(2000, 3, 31)
	winter := s.Season(2019, nov, mar)
	if winter.First != unit.DateOf(2019, 11, 1) || winter.Last() != unit.DateOf(2020, 3, 31) {
		t.Errorf("winter of 2019: %s to %s", winter.First, winter.Last())
	}
	if last := s.Season(2021, nov, mar); last.First != unit.DateOf(2021, 11, 1) || last.Last() != unit.DateOf(2021, 12, 31) {
		t.Errorf("a winter that has not ended: %s to %s", last.First, last.Last())
	}
	if feb := s.Season(2019, unit.DateOf(2000, 2, 1), unit.DateOf(2000, 2, 29)); feb.Len() != 28 {
		t.Errorf("February 2019 has %d days", feb.Len())
	}
	if d := cmp.Diff([]int{2019, 2021}, s.YearsWith(unit.DateOf(2000, 3, 1), unit.DateOf(2000, 8, 1))); d != "" {
		t.Errorf("whole springs: %s", d)
	}
	if got := s.YearsWith(nov, mar); !slices.Equal(got, []int{2020}) {
		t.Errorf("whole winters: %v, want 2020 alone", got)
	}
	if got := s.Between(unit.DateOf(1990, 1, 1), unit.DateOf(1990, 12, 31)); got.Len() != 0 {
		t.Errorf("days of before the record: %d", got.Len())
	}
	if got := s.Between(unit.DateOf(2030, 1, 1), unit.DateOf(2030, 12, 31)); got.Len() != 0 {
		t.Errorf("days of after the record: %d", got.Len())
	}
	if got := (&Series{}).YearsWith(nov, mar); got != nil {
		t.Errorf("years of nothing: %v", got)
	}
}

func TestDryDays(t *testing.T) {
	b := NewBlock("USC00999999", 2023)
	for i, v := range []int16{0, 2, 3} {
		b.Days[i].Value[Rain], b.Days[i].Mark[Rain] = v, Reported
	}
	s := NewSeries(Station{}, []*Block{b}, unit.DateOf(2023, 12, 31))
	for i, want := range [][2]bool{{true, true}, {true, true}, {false, true}, {false, false}} {
		if dry, known := s.Dry(s.First + unit.Day(i)); dry != want[0] || known != want[1] {
			t.Errorf("day %d: dry %v, known %v", i+1, dry, known)
		}
	}
	if _, known := s.Dry(s.First - 1); known {
		t.Error("the day before the record is known")
	}
}
