package main

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"haywarden/book/store/storetest"
	"haywarden/office"
)

var (
	sampleDLY       = filepath.Join("..", "..", "weather", "ghcn", "testdata", "sample.dly")
	sampleByStation = filepath.Join("..", "..", "weather", "ghcn", "testdata", "sample_by_station.csv")
)

func dailyCSV(name string) string {
	return filepath.Join("..", "..", "weather", "csvdaily", "testdata", name)
}

const dailyHead = "STATION,NAME,DATE,PRCP,TMAX,TMIN\n"

func TestAWeatherFileIsTakenInOnce(t *testing.T) {
	for name, file := range map[string]string{
		"fixed width": sampleDLY, "by station": sampleByStation, "metric": dailyCSV("metric.csv"),
		"semicolons, decimal commas and a byte-order mark": dailyCSV("semicolons_bom.csv"),
		"not UTF-8": dailyCSV("windows1252.csv"), "UTF-16 with tabs": dailyCSV("utf16_tabs.csv"),
	} {
		t.Run(name, func(t *testing.T) {
			d := newDesk(t)
			if out := d.must("weather", "import", file); !strings.Contains(out, "Stored: ") || !strings.Contains(out, "Days by element") {
				t.Errorf("the first time it says %q, want a report and what was stored", out)
			}
			revision, show := d.revision(), d.must("weather", "show", "USC00999999", "--json")
			if out := d.must("weather", "import", file); !strings.Contains(out, "Nothing changed") {
				t.Errorf("the second time it says %q", out)
			}
			if n := d.revision(); n != revision {
				t.Errorf("revision %d after the second time, want %d", n, revision)
			}
			if again := d.must("weather", "show", "USC00999999", "--json"); again != show {
				t.Errorf("shown before %s\nand after %s", show, again)
			}
		})
	}
}

func TestEveryFormOfAFileBringsTheSame(t *testing.T) {
	d := newDesk(t)
	d.must("weather", "import", sampleDLY)
	if out := d.must("weather", "import", sampleByStation); !strings.Contains(out, "Nothing changed") {
		t.Errorf("the other form of the archive changed something: %q", out)
	}
	for _, units := range []string{"metric.csv", "standard.csv", "semicolons_bom.csv", "utf16_tabs.csv"} {
		d := newDesk(t)
		d.must("weather", "import", dailyCSV("metric.csv"))
		if out := d.must("weather", "import", dailyCSV(units)); !strings.Contains(out, "Nothing changed") {
			t.Errorf("%s changed what metric.csv brought: %q", units, out)
		}
	}
}

func TestABadWeatherFileChangesNothing(t *testing.T) {
	d := newDesk(t)
	d.must("weather", "import", sampleDLY)
	sample, err := os.ReadFile(sampleDLY)
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.SplitAfter(string(sample), "\n")
	good := dailyHead + "ZZT00000001,T,2020-07-01,0.0,20.0,10.0\n"
	for name, c := range map[string]struct {
		text string
		want []string
	}{
		"empty.csv":       {"", []string{"empty"}},
		"header.csv":      {dailyHead, nil},
		"cut.dly":         {lines[0] + lines[1][:60], []string{"line 2", "cut off"}},
		"cutshort.dly":    {lines[0] + lines[1][:15], []string{"line 2", "at least 21"}},
		"month.dly":       {strings.Replace(lines[0], "202206", "202213", 1), []string{"line 1", "month"}},
		"future.csv":      {good + "ZZT00000001,T,2099-01-01,0.0,20.0,10.0\n", []string{"line 3", "2099-01-01", "after today"}},
		"future.dly":      {strings.Replace(lines[0], "202206", "209906", 1), []string{"line 1", "2099"}},
		"calendar.csv":    {good + "ZZT00000001,T,2020-02-30,0.0,20.0,10.0\n", []string{"line 3", "2020-02-30"}},
		"words.csv":       {good + "ZZT00000001,T,2020-07-02,0.0,warm,10.0\n", []string{"line 3", "warm"}},
		"undecided.csv":   {dailyHead + "ZZT00000001,T,2020-01-01,0.0,2.0,1.0\n", []string{"metric", "standard"}},
		"notweather.csv":  {"cow,milk\n1,2\n", []string{"not known"}},
		"bytes.dly":       {lines[0] + strings.Replace(lines[1], "TMIN  1", "TMIN  \xff", 1), []string{"line 2"}},
		"picture.csv":     {"\x89PNG\r\n\x1a\n\x00\x00", []string{"not known"}},
		"secondstation.c": {good + "ZZT00000002,T,2020-07-02,0.0,20.0\xb0,10.0\n", []string{"line 3"}},
	} {
		args := []string{"weather", "import", d.file(name, c.text)}
		if name != "undecided.csv" {
			args = append(args, "--units", "metric")
		}
		d.fails(exitFailure, append(c.want, "read "+name, "nothing was taken in"), args...)
	}
	d.fails(exitFailure, []string{"none.csv", "no such file"}, "weather", "import", filepath.Join(t.TempDir(), "none.csv"))
	d.fails(exitUsage, []string{"furlongs", "metric"}, "weather", "import", sampleDLY, "--units", "furlongs")
	d.fails(exitUsage, []string{"haywarden weather import FILE"}, "weather", "import")
}

// Files hold such days now and then: the day is dropped and said, the rest is kept.
func TestAHighestTemperatureUnderTheLowestIsDroppedAndSaid(t *testing.T) {
	d := newDesk(t)
	file := d.file("a.csv", dailyHead+"ZZT00000001,T,2020-07-01,0.0,10.0,20.0\nZZT00000001,T,2020-07-02,0.0,20.0,10.0\n")
	out := d.must("weather", "import", file, "--units", "metric")
	for _, w := range []string{"TMAX  inconsistent: 1", "2020-07-01", "the highest temperature is below the lowest", "Stored: 1 year new"} {
		if !strings.Contains(out, w) {
			t.Errorf("the report does not say %q:\n%s", w, out)
		}
	}
	if show := d.must("weather", "show", "ZZT00000001"); !strings.Contains(show, "365 days missing") {
		t.Errorf("of 366 days one is known, shown is:\n%s", show)
	}
}

func TestWhatIsAskedOfAStationMustBeThere(t *testing.T) {
	d := newDesk(t)
	if out := d.must("weather", "show"); !strings.Contains(out, "haywarden weather import FILE") {
		t.Errorf("no station: %q", out)
	}
	d.must("weather", "import", dailyCSV("metric.csv"))
	if out := d.must("weather", "show"); !strings.Contains(out, "\nUSC00999999    SYNTHETIC 1 N, WI US") || !strings.Contains(out, "2022-2023 2023-08-31") || !strings.Contains(out, "no forecast kept") {
		t.Errorf("stations: %q", out)
	}
	if a, b := d.must("weather", "show", "synthetic 1 n, wi us"), d.must("weather", "show", "USC00999999"); a != b {
		t.Errorf("by name: %s\nby id: %s", a, b)
	}
	d.fails(exitFailure, []string{"NOWHERE", "haywarden weather show"}, "weather", "show", "NOWHERE")
	for _, years := range [][]string{{"1800", "1900"}, {"2024", "2030"}, {"2023", "2022"}} {
		d.fails(exitUsage, []string{years[0] + " to " + years[1], "has 2022 to 2023"}, "weather", "show", "USC00999999", "--from", years[0], "--to", years[1])
	}
	d.fails(exitUsage, []string{"no day of weather"}, "weather", "show", "USC00999999", "--date", "2021-12-31")
	if out := d.must("weather", "show", "USC00999999", "--date", "2022-06-30"); !strings.Contains(out, "through 30 Jun") || !strings.Contains(out, "151 days missing") {
		t.Errorf("a year that is not over:\n%s", out)
	}
	out := d.must("weather", "show", "USC00999999")
	for _, w := range []string{
		"first fall 24 °F        1   305.00   none", // one fall is whole, and one year has no deviation
		"–        –  151 days missing\n",            // the clocks of a year that begins in June
		"27 May    4 Jun  122 days missing\n",
	} {
		if !strings.Contains(out, w) {
			t.Errorf("it does not show %q:\n%s", w, out)
		}
	}
	if out := d.must("weather", "show", "USC00999999", "--from", "2023"); !strings.Contains(out, "first fall 32 °F        0     none   none    none") {
		t.Errorf("no fall of 2023 is whole, shown is:\n%s", out)
	}
}

// The freeze dates and sums were computed in R 4.2.2 and, separately, in Python from the same public
// record, the daily archive's station USW00014839 (Milwaukee), 1971 to 2020.
func TestTheLongRecordGivesItsCheckedSums(t *testing.T) {
	folder := os.Getenv("HAYWARDEN_DATA")
	if folder == "" {
		storetest.Lacking(t, "HAYWARDEN_DATA is not set: the long public record is not here")
	}
	d := newDesk(t)
	d.must("weather", "import", filepath.Join(folder, "USW00014839.dly"))
	for _, file := range []string{"USW00014839.dly", "USW00014839_2016_2020.csv"} {
		if out := d.must("weather", "import", filepath.Join(folder, file)); !strings.Contains(out, "Nothing changed") {
			t.Errorf("%s: changed what was there: %q", file, out)
		}
	}
	show := func(args ...string) (sum office.StationSummary) {
		t.Helper()
		if err := json.Unmarshal([]byte(d.must(append([]string{"weather", "show", "USW00014839", "--json"}, args...)...)), &sum); err != nil {
			t.Fatal(err)
		}
		return sum
	}
	t.Run("heat of each year", func(t *testing.T) {
		want := table(t, filepath.Join(folder, "check_milwaukee_dd_annual.csv"))
		sum := show()
		if len(sum.Heat) != len(want) || len(want) != 50 {
			t.Fatalf("%d years of heat, want %d, which are 50", len(sum.Heat), len(want))
		}
		for i, y := range sum.Heat {
			for col, got := range map[string]float64{"y": float64(y.Year), "dd41avg": y.Average41F, "dd48ss": y.Sine48F, "dd5css": y.Sine5C} {
				if w := want[i][col]; math.Abs(got-w) > 1e-6 { // to the last digit of the table
					t.Errorf("%d %s: %.6f, want %.6f", y.Year, col, got, w)
				}
			}
			if y.Missing != 0 {
				t.Errorf("%d: %d days missing", y.Year, y.Missing)
			}
		}
	})
	t.Run("days the clocks reach", func(t *testing.T) {
		for _, y := range show().Heat {
			want, ok := map[int][2]string{1988: {"05-22", "05-30"}, 2012: {"05-02", "05-14"}, 2019: {"05-27", "06-04"}, 2020: {"05-27", "06-04"}}[y.Year]
			if got := [2]string{y.Weevil.String()[5:], y.Bud.String()[5:]}; ok && got != want {
				t.Errorf("%d: 300 and 700 reached on %v, want %v", y.Year, got, want)
			}
		}
	})
	t.Run("freezes", func(t *testing.T) { checkFreezes(t, folder, show("--from", "1991", "--to", "2020")) })
	t.Run("as printed", func(t *testing.T) {
		out := d.must("weather", "show", "USW00014839", "--from", "1991", "--to", "2020")
		for _, line := range []string{
			"last spring 32 °F      30   112.73  11.11", "last spring 28 °F      30    95.73  10.02", "last spring 24 °F      30    88.67   9.81",
			"first fall 32 °F       30   295.80  13.45", "first fall 28 °F       30   311.67  10.76", "first fall 24 °F       30   319.00  10.80",
			"2012       5169.0       3738.9       2933.3    2 May   14 May\n", "2020       4739.5       3450.8       2710.7   27 May    4 Jun\n",
		} {
			if !strings.Contains(out, line) {
				t.Errorf("it does not print %q:\n%s", line, out)
			}
		}
	})
}

// checkFreezes compares six freezes with the days of each year, their mean and deviation, and percentiles
// by Weibull's plotting position, (n + 1) p, reckoned here from the days of the table.
func checkFreezes(t *testing.T, folder string, sum office.StationSummary) {
	t.Helper()
	want := table(t, filepath.Join(folder, "check_milwaukee_freeze_1991_2020.csv"))
	stats := []struct {
		column   string
		mean, sd float64
	}{
		{"ls32", 112.7333, 11.107417}, {"ls28", 95.7333, 10.023880}, {"ls24", 88.6667, 9.809683},
		{"ff32", 295.8, 13.453368}, {"ff28", 311.6667, 10.761789}, {"ff24", 319, 10.799106},
	}
	if len(sum.Freezes) != len(stats) || len(want) != 30 {
		t.Fatalf("%d freezes and %d years, want %d and 30", len(sum.Freezes), len(want), len(stats))
	}
	for i, s := range stats {
		f := sum.Freezes[i]
		if f.Years != 30 || f.Mean == nil || f.SD == nil || math.Abs(*f.Mean-s.mean) > 5e-5 || math.Abs(*f.SD-s.sd) > 5e-7 {
			t.Errorf("%s: %+v, want 30 years, mean %.4f, sd %.6f", f.Name, f, s.mean, s.sd)
		}
		var days []float64
		for y, row := range want {
			days = append(days, row[s.column])
			if got := f.Days[y]; float64(got.Year) != row["year"] || float64(got.DOY) != row[s.column] {
				t.Errorf("%s: %+v, want day %g of %g", f.Name, got, row[s.column], row["year"])
			}
		}
		slices.Sort(days)
		at := func(p float64) string {
			h := p * float64(len(days)+1)
			k := int(h)
			return fmt.Sprintf("%.1f", days[k-1]+(h-float64(k))*(days[k]-days[k-1]))
		}
		p := [3]string{at(0.1), at(0.5), at(0.9)}
		if strings.HasPrefix(s.column, "ls") { // of spring, the chance that one is still to come
			p = [3]string{at(0.9), at(0.5), at(0.1)}
		}
		if got := [3]string{f.P10, f.P50, f.P90}; got != p {
			t.Errorf("%s: percentiles %v, want %v", f.Name, got, p)
		}
	}
}

// table reads a CSV of numbers.
func table(t *testing.T, path string) []map[string]float64 {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]float64
	for _, r := range rows[1:] {
		m := map[string]float64{}
		for i, name := range rows[0] {
			if m[name], err = strconv.ParseFloat(r[i], 64); err != nil {
				t.Fatal(err)
			}
		}
		out = append(out, m)
	}
	return out
}
