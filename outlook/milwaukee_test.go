package outlook

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"testing"
	"time"

	"haywarden/agronomy/heat"
	"haywarden/agronomy/unit"
	"haywarden/weather"
)

// rows reads a file that may be used but not committed, a row a map by column.
func rows(t *testing.T, name string) []map[string]string {
	t.Helper()
	dir := os.Getenv("HAYWARDEN_DATA")
	if dir == "" {
		t.Skip("HAYWARDEN_DATA is not set: the Milwaukee record (GHCN-Daily USW00014839) is not committed; set it to the folder that holds " + name)
	}
	f, err := os.Open(filepath.Join(dir, name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, r := range all[1:] {
		row := map[string]string{}
		for i, name := range all[0] {
			row[name] = r[i]
		}
		out = append(out, row)
	}
	return out
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// milwaukee is the fifty-year record of a station whose observers read whole degrees F.
func milwaukee(t *testing.T) *weather.Series {
	t.Helper()
	const id = "USW00014839"
	byYear := map[int]*weather.Block{}
	for _, r := range rows(t, "weather_milwaukee_1971_2020.csv") {
		d, err := unit.ParseDay(r["date"])
		if err != nil {
			t.Fatal(err)
		}
		b := byYear[d.Year()]
		if b == nil {
			b = weather.NewBlock(id, d.Year())
			byYear[d.Year()] = b
		}
		o := b.On(d)
		for e, column := range map[weather.Element]string{weather.TMax: "tmax_c", weather.TMin: "tmin_c", weather.Rain: "prcp_mm"} {
			o.Value[e], o.Mark[e] = int16(math.Round(10*number(t, r[column]))), weather.Reported
		}
	}
	var blocks []*weather.Block
	for _, b := range byYear {
		blocks = append(blocks, b)
	}
	return weather.NewSeries(weather.Station{ID: id, Name: "Milwaukee Mitchell Airport", WholeF: weather.ReadsWholeF(id)}, blocks, unit.DateOf(2020, 12, 31))
}

// A clock through 30 December and the heat of the 31st are the year's sum as R has it.
// [source.MilwaukeeSums]
func TestMilwaukeeClocksAreItsYearSums(t *testing.T) {
	series := milwaukee(t)
	checked := 0
	for _, r := range rows(t, "check_milwaukee_dd_annual.csv") {
		year := int(number(t, r["y"]))
		date := unit.DateOf(year, time.December, 31)
		sky := NewSky(series, date, SkyOptions{})
		i, _ := series.Index(date)
		for _, c := range []struct {
			clock Clock
			want  string
		}{
			{sky.Heat48, r["dd48ss"]},
			{sky.HeatSince(unit.DateOf(year, time.January, 1), heat.FirstCut()), r["dd41avg"]},
		} {
			got := c.clock.Now() + c.clock.Spec.Day(series.TMinF[i], series.TMaxF[i])
			if math.Abs(got-number(t, c.want)) > 1e-6 {
				t.Errorf("%d above %g F: %.6f, want %s", year, c.clock.Spec.Base, got, c.want)
			}
		}
		checked++
	}
	if checked != 50 {
		t.Errorf("%d years checked, want 50", checked)
	}
}

// The first fall freezes of 1991-2020 are those found in Python. [source.MilwaukeeSums]
func TestMilwaukeeFreezesAreItsYears(t *testing.T) {
	record := milwaukee(t).Between(unit.DateOf(1991, 1, 1), unit.DateOf(2020, 12, 31))
	sky := NewSky(record, unit.DateOf(2021, 2, 1), SkyOptions{})
	for column, f := range map[string]Freeze{"ff24": sky.Fall24, "ff28": sky.Fall28} {
		var want []float64
		for _, r := range rows(t, "check_milwaukee_freeze_1991_2020.csv") {
			want = append(want, number(t, r[column]))
		}
		slices.Sort(want)
		if f.Years != 30 || !slices.Equal(f.DOY, want) {
			t.Errorf("%s: %d years, %v\nwant %v", column, f.Years, f.DOY, want)
		}
	}
}

// What the outlook takes from the record is what the record itself answers.
func TestMilwaukeeSkyAgreesWithItsSeries(t *testing.T) {
	series := milwaukee(t)
	for _, year := range []int{1980, 1999, 2012, 2020} {
		date := unit.DateOf(year, time.June, 10)
		sky := NewSky(series, date, SkyOptions{})
		for _, c := range []Clock{sky.Heat41, sky.Heat48} {
			sums := series.Until(date-1).HeatF(c.Spec, c.From)
			for i, got := range c.Sum {
				if math.Abs(got-sums[i]) > 1e-9 {
					t.Fatalf("%s, %g F, day %d: %.9f, record %.9f", date, c.Spec.Base, i, got, sums[i])
				}
			}
			if len(c.Past) != year-1971 {
				t.Errorf("%s: %d past years, want %d", date, len(c.Past), year-1971)
			}
		}
		years := 0
		for _, e := range series.FirstFall(24) {
			if e.Year < year && e.Valid {
				years++
			}
		}
		if sky.Fall24.Years != years {
			t.Errorf("%s: freezes of %d years, record %d", date, sky.Fall24.Years, years)
		}
	}
}
