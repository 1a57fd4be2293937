package chart

import (
	"math"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func TestStepsAreOneTwoOrFive(t *testing.T) {
	for _, c := range []struct {
		lo, hi float64
		n      int
		least  float64
		want   float64
	}{
		{0, 100, 10, 0, 10}, {0, 100, 6, 0, 20}, {0, 100, 3, 0, 50}, {130, 240, 8, 10, 20},
		{170, 180, 10, 10, 10}, {0, 0.7, 7, 0, 0.1}, {5, 5, 4, 10, 10}, {0, math.Inf(1), 4, 0, 1},
	} {
		if got := nice(c.lo, c.hi, c.n, c.least); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("nice(%g, %g, %d, %g) = %g, want %g", c.lo, c.hi, c.n, c.least, got, c.want)
		}
	}
	if got := ticks(-10, 25, 10); !cmp.Equal(got, []float64{-10, 0, 10, 20}) {
		t.Errorf("ticks = %v", got)
	}
	if got := ticks(1e18, 1e18+10, 1e-3); len(got) > 200 {
		t.Errorf("%d ticks where none can be told apart", len(got))
	}
}

func TestNumbersAreWrittenAsReadersExpect(t *testing.T) {
	for v, want := range map[float64]string{170: "170", 0.25: "0.25", 1.0 / 3: "0.33", -8: "−8", -0.001: "0", math.Inf(1): "–"} {
		if got := number(v); got != want {
			t.Errorf("number(%g) = %q, want %q", v, got, want)
		}
	}
	if got := number(math.NaN()); got != "–" {
		t.Errorf("a missing value is written %q", got)
	}
}

func TestDaysFollowTheCalendar(t *testing.T) {
	if d := Date(2026, time.May, 19); d.String() != "19 May" || d.iso() != "2026-05-19" || d.weekday() != "Tue 19" || d != 20592 {
		t.Errorf("19 May 2026 is %d, %v, %s, %s", d, d, d.iso(), d.weekday())
	}
	d := days{Date(2024, 2, 28), Date(2024, 3, 1), 0, 300}
	if d.width() != 100 || d.at(Date(2024, 2, 29)) != 150 {
		t.Errorf("the leap day stands at %g, days are %g wide", d.at(Date(2024, 2, 29)), d.width())
	}
}

func TestMonthsAreNamedInTheMiddleOfTheirDays(t *testing.T) {
	d := days{Date(2026, 3, 1), Date(2026, 11, 30), 0, 275} // one unit a day
	middle, starts := d.months()
	var names []string
	for _, m := range middle {
		names = append(names, m.words)
	}
	want := []string{"Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov"}
	if diff := cmp.Diff(want, names); diff != "" {
		t.Error(diff)
	}
	if middle[0].at != 15.5 || starts[1] != 31 {
		t.Errorf("March is named at %g, April starts at %g", middle[0].at, starts[1])
	}
}

func TestDatesKeepTheirDistance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		first := Date(2026, 1, 1) + Day(rapid.IntRange(0, 365).Draw(t, "first"))
		d := days{first, first + Day(rapid.IntRange(1, 500).Draw(t, "days")), 30, 30 + rapid.Float64Range(100, 1000).Draw(t, "room")}
		end := math.Inf(-1)
		for _, m := range d.dates(textSize) {
			w := Width(m.words, textSize, false)
			if m.at-w/2 < end {
				t.Errorf("%q at %g begins before %g", m.words, m.at, end)
			}
			end = m.at + w/2
		}
	})
}

func TestHeightsMoveApartAsLittleAsNeeded(t *testing.T) {
	for _, c := range []struct {
		want, got []float64
	}{
		{[]float64{10, 50}, []float64{10, 50}},  // no need
		{[]float64{50, 10}, []float64{50, 10}},  // order kept
		{[]float64{50, 54}, []float64{44, 60}},  // shared evenly
		{[]float64{2, 4}, []float64{0, 16}},     // held by the top
		{[]float64{98, 99}, []float64{84, 100}}, // held by the floor
		{[]float64{40, 40, 40}, []float64{24, 40, 56}},
	} {
		if diff := cmp.Diff(c.got, apart(c.want, 16, 0, 100)); diff != "" {
			t.Errorf("%v: %s", c.want, diff)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		want := rapid.SliceOfN(rapid.Float64Range(-50, 250), 0, 8).Draw(t, "want")
		out := apart(want, 16, 0, 200)
		for i, a := range out {
			if a < -1e-9 || a > 200+1e-9 {
				t.Errorf("%g is outside", a)
			}
			for _, b := range out[:i] {
				if math.Abs(a-b) < 16-1e-9 {
					t.Errorf("%g and %g are too close", a, b)
				}
			}
		}
	})
}
