package water

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"
)

// table is a CSV file with a header, read from the folder of records that may be used but not
// committed. Without it the tests that want it are skipped.
type table struct {
	tb   testing.TB
	name string
	at   map[string]int
	rows [][]string
}

func record(tb testing.TB, name string) table {
	tb.Helper()
	dir := os.Getenv("HAYWARDEN_DATA")
	if dir == "" {
		tb.Skip("HAYWARDEN_DATA is not set: the records of Milwaukee (GHCN-Daily USW00014839) and Greensboro (NREL TMY3 723170) are not committed; set it to the folder that holds " + name)
	}
	f, err := os.Open(filepath.Join(dir, name))
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

func near(a, b, tolerance float64) bool { return math.Abs(a-b) <= tolerance }

// want compares a number with a printed one.
func want(tb testing.TB, what string, got, printed, tolerance float64) {
	tb.Helper()
	if !near(got, printed, tolerance) {
		tb.Errorf("%s: %.10g, want %g within %g", what, got, printed, tolerance)
	}
}
