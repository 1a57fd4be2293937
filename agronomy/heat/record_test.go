package heat

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"
)

// dataDir is where records stand that may be used but not committed. Without it their tests are
// skipped.
func dataDir(tb testing.TB) string {
	tb.Helper()
	dir := os.Getenv("HAYWARDEN_DATA")
	if dir == "" {
		tb.Skip("HAYWARDEN_DATA is not set: the records of Milwaukee (GHCN-Daily USW00014839) and the hourly normals of Seattle are not committed; set it to the folder that holds them")
	}
	return dir
}

// table is a CSV file with a header.
type table struct {
	tb   testing.TB
	name string
	at   map[string]int
	rows [][]string
}

func readTable(tb testing.TB, name string) table {
	tb.Helper()
	f, err := os.Open(name)
	if err != nil {
		tb.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		tb.Fatal(err)
	}
	t := table{tb: tb, name: name, at: map[string]int{}, rows: rows[1:]}
	for i, column := range rows[0] {
		t.at[column] = i
	}
	return t
}

func (t table) word(row int, column string) string {
	t.tb.Helper()
	i, ok := t.at[column]
	if !ok {
		t.tb.Fatalf("%s has no column %s", t.name, column)
	}
	return t.rows[row][i]
}

func (t table) number(row int, column string) float64 {
	t.tb.Helper()
	v, err := strconv.ParseFloat(t.word(row, column), 64)
	if err != nil {
		t.tb.Fatalf("%s row %d, %s: %v", t.name, row+2, column, err)
	}
	return v
}

// record is a station's temperatures by day.
type record struct {
	date       []time.Time
	minC, maxC []float64
	minF, maxF []float64 // whole degrees as read; empty where the record has none
	firstOf    map[int]int
}

func (r *record) add(tb testing.TB, date string) {
	tb.Helper()
	d, err := time.Parse(time.DateOnly, date)
	if err != nil {
		tb.Fatal(err)
	}
	if r.firstOf == nil {
		r.firstOf = map[int]int{}
	}
	if _, seen := r.firstOf[d.Year()]; !seen {
		r.firstOf[d.Year()] = len(r.date)
	}
	r.date = append(r.date, d)
}

// between returns the places of two days of a year, both included.
func (r *record) between(year int, m1 time.Month, d1 int, m2 time.Month, d2 int) (from, to int) {
	doy := func(m time.Month, d int) int { return time.Date(year, m, d, 0, 0, 0, 0, time.UTC).YearDay() }
	return r.firstOf[year] + doy(m1, d1) - 1, r.firstOf[year] + doy(m2, d2)
}

func milwaukee(tb testing.TB) *record {
	tb.Helper()
	t := readTable(tb, filepath.Join(dataDir(tb), "weather_milwaukee_1971_2020.csv"))
	r := &record{}
	for i := range t.rows {
		r.add(tb, t.word(i, "date"))
		r.minC, r.maxC = append(r.minC, t.number(i, "tmin_c")), append(r.maxC, t.number(i, "tmax_c"))
		r.minF, r.maxF = append(r.minF, t.number(i, "tmin_f")), append(r.maxF, t.number(i, "tmax_f"))
	}
	return r
}

// coasts is the committed record of Seattle and New York.
func coasts(tb testing.TB) map[string]*record {
	tb.Helper()
	t := readTable(tb, "testdata/weather_seattle_newyork_2012_2015.csv")
	places := map[string]*record{}
	for i := range t.rows {
		place := t.word(i, "location")
		if places[place] == nil {
			places[place] = &record{}
		}
		r := places[place]
		r.add(tb, t.word(i, "date"))
		r.minC, r.maxC = append(r.minC, t.number(i, "temp_min")), append(r.maxC, t.number(i, "temp_max"))
	}
	return places
}

func total(tb testing.TB, s Spec, tmin, tmax []float64) float64 {
	tb.Helper()
	daily, err := s.Days(tmin, tmax)
	if err != nil {
		tb.Fatal(err)
	}
	var sum float64
	for _, dd := range daily {
		sum += dd
	}
	return sum
}

func near(a, b, tolerance float64) bool { return math.Abs(a-b) <= tolerance }
