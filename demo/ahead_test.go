package demo

import (
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"haywarden/agronomy/climate"
	"haywarden/agronomy/unit"
)

// aheadTally is how forecasts of one lead day went.
type aheadTally struct{ n, squares, brier, usual float64 }

// The errors are held to what the forecasts are said to err by, and the chances to the days that came.
func TestForecastsHaveTheirStatedSkill(t *testing.T) {
	sky := makeSky(Seed)
	var leads [aheadDays]aheadTally
	var said, came, count [10]float64
	all := normals()
	for d := firstDay + 1; d+aheadDays < unit.DateOf(2025, time.December, 31); d += 3 {
		a := &sky[int(d)%3]
		for k, f := range a.ahead(Seed, d) {
			i := at(f.Day)
			l := &leads[k]
			l.n++
			miss := *f.TMaxC - (a.maxF[i]-32)/1.8
			l.squares += miss * miss
			wet := 0.
			if a.rainIn[i] > 0 {
				wet = 1
			}
			l.brier += (*f.PoP - wet) * (*f.PoP - wet)
			share := all[leapDay(f.Day)].wetShare
			l.usual += (share - wet) * (share - wet)
			bin := min(9, int(10**f.PoP))
			said[bin] += *f.PoP
			came[bin] += wet
			count[bin]++
		}
	}
	last := 1.
	for k, l := range leads {
		rmse, want := math.Sqrt(l.squares/l.n), climate.PublishedLead().TemperatureSD(k+1)
		if math.Abs(rmse-want) > 0.05*want {
			t.Errorf("day %d: the highest errs by %.2f C, want %.2f", k+1, rmse, want)
		}
		skill := 1 - l.brier/l.usual
		if skill <= 0.05 || skill >= last {
			t.Errorf("day %d: skill of the chance of rain %.2f after %.2f; it has to fall and stay above none", k+1, skill, last)
		}
		last = skill
	}
	for bin := range count {
		if off := math.Abs(said[bin]-came[bin]) / count[bin]; off > 0.03 {
			t.Errorf("chances of %d0 to %d9 in 100: said %.3f, came %.3f of %.0f days", bin, bin, said[bin]/count[bin], came[bin]/count[bin], count[bin])
		}
	}
}

func TestForecastsAreTheSameWhateverIsAskedBeside(t *testing.T) {
	day := unit.DateOf(2026, time.May, 19)
	one := Forecasts(Seed, day, day, map[string]string{"43.49,-87.22": crossing})
	many := map[string]string{"43.49,-87.22": crossing, "none": "ZZ nowhere"}
	for i := range 9 {
		many[fmt.Sprintf("43.60,-87.1%d", i)] = ridge
	}
	more := Forecasts(Seed, day-1, day+1, many)
	if len(one) != 1 || len(more) != 30 {
		t.Fatalf("%d and %d forecasts, want 1 and 30", len(one), len(more))
	}
	if diff := cmp.Diff(one[0], more[10]); diff != "" {
		t.Errorf("asked with others (-alone +beside):\n%s", diff)
	}
	if f := one[0]; len(f.Days) != aheadDays || f.Days[0].Day != day || unit.DayOf(f.Issued) != day {
		t.Errorf("%+v", f)
	}
	if got := Forecasts(Seed, lastDay-2, lastDay-2, map[string]string{"p": hollow}); len(got) != 1 || len(got[0].Days) != 3 {
		t.Errorf("at the end of the invented years: %+v", got)
	}
}
