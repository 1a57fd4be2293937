package outlook

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"haywarden/agronomy/unit"
	"haywarden/book"
)

func TestATallerStandIsNeverDueLater(t *testing.T) {
	series := record(2, 0)
	date := unit.DateOf(2026, 5, 28)
	skies := map[string]*Sky{"ZZT00000001": NewSky(series, date, SkyOptions{})}
	window := func(t failer, spots []book.Spot) (Window, bool) {
		v := oneStand(date, 0)
		v.Farms[0].Fields[0].Stands[0].Visits = []book.Dated[book.Visit]{{Day: date - 2, Body: book.Visit{Spots: spots}}}
		o, err := Build(v, skies)
		if err != nil {
			t.Fatal(err)
		}
		return o.Stands[0].Ahead().Reaches(165).Window()
	}
	rapid.Check(t, func(t *rapid.T) {
		stage := rapid.SampledFrom(book.Stages()).Draw(t, "stage")
		up := rapid.Float64Range(0, 10).Draw(t, "taller by")
		var short, tall []book.Spot
		for range rapid.IntRange(1, 8).Draw(t, "spots") {
			h := rapid.Float64Range(4, 50).Draw(t, "height")
			short, tall = append(short, book.Spot{HeightIn: h, Stage: stage}), append(tall, book.Spot{HeightIn: h + up, Stage: stage})
		}
		a, ok1 := window(t, short)
		b, ok2 := window(t, tall)
		if ok1 && !ok2 || ok1 && ok2 && b.Middle > a.Middle {
			t.Fatalf("due %s; %.1f in taller throughout: %s (%v)", a.Middle, up, b.Middle, ok2)
		}
	})
}

// A reading whose spots scatter wildly says little; it must not push the estimate past what heat says.
func TestARaggedReadingNeverCountsAgainstItself(t *testing.T) {
	date := unit.DateOf(2026, 6, 12)
	skies := map[string]*Sky{"ZZT00000001": NewSky(record(2, 0), date, SkyOptions{})}
	for _, heights := range [][]float64{{4, 60}, {5, 58, 7}, {10, 50}, {20, 22, 24}} {
		v := oneStand(date, 0)
		var spots []book.Spot
		for _, h := range heights {
			spots = append(spots, book.Spot{HeightIn: h, Stage: book.Bud})
		}
		v.Farms[0].Fields[0].Stands[0].Visits = []book.Dated[book.Visit]{{Day: date - 1, Body: book.Visit{Spots: spots}}}
		o, err := Build(v, skies)
		if err != nil {
			t.Fatal(err)
		}
		st := o.Stands[0].Standing
		if st == nil || len(st.From) != 2 {
			t.Fatalf("%v: %+v, want stick and heat", heights, st)
		}
		low, high := min(st.From[0].NDF, st.From[1].NDF), max(st.From[0].NDF, st.From[1].NDF)
		if st.NDF < low-1e-9 || st.NDF > high+1e-9 {
			t.Errorf("%v: NDF %.2f lies outside stick and heat, %.2f and %.2f", heights, st.NDF, low, high)
		}
		if least := min(st.From[0].SD, st.From[1].SD); st.SDNDF > least+1e-9 {
			t.Errorf("%v: ± %.2f together, ± %.2f alone", heights, st.SDNDF, least)
		}
	}
}

// Weights differ between the two records, so that paths are compared and not their sums.
func TestOnAWarmerPathNoStandIsEverLater(t *testing.T) {
	date := unit.DateOf(2026, 5, 24)
	cold, warm := NewSky(record(3, 0), date, SkyOptions{}), NewSky(record(3, 3), date, SkyOptions{})
	rapid.Check(t, func(t *rapid.T) {
		height := rapid.Float64Range(14, 36).Draw(t, "height")
		target := rapid.Float64Range(100, 200).Draw(t, "target")
		due := func(sky *Sky) []float64 {
			o, err := Build(oneStand(date, height), map[string]*Sky{"ZZT00000001": sky})
			if err != nil {
				t.Fatal(err)
			}
			a := o.Stands[0].Ahead()
			var days []float64
			for i, p := range a.paths {
				days = append(days, a.reach(p, a.back[i/len(a.members)], target))
			}
			return days
		}
		a, b := due(cold), due(warm)
		for i := range a {
			if b[i] > a[i] {
				t.Fatalf("path %d of %d: %g, warmer %g", i, len(a), a[i], b[i])
			}
		}
	})
}

func TestFitAndBandKeepTheirBounds(t *testing.T) {
	series := record(9, 0)
	rapid.Check(t, func(t *rapid.T) {
		date := unit.DateOf(2026, 5, 10) + unit.Day(rapid.IntRange(0, 30).Draw(t, "day"))
		o, err := Build(oneStand(date, rapid.Float64Range(10, 40).Draw(t, "height")), map[string]*Sky{"ZZT00000001": NewSky(series, date, SkyOptions{})})
		if err != nil {
			t.Fatal(err)
		}
		a := o.Stands[0].Ahead()
		i, n := rapid.IntRange(0, 60).Draw(t, "ahead"), rapid.IntRange(1, 5).Draw(t, "dry days")
		target := rapid.Float64Range(90, 220).Draw(t, "target")
		fit := a.Fit(i, n, target)
		if !(fit >= 0 && fit <= 1) || a.Fit(i, n+1, target) > fit {
			t.Fatalf("fit %g for %d dry days, %g for one more", fit, n, a.Fit(i, n+1, target))
		}
		if q, ok := a.Band(i); ok {
			for j := 1; j < len(q); j++ {
				if q[j] < q[j-1] {
					t.Fatalf("band %v", q)
				}
			}
		}
		if low, mid, high, ok := a.Loss(i, i+7); ok && !(0 < low && low <= mid && mid <= high) {
			t.Fatalf("a week loses %g, %g, %g", low, mid, high)
		}
	})
}

func TestADayWithoutARainReportIsNotDry(t *testing.T) {
	m := &Member{dry: []bool{true, true, false, true, true, true}}
	for i, want := range []bool{true, false, false, true, true, false} {
		if got := m.DryFrom(i, 2); got != want {
			t.Errorf("two dry days from day %d: %v", i, got)
		}
	}
	series := record(9, 0)
	for i := range series.RainMM {
		series.RainMM[i] = math.NaN()
	}
	if c := NewSky(series, unit.DateOf(2026, 5, 24), SkyOptions{}).DryChance(5, 1); c != 0 {
		t.Errorf("a dry day in %g of years without any report of rain", c)
	}
}

func TestAFutureWithoutTheEventIsLateAndNotLeftOut(t *testing.T) {
	sky := NewSky(record(4, 0), unit.DateOf(2026, 9, 20), SkyOptions{})
	days := sky.Reaches(sky.HeatSince(unit.DateOf(2026, 9, 18), sky.Heat41.Spec), 1500)
	if _, comes := days.Quantile(0); days.Paths() != len(sky.Members) || comes {
		t.Errorf("%d days for %d years: 1500 F-days do not come after 20 September", days.Paths(), len(sky.Members))
	}
}

func TestWhatHasComeStaysOnItsDay(t *testing.T) {
	series := record(4, 0)
	var on unit.Day
	for date := unit.DateOf(2026, 6, 10); date < unit.DateOf(2026, 7, 10); date += 3 {
		sky := NewSky(series, date, SkyOptions{})
		days := sky.Reaches(sky.Heat41, 400)
		d, ok := days.Quantile(0.5)
		if days.Paths() != 1 || !ok || on != 0 && d != on {
			t.Fatalf("%s: 400 F-days came on %s, said to be %s before", date, d, on)
		}
		on = d
	}
	d := on
	if c := NewSky(series, d, SkyOptions{}); c.Heat41.Now() < 400 || NewSky(series, d-1, SkyOptions{}).Heat41.Now() >= 400 {
		t.Errorf("%s is not the first morning with 400 F-days", d)
	}
}

func TestADayFitsWithinTenPointsOfTheTarget(t *testing.T) {
	a := &Ahead{sky: &Sky{}, members: []*Member{{Weight: ErrorSteps, dry: []bool{true, true, true, true}}}}
	for rfv, want := range map[float64]float64{165: 1, 175: 1, 155: 1, 175.1: 0, 154.9: 0} {
		a.paths = [][]float64{{rfv, rfv}}
		if got := a.Fit(1, 1, 165); got != want {
			t.Errorf("standing RFV %g against 165: fit %g, want %g", rfv, got, want)
		}
	}
}
