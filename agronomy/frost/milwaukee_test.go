package frost

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"
)

// milwaukee is the daily record 1971-2020 in whole F, by year. It may be used but not committed, so
// without HAYWARDEN_DATA these tests are skipped.
type milwaukee struct{ min, max map[int][]float64 }

func column(t *testing.T, dir, name string, each func(get func(column string) float64, row []string)) {
	t.Helper()
	f, err := os.Open(filepath.Join(dir, name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	at := map[string]int{}
	for i, name := range rows[0] {
		at[name] = i
	}
	for _, row := range rows[1:] {
		each(func(name string) float64 {
			i, ok := at[name]
			if !ok {
				t.Fatalf("no column %s", name)
			}
			v, err := strconv.ParseFloat(row[i], 64)
			if err != nil {
				t.Fatal(err)
			}
			return v
		}, row)
	}
}

func readMilwaukee(t *testing.T) (milwaukee, string) {
	t.Helper()
	dir := os.Getenv("HAYWARDEN_DATA")
	if dir == "" {
		t.Skip("HAYWARDEN_DATA is not set: the Milwaukee record (GHCN-Daily USW00014839) is not committed; set it to the folder that holds weather_milwaukee_1971_2020.csv")
	}
	m := milwaukee{map[int][]float64{}, map[int][]float64{}}
	column(t, dir, "weather_milwaukee_1971_2020.csv", func(get func(string) float64, row []string) {
		year, err := strconv.Atoi(row[0][:4])
		if err != nil {
			t.Fatal(err)
		}
		m.min[year], m.max[year] = append(m.min[year], get("tmin_f")), append(m.max[year], get("tmax_f"))
	})
	return m, dir
}

func dayOfYear(year int, m time.Month, d int) int {
	return time.Date(year, m, d, 0, 0, 0, 0, time.UTC).YearDay()
}

// dates returns the last spring and first fall freeze of each year as day numbers.
func (m milwaukee) dates(t *testing.T, from, to int, threshold float64) (last, first []float64) {
	t.Helper()
	for year := from; year <= to; year++ {
		july, august := dayOfYear(year, time.July, 31), dayOfYear(year, time.August, 1)
		i, found, certain := LastAtOrBelow(m.min[year][:july], threshold)
		j, foundFall, certainFall := FirstAtOrBelow(m.min[year][august-1:], threshold)
		if !found || !certain || !foundFall || !certainFall {
			t.Fatalf("%d at %g F: a complete year gave no certain dates", year, threshold)
		}
		last, first = append(last, float64(i+1)), append(first, float64(august+j))
	}
	return last, first
}

// Each year's dates against those found in Python. [source.MilwaukeeSums]
func TestMilwaukeeFreezesByYear(t *testing.T) {
	m, dir := readMilwaukee(t)
	years := 0
	column(t, dir, "check_milwaukee_freeze_1991_2020.csv", func(get func(string) float64, _ []string) {
		years++
		year := int(get("year"))
		for _, threshold := range []string{"32", "28", "24"} {
			f, _ := strconv.ParseFloat(threshold, 64)
			last, first := m.dates(t, year, year, f)
			if last[0] != get("ls"+threshold) || first[0] != get("ff"+threshold) {
				t.Errorf("%d at %s F: %g and %g, want %g and %g", year, threshold, last[0], first[0], get("ls"+threshold), get("ff"+threshold))
			}
		}
	})
	if years != 30 {
		t.Errorf("%d years checked, want 30", years)
	}
}

// Means, deviations and type 7 quantiles computed in R. [source.MilwaukeeSums]
func TestMilwaukeeFreezeQuantiles(t *testing.T) {
	m, _ := readMilwaukee(t)
	for threshold, want := range map[float64]struct {
		lastMean, lastSD, firstMean, firstSD float64
		last, first                          [3]float64 // 10, 50, 90 % by date, type 7
	}{
		32: {112.7333, 11.107417, 295.8, 13.453368, [3]float64{99.9, 113, 124.6}, [3]float64{279, 296, 312.2}},
		28: {95.7333, 10.023880, 311.6667, 10.761789, [3]float64{85.6, 94.5, 108}, [3]float64{297.7, 310.5, 324.2}},
		24: {88.6667, 9.809683, 319, 10.799106, [3]float64{}, [3]float64{}},
	} {
		last, first := m.dates(t, 1991, 2020, threshold)
		for _, c := range []struct {
			side      string
			x         []float64
			mean, sd  float64
			quantiles [3]float64
		}{{"last", last, want.lastMean, want.lastSD, want.last}, {"first", first, want.firstMean, want.firstSD, want.first}} {
			if mean, sd := meanSD(c.x); !near(mean, c.mean, 5.1e-5) || !near(sd, c.sd, 5.1e-7) {
				t.Errorf("%s at %g F: mean %.4f sd %.6f, want %.4f and %.6f", c.side, threshold, mean, sd, c.mean, c.sd)
			}
			for i, p := range []float64{0.1, 0.5, 0.9} {
				if got, ok := Quantile(c.x, p, Type7); c.quantiles[i] != 0 && (!ok || !near(got, c.quantiles[i], 1e-9)) {
					t.Errorf("%s at %g F, %g: %g, want %g", c.side, threshold, p, got, c.quantiles[i])
				}
			}
		}
	}
}

// Weibull dates printed to a tenth of a day: fall by 10 to 90 %, spring by the chance of a later one.
func TestMilwaukeeFreezeChances(t *testing.T) {
	m, _ := readMilwaukee(t)
	for threshold, want := range map[float64]struct {
		fall   [9]float64
		spring [3]float64
	}{
		32: {[9]float64{279.0, 283.0, 286.9, 293.2, 296.0, 301.6, 303.0, 307.6, 313.8}, [3]float64{129.4, 113.0, 99.1}},
		28: {[9]float64{295.3, 304.2, 305.3, 308.4, 310.5, 312.6, 316.7, 319.8, 325.8}, [3]float64{108.0, 94.5, 82.4}},
		24: {[9]float64{306.0, 308.6, 312.3, 315.4, 316.5, 319.6, 323.8, 327.0, 337.6}, [3]float64{99.9, 89.0, 75.2}},
	} {
		last, first := m.dates(t, 1991, 2020, threshold)
		for i, w := range want.fall {
			if got, ok := Quantile(first, float64(i+1)/10, Weibull); !ok || !near(got, w, 0.0501) {
				t.Errorf("fall at %g F, %d %%: %.2f, want %g", threshold, 10*(i+1), got, w)
			}
		}
		for i, p := range []float64{0.1, 0.5, 0.9} {
			if got, ok := QuantileLater(last, p, Weibull); !ok || !near(got, want.spring[i], 0.0501) {
				t.Errorf("spring at %g F, %g: %.2f, want %g", threshold, p, got, want.spring[i])
			}
		}
	}
}

// Fifty years, and the type of quantile that makes most of a day of difference.
func TestMilwaukeeFiftyYearsAt28(t *testing.T) {
	m, _ := readMilwaukee(t)
	last, first := m.dates(t, 1971, 2020, 28)
	for _, c := range []struct {
		x        []float64
		mean, sd float64
	}{{last, 100.12, 10.5165370261}, {first, 307.76, 12.2400480191}} {
		if mean, sd := meanSD(c.x); !near(mean, c.mean, 1e-9) || !near(sd, c.sd, 1e-9) {
			t.Errorf("mean %g sd %.10f, want %g and %.10f", mean, sd, c.mean, c.sd)
		}
	}
	for method, want := range map[QuantileMethod]float64{Type7: 86.9, Weibull: 86.1} {
		if got, _ := Quantile(last, 0.1, method); !near(got, want, 1e-9) {
			t.Errorf("%s: %g, want %g", method, got, want)
		}
	}
}

// Frost-free days between the two, by rank and by the normal curve.
func TestMilwaukeeFrostFreeDays(t *testing.T) {
	m, _ := readMilwaukee(t)
	last, first := m.dates(t, 1991, 2020, 32)
	free := make([]float64, len(last))
	for i := range free {
		free[i] = first[i] - last[i]
	}
	if mean, sd := meanSD(free); !near(mean, 183.0667, 5.1e-5) || !near(sd, 17.104009, 5.1e-7) {
		t.Errorf("mean %g sd %g, want 183.0667 and 17.104009", mean, sd)
	}
	for _, c := range []struct {
		m       QuantileMethod
		p, want float64
	}{
		{Type7, 0.1, 164.6}, {Type7, 0.5, 182}, {Type7, 0.9, 203.5},
		{Normal, 0.1, 161.14699705}, {Normal, 0.9, 204.98633628},
	} {
		if got, ok := Quantile(free, c.p, c.m); !ok || !near(got, c.want, 1e-7) {
			t.Errorf("%s at %g: %.8f, want %.8f", c.m, c.p, got, c.want)
		}
	}
}

// Heat above 41 F from 1 September up to the day of the first 28 F, the fall rest's own sum in F.
func TestMilwaukeeHeatToTheFreeze(t *testing.T) {
	m, _ := readMilwaukee(t)
	_, first := m.dates(t, 1991, 2020, 28)
	left := make([]float64, len(first))
	for i := range left {
		year := 1991 + i
		for d := dayOfYear(year, time.September, 1); d < int(first[i]); d++ {
			left[i] += max(0, (m.max[year][d-1]+m.min[year][d-1])/2-41)
		}
	}
	mean, sd := meanSD(left)
	if !near(mean, 1093.28333, 5.1e-6) || !near(sd, 166.40264, 5.1e-6) {
		t.Errorf("mean %.5f sd %.5f, want 1093.28333 and 166.40264", mean, sd)
	}
	least := math.Inf(1)
	for _, h := range left {
		least = min(least, h)
	}
	if least != 815 {
		t.Errorf("least %g, want 815", least)
	}
	for p, want := range map[float64]float64{0.1: 926.3, 0.5: 1068, 0.9: 1312.75} {
		if got, _ := Quantile(left, p, Type7); !near(got, want, 1e-9) {
			t.Errorf("%g: %g, want %g", p, got, want)
		}
	}
}
