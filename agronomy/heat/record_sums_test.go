package heat

import (
	"fmt"
	"path/filepath"
	"testing"
	"time"
)

// Sums in C-days computed from the same record in R 4.2.2 and Python separately. [source.SeattleSums]
func TestSeattleAndNewYorkSums(t *testing.T) {
	places := coasts(t)
	for _, want := range []struct {
		place          string
		year           int
		ss5, avg5, cut float64
	}{
		{"Seattle", 2012, 2451.01701393, 2396.20, 1198.00497557},
		{"Seattle", 2013, 2759.32428454, 2720.70, 1433.50330299},
		{"Seattle", 2014, 2975.69060517, 2941.30, 1555.32993281},
		{"Seattle", 2015, 3049.91147644, 3017.95, 1606.93631587},
		{"New York", 2012, 3503.32175876, 3440.80, 2183.45231579},
		{"New York", 2013, 3221.71170588, 3163.00, 2015.72640375},
		{"New York", 2014, 3236.32823901, 3187.80, 2042.90636567},
		{"New York", 2015, 3628.54749192, 3594.60, 2328.11063233},
	} {
		r := places[want.place]
		from, to := r.between(want.year, time.January, 1, time.December, 31)
		for _, c := range []struct {
			spec Spec
			want float64
		}{
			{Spec{Method: Sine, Base: 5, Upper: NoUpper()}, want.ss5},
			{Spec{Method: Average, Base: 5, Upper: NoUpper()}, want.avg5},
			{Spec{Method: Sine, Base: 10, Upper: 30}, want.cut},
		} {
			if got := total(t, c.spec, r.minC[from:to], r.maxC[from:to]); !near(got, c.want, 1e-8) {
				t.Errorf("%s %d, %+v: %.8f, want %.8f", want.place, want.year, c.spec, got, c.want)
			}
		}
	}
}

// All 50 years of the Milwaukee record against sums computed in R. [source.MilwaukeeSums]
func TestMilwaukeeYearSums(t *testing.T) {
	r := milwaukee(t)
	check := readTable(t, filepath.Join(dataDir(t), "check_milwaukee_dd_annual.csv"))
	if len(check.rows) != 50 {
		t.Fatalf("%d years in the check file, want 50", len(check.rows))
	}
	for i := range check.rows {
		year := int(check.number(i, "y"))
		from, to := r.between(year, time.January, 1, time.December, 31)
		mar, oct := r.between(year, time.March, 1, time.October, 31)
		minF, maxF, minC, maxC := r.minF[from:to], r.maxF[from:to], r.minC[from:to], r.maxC[from:to]
		for column, got := range map[string]float64{
			"dd41avg":          total(t, FirstCut(), minF, maxF),
			"dd48ss":           total(t, Weevil(), minF, maxF),
			"dd5086ss":         total(t, Spec{Method: Sine, Base: 50, Upper: 86}, minF, maxF),
			"dd5css":           total(t, Spec{Method: Sine, Base: 5, Upper: NoUpper()}, minC, maxC),
			"dd0avg_c":         total(t, Spec{Method: Average, Upper: NoUpper()}, minC, maxC),
			"dd5086mod_maroct": total(t, Spec{Method: Modified, Base: 50, Upper: 86}, r.minF[mar:oct], r.maxF[mar:oct]),
		} {
			// Printed to four or six decimals.
			if want := check.number(i, column); !near(got, want, 5.1e-5) {
				t.Errorf("%d %s: %.6f, want %.6f", year, column, got, want)
			}
		}
	}
}

// Selected years to eight decimals, and 2012 by month.
func TestMilwaukeeSumsToTheLastDigit(t *testing.T) {
	r := milwaukee(t)
	for year, want := range map[int][3]float64{
		1971: {2873.60048454, 2517.95282117, 2332.18230947},
		1988: {3431.37358131, 2996.58133707, 2678.18276256},
		2012: {3738.94057794, 3296.26949060, 2933.33060422},
		2019: {3171.15303549, 2808.04114789, 2529.91032485},
		2020: {3450.75443844, 3075.06344509, 2710.74758249},
	} {
		from, to := r.between(year, time.January, 1, time.December, 31)
		got := [3]float64{
			total(t, Weevil(), r.minF[from:to], r.maxF[from:to]),
			total(t, Spec{Method: Sine, Base: 50, Upper: 86}, r.minF[from:to], r.maxF[from:to]),
			total(t, Spec{Method: Sine, Base: 5, Upper: NoUpper()}, r.minC[from:to], r.maxC[from:to]),
		}
		for i := range got {
			if !near(got[i], want[i], 1e-8) {
				t.Errorf("%d sum %d: %.8f, want %.8f", year, i, got[i], want[i])
			}
		}
	}
	sine := [12]float64{4.17558664, 1.08997781, 202.17901470, 81.81932956, 407.76084588, 699, 949, 754, 444.13787302, 148.48940628, 31.00299855, 16.28554550}
	corn := [12]float64{5, 1.5, 198, 86.5, 365, 613.5, 828.5, 676.5, 401.5, 141.5, 34.5, 19}
	for m := range time.Month(12) {
		last := time.Date(2012, m+2, 0, 0, 0, 0, 0, time.UTC).Day()
		from, to := r.between(2012, m+1, 1, m+1, last)
		if got := total(t, Weevil(), r.minF[from:to], r.maxF[from:to]); !near(got, sine[m], 1e-8) {
			t.Errorf("%v 2012 sine above 48: %.8f, want %.8f", m+1, got, sine[m])
		}
		if got := total(t, Spec{Method: Modified, Base: 50, Upper: 86}, r.minF[from:to], r.maxF[from:to]); !near(got, corn[m], 1e-9) {
			t.Errorf("%v 2012 modified 50/86: %g, want %g", m+1, got, corn[m])
		}
	}
}

// First days on which a sum is reached, [source.MilwaukeeSums].
func TestMilwaukeeFirstDayReaching(t *testing.T) {
	r := milwaukee(t)
	reached := func(year int, s Spec, month time.Month, day int, target float64) string {
		from, to := r.between(year, month, day, time.December, 31)
		daily, err := s.Days(r.minF[from:to], r.maxF[from:to])
		if err != nil {
			t.Fatal(err)
		}
		var sum float64
		for i, dd := range daily {
			if sum += dd; sum >= target {
				return r.date[from+i].Format("01-02")
			}
		}
		return "never"
	}
	weevilMonth, weevilDay := WeevilStart()
	growthMonth, growthDay := FirstGrowth()
	for year, want := range map[int][3]string{
		1988: {"05-22", "05-30", "06-01"},
		2012: {"05-02", "05-14", "05-15"},
		2019: {"05-27", "06-04", "06-06"},
		2020: {"05-27", "06-04", "06-05"},
	} {
		got := [3]string{
			reached(year, Weevil(), weevilMonth, weevilDay, 300),
			reached(year, FirstCut(), growthMonth, growthDay, 700),
			reached(year, FirstCut(), time.January, 1, 750),
		}
		if got != want {
			t.Errorf("%d: %v, want %v", year, got, want)
		}
	}
}

// How far the daily methods lie from the hours, on smooth hourly normals of Seattle: a few percent,
// which is why a formula is checked against its formula and never against another method.
func TestHourlyNormalsOfSeattle(t *testing.T) {
	table := readTable(t, filepath.Join(dataDir(t), "seattle_hourly_normals.csv"))
	byDay := map[string][]float64{}
	for i := range table.rows {
		day := fmt.Sprintf("%.10s", table.word(i, "date"))
		byDay[day] = append(byDay[day], table.number(i, "temperature"))
	}
	for base, want := range map[float64]float64{5: 2268.0542, 10: 1033.2875} {
		var sum float64
		for _, hours := range byDay {
			// The first hour of 1 January is missing, and cold: each day is still a sum over 24.
			sum += Hourly(hours, base) * float64(len(hours)) / 24
		}
		if !near(sum, want, 1e-3) {
			t.Errorf("base %g: %.4f, want %.4f", base, sum, want)
		}
	}
}
