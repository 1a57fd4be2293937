package outlook

import (
	"math"
	"testing"
	"time"

	"haywarden/agronomy/forage"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/weather"
)

// builtWith is the one stand of a view after a change to it.
func builtWith(t *testing.T, series *weather.Series, date unit.Day, change func(*book.StandView)) *Stand {
	t.Helper()
	v := oneStand(date, 0)
	change(v.Farms[0].Fields[0].Stands[0])
	o, err := Build(v, map[string]*Sky{"ZZT00000001": NewSky(series, date, SkyOptions{})})
	if err != nil {
		t.Fatal(err)
	}
	return o.Stands[0]
}

func cut(d unit.Day, n int) book.Dated[book.Cut] {
	return book.Dated[book.Cut]{Day: d, Body: book.Cut{Number: n}}
}

func TestGrowthsAreCountedFromTheYearsCuts(t *testing.T) {
	date := unit.DateOf(2026, 8, 1)
	on := func(m time.Month, d int) unit.Day { return unit.DateOf(2026, m, d) }
	for name, c := range map[string]struct {
		cuts   []book.Dated[book.Cut]
		seeded unit.Day
		want   Growth
	}{
		"uncut":                     {nil, 0, Growth{1, on(3, 1), false}},
		"seeded this spring":        {nil, on(4, 20), Growth{1, on(4, 20), false}},
		"cut twice":                 {[]book.Dated[book.Cut]{cut(on(5, 28), 1), cut(on(6, 28), 2)}, 0, Growth{3, on(6, 28), true}},
		"last year's cuts":          {[]book.Dated[book.Cut]{cut(unit.DateOf(2025, 9, 1), 4)}, 0, Growth{1, on(3, 1), false}},
		"the first was not told":    {[]book.Dated[book.Cut]{cut(on(6, 28), 2)}, 0, Growth{3, on(6, 28), true}},
		"both entered as the first": {[]book.Dated[book.Cut]{cut(on(5, 28), 1), cut(on(6, 28), 1)}, 0, Growth{3, on(6, 28), true}},
	} {
		s := builtWith(t, record(1, 0), date, func(s *book.StandView) {
			s.Cuts = c.cuts
			if c.seeded != 0 {
				s.Seeded = c.seeded
			}
		})
		if s.Growth != c.want {
			t.Errorf("%s: %+v, want %+v", name, s.Growth, c.want)
		}
	}
}

func TestOnTheDayOfACutTheOldGrowthWasSeen(t *testing.T) {
	d := unit.DateOf(2026, 5, 28)
	after, first := Growth{Number: 2, Since: d, After: true}, Growth{Number: 1, Since: d}
	for i, want := range map[unit.Day][2]bool{-1: {false, false}, 0: {false, true}, 1: {true, true}} {
		if after.Holds(d+i) != want[0] || first.Holds(d+i) != want[1] {
			t.Errorf("day %+d: after a cut %v, from its beginning %v", i, after.Holds(d+i), first.Holds(d+i))
		}
	}
}

func TestWhatTheHarvestLosesIsAddedToTheTarget(t *testing.T) {
	for product, c := range map[book.Product]struct {
		cut float64
		dry int
	}{book.Haylage: {165, 1}, book.Baleage: {170, 2}, book.Hay: {175, 3}, "": {165, 1}} {
		s := builtWith(t, record(1, 0), unit.DateOf(2026, 5, 1), func(s *book.StandView) { s.Product = product })
		if s.Target.CutRFV != c.cut || s.Target.DryDays != c.dry || s.Target.ProductSaid != (product != "") {
			t.Errorf("%q: %+v, want to cut at %g with %d dry days", product, s.Target, c.cut, c.dry)
		}
	}
	s := builtWith(t, record(1, 0), unit.DateOf(2026, 5, 1), func(s *book.StandView) { s.FeedRFV = 0 })
	if s.Target.FeedRFV != 150 || !s.Target.Assumed {
		t.Errorf("no target entered: %+v", s.Target)
	}
}

// A reading carried forward is the science's own step, a day at a time at each day's mean.
func TestAReadingIsCarriedForwardByTheDaysTemperatures(t *testing.T) {
	series := record(13, 0)
	date := unit.DateOf(2026, 5, 24)
	s := builtWith(t, series, date, func(s *book.StandView) {
		s.Visits = []book.Dated[book.Visit]{{Day: date - 6, Body: *spots(20, book.Bud)}}
	})
	r := s.Readings[0].Field
	want := forage.Quality{NDF: r.NDF, ADF: r.ADF}
	for d := date - 6; d < date; d++ {
		i, _ := series.Index(d)
		mean := ((series.TMaxF[i]+series.TMinF[i])/2 - 32) / 1.8
		want = forage.Ahead(want, 1, forage.Spring, &mean)
	}
	if got := s.Standing.From[0]; got.Name != BasisStick || math.Abs(got.NDF-want.NDF) > 1e-9 || math.Abs(got.SD-math.Hypot(r.SDNDF, 0.6)) > 1e-9 {
		t.Errorf("%+v, want NDF %.4f ± %.2f and a tenth for each of six days", got, want.NDF, r.SDNDF)
	}
	old := builtWith(t, series, date, func(s *book.StandView) {
		s.Visits = []book.Dated[book.Visit]{{Day: date - 15, Body: *spots(16, book.Vegetative)}}
	})
	if old.Standing != nil {
		t.Errorf("a reading of fifteen days ago still says where the crop stands: %+v", old.Standing)
	}
}

func TestHeatTellsTheFibreOnlyWhereItWasTested(t *testing.T) {
	series := record(13, 0)
	for date := unit.DateOf(2026, 5, 1); date < unit.DateOf(2026, 7, 20); date += 2 {
		s := builtWith(t, series, date, func(*book.StandView) {})
		now := s.Sky.Heat41.Now()
		if inside := now >= 600 && now <= 1000; inside != (s.Standing != nil) {
			t.Errorf("%s: %.0f F-days, judged by heat %v", date, now, s.Standing != nil)
		}
		if s.Standing == nil && s.NotStanding == "" {
			t.Errorf("%s: not judged and not said why", date)
		}
	}
}

func TestAWholeFieldsCountIsOneCount(t *testing.T) {
	date := unit.DateOf(2026, 5, 12)
	visit := func(d unit.Day, counts ...int) book.Dated[book.Visit] {
		var v book.Visit
		for _, c := range counts {
			v.Frames = append(v.Frames, counted(c))
		}
		return book.Dated[book.Visit]{Day: d, Body: v}
	}
	plants := 9
	for name, c := range map[string]struct {
		visits []book.Dated[book.Visit]
		cuts   []book.Dated[book.Cut]
		frames int
	}{
		"one visit":               {[]book.Dated[book.Visit]{visit(date-2, 90, 96)}, nil, 2},
		"gone on with":            {[]book.Dated[book.Visit]{visit(date-20, 90, 96), visit(date-9, 88), visit(date, 80)}, nil, 4},
		"four weeks before":       {[]book.Dated[book.Visit]{visit(date-28, 90, 96), visit(date, 80, 82)}, nil, 2},
		"cut in between":          {[]book.Dated[book.Visit]{visit(date-9, 90, 96), visit(date, 80, 82)}, []book.Dated[book.Cut]{cut(date-5, 1)}, 2},
		"last year's":             {[]book.Dated[book.Visit]{visit(unit.DateOf(2025, 5, 1), 90, 96)}, nil, 0},
		"plants, and no stems":    {[]book.Dated[book.Visit]{{Day: date, Body: book.Visit{Frames: []book.Frame{{Plants: &plants, Ft2: 1}}}}}, nil, 0},
		"nothing counted of late": {[]book.Dated[book.Visit]{visit(date-8, 90, 96), {Day: date}}, nil, 2},
	} {
		s := builtWith(t, record(1, 0), date, func(s *book.StandView) { s.Visits, s.Cuts = c.visits, c.cuts })
		frames := 0
		if s.Stems != nil {
			frames = s.Stems.Frames
		}
		if frames != c.frames {
			t.Errorf("%s: %d frames, want %d", name, frames, c.frames)
		}
		if s.Yield.StemsKnown != (c.frames > 0) {
			t.Errorf("%s: yield by stems %v", name, s.Yield.StemsKnown)
		}
	}
}

// 350 F-days above 41 F stand for six inches and 250 for four: ten F-days are a fifth of an inch there.
func TestAHeightReadBeforeAFrostIsCarriedOnToIt(t *testing.T) {
	series := record(1, 0)
	night := unit.DateOf(2026, 5, 6)
	for d := night - 7; d <= night; d++ {
		i, _ := series.Index(d)
		series.TMinF[i], series.TMaxF[i] = 41, 61 // ten F-days
	}
	i, _ := series.Index(night)
	series.TMinF[i], series.TMaxF[i] = 20, 44 // none
	for name, c := range map[string]struct {
		height float64
		before unit.Day
		want   bool
	}{
		"six inches that day":               {6, 0, true},
		"just under six that day":           {5.9, 0, false},
		"4.9 in and 60 F-days to come":      {4.9, 7, true},
		"4.7 in and 60 F-days to come":      {4.7, 7, false},
		"six inches nine days before, gone": {6, 9, false},
	} {
		s := builtWith(t, series, night+1, func(s *book.StandView) {
			h := c.height
			s.Visits = []book.Dated[book.Visit]{{Day: night - c.before, Body: book.Visit{GrowthIn: &h}}}
		})
		if s.Sky.Heat41.On(night) >= 350 {
			t.Fatalf("%.0f F-days: heat alone says six inches", s.Sky.Heat41.On(night))
		}
		if (s.Frosted != nil) != c.want {
			t.Errorf("%s: tops at risk %v, want %v", name, s.Frosted != nil, c.want)
		}
	}
}

func TestTheTallestStemIsWhatCounts(t *testing.T) {
	nine := 9.0
	for name, c := range map[string]struct {
		visit book.Visit
		want  float64
		ok    bool
	}{
		"nothing":        {book.Visit{}, 0, false},
		"growth":         {book.Visit{GrowthIn: &nine}, 9, true},
		"spots":          {book.Visit{Spots: []book.Spot{{HeightIn: 7}, {HeightIn: 11}, {HeightIn: 8}}}, 11, true},
		"spots go first": {book.Visit{GrowthIn: &nine, Spots: []book.Spot{{HeightIn: 7}}}, 7, true},
	} {
		if got, ok := Tallest(c.visit); got != c.want || ok != c.ok {
			t.Errorf("%s: %g, %v, want %g, %v", name, got, ok, c.want, c.ok)
		}
	}
}

func TestAnOlderReadingIsNeverSurer(t *testing.T) {
	series := record(13, 0)
	last := 0.0
	for days := unit.Day(0); days <= 14; days++ {
		s := builtWith(t, series, unit.DateOf(2026, 5, 28), func(s *book.StandView) {
			s.Visits = []book.Dated[book.Visit]{{Day: unit.DateOf(2026, 5, 28) - days, Body: *spots(20, book.Bud)}}
		})
		if sd := s.Standing.SDNDF; sd < last {
			t.Errorf("read %d days ago ± %.3f, a day later ± %.3f", days, sd, last)
		} else {
			last = sd
		}
	}
}
