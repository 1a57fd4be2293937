package trial

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"testing"
)

// sheet is a table of a published trial.
type sheet struct {
	head []string
	rows [][]string
}

// published reads a set that is not committed (their packages are under the GPL, or they came from a
// repository snapshot): HAYWARDEN_DATA names the folder.
func published(t testing.TB, name string) sheet {
	t.Helper()
	dir := os.Getenv("HAYWARDEN_DATA")
	if dir == "" {
		t.Skipf("HAYWARDEN_DATA is not set: the published trial %s is not committed; set it to the folder that holds it", name)
	}
	f, err := os.Open(filepath.Join(dir, name))
	if err != nil {
		t.Skipf("the published trial is not here: %v", err)
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return sheet{all[0], all[1:]}
}

func (s sheet) without(rows ...int) sheet {
	var kept [][]string
	for i, r := range s.rows {
		if !slices.Contains(rows, i+1) {
			kept = append(kept, r)
		}
	}
	return sheet{s.head, kept}
}

func (s sheet) words(name string) []string {
	j := slices.Index(s.head, name)
	var w []string
	for _, r := range s.rows {
		w = append(w, r[j])
	}
	return w
}

func (s sheet) factor(name string) Factor { return NewFactor(name, s.words(name)) }

func (s sheet) values(t testing.TB, name string) []float64 {
	t.Helper()
	var v []float64
	for _, w := range s.words(name) {
		x, err := strconv.ParseFloat(w, 64)
		if err != nil {
			t.Fatal(err)
		}
		v = append(v, x)
	}
	return v
}

func near(got, want, relative float64) bool {
	return math.Abs(got-want) <= relative*math.Max(math.Abs(want), 1e-300)
}

// check compares with a printed value: to the tolerance, but never finer than the last printed digit.
func check(t *testing.T, what string, got, want, relative, digit float64) {
	t.Helper()
	if !near(got, want, relative) && math.Abs(got-want) > digit {
		t.Errorf("%s: %.12g, want %.12g", what, got, want)
	}
}
