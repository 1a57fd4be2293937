package demo

import (
	"bytes"
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"testing"
	"time"

	"gonum.org/v1/gonum/stat"

	"haywarden/agronomy/unit"
	"haywarden/weather"
)

// seeds are tried wherever a law must hold for the generator and not for one draw.
var seeds = []uint64{Seed, 1, 7, 2026}

// records returns the series of a seed as a reader of the book gets them, by station.
func records(t *testing.T, seed uint64) []*weather.Series {
	t.Helper()
	d, err := Make(seed)
	if err != nil {
		t.Fatal(err)
	}
	var out []*weather.Series
	for _, st := range d.Stations {
		var blocks []*weather.Block
		for y := firstDay.Year(); y <= lastDay.Year(); y++ {
			blocks = append(blocks, last(d, st.ID, y))
		}
		out = append(out, weather.NewSeries(st, blocks, lastDay))
	}
	return out
}

// last is the newest delivery of a station-year.
func last(d District, station string, year int) *weather.Block {
	var b *weather.Block
	for _, w := range d.Weather {
		if w.Block.Station == station && w.Block.Year == year {
			b = w.Block
		}
	}
	return b
}

// monthly collects the known values of a month over all years.
func monthly(s *weather.Series, values []float64, m time.Month) []float64 {
	var out []float64
	for i, v := range values {
		if (s.First+unit.Day(i)).Month() == m && !math.IsNaN(v) {
			out = append(out, v)
		}
	}
	return out
}

// dates returns, sorted and as days of a leap year, when something first (or last) happened in each
// year from a day of the year on; years in which it did not are left out.
func dates(s *weather.Series, from, to time.Month, latest bool, happened func(i int) bool) []float64 {
	var out []float64
	for y := firstDay.Year(); y <= lastDay.Year(); y++ {
		found := -1
		for d := unit.DateOf(y, from, 1); d < unit.DateOf(y, to+1, 1); d++ {
			if i, _ := s.Index(d); happened(i) && (found < 0 || latest) {
				found = leapDay(d)
			}
		}
		if found >= 0 {
			out = append(out, float64(found))
		}
	}
	slices.Sort(out)
	return out
}

func leapDate(m time.Month, day int) float64 { return float64(leapDay(unit.DateOf(2024, m, day))) }

func TestClimateLiesWithinTheUpperMidwest(t *testing.T) {
	// Levels of temperature and precipitation: 1991-2020 normals of inland southern Wisconsin and its
	// neighbours, from memory. First fall 24 F: medians of NOAA normals tables for Medford, Mauston,
	// Menomonie and Dalton WI and Ames IA lie from 16 to 29 October, their spreads from 9 to 15 days
	// ((90 % - 10 %) / 2.56); the edges leave the sampling error of 36 years, 3 days.
	// Heat: 750 F-days base 41 F (Michigan State Univ. Extension) come in the last third of May in
	// southern Wisconsin, a week later in the north, from memory.
	for _, seed := range seeds {
		for _, s := range records(t, seed) {
			name := s.Station.Name
			low24 := func(i int) bool { return s.TMinF[i] <= 24 }
			fall := dates(s, time.August, time.December, false, low24)
			spring := dates(s, time.January, time.July, true, func(i int) bool { return s.TMinF[i] <= 28 })
			heat := heatDates(s)
			rain := 0.0
			for _, v := range s.RainMM {
				if !math.IsNaN(v) {
					rain += v / 25.4 / 36
				}
			}
			for _, c := range []struct {
				what        string
				got         float64
				least, most float64
			}{
				{"July mean maximum, F", stat.Mean(monthly(s, s.TMaxF, time.July), nil), 80, 84},
				{"January mean minimum, F", stat.Mean(monthly(s, s.TMinF, time.January), nil), 5, 12},
				{"precipitation of a year, in", rain, 29.5, 37},
				{"snow on the ground in January, in", stat.Mean(monthly(s, s.DepthMM, time.January), nil) / 25.4, 3, 9},
				{"median first fall 24 F", stat.Quantile(.5, stat.Empirical, fall, nil), leapDate(time.October, 13), leapDate(time.November, 2)},
				{"spread of first fall 24 F, days", (quantile(fall, .9) - quantile(fall, .1)) / 2.563, 7, 17},
				{"median last spring 28 F", quantile(spring, .5), leapDate(time.April, 19), leapDate(time.May, 8)},
				{"median of 750 F-days", quantile(heat, .5), leapDate(time.May, 24), leapDate(time.June, 4)},
				{"early 750 F-days", quantile(heat, .1), leapDate(time.May, 14), leapDate(time.May, 28)},
				{"late 750 F-days", quantile(heat, .9), leapDate(time.June, 1), leapDate(time.June, 17)},
			} {
				if c.got < c.least || c.got > c.most {
					t.Errorf("seed %d, %s: %s is %.1f, want %.1f to %.1f", seed, name, c.what, c.got, c.least, c.most)
				}
			}
		}
	}
}

func quantile(sorted []float64, p float64) float64 {
	return stat.Quantile(p, stat.LinInterp, sorted, nil)
}

// heatDates are the days on which 750 F-days over 41 F from 1 March were reached.
func heatDates(s *weather.Series) []float64 {
	sum := make([]float64, s.Len())
	for i := range sum {
		if d := s.First + unit.Day(i); d.Month() >= time.March && d.YearDay() > 60 && i > 0 {
			sum[i] = sum[i-1]
			if v := (s.TMaxF[i]+s.TMinF[i])/2 - 41; v > 0 {
				sum[i] += v
			}
		}
	}
	return dates(s, time.March, time.August, false, func(i int) bool { return sum[i] >= 750 })
}

func TestYearsAndStationsVaryTogetherAndApart(t *testing.T) {
	for _, seed := range seeds {
		all := records(t, seed)
		for m := time.January; m <= time.December; m++ {
			r := anomalyCorrelation(all[0], all[1], m)
			if r < 0.85 || r > 0.99 {
				t.Errorf("seed %d, %s: correlation of daily means of two stations %.3f, want .85 to .99", seed, m, r)
			}
		}
		var years []float64
		for y := firstDay.Year(); y <= lastDay.Year(); y++ {
			sum, n := 0.0, 0.0
			for d := unit.DateOf(y, time.January, 1); d.Year() == y; d++ {
				if all[0].HasTemperature(d) {
					i, _ := all[0].Index(d)
					sum, n = sum+(all[0].TMaxF[i]+all[0].TMinF[i])/2, n+1
				}
			}
			years = append(years, sum/n)
		}
		// Annual means of Midwest stations spread by 1.5 to 2 F (from memory).
		if sd := stat.StdDev(years, nil); sd < 1.1 || sd > 2.4 {
			t.Errorf("seed %d: annual means spread by %.2f F, want 1.1 to 2.4", seed, sd)
		}
	}
}

// anomalyCorrelation correlates the daily means of a month at two stations.
func anomalyCorrelation(a, b *weather.Series, m time.Month) float64 {
	var x, y []float64
	for i := range a.TMaxF {
		va, vb := a.TMaxF[i]+a.TMinF[i], b.TMaxF[i]+b.TMinF[i]
		if (a.First+unit.Day(i)).Month() == m && !math.IsNaN(va+vb) {
			x, y = append(x, va), append(y, vb)
		}
	}
	return stat.Correlation(x, y, nil)
}

// weatherLaw is how a record behaves from day to day in a month.
type weatherLaw struct{ persistence, spread, wet, afterDry, afterWet float64 }

func lawOf(s *weather.Series, m time.Month) weatherLaw {
	mean := make([]float64, s.Len())
	for i := range mean {
		mean[i] = (s.TMaxF[i] + s.TMinF[i]) / 2
	}
	var today, next []float64
	var n, wet, dryWet, wetWet, dry float64
	for i := 0; i+1 < s.Len(); i++ {
		if (s.First + unit.Day(i)).Month() != m {
			continue
		}
		if !math.IsNaN(mean[i] + mean[i+1]) {
			today, next = append(today, mean[i]), append(next, mean[i+1])
		}
		if math.IsNaN(s.RainMM[i] + s.RainMM[i+1]) {
			continue
		}
		n++
		after := 0.0
		if s.RainMM[i+1] >= 0.25 {
			after = 1
		}
		if s.RainMM[i] >= 0.25 {
			wet, wetWet = wet+1, wetWet+after
		} else {
			dry, dryWet = dry+1, dryWet+after
		}
	}
	return weatherLaw{stat.Correlation(today, next, nil), stat.StdDev(today, nil), wet / n, dryWet / dry, wetWet / wet}
}

func TestDayToDayLawsAreThoseOfARealRecord(t *testing.T) {
	// Milwaukee 1971-2020 (NOAA GHCN-Daily USW00014839), which stands on a lake shore: the edges are
	// wide enough for the lake and tight enough to fail a generator without memory or seasons.
	record := milwaukee(t)
	made := records(t, Seed)[0]
	for m := time.January; m <= time.December; m++ {
		want, got := lawOf(record, m), lawOf(made, m)
		for _, c := range []struct {
			what            string
			got, want, edge float64
		}{
			{"persistence of the daily mean", got.persistence, want.persistence, .13},
			{"spread of the daily mean, F", got.spread, want.spread, 2.2},
			{"share of wet days", got.wet, want.wet, .08},
			{"wet after dry", got.afterDry, want.afterDry, .09},
			{"wet after wet", got.afterWet, want.afterWet, .11},
		} {
			if math.Abs(c.got-c.want) > c.edge {
				t.Errorf("%s: %s is %.3f, in the real record %.3f", m, c.what, c.got, c.want)
			}
		}
	}
}

// milwaukee reads the real record, which is not part of this project.
func milwaukee(t *testing.T) *weather.Series {
	t.Helper()
	dir := os.Getenv("HAYWARDEN_DATA")
	if dir == "" {
		t.Skip("HAYWARDEN_DATA does not name a folder with weather_milwaukee_1971_2020.csv")
	}
	data, err := os.ReadFile(filepath.Join(dir, "weather_milwaukee_1971_2020.csv"))
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var blocks []*weather.Block
	for _, row := range rows[1:] {
		d := day(row[0])
		if len(blocks) == 0 || blocks[len(blocks)-1].Year != d.Year() {
			blocks = append(blocks, weather.NewBlock("real", d.Year()))
		}
		o := blocks[len(blocks)-1].On(d)
		for e, column := range map[weather.Element]int{weather.TMax: 1, weather.TMin: 2, weather.Rain: 5} {
			if v, err := strconv.ParseFloat(row[column], 64); err == nil {
				o.Value[e], o.Mark[e] = int16(math.Round(v*10)), weather.Reported
			}
		}
	}
	return weather.NewSeries(weather.Station{ID: "real", WholeF: true}, blocks, unit.DateOf(2020, time.December, 31))
}
