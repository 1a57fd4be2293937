package ghcn

import (
	"bytes"
	"encoding/csv"
	"math"
	"strconv"
	"testing"
	"time"

	"haywarden/agronomy/heat"
	"haywarden/agronomy/unit"
	"haywarden/weather"
)

// These tests go the whole way, from the file over reader, quality control, blocks and series to sums
// and dates, and hold what comes out against numbers that R and Python computed from the same record.

func series(r weather.Reading) *weather.Series {
	return weather.NewSeries(r.Station, r.Blocks, today)
}

// numbers reads a CSV of numbers with a header; a word is NaN.
func numbers(t *testing.T, data []byte) (rows []map[string]float64) {
	t.Helper()
	all, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range all[1:] {
		m := map[string]float64{}
		for i, cell := range row {
			v, err := strconv.ParseFloat(cell, 64)
			if err != nil {
				v = math.NaN()
			}
			m[all[0][i]] = v
		}
		rows = append(rows, m)
	}
	return rows
}

// sum is the heat of the days from one to another.
func sum(s *weather.Series, spec heat.Spec, inF bool, from, to unit.Day) float64 {
	part := s.Between(from, to)
	totals := part.HeatC(spec, from)
	if inF {
		totals = part.HeatF(spec, from)
	}
	return totals[len(totals)-1]
}

// The whole degrees of the record's own columns come back, on all 18,263 days.
func TestWholeDegreesOfMilwaukeeComeBack(t *testing.T) {
	s := series(one(t, FixedWidth, "USW00014839.dly", dataFile(t, "USW00014839.dly")))
	rows := numbers(t, dataFile(t, "weather_milwaukee_1971_2020.csv"))
	if s.Len() != len(rows) || s.First != unit.DateOf(1971, 1, 1) {
		t.Fatalf("%d days from %s, want %d from 1971-01-01", s.Len(), s.First, len(rows))
	}
	for i, row := range rows {
		day := s.First + unit.Day(i)
		for name, got := range map[string]float64{
			"tmax_f": s.TMaxF[i], "tmin_f": s.TMinF[i], "tmax_c": s.TMaxC[i], "tmin_c": s.TMinC[i],
			"prcp_mm": s.RainMM[i], "snwd_mm": s.DepthMM[i],
		} {
			if got != row[name] {
				t.Fatalf("%s %s: %g, want %g", day, name, got, row[name])
			}
		}
	}
}

// A record that has passed the archive's checks loses nothing to ours.
func TestNothingOfMilwaukeeIsDropped(t *testing.T) {
	r := one(t, FixedWidth, "USW00014839.dly", dataFile(t, "USW00014839.dly"))
	for _, e := range r.Report.Elements {
		if e.Reported != 18263 || len(e.Failed)+len(e.Flagged) > 0 {
			t.Errorf("%s: %+v", e.Element, e)
		}
	}
}

// Yearly sums of all 50 years. [source.MilwaukeeSums]
func TestMilwaukeeSumsThroughTheReader(t *testing.T) {
	r := one(t, FixedWidth, "USW00014839.dly", dataFile(t, "USW00014839.dly"))
	s := series(r)
	checkYears(t, s, r.Blocks, numbers(t, dataFile(t, "check_milwaukee_dd_annual.csv")), true)
}

// The by-station form of five of the years gives the same; it holds no snow.
func TestMilwaukeeSumsThroughTheByStationForm(t *testing.T) {
	r := one(t, ByStation, "USW00014839_2016_2020.csv", dataFile(t, "USW00014839_2016_2020.csv"))
	check := numbers(t, dataFile(t, "check_milwaukee_dd_annual.csv"))
	checkYears(t, series(r), r.Blocks, check[2016-1971:], false)
}

func checkYears(t *testing.T, s *weather.Series, blocks []*weather.Block, check []map[string]float64, snow bool) {
	t.Helper()
	if len(blocks) != len(check) {
		t.Fatalf("%d years, want %d", len(blocks), len(check))
	}
	none := heat.NoUpper()
	for i, want := range check {
		year := int(want["y"])
		jan1, dec31 := unit.DateOf(year, 1, 1), unit.DateOf(year, 12, 31)
		got := map[string]float64{
			"dd41avg":          sum(s, heat.FirstCut(), true, jan1, dec31),
			"dd48ss":           sum(s, heat.Weevil(), true, jan1, dec31),
			"dd5086ss":         sum(s, heat.Spec{Method: heat.Sine, Base: 50, Upper: 86}, true, jan1, dec31),
			"dd5css":           sum(s, heat.Spec{Method: heat.Sine, Base: 5, Upper: none}, false, jan1, dec31),
			"dd0avg_c":         sum(s, heat.Spec{Method: heat.Average, Upper: none}, false, jan1, dec31),
			"dd5086mod_maroct": sum(s, heat.Spec{Method: heat.Modified, Base: 50, Upper: 86}, true, unit.DateOf(year, 3, 1), unit.DateOf(year, 10, 31)),
			"max_f":            math.Inf(-1), "min_f": math.Inf(1),
		}
		part := s.Between(jan1, dec31)
		for d := range part.Len() {
			got["prcp_mm"] += part.RainMM[d]
			got["max_f"], got["min_f"] = max(got["max_f"], part.TMaxF[d]), min(got["min_f"], part.TMinF[d])
		}
		if snow {
			got["snow_mm"] = 0
			for _, o := range blocks[i].Days {
				got["snow_mm"] += float64(o.Value[weather.Snow])
			}
		}
		for name, v := range got {
			if math.Abs(v-want[name]) > 5.1e-5 { // printed to four or six decimals
				t.Errorf("%d %s: %.6f, want %.6f", year, name, v, want[name])
			}
		}
	}
}

// Selected sums to eight decimals, 2012 by month too. [source.MilwaukeeSums]
func TestMilwaukeeSumsToTheLastDigitThroughTheReader(t *testing.T) {
	s := series(one(t, FixedWidth, "USW00014839.dly", dataFile(t, "USW00014839.dly")))
	for year, want := range map[int][3]float64{
		1971: {2873.60048454, 2517.95282117, 2332.18230947},
		1988: {3431.37358131, 2996.58133707, 2678.18276256},
		2012: {3738.94057794, 3296.26949060, 2933.33060422},
		2019: {3171.15303549, 2808.04114789, 2529.91032485},
		2020: {3450.75443844, 3075.06344509, 2710.74758249},
	} {
		from, to := unit.DateOf(year, 1, 1), unit.DateOf(year, 12, 31)
		for i, got := range [3]float64{
			sum(s, heat.Weevil(), true, from, to),
			sum(s, heat.Spec{Method: heat.Sine, Base: 50, Upper: 86}, true, from, to),
			sum(s, heat.Spec{Method: heat.Sine, Base: 5, Upper: heat.NoUpper()}, false, from, to),
		} {
			if math.Abs(got-want[i]) > 1e-8 {
				t.Errorf("%d sum %d: %.8f, want %.8f", year, i, got, want[i])
			}
		}
	}
	for m, want := range []float64{4.17558664, 1.08997781, 202.17901470, 81.81932956, 407.76084588, 699, 949, 754, 444.13787302, 148.48940628, 31.00299855, 16.28554550} {
		from := unit.DateOf(2012, time.Month(m+1), 1)
		if got := sum(s, heat.Weevil(), true, from, unit.DateOf(2012, time.Month(m+2), 1)-1); math.Abs(got-want) > 1e-8 {
			t.Errorf("2012 month %d: %.8f, want %.8f", m+1, got, want)
		}
	}
}

// First days on which a sum is reached. [source.MilwaukeeSums]
func TestMilwaukeeFirstDayReachingThroughTheReader(t *testing.T) {
	s := series(one(t, FixedWidth, "USW00014839.dly", dataFile(t, "USW00014839.dly")))
	reached := func(spec heat.Spec, from unit.Day, target float64) string {
		for i, total := range s.HeatF(spec, from) {
			if total >= target {
				return (from + unit.Day(i)).String()[5:]
			}
		}
		return "never"
	}
	for year, want := range map[int][3]string{
		1988: {"05-22", "05-30", "06-01"},
		2012: {"05-02", "05-14", "05-15"},
		2019: {"05-27", "06-04", "06-06"},
		2020: {"05-27", "06-04", "06-05"},
	} {
		jan1, mar1 := unit.DateOf(year, 1, 1), unit.DateOf(year, 3, 1)
		got := [3]string{reached(heat.Weevil(), jan1, 300), reached(heat.FirstCut(), mar1, 700), reached(heat.FirstCut(), jan1, 750)}
		if got != want {
			t.Errorf("%d: %v, want %v", year, got, want)
		}
	}
}

// Freeze dates of 30 years at three thresholds. [source.MilwaukeeSums]
func TestMilwaukeeFreezeDates(t *testing.T) {
	s := series(one(t, FixedWidth, "USW00014839.dly", dataFile(t, "USW00014839.dly")))
	for _, want := range numbers(t, dataFile(t, "check_milwaukee_freeze_1991_2020.csv")) {
		year := int(want["year"])
		for f, names := range map[float64][2]string{32: {"ls32", "ff32"}, 28: {"ls28", "ff28"}, 24: {"ls24", "ff24"}} {
			for i, e := range []weather.YearEvent{s.LastSpring(f, year)[0], s.FirstFall(f, year)[0]} {
				if float64(e.DOY) != want[names[i]] || !e.Found || !e.Valid {
					t.Errorf("%d %s: %+v, want day %g", year, names[i], e, want[names[i]])
				}
			}
		}
	}
	// Means and standard deviations of 1971-2020, 28 F.
	for i, events := range [][]weather.YearEvent{s.LastSpring(28), s.FirstFall(28)} {
		want := [2][2]float64{{100.12, 10.5165370261}, {307.76, 12.2400480191}}[i]
		var n, mean, squares float64
		for _, e := range events {
			n++
			mean += float64(e.DOY)
			squares += float64(e.DOY * e.DOY)
		}
		mean /= n
		sd := math.Sqrt((squares - n*mean*mean) / (n - 1))
		if n != 50 || math.Abs(mean-want[0]) > 1e-9 || math.Abs(sd-want[1]) > 1e-9 {
			t.Errorf("28 F, side %d: mean %.4f sd %.10f of %g years, want %.4f %.10f of 50", i, mean, sd, n, want[0], want[1])
		}
	}
}

// In tenths C the thresholds fall between the whole degrees that were read, and freezes get lost.
func TestFreezesOfWholeDegreesAreLostInCelsius(t *testing.T) {
	r := one(t, FixedWidth, "USW00014839.dly", dataFile(t, "USW00014839.dly"))
	whole := series(r)
	r.Station.WholeF = false
	tenths := series(r)
	later := 0
	for i, e := range whole.FirstFall(24) {
		if c := tenths.FirstFall(24)[i]; c.DOY > e.DOY {
			later++
		}
	}
	if later == 0 {
		t.Error("recovering whole degrees changes no first 24 F day: the check rests on nothing")
	}
}

// The longest run of days under 1 mm in June and July 2012 and the rain of those months.
// [source.MilwaukeeSums]
func TestMilwaukeeDrySummer(t *testing.T) {
	s := series(one(t, FixedWidth, "USW00014839.dly", dataFile(t, "USW00014839.dly")))
	part := s.Season(2012, unit.DateOf(2000, 6, 1), unit.DateOf(2000, 7, 31))
	longest, run, rain := 0, 0, 0.
	for _, mm := range part.RainMM {
		rain += mm
		if run++; mm >= 1 {
			run = 0
		}
		longest = max(longest, run)
	}
	if longest != 15 || math.Abs(rain-113.3) > 1e-9 {
		t.Errorf("%d days and %.1f mm, want 15 and 113.3", longest, rain)
	}
}

// Seattle and New York 2012-2015 in C-days; the file is the published record written in the .dly form
// under invented IDs. [source.SeattleSums]
func TestSeattleAndNewYorkSumsThroughTheReader(t *testing.T) {
	readings, err := FixedWidth(bytes.NewReader(testdata(t, "seattle_newyork.dly")), "seattle_newyork.dly", today)
	if err != nil {
		t.Fatal(err)
	}
	none := heat.NoUpper()
	want := map[string][4][4]float64{
		"XX00SEATTLE": {
			{2451.01701393, 2396.20, 1198.00497557, 1226.0}, {2759.32428454, 2720.70, 1433.50330299, 828.0},
			{2975.69060517, 2941.30, 1555.32993281, 1232.8}, {3049.91147644, 3017.95, 1606.93631587, 1139.2},
		},
		"XX00NEWYORK": {
			{3503.32175876, 3440.80, 2183.45231579, 1012.5}, {3221.71170588, 3163.00, 2015.72640375, 902.7},
			{3236.32823901, 3187.80, 2042.90636567, 1289.8}, {3628.54749192, 3594.60, 2328.11063233, 973.6},
		},
	}
	if len(readings) != len(want) {
		t.Fatalf("%d stations, want %d", len(readings), len(want))
	}
	for _, r := range readings {
		s := series(r)
		for i, w := range want[r.Station.ID] {
			from, to := unit.DateOf(2012+i, 1, 1), unit.DateOf(2012+i, 12, 31)
			got := [4]float64{
				sum(s, heat.Spec{Method: heat.Sine, Base: 5, Upper: none}, false, from, to),
				sum(s, heat.Spec{Method: heat.Average, Base: 5, Upper: none}, false, from, to),
				sum(s, heat.Spec{Method: heat.Sine, Base: 10, Upper: 30}, false, from, to),
			}
			for _, mm := range s.Between(from, to).RainMM {
				got[3] += mm
			}
			for k := range w {
				if math.Abs(got[k]-w[k]) > 1e-8 {
					t.Errorf("%s %d number %d: %.8f, want %.8f", r.Station.ID, 2012+i, k, got[k], w[k])
				}
			}
		}
	}
}
